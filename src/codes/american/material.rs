//! Reference design values: which table, which row. NDS Supplement Tables 4A, 4B, 4C and 4D; values with a stated source.

#![allow(non_snake_case)]

use super::fault::Fault;
use super::layup::{self, Glued};
use super::needs::Needs;
use super::own::Own;
use super::section::{Resolved as Section, inches};
use super::{lookup, tables};
use crate::codes::{Material, Read};
use crate::job::model::{CustomKind, HoldsFor, MaterialAsked, Member, Placed};
use crate::table::{Row, Table};
use crate::text::Faults;
use crate::units::{IN, PSI, Stress};

/// What the material is, for the factors that depend on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Class {
    /// Visually graded dimension lumber, Table 4A.
    Dimension,
    /// Southern Pine dimension lumber, Table 4B: the size factor is in the values.
    SouthernPine,
    /// Machine stress rated lumber, Table 4C.
    Rated,
    /// Timbers 5x5 and larger, Table 4D.
    Timber,
    /// The engineer's own values of dimension lumber.
    Custom,
    /// The engineer's own values of a timber.
    CustomTimber,
    /// Glued laminated timber.
    Laminated,
    /// Structural composite lumber.
    Composite,
}

impl Class {
    /// Whether it is a timber.
    pub(super) const fn is_timber(self) -> bool {
        matches!(self, Self::Timber | Self::CustomTimber)
    }
}

/// A material, resolved.
pub(super) struct Resolved {
    /// In words.
    pub about: Material,
    /// Cells read.
    pub read: Vec<Read>,
    /// Specific gravity.
    pub gravity: Option<f64>,
    /// What it is.
    pub class: Class,
    /// Grade as the table has it; empty for the engineer's own values.
    pub grade: String,
    /// Species group as the table has it.
    pub species: String,
    /// What a glued material is; none: sawn lumber.
    pub glued: Option<Glued>,
    /// Notes for the sheet.
    pub notes: Vec<String>,
    /// The size that the engineer's own values hold for; none: values of a table.
    pub holds_for: Option<HoldsFor>,
    /// Reference values.
    pub values: Values,
}

/// Reference design values; not a number where an engineer's own material does not give one, which no check of the member reads then.
#[derive(Clone, Copy, Debug)]
pub(super) struct Values {
    pub F_b: Stress,
    pub F_v: Stress,
    pub F_t: Stress,
    pub F_c_perp: Stress,
    pub F_c: Stress,
    pub E: Stress,
    pub E_min: Stress,
    /// Bending that stretches the top; of sawn lumber, and of a balanced layup, `F_b`.
    pub F_b_neg: Stress,
    /// About the weak axis: bending, shear, bearing, moduli. Those of the strong axis for sawn lumber.
    pub F_by: Stress,
    pub F_vy: Stress,
    pub F_c_perp_y: Stress,
    pub E_y: Stress,
    pub E_y_min: Stress,
}

impl Values {
    /// Values that are the same about both axes.
    pub(super) fn alike(F_b: Stress, F_v: Stress, F_c_perp: Stress, F_c: Stress, E: Stress, E_min: Stress) -> Self {
        let F_t = Stress::new(f64::NAN);
        Self { F_b, F_v, F_t, F_c_perp, F_c, E, E_min, F_b_neg: F_b, F_by: F_b, F_vy: F_v, F_c_perp_y: F_c_perp, E_y: E, E_y_min: E_min }
    }

    /// The same with a value of tension along the grain.
    pub(super) fn pulled(self, F_t: Stress) -> Self {
        Self { F_t, ..self }
    }
}

/// The material of a member with a section; `needs`: what its checks read.
///
/// # Errors
/// A species, grade or value that the tables do not hold, and what is not covered yet.
pub(super) fn resolve(member: &Member, section: &Section, needs: Needs) -> Result<Resolved, Faults> {
    let one = |fault: Fault, span| Err(vec![fault.at(span)]);
    match &member.material.value {
        MaterialAsked::Graded { species, grade } => graded(species, grade, section),
        MaterialAsked::Class(word) => one(Fault::NotCoveredYet { what: format!("the material `{}`", word.value) }, word.span),
        MaterialAsked::Combination { name, species } => layup::combination(name, species.as_ref(), section),
        MaterialAsked::Custom { name, kind, source, values } => {
            let own = Own { member, needs, name, source, values };
            match kind {
                CustomKind::Sawn => own.sawn(Class::Custom),
                CustomKind::Timber => own.sawn(Class::CustomTimber),
                CustomKind::Glulam => own.laminated(),
                CustomKind::Composite => own.composite(),
            }
        }
    }
}

fn graded(species: &Placed<String>, grade: &Placed<String>, section: &Section) -> Result<Resolved, Faults> {
    let (thickness, width) = section.nominal;
    let timber = thickness >= 5.0 && width >= 5.0;
    if tables::MSR.row(&[("grade", &grade.value)]).is_some() {
        return rated(species, grade, section);
    }
    let (table, class): (&Table, Class) = if timber {
        (&tables::TIMBERS, Class::Timber)
    } else if tables::SOUTHERN_PINE.row(&[("species", &species.value)]).is_some() {
        (&tables::SOUTHERN_PINE, Class::SouthernPine)
    } else {
        (&tables::DIMENSION, Class::Dimension)
    };
    let (word, other) = grade_of_width(class, &grade.value, section.nominal);
    let keys = [("species", species.value.as_str()), ("grade", word.as_str())];
    let found = lookup::lumber(table, &keys, section.nominal);
    let Some(row) = found else { return Err(vec![not_found(table, species, grade, section)]) };
    let values = values_of(&row);
    let Some(values) = values else { return Err(vec![not_found(table, species, grade, section)]) };
    let species_name = row.text("species").unwrap_or_default().to_owned();
    let grade_name = row.text("grade").unwrap_or_default().to_owned();
    let mut notes: Vec<String> = other.into_iter().collect();
    if let Some(caution) = row.text("caution") {
        notes.push(format!("{species_name} {grade_name}: {caution}."));
    }
    Ok(Resolved {
        about: Material { name: format!("{species_name} {grade_name}"), table: table.heading().to_string(), row: row.name() },
        read: read_of(&row),
        gravity: row.bare("G"),
        class,
        grade: grade_name,
        species: species_name,
        glued: None,
        holds_for: None,
        notes,
        values,
    })
}

/// The grade whose values and factors a width takes, with a note where it is another: Stud wider than 6 in takes those of No.3.
fn grade_of_width(class: Class, grade: &str, nominal: (f64, f64)) -> (String, Option<String>) {
    let row = tables::SIZE.row_at(&[("grade", grade)], &[("thickness", IN.factor * nominal.0), ("width", IN.factor * nominal.1)]);
    match row.and_then(|r| r.text("use_grade")).filter(|_| class == Class::Dimension) {
        Some(other) => {
            (other.to_owned(), Some(format!("{grade} of this width takes the values and factors of {other} (Supplement Table 4A).")))
        }
        None => (grade.to_owned(), None),
    }
}

fn values_of(row: &Row<'_>) -> Option<Values> {
    let value = |column: &str| row.value(column);
    let values = Values::alike(value("F_b")?, value("F_v")?, value("F_c_perp")?, value("F_c")?, value("E")?, value("E_min")?);
    Some(values.pulled(value("F_t")?))
}

fn read_of(row: &Row<'_>) -> Vec<Read> {
    let stress = |column: &&str| {
        let found = row.quantity::<<Stress as crate::equation::OfDimension>::D>(column)?;
        Some(Read::shown(found, &PSI))
    };
    let mut read: Vec<Read> = ["F_b", "F_v", "F_t", "F_c_perp", "F_c", "E", "E_min"].iter().filter_map(stress).collect();
    read.extend(row.number("G").map(Read::plain));
    read
}

/// Machine stress rated: shear and bearing are those of the species' No.2 (reading 25).
fn rated(species: &Placed<String>, grade: &Placed<String>, section: &Section) -> Result<Resolved, Faults> {
    if section.nominal.0 > 2.0 {
        let sizes = "thicknesses of 2 in and less".to_owned();
        return Err(vec![wrong_size(species, grade, section, sizes).at(grade.span)]);
    }
    let Some(row) = tables::MSR.row(&[("grade", &grade.value)]) else {
        return Err(vec![not_found(&tables::MSR, species, grade, section)]);
    };
    let visual = ["No.2", "No.1/No.2"].iter().find_map(|no2| {
        let keys = [("species", species.value.as_str()), ("grade", *no2)];
        tables::DIMENSION.row(&keys).or_else(|| lookup::lumber(&tables::SOUTHERN_PINE, &keys, section.nominal))
    });
    let Some(visual) = visual else { return Err(vec![not_found(&tables::DIMENSION, species, grade, section)]) };
    let value = |row: &Row<'_>, column: &str| row.value(column);
    let values = (|| {
        Some(
            Values::alike(
                value(&row, "F_b")?,
                value(&visual, "F_v")?,
                value(&visual, "F_c_perp")?,
                value(&row, "F_c")?,
                value(&row, "E")?,
                value(&row, "E_min")?,
            )
            .pulled(value(&row, "F_t")?),
        )
    })();
    let Some(values) = values else { return Err(vec![not_found(&tables::MSR, species, grade, section)]) };
    let mut read = read_of(&row);
    read.extend(read_of(&visual).into_iter().filter(|r| matches!(r.cell.column.as_str(), "F_v" | "F_c_perp" | "G")));
    let species_name = visual.text("species").unwrap_or_default().to_owned();
    let grade_name = row.text("grade").unwrap_or_default().to_owned();
    Ok(Resolved {
        about: Material { name: format!("{species_name} {grade_name}"), table: tables::MSR.heading().to_string(), row: row.name() },
        read,
        gravity: visual.bare("G"),
        class: Class::Rated,
        grade: grade_name,
        glued: None,
        holds_for: None,
        notes: vec![format!("F_v and F_c,perp are those of {species_name} {}.", visual.text("grade").unwrap_or_default())],
        species: species_name,
        values,
    })
}

/// Says what of species, grade and size the table does not hold.
fn not_found(table: &Table, species: &Placed<String>, grade: &Placed<String>, section: &Section) -> crate::text::Diagnostic {
    let owned = |words: Vec<&str>| words.into_iter().map(str::to_owned).collect::<Vec<_>>();
    let grades = owned(table.keys_among("grade", &[("species", &species.value)]));
    if grades.is_empty() {
        let mut known = owned(table.keys("species"));
        if table.file() == tables::DIMENSION.file() {
            known.extend(owned(tables::SOUTHERN_PINE.keys("species")));
        }
        return Fault::UnknownSpecies { species: species.value.clone(), known }.at(species.span);
    }
    let same_grade = owned(table.keys_among("size", &[("species", &species.value), ("grade", &grade.value)]));
    if same_grade.is_empty() {
        let table = table.heading().to_string();
        return Fault::UnknownGrade { grade: grade.value.clone(), species: species.value.clone(), table, known: grades }.at(grade.span);
    }
    wrong_size(species, grade, section, same_grade.join("; ")).at(grade.span)
}

fn wrong_size(species: &Placed<String>, grade: &Placed<String>, section: &Section, sizes: String) -> Fault {
    Fault::WrongSize { grade: grade.value.clone(), species: species.value.clone(), section: section.name.clone(), sizes }
}

/// The row of wet service factors of a material; none of composites, which are used dry.
pub(super) fn wet_row(material: &Resolved) -> Option<Row<'static>> {
    let values = match material.class {
        Class::SouthernPine => "4B",
        Class::Rated => "4C",
        Class::Timber if material.species.starts_with("Southern Pine") => "4D Southern Pine",
        Class::Timber | Class::CustomTimber => "4D",
        Class::Dimension | Class::Custom => "4A",
        Class::Laminated => return tables::GLULAM_WET.rows().next(),
        Class::Composite => return None,
    };
    tables::WET.row(&[("values", values)])
}

/// A width in words for a fact: `2x10`.
pub(super) fn size_in_words(section: &Section) -> String {
    if section.dressed { section.name.clone() } else { format!("{} in deep", inches(section.depth)) }
}
