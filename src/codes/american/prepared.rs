//! A member resolved against the American tables, ready to be asked for ratios.

#![allow(non_snake_case)]

use super::glued::Layup;
use super::layup::Glued;
use super::material::Class;
use super::member::Member;
use super::needs::Needs;
use super::underfoot::{self, Foot};
use super::{
    CHECKS, SETS, account, assumptions, combinations, deflection, edition, effective, factors, fault::Fault, lookup, material, notes,
    reduction, section, time, weight,
};
use crate::codes::assumed;
use crate::codes::{
    Account, Action, Combination, DeflectionCase, Demand, Held, Leading, LeftOut, Looks, MOST_PANELS, Prepared, Read, Resolved, Time,
    Utilization, Worked,
};
use crate::equation::{Facts, Tape};
use crate::job::model::{Basis, Case, Job, Member as Entry, Moisture, Use};
use crate::text::Faults;
use crate::units::{PCF, trimmed};

/// What [`prepare`] gives.
pub(super) struct Bending {
    pub entry: Entry,
    pub basis: Basis,
    pub member: Member,
    pub facts: Facts,
    pub resolved: Resolved,
    pub deflect: super::limits::Deflect,
    pub lrfd: bool,
    pub glued: Option<Glued>,
    pub wet: bool,
    pub notes: Vec<String>,
    /// Whether it is a joist, or bears live load.
    pub carries_floor: bool,
    /// Whether impact may load it: laminated timber has its shear reduced then, under whatever combination (NDS 5.3.10).
    pub is_of_impact: bool,
    /// Feet of posts and studs that stand on it.
    pub feet: Vec<Foot>,
}

/// Resolves a joist, rafter, beam or header of sawn lumber.
///
/// # Errors
/// Everything in its entry that the tables and clauses do not allow.
pub(super) fn prepare(job: &Job, entry: &Entry) -> Result<Bending, Faults> {
    let mut faults = Faults::new();
    let panels = entry.spans.panels();
    if panels > MOST_PANELS {
        faults.push(Fault::TooManyPanels { panels }.at(entry.mark.span));
    }
    let section = section::resolve(entry);
    let material = section.as_ref().ok().map(|s| material::resolve(entry, s, Needs::of(job, entry, s)));
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
    let layup = material.glued.as_ref().map(|glued| glued.layup(entry.conditions.flat.is_some(), false));
    let density = material.gravity.map_or(0.0, |g| PCF.factor * weight::density_pcf(g, weight::MOISTURE));
    let weight = density * member.A.value();
    let feet = underfoot::of(job, entry, member.b, &mut faults);
    if !faults.is_empty() {
        return Err(faults);
    }
    let assumes = assumptions::of(job, entry, &section, &material, &feet);
    Ok(Bending {
        resolved: Resolved {
            section: section::about(entry, &section, &member),
            material: material.about.clone(),
            weight,
            rigidity: (deflection::stiffness(&member, layup) * member.I).value(),
            rigidity_across: (deflection::stiffness_across(&member, layup) * member.I_y).value(),
            shear_give: 0.0,
            shear_give_across: 0.0,
            read,
            reduced,
            assumes,
            checks: CHECKS.iter().map(|c| c.about).collect(),
            looks: Looks { zero_moments: matches!(layup, Some(Layup::Laminated { .. })), ..Looks::default() },
        },
        basis: job.basis.clone(),
        entry: entry.clone(),
        lrfd: edition::is_lrfd(&job.basis),
        glued: material.glued.clone(),
        wet: job.moisture(entry) == Moisture::Wet,
        notes: material.notes.clone(),
        feet,
        is_of_impact: time::is_of_impact(job, entry),
        carries_floor: entry.role == Use::Joist || assumed::bears_live(job, entry),
        member,
        facts,
        deflect,
    })
}

impl Bending {
    /// What the account has to know of a glued member.
    pub(super) fn layup(&self) -> Option<Layup> {
        self.glued.as_ref().map(|glued| glued.layup(self.entry.conditions.flat.is_some(), false))
    }

    /// Whether it is treated under pressure, so that impact counts no more than wind (NDS 2.3.2, 2.3.4).
    fn is_treated(&self) -> bool {
        self.entry.conditions.incised.is_some() || self.entry.conditions.retardant.is_some()
    }
}

impl Prepared for Bending {
    fn resolved(&self) -> &Resolved {
        &self.resolved
    }

    fn not_checked(&self) -> Vec<String> {
        notes::not_checked(self)
    }

    fn unmade(&self, present: &[Case]) -> Vec<String> {
        self.deflect.unmade(&self.basis, present)
    }

    fn notes(&self, reactions: &[f64]) -> Vec<String> {
        notes::of(self, reactions)
    }

    /// Loads within d of the face (NDS 3.4.3.1), where the support bears from below; a raised tie is not on the rafter's top (reading 17).
    fn left_out(&self, support: usize) -> LeftOut {
        if self.entry.hangers.contains(&(support + 1)) || !self.entry.tie_up.is_zero() {
            return LeftOut::Nothing;
        }
        let bearing = self.entry.bearing.as_ref().and_then(|b| b.get(support));
        LeftOut::WithinDepth { face: bearing.map_or(0.0, |l| 0.5 * l.value.value()), depth: self.member.d.value() }
    }

    fn time(&self, combination: &Combination, present: &[(Case, f64)]) -> Time {
        time::of(&self.basis, self.lrfd, combination, present, self.is_treated()).time()
    }

    fn deflections(&self, present: &[Case]) -> Vec<DeflectionCase> {
        self.deflect.cases(&self.basis, present)
    }

    fn ratio(&self, check: usize, demand: &Demand) -> Option<Utilization> {
        let (asked, how) = self.asked(demand);
        (CHECKS[check].ratio)(&self.member, &asked, &how).map(|ratio| Utilization::new(ratio.value()))
    }

    fn worked(&self, check: usize, demand: &Demand, time: &Time) -> Worked {
        let (asked, how) = self.asked(demand);
        let tape = Tape::new();
        (CHECKS[check].worked)(&self.member.traced(&tape), &asked.traced(&tape), &how);
        let mut remarks = Vec::new();
        if let Action::Shear { reduced: false, support, from_line, .. } = demand.action
            && from_line < 1e-6
            && self.entry.hangers.contains(&support)
        {
            remarks.push("Loads near a hanger are not neglected (NDS 3.4.3.1).".to_owned());
        }
        if let Action::Underfoot { load, to_end, .. } = demand.action
            && let Some((foot, way, _)) = Foot::worst(&self.feet, load, to_end)
        {
            remarks.push(foot.remark(way).to_owned());
        }
        CHECKS[check].written(tape.steps(&self.facts_of(demand, time), &SETS), remarks)
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
            read.extend(effective::read(demand, gap, self.member.d.value()));
        }
        if let Action::Notch { support, notch, .. } = demand.action
            && has("h_max")
        {
            let laminated = matches!(self.layup(), Some(Layup::Laminated { .. }));
            read.extend(lookup::notch_cells(laminated, support == 0, notch.tension));
        }
        if worked.steps.iter().any(|step| step.symbol == "C_b" && step.value > 1.0) {
            read.extend(effective::bearing_area_read());
        }
        if worked.steps.iter().any(|step| step.symbol == "C_vr" && step.value < 1.0) {
            read.extend(lookup::shear_reduction().map(Read::plain));
        }
        read
    }

    fn account(&self, leading: &Leading<'_>) -> Account {
        account::of(self, leading)
    }
}

/// A stress as the account prints it.
pub(super) fn psi(value: f64) -> String {
    trimmed(crate::units::PSI.number(value), 5)
}
