//! The list of revisions: oldest first, and the one issued last.

use super::about::each;
use super::fault::Fault;
use super::keys::Part;
use super::model::{Change, Date, Placed, Revision, order_of_marks};
use super::reader::{Form, Reader};
use std::cmp::Ordering;

/// A revision as far as it could be read.
struct Listed {
    mark: Option<Placed<String>>,
    date: Option<Placed<Date>>,
    whole: Option<Revision>,
}

/// Reads the list, and compares it with the revision issued, where the file names one.
pub(super) fn read(reader: &mut Reader, form: &Form, issued: Option<&Placed<String>>) -> Vec<Revision> {
    let listed = each(reader, form, "revisions", Part::Revision, |reader, form| Some(revision(reader, form)));
    ascending(reader, &listed);
    let last = listed.last().and_then(|last| last.mark.as_ref());
    // Where the file does not name the revision issued, it is A; a revision that could not be read has been told of.
    let issued = issued.map(|mark| (mark.value.as_str(), Some(mark.span)));
    let issued = issued.or_else(|| (!form.says("revision")).then_some(("A", None)));
    if let (Some((mark, span)), Some(last)) = (issued, last)
        && mark != last.value
    {
        let fault = Fault::RevisionNotLast { revision: mark.to_owned(), last: last.value.clone() };
        let at = fault.at(span.unwrap_or(last.span));
        reader.told(if span.is_some() { at.with_place(last.span, "the last revision listed") } else { at });
    }
    listed.into_iter().filter_map(|listed| listed.whole).collect()
}

/// Neighbors in the list whose marks or dates do not ascend.
fn ascending(reader: &mut Reader, listed: &[Listed]) {
    for pair in listed.windows(2) {
        if let (Some(before), Some(mark)) = (&pair[0].mark, &pair[1].mark) {
            let order = order_of_marks(&before.value, &mark.value);
            if before.value == mark.value || order.is_some_and(|order| order != Ordering::Less) {
                reader.fault(&Fault::RevisionOrder { mark: mark.value.clone(), before: before.value.clone() }, mark.span);
            }
        }
        if let (Some(before), Some(date)) = (&pair[0].date, &pair[1].date)
            && date.value < before.value
        {
            reader.fault(&Fault::RevisionDate { date: date.value.to_string(), before: before.value.to_string() }, date.span);
        }
    }
}

fn revision(reader: &mut Reader, form: &Form) -> Listed {
    let (mark, date, note) = (reader.placed_text(form, "mark"), reader.placed_date(form, "date"), reader.text(form, "note"));
    let changes = each(reader, form, "changes", Part::Change, change);
    let whole = mark.as_ref().zip(date.as_ref()).zip(note).map(|((mark, date), note)| Revision {
        mark: mark.value.clone(),
        date: date.value,
        note,
        changes,
    });
    Listed { mark, date, whole }
}

fn change(reader: &mut Reader, form: &Form) -> Option<Change> {
    let (of, why, who) = (reader.text(form, "of"), reader.text(form, "why"), reader.text(form, "who"));
    Some(Change { of: of?, why: why?, who: who? })
}
