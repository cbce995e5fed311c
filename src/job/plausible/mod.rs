//! Input that can be calculated and is probably a mistake: warnings, each at its place in the file, open until somebody confirms it.
//!
//! A key names a warning with the value that it is about, so that a confirmation does not outlive a change of that value.

mod members;
mod path;
mod rows;
mod words;

use super::model::{ConfirmedWarning, Date, DeflectionLimit, DeflectionOf, Job, Limits, Placed, Spans};
use crate::table::Table;
use crate::text::{Diagnostic, Label, Severity, Span};
use crate::units::trimmed;
use std::sync::LazyLock;

static LIMITS: LazyLock<Table> = LazyLock::new(|| Table::embedded("limits.csv", include_str!("limits.csv")));

/// A warning about a job.
#[derive(Clone, Debug, PartialEq)]
pub struct Warning {
    /// What kind of warning it is: `long-span`.
    pub kind: &'static str,
    /// What names it under `confirmed`: the kind, the place and the value.
    pub key: String,
    /// What is unusual, as a sentence.
    pub text: String,
    /// What to write if it is a mistake.
    pub help: String,
    /// Its place in the file.
    pub span: Span,
    /// Marks of the members that it concerns; none: the whole job.
    pub members: Vec<String>,
    /// Who confirmed it, and when.
    pub confirmed: Option<(String, Date)>,
}

impl Warning {
    fn new(kind: &'static str, place: &str, text: String, help: &str, span: Span) -> Self {
        // A key can be written in a job file as it is: nothing in it means anything to YAML.
        let plain = |c: char| if matches!(c, ',' | ':' | '#' | '[' | ']' | '{' | '}' | '"' | '\'') { ' ' } else { c };
        let place: String = place.chars().map(plain).collect();
        let key = format!("{kind} {}", place.split_whitespace().collect::<Vec<_>>().join(" "));
        Self { kind, key, text, help: help.to_owned(), span, members: Vec::new(), confirmed: None }
    }

    fn of(mut self, members: &[&str]) -> Self {
        self.members = members.iter().map(|mark| (*mark).to_owned()).collect();
        self
    }

    /// The warning at its place, with what to write once it was looked into.
    pub fn diagnostic(&self) -> Diagnostic {
        let text = self.text.trim_end_matches('.').to_owned();
        let confirm = format!("if it is right, confirm it under `job`: `confirmed: [{{warning: {}, by: …, date: …}}]`", self.key);
        let diagnostic = Diagnostic::new(self.kind, Severity::Warning, text, Label::bare(self.span)).with_help(self.help.clone());
        if self.kind == UNUSED { diagnostic } else { diagnostic.with_help(confirm) }
    }
}

/// A confirmation of a warning that the job does not have.
const UNUSED: &str = "nothing-to-confirm";

/// The row of the deflection limit past which nothing is calculated.
pub(super) const LOOSEST: &str = "deflection limit, refused";

/// Limits given as lengths that are looser than any span of the member may have, and their places.
pub(super) fn too_loose(limits: &Limits, spans: &Spans) -> Vec<(String, Span)> {
    let longest = spans.spans.iter().map(|span| span.value.value()).fold(0.0, f64::max);
    let loose = |(of, given): &(Placed<DeflectionOf>, DeflectionLimit)| match given {
        DeflectionLimit::Length(length) if length.value() * limit(LOOSEST) > longest * (1.0 + 1e-9) => {
            Some((format!("L/{}", trimmed(longest / length.value(), 3)), of.span))
        }
        _ => None,
    };
    limits.0.iter().filter_map(loose).collect()
}

/// A value of the table in N, mm or without unit; a value that no row has is never reached.
pub(super) fn limit(of: &str) -> f64 {
    let row = LIMITS.rows().find(|row| row.name() == of);
    let value = row.and_then(|row| ["area_load", "length", "number"].into_iter().find_map(|column| row.base(column)));
    debug_assert!(value.is_some(), "no row for {of}");
    value.unwrap_or(f64::INFINITY)
}

/// All warnings about a job, in file order, those that are confirmed with who did.
pub(super) fn warnings(job: &Job) -> Vec<Warning> {
    let mut all = members::warnings(job);
    all.extend(rows::warnings(job));
    all.extend(path::warnings(job));
    for warning in &mut all {
        let known = job.about.confirmed_warnings.iter().find(|confirmed| confirmed.key.value == warning.key);
        warning.confirmed = known.map(|confirmed| (confirmed.by.clone(), confirmed.date));
    }
    let unused = |confirmed: &&ConfirmedWarning| !all.iter().any(|warning| warning.key == confirmed.key.value);
    let unused: Vec<Warning> = job.about.confirmed_warnings.iter().filter(unused).map(nothing_to_confirm).collect();
    all.extend(unused);
    all.sort_by(|a, b| (a.span, &a.key).cmp(&(b.span, &b.key)));
    all.dedup();
    all
}

fn nothing_to_confirm(confirmed: &ConfirmedWarning) -> Warning {
    let text = format!("The job has no warning `{}` to confirm.", confirmed.key.value);
    Warning::new(UNUSED, &confirmed.key.value, text, "take the entry out, or copy the key of the warning as it is now", confirmed.key.span)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_whole() {
        let table = Table::parse("limits.csv", include_str!("limits.csv")).unwrap_or_else(|fault| panic!("{fault}"));
        // 500 psf are 23.94 kPa, 60 ft are 18.288 m.
        assert!((limit("area load") * 1e3 - 23.940).abs() < 1e-3);
        assert!((limit("span") - 18_288.0).abs() < 1e-9);
        assert!(table.rows().all(|row| limit(&row.name()).is_finite()));
    }
}
