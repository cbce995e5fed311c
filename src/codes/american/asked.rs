//! From a demand of the walk to the letters of the checks, and what is said of them.

#![allow(non_snake_case)]

use super::glued::Layup;
use super::member::{Asked, How, NotchLimit};
use super::prepared::Bending;
use super::underfoot::Foot;
use super::{effective, factors, lookup, notation};
use crate::codes::{Action, Bends, Demand, Held, Statics, Time};
use crate::equation::{Facts, LOADS};
use crate::units::{Force, IN, Length, LineLoad, Moment, Ratio};

impl Bending {
    /// A demand in the code's letters.
    pub(super) fn asked(&self, demand: &Demand) -> (Asked, How) {
        let (mut asked, mut how) = (self.of_every_place(demand), self.plainly(demand));
        match demand.statics {
            Statics::Uniform { load, span } => (asked.w, asked.L) = (LineLoad::new(load.abs()), Length::new(span)),
            Statics::MidPoint { force, span } => (asked.P, asked.L) = (Force::new(force.abs()), Length::new(span)),
            Statics::Both { .. } | Statics::Diagram => {}
        }
        match demand.action {
            Action::Moment { moment, held, .. } => {
                asked.M = Moment::new(moment.abs());
                self.hold(demand, held, &mut asked, &mut how);
            }
            Action::Moments { strong, weak, held, .. } => {
                asked.M_x = Moment::new(strong.abs());
                asked.M_y = Moment::new(weak.abs());
                self.hold(demand, held, &mut asked, &mut how);
            }
            // Its moments are put in where posts, studs and ties are worked.
            Action::Along { .. } | Action::Floor { .. } => {}
            Action::SideShear { force, .. } => asked.V_y = Force::new(force),
            Action::Shear { force, face, reduced, .. } => {
                asked.V = Force::new(force);
                asked.l_b = Length::new(2.0 * face);
                how.reduced = reduced;
            }
            Action::Bearing { force, length, to_end, angle, .. } => {
                asked.R = Force::new(force);
                asked.l_b = Length::new(length);
                incline(angle, &mut asked, &mut how);
                how.plain_bearing = effective::plain_bearing(length, to_end);
            }
            Action::Underfoot { force, load, to_end, angle } => {
                asked.R = Force::new(force);
                incline(angle, &mut asked, &mut how);
                if let Some((foot, way, plain)) = Foot::worst(&self.feet, load, to_end) {
                    [asked.l_b, asked.b_b] = foot.way(way);
                    how.plain_bearing = plain;
                }
            }
            Action::Notch { force, notch, bends, support } => {
                asked.V = Force::new(force);
                how.inner_notch = support == 0;
                how.net_section = bends.is_some();
                if let Some(Bends { moment, held, .. }) = bends {
                    asked.M = Moment::new(moment.abs());
                    self.hold(demand, held, &mut asked, &mut how);
                }
                how.notch_limit = self.notch_limit(support == 0, notch.tension);
                asked.depth_n = Length::new(notch.depth);
                asked.d_n = Length::new(self.member.d.value() - notch.depth);
                asked.e_n = Length::new(notch.beyond);
                how.tension_notch = notch.tension;
            }
            Action::Deflection { deflection, parts, limit, limit_as, what, overhang, .. } => {
                if let Some((down, across)) = parts {
                    asked.delta_x = Length::new(down.abs());
                    asked.delta_y = Length::new(across.abs());
                    how.both_ways = true;
                }
                asked.delta = Length::new(deflection.abs());
                asked.delta_most = Length::new(limit);
                if let Some((over, length)) = limit_as {
                    asked.L = Length::new(if overhang { 0.5 * length } else { length });
                    how.over = Some(over);
                }
                how.overhang = overhang;
                how.limits = self.deflect.reference(what);
            }
        }
        (asked, how)
    }

    /// What every place gives: time, factors of the clauses. The rest is blank until the place gives it.
    fn of_every_place(&self, demand: &Demand) -> Asked {
        let reduced_shear = matches!(demand.action, Action::Notch { .. }) || self.is_of_impact;
        let C_vr = if reduced_shear && self.glued.is_some() { lookup::shear_reduction().map_or(f64::NAN, |f| f.value) } else { 1.0 };
        Asked {
            C_D: Ratio::new(if self.lrfd { 1.0 } else { demand.time }),
            lambda: Ratio::new(if self.lrfd { demand.time } else { 1.0 }),
            L_0: Length::new(demand.between),
            C_vr: Ratio::new(C_vr),
            R_B_most: Ratio::new(factors::SLENDERNESS_MOST),
            ..Asked::blank()
        }
    }

    /// The choices of the clauses where the demand asks for none.
    fn plainly(&self, demand: &Demand) -> How {
        let hogging = match demand.action {
            Action::Moment { moment, .. } => moment < 0.0,
            Action::Moments { strong, .. } => strong < 0.0,
            Action::Notch { bends: Some(bends), .. } => bends.moment < 0.0,
            _ => false,
        };
        How {
            layup: self.glued.as_ref().map(|glued| glued.layup(self.entry.conditions.flat.is_some(), hogging)),
            lrfd: self.lrfd,
            statics: demand.statics,
            held: None,
            effective: (0.0, 0.0),
            reduced: false,
            plain_bearing: None,
            square: true,
            tension_notch: true,
            inner_notch: false,
            net_section: false,
            notch_limit: self.notch_limit(false, true),
            added: IN.number(effective::BEARING_AREA.added),
            over: None,
            overhang: false,
            both_ways: false,
            limits: "IBC Table 1604.3",
        }
    }

    /// How deep a notch may be.
    fn notch_limit(&self, inner: bool, tension: bool) -> NotchLimit {
        let limits = lookup::notch_limits();
        match self.layup() {
            Some(Layup::Laminated { .. }) => lookup::glulam_notch(tension),
            _ if inner => limits.inner,
            _ => limits.end,
        }
    }

    /// Effective length for lateral buckling.
    fn hold(&self, demand: &Demand, held: Held, asked: &mut Asked, how: &mut How) {
        match held {
            Held::Throughout(by) => how.held = Some(by.because()),
            Held::Gap(gap) => {
                asked.l_u = Length::new(gap);
                how.effective = effective::length(demand, gap, self.member.d.value());
            }
        }
    }

    /// What is said of the values that a check starts from.
    pub(super) fn facts_of(&self, demand: &Demand, time: &Time) -> Facts {
        let mut facts = self.facts.clone();
        if self.lrfd {
            facts.state(&notation::lambda, "NDS Table N3", time.because.clone());
        } else {
            facts.state(&notation::C_D, "NDS Table 2.3.2", time.because.clone());
        }
        match demand.statics {
            Statics::Uniform { .. } => facts.state(&notation::w, LOADS, ""),
            Statics::MidPoint { .. } => facts.state(&notation::P, LOADS, ""),
            Statics::Both { .. } | Statics::Diagram => {}
        }
        let place = "from the diagram";
        let reduced = match demand.action {
            Action::Notch { .. } => "at a notch",
            _ if self.is_of_impact => "member subject to impact",
            _ => "prismatic, no notch here, no impact",
        };
        facts.state(&notation::C_vr, "NDS 5.3.10", reduced);
        facts.state(&notation::L_0, "NDS 5.3.6", "between the points of zero moment on both sides");
        match demand.action {
            Action::Moment { moment, .. } | Action::Moments { strong: moment, .. } => {
                let edge = if moment < 0.0 { "bottom" } else { "top" };
                facts.state(&notation::M, "statics", place);
                facts.state(&notation::M_x, "statics", "about the strong axis, from the diagram");
                facts.state(&notation::M_y, "statics", "about the weak axis, at the same place");
                facts.state(
                    &notation::l_u,
                    "NDS 3.3.3.4",
                    format!("largest gap between points that hold the {edge} edge, compressed here"),
                );
                facts.state(&notation::R_B_most, "NDS 3.3.3.7", "most that is allowed");
            }
            Action::Along { .. } | Action::Floor { .. } => {}
            Action::SideShear { .. } => facts.state(&notation::V_y, "statics", "across the depth, nothing left out"),
            Action::Shear { reduced, .. } => {
                let reference = if reduced { "NDS 3.4.3.1" } else { "statics" };
                facts.state(&notation::V, reference, place);
            }
            Action::Bearing { .. } => {
                facts.state(&notation::R, "statics", "reaction");
                facts.state(&notation::l_b, "job file", "bearing length");
                facts.state(&notation::sin_theta, "slope", "sine of the angle between force and grain");
                facts.state(&notation::cos_theta, "slope", "cosine of the same angle");
            }
            Action::Underfoot { .. } => {
                facts.state(&notation::R, "statics", "force at the foot, own weight in it");
                facts.state(&notation::l_b, "job file", "of the foot, along the member");
                facts.state(&notation::b_b, "job file", "of the foot, across the member");
                facts.state(&notation::sin_theta, "slope", "sine of the angle between force and grain");
                facts.state(&notation::cos_theta, "slope", "cosine of the same angle");
            }
            Action::Notch { support, .. } => {
                let where_from =
                    if support == 0 { "largest along the notch" } else { "at the support line, nothing left out (NDS 3.4.3.2)" };
                facts.state(&notation::V, "statics", where_from);
                facts.state(&notation::M, "statics", "largest along the notch");
                facts.state(&notation::l_u, "NDS 3.3.3.4", "unbraced length of the compression edge");
                facts.state(&notation::depth_n, "job file", "depth of the notch");
            }
            Action::Deflection { .. } => {
                facts.state(&notation::delta, "beam theory", place);
                facts.state(&notation::delta_x, "beam theory", "along the depth, from the diagram");
                facts.state(&notation::delta_y, "beam theory", "across the depth, at the same place");
                facts.state(&notation::delta_most, "job file", "given as a length");
            }
        }
        facts
    }
}

/// The angle between force and grain, degrees.
fn incline(angle: f64, asked: &mut Asked, how: &mut How) {
    asked.sin_theta = Ratio::new(libm::sin(angle.to_radians()));
    asked.cos_theta = Ratio::new(libm::cos(angle.to_radians()));
    how.square = angle > 90.0 - 1e-9;
}
