//! What the customary series offer in place of a member's section, and the tables of classes in place of its class.

use super::{edition, national, tables};
use crate::codes::Offer;
use crate::equation::OfDimension;
use crate::job::model::{Basis, CustomKind, MaterialAsked, Member, Placed, SectionAsked};
use crate::table::{Row, Table};
use crate::units::Length;

/// The wood of a member in the series; none where it has none: hardwood, and what only its maker sells.
fn wood(basis: &Basis, member: &Member) -> Option<&'static str> {
    match &member.material.value {
        MaterialAsked::Class(class) => match edition::solid(basis).row(&[("class", &class.value)]) {
            Some(row) => (row.text("wood") == Some("softwood")).then_some("solid softwood"),
            None => Some("glulam"),
        },
        MaterialAsked::Custom { kind: CustomKind::Sawn | CustomKind::Timber, .. } => Some("solid softwood"),
        MaterialAsked::Custom { kind: CustomKind::Glulam, .. } => Some("glulam"),
        _ => None,
    }
}

/// The parts of a cell between its bars.
fn parts(text: Option<&str>) -> impl Iterator<Item = &str> {
    text.unwrap_or_default().split('|').map(str::trim)
}

/// Every customary section of the member's wood; where a country is named, those of its series.
pub(super) fn sections(basis: &Basis, member: &Member) -> Vec<Offer> {
    let Some(wood) = wood(basis, member) else { return Vec::new() };
    let country = national::country(basis);
    let of_wood = |row: &Row<'_>| row.text("wood") == Some(wood);
    let here = |row: &Row<'_>| country.is_none_or(|country| parts(row.text("countries")).any(|c| c == country));
    let series: Vec<String> =
        (tables::SERIES.rows().filter(|row| of_wood(row) && here(row))).filter_map(|row| row.text("series").map(str::to_owned)).collect();
    let offered = |row: &Row<'_>| parts(row.text("series")).any(|one| series.iter().any(|known| known == one));
    tables::SIZES.rows().filter(offered).filter_map(|row| offer(&row)).collect()
}

fn offer(row: &Row<'_>) -> Option<Offer> {
    let side = |column: &str| row.quantity::<<Length as OfDimension>::D>(column).map(|found| found.value.value());
    Some(Offer { section: SectionAsked::Named(row.text("name")?.to_owned()), width: side("b")?, depth: side("h")? })
}

/// The classes of the same wood, or of the same lay-up, the strongest first.
pub(super) fn grades(basis: &Basis, member: &Member) -> Vec<MaterialAsked> {
    let MaterialAsked::Class(class) = &member.material.value else { return vec![member.material.value.clone()] };
    let solid = edition::solid(basis);
    let (table, key): (&Table, _) =
        if solid.row(&[("class", &class.value)]).is_some() { (solid, "wood") } else { (&tables::GLULAM, "lamination") };
    let Some(alike) = table.row(&[("class", &class.value)]).and_then(|row| row.text(key).map(str::to_owned)) else {
        return vec![member.material.value.clone()];
    };
    let mut classes = table.keys_among("class", &[(key, &alike)]);
    classes.reverse();
    classes.into_iter().map(|name| MaterialAsked::Class(Placed { value: name.to_owned(), span: class.span })).collect()
}
