//! What stands on a member with its foot: posts and studs, whose ends press on its top.

use super::stand::Arrangement;
use super::{HandedDown, LoadSet};
use crate::job::model::{Arrival, Case, Job, LoadKind, Member};

/// A post or stud, or a row of them, that stands on a member.
#[derive(Clone, Debug)]
pub struct Upon {
    /// Which of the member's loads it is.
    pub load: usize,
    /// Who stands there, by its index.
    pub giver: usize,
    /// Where its axis is, along the member; of a row the one that is nearest to an end.
    pub at: f64,
    /// From its axis to the member's nearer end, level.
    pub to_end: f64,
    /// Whether it is a row.
    pub row: bool,
    /// What each hands down, by arrangement of received reactions and case; N.
    forces: Vec<Vec<f64>>,
}

impl Upon {
    /// Everything that stands on a member.
    pub(super) fn all(job: &Job, member: &Member, handed: &[Option<HandedDown>], arrangements: &[Arrangement], cosine: f64) -> Vec<Self> {
        let length = member.spans.length().value();
        let of = |(load, one): (usize, &crate::job::model::Load)| {
            let LoadKind::Reaction { from_member, support, arrives, .. } = &one.kind else { return None };
            if !job.members[*from_member].role.is_upright() {
                return None;
            }
            let (at, row) = match arrives {
                Arrival::At(at) => (at.value(), false),
                Arrival::Every { from, to, .. } if from.value() < length - to.value() => (from.value(), true),
                Arrival::Every { to, .. } => (to.value(), true),
                Arrival::Head { .. } => return None,
            };
            let handed = handed.get(*from_member)?.as_ref()?;
            let (largest, smallest) = (&handed.largest[support - 1], &handed.smallest[support - 1]);
            let forces = arrangements.iter().map(|a| if a.smallest { smallest } else { largest }.clone()).collect();
            Some(Self { load, giver: *from_member, at: at / cosine, to_end: at.min(length - at), row, forces })
        };
        member.loads.iter().enumerate().filter_map(of).collect()
    }

    /// What one of them presses with in a combination, downward positive. It is whole in every set of loaded spans.
    pub fn force(&self, factors: &[(Case, f64)], set: &LoadSet) -> f64 {
        factors.iter().map(|(case, factor)| factor * self.forces[set.arrangement][case.0]).sum()
    }
}
