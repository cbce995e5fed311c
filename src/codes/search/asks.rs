//! Everything that a member is looked at under, as plain ratios: for tools that ask many times and print nothing.

use super::Search;
use super::acting::Acting;
use super::deflections::{Best, Largest, limit_of};
use super::places::Instance;
use crate::codes::{CheckAbout, Combination, DeflectionCase, Places, Purpose, Utilization, Verdict};
use crate::job::model::Case;

/// The strength combinations and the deflections of a member, each in every load set that makes a difference to it.
///
/// Members with the same panels, cases and limits are asked the same things, whatever their lengths and sections: one list serves them
/// all, and what was worst for one is the first thing to try on the next.
pub struct Asks {
    /// Whether a floor for which the code's rules of vibration are not made counts as one that fails.
    strict: bool,
    deflections: Vec<DeflectionCase>,
    list: Vec<Ask>,
    /// Why a member is not checked under them, whatever its length and section; empty where it is.
    unmade: Vec<String>,
}

/// One combination, or one deflection, in one load set.
struct Ask {
    factors: Vec<(Case, f64)>,
    set: usize,
    looked: Looked,
}

#[derive(Clone, Copy)]
enum Looked {
    /// Strength, with this factor of load duration.
    Strength { time: f64 },
    /// An index into the deflections.
    Deflection(usize),
    /// The vibration of the floor.
    Floor,
}

/// The worst check of an ask, or of all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Worst {
    /// Which ask.
    pub ask: usize,
    /// Which row of the code's list of checks.
    pub check: usize,
    /// Demand over capacity.
    pub ratio: Utilization,
}

impl Worst {
    /// The worse of two; of equals the first.
    pub(super) fn or(self, other: Self) -> Self {
        if other.ratio > self.ratio { other } else { self }
    }

    /// Keeps a ratio that is worse; a check that governs only where it fails counts where it fails.
    pub(super) fn take(&mut self, checks: &[CheckAbout], check: usize, ratio: Utilization) {
        let counts = !checks[check].only_failing || !ratio.passes();
        if counts && ratio > self.ratio {
            (self.check, self.ratio) = (check, ratio);
        }
    }
}

impl Asks {
    /// What a member is asked under these combinations.
    pub fn of(search: &Search<'_>, combinations: &[Combination]) -> Self {
        let strength: Vec<Combination> = combinations.iter().filter(|c| c.purpose == Purpose::Strength).cloned().collect();
        let acting = search.acting(&strength);
        let combined: Vec<Combination> = acting.iter().map(|one| one.combination.clone()).collect();
        let mut unmade = search.unmade_of_loads(&combined);
        unmade.extend(search.prepared.unmade(&search.arranged.present));
        Self { strict: true, unmade, ..Self::over(search, &acting, search.deflection_cases()) }
    }

    /// What a member is asked under the strength combinations as they act on it, and these deflections.
    pub(super) fn over(search: &Search<'_>, strength: &[Acting], deflections: Vec<DeflectionCase>) -> Self {
        let mut list = Vec::new();
        for Acting { combination, time, within } in strength {
            let looked = Looked::Strength { time: time.factor };
            let sets = search.sets_within(&combination.factors, within.as_deref());
            list.extend(sets.map(|(set, _)| Ask { factors: combination.factors.clone(), set, looked }));
        }
        for (i, case) in deflections.iter().enumerate() {
            let limited = search.arranged.panels.first().is_some_and(|panel| limit_of(case, panel).is_some());
            let sets = search.sets_within(&case.factors, case.within.as_deref()).filter(|_| limited);
            list.extend(sets.map(|(set, _)| Ask { factors: case.factors.clone(), set, looked: Looked::Deflection(i) }));
        }
        if search.prepared.resolved().checks.iter().any(|check| check.places == Places::Floors) {
            list.push(Ask { factors: Vec::new(), set: 0, looked: Looked::Floor });
        }
        Self { strict: false, deflections, list, unmade: Vec::new() }
    }

    /// The deflections.
    pub(super) fn deflections(&self) -> &[DeflectionCase] {
        &self.deflections
    }

    /// Nothing yet of an ask.
    pub(super) fn none(&self, ask: usize) -> Worst {
        Worst { ask, check: 0, ratio: Utilization::NOTHING }
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.list.len()
    }

    /// Whether a case acts in an ask.
    pub fn has(&self, ask: usize, case: Case) -> bool {
        self.list[ask].factors.iter().any(|(c, factor)| *c == case && *factor != 0.0)
    }

    /// The worst check of one ask, with one case multiplied by `growth` where one is named.
    ///
    /// A check that governs only where it fails counts where it fails.
    pub fn ratio(&self, search: &Search<'_>, ask: usize, grown: Option<(Case, f64)>) -> Worst {
        let (arranged, asked) = (search.arranged, &self.list[ask]);
        let factor = |(case, factor): &(Case, f64)| (*case, grown.filter(|(g, _)| g == case).map_or(*factor, |(_, by)| factor * by));
        let factors: Vec<(Case, f64)> = asked.factors.iter().map(factor).collect();
        let set = &arranged.sets[asked.set];
        let checks = &search.prepared.resolved().checks;
        let mut worst = self.none(ask);
        match asked.looked {
            Looked::Strength { time } => {
                let diagram = arranged.combined(&factors, set);
                let across = arranged.combined_across(&factors, set);
                let vertical = arranged.reactions(&search.job.basis, &factors, set);
                let at = Instance { factors: &factors, set, diagram: &diagram, across: across.as_ref(), vertical: &vertical, time };
                search.demands(&at, &mut |check, _, demand| {
                    if let Some(ratio) = search.prepared.ratio(check, &demand) {
                        worst.take(checks, check, ratio);
                    }
                });
            }
            Looked::Floor => {
                for (check, _) in checks.iter().enumerate().filter(|(_, about)| about.places == Places::Floors) {
                    for demand in search.floor_demands() {
                        let outside =
                            if self.strict && search.prepared.is_outside(&demand) { Utilization::FAILS } else { Utilization::NOTHING };
                        worst.take(checks, check, search.prepared.ratio(check, &demand).unwrap_or(outside));
                    }
                }
            }
            Looked::Deflection(case) => {
                let largest = search.largest_deflections(&factors, asked.set);
                return self.worst_deflection(search, ask, &self.deflections[case], &factors, &largest);
            }
        }
        worst
    }

    /// The worst of each ask of a deflection as things stand, from the largest deflections of its case.
    pub(super) fn deflected(&self, search: &Search<'_>, largest: &[Vec<Largest>]) -> Vec<Worst> {
        let of_deflection = |(ask, asked): (usize, &Ask)| {
            let Looked::Deflection(case) = asked.looked else { return None };
            let known = largest[case].iter().find(|known| known.set == asked.set)?;
            Some(self.worst_deflection(search, ask, &self.deflections[case], &asked.factors, &known.of_panels))
        };
        self.list.iter().enumerate().filter_map(of_deflection).collect()
    }

    fn worst_deflection(
        &self,
        search: &Search<'_>,
        ask: usize,
        case: &DeflectionCase,
        factors: &[(Case, f64)],
        largest: &[Option<Best>],
    ) -> Worst {
        let (checks, mut worst) = (&search.prepared.resolved().checks, self.none(ask));
        let Some(check) = checks.iter().position(|c| c.places == Places::Deflections) else { return worst };
        for (panel, best) in search.arranged.panels.iter().zip(largest) {
            let (Some(limit), Some(best)) = (limit_of(case, panel), best.filter(|b| b.value != 0.0)) else { continue };
            if let Some(ratio) = search.prepared.ratio(check, &search.deflected(case, factors, panel, best, limit)) {
                worst.take(checks, check, ratio);
            }
        }
        worst
    }

    /// Why the member is not checked though nothing fails, whatever its length and section; empty where it is.
    pub fn unmade(&self) -> &[String] {
        &self.unmade
    }

    /// The verdict on a member by the worst of all.
    pub fn verdict(&self, worst: Worst) -> Verdict {
        if !worst.ratio.passes() {
            Verdict::Fails
        } else if self.unmade.is_empty() && !worst.ratio.is_nothing() {
            Verdict::Passes
        } else {
            Verdict::NotChecked
        }
    }

    /// The worst of all; of equals the first.
    pub fn worst(&self, search: &Search<'_>) -> Option<Worst> {
        (0..self.count()).map(|ask| self.ratio(search, ask, None)).reduce(Worst::or)
    }

    /// Something that fails, tried first where `first` says; none where nothing does.
    pub fn failing(&self, search: &Search<'_>, first: usize) -> Option<Worst> {
        let first = first.min(self.count());
        (first..self.count()).chain(0..first).map(|ask| self.ratio(search, ask, None)).find(|worst| !worst.ratio.passes())
    }
}
