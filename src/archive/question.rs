//! What an office asks of its archive.

use super::{Archive, Damaged, Entry, Error, Index, MemberInShort};
use crate::results::Verdict;
use std::cmp::Ordering;
use std::collections::BTreeMap;

/// A question: entries must answer to all that is given.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Question {
    /// Part of a table's name as printed.
    pub table: Option<String>,
    /// Part of a cell's row and column.
    pub cell: Option<String>,
    /// An edition, a loading standard, or part of a standard cited.
    pub edition: Option<String>,
    /// A version of the program.
    pub program: Option<String>,
    /// Members whose governing ratio is above this, or that are not checked.
    pub above: Option<f64>,
    /// Job number.
    pub job: Option<String>,
    /// Of each job only the newest issue.
    pub newest: bool,
    /// To be kept until a day before this one.
    pub past: Option<String>,
}

/// An entry that answers, and what in it does.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Answer {
    /// The entry.
    pub entry: Entry,
    /// What answers: cells, members; empty where the whole entry does.
    pub because: Vec<String>,
}

/// Job numbers as people sort them: runs of digits by their number.
pub fn in_order(a: &str, b: &str) -> Ordering {
    let (mut a, mut b) = (a, b);
    loop {
        let (Some(x), Some(y)) = (a.chars().next(), b.chars().next()) else { return a.len().cmp(&b.len()) };
        let order = if x.is_ascii_digit() && y.is_ascii_digit() {
            let digits = |text: &str| text.len() - text.trim_start_matches(|c: char| c.is_ascii_digit()).len();
            let (m, n) = (digits(a), digits(b));
            let (number_a, number_b) = (a[..m].trim_start_matches('0'), b[..n].trim_start_matches('0'));
            (a, b) = (&a[m..], &b[n..]);
            number_a.len().cmp(&number_b.len()).then_with(|| number_a.cmp(number_b))
        } else {
            (a, b) = (&a[x.len_utf8()..], &b[y.len_utf8()..]);
            x.cmp(&y)
        };
        if order.is_ne() {
            return order;
        }
    }
}

/// Whether a text holds another, whatever the case of its letters and its blanks.
fn holds(text: &str, part: &str) -> bool {
    let plain = |text: &str| text.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ");
    plain(text).contains(&plain(part))
}

impl Archive {
    /// The entries that answer a question, in the order of filing, and the damaged lines, whose issues may answer too.
    ///
    /// # Errors
    /// As [`Self::read`].
    pub fn ask(&self, question: &Question) -> Result<(Vec<Answer>, Vec<Damaged>), Error> {
        let Index { entries, damaged } = self.read()?;
        let newest: BTreeMap<&str, usize> =
            entries.iter().enumerate().fold(BTreeMap::new(), |mut newest: BTreeMap<&str, usize>, (i, entry)| {
                match newest.get(entry.number.as_str()) {
                    Some(known) if entries[*known].date > entry.date => {}
                    _ => drop(newest.insert(&entry.number, i)),
                }
                newest
            });
        let wanted = |i: usize, entry: &Entry| !question.newest || newest.get(entry.number.as_str()) == Some(&i);
        let wanted = entries.iter().enumerate().filter(|(i, entry)| wanted(*i, entry));
        Ok((wanted.filter_map(|(_, entry)| answer(question, entry)).collect(), damaged))
    }
}

pub(super) fn answer(question: &Question, entry: &Entry) -> Option<Answer> {
    let mut because = Vec::new();
    if question.table.is_some() || question.cell.is_some() {
        let asked = |asked: &Option<String>, text: &str| asked.as_ref().is_none_or(|part| holds(text, part));
        let cells: Vec<String> = entry
            .cells
            .iter()
            .filter(|cell| asked(&question.table, &cell.table) && asked(&question.cell, &cell.cell))
            .map(|cell| format!("{}, {} ({}): {}", cell.table, cell.cell, cell.status, cell.members.join(" ")))
            .collect();
        if cells.is_empty() {
            return None;
        }
        because.extend(cells);
    }
    if let Some(edition) = &question.edition {
        let said = [&entry.edition, &entry.loading].into_iter().any(|known| known.eq_ignore_ascii_case(edition.trim()));
        if !said && !entry.standards.iter().any(|standard| holds(standard, edition)) {
            return None;
        }
    }
    if let Some(version) = &question.program
        && entry.program != *version
        && entry.program.rsplit(' ').next() != Some(version.as_str())
    {
        return None;
    }
    if let Some(limit) = question.above {
        // Nobody knows that what was not checked is not above it.
        let above = |m: &&MemberInShort| m.ratio > limit || m.verdict.is_not_checked();
        let said = |m: &MemberInShort| match m.verdict {
            Verdict::NotChecked => format!("{} {}", m.mark, m.verdict.mark()),
            _ => format!("{} {:.3} {}", m.mark, m.ratio, m.check.replace('_', " ")),
        };
        let members: Vec<String> = entry.members.iter().filter(above).map(said).collect();
        if members.is_empty() {
            return None;
        }
        because.extend(members);
    }
    if question.job.as_ref().is_some_and(|job| *job != entry.number) {
        return None;
    }
    if let Some(day) = &question.past
        && entry.keep_until.as_ref().is_none_or(|until| until >= day)
    {
        return None;
    }
    Some(Answer { entry: entry.clone(), because })
}
