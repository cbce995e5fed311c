//! Flat use, the weak axis of members that lean, and what a treatment against fire leaves.

use super::{ONE, Reader};
use crate::codes::Read;
use crate::codes::american::fault::Fault;
use crate::codes::american::material::{Class, Values, size_in_words};
use crate::codes::american::{notation, tables};
use crate::equation::Symbol;
use crate::units::{IN, Ratio, Stress};

/// Factors about the weak axis.
#[derive(Clone, Copy)]
pub(super) struct Sideways {
    pub C_F: Ratio,
    pub C_fu: Ratio,
    pub C_fu_E: Ratio,
}

impl Reader<'_> {
    /// C_fu on F_b and on E. NDS 4.3.7.
    pub(super) fn flat(&mut self) -> (Ratio, Ratio) {
        let Some(asked) = self.entry.conditions.flat else {
            self.state([&notation::C_fu_b, &notation::C_fu_E], "NDS 4.3.7", "on edge");
            return (ONE, ONE);
        };
        if self.material.class == Class::Composite {
            self.faults.push(Fault::NotOfComposite { what: "flat use" }.at(asked));
            return (ONE, ONE);
        }
        if self.material.class == Class::Laminated {
            return (self.flat_use_of_laminated(), ONE);
        }
        self.state([&notation::C_fu_b, &notation::C_fu_E], "NDS 4.3.7", "laid flat");
        if self.material.class.is_timber() {
            return self.flat_use_of_timber().unwrap_or_else(|| {
                self.faults.push(Fault::NotForTimbers { what: "a flat use factor for this grade" }.at(asked));
                (ONE, ONE)
            });
        }
        (self.flat_use_of_dimension(), ONE)
    }

    /// C_F, C_fu on F_b and on E, and C_r about the weak axis of a member that leans. NDS 4.3.6, 4.3.7, 4.3.9.
    pub(super) fn across(&mut self, C_F_b: Ratio) -> Sideways {
        if self.entry.tilt.is_none() && self.entry.standing.is_none() {
            return Sideways { C_F: ONE, C_fu: ONE, C_fu_E: ONE };
        }
        if let Some(asked) = self.entry.conditions.flat {
            self.faults.push(Fault::FlatAndTilt.at(asked));
        }
        match self.material.class {
            Class::Composite if self.entry.standing.is_some() => return Sideways { C_F: ONE, C_fu: ONE, C_fu_E: ONE },
            Class::Composite => {
                let what = "bending about the weak axis";
                self.faults.push(Fault::NotOfComposite { what }.at(self.entry.mark.span));
                return Sideways { C_F: ONE, C_fu: ONE, C_fu_E: ONE };
            }
            Class::Laminated => return Sideways { C_F: ONE, C_fu: self.flat_use_of_laminated(), C_fu_E: ONE },
            _ => {}
        }
        self.facts.state(&notation::C_r_y, "NDS 4.3.9", "not taken across the depth");
        if !self.material.class.is_timber() {
            self.facts.state(&notation::C_F_y, "NDS 4.3.6", size_in_words(self.section));
            self.state([&notation::C_fu_y, &notation::C_fu_Ey], "NDS 4.3.7", "load on the wide face");
            return Sideways { C_F: C_F_b, C_fu: self.flat_use_of_dimension(), C_fu_E: ONE };
        }
        self.facts.state(&notation::C_F_y, "NDS 4.3.6.2", "load on the wide face");
        let (found, because) = match self.flat_use_of_timber() {
            Some(found) => (found, "load on the wide face"),
            None if self.is_own_stringer() => {
                let least = (self.least_of_timbers("F_b"), self.least_of_timbers("E"));
                (least, "load on the wide face; own values of Beams & Stringers: the least of the grades")
            }
            None => ((ONE, ONE), "Posts & Timbers: the same on all faces"),
        };
        self.state([&notation::C_fu_y, &notation::C_fu_Ey], "NDS Supp. Table 4D", because);
        let (C_fu, C_fu_E) = found;
        Sideways { C_F: ONE, C_fu, C_fu_E }
    }

    /// C_fu of laminated timber on F_by: its rule looks at the side along the wide faces of the laminations. NDS 5.3.7.
    fn flat_use_of_laminated(&mut self) -> Ratio {
        let row = tables::GLULAM_FLAT.rows().next();
        let number = |column: &str| row.as_ref().and_then(|r| r.number(column));
        let side = self.section.width.number_in(&IN);
        let value = |column: &str| number(column).map_or(f64::NAN, |f| f.value);
        self.read.extend(number("root").map(Read::plain));
        let (factor, because) = if side < value("d_below") - 1e-9 {
            let (reference, root) = (value("d_reference"), value("root"));
            (libm::pow(reference / side, 1.0 / root), format!("({reference}/{side})^(1/{root})"))
        } else {
            (1.0, format!("{} in and more", value("d_below")))
        };
        for letter in [&notation::C_fu_b, &notation::C_fu_y] {
            self.facts.state(letter, "NDS 5.3.7", because.clone());
        }
        Ratio::new(factor)
    }

    fn flat_use_of_dimension(&mut self) -> Ratio {
        let (thickness, width) = self.section.nominal;
        let row = tables::FLAT.row_at(&[], &[("thickness", IN.factor * thickness), ("width", IN.factor * width)]);
        self.keep(row.and_then(|r| r.number("F_b")))
    }

    /// On F_b and on E; none for Posts & Timbers, for which the table has none.
    fn flat_use_of_timber(&mut self) -> Option<(Ratio, Ratio)> {
        let beam = self.material.about.row.contains("Beams & Stringers");
        let row = tables::FLAT_TIMBERS.row(&[("grade", &self.material.grade)]).filter(|_| beam)?;
        let (b, E) = (row.number("F_b"), row.number("E"));
        Some((self.keep(b), self.keep(E)))
    }

    /// Whether it is a timber of own values with the size of Beams & Stringers: nominally 5 in (dressed 4-1/2 in) and thicker, and one side
    /// more than 2 in over the other. NDS 4.1.3.3.
    fn is_own_stringer(&self) -> bool {
        let sides = [self.section.width, self.section.depth].map(|side| side.number_in(&IN));
        let thick = sides.iter().all(|side| *side > 4.5 - 1e-9);
        self.material.class == Class::CustomTimber && thick && (sides[0] - sides[1]).abs() > 2.0 + 1e-9
    }

    /// The least of Table 4D's factors of the wide face on a property, whatever the grade.
    fn least_of_timbers(&mut self, property: &str) -> Ratio {
        let numbers = tables::FLAT_TIMBERS.rows().filter_map(|row| row.number(property));
        let least = numbers.min_by(|a, b| a.value.total_cmp(&b.value));
        self.keep(least)
    }

    /// Reference values as a treatment against fire leaves them. NDS 2.3.4.
    pub(super) fn treated(&mut self, values: Values) -> Values {
        let Some(treatment) = &self.entry.conditions.retardant else { return values };
        let facts = &mut self.facts;
        let mut say = |letters: &[&'static Symbol<<Stress as crate::equation::OfDimension>::D>], factor: Ratio| {
            let because = format!("reference value x {} for fire-retardant treatment ({})", factor.value(), treatment.source);
            letters.iter().for_each(|letter| facts.state(letter, "NDS 2.3.4", because.clone()));
        };
        say(&[&notation::F_b, &notation::F_bx_pos, &notation::F_bx_neg, &notation::F_by], treatment.bending);
        say(&[&notation::F_t], treatment.tension);
        say(&[&notation::F_v, &notation::F_vx, &notation::F_vy], treatment.shear);
        say(&[&notation::F_c_perp], treatment.across);
        say(&[&notation::F_c], treatment.along);
        say(&[&notation::E, &notation::E_min, &notation::E_x, &notation::E_y, &notation::E_x_min, &notation::E_y_min], treatment.modulus);
        Values {
            F_b: values.F_b * treatment.bending,
            F_b_neg: values.F_b_neg * treatment.bending,
            F_by: values.F_by * treatment.bending,
            F_t: values.F_t * treatment.tension,
            F_v: values.F_v * treatment.shear,
            F_vy: values.F_vy * treatment.shear,
            F_c_perp: values.F_c_perp * treatment.across,
            F_c_perp_y: values.F_c_perp_y * treatment.across,
            F_c: values.F_c * treatment.along,
            E: values.E * treatment.modulus,
            E_min: values.E_min * treatment.modulus,
            E_y: values.E_y * treatment.modulus,
            E_y_min: values.E_y_min * treatment.modulus,
        }
    }
}
