//! Load duration: C_D of ASD (NDS Table 2.3.2), λ of LRFD (Appendix N).

use super::{lookup, tables};
use crate::codes::{Combination, Read, Time};
use crate::job::model::{Basis, Case, Job, LoadCase, Member, Nature};
use crate::table::Row;

/// Duration classes as a job file writes them, longest first.
pub(super) static WORDS: &[&str] = &["permanent", "ten-years", "two-months", "seven-days", "ten-minutes", "impact", "long-term"];

/// What a live load may be of, as a job file writes it.
pub(super) static USE_CATEGORIES: &[&str] = &[OCCUPANCY, STORAGE];
const OCCUPANCY: &str = "occupancy";
const STORAGE: &str = "storage";
const IMPACT: &str = "impact";
const IMPACT_TREATED: &str = "impact treated";

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

/// The row of a class. NDS Table 2.3.2.
fn duration_row(class: &str) -> Option<Row<'static>> {
    tables::LOAD_DURATION.row(&[("duration", class)])
}

/// C_D of a class. NDS Table 2.3.2.
pub(super) fn duration_factor(class: &str) -> f64 {
    duration_row(class).and_then(|row| row.bare("C_D")).unwrap_or(f64::NAN)
}

/// Whether impact may load a member, by its own loads or down the load path, or by a combination of the engineer's own.
pub(super) fn is_of_impact(job: &Job, member: &Member) -> bool {
    let mut above = job.down_to(member);
    above.any(|one| job.own_cases(one).any(|case| class_of_case(&job.basis, case) == IMPACT))
        || job.basis.combinations.list.iter().any(|own| own.duration.as_ref().is_some_and(|word| word.value == IMPACT))
}

fn class_of_case(basis: &Basis, case: Case) -> &'static str {
    let own = &basis.cases[case.0];
    own.duration.as_ref().and_then(|d| class(&d.value)).unwrap_or_else(|| class_of(own.nature))
}

fn rank_of(class: &str) -> usize {
    WORDS.iter().position(|w| *w == class).unwrap_or(0)
}

/// A member's load duration in a combination: where its factor stands, and why there.
pub(super) struct Duration {
    row: Option<Row<'static>>,
    column: &'static str,
    because: String,
}

impl Duration {
    /// The factor with its reason.
    pub(super) fn time(self) -> Time {
        Time { factor: self.row.and_then(|row| row.bare(self.column)).unwrap_or(f64::NAN), because: self.because }
    }

    /// The cell.
    pub(super) fn read(&self) -> Option<Read> {
        self.row?.number(self.column).map(Read::plain)
    }
}

/// The duration part of a combination on a member that only `present` cases load; `treated`: with preservatives, which takes impact away.
///
/// ASD: the shortest of the cases present decides. LRFD: the combination's own factor while the case that it was written for is
/// present; else that of what is left: 0.6 for dead load alone, that of the live load with any other.
pub(super) fn of(basis: &Basis, lrfd: bool, combination: &Combination, present: &[(Case, f64)], treated: bool) -> Duration {
    let (class, of) = class_in(basis, combination, present);
    if lrfd {
        return effect(basis, combination, present, class, treated);
    }
    let because = match of {
        Some(case) => format!("{}: {}", basis.cases[case.0].name.replace('-', " "), spoken(class)),
        None => format!("{} as given in the job file", spoken(class)),
    };
    let (class, because) = match class {
        IMPACT if treated => ("ten-minutes", format!("{because}, but treated: ten minutes")),
        _ => (class, because),
    };
    Duration { row: duration_row(class), column: "C_D", because }
}

/// The class of load duration of a combination of which these cases are present, and the case that decides it; none where the duration
/// that the engineer gave it does.
///
/// What was given holds where all of the combination's cases act; else the longer of it and the duration of those that act (reading 53).
/// Dead load alone lasts, whatever the combination was written for.
pub(super) fn class_in(basis: &Basis, combination: &Combination, present: &[(Case, f64)]) -> (&'static str, Option<Case>) {
    let classes = present.iter().map(|(case, _)| (*case, class_of_case(basis, *case)));
    let (case, shortest) = classes.max_by_key(|(_, class)| rank_of(class)).unwrap_or((Nature::Dead.case(), "permanent"));
    let given = combination.duration.as_deref().and_then(class).filter(|_| !is_dead_alone(basis, present));
    match given {
        Some(given) if combination.complete || rank_of(given) < rank_of(shortest) => (given, None),
        _ => (shortest, Some(case)),
    }
}

/// The class of the shortest of a combination's cases.
pub(super) fn class_of_all(basis: &Basis, factors: &[(Case, f64)]) -> &'static str {
    let classes = factors.iter().map(|(case, _)| class_of_case(basis, *case));
    classes.max_by_key(|class| rank_of(class)).unwrap_or("permanent")
}

fn is_dead_alone(basis: &Basis, present: &[(Case, f64)]) -> bool {
    !present.iter().any(|(case, _)| basis.nature(*case) != Nature::Dead)
}

/// λ of a combination by its number, with all its cases.
pub(super) fn effect_of(basis: &Basis, number: &str, factors: &[(Case, f64)]) -> f64 {
    let row = lookup::time_effect(number, kind_of_live(basis, factors, false));
    row.and_then(|row| row.bare("lambda")).unwrap_or(f64::NAN)
}

/// What the live load of a combination is: storage if any of it is, impact if all of it is; impact on a treated member is capped (reading 64).
fn kind_of_live(basis: &Basis, factors: &[(Case, f64)], treated: bool) -> &'static str {
    let live = || factors.iter().map(|(case, _)| *case).filter(|case| basis.nature(*case) == Nature::Live);
    if live().any(|case| is_stored(&basis.cases[case.0])) {
        STORAGE
    } else if live().next().is_some() && live().all(|case| class_of_case(basis, case) == IMPACT) {
        if treated { IMPACT_TREATED } else { IMPACT }
    } else {
        OCCUPANCY
    }
}

/// Whether a case says that it is goods in store.
fn is_stored(case: &LoadCase) -> bool {
    case.use_category.as_ref().is_some_and(|word| word.value == STORAGE)
}

fn effect(basis: &Basis, combination: &Combination, present: &[(Case, f64)], class: &str, treated: bool) -> Duration {
    let row = |number: &str, live: &str, because: String| Duration { row: lookup::time_effect(number, live), column: "lambda", because };
    let kind = kind_of_live(basis, present, treated);
    if is_dead_alone(basis, present) {
        return row("1", kind, "dead load alone".to_owned());
    }
    if class == "permanent" {
        return row("1", kind, "permanent, says the job file".to_owned());
    }
    let number = if combination.own { "2" } else { combination.number.as_str() };
    let said = match kind {
        STORAGE => "live load of storage",
        IMPACT => "live load of impact",
        IMPACT_TREATED => "live load of impact, at most 1.0 on a treated member",
        _ => "",
    };
    let lateral = present.iter().any(|(case, _)| matches!(basis.nature(*case), Nature::Wind | Nature::Seismic));
    if !lateral && lookup::time_effect(number, kind).and_then(|r| r.bare("lambda")).is_none_or(|own| own == 1.0) {
        let because = if said.is_empty() { "no wind or earthquake on this member" } else { said };
        return row("2", kind, because.to_owned());
    }
    let because = if number == "2" && !said.is_empty() { said.to_owned() } else { format!("combination {}", combination.name) };
    row(number, kind, because)
}

/// A class as it is said.
pub(super) fn spoken(class: &str) -> String {
    class.replace('-', " ")
}
