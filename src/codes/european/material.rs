//! Characteristic values: EN 338 for solid timber, EN 14080 for glued laminated timber; values with a stated source.

#![allow(non_snake_case)]

use super::fault::Fault;
use super::{edition, tables};
use crate::codes::assumed;
use crate::codes::{Material, Read};
use crate::equation::OfDimension;
use crate::job::model::{Basis, CustomKind, CustomValues, HoldsFor, Job, MaterialAsked, Member, Placed};
use crate::table::{Row, Table};
use crate::text::Faults;
use crate::units::{Density, KG_PER_M3, N_PER_MM2, Stress};

/// What the material is, for the factors that depend on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Class {
    /// Solid softwood, C classes.
    Softwood,
    /// Solid hardwood, D classes.
    Hardwood,
    /// Glued laminated timber.
    Glulam,
    /// Laminated veneer lumber, with values of the engineer's own.
    Lvl,
}

impl Class {
    /// The row of k_mod, k_def, k_h, gamma_M and k_n.
    pub(super) const fn material(self) -> &'static str {
        match self {
            Self::Softwood | Self::Hardwood => "solid timber",
            Self::Glulam => "glulam",
            Self::Lvl => "LVL",
        }
    }

    /// The row of k_cr.
    pub(super) const fn cracks(self) -> &'static str {
        match self {
            Self::Softwood => "solid softwood",
            Self::Hardwood => "solid hardwood",
            Self::Glulam => "glulam",
            Self::Lvl => "LVL",
        }
    }

    /// The row of the bearing factors.
    pub(super) const fn bears(self) -> &'static str {
        match self {
            Self::Glulam => "glulam softwood",
            other => other.cracks(),
        }
    }
}

/// A material, resolved.
pub(super) struct Resolved {
    /// In words.
    pub about: Material,
    /// Cells read.
    pub read: Vec<Read>,
    /// What it is.
    pub class: Class,
    /// The size that the engineer's own values hold for; none: values of a table.
    pub own: Option<HoldsFor>,
    /// Notes for the sheet.
    pub notes: Vec<String>,
    /// Characteristic values.
    pub values: Values,
}

/// Characteristic values; not a number where an engineer's own material does not give one, which no check of the member reads then.
#[derive(Clone, Copy, Debug)]
pub(super) struct Values {
    pub f_mk: Stress,
    pub f_vk: Stress,
    pub f_c0k: Stress,
    pub f_c90k: Stress,
    pub E_mean: Stress,
    pub E_05: Stress,
    pub G_mean: Stress,
    /// The shear modulus for stability, where the table has one.
    pub G_05: Option<Stress>,
    /// Weight per volume by the characteristic density; 9.81 m/s².
    pub rho_k: Density,
    /// The same by the mean density.
    pub rho_mean: Density,
    /// The exponent of the size effect that a maker of laminated veneer lumber declares.
    pub s: Option<f64>,
}

/// Densities above this are those of hardwood, for values of the engineer's own; EN 338 has C50 at 430 and D18 at 475 kg/m³.
const SOFTWOOD_TO: f64 = 460.0;

/// The material of a member.
///
/// # Errors
/// A class or value that the tables do not hold, and what is not covered yet.
pub(super) fn resolve(job: &Job, member: &Member) -> Result<Resolved, Faults> {
    match &member.material.value {
        MaterialAsked::Class(class) => classed(&job.basis, class),
        MaterialAsked::Custom { name, kind, source, values } => custom(job, member, name, *kind, source, values),
        // The job's reader has refused it.
        MaterialAsked::Graded { .. } | MaterialAsked::Combination { .. } => Err(Faults::new()),
    }
}

fn unknown(basis: &Basis, class: &str) -> Fault {
    let tables: [&Table; 2] = [edition::solid(basis), &tables::GLULAM];
    Fault::UnknownClass { class: class.to_owned(), known: tables.iter().flat_map(|t| t.keys("class")).map(str::to_owned).collect() }
}

fn classed(basis: &Basis, class: &Placed<String>) -> Result<Resolved, Faults> {
    let solid = edition::solid(basis);
    let keys = [("class", class.value.as_str())];
    let (table, row): (&'static Table, _) = match solid.row(&keys) {
        Some(row) => (solid, Some(row)),
        None => (&tables::GLULAM, tables::GLULAM.row(&keys)),
    };
    let found = row.and_then(|row| Some((values_of(&row)?, row)));
    let Some((values, row)) = found else { return Err(vec![unknown(basis, &class.value).at(class.span)]) };
    let kind = match row.text("wood") {
        Some("hardwood") => Class::Hardwood,
        Some(_) => Class::Softwood,
        None => Class::Glulam,
    };
    let name = row.text("class").unwrap_or_default().to_owned();
    Ok(Resolved {
        about: Material { name: name.clone(), table: table.heading().to_string(), row: row.name() },
        read: read_of(&row),
        class: kind,
        own: None,
        notes: Vec::new(),
        values,
    })
}

fn values_of(row: &Row<'_>) -> Option<Values> {
    let stress = |column: &str| row.quantity(column).map(|f| f.value);
    Some(Values {
        f_mk: stress("f_m_k")?,
        f_vk: stress("f_v_k")?,
        f_c0k: stress("f_c_0_k")?,
        f_c90k: stress("f_c_90_k")?,
        E_mean: stress("E_0_mean")?,
        E_05: stress("E_0_05")?,
        G_mean: stress("G_mean")?,
        G_05: stress("G_05"),
        rho_k: row.quantity("rho_k")?.value,
        rho_mean: row.quantity("rho_mean")?.value,
        s: None,
    })
}

fn read_of(row: &Row<'_>) -> Vec<Read> {
    let stress = |column: &&str| {
        let found = row.quantity::<<Stress as OfDimension>::D>(column)?;
        Some(Read::shown(found, &N_PER_MM2))
    };
    let columns = ["f_m_k", "f_v_k", "f_c_0_k", "f_c_90_k", "E_0_mean", "E_0_05", "G_mean", "G_05"];
    let mut read: Vec<Read> = columns.iter().filter_map(stress).collect();
    let density = |column: &&str| row.number(column).map(|f| Read { value: f.value, cell: f.cell, unit: KG_PER_M3.name });
    read.extend(["rho_k", "rho_mean"].iter().filter_map(density));
    read
}

fn custom(job: &Job, member: &Member, name: &str, kind: CustomKind, source: &str, given: &CustomValues) -> Result<Resolved, Faults> {
    let (rho_k, rho_mean, s) = (given.number("rho_k"), given.number("rho_mean"), given.number("size_exponent"));
    let class = match kind {
        CustomKind::Glulam => Class::Glulam,
        CustomKind::Composite => Class::Lvl,
        CustomKind::Sawn | CustomKind::Timber if rho_k.is_some_and(|rho| rho > SOFTWOOD_TO) => Class::Hardwood,
        CustomKind::Sawn | CustomKind::Timber => Class::Softwood,
    };
    let mut faults = Faults::new();
    let mut missing = |key, why| faults.push(Fault::MissingValue { key, why }.at(member.material.span));
    // What no check of the member reads need not be given.
    let mut stress = |is_read: bool, key: &'static str, why| {
        let found = given.stress(key);
        if found.is_none() && is_read {
            missing(key, why);
        }
        found.unwrap_or(Stress::new(f64::NAN))
    };
    let turns_over = assumed::may_turn_over(job, member);
    let (f_mk, f_vk) = (stress(true, "f_m_k", "bending"), stress(true, "f_v_k", "shear"));
    let f_c0k = stress(member.slope.is_some(), "f_c_0_k", "compression along the grain, in bearing at an angle to it");
    let f_c90k = stress(true, "f_c_90_k", "compression across the grain");
    let (E_mean, E_05) = (stress(true, "E_0_mean", "deflection"), stress(turns_over, "E_0_05", "lateral torsional buckling"));
    let G_mean = stress(true, "G_mean", "shear deflection");
    let G_05 = stress(turns_over && class != Class::Softwood, "G_05", "lateral torsional buckling of all but solid softwood");
    if rho_k.is_none() && matches!(class, Class::Softwood | Class::Hardwood) {
        missing("rho_k", "size factor, and whether it is softwood");
    }
    if rho_mean.is_none() && member.self_weight {
        missing("rho_mean", "own weight");
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let density = |rho: Option<f64>| KG_PER_M3.of(rho.unwrap_or(0.0));
    let kind_said = match class {
        Class::Softwood => "solid softwood",
        Class::Hardwood => "solid hardwood",
        Class::Glulam => "glued laminated timber of softwood",
        Class::Lvl => "laminated veneer lumber on edge",
    };
    Ok(Resolved {
        about: Material { name: name.to_owned(), table: source.to_owned(), row: name.to_owned() },
        read: Vec::new(),
        class,
        own: Some(given.holds_for),
        notes: vec![format!("Characteristic values of {name}: {source}. Factors are those of {kind_said}.")],
        values: Values {
            f_mk,
            f_vk,
            f_c0k,
            f_c90k,
            E_mean,
            E_05,
            G_mean,
            G_05: Some(G_05),
            rho_k: density(rho_k),
            rho_mean: density(rho_mean),
            s,
        },
    })
}
