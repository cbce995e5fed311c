//! Results then and now, member by member.

use super::chains;
use super::edits::Plan;
use super::walk::Walk;
use crate::codes::Utilization;
use crate::results::reissue::{Cause, ChangedCheck, ChangedMember, ChangedReaction, Governed, Part};
use crate::results::{Member, Reaction, Results, Value};
use std::collections::{BTreeMap, BTreeSet};

/// Members of both issues whose results differ: those with a worse verdict first, then in job order.
pub(super) fn changed(then: &Results, now: &Results, plan: &Plan, walk: Option<&Walk>) -> Vec<ChangedMember> {
    let chains = chains::Chains::of(then, now, plan);
    let mut all = Vec::new();
    for member in &now.members {
        let Some(former) = then.member(&member.mark) else { continue };
        let (checks, reactions) = (checks(former, member), reactions(former, member));
        let governed = (governed(former), governed(member));
        if governed.0 == governed.1 && checks.is_empty() && reactions.is_empty() {
            continue;
        }
        let own = chains::is_own(plan, &member.mark);
        all.push(ChangedMember {
            mark: member.mark.clone(),
            own,
            chains: if own { Vec::new() } else { chains.to(&member.mark) },
            parts: walk.map(|walk| parts(walk, &member.mark, governed.0.ratio)).unwrap_or_default(),
            former: governed.0,
            now: governed.1,
            checks,
            reactions,
        });
    }
    all.sort_by_key(|member| member.now.verdict <= member.former.verdict);
    all
}

fn governed(member: &Member) -> Governed {
    let g = &member.governing;
    Governed { check: g.check.clone(), combination: g.combination.clone(), ratio: g.ratio, verdict: member.verdict }
}

/// The largest ratio by kind of check.
fn largest(member: &Member) -> BTreeMap<&str, f64> {
    let mut largest: BTreeMap<&str, f64> = BTreeMap::new();
    for check in &member.checks {
        let known = largest.entry(&check.check).or_insert(0.0);
        *known = Utilization::new(*known).max(Utilization::new(check.ratio)).value();
    }
    largest
}

fn checks(former: &Member, now: &Member) -> Vec<ChangedCheck> {
    let (a, b) = (largest(former), largest(now));
    let kinds: BTreeSet<&str> = a.keys().chain(b.keys()).copied().collect();
    kinds
        .into_iter()
        .filter(|kind| a.get(kind) != b.get(kind))
        .map(|kind| ChangedCheck { check: kind.to_owned(), former: a.get(kind).copied(), now: b.get(kind).copied() })
        .collect()
}

fn reactions(former: &Member, now: &Member) -> Vec<ChangedReaction> {
    let supports = former.reactions.len().max(now.reactions.len());
    let mut all = Vec::new();
    for i in 0..supports {
        let (a, b) = (former.reactions.get(i), now.reactions.get(i));
        let Some(last) = b.or(a) else { continue };
        let cases: BTreeSet<&String> = [a, b].into_iter().flatten().flat_map(|r| r.by_case.keys()).collect();
        let force = |reaction: Option<&Reaction>, case: &str| -> Option<Value> {
            let reaction = reaction?;
            reaction.handed_down.get(case).or_else(|| reaction.by_case.get(case)).cloned()
        };
        for case in cases {
            let (then, now) = (force(a, case), force(b, case));
            if then != now {
                all.push(ChangedReaction {
                    support: i + 1,
                    case: case.clone(),
                    former: then,
                    now,
                    received_by: last.received_by.clone(),
                    receiver: last.receiver.clone(),
                });
            }
        }
    }
    all
}

/// What moved the ratio, in the order in which it was walked.
fn parts(walk: &Walk, mark: &str, issued: f64) -> Vec<Part> {
    let mut at = issued;
    let mut parts = Vec::new();
    let moved =
        std::iter::once((Cause::Program, &walk.start)).chain(walk.steps.iter().enumerate().map(|(i, step)| (Cause::Step(i), &step.after)));
    for (cause, ratios) in moved {
        let Some((ratio, check)) = ratios.get(mark) else { continue };
        if *ratio != at {
            parts.push(Part { cause, ratio: *ratio, check: check.clone() });
            at = *ratio;
        }
    }
    parts
}
