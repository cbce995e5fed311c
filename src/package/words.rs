//! The words of the package: names of checks and cases, and the sentences made of them.

use crate::results::{Check, Results};

/// Checks in the order in which tables list them.
const CHECKS: &[(&str, &str)] = &[
    ("bending", "bending"),
    ("biaxial_bending", "bending about both axes"),
    ("shear", "shear"),
    ("notch", "notch"),
    ("bearing", "bearing"),
    ("deflection", "deflection"),
    ("tension", "tension"),
    ("compression", "compression"),
    ("bending_and_compression", "bending and compression"),
    ("bending_and_tension", "bending and tension"),
    ("stability", "stability"),
    ("slenderness", "slenderness"),
    ("vibration", "vibration"),
];

/// The name of a check in a sentence.
pub(super) fn check(name: &str) -> String {
    CHECKS.iter().find(|(known, _)| *known == name).map_or_else(|| name.replace('_', " "), |(_, words)| (*words).to_owned())
}

/// A check by its name and what tells it from another of that name: `bearing, end grain`.
pub(super) fn named(of: &Check) -> String {
    let name = check(&of.check);
    if of.what.is_empty() { name } else { format!("{name}, {}", of.what) }
}

/// Where a check stands in tables.
pub(super) fn rank(name: &str) -> usize {
    CHECKS.iter().position(|(known, _)| *known == name).unwrap_or(CHECKS.len())
}

/// A sentence begins with a capital.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The letter of a load case by its name, as the code has it; an engineer's own case keeps its name.
pub(super) fn case<'a>(results: &'a Results, name: &'a str) -> &'a str {
    results.cases.iter().find(|case| case.name == name).map_or(name, |case| case.letter.as_str())
}

/// Where a case stands among the cases of a job.
pub(super) fn case_rank(results: &Results, name: &str) -> usize {
    results.cases.iter().position(|case| case.name == name).unwrap_or(usize::MAX)
}

/// `a`, `a and b`, `a, b and c`.
pub(super) fn list(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

/// What stands before and after a value of a table's column that is no symbol: the standard's words for it.
pub(super) const COLUMNS: &[(&str, &str, &str)] = &[
    ("live", "live load: L/", ""),
    ("snow_or_wind", "snow or wind: L/", ""),
    ("total", "dead and live load: L/", ""),
    ("instant", "instantaneous: l/", ""),
    ("final", "final: l/", ""),
    ("net_final", "net final: l/", ""),
    ("least", "at least ", " of the load"),
    ("lowest", "not below ", ""),
    ("whole", "unreduced ", ""),
    ("slenderness", "slenderness at most ", ""),
    ("slenderness_construction", "during construction at most ", ""),
    ("root", "exponent 1/", ""),
    ("exponent", "exponent ", ""),
    ("most", "at most ", ""),
    ("depth_reference", "depth below ", " mm"),
    ("added", "length added ", " mm"),
    ("damping", "damping ratio ", ""),
    ("hertz_above", "frequency above ", " Hz"),
    ("end_least", "ends at least ", " dia."),
    ("end_most", "ends at most ", " dia."),
    ("spacing_least", "in a row at least ", " dia."),
    ("spacing_plies", "in a row at most ", " ply"),
    ("rows_least", "rows at least ", " dia."),
    ("rows_most", "rows at most ", " dia."),
    ("edge_least", "edges at least ", " dia."),
    ("edge_most", "edges at most ", " dia."),
    ("two_rows_plies", "two rows over ", " ply"),
    ("into_last", "into the last ply ", ""),
];

/// Names of tables' rows that are written otherwise in a job file.
pub(super) const ROWS: &[(&str, &str)] = &[
    ("ten-years", "ten years"),
    ("two-months", "two months"),
    ("seven-days", "seven days"),
    ("ten-minutes", "ten minutes"),
    ("interior-column", "interior column"),
    ("exterior-column", "exterior column without cantilever slab"),
    ("edge-column", "edge column with cantilever slab"),
    ("corner-column", "corner column with cantilever slab"),
    ("interior-beam", "interior beam"),
    ("edge-beam", "edge beam without cantilever slab"),
    ("nonplaster", "ceiling not of plaster"),
    ("plaster", "ceiling of plaster"),
    ("none", "no ceiling"),
    ("one", "members of one floor"),
    ("two or more", "members of two or more floors"),
];

/// A number up to twelve in words.
pub(super) fn count(n: usize) -> String {
    const WORDS: [&str; 13] = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    WORDS.get(n).map_or_else(|| n.to_string(), |word| (*word).to_owned())
}

/// `one member`, `three members`.
pub(super) fn counted(n: usize, thing: &str) -> String {
    if n == 1 { format!("one {thing}") } else { format!("{} {thing}s", count(n)) }
}

/// Where an entry of the register comes from, as printed.
pub(super) fn origin(from: &str) -> String {
    match from.strip_prefix("reading ") {
        Some(number) => format!("rule {number}"),
        None if from == "job" => "job file".to_owned(),
        None => from.to_owned(),
    }
}

/// In the place of a check where none was made.
pub(super) const NO_CHECK: &str = "no check";

/// The short caution that stands on every page.
pub(super) const CAUTION_LINE: &str =
    "Calculation aid. The engineer of record answers for input, assumptions, what was not checked, and the code in force at the site.";

/// The caution of the cover.
pub(super) const CAUTION: &str = "A calculation aid. The engineer of record is responsible for input, assumptions, what was not checked, \
    and conformity with the code in force where the building stands; local codes and the licensed professional have the last word. \
    Nothing is sealed until a person seals it.";
