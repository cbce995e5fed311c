//! Cases run through the whole program: job file in, results out.

use super::in_a_line;
use crate::results::proof::{Abbreviation, Case, Figure, Kind, NotChecked};
use crate::results::{Check, Results, rounded};
use crate::text::Source;
use serde::Deserialize;

/// A file of cases.
#[derive(Deserialize)]
struct File {
    /// What short names of sources stand for.
    #[serde(default)]
    abbreviations: Vec<Abbreviation>,
    cases: Vec<Published>,
    /// Cases of the same sources that a job file cannot say, or that are not covered.
    #[serde(default)]
    not_expressed: Vec<NotExpressed>,
}

#[derive(Deserialize)]
pub(super) struct Published {
    pub id: String,
    #[serde(default)]
    pub title: String,
    pub source: String,
    pub status: String,
    pub job: String,
    pub expect: Vec<Expected>,
}

#[derive(Deserialize)]
struct NotExpressed {
    id: String,
    reason: String,
}

#[derive(Deserialize)]
pub(super) struct Expected {
    pub member: String,
    pub check: String,
    pub combination: String,
    pub symbol: String,
    pub value: f64,
    pub unit: String,
    pub tolerance: Tolerance,
    pub span: Option<usize>,
    pub support: Option<usize>,
    #[serde(default)]
    pub because: String,
    /// How it stands, where that is not how its case stands: a figure of our own beside printed ones.
    pub status: Option<String>,
}

/// In the unit of the value, or a percentage of it.
#[derive(Deserialize)]
#[serde(untagged)]
pub(super) enum Tolerance {
    Absolute(f64),
    Relative(String),
}

impl Tolerance {
    /// In the unit of the value; nought where it is not a number, so that nothing agrees.
    fn of(&self, value: f64) -> f64 {
        match self {
            Self::Absolute(by) => *by,
            Self::Relative(text) => value.abs() * text.trim_end_matches('%').trim().parse::<f64>().unwrap_or(0.0) / 100.0,
        }
    }
}

/// What a status says stands behind a figure; none of a word that says neither.
pub(super) fn kind(status: &str) -> Option<Kind> {
    let says = |words: &str| status.contains(words);
    match status {
        _ if says("own arithmetic") || says("figures own") || says("own computation") => Some(Kind::OwnArithmetic),
        _ if says("memory") => Some(Kind::FromMemory),
        _ if status.starts_with("read") => Some(Kind::Published),
        _ => None,
    }
}

/// Runs the cases of a file; gives what its short names stand for.
pub(super) fn run(code: &str, file: &str, text: &str, cases: &mut Vec<Case>, not_checked: &mut Vec<NotChecked>) -> Vec<Abbreviation> {
    let read: File = match serde_yaml::from_str(text) {
        Ok(read) => read,
        Err(error) => {
            not_checked.push(NotChecked { what: format!("{code}/{file}"), reason: format!("the file cannot be read: {error}") });
            return Vec::new();
        }
    };
    cases.extend(read.cases.into_iter().map(|published| case(code, published)));
    not_checked.extend(read.not_expressed.into_iter().map(|n| NotChecked { what: format!("published case {}", n.id), reason: n.reason }));
    read.abbreviations
}

/// Runs one case.
pub(super) fn case(code: &str, published: Published) -> Case {
    let stands = kind(&published.status);
    let checked = match Source::read(published.id.as_str(), published.job.as_bytes()) {
        Ok(source) => crate::check(&source, true).map_err(|faults| in_a_line(&faults)),
        Err(refused) => Err(in_a_line(&[refused.1])),
    };
    let of_case = stands.unwrap_or(Kind::FromMemory);
    let (figures, mut fault) = match checked {
        Ok(checked) => (published.expect.into_iter().map(|e| figure(&checked.results, e, of_case)).collect(), String::new()),
        Err(fault) => (Vec::new(), fault),
    };
    if stands.is_none() {
        fault = format!("its status says nothing of where its figures come from: `{}`", published.status);
    }
    Case {
        id: published.id,
        code: code.to_owned(),
        kind: of_case,
        title: published.title,
        source: published.source,
        status: published.status,
        fault,
        figures,
    }
}

/// A figure beside the line that computes it: the last with its letter, in the check that is named.
fn figure(results: &Results, expected: Expected, of_case: Kind) -> Figure {
    let wanted = |c: &&Check| {
        c.check == expected.check
            && c.combination == expected.combination
            && expected.span.is_none_or(|s| c.span == Some(s))
            && expected.support.is_none_or(|s| c.support == Some(s))
    };
    let checks = results.member(&expected.member).map(|m| m.checks.as_slice()).unwrap_or_default();
    let step = checks.iter().filter(wanted).find_map(|c| c.steps.iter().rev().find(|s| s.symbol == expected.symbol));
    let computed = step.filter(|s| s.unit == expected.unit).map(|s| rounded(s.value));
    let tolerance = expected.tolerance.of(expected.value);
    let difference = computed.map(|c| rounded(c - expected.value));
    let place = match (expected.span, expected.support) {
        (Some(span), _) => format!("span {span}"),
        (_, Some(support)) => format!("support {support}"),
        _ => String::new(),
    };
    let because = match step {
        None => "no line of the check has this letter".to_owned(),
        Some(step) if step.unit != expected.unit => format!("computed in {}", step.unit),
        Some(_) => expected.because,
    };
    Figure {
        kind: expected.status.as_deref().map_or(of_case, |status| kind(status).unwrap_or(Kind::FromMemory)),
        agrees: difference.is_some_and(|d| d.abs() <= tolerance),
        member: expected.member,
        check: expected.check,
        combination: expected.combination,
        place,
        symbol: expected.symbol,
        typst: step.map(|s| s.typst.clone()).unwrap_or_default(),
        words: step.map(|s| s.words.clone()).unwrap_or_default(),
        unit: expected.unit,
        expected: expected.value,
        computed,
        difference,
        tolerance: rounded(tolerance),
        because,
    }
}
