//! What carries the reactions of a member.

use super::Scene;
use crate::job::model::LoadKind;
use crate::results::Receiver;

/// Names of all, and what they are; a member goes before all else.
pub(super) fn in_short(receivers: &[Receiver]) -> (String, String) {
    let names: Vec<&str> = receivers.iter().map(|receiver| receiver.name.as_str()).collect();
    let kind = ["member", "deferred", "named"].into_iter().find(|kind| receivers.iter().any(|receiver| receiver.kind == *kind));
    match kind {
        Some(kind) => (names.join(", "), kind.to_owned()),
        None => ("not given".to_owned(), "nobody".to_owned()),
    }
}

impl Scene<'_> {
    /// What receives the reaction of a support, from 0: what the member rests on by its own entry, then members that list the reaction in
    /// their loads and are not named there.
    pub(super) fn receivers(&self, support: usize) -> Vec<Receiver> {
        let entry = &self.job.members[self.walked.member];
        let takes = |load: &crate::job::model::Load| match &load.kind {
            LoadKind::Reaction { from_member, support: first, or_supports, .. } => {
                *from_member == self.walked.member && (*first == support + 1 || or_supports.contains(&(support + 1)))
            }
            _ => false,
        };
        let members: Vec<&str> = (self.all.iter().map(|w| &self.job.members[w.member]))
            .filter(|member| member.loads.iter().any(takes))
            .map(|member| member.mark.value.as_str())
            .collect();
        if members.is_empty() && self.walked.arranged.leans_on_fellow && support > 0 {
            return vec![Receiver { name: "its fellow, at the ridge board".to_owned(), kind: "named".to_owned() }];
        }
        let named = entry.rests_on.get(support).map(Vec::as_slice).unwrap_or_default();
        let kind = |name: &str| match name {
            _ if members.contains(&name) => "member",
            _ if self.job.about.deferred.iter().any(|part| part.id == name) => "deferred",
            _ => "named",
        };
        let unnamed = members.iter().copied().filter(|mark| !named.iter().any(|name| name.value == *mark));
        let all = named.iter().map(|name| name.value.as_str()).chain(unnamed);
        all.map(|name| Receiver { name: name.to_owned(), kind: kind(name).to_owned() }).collect()
    }
}
