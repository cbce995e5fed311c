//! The title block of a job: who, when, for what, what is left to others.

use super::{Date, Placed};

/// Title, people, dates, revisions: the `job` part of the file.
#[derive(Clone, Debug)]
pub struct About {
    /// Title of the job.
    pub title: String,
    /// Job number.
    pub number: Option<String>,
    /// Where the building stands.
    pub site: Option<String>,
    /// For whom.
    pub client: Option<String>,
    /// The office.
    pub firm: Option<String>,
    /// Who prepared the package.
    pub prepared_by: Option<String>,
    /// Who checked it.
    pub checked_by: Option<String>,
    /// When it was checked.
    pub checked_on: Option<Date>,
    /// The date of the package; everything dated in it is dated so.
    pub date: Date,
    /// What the package is issued for.
    pub issued_for: Purpose,
    /// Page size.
    pub paper: Paper,
    /// The mark of this revision.
    pub revision: String,
    /// All revisions, oldest first.
    pub revisions: Vec<Revision>,
    /// The engineer's own assumptions.
    pub assumptions: Vec<Assumption>,
    /// Parts left to others.
    pub deferred: Vec<Deferred>,
    /// Tables that somebody compared with the printed standard.
    pub confirmed: Vec<Confirmed>,
    /// Warnings that somebody looked into.
    pub confirmed_warnings: Vec<ConfirmedWarning>,
}

/// What a package is issued for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// For a building permit.
    Permit,
    /// For somebody's remarks.
    Review,
    /// For the record.
    Record,
}

impl Purpose {
    /// The word of the job file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Permit => "permit",
            Self::Review => "review",
            Self::Record => "record",
        }
    }
}

/// Page size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 8-1/2 × 11 in.
    Letter,
    /// 210 × 297 mm.
    A4,
}

/// A row of the revision table.
#[derive(Clone, Debug, PartialEq)]
pub struct Revision {
    /// Its mark.
    pub mark: String,
    /// Its date.
    pub date: Date,
    /// What it is about.
    pub note: String,
    /// Reasons: what was changed, why, by whom.
    pub changes: Vec<Change>,
}

/// A reason that stands with a revision.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// What was changed.
    pub of: String,
    /// Why.
    pub why: String,
    /// Who wanted it.
    pub who: String,
}

/// An assumption of the engineer's own.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumption {
    /// What is assumed.
    pub text: String,
    /// Who has to confirm it.
    pub confirm: Option<String>,
    /// Whether that is still to be done.
    pub open: bool,
    /// Marks it concerns; empty: all.
    pub members: Vec<String>,
}

/// A part left to others.
#[derive(Clone, Debug, PartialEq)]
pub struct Deferred {
    /// `X-1`, `X-2` …
    pub id: String,
    /// What is left.
    pub text: String,
    /// To whom.
    pub by: Option<String>,
}

/// A warning that somebody looked into and found right.
#[derive(Clone, Debug, PartialEq)]
pub struct ConfirmedWarning {
    /// Its key.
    pub key: Placed<String>,
    /// Who confirmed it.
    pub by: String,
    /// When.
    pub date: Date,
}

/// A table that somebody compared with the printed standard.
#[derive(Clone, Debug, PartialEq)]
pub struct Confirmed {
    /// Its name as the references page prints it.
    pub table: Placed<String>,
    /// Who compared it.
    pub by: String,
    /// When.
    pub date: Date,
}
