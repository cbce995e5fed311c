//! The assumption register: what was taken, from where, who has to confirm it.

use super::Assumption;
use crate::codes::{Assumed, Origin, Walked};
use crate::job::model::Job;
use std::collections::BTreeMap;

/// All assumptions of a job, numbered; the same sentence from the same place is one entry.
pub(super) struct Register {
    entries: Vec<Assumption>,
    /// Topic by member's index, then the entry's id.
    topics: Vec<(usize, &'static str, String)>,
}

impl Register {
    /// Numbers the code's assumptions first, then the reader's defaults, then the engineer's own.
    pub(super) fn of(job: &Job, walked: &[Walked]) -> Self {
        let mut register = Self { entries: Vec::new(), topics: Vec::new() };
        for one in walked {
            let mark = &job.members[one.member].mark.value;
            for assumed in &one.prepared.resolved().assumes {
                let id = register.add(assumed, mark);
                register.topics.push((one.member, assumed.topic, id));
            }
        }
        for default in &job.defaults {
            register.push(default.text.clone(), Origin::Default, default.members.clone(), String::new(), false);
        }
        for own in &job.about.assumptions {
            let confirm = own.confirm.clone().unwrap_or_default();
            register.push(own.text.clone(), Origin::JobFile, own.members.clone(), confirm, own.open);
        }
        for (warning, (by, date)) in job.warnings.iter().filter_map(|warning| Some((warning, warning.confirmed.as_ref()?))) {
            let text = format!("{} Confirmed by {by}, {date}.", warning.text);
            register.push(text, Origin::JobFile, warning.members.clone(), String::new(), false);
        }
        let all = job.members.len();
        for entry in &mut register.entries {
            if all > 1 && entry.members.len() == all {
                entry.members.clear();
            }
        }
        register
    }

    fn add(&mut self, assumed: &Assumed, mark: &str) -> String {
        self.push(assumed.text.clone(), assumed.from, vec![mark.to_owned()], assumed.confirm.clone(), assumed.open)
    }

    /// One entry more, or more members to the entry that says the same from the same place; its id.
    fn push(&mut self, text: String, from: Origin, members: Vec<String>, confirm: String, open: bool) -> String {
        let from = from.to_string();
        if let Some(known) = self.entries.iter_mut().find(|e| e.text == text && e.from == from) {
            let new: Vec<String> = members.into_iter().filter(|m| !known.members.contains(m)).collect();
            known.members.extend(new);
            return known.id.clone();
        }
        let id = format!("A-{}", self.entries.len() + 1);
        self.entries.push(Assumption { id: id.clone(), text, from, members, confirm, open });
        id
    }

    /// The entries in order.
    pub(super) fn entries(&self) -> &[Assumption] {
        &self.entries
    }

    /// Ids by topic of one member.
    pub(super) fn topics_of(&self, member: usize) -> BTreeMap<String, String> {
        self.topics.iter().filter(|(m, ..)| *m == member).map(|(_, topic, id)| ((*topic).to_owned(), id.clone())).collect()
    }
}
