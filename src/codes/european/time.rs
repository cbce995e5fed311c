//! Duration classes and k_mod. EN 1995-1-1, 2.3.1.2 and 3.1.3.

use super::{national, tables};
use crate::codes::{Combination, Read, Time};
use crate::job::model::{Basis, Case, Nature};

/// Duration classes as a job file writes them, longest first.
pub(super) static WORDS: &[&str] = &["permanent", "long-term", "medium-term", "short-term", "instantaneous"];
/// All classes, with the one that some nations have for wind.
static CLASSES: &[&str] = &["permanent", "long-term", "medium-term", "short-term", "short-term to instantaneous", "instantaneous"];

/// The class of a duration word.
pub(super) fn class(word: &str) -> Option<&'static str> {
    WORDS.iter().copied().find(|known| *known == word)
}

fn class_of_case(basis: &Basis, case: Case) -> &'static str {
    let own = &basis.cases[case.0];
    let given = own.duration.as_ref().and_then(|d| class(&d.value));
    let by_table = || {
        let row = national::duration_of_case(basis, case);
        row.and_then(|row| row.text("duration")).and_then(|word| CLASSES.iter().copied().find(|known| *known == word))
    };
    given.or_else(by_table).unwrap_or("permanent")
}

fn rank(class: &str) -> usize {
    CLASSES.iter().position(|known| *known == class).unwrap_or(0)
}

/// The class of the shortest of a combination's cases, and that case.
fn shortest(basis: &Basis, factors: &[(Case, f64)]) -> (Case, &'static str) {
    let classes = factors.iter().filter(|(_, factor)| *factor != 0.0).map(|(case, _)| (*case, class_of_case(basis, *case)));
    classes.reduce(|best, next| if rank(next.1) > rank(best.1) { next } else { best }).unwrap_or((Nature::Dead.case(), "permanent"))
}

/// The class of a combination.
pub(super) fn class_of_all(basis: &Basis, factors: &[(Case, f64)]) -> &'static str {
    shortest(basis, factors).1
}

/// The class of load duration of a combination of which these cases are present, and the case that decides it; none where the duration
/// that the engineer gave it does.
///
/// What was given holds where all of the combination's cases act; else the longer of it and the duration of those that act (reading 53).
/// Permanent load alone lasts, whatever the combination was written for.
pub(super) fn class_in(basis: &Basis, combination: &Combination, present: &[(Case, f64)]) -> (&'static str, Option<Case>) {
    let (case, shortest) = shortest(basis, present);
    let permanent_alone = !present.iter().any(|(case, _)| basis.nature(*case) != Nature::Dead);
    let given = combination.duration.as_deref().and_then(class).filter(|_| !permanent_alone);
    match given {
        Some(given) if combination.complete || rank(given) < rank(shortest) => (given, None),
        _ => (shortest, Some(case)),
    }
}

/// k_mod of a material in a class; none where the table has no row.
pub(super) fn k_mod(material: &str, service_class: u8, class: &str) -> Option<(f64, Read)> {
    let service = service_class.to_string();
    let row = tables::K_MOD.row(&[("material", material), ("service_class", &service), ("duration", class)])?;
    let read = national::read(Some(&row), "k_mod")?;
    Some((read.value, read))
}

/// k_mod of a combination on a member that only `present` cases load: the shortest of them decides.
pub(super) fn of(basis: &Basis, material: &str, service_class: u8, combination: &Combination, present: &[(Case, f64)]) -> Time {
    let (class, of) = class_in(basis, combination, present);
    let because = match of {
        Some(case) => format!("{}: {class}", said(basis, case)),
        None => format!("{class} as given in the job file"),
    };
    let factor = k_mod(material, service_class, class).map_or(f64::NAN, |(factor, _)| factor);
    Time { factor, because: format!("{because}, service class {service_class}") }
}

/// A case as it is said.
fn said(basis: &Basis, case: Case) -> String {
    match basis.cases[case.0].name.as_str() {
        "dead" => "permanent load".to_owned(),
        "live" => "imposed load".to_owned(),
        "roof-live" => "imposed load on the roof".to_owned(),
        other => other.replace('-', " "),
    }
}
