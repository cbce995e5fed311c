//! How a change came to a member that was not changed itself.

use super::edits::{Plan, Reach};
use crate::results::{Reaction, Results};
use std::collections::{BTreeMap, BTreeSet};

/// More ways than these to one member are not told.
const TOLD: usize = 8;

/// Ways from what was changed to what it reached.
pub(super) struct Chains<'a> {
    plan: &'a Plan,
    /// By receiver: members whose reaction on it changed, and members that came or went.
    givers: BTreeMap<&'a str, BTreeSet<&'a str>>,
}

/// Whether something changed under a member's own keys.
pub(super) fn is_own(plan: &Plan, mark: &str) -> bool {
    plan.edits.iter().any(|edit| edit.input.mark == mark)
}

impl<'a> Chains<'a> {
    pub(super) fn of(then: &'a Results, now: &'a Results, plan: &'a Plan) -> Self {
        let mut givers: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
        for results in [then, now] {
            for member in &results.members {
                for load in member.loads.iter().filter(|load| !load.from_member.is_empty()) {
                    let (giver, support) = (load.from_member.as_str(), load.from_support.unwrap_or_default());
                    if handed(then, giver, support) != handed(now, giver, support) {
                        givers.entry(&member.mark).or_default().insert(giver);
                    }
                }
            }
        }
        Self { plan, givers }
    }

    /// The ways to a member, the shortest from each beginning; each begins where something was changed and ends before the member.
    pub(super) fn to(&self, mark: &str) -> Vec<Vec<String>> {
        let mut shortest: Vec<Vec<String>> = Vec::new();
        let mut open: Vec<(&str, Vec<String>)> = vec![(mark, Vec::new())];
        let mut seen = BTreeSet::new();
        // In breadth, so that the first way found from a beginning is the shortest.
        while !open.is_empty() {
            let mut next = Vec::new();
            for (at, way) in open {
                if !seen.insert(at) {
                    continue;
                }
                let mut keep = |beginning: Vec<String>| {
                    let whole: Vec<String> = beginning.into_iter().chain(way.iter().cloned()).collect();
                    if !whole.is_empty() && shortest.iter().all(|known| known[0] != whole[0]) {
                        shortest.push(whole);
                    }
                };
                if at != mark && is_own(self.plan, at) {
                    keep(Vec::new());
                }
                for beginning in self.wide(at) {
                    keep(beginning);
                }
                for giver in self.givers.get(at).into_iter().flatten() {
                    let way = std::iter::once((*giver).to_owned()).chain(way.iter().cloned()).collect();
                    next.push((*giver, way));
                }
            }
            open = next;
        }
        shortest.truncate(TOLD);
        shortest
    }

    /// Changes of areas, build-ups and the basis that act on a member itself.
    fn wide(&self, mark: &str) -> Vec<Vec<String>> {
        let areas = self.plan.takes.get(mark).map(|takes| &takes.areas);
        let mut ways: Vec<Vec<String>> = Vec::new();
        for edit in &self.plan.edits {
            let of = edit.input.of.clone();
            let way = match &edit.reach {
                Reach::Member(_) => continue,
                Reach::All => Some(vec![of]),
                Reach::Area(area) => areas.filter(|areas| areas.contains(area)).map(|_| vec![of]),
                Reach::BuildUp(name) => areas
                    .into_iter()
                    .flatten()
                    .find(|area| self.plan.built_up.get(*area).is_some_and(|values| values.contains(name)))
                    .map(|area| vec![of, format!("area {area}")]),
            };
            ways.extend(way.filter(|way| !ways.contains(way)));
        }
        ways
    }
}

/// What a member hands down at a support.
fn handed<'a>(results: &'a Results, mark: &str, support: usize) -> Option<[&'a BTreeMap<String, crate::results::Value>; 4]> {
    let reaction: &Reaction = results.member(mark)?.reactions.iter().find(|r| r.support == support)?;
    Some([&reaction.by_case, &reaction.handed_down, &reaction.handed_down_smallest, &reaction.thrust])
}
