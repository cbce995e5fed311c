//! What the catalogue offers in place of a member's section and grade.

use super::section::inches;
use super::tables;
use crate::codes::Offer;
use crate::equation::OfDimension;
use crate::job::model::{CustomKind, MaterialAsked, Member, Placed, SectionAsked};
use crate::table::{Found, Row};
use crate::units::{Length, kinds, read};
use std::collections::BTreeSet;

/// Laminations of the deepest glued section that is offered.
const MOST_LAMINATIONS: u32 = 32;
/// Laminations of the least.
const FEWEST_LAMINATIONS: u32 = 4;

/// Every dressed size of sawn lumber, of which the tables of values say what a species and grade has; of glulam every finished width in
/// whole laminations. None for composites, whose sizes are their maker's.
pub(super) fn sections(member: &Member) -> Vec<Offer> {
    match &member.material.value {
        MaterialAsked::Combination { name, .. } => glued(name.value.contains("SP")),
        MaterialAsked::Custom { kind: CustomKind::Glulam, .. } => glued(false),
        MaterialAsked::Custom { kind: CustomKind::Composite, .. } => Vec::new(),
        _ => tables::SIZES.rows().filter_map(dressed).collect(),
    }
}

fn dressed(row: Row<'_>) -> Option<Offer> {
    let side = |column: &str| row.quantity(column).map(|found: Found<Length>| found.value.value());
    Some(Offer { section: SectionAsked::Named(row.text("nominal")?.to_owned()), width: side("b")?, depth: side("d")? })
}

fn read_inches(text: &str) -> Option<Length> {
    read::<<Length as OfDimension>::D>(&format!("{text} in"), kinds::LENGTH).ok()
}

fn glued(southern: bool) -> Vec<Offer> {
    let row = tables::GLULAM_SIZES.row(&[("species", if southern { "Southern Pine" } else { "other" })]);
    let lamination: Option<Found<Length>> = row.and_then(|row| row.quantity("lamination"));
    let (Some(lamination), Some(widths)) = (lamination, row.and_then(|row| row.text("widths"))) else { return Vec::new() };
    let mut offers = Vec::new();
    for width in widths.split('|').map(str::trim).filter_map(read_inches) {
        for count in FEWEST_LAMINATIONS..=MOST_LAMINATIONS {
            let depth = f64::from(count) * lamination.value;
            let section = SectionAsked::Named(format!("{}x{}", inches(width), inches(depth)));
            offers.push(Offer { section, width: width.value(), depth: depth.value() });
        }
    }
    offers
}

/// Every grade of the member's species in the tables of its kind; of machine stress rated lumber the rated grades.
pub(super) fn grades(member: &Member) -> Vec<MaterialAsked> {
    let MaterialAsked::Graded { species, grade } = &member.material.value else { return vec![member.material.value.clone()] };
    let rated = tables::MSR.row(&[("grade", &grade.value)]).is_some();
    let mut names: Vec<&str> = if rated {
        tables::MSR.keys("grade")
    } else {
        let of_species = [("species", species.value.as_str())];
        [&tables::DIMENSION, &tables::SOUTHERN_PINE, &tables::TIMBERS].iter().flat_map(|t| t.keys_among("grade", &of_species)).collect()
    };
    let mut seen = BTreeSet::new();
    names.retain(|name| seen.insert(*name));
    let asked = |name: &str| MaterialAsked::Graded { species: species.clone(), grade: Placed { value: name.to_owned(), span: grade.span } };
    let mut grades: Vec<MaterialAsked> = names.into_iter().map(asked).collect();
    let plain = |text: &str| text.to_lowercase().replace(' ', "");
    let own = |m: &MaterialAsked| matches!(m, MaterialAsked::Graded { grade: g, .. } if plain(&g.value) == plain(&grade.value));
    if !grades.iter().any(own) {
        grades.insert(0, member.material.value.clone());
    }
    grades
}
