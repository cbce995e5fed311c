//! What a rafter on a ridge board pushes outward at its heel.

use super::{Scene, value};
use crate::job::model::{Load, LoadKind};
use crate::results::Value;
use crate::units::figures;
use std::collections::BTreeMap;

impl Scene<'_> {
    /// The thrust of a rafter on a ridge board, by case; empty but at its heel.
    pub(super) fn thrust_of(&self, support: usize) -> BTreeMap<String, Value> {
        let Some([largest, _]) = self.walked.handed.thrust.as_ref().filter(|_| support == 0) else { return BTreeMap::new() };
        self.walked.arranged.present.iter().map(|case| (self.case(*case), value(largest[case.0], self.shown.force))).collect()
    }

    /// What pulls outward at the heel, and what takes it.
    pub(super) fn thrust(&self) -> Option<String> {
        let [largest, _] = self.walked.handed.thrust.as_ref()?;
        let force = self.shown.force;
        let by_case: Vec<String> = (self.walked.arranged.present.iter())
            .map(|case| format!("{} {}", self.case(*case), figures(force.number(largest[case.0]), 3)))
            .collect();
        let takes = |l: &Load| matches!(&l.kind, LoadKind::Thrust { from_member, .. } if *from_member == self.walked.member);
        let ties: Vec<&str> = (self.all.iter().map(|w| &self.job.members[w.member]))
            .filter(|member| member.loads.iter().any(takes))
            .map(|member| member.mark.value.as_str())
            .collect();
        let taken = if ties.is_empty() { "no tie of this job takes it".to_owned() } else { format!("taken by {}", ties.join(", ")) };
        let (place, how) = match self.walked.arranged.tie_is_up {
            true => ("at the raised tie", ", divided by 1 less the part of the rise at which the tie stands"),
            false => ("at the heel", ""),
        };
        Some(format!(
            "Thrust of one rafter {place}, level and outward: {} {}; {taken}. T = R / tan θ of vertical loads, R what a ridge beam would \
             carry{how}. It presses the rafter along the slope, which is not checked, and so are the heel joint and the joint at the ridge.",
            by_case.join(", "),
            force.name
        ))
    }
}
