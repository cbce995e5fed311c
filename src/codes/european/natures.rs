//! Which natures of load act on a member, what it receives among them.

use crate::job::model::{Case, Job, LoadKind, Member as Entry, Nature};

/// The natures of the loads of a member: permanent load, its own loads, and those of the members above whose reactions it receives.
pub(super) fn natures(job: &Job, entry: &Entry) -> Vec<Nature> {
    let mut natures = vec![Nature::Dead];
    let nature = |case: Case| job.basis.nature(case);
    let mut seen = vec![false; job.members.len()];
    let mut waiting: Vec<&Entry> = vec![entry];
    while let Some(one) = waiting.pop() {
        for load in &one.loads {
            match &load.kind {
                LoadKind::Area { area, .. } => natures.extend(job.areas[*area].loads.iter().map(|a| nature(a.case))),
                LoadKind::Line { case, .. }
                | LoadKind::Point { case, .. }
                | LoadKind::Moment { case, .. }
                | LoadKind::Axial { case, .. } => {
                    natures.push(nature(*case));
                }
                LoadKind::Reaction { from_member, .. } | LoadKind::Thrust { from_member, .. } => {
                    if let (Some(giver), Some(seen)) = (job.members.get(*from_member), seen.get_mut(*from_member))
                        && !std::mem::replace(seen, true)
                    {
                        waiting.push(giver);
                    }
                }
            }
        }
    }
    natures.sort_by_key(|n| Nature::ALL.iter().position(|known| known == n));
    natures.dedup();
    natures
}
