//! How much is tried of a member, before it is: its combinations on every set of its spans.

use super::{Code, Pattern, reduce};
use crate::job::bounds::{PANELS, TRIALS};
use crate::job::model::{Case, Job, Member, Nature};
use crate::job::too_many_trials;
use crate::text::Faults;
use std::collections::BTreeSet;

/// The members of which more would be tried than [`TRIALS`].
pub(super) fn faults(code: &dyn Code, job: &Job) -> Faults {
    let reaching = cases(job);
    let many = |member: &Member| (2..=PANELS).contains(&member.spans.panels());
    // Only a member of several spans has sets of them.
    if !job.members.iter().any(many) {
        return Faults::new();
    }
    let combinations = code.combinations(&job.basis);
    let fault = |(member, present): (&Member, &BTreeSet<Case>)| {
        let patterned = present.iter().any(|case| matches!(code.pattern(job.basis.nature(*case)), Pattern::Sets { .. }));
        if !patterned || !many(member) {
            return None;
        }
        let present: Vec<Case> = present.iter().copied().collect();
        let (panels, combinations) = (member.spans.panels(), reduce(code, &job.basis, &combinations, &present).len());
        let trials = combinations.saturating_mul((1 << panels) - 1).saturating_mul(panels);
        (trials > TRIALS).then(|| too_many_trials(member, combinations, trials))
    };
    job.members.iter().zip(&reaching).filter_map(fault).collect()
}

/// The load cases that reach each member, those of the members above it among them.
fn cases(job: &Job) -> Vec<BTreeSet<Case>> {
    let mut reaching: Vec<BTreeSet<Case>> = vec![BTreeSet::new(); job.members.len()];
    for &index in &job.path {
        let member = &job.members[index];
        let mut of: BTreeSet<Case> = job.own_cases(member).collect();
        of.extend(member.loads.iter().filter_map(|load| load.kind.giver()).flat_map(|giver| &reaching[giver]).copied());
        // Self-weight.
        of.extend((0..job.basis.cases.len()).map(Case).filter(|case| job.basis.nature(*case) == Nature::Dead).take(1));
        reaching[index] = of;
    }
    reaching
}
