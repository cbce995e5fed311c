//! Glued laminated timber and structural composite lumber: which table, which row, which sizes. NDS Supplement Tables 5A and 5B.

#![allow(non_snake_case)]

use super::fault::Fault;
use super::glued::Layup;
use super::material::{Class, Resolved, Values};
use super::section::{Resolved as Section, inches};
use super::tables;
use crate::codes::{Material, Read};
use crate::job::model::Placed;
use crate::table::{Row, Table};
use crate::text::Faults;
use crate::units::{IN, Length, PSI, Ratio, Stress, decimals, kinds, read};

/// What of a glued material the factors depend on.
#[derive(Clone, Debug)]
pub(super) struct Glued {
    /// The root of the volume factor; of a composite the exponent of its size factor.
    pub volume: Volume,
    /// Whether the top may be stretched as much as the bottom.
    pub balanced: bool,
}

impl Glued {
    /// What the checks have to know of it; `hogging`: the moment stretches the top.
    pub(super) fn layup(&self, flat: bool, hogging: bool) -> Layup {
        match self.volume {
            Volume::Root(root) => Layup::Laminated { flat, hogging, root },
            Volume::Exponent(exponent, _) => Layup::Composite { exponent },
        }
    }
}

/// How a value falls with the size.
#[derive(Clone, Copy, Debug)]
pub(super) enum Volume {
    /// Glued laminated timber.
    Root(f64),
    /// Structural composite lumber: exponent, and the depth at which nothing falls.
    Exponent(f64, Length),
}

/// The section of a glued member by its name: width and depth in inches, `5-1/8x24`.
pub(super) fn section(name: &str) -> Option<Section> {
    let plain = name.trim().trim_end_matches("in").replace('×', "x");
    let (width, depth) = plain.split_once('x')?;
    let length = |text: &str| read::<<Length as crate::equation::OfDimension>::D>(&format!("{} in", text.trim()), kinds::LENGTH).ok();
    let (width, depth) = (length(width)?, length(depth)?);
    (width.value() > 0.0 && depth.value() > 0.0).then(|| sized(width, depth))
}

/// A section of given width and depth.
pub(super) fn sized(width: Length, depth: Length) -> Section {
    Section {
        name: format!("{} × {} in", inches(width), inches(depth)),
        size: String::new(),
        width,
        depth,
        nominal: (IN.number(width.value()), IN.number(depth.value())),
        reference: "size as given".to_owned(),
        read: Vec::new(),
        dressed: false,
    }
}

/// A combination or a stress class.
///
/// # Errors
/// A designation or species that the tables do not hold.
pub(super) fn combination(name: &Placed<String>, species: Option<&Placed<String>>, section: &Section) -> Result<Resolved, Faults> {
    if let Some(row) = tables::GLULAM.row(&[("designation", &name.value)]) {
        return of_bending(&row, name, species, section);
    }
    if let Some(row) = tables::GLULAM_AXIAL.row(&[("combination", &name.value)]) {
        return of_axial(&row, name, species, section);
    }
    let mut known: Vec<String> = tables::GLULAM.keys("designation").into_iter().map(str::to_owned).collect();
    known.extend(tables::GLULAM_AXIAL.keys("combination").into_iter().map(str::to_owned));
    Err(vec![Fault::UnknownCombination { name: name.value.clone(), known }.at(name.span)])
}

fn stress(row: &Row<'_>, column: &str) -> Stress {
    row.quantity(column).map_or(Stress::new(f64::NAN), |f| f.value)
}

/// Bending members, Table 5A.
fn of_bending(row: &Row<'_>, name: &Placed<String>, species: Option<&Placed<String>>, section: &Section) -> Result<Resolved, Faults> {
    let made_of = row.text("species").unwrap_or_default();
    let several = made_of == "any softwood";
    let laminations = match species {
        Some(word) if several || made_of.eq_ignore_ascii_case(&word.value) => word.value.clone(),
        Some(word) => {
            let fault = Fault::OtherSpecies { name: name.value.clone(), species: word.value.clone(), of: made_of.to_owned() };
            return Err(vec![fault.at(word.span)]);
        }
        None => made_of.to_owned(),
    };
    let value = |column| stress(row, column);
    // A beam bears on its bottom, and is stood on at its top: the face that bears less counts for both.
    let faces = ["F_c_perp_x_tension", "F_c_perp_x_compression"];
    let face = if value(faces[0]).at_most(value(faces[1])) { faces[0] } else { faces[1] };
    let values = Values {
        F_t: value("F_t"),
        F_b: value("F_bx_pos"),
        F_b_neg: value("F_bx_neg"),
        F_v: value("F_vx"),
        F_c_perp: value(face),
        F_c: value("F_c"),
        E: value("E_x"),
        E_min: value("E_x_min"),
        F_by: value("F_by"),
        F_vy: value("F_vy"),
        F_c_perp_y: value("F_c_perp_y"),
        E_y: value("E_y"),
        E_y_min: value("E_y_min"),
    };
    let balanced = values.F_b_neg.at_least(values.F_b);
    let mut notes = Vec::new();
    let designation = row.text("designation").unwrap_or_default();
    if !balanced {
        let (pos, neg) = (PSI.number(values.F_b.value()), PSI.number(values.F_b_neg.value()));
        notes.push(format!(
            "{designation} is not balanced: F_bx {} psi where the bottom is stretched, {} psi where the top is. It is set with its marked top up.",
            decimals(pos, 0),
            decimals(neg, 0)
        ));
    }
    if several && species.is_none() {
        notes.push(format!("{designation} may be of several species: the volume factor takes the exponent that gives the less."));
    }
    if let Some(caution) = row.text("caution") {
        notes.push(format!("{designation}: {caution}."));
    }
    let columns = ["F_bx_pos", "F_bx_neg", "F_vx", "F_t", face, "F_c", "E_x", "E_x_min", "F_by", "F_vy", "F_c_perp_y", "E_y", "E_y_min"];
    notes.extend(width_note(section, &laminations));
    Ok(resolved(&tables::GLULAM, row, designation, laminations, values, columns.as_slice(), balanced, notes))
}

/// Members made for axial load, Table 5B, bent.
fn of_axial(row: &Row<'_>, name: &Placed<String>, species: Option<&Placed<String>>, section: &Section) -> Result<Resolved, Faults> {
    let laminations = row.text("species").unwrap_or_default().to_owned();
    if let Some(word) = species.filter(|word| !laminations.eq_ignore_ascii_case(&word.value)) {
        let fault = Fault::OtherSpecies { name: name.value.clone(), species: word.value.clone(), of: laminations };
        return Err(vec![fault.at(word.span)]);
    }
    let thickness: Option<Length> = size_row(&laminations).and_then(|r| r.quantity("lamination")).map(|f| f.value);
    let count = thickness.map_or(0.0, |t| libm::floor(section.depth.value() / t.value() + 1e-6));
    if count < 2.0 {
        return Err(vec![Fault::TooFewLaminations { name: name.value.clone(), section: section.name.clone() }.at(name.span)]);
    }
    let (f_c, f_by) = match count {
        n if n >= 4.0 => ("F_c_4", "F_by_4"),
        n if n >= 3.0 => ("F_c_2", "F_by_3"),
        _ => ("F_c_2", "F_by_2"),
    };
    let value = |column| stress(row, column);
    let depth_rule = tables::GLULAM_AXIAL_DEPTH.rows().next();
    let limit: Option<Length> = depth_rule.as_ref().and_then(|r| r.quantity("d_above")).map(|f| f.value);
    let deep = limit.is_some_and(|most| !section.depth.at_most(most));
    let factor = depth_rule.as_ref().and_then(|r| r.number("factor"));
    let part = factor.as_ref().filter(|_| deep).map_or(1.0, |f| f.value);
    let F_b = value("F_bx") * Ratio::new(part);
    let values = Values {
        F_t: value("F_t"),
        F_b,
        F_b_neg: F_b,
        F_v: value("F_vx"),
        F_c_perp: value("F_c_perp"),
        F_c: value(f_c),
        E: value("E"),
        E_min: value("E_min"),
        F_by: value(f_by),
        F_vy: value("F_vy"),
        F_c_perp_y: value("F_c_perp"),
        E_y: value("E"),
        E_y_min: value("E_min"),
    };
    let mut notes = vec![format!("Combination {} of {} laminations.", row.text("combination").unwrap_or_default(), decimals(count, 0))];
    if deep {
        notes.push(format!("F_bx is taken {part} times the value of the table: deeper than 15 in without special tension laminations."));
    }
    notes.extend(width_note(section, &laminations));
    let columns = ["F_bx", "F_vx", "F_t", "F_c_perp", f_c, "E", "E_min", f_by, "F_vy"];
    let designation = format!("combination {}", row.text("combination").unwrap_or_default());
    let mut resolved = resolved(&tables::GLULAM_AXIAL, row, &designation, laminations, values, columns.as_slice(), true, notes);
    resolved.read.extend(factor.filter(|_| deep).map(Read::plain));
    Ok(resolved)
}

#[allow(clippy::too_many_arguments)]
fn resolved(
    table: &Table,
    row: &Row<'_>,
    designation: &str,
    species: String,
    values: Values,
    columns: &[&str],
    balanced: bool,
    notes: Vec<String>,
) -> Resolved {
    let mut read: Vec<Read> = Vec::new();
    for column in columns {
        let found = row.quantity::<<Stress as crate::equation::OfDimension>::D>(column);
        read.extend(found.map(|f| Read::shown(f, &PSI)));
    }
    read.extend(row.number("G").map(Read::plain));
    let volume = volume_row(&species).and_then(|r| r.number("root"));
    read.extend(volume.clone().map(Read::plain));
    Resolved {
        about: Material { name: format!("{designation} glued laminated timber"), table: table.heading().to_string(), row: row.name() },
        read,
        gravity: row.number("G").map(|f| f.value),
        class: Class::Laminated,
        grade: designation.to_owned(),
        glued: Some(Glued { volume: Volume::Root(volume.map_or(f64::NAN, |f| f.value)), balanced }),
        species,
        notes,
        holds_for: None,
        values,
    }
}

/// The row of the volume factor for a species.
pub(super) fn volume_row(species: &str) -> Option<Row<'static>> {
    let southern = species.starts_with("Southern Pine");
    tables::VOLUME.row(&[("species", if southern { "Southern Pine" } else { "other" })])
}

fn size_row(species: &str) -> Option<Row<'static>> {
    let southern = species.starts_with("Southern Pine");
    tables::GLULAM_SIZES.row(&[("species", if southern { "Southern Pine" } else { "other" })])
}

/// A width or depth that is not one of the table, said.
fn width_note(section: &Section, species: &str) -> Option<String> {
    let row = size_row(species)?;
    let width = inches(section.width);
    let known = row.text("widths")?.split('|').any(|word| word.trim() == width);
    let lamination: Length = row.quantity("lamination")?.value;
    let count = section.depth.value() / lamination.value();
    let whole = (count - libm::round(count)).abs() < 1e-6;
    let heading = tables::GLULAM_SIZES.heading().to_string();
    match (known, whole) {
        (true, true) => None,
        (false, true) => Some(format!("{width} in is no finished width of {heading}: made to order.")),
        (true, false) => {
            Some(format!("{} in is no whole number of {} in laminations ({heading}).", inches(section.depth), inches(lamination)))
        }
        (false, false) => Some(format!("{} is no finished size of {heading}: made to order.", section.name)),
    }
}
