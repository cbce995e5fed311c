//! Figures of handbooks: every entry of `checks.yaml`, which names source and status of each.
//!
//! What a job file can say goes through the whole program; what it cannot, through the function that the program itself calls. What
//! the program does not compute at all is told as not checked.

mod formulas;
mod jobs;

use super::cases::{self, Published};
use crate::results::proof::{Case, Figure, Kind, NotChecked};
use crate::results::rounded;
use serde::Deserialize;
use serde_yaml::Value;

/// An entry of the file.
#[derive(Deserialize)]
struct Entry {
    id: String,
    title: String,
    source: String,
    status: String,
    given: Value,
    expect: Value,
    tolerance: String,
}

/// How an entry is asked for.
enum Asked {
    /// Job files, each with its code.
    Jobs(Vec<(&'static str, Published)>),
    /// Functions of the program.
    Computed(Vec<Figure>),
    /// Not at all, and why.
    Not(&'static str),
}

/// Runs every entry of the file.
pub(super) fn run(into: &mut Vec<Case>, not_checked: &mut Vec<NotChecked>) {
    let entries: Vec<Entry> = serde_yaml::from_str(include_str!("checks.yaml")).expect("a list of entries");
    for entry in entries {
        if let Some(reason) = entry.left_out() {
            not_checked.push(NotChecked { what: format!("Handbook: {}, in part", entry.title), reason: reason.to_owned() });
        }
        match entry.asked() {
            Asked::Jobs(jobs) => into.extend(jobs.into_iter().map(|(code, published)| cases::case(code, published))),
            Asked::Computed(figures) => into.push(entry.case(figures)),
            Asked::Not(reason) => {
                not_checked.push(NotChecked { what: format!("Handbook: {}", entry.title), reason: reason.to_owned() });
            }
        }
    }
}

impl Entry {
    fn asked(&self) -> Asked {
        match self.id.as_str() {
            "hankinson-table" | "hankinson-exponent" | "size-factor-codes" => Asked::Jobs(jobs::of(self)),
            "density-nds-30pct" | "density-nds-table" | "self-weight" => Asked::Computed(formulas::weights(self)),
            "wood-handbook-table-9-1" => Asked::Computed(formulas::constants(self)),
            "shear-deflection-2x10" => Asked::Computed(formulas::shear(self)),
            "density-wood-handbook" => {
                Asked::Not("its specific gravity is on the volume at that moisture; members weigh by that of the NDS")
            }
            "moisture-red-pine" | "moisture-slash-pine" => {
                Asked::Not("clear wood at other moisture contents; lumber has its wet service factor")
            }
            "shrinkage-rp489" => Asked::Not("shrinkage is not computed"),
            "size-effect-record" | "beam-test-1909" => Asked::Not("a record of tests; nothing is computed from tests"),
            "size-effect-formula" => Asked::Not("size effect of clear wood; lumber has its size factor, glued timber its volume factor"),
            _ => Asked::Not("nothing asks for this entry"),
        }
    }

    /// The part of an entry that is not asked for.
    fn left_out(&self) -> Option<&'static str> {
        match self.id.as_str() {
            "hankinson-exponent" => Some("the exponent 1.5; the NDS and the Eurocode have 2"),
            "hankinson-table" => Some("no member bears at 0 degrees to the grain: that is the end grain's own check"),
            _ => None,
        }
    }

    /// A figure of the entry beside what was computed.
    fn figure(&self, symbol: &str, expected: f64, unit: &str, computed: f64) -> Figure {
        let tolerance = self.tolerance(expected);
        Figure {
            kind: self.kind(),
            member: String::new(),
            check: "handbook".to_owned(),
            combination: String::new(),
            place: String::new(),
            symbol: symbol.to_owned(),
            typst: String::new(),
            words: String::new(),
            unit: unit.to_owned(),
            expected,
            computed: Some(rounded(computed)),
            difference: Some(rounded(computed - expected)),
            tolerance: rounded(tolerance),
            agrees: (computed - expected).abs() <= tolerance,
            because: String::new(),
        }
    }

    /// What the file allows, in the unit of the value: a percentage, or half of the sixth figure where it says `exact`.
    fn tolerance(&self, value: f64) -> f64 {
        let percent = self.tolerance.split('%').next().and_then(|text| text.trim().parse::<f64>().ok());
        value.abs() * percent.map_or(5e-6, |percent| percent / 100.0)
    }

    fn kind(&self) -> Kind {
        match cases::kind(&self.status) {
            // The constants of the table are closed forms.
            Some(Kind::Published) if self.id == "wood-handbook-table-9-1" => Kind::ClosedForm,
            kind => kind.unwrap_or(Kind::FromMemory),
        }
    }

    fn case(&self, figures: Vec<Figure>) -> Case {
        Case {
            id: self.id.clone(),
            code: "handbook".to_owned(),
            title: self.title.clone(),
            source: self.source.clone(),
            kind: self.kind(),
            status: self.status.clone(),
            fault: if figures.is_empty() { "nothing is computed of this entry".to_owned() } else { String::new() },
            figures,
        }
    }

    /// A number of `expect`, or not a number, so that nothing agrees.
    fn expected(&self, path: &[&str]) -> f64 {
        number(&self.expect, path)
    }

    fn given(&self, path: &[&str]) -> f64 {
        number(&self.given, path)
    }
}

fn number(of: &Value, path: &[&str]) -> f64 {
    let found = path.iter().try_fold(of, |value, key| value.get(*key));
    found.and_then(Value::as_f64).unwrap_or(f64::NAN)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// An entry that nothing asks for, or a number that is not found, is a mistake of ours.
    #[test]
    fn every_entry_is_asked_for_or_told_why_not() {
        let (mut ran, mut not) = (Vec::new(), Vec::new());
        run(&mut ran, &mut not);
        assert_eq!((ran.len(), not.len()), (9, 9));
        assert!(not.iter().all(|n| n.reason != "nothing asks for this entry"), "{not:?}");
        assert!(ran.iter().flat_map(|case| &case.figures).all(|f| f.expected.is_finite()));
        assert!(ran.iter().all(|case| !case.figures.is_empty() && case.fault.is_empty()), "{ran:?}");
    }
}
