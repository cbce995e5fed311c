//! A member resolved against the European tables, ready to be asked for ratios.

#![allow(non_snake_case)]

use super::factors::{self, Rules};
use super::fault::Fault;
use super::floor::{Settling, Vibration};
use super::member::Member;
use super::natures::natures;
use super::{CHECKS, SETS, account, assumptions, bearing, edition, limits, material, national, section, time};
use crate::codes::{
    Account, Action, Combination, DeflectionCase, Demand, Leading, LeftOut, Looks, MOST_PANELS, Prepared, Resolved, Section, Time,
    Utilization, Worked,
};
use crate::equation::{Facts, Tape};
use crate::job::model::{Basis, Case, Job, Member as Entry, Nature, Notch, Use};
use crate::text::Faults;
use crate::units::{Length, MM, MM2, MM3, MM4, N_PER_MM2, trimmed};

/// What [`prepare`] gives.
pub(super) struct Bending {
    pub entry: Entry,
    pub basis: Basis,
    pub member: Member,
    pub facts: Facts,
    pub resolved: Resolved,
    pub rules: Rules,
    pub deflect: limits::Deflect,
    pub vibration: Vibration,
    pub notes: Vec<String>,
}

/// Resolves a joist, rafter, beam or header.
///
/// # Errors
/// Everything in its entry that the tables and clauses do not allow.
pub(super) fn prepare(job: &Job, entry: &Entry) -> Result<Bending, Faults> {
    let mut faults = Faults::new();
    let panels = entry.spans.panels();
    if panels > MOST_PANELS {
        faults.push(Fault::TooManyPanels { panels }.at(entry.mark.span));
    }
    if matches!(entry.role, Use::Stud | Use::Post | Use::Tie) {
        let help = "this version checks joists, rafters, beams and headers under the european code";
        faults.push(Fault::NotCoveredYet { what: format!("a {} under the european code", entry.role.word()), help }.at(entry.mark.span));
        return Err(faults);
    }
    let used = natures(job, entry);
    faults.extend(
        used.iter().filter(|n| matches!(n, Nature::Seismic | Nature::Rain)).map(|n| edition::not_an_action(*n).at(entry.mark.span)),
    );
    let (section, material) = match (section::resolve(entry), material::resolve(job, entry)) {
        (Ok(section), Ok(material)) => (section, material),
        (section, material) => {
            faults.extend(section.err().into_iter().flatten());
            faults.extend(material.err().into_iter().flatten());
            return Err(faults);
        }
    };
    let settled = match factors::settle(job, entry, &section, &material, &used) {
        Ok(settled) if faults.is_empty() => settled,
        Ok(_) => return Err(faults),
        Err(more) => {
            faults.extend(more);
            return Err(faults);
        }
    };
    let factors::Settled { mut member, mut facts, mut read, rules } = settled;
    read.splice(0..0, material.read.iter().cloned());
    let deflect = limits::Deflect::of(job, entry, &mut read);
    let classes = classes(job, &used);
    read.extend(classes.iter().filter_map(|class| Some(time::k_mod(rules.class.material(), rules.service_class, class)?.1)));
    let weight = if entry.self_weight { factors::weight(&material, &member) } else { 0.0 };
    let floor = Settling { job, entry, weight, member: &mut member, facts: &mut facts, read: &mut read };
    let vibration = floor.settle()?;
    let assumes = assumptions::of(job, entry, &material, &rules, &vibration);
    let section = about_section(entry, &section, &member);
    let rigidity = (member.E_mean * member.I_y).value();
    let shear_give = 1.2 * (member.E_mean * member.I_y / (member.G_mean * member.A)).value();
    Ok(Bending {
        resolved: Resolved {
            material: material.about.clone(),
            weight,
            rigidity,
            rigidity_across: section.across(rigidity),
            shear_give,
            shear_give_across: section.across(shear_give),
            section,
            read,
            reduced: Vec::new(),
            assumes,
            checks: CHECKS.iter().map(|c| c.about).collect(),
            looks: Looks { loaded: true, clear: true, parts: true, ..Looks::default() },
        },
        basis: job.basis.clone(),
        entry: entry.clone(),
        notes: material.notes.clone(),
        member,
        facts,
        rules,
        deflect,
        vibration,
    })
}

/// The duration classes that the member's loads may call for: those of its natures, and of its own cases that say one.
fn classes(job: &Job, used: &[Nature]) -> Vec<&'static str> {
    let cases = (0..job.basis.cases.len()).map(Case).filter(|c| used.contains(&job.basis.nature(*c)));
    let mut classes: Vec<&'static str> = Vec::new();
    for case in cases.filter(|c| c.0 < Nature::ALL.len() || national::has_own_category(&job.basis, *c)) {
        let class = time::class_of_all(&job.basis, &[(case, 1.0)]);
        if !classes.contains(&class) {
            classes.push(class);
        }
    }
    classes
}

fn about_section(entry: &Entry, section: &section::Resolved, m: &Member) -> Section {
    let plies = entry.plies.value;
    Section {
        name: Section::of_plies(plies, &section.name),
        size: String::new(),
        width: m.b.value(),
        depth: m.h.value(),
        plies,
        reference: section.reference.clone(),
        properties: vec![("h", m.h.value(), &MM), ("A", m.A.value(), &MM2), ("W_y", m.W_y.value(), &MM3), ("I_y", m.I_y.value(), &MM4)],
    }
}

impl Bending {
    /// Whether a notch is over a bearing, or overlaps it.
    fn is_at_support(&self, notch: &Notch) -> bool {
        let spans = &self.entry.spans;
        let cosine = self.entry.slope.as_ref().map_or(1.0, |slope| libm::cos(slope.value.angle.value().to_radians()));
        let (from, to) = notch.extent(spans, cosine);
        let face = |i: usize| self.entry.bearing.as_ref().and_then(|b| b.get(i)).map_or(Length::new(0.0), |l| l.value / 2.0);
        spans.supports().iter().enumerate().any(|(i, line)| from.at_most(*line + face(i)) && to.at_least(*line - face(i)))
    }
}

impl Bending {
    /// That shear is not checked at a notch for which the clause has no rule.
    fn shear_at_notches(&self) -> Option<String> {
        let without_rule = self.entry.notches.iter().any(|notch| !self.is_at_support(notch));
        without_rule.then(|| "shear at notches away from the supports (no rule in EN 1995-1-1)".to_owned())
    }
}

impl Prepared for Bending {
    fn resolved(&self) -> &Resolved {
        &self.resolved
    }

    fn not_checked(&self) -> Vec<String> {
        let mut list = Vec::new();
        if self.entry.bearing.is_none() {
            list.push("bearing".to_owned());
        }
        if self.entry.slope.is_some() {
            list.push("force along the slope".to_owned());
        }
        list.extend(self.shear_at_notches());
        list.extend(self.vibration.not_checked.iter().cloned());
        list.extend(["fastening of the ends", "holes", "fire"].map(str::to_owned));
        list
    }

    fn unmade(&self, present: &[Case]) -> Vec<String> {
        let floor = self.entry.floor.iter().flat_map(|_| &self.vibration.not_checked).cloned();
        self.shear_at_notches()
            .into_iter()
            .chain(floor)
            .chain(self.deflect.unmade(&self.basis, self.member.k_def.value(), present))
            .collect()
    }

    fn notes(&self, reactions: &[f64]) -> Vec<String> {
        let mut notes = self.notes.clone();
        let largest = reactions.iter().copied().fold(0.0, f64::max);
        let lasting = time::k_mod(self.rules.class.material(), self.rules.service_class, "permanent");
        if let (None, true, Some((k_mod, _))) = (&self.entry.bearing, largest > 0.0, lasting) {
            let length = section::millimetres(bearing::length_for(&self.member, k_mod, largest));
            notes.push(format!(
                "Bearing is not checked, no length is given: {length} mm would do for the largest reaction, whatever its duration."
            ));
        }
        notes
    }

    /// Concentrated loads within h of the bearing's edge (6.1.7(3)), but not at a hanger; distributed loads count from the support line.
    fn left_out(&self, support: usize) -> LeftOut {
        if self.entry.hangers.contains(&(support + 1)) {
            return LeftOut::Nothing;
        }
        let bearing = self.entry.bearing.as_ref().and_then(|b| b.get(support));
        LeftOut::Concentrated { within: bearing.map_or(0.0, |l| 0.5 * l.value.value()) + self.member.h.value() }
    }

    fn time(&self, combination: &Combination, present: &[(Case, f64)]) -> Time {
        time::of(&self.basis, self.rules.class.material(), self.rules.service_class, combination, present)
    }

    fn deflections(&self, present: &[Case]) -> Vec<DeflectionCase> {
        self.deflect.cases(&self.basis, self.member.k_def.value(), present)
    }

    fn ratio(&self, check: usize, demand: &Demand) -> Option<Utilization> {
        let (asked, how) = self.asked(demand);
        (CHECKS[check].ratio)(&self.member, &asked, &how).map(|ratio| Utilization::new(ratio.value()))
    }

    fn is_outside(&self, demand: &Demand) -> bool {
        matches!(demand.action, Action::Floor { span } if self.vibration.is_outside(&self.member, span))
    }

    fn worked(&self, check: usize, demand: &Demand, time: &Time) -> Worked {
        let (asked, how) = self.asked(demand);
        let tape = Tape::new();
        (CHECKS[check].worked)(&self.member.traced(&tape), &asked.traced(&tape), &how);
        CHECKS[check].written(tape.steps(&self.facts_of(demand, time), &SETS), Vec::new())
    }

    fn account(&self, leading: &Leading<'_>) -> Account {
        account::of(self, leading)
    }
}

/// A stress as the account prints it.
pub(super) fn stress(value: f64) -> String {
    trimmed(N_PER_MM2.number(value), 5)
}
