//! From a demand of the walk to the letters of the checks, and what is said of them.

#![allow(non_snake_case)]

use super::factors::effective;
use super::material::Class;
use super::member::{Asked, How, Wanted};
use super::prepared::Bending;
use super::{limits, notation};
use crate::codes::{Action, Bends, Demand, Held, Loaded, Parts, Statics, Time};
use crate::equation::{Facts, LOADS};
use crate::job::model::Nature;
use crate::units::{Force, Length, LineLoad, Moment, Ratio};

impl Bending {
    /// A demand in the code's letters.
    pub(super) fn asked(&self, demand: &Demand) -> (Asked, How) {
        let mut asked = of_every_place(demand.time);
        match demand.statics {
            Statics::Uniform { load, span } => (asked.q_d, asked.l) = (LineLoad::new(load.abs()), Length::new(span)),
            Statics::MidPoint { force, span } => (asked.F_d, asked.l) = (Force::new(force.abs()), Length::new(span)),
            Statics::Both { load, force, span } => {
                let sign = if 0.125 * load * span + 0.25 * force < 0.0 { -1.0 } else { 1.0 };
                (asked.q_d, asked.F_d, asked.l) = (LineLoad::new(sign * load), Force::new(sign * force), Length::new(span));
            }
            Statics::Diagram => {}
        }
        let mut how = How {
            statics: demand.statics,
            held: None,
            depths: 0.0,
            softwood: self.rules.class == Class::Softwood,
            shear_modulus: self.rules.shear_modulus,
            size: self.rules.size,
            size_weak: self.rules.size_weak,
            added: self.rules.added,
            forces_beside: [true; 2],
            plain_bearing: None,
            square: true,
            same_side: true,
            notched_support: true,
            net_section: false,
            over: None,
            both_ways: false,
            upward: false,
            overhang: false,
            limits: "EN 1995-1-1, Table 7.2",
            wanted: Wanted::Own,
            leading: None,
            floor: None,
            parts: [None; Nature::ALL.len()],
        };
        match demand.action {
            Action::Moment { moment, held, loaded } => {
                asked.M_yd = Moment::new(moment.abs());
                self.hold(demand, held, loaded, &mut asked, &mut how);
            }
            Action::Moments { strong, weak, held, loaded } => {
                asked.M_yd = Moment::new(strong.abs());
                asked.M_zd = Moment::new(weak.abs());
                self.hold(demand, held, loaded, &mut asked, &mut how);
            }
            Action::SideShear { force, .. } => asked.V_zd = Force::new(force),
            Action::Floor { span } => how.floor = self.vibration.ask(&self.member, span, demand.panel, &mut asked),
            // Posts, studs and ties are refused before they are asked for.
            Action::Along { .. } | Action::Underfoot { .. } => {}
            Action::Shear { force, reduced, .. } => {
                asked.V_d = Force::new(force);
                if reduced {
                    how.statics = Statics::Diagram;
                }
            }
            Action::Bearing { force, length, to_end, clear, angle, .. } => {
                (asked.F_c90d, asked.F_cad) = (Force::new(force), Force::new(force));
                asked.l_b = Length::new(length);
                asked.a = Length::new(to_end);
                (asked.l_1in, asked.l_1out) = (Length::new(clear.inner), Length::new(clear.outer));
                how.forces_beside = [clear.inner, clear.outer].map(f64::is_finite);
                let radians = angle.to_radians();
                asked.sin_alpha = Ratio::new(libm::sin(radians));
                asked.cos_alpha = Ratio::new(libm::cos(radians));
                how.square = angle > 90.0 - 1e-9;
                how.plain_bearing = self.plain_bearing(Length::new(clear.inner.min(clear.outer)), asked.l_b);
            }
            Action::Notch { force, notch, bends, .. } => {
                asked.V_d = Force::new(force);
                how.notched_support = notch.at_support;
                how.net_section = bends.is_some();
                if let Some(Bends { moment, held, loaded }) = bends {
                    asked.M_yd = Moment::new(moment.abs());
                    self.hold(demand, held, loaded, &mut asked, &mut how);
                }
                asked.h_ef = Length::new(self.member.h.value() - notch.depth);
                asked.x = Length::new(notch.from_line);
                how.same_side = notch.tension;
            }
            Action::Deflection { deflection, parts, limit, limit_as, what, by_nature, leading, overhang } => {
                asked.w_given = Length::new(deflection.abs());
                asked.w_most = Length::new(limit);
                if let Some((over, length)) = limit_as {
                    asked.l = Length::new(if overhang { 0.5 * length } else { length });
                    how.over = Some(over);
                }
                how.upward = deflection < 0.0;
                how.overhang = overhang;
                how.limits = self.deflect.reference(what);
                how.wanted = limits::wanted(what, self.deflect.quasi);
                how.leading = leading;
                match parts {
                    Some((down, across)) => {
                        asked.w_y = Length::new(down);
                        asked.w_z = Length::new(across);
                        how.both_ways = true;
                    }
                    None => self.act(&by_nature, deflection, overhang, &mut asked, &mut how),
                }
            }
        }
        (asked, how)
    }

    /// Effective length for lateral buckling.
    fn hold(&self, demand: &Demand, held: Held, loaded: Loaded, asked: &mut Asked, how: &mut How) {
        match held {
            Held::Throughout(by) => how.held = Some(by.because()),
            Held::Gap(gap) => {
                let (part, _) = effective::part(demand, loaded);
                asked.l_braced = Length::new(gap);
                asked.m_l = Ratio::new(part);
                how.depths = effective::depths(loaded, part, gap, self.member.h.value());
            }
        }
    }

    /// Why the factor of a bearing is 1; none where it counts.
    fn plain_bearing(&self, clear: Length, length: Length) -> Option<&'static str> {
        if !self.rules.bears {
            Some("not for this material")
        } else if !clear.at_least(2.0 * self.member.h) {
            Some("another force within 2 h")
        } else if self.rules.bearing_to.is_some_and(|to| !length.at_most(Length::new(to))) {
            Some("longer than 400 mm")
        } else {
            None
        }
    }

    /// Parts of a deflection by nature, downward or upward as the whole is.
    fn act(&self, by_nature: &Parts, whole: f64, overhang: bool, asked: &mut Asked, how: &mut How) {
        let sign = if whole < 0.0 { -1.0 } else { 1.0 };
        for (i, (nature, part)) in Nature::ALL.into_iter().zip(by_nature).enumerate().filter(|(_, (_, part))| part.deflection != 0.0) {
            how.parts[i] = Some(if overhang { Statics::Diagram } else { part.statics });
            let (line, force) = match part.statics {
                Statics::Uniform { load, .. } => (load, 0.0),
                Statics::MidPoint { force, .. } => (0.0, force),
                Statics::Both { .. } | Statics::Diagram => (0.0, 0.0),
            };
            // The whole may have no closed form, nor its limit a span, where a part has one.
            if let Statics::Uniform { span, .. } | Statics::MidPoint { span, .. } = part.statics {
                asked.l = Length::new(span);
            }
            let (q, F, w) = match nature {
                Nature::Dead => (&mut asked.g_k, &mut asked.G_k, &mut asked.w_G),
                Nature::Live => (&mut asked.q_k, &mut asked.Q_k, &mut asked.w_Q),
                Nature::RoofLive => (&mut asked.q_Hk, &mut asked.Q_Hk, &mut asked.w_H),
                Nature::Snow => (&mut asked.s_k, &mut asked.S_k, &mut asked.w_S),
                Nature::Wind => (&mut asked.w_k, &mut asked.W_k, &mut asked.w_W),
                Nature::Seismic | Nature::Rain => continue,
            };
            *q = LineLoad::new(sign * line);
            *F = Force::new(sign * force);
            *w = Length::new(sign * part.deflection);
        }
    }

    /// What is said of the values that a check starts from.
    pub(super) fn facts_of(&self, demand: &Demand, time: &Time) -> Facts {
        let mut facts = self.facts.clone();
        facts.state(&notation::k_mod, "EN 1995-1-1, Table 3.1", time.because.clone());
        if demand.statics != Statics::Diagram {
            facts.state(&notation::q_d, LOADS, "");
            facts.state(&notation::F_d, LOADS, "");
        }
        let place = "from the diagram";
        match demand.action {
            Action::Moment { held, loaded, .. } | Action::Moments { held, loaded, .. } => {
                facts.state(&notation::M_yd, "statics", place);
                facts.state(&notation::M_zd, "statics", place);
                if let Held::Gap(_) = held {
                    facts.state(&notation::l_braced, "EN 1995-1-1, 6.3.3", "largest gap between points that hold the compression edge");
                    facts.state(&notation::m_l, "EN 1995-1-1, Table 6.1", effective::part(demand, loaded).1);
                }
            }
            Action::Shear { reduced, .. } => {
                let (reference, because) =
                    if reduced { ("EN 1995-1-1, 6.1.7(3)", "without the point load within h of the bearing") } else { ("statics", place) };
                facts.state(&notation::V_d, reference, because);
            }
            Action::Along { .. } | Action::Underfoot { .. } => {}
            Action::Floor { span } => {
                facts.state(&notation::l, "job file", "span");
                self.vibration.state(&self.member, span, demand.panel, &mut facts);
            }
            Action::SideShear { .. } => facts.state(&notation::V_zd, "statics", "across the depth"),
            Action::Bearing { .. } => {
                facts.state(&notation::F_c90d, "statics", "reaction");
                facts.state(&notation::F_cad, "statics", "reaction");
                facts.state(&notation::l_b, "job file", "bearing length");
                facts.state(&notation::a, "job file", "from the bearing to the member's nearer end");
                facts.state(&notation::l_1in, "EN 1995-1-1, 6.1.5", "clear distance to the next force or bearing, towards the span");
                facts.state(&notation::l_1out, "EN 1995-1-1, 6.1.5", "clear distance to the next force or bearing, towards the nearer end");
                facts.state(&notation::sin_alpha, "job file", "sine of the angle between force and grain");
                facts.state(&notation::cos_alpha, "job file", "cosine of the same angle");
            }
            Action::Notch { bends, support, .. } => {
                let place = if support == 0 { "largest along the notch" } else { "at the support line, nothing left out" };
                facts.state(&notation::V_d, "statics", place);
                facts.state(&notation::M_yd, "statics", "largest along the notch");
                if let Some(Bends { held: Held::Gap(_), loaded, .. }) = bends {
                    facts.state(&notation::l_braced, "EN 1995-1-1, 6.3.3", "unbraced length of the compression edge");
                    facts.state(&notation::m_l, "EN 1995-1-1, Table 6.1", effective::part(demand, loaded).1);
                }
                facts.state(&notation::h_ef, "job file", "depth left over the notch");
                facts.state(&notation::x, "job file", "from the middle of the bearing to the corner of the notch");
            }
            Action::Deflection { .. } => {
                facts.state(&notation::w_given, "beam theory", place);
                facts.state(&notation::w_most, "job file", "given as a length");
                for letter in [&notation::w_G, &notation::w_Q, &notation::w_H, &notation::w_S, &notation::w_W] {
                    facts.state(letter, "beam theory", "bending and shear, from the diagram");
                }
                facts.state(&notation::w_y, "beam theory", "along the depth, with the factors of this combination");
                facts.state(&notation::w_z, "beam theory", "across the depth, with the same factors");
            }
        }
        facts
    }
}

/// A demand of a duration, of which the place has given nothing yet.
pub(super) fn of_every_place(k_mod: f64) -> Asked {
    Asked { k_mod: Ratio::new(k_mod), ..Asked::blank() }
}
