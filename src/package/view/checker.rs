//! An independent checker's numbers beside ours.

use super::{Scene, sheet_label};
use crate::job::model::{Amount, CheckerNumber};
use crate::package::markup::{Markup, literal};
use crate::package::{printing, words};
use crate::results::{Check, Side, worst};
use crate::units::{UNITS, decimals, figures};
use serde::Serialize;

/// Two results side by side.
#[derive(Debug, Serialize)]
pub(in crate::package) struct SideBySide {
    sentence: Markup,
    by: String,
    /// The column of marks, in points.
    marks: f64,
    rows: Vec<Row>,
    largest: String,
    not_compared: Markup,
}

#[derive(Debug, Serialize)]
struct Row {
    mark: Markup,
    check: String,
    combination: Markup,
    demands: [String; 2],
    capacities: [String; 2],
    ratios: [String; 2],
    difference: String,
    /// One of the two passes and the other fails.
    apart: bool,
    remark: String,
}

impl SideBySide {
    /// None where nobody checked independently.
    pub(super) fn of(scene: &Scene) -> Option<Self> {
        let checker = scene.job.checker.as_ref()?;
        let rows: Vec<Row> = checker.numbers.iter().map(|number| row(scene, number)).collect();
        let apart: Vec<String> = checker
            .numbers
            .iter()
            .zip(&rows)
            .filter(|(_, row)| row.apart)
            .map(|(number, _)| format!("{} in {}", number.mark.value, words::check(number.check)))
            .collect();
        let verdict = if apart.is_empty() {
            "No number of one passes where the other fails.".to_owned()
        } else {
            format!("One passes and the other fails: {}.", words::list(&apart))
        };
        let means = checker.means.as_ref().map(|means| format!(", by {means}")).unwrap_or_default();
        let missing: Vec<String> = scene
            .results
            .members
            .iter()
            .filter(|m| m.is_governed() && !checker.numbers.iter().any(|n| n.mark.value == m.mark && n.check == m.governing.check))
            .map(|m| m.mark.clone())
            .collect();
        let not_compared = if missing.is_empty() {
            "The governing check of every member has a number of the checker.".to_owned()
        } else {
            format!("No number of the checker for the governing check of {}.", words::list(&missing))
        };
        let unchecked: Vec<String> = scene.results.members.iter().filter(|m| m.verdict.is_not_checked()).map(|m| m.mark.clone()).collect();
        let unchecked = if unchecked.is_empty() { String::new() } else { format!(" Not checked here: {}.", words::list(&unchecked)) };
        let apart_by = |n: &CheckerNumber| Some((n.ratio.value() - ours(scene, n)?.ratio).abs());
        let largest = checker.numbers.iter().filter_map(|n| Some((n, apart_by(n)?))).reduce(|a, b| if b.1 > a.1 { b } else { a });
        Some(Self {
            sentence: scene.lexicon.set(&verdict),
            marks: scene.marks(),
            by: format!("{}, {}{means}", checker.by, checker.date),
            rows,
            largest: largest.map_or_else(String::new, |(number, by)| {
                format!("{}, {} in {}", decimals(by, 3), number.mark.value, words::check(number.check))
            }),
            not_compared: scene.lexicon.set(&format!("{not_compared}{unchecked}")),
        })
    }
}

/// Our check of that kind: under the combination that the checker names, else the worst.
fn ours<'a>(scene: &Scene<'a>, number: &CheckerNumber) -> Option<&'a Check> {
    let member = scene.results.member(&number.mark.value)?;
    let same = || member.checks.iter().filter(|check| check.check == number.check);
    let named = number.combination.as_ref().and_then(|name| same().find(|check| check.combination == *name));
    named.or_else(|| worst(same()))
}

fn row(scene: &Scene, number: &CheckerNumber) -> Row {
    let check = ours(scene, number);
    let theirs = number.ratio.value();
    let difference = check.map(|check| theirs - check.ratio);
    let none = || "–".to_owned();
    let sides = |ours: Option<&Side>, theirs: Option<&Amount>| {
        let unit = ours.map(|side| side.unit.as_str()).unwrap_or_default();
        [
            ours.map_or_else(none, |side| with_unit(scene, side.value, &side.unit)),
            theirs.map_or_else(none, |amount| in_ours(scene, amount, unit)),
        ]
    };
    Row {
        mark: Markup::ours(format!("#to({}, strong({}));", literal(&sheet_label(&number.mark.value)), literal(&number.mark.value))),
        check: words::check(number.check),
        combination: scene.lexicon.set(check.map_or("not found", |check| check.combination.as_str())),
        demands: sides(check.map(|c| &c.demand), number.demand.as_ref()),
        capacities: sides(check.map(|c| &c.capacity), number.capacity.as_ref()),
        ratios: [check.map_or_else(none, |check| decimals(check.ratio, 3)), decimals(theirs, 3)],
        difference: difference.map_or_else(none, |d| format!("{}{}", if d < 0.0 { "−" } else { "+" }, decimals(d.abs(), 3))),
        apart: check.is_some_and(|check| printing::fails(check.ratio) != printing::fails(theirs)),
        remark: number.remark.clone().unwrap_or_default(),
    }
}

fn with_unit(scene: &Scene, value: f64, unit: &str) -> String {
    format!("{} {unit}", scene.printing.number(&figures(value, 4))).trim_end().to_owned()
}

/// The checker's amount in the unit of ours; as it was written where the two are not of one kind.
fn in_ours(scene: &Scene, amount: &Amount, unit: &str) -> String {
    match UNITS.iter().find(|known| known.name == unit) {
        Some(known) if known.kind == amount.kind => with_unit(scene, known.number(amount.value), unit),
        _ => amount.text.clone(),
    }
}
