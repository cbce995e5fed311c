//! Reference values of the engineer's own, with a stated source (reading 41).

#![allow(non_snake_case)]

use super::fault::Fault;
use super::layup::{Glued, Volume, volume_row};
use super::material::{Class, Resolved, Values};
use super::needs::Needs;
use super::section;
use crate::codes::Material;
use crate::job::model::{CustomValues, HoldsFor, Member};
use crate::text::Faults;
use crate::units::{IN, Q, Stress};

/// A material with a stated source.
pub(super) struct Own<'a> {
    pub member: &'a Member,
    pub needs: Needs,
    pub name: &'a str,
    pub source: &'a str,
    pub values: &'a CustomValues,
}

/// Not given, and not read by any check of the member.
const NOT_GIVEN: Stress = Stress::new(f64::NAN);

impl Own<'_> {
    /// A value as given. Where it is not, it is not a number; with a fault, where the checks of the member read it.
    fn needed_if(&self, is_read: bool, key: &'static str, why: &'static str, faults: &mut Faults) -> Stress {
        let given = self.values.stress(key);
        if given.is_none() && is_read {
            faults.push(Fault::MissingValue { key, why }.at(self.member.material.span));
        }
        given.unwrap_or(NOT_GIVEN)
    }

    /// The values as they stand where none is said of the weak axis.
    fn alike(&self, faults: &mut Faults) -> Values {
        let bending = self.needs.bending;
        let F_b = self.needed_if(bending, "F_b", "bending", faults);
        let F_v = self.needed_if(bending, "F_v", "shear along the grain", faults);
        let F_c_perp = self.needed_if(true, "F_c_perp", "bearing across the grain", faults);
        let F_c = self.needed_if(
            self.needs.along,
            "F_c",
            "compression along the grain, of columns and of bearing at an angle to the grain",
            faults,
        );
        let F_t = self.values.stress("F_t").unwrap_or(NOT_GIVEN);
        let E = self.needed_if(bending, "E", "deflection", faults);
        let E_min = self.needed_if(bending, "E_min", "modulus for stability: lateral buckling and columns", faults);
        Values::alike(F_b, F_v, F_c_perp, F_c, E, E_min).pulled(F_t)
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
        let mut faults = Faults::new();
        let alike = self.alike(&mut faults);
        let needs = self.needs;
        let mut weak = |key, why| self.needed_if(needs.weak, key, why, &mut faults);
        let F_by = weak("F_by", "bending about the weak axis");
        let F_vy = weak("F_vy", "shear about the weak axis");
        let E_y = weak("E_y", "deflection about the weak axis");
        let F_c_perp_y = self.needed_if(needs.side, "F_c_perp_y", "bearing on the side of the laminations", &mut faults);
        let top = "bending with the top in tension; of a balanced layup it is F_b";
        let F_b_neg = self.needed_if(needs.hogging, "F_b_neg", top, &mut faults);
        let lateral = "modulus for stability about the weak axis: lateral buckling and columns";
        let E_y_min = self.needed_if(needs.stability, "E_y_min", lateral, &mut faults);
        let glued = Glued { volume: Volume::Root(root), balanced: F_b_neg.at_least(alike.F_b) };
        let values = Values { F_b_neg, F_by, F_vy, F_c_perp_y, E_y, E_y_min, ..alike };
        self.resolved(Class::Laminated, values, Some(glued), vec![note], faults)
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
        let mut notes = Vec::new();
        let volume = self.size_of_composite(&mut notes, &mut faults);
        let alike = self.alike(&mut faults);
        // Of a beam it is refused where its faces are settled.
        let is_read = self.needs.weak && self.member.standing.is_some();
        let mut weak = |key, why| self.needed_if(is_read, key, why, &mut faults);
        let F_by = weak("F_by", "bending with the load on the wide face, as the report gives it");
        let F_vy = weak("F_vy", "shear with the load on the wide face, as the report gives it");
        let E_y = weak("E_y", "deflection with the load on the wide face, as the report gives it");
        let glued = Glued { volume, balanced: true };
        self.resolved(Class::Composite, Values { F_by, F_vy, E_y, ..alike }, Some(glued), notes, faults)
    }

    /// The size factor of a composite, as its report has it.
    fn size_of_composite(&self, notes: &mut Vec<String>, faults: &mut Faults) -> Volume {
        let exponent = self.values.number("size_exponent");
        let given = self.values.length("size_depth");
        let depth = given.unwrap_or(Q::new(12.0 * IN.factor));
        if given.is_none() {
            notes.push(format!("The size factor of {} is 1 at a depth of 12 in; no `size_depth` is given.", self.name));
        }
        // Without its exponent a member that is no deeper goes without what the factor would add; a deeper one would lose by it.
        if exponent.is_none() && self.needs.bending && section::resolve(self.member).is_ok_and(|size| !size.depth.at_most(depth)) {
            let why = "exponent of the report's size factor (size_depth / d)^size_exponent, which a deeper section asks for; such as 0.111";
            faults.push(Fault::MissingValue { key: "size_exponent", why }.at(self.member.material.span));
        } else if exponent.is_none() {
            notes.push(format!("The size factor of {} is taken as 1: no `size_exponent` is given.", self.name));
        }
        Volume::Exponent(exponent.unwrap_or(0.0), depth)
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
            faults.push(Fault::MissingValue { key: "G", why: "own weight, by specific gravity" }.at(self.member.material.span));
        }
        if let (HoldsFor::Table(span), true) | (HoldsFor::Depth(_, span), true) = (self.values.holds_for, glued.is_some()) {
            let what = if class == Class::Composite { "the size of a value, but by `size_depth`," } else { "the size of a value" };
            faults.push(Fault::NotForGlued { what }.at(span));
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        let name = || self.name.to_owned();
        notes.push(format!("Reference values of {}: {}.", self.name, self.source));
        let about = Material { name: name(), table: self.source.to_owned(), row: name() };
        Ok(Resolved {
            about,
            read: Vec::new(),
            gravity,
            class,
            grade: String::new(),
            species: name(),
            glued,
            notes,
            values,
            holds_for: Some(self.values.holds_for),
        })
    }
}
