//! Reasons of the revision table, each beside the input that it speaks of.

use super::edits::Plan;
use crate::job::model::Job;
use crate::results::reissue::{Input, Reason};

/// Puts the reasons that stand with the present revision beside the inputs that they speak of; those that speak of none are given back.
pub(super) fn stand_with(plan: &mut Plan, job: &Job) -> Vec<Reason> {
    let about = &job.about;
    let reasons = about.revisions.iter().filter(|row| row.mark == about.revision).flat_map(|row| &row.changes);
    let mut loose = Vec::new();
    for reason in reasons {
        let inputs = plan.edits.iter_mut().map(|edit| &mut edit.input).chain(&mut plan.others);
        let mut meant: Vec<&mut Input> = inputs.filter(|input| speaks_of(&reason.of, input)).collect();
        if meant.is_empty() {
            loose.push(Reason { of: reason.of.clone(), why: reason.why.clone(), who: reason.who.clone() });
        }
        for input in &mut meant {
            let join = |to: &mut String, more: &str| {
                to.push_str(if to.is_empty() || more.is_empty() { "" } else { "; " });
                to.push_str(more);
            };
            join(&mut input.why, &reason.why);
            join(&mut input.who, &reason.who);
        }
    }
    loose
}

/// Whether every word of `H1 spans` or `area roof snow` is a word of the input's place.
fn speaks_of(of: &str, input: &Input) -> bool {
    let plain = |word: &str| word.to_lowercase().trim_end_matches('s').to_owned();
    let split = |text: &str| -> Vec<String> {
        text.split(|c: char| c.is_whitespace() || matches!(c, '.' | ',' | ':' | '-')).filter(|word| !word.is_empty()).map(plain).collect()
    };
    let place = split(&format!("{} {} {}", input.path, input.of, input.item));
    let mark = |word: &str| word == input.mark.to_lowercase().trim_end_matches('s');
    let words = split(of);
    !words.is_empty() && words.iter().all(|word| place.contains(word) || mark(word))
}
