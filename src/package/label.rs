//! What a PDF of this program says of itself in a comment: which issue it is, and what it was made from.
//!
//! The comment stands before the digest, which covers it, in every copy; so `issue` can tell what it would write over without opening
//! attachments, which a submittal lacks.

use super::Build;
use crate::job::model::{Job, Purpose};
use crate::pdf::{self, Standing};
use crate::results::Results;
use serde::{Deserialize, Serialize};

/// Before the label in the comment.
const BEFORE: &str = "issue ";
/// Digits of the hashes: enough to tell two job files apart, not to stand against a forger.
const DIGITS: usize = 16;

/// Which document of an issue.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Document {
    /// The office's record.
    Record,
    /// The copy for the authority.
    Submittal,
    /// The checker's brief.
    CheckingBrief,
    /// The sheet that names a package by its hashes.
    AuthenticationSheet,
}

impl Document {
    /// Its name in a sentence.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Record => "record",
            Self::Submittal => "submittal",
            Self::CheckingBrief => "checking brief",
            Self::AuthenticationSheet => "authentication sheet",
        }
    }
}

impl From<Build> for Document {
    fn from(build: Build) -> Self {
        match build {
            Build::Record => Self::Record,
            Build::Submittal => Self::Submittal,
            Build::Checking => Self::CheckingBrief,
        }
    }
}

/// Which issue a PDF is, and what it was made from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct IssueLabel {
    /// Which document of the issue.
    pub document: Document,
    /// Job number; empty if the job has none.
    pub number: String,
    /// Title of the job, where it has no number.
    pub title: String,
    /// Revision.
    pub revision: String,
    /// What it is issued for: `permit`, `review` or `record`.
    pub issued_for: String,
    /// The first digits of the hash of the job file.
    pub job: String,
    /// The first digits of the hash of what was found for the members.
    pub results: String,
}

impl IssueLabel {
    /// The label of a document of a job.
    pub fn of(document: Document, job: &Job, results: &Results) -> Self {
        let short = |hash: &str| hash.trim_start_matches("sha256:").chars().take(DIGITS).collect();
        let number = results.job.number.clone();
        Self {
            document,
            title: if number.is_empty() { results.job.title.clone() } else { String::new() },
            number,
            revision: results.job.revision.clone(),
            issued_for: job.about.issued_for.word().to_owned(),
            job: short(&results.fingerprint.job),
            results: short(&pdf::sha256(&serde_json::to_vec(&results.members).unwrap_or_default())),
        }
    }

    /// The label that a PDF carries; none where it has none, as one of another program or of an earlier version. Where something was
    /// appended later it is that of what was issued.
    pub fn carried(bytes: &[u8]) -> Option<Self> {
        let issued = match pdf::standing(bytes) {
            Standing::Whole => bytes,
            Standing::Appended { to } => &bytes[..to],
            Standing::Altered | Standing::Missing => return None,
        };
        serde_json::from_str(pdf::note(issued)?.strip_prefix(BEFORE)?).ok()
    }

    /// As the comment of a file has it.
    pub(super) fn note(&self) -> Option<String> {
        Some(format!("{BEFORE}{}", serde_json::to_string(self).ok()?))
    }

    /// The same with another document of the same issue.
    #[must_use]
    pub fn with(self, document: Document) -> Self {
        Self { document, ..self }
    }

    /// Whether both are of the same revision of the same job.
    pub fn is_same_issue(&self, other: &Self) -> bool {
        (&self.number, &self.title, &self.revision) == (&other.number, &other.title, &other.revision)
    }

    /// Whether it is issued for review, so that it may be written over by a later one of the same revision.
    pub fn is_for_review(&self) -> bool {
        self.issued_for == Purpose::Review.word()
    }

    /// Job and revision in words.
    pub fn issue(&self) -> String {
        let named = if self.number.is_empty() { &self.title } else { &self.number };
        format!("job {named} revision {}", self.revision)
    }
}
