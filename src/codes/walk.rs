//! Down the load path: prepare, solve, check, hand the reactions down.

use super::arrange::{Arranged, HandedDown, unsolved};
use super::search::{Checked, Search};
use super::{Code, Combination, Prepared, trials};
use crate::cores;
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
    faults.extend(trials::faults(code, job));
    let mut prepared = Vec::with_capacity(job.members.len());
    for one in cores::each(&job.members, |member| code.prepare(job, member)) {
        match one {
            Ok(one) => prepared.push(one),
            Err(more) => faults.extend(more),
        }
    }
    if faults.is_empty() { Ok(prepared) } else { Err(faults) }
}

/// Walks a job down its load path. The answer is in job order.
///
/// With `all`, every combination that lost is worked out as well.
///
/// # Errors
/// A bug, which names the member: one that cannot be solved, or is not on the load path. No member is left out.
pub fn walk(
    code: &dyn Code,
    job: &Job,
    prepared: Vec<Box<dyn Prepared>>,
    combinations: &[Combination],
    all: bool,
) -> Result<Vec<Walked>, Faults> {
    let mut down = solve(code, job, prepared)?;
    down.sort_by_key(|one| one.member);
    // What a member hands down does not wait for its checks, so that all are searched at once.
    let checked = cores::each(&down, |one| {
        let (member, prepared) = (&job.members[one.member], one.prepared.as_ref());
        Search { code, job, member, prepared, arranged: &one.arranged }.run(combinations, all)
    });
    let walked = |(Solved { member, prepared, arranged, handed }, checked)| Walked { member, prepared, arranged, checked, handed };
    Ok(down.into_iter().zip(checked).map(walked).collect())
}

/// A member solved under its loads, those of the members above it among them.
struct Solved {
    member: usize,
    prepared: Box<dyn Prepared>,
    arranged: Arranged,
    handed: HandedDown,
}

/// Solves every member, those that hand down before those that receive.
fn solve(code: &dyn Code, job: &Job, prepared: Vec<Box<dyn Prepared>>) -> Result<Vec<Solved>, Faults> {
    let mut handed: Vec<Option<HandedDown>> = vec![None; job.members.len()];
    let mut waiting: Vec<Option<Box<dyn Prepared>>> = prepared.into_iter().map(Some).collect();
    let mut solved = Vec::with_capacity(job.members.len());
    for &member in &job.path {
        let Some(prepared) = waiting[member].take() else { continue };
        let arranged = Arranged::new(code, job, &job.members[member], prepared.as_ref(), &handed)?;
        let down = arranged.handed_down(&job.basis);
        handed[member] = Some(down.clone());
        solved.push(Solved { member, prepared, arranged, handed: down });
    }
    let not_solved = |(member, _)| unsolved(&job.members[member], "it is not on the load path");
    let bugs: Faults = waiting.iter().enumerate().filter(|(_, prepared)| prepared.is_some()).flat_map(not_solved).collect();
    if bugs.is_empty() { Ok(solved) } else { Err(bugs) }
}
