//! The `job` part: title, people, dates, revisions.

use super::fault::Fault;
use super::keys::{Kind, Part};
use super::model::{About, Assumption, CodeName, Confirmed, ConfirmedWarning, Deferred, Paper, Purpose};
use super::profile::Profile;
use super::reader::{Form, Reader};
use super::revisions;
use super::taken::Taken;
use crate::yaml::Node;

/// Reads the `job` part; none where something needed is missing or wrong.
pub(super) fn read(reader: &mut Reader, node: &Node, place: &Profile, taken: &mut Taken) -> Option<About> {
    let form = reader.form(node, Part::About)?;
    let title = reader.text(&form, "title");
    let date = reader.date(&form, "date");
    let issued_for = match reader.word(&form, "issued-for").map(|word| word.value) {
        Some("permit") => Purpose::Permit,
        Some("record") => Purpose::Record,
        Some(_) => Purpose::Review,
        None => {
            taken.job("Issued for review; the job file does not say for what.");
            Purpose::Review
        }
    };
    let paper = match reader.word(&form, "paper").map(|word| word.value) {
        Some("A4") => Paper::A4,
        Some(_) => Paper::Letter,
        None if place.paper.as_ref().is_some_and(|rule| rule.value == "A4") => Paper::A4,
        None if reader.code == Some(CodeName::European) => Paper::A4,
        None => Paper::Letter,
    };
    let revision = reader.placed_text(&form, "revision");
    let revisions = revisions::read(reader, &form, revision.as_ref());
    let revision = revision.map(|mark| mark.value).unwrap_or_else(|| {
        taken.job("Revision A; the job file gives no revision.");
        "A".to_owned()
    });
    let assumptions = each(reader, &form, "assumptions", Part::Assumption, assumption_of);
    let deferred = each(reader, &form, "deferred", Part::Deferred, deferred_of);
    let (confirmed, confirmed_warnings) = confirmed_of(reader, &form);
    let checked_on = reader.date(&form, "checked-on");
    for (given, other) in [("checked-by", "checked-on"), ("checked-on", "checked-by")] {
        if let (Some(entry), None, Some(key)) = (form.entry(given), form.entry(other), Part::About.keys().find(|key| key.name == other)) {
            reader.fault(&Fault::MissingKey { key }, entry.key_span);
        }
    }
    Some(About {
        number: reader.text(&form, "number"),
        site: reader.text(&form, "site"),
        client: reader.text(&form, "client"),
        firm: reader.text(&form, "firm"),
        prepared_by: reader.text(&form, "prepared-by"),
        checked_by: reader.text(&form, "checked-by"),
        checked_on,
        issued_for,
        paper,
        revision,
        revisions,
        assumptions,
        deferred,
        confirmed,
        confirmed_warnings,
        title: title?,
        date: date?,
    })
}

/// Every entry of a list of maps under a key.
pub(super) fn each<T>(
    reader: &mut Reader,
    form: &Form,
    name: &'static str,
    part: Part,
    read: fn(&mut Reader, &Form) -> Option<T>,
) -> Vec<T> {
    let Some(node) = form.node(name) else { return Vec::new() };
    let mut all = Vec::new();
    for item in reader.list(node, name, &Kind::Map(part)) {
        if let Some(form) = reader.form(item, part) {
            all.extend(read(reader, &form));
        }
    }
    all
}

fn assumption_of(reader: &mut Reader, form: &Form) -> Option<Assumption> {
    let text = reader.text(form, "text");
    let confirm = reader.text(form, "confirm");
    let open = reader.yes_no(form, "open").unwrap_or(confirm.is_some());
    let members = reader.texts(form, "members");
    Some(Assumption { text: text?, confirm, open, members })
}

fn deferred_of(reader: &mut Reader, form: &Form) -> Option<Deferred> {
    let (id, text, by) = (reader.text(form, "id"), reader.text(form, "text"), reader.text(form, "by"));
    Some(Deferred { id: id?, text: text?, by })
}

/// Tables and warnings that somebody confirmed.
fn confirmed_of(reader: &mut Reader, form: &Form) -> (Vec<Confirmed>, Vec<ConfirmedWarning>) {
    let mut all = (Vec::new(), Vec::new());
    let Some(node) = form.node("confirmed") else { return all };
    for item in reader.list(node, "confirmed", &Kind::Map(Part::Confirmed)) {
        let Some(form) = reader.form(item, Part::Confirmed) else { continue };
        let (table, warning) = (reader.placed_text(&form, "table"), reader.placed_text(&form, "warning"));
        let (by, date) = (reader.text(&form, "by"), reader.date(&form, "date"));
        match (form.key_span("table"), form.key_span("warning")) {
            (Some(_), Some(second)) => reader.fault(&Fault::ConfirmsTwo, second),
            (None, None) => reader.fault(&Fault::ConfirmsNothing, item.span),
            _ => {}
        }
        let Some((by, date)) = by.zip(date) else { continue };
        all.0.extend(table.map(|table| Confirmed { table, by: by.clone(), date }));
        all.1.extend(warning.map(|key| ConfirmedWarning { key, by, date }));
    }
    all
}
