//! Which natures of load act on a member, what it receives among them.

use crate::codes::assumed;
use crate::job::model::{Job, Member as Entry, Nature};

/// The natures of the loads of a member: permanent load, its own loads, and those of the members above whose reactions it receives.
pub(super) fn natures(job: &Job, entry: &Entry) -> Vec<Nature> {
    let acting = job.down_to(entry).flat_map(|member| assumed::natures_of(job, member));
    let mut natures: Vec<Nature> = acting.chain([Nature::Dead]).collect();
    natures.sort_by_key(|n| Nature::ALL.iter().position(|known| known == n));
    natures.dedup();
    natures
}
