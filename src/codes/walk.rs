//! Down the load path: prepare, solve, check, hand the reactions down.

use super::arrange::{Arranged, HandedDown};
use super::search::{Checked, Search};
use super::{Code, Combination, Prepared};
use crate::job::model::Job;
use crate::text::Faults;

/// A member walked through.
pub struct Walked {
    /// Its index in the job.
    pub member: usize,
    /// Against the code's tables.
    pub prepared: Box<dyn Prepared>,
    /// Solved.
    pub arranged: Arranged,
    /// Checked.
    pub checked: Checked,
    /// What it hands down.
    pub handed: HandedDown,
}

/// Prepares every member against the code's tables.
///
/// # Errors
/// All faults of all members, in file order.
pub fn prepare(code: &dyn Code, job: &Job) -> Result<Vec<Box<dyn Prepared>>, Faults> {
    let mut faults = code.faults(&job.basis);
    let mut prepared = Vec::with_capacity(job.members.len());
    for member in &job.members {
        match code.prepare(job, member) {
            Ok(one) => prepared.push(one),
            Err(more) => faults.extend(more),
        }
    }
    if faults.is_empty() { Ok(prepared) } else { Err(faults) }
}

/// Walks a job down its load path. The answer is in job order.
///
/// With `all`, every combination that lost is worked out as well.
pub fn walk(code: &dyn Code, job: &Job, prepared: Vec<Box<dyn Prepared>>, combinations: &[Combination], all: bool) -> Vec<Walked> {
    let mut handed: Vec<Option<HandedDown>> = vec![None; job.members.len()];
    let mut waiting: Vec<Option<Box<dyn Prepared>>> = prepared.into_iter().map(Some).collect();
    let mut walked = Vec::with_capacity(job.members.len());
    for index in &job.path {
        let member = &job.members[*index];
        let Some(prepared) = waiting[*index].take() else { continue };
        let Some(arranged) = Arranged::new(code, job, member, prepared.as_ref(), &handed) else { continue };
        let checked = Search { code, job, member, prepared: prepared.as_ref(), arranged: &arranged }.run(combinations, all);
        let down = arranged.handed_down(&job.basis);
        handed[*index] = Some(down.clone());
        walked.push(Walked { member: *index, prepared, arranged, checked, handed: down });
    }
    walked.sort_by_key(|w| w.member);
    walked
}
