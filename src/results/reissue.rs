//! What a reissue changed: the inputs, what came of them, and how much each contributed.
//!
//! Made by [`crate::study::change`] from the former package and the new job; drawn by the change sheet. It is no part of the results
//! document: it is made again from the former job file and the former results, which a record carries.

use super::{Governing, Value};
use crate::codes::Verdict;
use serde::Serialize;

/// A reissue beside the issue that it replaces.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Reissue {
    /// The issue that is replaced.
    pub former: Issued,
    /// The reissue.
    pub now: Issued,
    /// Inputs that calculations hang on and that changed, in file order.
    pub inputs: Vec<Input>,
    /// What else changed in the job file: people, purpose, assumptions, comments.
    pub others: Vec<Input>,
    /// Reasons of the revision table that speak of none of them.
    pub reasons: Vec<Reason>,
    /// Steps in which the inputs were taken over, each with the indices of its inputs. Several stand together where one is not valid
    /// without the other.
    pub steps: Vec<Vec<usize>>,
    /// Why the ratios were not walked from old to new; empty where they were.
    pub not_walked: String,
    /// Members of both issues whose results changed: new failures first, then job order.
    pub changed: Vec<ChangedMember>,
    /// Marks of members of both issues with the same results, in job order.
    pub unchanged: Vec<String>,
    /// Marks that the former issue did not have.
    pub added: Vec<String>,
    /// Members that the former issue had, and this one has not.
    pub withdrawn: Vec<Withdrawn>,
    /// Rows of the former revision table that the job file no longer has, oldest first.
    pub kept_revisions: Vec<KeptRevision>,
    /// The former job file.
    #[serde(skip)]
    pub former_job: String,
    /// The former results, as they were attached.
    #[serde(skip)]
    pub former_results: Vec<u8>,
}

/// An issue of a job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Issued {
    /// Its revision.
    pub revision: String,
    /// Its date.
    pub date: String,
    /// Fingerprint of its job file.
    pub job: String,
    /// Name and version of the program that made it.
    pub program: String,
}

/// An input that changed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Input {
    /// Where it stands in the job file: `members.H1.spans.1`.
    pub path: String,
    /// The mark of its member; empty for what no member holds.
    pub mark: String,
    /// What it belongs to, as printed: `H1`, `area roof`, `basis`.
    pub of: String,
    /// The key, as printed: `span 1`, `load area roof: width`.
    pub item: String,
    /// What stood there; none: nothing.
    pub former: Option<String>,
    /// What stands there now; none: nothing.
    pub now: Option<String>,
    /// The reason that the revision table gives; may be empty.
    pub why: String,
    /// Who wanted it; may be empty.
    pub who: String,
}

/// A reason that stands with the revision.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Reason {
    /// What was changed, in the engineer's words.
    pub of: String,
    /// Why.
    pub why: String,
    /// Who wanted it.
    pub who: String,
}

/// A member whose results changed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChangedMember {
    /// Its mark.
    pub mark: String,
    /// Whether something changed under its own keys.
    pub own: bool,
    /// How the change came to it where its own keys are as they were: chains that begin where something was changed and end before this
    /// member, such as `area roof`, `R1`.
    pub chains: Vec<Vec<String>>,
    /// What governed, and its ratio.
    pub former: Governed,
    /// What governs now.
    pub now: Governed,
    /// From the former ratio to the present one, a part a cause that moved it; empty where the walk was not made.
    pub parts: Vec<Part>,
    /// Largest ratio of each kind of check that changed.
    pub checks: Vec<ChangedCheck>,
    /// Reactions that changed.
    pub reactions: Vec<ChangedReaction>,
}

/// What governs a member in an issue.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Governed {
    /// Check.
    pub check: String,
    /// Combination.
    pub combination: String,
    /// Ratio.
    pub ratio: f64,
    /// The verdict on the member.
    pub verdict: Verdict,
}

impl Governed {
    /// Whether a check governs; none does where nothing was checked.
    pub fn is_governed(&self) -> bool {
        is_check(&self.check)
    }
}

/// Whether a name of a governing check is one; `none` stands where nothing was checked.
pub fn is_check(name: &str) -> bool {
    name != Governing::NONE
}

/// What moved a ratio.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Cause {
    /// A step: its index.
    Step(usize),
    /// The former issue was made by another version of the program, which finds something else from the same job file.
    Program,
}

/// A part of the way from the former ratio to the present one.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Part {
    /// What moved it.
    pub cause: Cause,
    /// The governing ratio after it.
    pub ratio: f64,
    /// The check that governs after it.
    pub check: String,
}

/// The largest ratio of a kind of check, then and now.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChangedCheck {
    /// The kind.
    pub check: String,
    /// Then; none: it did not apply.
    pub former: Option<f64>,
    /// Now; none: it does not apply.
    pub now: Option<f64>,
}

/// A reaction, then and now.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChangedReaction {
    /// Support, from 1.
    pub support: usize,
    /// Load case.
    pub case: String,
    /// Then; none: no such support or case.
    pub former: Option<Value>,
    /// Now.
    pub now: Option<Value>,
    /// Who receives it now, or received it.
    pub received_by: String,
    /// What that is, as in [`super::Reaction::receiver`].
    pub receiver: String,
}

/// A member that is no more.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Withdrawn {
    /// Its mark, which is not used again.
    pub mark: String,
    /// What it was.
    pub role: String,
    /// Its section.
    pub section: String,
}

/// A row of a former revision table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct KeptRevision {
    /// Its mark.
    pub mark: String,
    /// Its date.
    pub date: String,
    /// What it was about; may be empty.
    pub note: String,
}

impl Reissue {
    /// The results of a member that changed.
    pub fn changed(&self, mark: &str) -> Option<&ChangedMember> {
        self.changed.iter().find(|member| member.mark == mark)
    }

    /// Whether the sheet of a mark differs from the one that was issued: its own keys, its results, or all of it.
    pub fn touches(&self, mark: &str) -> bool {
        self.changed(mark).is_some() || self.added.iter().any(|m| m == mark) || self.inputs.iter().any(|input| input.mark == mark)
    }
}
