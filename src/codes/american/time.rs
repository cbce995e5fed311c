//! Load duration: C_D of ASD (NDS Table 2.3.2), λ of LRFD (Appendix N).

use super::{lookup, tables};
use crate::codes::{Combination, Time};
use crate::job::model::{Basis, Case, Nature};

/// Duration classes as a job file writes them, longest first.
pub(super) static WORDS: &[&str] = &["permanent", "ten-years", "two-months", "seven-days", "ten-minutes", "impact", "long-term"];

/// The class of a duration word: `long-term` is ten years (reading 18).
pub(super) fn class(word: &str) -> Option<&'static str> {
    match word {
        "long-term" => Some("ten-years"),
        _ => WORDS.iter().copied().find(|known| *known == word),
    }
}

/// The class of a load of a nature. NDS Table 2.3.2.
fn class_of(nature: Nature) -> &'static str {
    let row = tables::DURATION_OF_LOADS.row(&[("case", nature.word())]);
    row.and_then(|row| row.text("duration")).and_then(class).unwrap_or("permanent")
}

/// C_D of a class. NDS Table 2.3.2.
pub(super) fn duration_factor(class: &str) -> f64 {
    tables::LOAD_DURATION.row(&[("duration", class)]).and_then(|row| row.number("C_D")).map_or(f64::NAN, |found| found.value)
}

fn class_of_case(basis: &Basis, case: Case) -> &'static str {
    let own = &basis.cases[case.0];
    own.duration.as_ref().and_then(|d| class(&d.value)).unwrap_or_else(|| class_of(own.nature))
}

/// The duration part of a combination on a member that only `present` cases load.
///
/// ASD: the shortest of the cases present decides. LRFD: the combination's own factor while the case that it was written for is
/// present; else that of what is left: 0.6 for dead load alone, 0.8 with any other.
pub(super) fn of(basis: &Basis, lrfd: bool, combination: &Combination, present: &[(Case, f64)]) -> Time {
    let shortest = (present.iter().map(|(case, _)| (*case, class_of_case(basis, *case))))
        .max_by_key(|(_, class)| WORDS.iter().position(|w| w == class))
        .unwrap_or((Nature::Dead.case(), "permanent"));
    if lrfd {
        return effect(basis, combination, present, shortest.1);
    }
    // Dead load alone lasts, whatever the engineer's combination was written for.
    let given = combination.duration.as_deref().and_then(class).filter(|_| !is_dead_alone(basis, present));
    if let Some(class) = given {
        return Time { factor: duration_factor(class), because: format!("{} as given in the job file", spoken(class)) };
    }
    let name = basis.cases[shortest.0.0].name.replace('-', " ");
    Time { factor: duration_factor(shortest.1), because: format!("{name}: {}", spoken(shortest.1)) }
}

/// The class of the shortest of a combination's cases.
pub(super) fn class_of_all(basis: &Basis, factors: &[(Case, f64)]) -> &'static str {
    let classes = factors.iter().map(|(case, _)| class_of_case(basis, *case));
    classes.max_by_key(|class| WORDS.iter().position(|w| w == class)).unwrap_or("permanent")
}

fn is_dead_alone(basis: &Basis, present: &[(Case, f64)]) -> bool {
    !present.iter().any(|(case, _)| basis.cases[case.0].nature != Nature::Dead)
}

fn effect(basis: &Basis, combination: &Combination, present: &[(Case, f64)], shortest: &str) -> Time {
    let has = |wanted: &[Nature]| present.iter().any(|(case, _)| wanted.contains(&basis.cases[case.0].nature));
    let own = combination.time.unwrap_or(lookup::time_effect("2"));
    if is_dead_alone(basis, present) {
        return Time { factor: lookup::time_effect("1"), because: "dead load alone".to_owned() };
    }
    let class = combination.duration.as_deref().and_then(class).unwrap_or(shortest);
    if class == "permanent" {
        return Time { factor: lookup::time_effect("1"), because: "permanent, says the job file".to_owned() };
    }
    if own >= 1.0 && !has(&[Nature::Wind, Nature::Seismic]) {
        return Time { factor: lookup::time_effect("2"), because: "no wind or earthquake on this member".to_owned() };
    }
    Time { factor: own, because: format!("combination {}", combination.name) }
}

/// A class as it is said.
pub(super) fn spoken(class: &str) -> String {
    class.replace('-', " ")
}
