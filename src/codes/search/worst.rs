//! What is worst, and what lost against it.

use super::{Found, Lost, Search};
use crate::codes::{CheckAbout, Combination, Demand, Kind, LoadSet, Places, Statics, Time, Utilization};
use crate::job::model::Case;
use std::cmp::Reverse;

/// A candidate: where, and how bad.
pub(super) struct Candidate {
    pub check: usize,
    pub place: usize,
    pub combination: usize,
    pub set: usize,
    pub demand: Demand,
    pub ratio: Utilization,
}
impl Search<'_> {
    /// Picks the worst of each check at each place, has it worked, and lists what lost.
    pub(super) fn settle(&self, candidates: &[Candidate], combinations: &[Combination], times: &[Time], all: bool) -> Vec<Found> {
        let checks = &self.prepared.resolved().checks;
        let mut found = Vec::new();
        for (check, about) in checks.iter().enumerate() {
            let of_check: Vec<&Candidate> = candidates.iter().filter(|c| c.check == check).collect();
            let mut places: Vec<usize> = of_check.iter().map(|c| c.place).collect();
            places.sort_unstable();
            places.dedup();
            let Some(leading) = worst(of_check.iter().copied()) else { continue };
            let others = self.lost(about, &of_check, leading, combinations, times);
            for place in places {
                let here = || of_check.iter().copied().filter(move |c| c.place == place);
                let Some(first) = worst(here()) else { continue };
                let wanted = here().filter(|c| all || std::ptr::eq(*c, first));
                for candidate in wanted {
                    let leads = std::ptr::eq(candidate, leading);
                    let time = &times[candidate.combination];
                    let set = &self.arranged.sets[candidate.set];
                    let combination = &combinations[candidate.combination];
                    let worked = self.prepared.worked(check, &candidate.demand, time);
                    found.push(Found {
                        about: *about,
                        place,
                        combination: combination.name.clone(),
                        load_set: set.words.clone(),
                        mask: set.mask,
                        demand: candidate.demand,
                        made_of: self.made_of(&candidate.demand, &combination.factors, set),
                        ratio: candidate.ratio,
                        read: self.prepared.read_for(combination, &candidate.demand, &worked),
                        worked,
                        time: time.clone(),
                        leading: leads,
                        others: if leads { others.clone() } else { Vec::new() },
                    });
                }
            }
        }
        found
    }

    /// What the loads of a demand's closed form are made of; nothing where it has none.
    pub(super) fn made_of(&self, demand: &Demand, factors: &[(Case, f64)], set: &LoadSet) -> Vec<(Case, f64, [f64; 2])> {
        if demand.statics == Statics::Diagram { Vec::new() } else { self.arranged.made_of(factors, set) }
    }

    /// What lost against the leading candidate: other combinations, worst first, then other places.
    fn lost(
        &self,
        about: &CheckAbout,
        of_check: &[&Candidate],
        leading: &Candidate,
        combinations: &[Combination],
        times: &[Time],
    ) -> Vec<Lost> {
        let mut lost = Vec::new();
        for (i, combination) in combinations.iter().enumerate().filter(|(i, _)| *i != leading.combination) {
            if let Some(other) = worst(of_check.iter().copied().filter(|c| c.combination == i)) {
                // What does not depend on the combination is not said again for each of them.
                if (other.ratio.value() - leading.ratio.value()).abs() > 1e-9 {
                    let time = times[i].factor;
                    let also = if time == times[leading.combination].factor {
                        String::new()
                    } else {
                        format!(" ({})", self.code.time_in_words(&self.job.basis, time))
                    };
                    lost.push(Lost { what: format!("{}{also}", combination.name), ratio: other.ratio });
                }
            }
        }
        lost.sort_by_key(|one| Reverse(one.ratio));
        let mut places: Vec<usize> = of_check.iter().map(|c| c.place).filter(|p| *p != leading.place).collect();
        places.sort_unstable();
        places.dedup();
        for place in places {
            if let Some(other) = worst(of_check.iter().copied().filter(|c| c.place == place)) {
                lost.push(Lost { what: self.place_in_words(about.places, place), ratio: other.ratio });
            }
        }
        lost
    }

    /// A panel or support in words.
    pub(super) fn place_in_words(&self, places: Places, place: usize) -> String {
        match places {
            Places::Notches if place > self.arranged.supports.len() => format!("notch {}", place - self.arranged.supports.len()),
            Places::Underfoot => self.arranged.upon.get(place - 1).map_or_else(String::new, |upon| {
                let mark = &self.job.members[upon.giver].mark.value;
                let others = self.arranged.upon.iter().filter(|other| other.giver == upon.giver).count() > 1;
                if others { format!("under {mark} ({place})") } else { format!("under {mark}") }
            }),
            Places::Bearings | Places::Notches | Places::Foot => format!("support {place}"),
            _ => match self.arranged.panels.iter().find(|p| p.number == place) {
                Some(panel) if panel.overhang && self.arranged.panels.iter().filter(|p| p.overhang).count() == 1 => "overhang".to_owned(),
                Some(panel) if panel.overhang && place == 0 => "left overhang".to_owned(),
                Some(panel) if panel.overhang => "right overhang".to_owned(),
                _ => format!("span {place}"),
            },
        }
    }
}

/// Keeps the worst candidate of each check, place and combination; the first of equals.
pub(super) fn keep(candidates: &mut Vec<Candidate>, new: Candidate) {
    let same = |c: &&mut Candidate| c.check == new.check && c.place == new.place && c.combination == new.combination;
    match candidates.iter_mut().rev().find(same) {
        Some(known) if new.ratio.is_worse_than(known.ratio) => *known = new,
        Some(_) => {}
        None => candidates.push(new),
    }
}

/// The worst; the first of equals.
fn worst<'c>(candidates: impl Iterator<Item = &'c Candidate>) -> Option<&'c Candidate> {
    candidates.reduce(|best, next| if next.ratio.is_worse_than(best.ratio) { next } else { best })
}

/// Governing first, each kind's worst before the others of its kind; a check that governs only where it fails stands behind while it passes.
pub(super) fn order(found: &mut [Found]) {
    let rank = |f: &Found| Some(f.ratio).filter(|ratio| !(f.about.only_failing && ratio.passes()));
    let mut kinds: Vec<(Kind, Option<Utilization>)> = found.iter().filter(|f| f.leading).map(|f| (f.about.kind, rank(f))).collect();
    kinds.sort_by_key(|(_, ratio)| Reverse(*ratio));
    let place = |kind: Kind| kinds.iter().position(|(known, _)| *known == kind).unwrap_or(kinds.len());
    found.sort_by(|a, b| place(a.about.kind).cmp(&place(b.about.kind)).then(b.leading.cmp(&a.leading)).then(b.ratio.cmp(&a.ratio)));
}
