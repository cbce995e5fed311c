//! Every ratio, demand, capacity, factor and reaction of the results stands on the pages as printed, read back in reading order.

use super::{CHECKED, SUBMITTAL, printed};
use latewood::results::{Member, Side};
use std::collections::BTreeSet;
use std::sync::LazyLock;

static PAGES: LazyLock<Vec<String>> = LazyLock::new(|| {
    let text = printed("pdftotext", "poppler-utils", &[], &SUBMITTAL, &["-"]);
    text.split('\u{c}').map(str::to_owned).collect()
});

/// The numbers on the pages of a part, by the id at the head of each; without signs and without commas between groups.
fn numbers(part: &str) -> BTreeSet<String> {
    let id = format!("{part}-");
    let head = |line: &str| line.strip_prefix(&id).is_some_and(|n| !n.is_empty() && n.chars().all(|c| c.is_ascii_digit()));
    let mut found = BTreeSet::new();
    for page in PAGES.iter().filter(|page| page.lines().any(head)) {
        for word in page.split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ','))) {
            found.insert(word.trim_matches(['.', ',']).replace(',', ""));
        }
    }
    assert!(found.len() > 20, "{part} has {} numbers", found.len());
    found
}

/// A number as it is looked for.
fn bare(printed: &str) -> String {
    printed.trim_start_matches(['-', '−']).replace(',', "")
}

/// Whole pounds, three significant figures at least.
fn pounds(force: f64) -> String {
    let places = if force < 1e-6 { 0 } else { (2 - libm::log10(force).floor() as i32).max(0) as usize };
    format!("{force:.places$}")
}

/// Two places, three close to one.
fn ratio(ratio: f64) -> String {
    if (0.995..=1.005).contains(&ratio) { format!("{ratio:.3}") } else { format!("{ratio:.2}") }
}

/// As the line of the check prints it, or as the table of deflections does: inches to the thousandth.
fn forms(member: &Member, check: &str, side: &Side) -> Vec<String> {
    let steps = member.checks.iter().filter(|c| c.leading && c.check == check).flat_map(|c| &c.steps);
    let mut forms: Vec<String> = steps.filter(|step| step.symbol == side.symbol).map(|step| bare(&step.printed)).collect();
    if check == "deflection" {
        forms.push(format!("{:.3}", side.value.abs()));
    }
    forms
}

#[test]
fn every_result_is_printed() {
    let path = numbers("Path");
    let mut count = 0;
    for member in &CHECKED.results.members {
        let sheet = numbers(&member.mark);
        let mut stands = |on: &BTreeSet<String>, forms: &[String], what: String| {
            assert!(forms.iter().any(|form| on.contains(form)), "{} {what}: {forms:?} is nowhere", member.mark);
            count += 1;
        };
        for check in member.checks.iter().filter(|check| check.leading) {
            stands(&sheet, &[ratio(check.ratio)], format!("{} ratio", check.check));
            for side in [&check.demand, &check.capacity] {
                stands(&sheet, &forms(member, &check.check, side), format!("{} {}", check.check, side.symbol));
            }
        }
        for row in &member.account.rows {
            for value in row.values.iter().filter(|value| value.chars().any(|c| c.is_ascii_digit())) {
                stands(&sheet, &[bare(value)], row.symbol.clone());
            }
        }
        for column in &member.account.columns {
            for value in [&column.reference, &column.adjusted].into_iter().filter(|value| value.chars().any(|c| c.is_ascii_digit())) {
                stands(&sheet, &[bare(value)], column.symbol.clone());
            }
        }
        for reaction in &member.reactions {
            let by_case = reaction.by_case.values().chain(reaction.handed_down.values()).chain(reaction.handed_down_smallest.values());
            for force in by_case.chain([&reaction.largest.force, &reaction.smallest.force]) {
                stands(&path, &[pounds(force.value.abs())], format!("reaction at support {}", reaction.support));
            }
        }
    }
    assert!(count >= 150, "{count} numbers were looked for");
}
