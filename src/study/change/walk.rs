//! From the former ratios to the present ones, one input at a time, each mixture of the two files computed by the engine.

use super::edits::{Plan, Reach};
use crate::results::Results;
use crate::text::Source;
use std::collections::{BTreeMap, BTreeSet};

/// More inputs than these are not walked one by one.
const MOST: usize = 400;
/// More edits than these that wait for one another are tried together only.
const FEW: usize = 12;

/// Governing ratio and check of each member.
pub(super) type Ratios = BTreeMap<String, (f64, String)>;

/// The way from old to new.
#[derive(Debug)]
pub(super) struct Walk {
    /// What this program finds from the former job file.
    pub start: Ratios,
    /// The steps, in the order in which they were taken.
    pub steps: Vec<Step>,
}

/// Edits taken together, and the ratios after them.
#[derive(Debug)]
pub(super) struct Step {
    pub edits: Vec<usize>,
    pub after: Ratios,
}

/// Why no walk was made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NotWalked {
    /// The present program finds faults in the former job file.
    FormerRefused,
    /// Too many inputs changed.
    TooMany,
}

impl std::fmt::Display for NotWalked {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::FormerRefused => f.write_str("this version of the program refuses the former job file"),
            Self::TooMany => write!(f, "more than {MOST} inputs changed"),
        }
    }
}

/// Walks the ratios of all members from the former job file to the present results.
pub(super) fn walk(plan: &Plan, former: &Source, now: &Results) -> Result<Walk, NotWalked> {
    if plan.edits.len() > MOST {
        return Err(NotWalked::TooMany);
    }
    let start = crate::check(former, false).map_err(|_| NotWalked::FormerRefused)?;
    let start = ratios(&start.results);
    let mut walker = Walker { plan, now, taken: vec![false; plan.edits.len()], here: start.clone(), steps: Vec::new() };
    let mut waiting: Vec<usize> = Vec::new();
    for edit in 0..plan.edits.len() {
        if !walker.take(&[edit]) {
            let with_one = if waiting.len() <= FEW { waiting.iter().position(|other| walker.take(&[*other, edit])) } else { None };
            match with_one {
                Some(at) => drop(waiting.remove(at)),
                None => {
                    waiting.push(edit);
                    if waiting.len() > 2 && walker.take(&waiting) {
                        waiting.clear();
                    }
                    continue;
                }
            }
        }
        while let Some(at) = waiting.iter().take(FEW).position(|other| walker.take(&[*other])) {
            waiting.remove(at);
        }
        if waiting.len() > 1 && walker.take(&waiting) {
            waiting.clear();
        }
    }
    // The whole of the edits is the present job file, which is valid.
    if !waiting.is_empty() {
        walker.take(&waiting);
    }
    Ok(Walk { start, steps: walker.steps })
}

fn ratios(results: &Results) -> Ratios {
    results.members.iter().map(|m| (m.mark.clone(), (m.governing.ratio, m.governing.check.clone()))).collect()
}

struct Walker<'a> {
    plan: &'a Plan,
    now: &'a Results,
    taken: Vec<bool>,
    here: Ratios,
    steps: Vec<Step>,
}

impl Walker<'_> {
    /// Takes some edits together; not where what comes of it is no valid job.
    fn take(&mut self, edits: &[usize]) -> bool {
        for edit in edits {
            self.taken[*edit] = true;
        }
        let after = if self.taken.iter().all(|taken| *taken) { Some(ratios(self.now)) } else { self.computed(edits) };
        match after {
            Some(after) => {
                self.here = after;
                let mut edits = edits.to_vec();
                edits.sort_unstable();
                self.steps.push(Step { edits, after: self.here.clone() });
                true
            }
            None => {
                for edit in edits {
                    self.taken[*edit] = false;
                }
                false
            }
        }
    }

    /// The ratios of the mixture; only what the edits can reach is computed again.
    fn computed(&self, edits: &[usize]) -> Option<Ratios> {
        let reached = self.reached(edits);
        if reached.is_empty() {
            return Some(self.here.clone());
        }
        let text = self.plan.mixture.write(&self.taken, &self.with_what_rests_on(&reached));
        let source = Source::read("a mixture of two job files", text.as_bytes()).ok()?;
        let mixed = ratios(&crate::check(&source, false).ok()?.results);
        let mut after = self.here.clone();
        for mark in &reached {
            match mixed.get(mark) {
                Some(found) => after.insert(mark.clone(), found.clone()),
                None => after.remove(mark),
            };
        }
        Some(after)
    }

    /// Members that edits can reach, and all below them.
    fn reached(&self, edits: &[usize]) -> BTreeSet<String> {
        let takes = &self.plan.takes;
        let mut reached = BTreeSet::new();
        for edit in edits {
            match &self.plan.edits[*edit].reach {
                Reach::All => return takes.keys().cloned().collect(),
                Reach::Member(mark) => drop(reached.insert(mark.clone())),
                Reach::Area(area) => reached.extend(self.loaded_by(area)),
                Reach::BuildUp(name) => {
                    for (area, _) in self.plan.built_up.iter().filter(|(_, values)| values.contains(name)) {
                        reached.extend(self.loaded_by(area));
                    }
                }
            }
        }
        loop {
            let below = takes.iter().filter(|(mark, takes)| !reached.contains(*mark) && !takes.from.is_disjoint(&reached));
            let more: Vec<String> = below.map(|(mark, _)| mark.clone()).collect();
            if more.is_empty() {
                return reached;
            }
            reached.extend(more);
        }
    }

    fn loaded_by(&self, area: &str) -> impl Iterator<Item = String> {
        self.plan.takes.iter().filter(move |(_, takes)| takes.areas.contains(area)).map(|(mark, _)| mark.clone())
    }

    /// These members and all that rests on them, directly or not.
    fn with_what_rests_on(&self, marks: &BTreeSet<String>) -> BTreeSet<String> {
        let mut all = marks.clone();
        let mut open: Vec<&String> = marks.iter().collect();
        while let Some(mark) = open.pop() {
            for above in self.plan.takes.get(mark).into_iter().flat_map(|takes| &takes.from) {
                if all.insert(above.clone()) {
                    open.push(above);
                }
            }
        }
        all
    }
}
