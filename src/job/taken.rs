//! The defaults taken, for the assumption register.

use super::model::TakenDefault;

/// Collects what was taken where the job file is silent; what was taken for several members is one entry.
#[derive(Debug, Default)]
pub(super) struct Taken(pub Vec<TakenDefault>);

impl Taken {
    /// A default that holds for the whole job.
    pub fn job(&mut self, text: &str) {
        self.0.push(TakenDefault { text: text.to_owned(), members: Vec::new() });
    }

    /// A default of one member.
    pub fn member(&mut self, mark: &str, text: &str) {
        match self.0.iter_mut().find(|taken| taken.text == text && !taken.members.is_empty()) {
            Some(taken) => taken.members.push(mark.to_owned()),
            None => self.0.push(TakenDefault { text: text.to_owned(), members: vec![mark.to_owned()] }),
        }
    }
}
