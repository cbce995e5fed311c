//! Built-up columns: what of NDS 15.3 the job file can tell, and what the sheet says of the nails or bolts that it cannot.

use super::fault::Fault;
use super::{section, tables};
use crate::codes::Read;
use crate::job::model::{Member as Entry, Standing as Asked, Use};
use crate::text::Faults;
use crate::units::{Length, Ratio, decimals};

/// K_f of a built-up column, after the conditions of its clause that the job file can tell.
pub(super) fn factor(entry: &Entry, asked: &Asked, b: Length, read: &mut Vec<Read>, faults: &mut Faults) -> f64 {
    let plies = entry.plies.value;
    let Some(joined) = asked.joined else {
        if plies > 1 && entry.role != Use::Tie {
            faults.push(Fault::PliesNotJoined.at(entry.plies.span));
        }
        return 1.0;
    };
    if plies == 1 {
        faults.push(Fault::OnePlyJoined.at(entry.mark.span));
        return 1.0;
    }
    let row = tables::BUILT_UP.row(&[("joined", joined.word())]);
    let least: Option<Length> = row.as_ref().and_then(|r| r.quantity("thickness_from")).map(|f| f.value);
    let most = row.as_ref().and_then(|r| r.number("plies_to")).map_or(f64::NAN, |f| f.value);
    if !least.is_some_and(|least| (b / f64::from(plies)).at_least(least)) || f64::from(plies) > most {
        faults.push(Fault::PliesTooThin.at(entry.section.span));
    }
    Read::keep(row.and_then(|r| r.number("K_f")), read)
}

/// What nails or bolts have to keep to, as a note: they are not in the job file, and are not checked. NDS 15.3.3, 15.3.4.
pub(super) fn fasteners(entry: &Entry, asked: &Asked, b: Length, d: Length, read: &mut Vec<Read>) -> Option<String> {
    let joined = asked.joined?;
    let row = tables::BUILT_UP_FASTENERS.row(&[("joined", joined.word())])?;
    let mut number = |column: &str| row.number(column).map(|found| Read::keep(Some(found), read));
    let plain = |value: f64| decimals(value, 1).trim_end_matches('0').trim_end_matches('.').to_owned();
    let ply = b / f64::from(entry.plies.value);
    let times = |plies: f64| ply * Ratio::new(plies);
    let spacing = times(number("spacing_plies")?);
    let between = times(number("two_rows_plies")?);
    let mut range = |least: &str, most: &str| Some(format!("{} to {}", plain(number(least)?), plain(number(most)?)));
    let (end, rows, edge) = (range("end_least", "end_most")?, range("rows_least", "rows_most")?, range("edge_least", "edge_most")?);
    let least = plain(number("spacing_least")?);
    let driven = match number("into_last") {
        Some(part) => format!("nails from both sides in turn, through all plies but the last and {} of that", plain(100.0 * part) + " %"),
        None => "bolts with washers under head and nut, drawn tight".to_owned(),
    };
    let inches = section::inches;
    let count = if d.at_most(between) {
        format!("one row will do, for the depth {} in is not more than {} in", inches(d), inches(between))
    } else {
        format!("two rows or more, for the depth {} in is more than {} in", inches(d), inches(between))
    };
    Some(format!(
        "{} asks for {driven}; in diameters: ends {end}, spacing in a row {least} and more, at most {} in, rows {rows} apart, edges {edge}; {count}.",
        row.text("clause").unwrap_or_default(),
        inches(spacing)
    ))
}
