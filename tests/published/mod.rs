//! Published cases, run through the whole program: job file in, results out.

use serde::Deserialize;
use std::path::Path;

#[derive(Deserialize)]
struct Cases {
    cases: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    id: String,
    job: String,
    expect: Vec<Expected>,
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
    fn of(&self, value: f64) -> f64 {
        match self {
            Self::Absolute(by) => *by,
            Self::Relative(text) => value.abs() * text.trim_end_matches('%').trim().parse::<f64>().unwrap() / 100.0,
        }
    }
}

#[test]
fn every_published_figure_agrees() {
    for (code, least_cases, least_figures) in [("american", 20, 100), ("european", 15, 55)] {
        let (cases, figures) = agree(code);
        assert!(cases >= least_cases && figures >= least_figures, "{code}: {cases} cases, {figures} figures");
    }
}

/// Compares every figure of a code's cases; answers how many there were.
fn agree(code: &str) -> (usize, usize) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/codes").join(code).join("cases");
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|f| f.unwrap().path()).collect();
    files.sort();
    let (mut cases, mut figures, mut wrong) = (0, 0, Vec::new());
    for file in files {
        let all: Cases =
            serde_yaml::from_str(&std::fs::read_to_string(&file).unwrap()).unwrap_or_else(|e| panic!("{}: {e}", file.display()));
        for case in all.cases {
            cases += 1;
            let source = latewood::text::Source::read(case.id.clone(), case.job.as_bytes()).unwrap();
            let results = match latewood::check(&source, true) {
                Ok(checked) => checked.results,
                Err(faults) => {
                    wrong.push(format!("{}: {}", case.id, latewood::cli::snippet::render(&source, &faults, false)));
                    continue;
                }
            };
            for e in &case.expect {
                figures += 1;
                let member = results.member(&e.member).unwrap();
                let found = member
                    .checks
                    .iter()
                    .filter(|c| c.check == e.check && c.combination == e.combination)
                    .filter(|c| e.span.is_none_or(|s| c.span == Some(s)) && e.support.is_none_or(|s| c.support == Some(s)))
                    .flat_map(|c| c.steps.iter().rev().find(|s| s.symbol == e.symbol))
                    .next();
                match found {
                    None => wrong.push(format!("{}: {} {} under {}: no step {}", case.id, e.member, e.check, e.combination, e.symbol)),
                    Some(step) if step.unit != e.unit => wrong.push(format!("{}: {} in {}, not {}", case.id, e.symbol, step.unit, e.unit)),
                    Some(step) => {
                        if (step.value - e.value).abs() > e.tolerance.of(e.value) {
                            wrong.push(format!(
                                "{}: {} {} is {}, printed {} ({})",
                                case.id, e.check, e.symbol, step.value, e.value, e.because
                            ));
                        }
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{} of {figures} figures of {cases} cases:\n{}", wrong.len(), wrong.join("\n"));
    (cases, figures)
}
