//! What the index says of an issue.

use super::Error;
use crate::pdf::{self, Stamp};
use crate::results::Verdict;
use crate::results::{self, Results};
use crate::text::on_one_line;
use serde::{Deserialize, Serialize};
use std::fmt::Write as _;

/// An issue in the index. Fields may be added; a reader passes over those that it does not know.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Entry {
    /// Job number; empty if the job has none.
    pub number: String,
    /// Revision.
    pub revision: String,
    /// Title of the job.
    pub title: String,
    /// Date of the issue.
    pub date: String,
    /// The package must be kept until this day; none: not known.
    pub keep_until: Option<String>,
    /// Code.
    pub code: String,
    /// Edition of the wood standard.
    pub edition: String,
    /// Method; may be empty.
    pub method: String,
    /// Loading standard.
    pub loading: String,
    /// Standards cited, in short.
    pub standards: Vec<String>,
    /// Name and version of the program that issued it.
    pub program: String,
    /// Hash of the job file.
    pub job: String,
    /// Hash of the package.
    pub package: String,
    /// Its file, from the archive's folder.
    pub file: String,
    /// Members, in job order.
    pub members: Vec<MemberInShort>,
    /// Cells of tables that were read.
    pub cells: Vec<Cell>,
    /// The copy that is stamped as replaced, where one is filed beside it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub superseded: Option<Superseded>,
}

/// A stamped copy of an issue.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Superseded {
    /// What the stamp says: `by 26-031 revision B of 2026-02-03`.
    pub says: String,
    /// Hash of the copy.
    pub package: String,
    /// Its file, from the archive's folder.
    pub file: String,
}

/// A member in the index.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(from = "Line")]
pub struct MemberInShort {
    /// Its mark.
    pub mark: String,
    /// What governs.
    pub check: String,
    /// The governing ratio; `null`: no finite ratio, it fails.
    #[serde(with = "crate::results::written")]
    pub ratio: f64,
    /// The verdict on it.
    pub verdict: Verdict,
}

/// A member as it stands in a line of the index: those filed before there were three verdicts say `passes`.
#[derive(Deserialize)]
struct Line {
    mark: String,
    check: String,
    #[serde(with = "crate::results::written")]
    ratio: f64,
    #[serde(default)]
    passes: bool,
    verdict: Option<Verdict>,
}

impl From<Line> for MemberInShort {
    fn from(Line { mark, check, ratio, passes, verdict }: Line) -> Self {
        Self { mark, check, ratio, verdict: verdict.unwrap_or(if passes { Verdict::Passes } else { Verdict::Fails }) }
    }
}

/// A cell in the index.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Cell {
    /// The table as printed.
    pub table: String,
    /// Row and column.
    pub cell: String,
    /// Standing of our copy: `read`, `from memory` …
    pub status: String,
    /// Marks of the members that used it.
    pub members: Vec<String>,
}

/// What is known of an issue beside its results.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Facts {
    /// Its date.
    pub date: String,
    /// Until when it must be kept, where that is known.
    pub keep_until: Option<String>,
}

/// What filing did.
#[derive(Clone, Debug, PartialEq)]
pub enum Filed {
    /// The package is filed now.
    Now(Entry),
    /// Its stamped copy is filed now, beside it.
    Stamped(Entry, Superseded),
    /// The same bytes were filed before.
    Before(Entry),
}

/// `sha256:…` of some bytes.
pub fn fingerprint(bytes: &[u8]) -> String {
    results::fingerprint(bytes)
}

impl Entry {
    /// The entry of a package.
    pub(super) fn of(bytes: &[u8], facts: &Facts) -> Result<Self, Error> {
        let files = pdf::attachments(bytes).map_err(Error::Unreadable)?;
        let attached = files.iter().find(|(name, _)| name == "results.json").ok_or(Error::NothingAttached)?;
        let results = Results::read(&attached.1).map_err(Error::Results)?;
        let package = fingerprint(bytes);
        let job = results.job;
        let members = results.members.into_iter().map(|m| MemberInShort {
            mark: m.mark,
            check: m.governing.check,
            ratio: m.governing.ratio,
            verdict: m.verdict,
        });
        let cells = results.references.into_iter().map(|r| Cell { table: r.table, cell: r.cell, status: r.status, members: r.members });
        Ok(Self {
            file: file(&job.number, &job.revision, &package),
            number: job.number,
            revision: job.revision,
            title: job.title,
            date: facts.date.clone(),
            keep_until: facts.keep_until.clone(),
            code: job.code,
            edition: job.edition,
            method: job.method,
            loading: job.loading,
            standards: results.standards.into_iter().map(|s| s.short).collect(),
            program: format!("{} {}", results.program.name, results.program.version),
            job: results.fingerprint.job,
            package,
            members: members.collect(),
            cells: cells.collect(),
            superseded: None,
        })
    }

    /// The entry with a stamped copy beside its package.
    pub(super) fn superseded(self, bytes: &[u8], stamp: &Stamp) -> (Self, Superseded) {
        let file = format!("{}-superseded.pdf", self.file.trim_end_matches(".pdf"));
        let copy = Superseded { says: stamp.small.clone(), package: fingerprint(bytes), file };
        (Self { superseded: Some(copy.clone()), ..self }, copy)
    }

    /// The largest governing ratio, and whose it is.
    pub fn fullest(&self) -> Option<&MemberInShort> {
        self.members.iter().max_by(|a, b| a.ratio.total_cmp(&b.ratio))
    }
}

/// Where a package goes; what is in a number must not lead out of the folder.
fn file(number: &str, revision: &str, package: &str) -> String {
    let plain = |text: &str| -> String {
        let text: String = text.chars().map(|c| if c.is_alphanumeric() || matches!(c, '-' | '_') { c } else { '-' }).collect();
        if text.is_empty() { "unnumbered".to_owned() } else { text }
    };
    let hash = package.trim_start_matches("sha256:").get(..8).unwrap_or_default();
    format!("packages/{0}/{0}-{1}-{hash}.pdf", plain(number), plain(revision))
}

/// The index as a table for people.
pub(super) fn table(entries: &[Entry]) -> String {
    let header =
        ["Job", "Rev", "Date", "Superseded", "Keep until", "Edition", "Members", "Highest ratio", "Program", "Title"].map(str::to_owned);
    let row = |entry: &Entry| {
        let unchecked = entry.members.iter().filter(|m| m.verdict.is_not_checked()).count();
        let unchecked = if unchecked > 0 { format!(", {unchecked} {}", Verdict::NotChecked.mark()) } else { String::new() };
        let fullest = entry.fullest().map(|m| format!("{:.3} {}{unchecked}", m.ratio, m.mark)).unwrap_or_default();
        [
            entry.number.clone(),
            entry.revision.clone(),
            entry.date.clone(),
            entry.superseded.as_ref().map(|copy| copy.says.clone()).unwrap_or_default(),
            entry.keep_until.clone().unwrap_or_else(|| "not known".to_owned()),
            entry.edition.clone(),
            entry.members.len().to_string(),
            fullest,
            entry.program.clone(),
            entry.title.clone(),
        ]
    };
    let shown = |cells: [String; 10]| cells.map(|cell| on_one_line(&cell));
    let rows: Vec<[String; 10]> = std::iter::once(header).chain(entries.iter().map(row).map(shown)).collect();
    let width = |i: usize| rows.iter().map(|row| row[i].chars().count()).max().unwrap_or_default();
    let widths: Vec<usize> = (0..10).map(width).collect();
    let mut text = String::new();
    for row in &rows {
        let mut line = String::new();
        for (cell, width) in row.iter().zip(&widths) {
            let _ = write!(line, "{cell:width$}  ");
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}
