//! Reference values of the engineer's own, with a stated source (reading 41).

#![allow(non_snake_case)]

use super::fault::Fault;
use super::layup::{Glued, Volume, volume_row};
use super::material::{Class, Resolved, Values};
use super::section;
use crate::codes::Material;
use crate::job::model::{Arrival, Axis, CustomValues, LoadKind, Member};
use crate::text::Faults;
use crate::units::{IN, Q, Stress};

/// A material with a stated source.
pub(super) struct Own<'a> {
    pub member: &'a Member,
    pub name: &'a str,
    pub source: &'a str,
    pub values: &'a CustomValues,
}

impl Own<'_> {
    fn needed(&self, key: &'static str, faults: &mut Faults) -> Stress {
        self.values.stress(key).unwrap_or_else(|| {
            faults.push(Fault::MissingValue { key }.at(self.member.material.span));
            Stress::new(f64::NAN)
        })
    }

    /// The values as they stand where none is said of the weak axis; of F_t not a number where it is not given.
    fn alike(&self, faults: &mut Faults) -> Values {
        let [F_b, F_v, F_c_perp, F_c, E, E_min] = ["F_b", "F_v", "F_c_perp", "F_c", "E", "E_min"].map(|key| self.needed(key, faults));
        let values = Values::alike(F_b, F_v, F_c_perp, F_c, E, E_min);
        values.pulled(self.values.stress("F_t").unwrap_or(values.F_t))
    }

    /// Sawn lumber or timber.
    pub(super) fn sawn(&self, class: Class) -> Result<Resolved, Faults> {
        let mut faults = Faults::new();
        let values = self.alike(&mut faults);
        self.resolved(class, values, None, Vec::new(), faults)
    }

    /// Glued laminated timber with a stated source.
    pub(super) fn laminated(&self) -> Result<Resolved, Faults> {
        let root = volume_row("other").and_then(|r| r.number("root")).map_or(f64::NAN, |f| f.value);
        let note =
            format!("The volume factor of {} takes the exponent of species other than Southern Pine, which gives the less.", self.name);
        self.glued(Class::Laminated, Volume::Root(root), vec![note])
    }

    /// Structural composite lumber: its report is named, and its size factor is its own.
    pub(super) fn composite(&self) -> Result<Resolved, Faults> {
        let mut faults = Faults::new();
        if !self.source.chars().any(|c| c.is_ascii_digit()) {
            faults.push(Fault::NoReportNumber { source: self.source.to_owned() }.at(self.member.material.span));
        }
        if let Some((key, _)) = self.values.stresses.iter().find(|(key, _)| key.value == "E_y_min") {
            faults.push(Fault::NotOfComposite { what: "a modulus for stability about the weak axis" }.at(key.span));
        }
        let exponent = self.values.number("size_exponent");
        let given = self.values.length("size_depth");
        let depth = given.unwrap_or(Q::new(12.0 * IN.factor));
        let mut notes = Vec::new();
        if given.is_none() {
            notes.push(format!("The size factor of {} is 1 at a depth of 12 in; no `size_depth` is given.", self.name));
        }
        // Without its exponent a member that is no deeper goes without what the factor would add; a deeper one would lose by it.
        if exponent.is_none() && section::resolve(self.member).is_ok_and(|size| !size.depth.at_most(depth)) {
            faults.push(Fault::MissingValue { key: "size_exponent" }.at(self.member.material.span));
        } else if exponent.is_none() {
            notes.push(format!("The size factor of {} is taken as 1: no `size_exponent` is given.", self.name));
        }
        let volume = Volume::Exponent(exponent.unwrap_or(0.0), depth);
        match self.glued(Class::Composite, volume, notes) {
            Ok(resolved) if faults.is_empty() => Ok(resolved),
            Ok(_) => Err(faults),
            Err(more) => {
                faults.extend(more);
                Err(faults)
            }
        }
    }

    fn glued(&self, class: Class, volume: Volume, notes: Vec<String>) -> Result<Resolved, Faults> {
        let mut faults = Faults::new();
        let alike = self.alike(&mut faults);
        let leans = class == Class::Laminated && (self.member.tilt.is_some() || self.member.conditions.flat.is_some());
        let leans = leans || self.member.standing.is_some() && bends_sideways(self.member);
        let mut weak = |key, otherwise: Stress| match self.values.stress(key) {
            None if leans => self.needed(key, &mut faults),
            found => found.unwrap_or(otherwise),
        };
        let F_by = weak("F_by", alike.F_by);
        let E_y = if class == Class::Composite { self.values.stress("E_y").unwrap_or(alike.E_y) } else { weak("E_y", alike.E_y) };
        let F_b_neg = self.values.stress("F_b_neg").unwrap_or(alike.F_b_neg);
        let E_y_min = self.values.stress("E_y_min").unwrap_or(alike.E_y_min);
        let glued = Glued { volume, balanced: F_b_neg.at_least(alike.F_b) };
        self.resolved(class, Values { F_b_neg, F_by, E_y, E_y_min, ..alike }, Some(glued), notes, faults)
    }

    fn resolved(
        &self,
        class: Class,
        values: Values,
        glued: Option<Glued>,
        mut notes: Vec<String>,
        mut faults: Faults,
    ) -> Result<Resolved, Faults> {
        let gravity = self.values.number("G");
        if gravity.is_none() && self.member.self_weight {
            faults.push(Fault::MissingValue { key: "G" }.at(self.member.material.span));
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        let name = || self.name.to_owned();
        notes.push(format!("Reference values of {}: {}.", self.name, self.source));
        let about = Material { name: name(), table: self.source.to_owned(), row: name() };
        Ok(Resolved { about, read: Vec::new(), gravity, class, grade: String::new(), species: name(), glued, notes, values })
    }
}

/// Whether a post, stud or tie is bent about its weak axis.
fn bends_sideways(member: &Member) -> bool {
    member.loads.iter().any(|load| match &load.kind {
        LoadKind::Line { about, .. } | LoadKind::Point { about, .. } | LoadKind::Moment { about, .. } => *about == Axis::Weak,
        LoadKind::Axial { eccentricity, .. } | LoadKind::Reaction { arrives: Arrival::Head { eccentricity, .. }, .. } => {
            eccentricity.weak.is_some()
        }
        LoadKind::Area { .. } | LoadKind::Reaction { .. } | LoadKind::Thrust { .. } => false,
    })
}
