//! Published cases, run through the whole program: job file in, results out.

use crate::results::proof::{Case, Figure, NotChecked};
use crate::results::{Check, Results, rounded};
use crate::text::Source;
use serde::Deserialize;

/// A file of cases.
#[derive(Deserialize)]
struct File {
    cases: Vec<Published>,
    /// Cases of the same sources that a job file cannot say, or that are not covered.
    #[serde(default)]
    not_expressed: Vec<NotExpressed>,
}

#[derive(Deserialize)]
struct Published {
    id: String,
    #[serde(default)]
    title: String,
    source: String,
    status: String,
    job: String,
    expect: Vec<Expected>,
}

#[derive(Deserialize)]
struct NotExpressed {
    id: String,
    reason: String,
}

#[derive(Deserialize)]
struct Expected {
    member: String,
    check: String,
    combination: String,
    symbol: String,
    value: f64,
    unit: String,
    tolerance: Tolerance,
    span: Option<usize>,
    support: Option<usize>,
    #[serde(default)]
    because: String,
}

/// In the unit of the value, or a percentage of it.
#[derive(Deserialize)]
#[serde(untagged)]
enum Tolerance {
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

/// Runs the cases of a file.
pub(super) fn run(code: &str, file: &str, text: &str, cases: &mut Vec<Case>, not_checked: &mut Vec<NotChecked>) {
    let read: File = match serde_yaml::from_str(text) {
        Ok(read) => read,
        Err(error) => {
            not_checked.push(NotChecked { what: format!("{code}/{file}"), reason: format!("the file cannot be read: {error}") });
            return;
        }
    };
    cases.extend(read.cases.into_iter().map(|published| case(code, published)));
    not_checked.extend(read.not_expressed.into_iter().map(|n| NotChecked { what: format!("published case {}", n.id), reason: n.reason }));
}

fn case(code: &str, published: Published) -> Case {
    let checked = match Source::read(published.id.as_str(), published.job.as_bytes()) {
        Ok(source) => crate::check(&source, true).map_err(|faults| told(&faults)),
        Err(refused) => Err(told(&[refused.1])),
    };
    let (figures, fault) = match checked {
        Ok(checked) => (published.expect.into_iter().map(|e| figure(&checked.results, e)).collect(), String::new()),
        Err(fault) => (Vec::new(), fault),
    };
    Case {
        id: published.id,
        code: code.to_owned(),
        title: published.title,
        source: published.source,
        status: published.status,
        fault,
        figures,
    }
}

fn told(faults: &[crate::text::Diagnostic]) -> String {
    faults.iter().map(|f| f.message.as_str()).collect::<Vec<_>>().join("; ")
}

/// A figure beside the line that computes it: the last with its letter, in the check that is named.
fn figure(results: &Results, expected: Expected) -> Figure {
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
        agrees: difference.is_some_and(|d| d.abs() <= tolerance),
        member: expected.member,
        check: expected.check,
        combination: expected.combination,
        place,
        symbol: expected.symbol,
        unit: expected.unit,
        expected: expected.value,
        computed,
        difference,
        tolerance: rounded(tolerance),
        because,
    }
}
