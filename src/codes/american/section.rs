//! Dressed sections, and what notches the section allows. NDS Supplement Tables 1A and 1B; NDS 4.4.3.

use super::fault::Fault;
use super::member::Member as Checked;
use super::{layup, lookup, tables};
use crate::codes::{Read, Section};
use crate::job::model::{CustomKind, MaterialAsked, Member, NotchPlace, SectionAsked};
use crate::table::Found;
use crate::text::Faults;
use crate::units::{IN, IN2, IN3, IN4, Length, decimals};

/// A section of one ply, resolved.
pub(super) struct Resolved {
    /// Catalogue name, or the size.
    pub name: String,
    /// The dressed size in words; empty where the name says it.
    pub size: String,
    /// Width of one ply.
    pub width: Length,
    /// Depth.
    pub depth: Length,
    /// Nominal thickness and width, inches, as the tables of values class them.
    pub nominal: (f64, f64),
    /// The table, or why none.
    pub reference: String,
    /// Cells read.
    pub read: Vec<Read>,
    /// Whether the width is a dressed one of the tables.
    pub dressed: bool,
}

/// Whether a member is of glued laminated timber, by what it asks for.
pub(super) fn is_laminated(member: &Member) -> bool {
    match &member.material.value {
        MaterialAsked::Combination { .. } => true,
        MaterialAsked::Custom { kind, .. } => *kind == CustomKind::Glulam,
        MaterialAsked::Graded { .. } | MaterialAsked::Class(_) => false,
    }
}

/// The section of a member; of a catalogue size its dressed size, of any other the nominal size that it is dressed from.
///
/// # Errors
/// A name that no table has.
pub(super) fn resolve(member: &Member) -> Result<Resolved, Faults> {
    let is_glued = match &member.material.value {
        MaterialAsked::Combination { .. } => true,
        MaterialAsked::Custom { kind, .. } => matches!(kind, CustomKind::Glulam | CustomKind::Composite),
        MaterialAsked::Graded { .. } | MaterialAsked::Class(_) => false,
    };
    match &member.section.value {
        SectionAsked::Named(name) if is_glued => {
            layup::section(name).ok_or_else(|| vec![Fault::NoSuchGluedSection { name: name.clone() }.at(member.section.span)])
        }
        SectionAsked::Size { width, depth } if is_glued => Ok(layup::sized(*width, *depth)),
        SectionAsked::Named(name) => named(name).ok_or_else(|| {
            let known = tables::SIZES.keys("nominal").into_iter().map(str::to_owned).collect();
            vec![Fault::NoSuchSection { name: name.clone(), known }.at(member.section.span)]
        }),
        SectionAsked::Size { width, depth } => Ok(sized(*width, *depth)),
    }
}

/// What the results say of a section: all plies together.
pub(super) fn about(entry: &Member, section: &Resolved, m: &Checked) -> Section {
    let plies = entry.plies.value;
    Section {
        name: Section::of_plies(plies, &section.name),
        size: section.size.clone(),
        width: m.b.value(),
        depth: m.d.value(),
        plies,
        reference: section.reference.clone(),
        properties: {
            let mut properties = vec![("A", m.A.value(), &IN2), ("S", m.S.value(), &IN3), ("I", m.I.value(), &IN4)];
            if entry.tilt.is_some() || entry.standing.is_some() {
                properties.extend([("S_y", m.S_y.value(), &IN3), ("I_y", m.I_y.value(), &IN4)]);
            }
            properties
        },
    }
}

fn named(name: &str) -> Option<Resolved> {
    let plain = name.to_lowercase().replace([' ', '×'], "").replace('*', "x");
    let row = tables::SIZES.row(&[("nominal", &plain)])?;
    let (b, d) = (row.quantity("b")?, row.quantity("d")?);
    let (thickness, width) = plain.split_once('x')?;
    let read = [&b, &d].map(|found: &Found<Length>| Read::shown(found.clone(), &IN)).to_vec();
    Some(Resolved {
        size: format!("{} × {} in", inches(b.value), inches(d.value)),
        width: b.value,
        depth: d.value,
        nominal: (thickness.parse().ok()?, width.parse().ok()?),
        reference: tables::SIZES.heading().to_string(),
        read,
        dressed: true,
        name: plain,
    })
}

fn sized(width: Length, depth: Length) -> Resolved {
    let known = tables::SIZES.rows().find(|row| {
        let same =
            |column: &str, value: Length| row.value(column).is_some_and(|known: Length| value.at_most(known) && value.at_least(known));
        same("b", width) && same("d", depth)
    });
    let nominal = known.as_ref().and_then(|row| {
        let (thickness, width) = row.text("nominal")?.split_once('x')?;
        Some((thickness.parse().ok()?, width.parse().ok()?))
    });
    Resolved {
        name: format!("{} × {} in", inches(width), inches(depth)),
        size: String::new(),
        width,
        depth,
        dressed: nominal.is_some(),
        nominal: nominal.unwrap_or_else(|| (thickness_of(width.number_in(&IN)), nominal_of(depth.number_in(&IN)))),
        reference: "size as given".to_owned(),
        read: Vec::new(),
    }
}

/// The nominal inch that a dressed face is dressed from, the next one up; PS 20: less 1/2 in to 6 in nominal, less 3/4 in from 8 in on, and
/// there even inches only.
pub(super) fn nominal_of(dressed: f64) -> f64 {
    if dressed <= 5.5 + 1e-9 { libm::ceil(dressed + 0.5 - 1e-9) } else { 2.0 * libm::ceil((dressed + 0.75) / 2.0 - 1e-9) }
}

/// The same of a thickness, but one that falls short of a dressed 4 in stays a 3 in: the size factor rises with the thickness.
fn thickness_of(dressed: f64) -> f64 {
    if dressed > 2.5 + 1e-9 && dressed < 3.5 - 1e-9 { 3.0 } else { nominal_of(dressed) }
}

/// Inches as they are written: `1-1/2`, `9-1/4`; decimals where no sixteenth says it.
pub(super) fn inches(length: Length) -> String {
    let number = length.number_in(&IN);
    let sixteenths = libm::round(number * 16.0);
    if (sixteenths / 16.0 - number).abs() > 1e-6 {
        return decimals(number, 3).trim_end_matches('0').trim_end_matches('.').to_owned();
    }
    let (whole, mut part, mut of) = ((sixteenths as u64) / 16, (sixteenths as u64) % 16, 16);
    while part > 0 && part.is_multiple_of(2) {
        (part, of) = (part / 2, of / 2);
    }
    match (whole, part) {
        (_, 0) => format!("{whole}"),
        (0, _) => format!("{part}/{of}"),
        _ => format!("{whole}-{part}/{of}"),
    }
}

/// What NDS 4.4.3 does not allow of a member's notches.
pub(super) fn notches(member: &Member, section: &Resolved, laminated: bool) -> Faults {
    if laminated {
        return notches_of_glulam(member, section);
    }
    let mut faults = Faults::new();
    if member.notches.is_empty() {
        return faults;
    }
    let limits = lookup::notch_limits();
    let total = member.spans.length();
    let supports = member.spans.supports();
    let cosine = member.slope.as_ref().map_or(1.0, |slope| libm::cos(slope.value.angle.value().to_radians()));
    for notch in &member.notches {
        let limit = if matches!(notch.at, NotchPlace::End(_)) { limits.end } else { limits.inner };
        if !notch.depth.value.at_most(section.depth / limit.over) {
            faults.push(Fault::NotchTooDeep { limit: limit_in_words(section, limit.over) }.at(notch.depth.span));
        }
        let (from, to) = notch.extent(&member.spans, cosine);
        let in_middle = |span: &[Length]| {
            let third = (span[1] - span[0]) / 3.0;
            to.at_least(span[0] + third) && from.at_most(span[1] - third)
        };
        let place = match &notch.at {
            NotchPlace::At(place) => place.span,
            NotchPlace::End(_) => notch.depth.span,
        };
        if supports.windows(2).any(in_middle) {
            faults.push(Fault::NotchInMiddle.at(place));
        }
        if let NotchPlace::At(at) = &notch.at {
            if !notch.length.at_most(section.depth / limits.inner_length_over) {
                faults.push(Fault::NotchTooLong { limit: limit_in_words(section, limits.inner_length_over) }.at(notch.depth.span));
            }
            // Next to an inner support or an overhang the top edge is in tension too.
            let stretched = notch.bottom || supports.len() > 2 || member.spans.has_overhang();
            if stretched && section.nominal.0 >= limits.thick && at.value.at_most(total) {
                faults.push(Fault::NotchInTension.at(place));
            }
        }
    }
    faults
}

/// What NDS 5.4.5 does not allow of the notches of a laminated timber.
fn notches_of_glulam(member: &Member, section: &Resolved) -> Faults {
    let mut faults = Faults::new();
    for notch in &member.notches {
        match &notch.at {
            NotchPlace::End(_) => {
                let most = lookup::glulam_notch_most(section.depth, notch.bottom);
                if !notch.depth.value.at_most(most) {
                    let edge = if notch.bottom { "tension" } else { "compression" };
                    faults.push(Fault::GlulamNotchTooDeep { limit: format!("{} in", inches(most)), edge }.at(notch.depth.span));
                }
            }
            NotchPlace::At(place) => faults.push(Fault::GlulamNotchInside.at(place.span)),
        }
    }
    faults
}

fn limit_in_words(section: &Resolved, over: f64) -> String {
    format!("d/{} = {} in", decimals(over, 0), inches(section.depth / over))
}
