//! The combinations as they act on a member: each with all of its cases, and without those that relieve or lend it a shorter duration.

use super::relief::Aim;
use super::{Search, reduce};
use crate::codes::{Combination, DeflectionCase, Time};
use crate::job::model::Case;

/// A combination on a member, with its load duration, and the load sets in which it is looked at; none: all that make a difference.
#[derive(Clone, Debug)]
pub(super) struct Acting {
    pub combination: Combination,
    pub time: Time,
    pub within: Option<Vec<usize>>,
}

type Factors = [(Case, f64)];

/// The factors without those of some cases.
fn without(factors: &Factors, absent: &[Case]) -> Vec<(Case, f64)> {
    factors.iter().copied().filter(|(case, _)| !absent.contains(case)).collect()
}

/// Whether all cases of `less` have factors of the same sign in `more`, which has no others, and none that is smaller.
fn is_within(less: &Factors, more: &Factors) -> bool {
    let of = |case: Case| more.iter().find(|(c, _)| *c == case).map(|(_, factor)| *factor);
    let smaller = |(case, factor): &(Case, f64)| of(*case).is_some_and(|other| other * factor > 0.0 && factor.abs() <= other.abs());
    less.len() == more.len() && less.iter().all(smaller)
}

impl Search<'_> {
    /// The strength combinations as they act on the member.
    pub(super) fn acting(&self, combinations: &[Combination]) -> Vec<Acting> {
        let whole = reduce(self.code, &self.job.basis, combinations, &self.arranged.present);
        let timed = |combination: Combination| {
            let time = self.prepared.time(&combination, &combination.factors);
            Acting { combination, time, within: None }
        };
        let mut acting: Vec<Acting> = whole.into_iter().map(timed).collect();
        let whole = acting.clone();
        let relief = self.relief(Aim::Strength);
        for of in &whole {
            for lasting in self.lasting(of) {
                if lasting.len() < of.combination.factors.len() {
                    self.add(&mut acting, of, lasting.clone(), None);
                }
                for (set, absences) in self.sets_of(&lasting).map(|(set, _)| (set, &relief.by_set[set])) {
                    for absent in absences {
                        let left = without(&lasting, absent);
                        if !left.is_empty() && left.len() < lasting.len() {
                            self.add(&mut acting, of, left, Some(set));
                        }
                    }
                }
            }
        }
        acting
    }

    /// The factors, and beside them those without the cases that are shorter than another: one that is absent must not lend its duration
    /// to those that last longer. A duration that was given holds while all of the cases act (reading 53): there each may be absent too.
    fn lasting(&self, of: &Acting) -> Vec<Vec<(Case, f64)>> {
        let factors = &of.combination.factors;
        let given = of.combination.duration.is_some();
        let alone = |case: &(Case, f64)| {
            let only = std::slice::from_ref(case);
            if !given {
                return self.prepared.time(&of.combination, only).factor;
            }
            let parted = of.combination.with(self.code, &self.job.basis, factors, only.to_vec());
            self.prepared.time(&parted, only).factor
        };
        let variable: Vec<(Case, f64)> =
            factors.iter().filter(|(case, _)| self.is_variable(*case)).map(|one| (one.0, alone(one))).collect();
        let mut all = vec![factors.clone()];
        if given {
            all.extend(variable.iter().map(|(case, _)| without(factors, &[*case])));
        }
        let mut times: Vec<f64> = variable.iter().map(|(_, time)| *time).collect();
        times.retain(|time| *time < of.time.factor);
        times.sort_by(f64::total_cmp);
        times.dedup();
        for longest in times {
            let shorter: Vec<Case> = variable.iter().filter(|(_, time)| *time > longest).map(|(case, _)| *case).collect();
            all.push(without(factors, &shorter));
        }
        all.retain(|left| !left.is_empty());
        all
    }

    /// Takes up a combination with some of its cases absent, in one load set or all, where it may be worse than those that stand.
    fn add(&self, acting: &mut Vec<Acting>, of: &Acting, factors: Vec<(Case, f64)>, set: Option<usize>) {
        let own = of.combination.own;
        let same = |known: &&mut Acting| !own && !known.combination.own && known.combination.factors == factors;
        if let Some(known) = acting.iter_mut().find(same) {
            match (&mut known.within, set) {
                (Some(sets), Some(set)) if !sets.contains(&set) => sets.push(set),
                (within @ Some(_), None) => *within = None,
                _ => {}
            }
            return;
        }
        let combination = of.combination.with(self.code, &self.job.basis, &of.combination.factors, factors);
        let time = self.prepared.time(&combination, &combination.factors);
        if self.is_covered(acting, &combination, &time) {
            return;
        }
        let named = |known: &&mut Acting| known.combination.name == combination.name && known.combination.factors == combination.factors;
        match (acting.iter_mut().find(named), set) {
            (Some(Acting { within: Some(sets), .. }), Some(set)) if !sets.contains(&set) => sets.push(set),
            (Some(known), None) => known.within = None,
            (Some(_), _) => {}
            (None, _) => acting.push(Acting { combination, time, within: set.map(|set| vec![set]) }),
        }
    }

    /// Whether a combination can be no worse than those that are looked at in every load set: one has its cases with factors that are no
    /// smaller, another has the permanent loads alone, and their durations are no shorter. What lies between the two is no worse than the
    /// worse of them, since ratios are convex in a case's factor.
    fn is_covered(&self, acting: &[Acting], combination: &Combination, time: &Time) -> bool {
        let permanent = |factors: &Factors| factors.iter().copied().filter(|(case, _)| !self.is_variable(*case)).collect::<Vec<_>>();
        let (factors, dead) = (&combination.factors, permanent(&combination.factors));
        let mut everywhere = acting.iter().filter(|a| a.within.is_none() && a.time.factor <= time.factor).map(|a| &a.combination.factors);
        if everywhere.clone().any(|known| known == factors) {
            return true;
        }
        let more = everywhere.clone().any(|known| permanent(known) == dead && is_within(factors, known));
        more && (dead.is_empty() || everywhere.any(|known| is_within(&dead, known)))
    }

    /// The deflections of the member, each also without the cases that relieve.
    pub(super) fn deflection_cases(&self) -> Vec<DeflectionCase> {
        let basis = &self.job.basis;
        let listed = self.prepared.deflections(&self.arranged.present);
        let mut cases: Vec<DeflectionCase> = listed.iter().flat_map(|case| case.alternatives(self.code, basis)).collect();
        let relief = self.relief(Aim::Deflection);
        for of in cases.clone() {
            for (set, absences) in self.sets_of(&of.factors).map(|(set, _)| (set, &relief.by_set[set])) {
                for absent in absences {
                    let left = without(&of.factors, absent);
                    if !left.is_empty() && left.len() < of.factors.len() {
                        self.add_deflection(&mut cases, of.with(self.code, basis, left), set);
                    }
                }
            }
        }
        cases
    }

    fn add_deflection(&self, cases: &mut Vec<DeflectionCase>, new: DeflectionCase, set: usize) {
        // What leads is not absent: there is another deflection that what is left leads.
        let led = |leading| new.factors.iter().any(|(case, _)| self.job.basis.nature(*case) == leading);
        if new.leading.is_some_and(|leading| !led(leading)) {
            return;
        }
        let permanent = |factors: &Factors| factors.iter().copied().filter(|(case, _)| !self.is_variable(*case)).collect::<Vec<_>>();
        let dead = permanent(&new.factors);
        let everywhere = |known: &&DeflectionCase| known.within.is_none() && known.what == new.what && known.limit == new.limit;
        let mut others = cases.iter().filter(everywhere).map(|known| &known.factors);
        let more = others.clone().any(|known| permanent(known) == dead && is_within(&new.factors, known));
        if more && (dead.is_empty() || others.any(|known| *known == dead)) {
            return;
        }
        let same =
            |known: &&mut DeflectionCase| known.what == new.what && known.factors == new.factors && known.combination == new.combination;
        match cases.iter_mut().find(same) {
            Some(DeflectionCase { within: Some(sets), .. }) if !sets.contains(&set) => sets.push(set),
            Some(_) => {}
            None => cases.push(DeflectionCase { within: Some(vec![set]), ..new }),
        }
    }
}

/// Whether a load set is among those in which something is looked at.
pub(super) fn is_in(within: Option<&[usize]>, set: usize) -> bool {
    within.is_none_or(|sets| sets.contains(&set))
}
