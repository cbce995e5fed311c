//! A member resolved against the American tables, ready to be asked for ratios.

#![allow(non_snake_case)]

use super::effective::Effective;
use super::glued::Layup;
use super::layup::{Glued, Volume};
use super::material::Class;
use super::member::{Asked, How, Member};
use super::underfoot::{self, Foot};
use super::{
    CHECKS, SETS, account, assumptions, combinations, deflection, edition, factors, fault::Fault, lookup, material, notation, notes,
    reduction, section, time, weight,
};
use crate::analysis::Panel;
use crate::codes::assumed;
use crate::codes::{
    Account, Action, Assumed, Beside, CheckAbout, Combination, DeflectionCase, Demand, Held, MOST_PANELS, Material, Prepared, Read,
    Reduced, Section, Statics, Time, Worked, sides,
};
use crate::equation::{Facts, LOADS, Tape};
use crate::job::model::{Basis, Case, Job, Member as Entry, Moisture, Use};
use crate::text::Faults;
use crate::units::{Force, Length, LineLoad, Moment, PCF, Q, Ratio, trimmed};

/// What [`prepare`] gives.
pub(super) struct Bending {
    pub entry: Entry,
    pub basis: Basis,
    pub member: Member,
    pub facts: Facts,
    pub section: Section,
    pub material: Material,
    pub read: Vec<Read>,
    pub assumes: Vec<Assumed>,
    pub abouts: Vec<CheckAbout>,
    pub effective: Effective,
    pub deflect: super::limits::Deflect,
    pub weight: f64,
    pub rigidity: f64,
    pub rigidity_across: f64,
    pub lrfd: bool,
    pub glued: Option<Glued>,
    pub wet: bool,
    pub notes: Vec<String>,
    /// Whether it is a joist, or bears live load.
    pub carries_floor: bool,
    pub reduced: Vec<Reduced>,
    /// Feet of posts and studs that stand on it.
    pub feet: Vec<Foot>,
}

/// Resolves a joist, rafter, beam or header of sawn lumber.
///
/// # Errors
/// Everything in its entry that the tables and clauses do not allow.
pub(super) fn prepare(job: &Job, entry: &Entry) -> Result<Bending, Faults> {
    let mut faults = Faults::new();
    let panels = entry.spans.spans.len() + usize::from(!entry.spans.left.is_zero()) + usize::from(!entry.spans.right.is_zero());
    if panels > MOST_PANELS {
        faults.push(Fault::TooManyPanels { panels }.at(entry.mark.span));
    }
    let section = section::resolve(entry);
    let material = section.as_ref().ok().map(|s| material::resolve(entry, s));
    let (section, material) = match (section, material) {
        (Ok(section), Some(Ok(material))) => (section, material),
        (section, material) => {
            faults.extend(section.err().into_iter().flatten());
            faults.extend(material.and_then(Result::err).into_iter().flatten());
            return Err(faults);
        }
    };
    let reduced = reduction::of(job, entry, &mut faults);
    faults.extend(section::notches(entry, &section, material.class == Class::Laminated));
    if material.class == Class::Laminated && entry.plies.value > 1 {
        faults.push(Fault::NotForGlued { what: "`plies`" }.at(entry.plies.span));
    }
    let settled = match factors::settle(job, entry, &section, &material) {
        Ok(settled) if faults.is_empty() => settled,
        Ok(_) => return Err(faults),
        Err(more) => {
            faults.extend(more);
            return Err(faults);
        }
    };
    let factors::Settled { member, facts, mut read, deflect } = settled;
    read.splice(0..0, material.read.iter().cloned());
    if entry.standing.is_none() {
        read.retain(|r| r.cell.column != "F_t");
    }
    read.splice(0..0, section.read.iter().cloned());
    read.extend(reduced.iter().flat_map(|r| r.read.iter().cloned()));
    let layup = layup_of(material.glued.as_ref(), entry.conditions.flat, false);
    let rigidity = (deflection::stiffness(&member, layup) * member.I).value();
    let rigidity_across = (deflection::stiffness_across(&member, layup) * member.I_y).value();
    let density = material.gravity.map_or(0.0, |g| PCF.factor * weight::density_pcf(g, weight::MOISTURE));
    let weight = density * member.A.value();
    let feet = underfoot::of(job, entry, member.b, &mut faults);
    if !faults.is_empty() {
        return Err(faults);
    }
    let assumes = assumptions::of(job, entry, &section, &material, &feet);
    Ok(Bending {
        basis: job.basis.clone(),
        entry: entry.clone(),
        section: section::about(entry, &section, &member),
        material: material.about.clone(),
        abouts: CHECKS.iter().map(|c| c.about).collect(),
        lrfd: edition::is_lrfd(&job.basis),
        glued: material.glued.clone(),
        wet: entry.conditions.moisture.unwrap_or(job.basis.moisture) == Moisture::Wet,
        notes: material.notes.clone(),
        feet,
        carries_floor: entry.role == Use::Joist || assumed::bears_live(job, entry),
        reduced,
        member,
        facts,
        read,
        assumes,
        effective: Effective,
        deflect,
        weight,
        rigidity,
        rigidity_across,
    })
}

/// What the checks have to know of a glued member.
fn layup_of(glued: Option<&Glued>, flat: bool, hogging: bool) -> Option<Layup> {
    glued.map(|glued| match glued.volume {
        Volume::Root(root) => Layup::Laminated { flat, hogging, root },
        Volume::Exponent(exponent, _) => Layup::Composite { exponent },
    })
}

impl Bending {
    /// What the account has to know of a glued member.
    pub(super) fn layup(&self) -> Option<Layup> {
        layup_of(self.glued.as_ref(), self.entry.conditions.flat, false)
    }

    /// Whether it is treated under pressure, so that impact counts no more than wind (NDS 2.3.2, 2.3.4).
    fn is_treated(&self) -> bool {
        self.entry.conditions.incised || self.entry.conditions.retardant.is_some()
    }

    /// Whether loads come and go so fast that laminated timber has its shear reduced: impact (NDS 5.3.10).
    fn is_impact(&self, demand: &Demand) -> bool {
        !self.lrfd && demand.time >= *time::OF_IMPACT - 1e-9
    }

    /// A demand in the code's letters.
    pub(super) fn asked(&self, demand: &Demand) -> (Asked, How) {
        let zero = Length::new(0.0);
        let mut asked = Asked {
            C_D: Ratio::new(if self.lrfd { 1.0 } else { demand.time }),
            lambda: Ratio::new(if self.lrfd { demand.time } else { 1.0 }),
            w: LineLoad::new(0.0),
            P: Force::new(0.0),
            L: zero,
            M: Moment::new(0.0),
            M_x: Moment::new(0.0),
            M_y: Moment::new(0.0),
            V_y: Force::new(0.0),
            delta_x: zero,
            delta_y: zero,
            V: Force::new(0.0),
            R: Force::new(0.0),
            delta: zero,
            delta_most: zero,
            L_0: Length::new(demand.between),
            C_vr: Ratio::new(1.0),
            l_u: zero,
            l_b: zero,
            b_b: zero,
            d_n: zero,
            e_n: zero,
            depth_n: zero,
            sin_theta: Ratio::new(1.0),
            cos_theta: Ratio::new(0.0),
            R_B_most: Ratio::new(factors::SLENDERNESS_MOST),
        };
        match demand.statics {
            Statics::Uniform { load, span } => (asked.w, asked.L) = (LineLoad::new(load.abs()), Length::new(span)),
            Statics::MidPoint { force, span } => (asked.P, asked.L) = (Force::new(force.abs()), Length::new(span)),
            Statics::Both { .. } | Statics::Diagram => {}
        }
        let hogging = match demand.action {
            Action::Moment { moment, .. } => moment < 0.0,
            Action::Moments { strong, .. } => strong < 0.0,
            _ => false,
        };
        let reduced_shear = matches!(demand.action, Action::Notch { .. }) || self.is_impact(demand);
        if reduced_shear && self.glued.is_some() {
            asked.C_vr = Ratio::new(lookup::shear_reduction().map_or(f64::NAN, |f| f.value));
        }
        let mut how = How {
            layup: layup_of(self.glued.as_ref(), self.entry.conditions.flat, hogging),
            lrfd: self.lrfd,
            statics: demand.statics,
            held: None,
            effective: (0.0, 0.0),
            reduced: false,
            plain_bearing: None,
            square: true,
            tension_notch: true,
            inner_notch: false,
            over: None,
            overhang: false,
            both_ways: false,
            limits: "IBC Table 1604.3",
        };
        let hold = |held: Held, asked: &mut Asked, how: &mut How| match held {
            Held::Throughout(sheathed) => {
                how.held = Some(if sheathed { "compression edge held by sheathing" } else { "compression edge held throughout" });
            }
            Held::Gap(gap) => {
                asked.l_u = Length::new(gap);
                how.effective = self.effective.length(demand, gap, self.member.d.value());
            }
        };
        let incline = |angle: f64, asked: &mut Asked, how: &mut How| {
            asked.sin_theta = Ratio::new(libm::sin(angle.to_radians()));
            asked.cos_theta = Ratio::new(libm::cos(angle.to_radians()));
            how.square = angle > 90.0 - 1e-9;
        };
        match demand.action {
            Action::Moment { moment, held, .. } => {
                asked.M = Moment::new(moment.abs());
                hold(held, &mut asked, &mut how);
            }
            Action::Moments { strong, weak, held, .. } => {
                asked.M_x = Moment::new(strong.abs());
                asked.M_y = Moment::new(weak.abs());
                hold(held, &mut asked, &mut how);
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
                how.plain_bearing = self.effective.plain_bearing(length, to_end);
            }
            Action::Underfoot { force, load, to_end, angle } => {
                asked.R = Force::new(force);
                incline(angle, &mut asked, &mut how);
                if let Some((foot, way, plain)) = Foot::worst(&self.feet, load, to_end) {
                    [asked.l_b, asked.b_b] = foot.way(way);
                    how.plain_bearing = plain;
                }
            }
            Action::Notch { force, notch, bent, support } => {
                asked.V = Force::new(force);
                how.inner_notch = support == 0;
                if let Some((moment, held)) = bent {
                    asked.M = Moment::new(moment.abs());
                    hold(held, &mut asked, &mut how);
                }
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
            _ if self.is_impact(demand) => "impact",
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
                facts.state(&notation::l_u, "NDS 3.3.3.4", "largest gap between points that hold the compression edge");
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

impl Prepared for Bending {
    fn section(&self) -> &Section {
        &self.section
    }
    fn material(&self) -> &Material {
        &self.material
    }
    fn weight(&self) -> f64 {
        self.weight
    }
    fn rigidity(&self) -> f64 {
        self.rigidity
    }
    fn asks_inner_notches(&self) -> bool {
        true
    }
    fn asks_zero_moments(&self) -> bool {
        self.glued.as_ref().is_some_and(|g| matches!(g.volume, Volume::Root(_)))
    }
    fn rigidity_across(&self) -> f64 {
        self.rigidity_across
    }
    fn read(&self) -> &[Read] {
        &self.read
    }
    fn reduced(&self) -> &[Reduced] {
        &self.reduced
    }
    fn assumes(&self) -> &[Assumed] {
        &self.assumes
    }
    fn checks(&self) -> &[CheckAbout] {
        &self.abouts
    }

    fn not_checked(&self) -> Vec<String> {
        notes::not_checked(self)
    }

    fn notes(&self, reactions: &[f64]) -> Vec<String> {
        notes::of(self, reactions)
    }

    /// The sections at `d` from the faces, where loads may be left out; the support line at a hanger, and where nothing would be left
    /// between the two sections of a span (reading 17).
    fn shear_sections(&self, panels: &[Panel], supports: &[f64]) -> (Vec<Beside>, f64) {
        let d = self.member.d.value();
        let face = |i: usize| self.entry.bearing.as_ref().and_then(|b| b.get(i)).map_or(0.0, |l| 0.5 * l.value.value());
        let mut beside = Vec::new();
        for (index, (panel, ends)) in panels.iter().zip(sides(panels, supports)).enumerate() {
            let reach: f64 = ends.iter().flatten().map(|(support, ..)| face(*support) + d).sum();
            for (support, line, sign) in ends.into_iter().flatten() {
                // A raised tie does not stand on the rafter's top.
                let from_above = !self.entry.hangers.contains(&(support + 1)) && self.entry.tie_up.is_zero();
                let allowed = from_above && reach < panel.to - panel.from;
                let section = if allowed { line + sign * (face(support) + d) } else { line };
                beside.push(Beside { support: support + 1, panel: index, line, section, sign, left_out: 0.0 });
            }
        }
        (beside, d)
    }

    fn time(&self, combination: &Combination, present: &[(Case, f64)]) -> Time {
        time::of(&self.basis, self.lrfd, combination, present, self.is_treated()).time()
    }

    fn deflections(&self, present: &[Case]) -> Vec<DeflectionCase> {
        self.deflect.cases(&self.basis, present)
    }

    fn ratio(&self, check: usize, demand: &Demand) -> Option<f64> {
        let (asked, how) = self.asked(demand);
        (CHECKS[check].ratio)(&self.member, &asked, &how).map(Q::value)
    }

    fn worked(&self, check: usize, demand: &Demand, time: &Time) -> Worked {
        let (asked, how) = self.asked(demand);
        let tape = Tape::new();
        (CHECKS[check].worked)(&self.member.traced(&tape), &asked.traced(&tape), &how);
        let mut remarks = Vec::new();
        if let Action::Shear { reduced: false, full, force, .. } = demand.action
            && full == force
            && !self.entry.hangers.is_empty()
        {
            remarks.push("No load is left out beside a hanger (NDS 3.4.3.1).".to_owned());
        }
        if let Action::Underfoot { load, to_end, .. } = demand.action
            && let Some((foot, way, _)) = Foot::worst(&self.feet, load, to_end)
        {
            remarks.push(foot.remark(way).to_owned());
        }
        Worked {
            steps: tape.steps(&self.facts_of(demand, time), &SETS),
            demand: CHECKS[check].demand,
            capacity: match (CHECKS[check].about.name, how.layup) {
                ("bearing", _) if !how.square => "F'_theta",
                ("bending", Some(Layup::Laminated { flat: true, .. })) => "F'_by",
                ("bending", Some(Layup::Laminated { .. })) => "F'_bx",
                _ => CHECKS[check].capacity,
            },
            remarks,
        }
    }

    fn read_for(&self, combination: &Combination, demand: &Demand, worked: &Worked) -> Vec<Read> {
        let has = |symbol: &str| worked.steps.iter().any(|step| step.symbol == symbol);
        let mut read = combinations::cells(&self.basis, self.lrfd, combination);
        if has("C_D") || has("lambda") {
            read.extend(time::of(&self.basis, self.lrfd, combination, &combination.factors, self.is_treated()).read());
        }
        if let Action::Moment { held: Held::Gap(gap), .. } | Action::Moments { held: Held::Gap(gap), .. } = demand.action
            && has("l_e")
        {
            read.extend(self.effective.read(demand, gap, self.member.d.value()));
        }
        if worked.steps.iter().any(|step| step.symbol == "C_vr" && step.value < 1.0) {
            read.extend(lookup::shear_reduction().map(|f| Read { cell: f.cell, value: f.value, unit: "" }));
        }
        read
    }

    fn account(&self, governing: &[(&str, &Worked, &Time)]) -> Account {
        account::of(self, governing)
    }
}

/// A stress as the account prints it.
pub(super) fn psi(value: f64) -> String {
    trimmed(crate::units::PSI.number(value), 5)
}
