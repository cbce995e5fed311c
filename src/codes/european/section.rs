//! Sections: a customary size by its name, or any width and depth.

use super::fault::Fault;
use super::tables;
use crate::job::model::{Member, SectionAsked};
use crate::text::Faults;
use crate::units::{Length, MM, decimals};

/// A section of one ply, resolved.
pub(super) struct Resolved {
    /// The size: `45 × 195 mm`.
    pub name: String,
    /// Width of one ply.
    pub width: Length,
    /// Depth.
    pub depth: Length,
    /// The series that has it, or that it was given.
    pub reference: String,
}

/// The section of a member.
///
/// # Errors
/// A name that the list does not have.
pub(super) fn resolve(member: &Member) -> Result<Resolved, Faults> {
    let name = match &member.section.value {
        SectionAsked::Size { width, depth } => {
            return Ok(Resolved { name: in_words(*width, *depth), width: *width, depth: *depth, reference: "size as given".to_owned() });
        }
        SectionAsked::Named(name) => name,
    };
    let plain = name.to_lowercase().replace([' ', '×'], "x").replace("mm", "").replace('*', "x").replace("xx", "x").replace("xx", "x");
    let row = tables::SIZES.row(&[("name", plain.trim_matches('x'))]);
    let sides = row.as_ref().and_then(|row| Some((row.quantity("b")?.value, row.quantity("h")?.value)));
    let Some((width, depth)) = sides else {
        let known = tables::SIZES.keys("name").into_iter().map(str::to_owned).collect();
        return Err(vec![Fault::NoSuchSection { name: name.clone(), known }.at(member.section.span)]);
    };
    let series = row.and_then(|row| row.text("series")).unwrap_or_default().replace(" | ", ", ");
    let reference = format!("customary size ({series})");
    Ok(Resolved { name: in_words(width, depth), width, depth, reference })
}

fn in_words(width: Length, depth: Length) -> String {
    format!("{} × {} mm", millimetres(width), millimetres(depth))
}

/// Millimetres as they are written.
pub(super) fn millimetres(length: Length) -> String {
    let text = decimals(length.number_in(&MM), 1);
    text.strip_suffix(".0").map(str::to_owned).unwrap_or(text)
}
