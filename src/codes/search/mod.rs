//! The search for what governs: every combination, every load set, every critical place.

mod acting;
mod along;
mod asks;
mod balance;
mod both;
mod deflections;
mod drawings;
mod floors;
mod notches;
mod places;
mod relief;
mod reserve;
mod shears;
mod unmade;
mod worst;

pub use asks::{Asks, Worst};
pub use reserve::Reserved;

use super::arrange::Arranged;
use super::{
    CheckAbout, Code, Combination, DeflectionCase, Demand, LoadSet, Pattern, Prepared, Purpose, Read, Time, Utilization, Verdict, Worked,
    reduce,
};
use crate::analysis::{Diagram, Quantity};
use crate::job::model::{Case, Job, Member};
use acting::is_in;
use deflections::Largest;
use places::Instance;
use worst::{Candidate, keep, order};

/// A check at the place, in the combination and load set where it is worst.
#[derive(Clone, Debug)]
pub struct Found {
    /// The row of the code's list.
    pub about: CheckAbout,
    /// Panel, or support from 1 (of a bearing or a notch).
    pub place: usize,
    /// The combination as printed.
    pub combination: String,
    /// The load set in words; empty where everything is on.
    pub load_set: String,
    /// The panels that carry what comes and goes.
    pub mask: u64,
    /// The demand.
    pub demand: Demand,
    /// What each case adds to the loads of its closed form, as [`Arranged::made_of`] has it; empty without one.
    pub made_of: Vec<(Case, f64, [f64; 2])>,
    /// Demand over capacity.
    pub ratio: Utilization,
    /// The check written down.
    pub worked: Worked,
    /// The load duration that it was worked with.
    pub time: Time,
    /// Cells that it alone made the code read.
    pub read: Vec<Read>,
    /// Whether it is the worst of its kind.
    pub leading: bool,
    /// What lost against it, worst first.
    pub others: Vec<Lost>,
}

/// A check that lost, in short.
#[derive(Clone, Debug, PartialEq)]
pub struct Lost {
    /// The combination, or the place.
    pub what: String,
    /// Its ratio.
    pub ratio: Utilization,
}

/// A deflection at the place and in the load set where it is worst.
#[derive(Clone, Debug)]
pub struct Deflected {
    /// What it is.
    pub case: DeflectionCase,
    /// Panel.
    pub panel: usize,
    /// Place, mm.
    pub at: f64,
    /// Value, mm.
    pub value: f64,
    /// Limit, mm, and how it was said: denominator and the length it divides.
    pub limit: Option<(f64, Option<(f64, f64)>)>,
}

impl Deflected {
    /// What is left of it less the camber, mm.
    pub fn net(&self) -> f64 {
        self.value - self.case.camber
    }
}

/// A vertical reaction, N.
#[derive(Clone, Debug)]
pub struct Reacted {
    /// Place, mm.
    pub at: f64,
    /// Each case, on all panels.
    pub by_case: Vec<(Case, f64)>,
    /// The largest, and its combination.
    pub largest: (String, f64),
    /// The smallest.
    pub smallest: (String, f64),
}

/// The largest force across the depth on a side support, of either sign.
#[derive(Clone, Debug)]
pub struct SideForce {
    /// Place, mm.
    pub at: f64,
    /// Its combination.
    pub combination: String,
    /// N.
    pub force: f64,
}

/// A diagram worth drawing.
#[derive(Clone, Debug)]
pub struct Drawn {
    /// The combination.
    pub combination: String,
    /// The load set in words.
    pub load_set: String,
    /// Panels that carry what comes and goes.
    pub mask: u64,
    /// What it shows.
    pub quantity: Quantity,
    /// The diagram; deflections still times EI.
    pub diagram: Diagram,
    /// All load sets of the same combination; empty where there is only one.
    pub all: Vec<Diagram>,
}

/// Everything found out about a member.
pub struct Checked {
    /// The combinations as they act on this member, those of deflection too.
    pub combinations: Vec<Combination>,
    /// The worst of each check at each place, governing first, each kind's worst before its others.
    pub found: Vec<Found>,
    /// Deflections.
    pub deflections: Vec<Deflected>,
    /// Reactions, by support.
    pub reactions: Vec<Reacted>,
    /// Forces across the depth on the side supports of a member that leans.
    pub side_forces: Vec<SideForce>,
    /// Diagrams of the governing shear, moment and deflection.
    pub drawn: Vec<Drawn>,
    /// By how much each case may grow.
    pub reserve: Vec<Reserved>,
    /// Why the member is not checked though no check fails, in words; empty where everything asked for was checked.
    pub unmade: Vec<String>,
}

impl Checked {
    /// What the checks come to.
    pub fn verdict(&self) -> Verdict {
        if !self.found.iter().all(|f| f.ratio.passes()) {
            Verdict::Fails
        } else if self.unmade.is_empty() {
            Verdict::Passes
        } else {
            Verdict::NotChecked
        }
    }
}

/// One member, ready to be searched.
pub struct Search<'a> {
    /// The code.
    pub code: &'a dyn Code,
    /// The job.
    pub job: &'a Job,
    /// The member.
    pub member: &'a Member,
    /// The member against the code's tables.
    pub prepared: &'a dyn Prepared,
    /// The member solved.
    pub arranged: &'a Arranged,
}

/// Moments, shears and forces smaller than this part of the largest are nought.
const NOUGHT: f64 = 1e-7;

impl Search<'_> {
    /// Finds what governs. With `all`, every combination that lost is worked out too.
    pub fn run(&self, combinations: &[Combination], all: bool) -> Checked {
        let strength: Vec<Combination> = combinations.iter().filter(|c| c.purpose == Purpose::Strength).cloned().collect();
        let acting = self.acting(&strength);
        let strength: Vec<Combination> = acting.iter().map(|one| one.combination.clone()).collect();
        let times: Vec<Time> = acting.iter().map(|one| one.time.clone()).collect();
        let balance = self.balance(combinations);
        let asks = Asks::over(self, &acting, self.deflection_cases());
        // The worst of each ask as things stand: those of strength come first, in the order of this search.
        let mut now: Vec<Worst> = Vec::with_capacity(asks.count());
        let mut candidates: Vec<Candidate> = Vec::new();
        let mut reactions: Vec<Reacted> = self.no_reactions();
        let mut side_forces: Vec<SideForce> = self.no_side_forces();
        for (i, combination) in strength.iter().enumerate() {
            for (j, set) in self.sets_within(&combination.factors, acting[i].within.as_deref()) {
                let diagram = self.arranged.combined(&combination.factors, set);
                let across = self.arranged.combined_across(&combination.factors, set);
                let vertical = self.arranged.reactions(&self.job.basis, &combination.factors, set);
                note(&mut reactions, combination, set, &vertical);
                let at = Instance {
                    factors: &combination.factors,
                    set,
                    diagram: &diagram,
                    across: across.as_ref(),
                    vertical: &vertical,
                    time: times[i].factor,
                };
                self.sideways(&at, &combination.name, &mut side_forces);
                let mut worst = asks.none(now.len());
                self.demands(&at, &mut |check, place, demand| {
                    if let Some(ratio) = self.prepared.ratio(check, &demand) {
                        worst.take(&self.prepared.resolved().checks, check, ratio);
                        keep(&mut candidates, Candidate { check, place, combination: i, set: j, demand, ratio });
                    }
                });
                now.push(worst);
            }
        }
        let balance = self.note_balance(&balance, &mut reactions);
        let mut found = self.settle(&candidates, &strength, &times, all);
        let largest: Vec<Vec<Largest>> = asks.deflections().iter().map(|case| self.largest_of(case)).collect();
        let (deflections, worst) = self.deflections(asks.deflections(), &largest);
        found.extend(worst);
        found.extend(self.floors());
        order(&mut found);
        let drawn = self.draw(&found, &strength, asks.deflections());
        now.extend(asks.deflected(self, &largest));
        let reserve = reserve::of(self, &asks, now);
        let unmade = self.unmade(&strength, &found, &reactions);
        let combinations = strength.into_iter().chain(balance).chain(asks.deflections().iter().map(DeflectionCase::combined)).collect();
        Checked { combinations, found, deflections, reactions, side_forces, drawn, reserve, unmade }
    }

    fn no_side_forces(&self) -> Vec<SideForce> {
        let supports = self.arranged.across.as_ref().map_or(&[][..], |across| &across.supports);
        supports.iter().map(|at| SideForce { at: *at, combination: String::new(), force: 0.0 }).collect()
    }

    /// Keeps the largest force across the depth on each side support, of either sign.
    fn sideways(&self, at: &Instance<'_>, combination: &str, forces: &mut [SideForce]) {
        for (known, force) in forces.iter_mut().zip(at.across.iter().flat_map(|diagram| &diagram.reactions)) {
            if force.abs() > known.force * (1.0 + NOUGHT) {
                *known = SideForce { at: known.at, combination: combination.to_owned(), force: force.abs() };
            }
        }
    }

    fn no_reactions(&self) -> Vec<Reacted> {
        let full = &self.arranged.sets[0];
        let by_case: Vec<(Case, Vec<f64>)> =
            self.arranged.present.iter().map(|c| (*c, self.arranged.reactions_of(&self.job.basis, *c, full))).collect();
        (0..self.arranged.bearers.len())
            .map(|i| Reacted {
                at: self.arranged.bearers[i],
                by_case: by_case.iter().map(|(c, r)| (*c, r[i])).collect(),
                largest: (String::new(), 0.0),
                smallest: (String::new(), 0.0),
            })
            .collect()
    }

    /// The same, of some load sets only where `within` names them.
    fn sets_within<'s>(&'s self, factors: &'s [(Case, f64)], within: Option<&'s [usize]>) -> impl Iterator<Item = (usize, &'s LoadSet)> {
        self.sets_of(factors).filter(move |(set, _)| is_in(within, *set))
    }

    /// The load sets that make a difference to a combination: without a load that comes and goes, everything is on.
    fn sets_of<'s>(&'s self, factors: &'s [(Case, f64)]) -> impl Iterator<Item = (usize, &'s LoadSet)> {
        let patterned = factors.iter().any(|(c, _)| matches!(self.code.pattern(self.job.basis.nature(*c)), Pattern::Sets { .. }));
        let all = self.arranged.sets[0].mask;
        self.arranged.sets.iter().enumerate().filter(move |(_, set)| patterned || set.mask == all)
    }
}

/// Keeps the largest and the smallest reactions; what stands as single points is the sheet's own trial.
fn note(reactions: &mut [Reacted], combination: &Combination, set: &LoadSet, vertical: &[f64]) {
    for (reacted, force) in reactions.iter_mut().zip(vertical).filter(|_| !set.points) {
        if reacted.largest.0.is_empty() || *force > reacted.largest.1 + NOUGHT * force.abs() {
            reacted.largest = (combination.name.clone(), *force);
        }
        if reacted.smallest.0.is_empty() || *force < reacted.smallest.1 - NOUGHT * force.abs() {
            reacted.smallest = (combination.name.clone(), *force);
        }
    }
}
