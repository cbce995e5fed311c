//! The results document: everything that was found, in the code's own units, enough to draw the whole package beside the job file.
//!
//! A public interface: versioned, described by [`schema`], written and read with serde. Physical values are [`Value`]s in the unit
//! they are shown in, rounded to ten figures so that last bits never show as a change.

mod document;
mod member;
mod open;
pub mod proof;
mod ratio;
mod register;
pub mod reissue;
mod schema;
mod sheet;
pub mod spans;
mod upgrade;

pub use document::{document, fingerprint, rounded};
pub(crate) use ratio::written;
pub use ratio::{fails, ratio, worst};
pub use reissue::Reissue;
pub use schema::schema;
pub use sheet::{
    Account, AccountColumn, AccountRow, Check, Deflection, Diagram, Envelope, Extreme, Governing, InCombination, Load, Material, Member,
    Other, Piece, Property, Reaction, Receiver, Reduced, Reserve, Section, Side,
};
pub use upgrade::upgraded;

use crate::codes;
pub use crate::codes::{Utilization, Verdict};
use crate::job::model::Job;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The version of the document's form.
pub const FORMAT: u32 = 2;

/// A number and its unit; the unit is empty for a ratio.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Value {
    /// The number, rounded to ten figures.
    pub value: f64,
    /// The unit.
    pub unit: String,
}

/// The whole document.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Results {
    /// [`FORMAT`].
    pub format: u32,
    /// What made it.
    pub program: Program,
    /// The job in short.
    pub job: JobInShort,
    /// Hash of the job file.
    pub fingerprint: Fingerprint,
    /// The verdict on the job: the worst of its members.
    pub verdict: Verdict,
    /// Sums of the build-ups.
    pub build_ups: Vec<BuildUp>,
    /// The combinations of the basis, then those that single members make of them: every combination that the document names.
    pub combinations: Vec<Combination>,
    /// Cells of tables that were read.
    pub references: Vec<Reference>,
    /// Standards cited.
    pub standards: Vec<Standard>,
    /// The assumption register.
    pub assumptions: Vec<Assumption>,
    /// What is open before the package can be sealed.
    pub open: Vec<OpenItem>,
    /// Unusual input, in file order.
    #[serde(default)]
    pub warnings: Vec<Warning>,
    /// Conditions of service that hold for the whole job, each in a few words: `dry`.
    pub conditions: Vec<String>,
    /// What a property of an account is called before its factors, and after them.
    #[serde(default)]
    pub value_names: [String; 2],
    /// Letters that the sheets use without a word beside them.
    #[serde(default)]
    pub letters: Vec<LetterMeaning>,
    /// Load cases, in the order of names and tables, with the code's letters for them.
    pub cases: Vec<LoadCase>,
    /// Members, in job order.
    pub members: Vec<Member>,
}

/// Letters and what they stand for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LetterMeaning {
    /// As said: `l u, l e`.
    pub words: String,
    /// As Typst math.
    pub typst: String,
    /// What they stand for.
    pub meaning: String,
}

/// The program that made a document.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Program {
    /// `latewood`.
    pub name: String,
    /// Its version.
    pub version: String,
}

impl Program {
    /// This program.
    pub fn this() -> Self {
        Self { name: env!("CARGO_PKG_NAME").to_owned(), version: env!("CARGO_PKG_VERSION").to_owned() }
    }
}

/// The job in short.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct JobInShort {
    /// Title.
    pub title: String,
    /// Number; empty if not given.
    pub number: String,
    /// Revision mark.
    pub revision: String,
    /// Date of the package: `2026-02-03`.
    #[serde(default)]
    pub date: String,
    /// `american`, `canadian`, `european`.
    pub code: String,
    /// Edition.
    pub edition: String,
    /// Method; empty where the code has only one.
    pub method: String,
    /// Loading standard.
    pub loading: String,
    /// `inch-pound` or `metric`: the units that the code prints in.
    pub units: String,
}

/// Hash of the job file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Fingerprint {
    /// `sha256:…` in hexadecimal.
    pub job: String,
}

/// The sum of a build-up.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BuildUp {
    /// Its name.
    pub name: String,
    /// The sum.
    pub sum: Value,
}

/// A combination of the basis, or one as it acts on single members.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Combination {
    /// Its name as printed.
    pub name: String,
    /// Its number in the loading standard, or empty.
    pub number: String,
    /// `strength`, `balance` (looked at for reactions alone) or `deflection`.
    #[serde(rename = "for")]
    pub purpose: String,
    /// Factors by case.
    pub factors: BTreeMap<String, f64>,
    /// Duration class in the code's words; empty where it depends on the member.
    pub duration: String,
    /// What the duration gives, as printed: `C_D 1.15`.
    pub duration_factor: String,
    /// Where it stands.
    pub reference: String,
    /// Marks of the members that take it so: without the cases that do not load them, or for their deflections. Absent: of the basis.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub members: Vec<String>,
}

/// A cell of a table that was read.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Reference {
    /// The table as printed.
    pub table: String,
    /// Row and column.
    pub cell: String,
    /// The row alone.
    pub row: String,
    /// The column alone.
    pub column: String,
    /// What was read.
    pub value: Value,
    /// `read`, `read in part`, `from memory`, `computed`.
    pub status: String,
    /// Where our copy of the cell was read, or why not.
    pub source: String,
    /// Marks of the members that used it.
    pub members: Vec<String>,
}

/// A standard cited.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Standard {
    /// As cited on the sheets.
    pub short: String,
    /// As cited where room is scarce.
    pub brief: String,
    /// Full title and edition.
    pub title: String,
    /// What it is used for.
    pub used_for: String,
    /// What the program holds and does not hold of this edition; may be empty.
    pub note: String,
}

/// An entry of the assumption register.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Assumption {
    /// `A-1`, `A-2` …
    pub id: String,
    /// What is assumed.
    pub text: String,
    /// `job`, `default` or `reading n`.
    pub from: String,
    /// Marks of the members that use it; empty: all.
    pub members: Vec<String>,
    /// Who has to confirm it; may be empty.
    pub confirm: String,
    /// Whether that is still to be done.
    pub open: bool,
}

/// Input that can be calculated and is probably a mistake.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Warning {
    /// What kind of warning it is: `long-span`.
    pub kind: String,
    /// What names it under `confirmed` in the job file.
    pub key: String,
    /// What is unusual, as a sentence.
    pub message: String,
    /// Its line in the job file, from 1.
    pub line: usize,
    /// Its column, from 1.
    pub column: usize,
    /// Marks of the members that it concerns; empty: the whole job.
    pub members: Vec<String>,
    /// Whether somebody confirmed that it is right.
    pub confirmed: bool,
    /// Who confirmed it, and when; empty where nobody did.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub confirmed_by: String,
}

/// Something open before the package can be sealed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OpenItem {
    /// `failure`, `not_checked`, `checker`, `assumption`, `deferred`, `comment`, `support`, `table`, `site`, `warning`.
    pub kind: String,
    /// What is open, as a sentence.
    pub text: String,
    /// Where to look: marks, assumption ids, or part of the package (`cover`, `basis`, `comments`, `references`).
    pub at: Vec<String>,
}

/// A load case of the job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LoadCase {
    /// Its name in the job file.
    pub name: String,
    /// The code's letter for it, as it stands in names of combinations; the engineer's own cases keep their names.
    pub letter: String,
    /// What it is.
    pub meaning: String,
    /// Whether it loads a member.
    pub acts: bool,
    /// Whether it may be absent from some of several spans.
    pub by_span: bool,
}

impl Results {
    /// Reads a document that was written before.
    ///
    /// # Errors
    /// In words: it is of a newer form than this program knows, or does not have the form that it says.
    pub fn read(json: &[u8]) -> Result<Self, String> {
        /// What holds in every form.
        #[derive(Deserialize)]
        struct Head {
            format: u32,
            program: Program,
        }
        let Head { format, program } = serde_json::from_slice(json).map_err(|why| why.to_string())?;
        if format > FORMAT {
            return Err(format!("written by {} {} in form {format}; this one knows form {FORMAT}", program.name, program.version));
        }
        if format == FORMAT {
            return serde_json::from_slice(json).map_err(|why| why.to_string());
        }
        let document = serde_json::from_slice(json).map_err(|why| why.to_string())?;
        serde_json::from_value(upgraded(document)).map_err(|why| why.to_string())
    }

    /// Leaves only these members, and of references, assumptions and open items those that concern them or the whole job.
    pub fn keep(&mut self, job: &Job, marks: &[String]) {
        let concerns = |members: &[String]| members.is_empty() || members.iter().any(|m| marks.contains(m));
        self.members.retain(|m| marks.contains(&m.mark));
        self.references.retain(|r| concerns(&r.members));
        self.assumptions.retain(|a| concerns(&a.members));
        self.warnings.retain(|w| concerns(&w.members));
        self.verdict = Verdict::of_all(self.members.iter().map(|m| m.verdict));
        if let Some(code) = codes::of(&job.basis) {
            self.open = open::items(code, job, self);
        }
    }

    /// How many members fail and how many are not checked, as it is told everywhere: `1 FAILS`, `2 NOT CHECKED`; nothing where all pass.
    pub fn tally(&self) -> Vec<String> {
        let count = |verdict: Verdict| self.members.iter().filter(|m| m.verdict == verdict).count();
        let failing = match count(Verdict::Fails) {
            0 => None,
            1 => Some("1 FAILS".to_owned()),
            n => Some(format!("{n} FAIL")),
        };
        let unchecked = Some(count(Verdict::NotChecked)).filter(|n| *n > 0).map(|n| format!("{n} NOT CHECKED"));
        failing.into_iter().chain(unchecked).collect()
    }

    /// The results of a member by its mark.
    pub fn member(&self, mark: &str) -> Option<&Member> {
        self.members.iter().find(|m| m.mark == mark)
    }
}
