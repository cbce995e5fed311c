//! The rows of a code's list of checks.

use super::{CheckAbout, Worked};
use crate::equation::Step;

/// A check: what it is, the letters of its two sides, and its function at both speeds.
pub(super) struct Check<Plain, Traced> {
    /// What it is.
    pub about: CheckAbout,
    /// Letters of the demand: the first that has a line is meant.
    pub demand: &'static [&'static str],
    /// Letters of the capacity, likewise.
    pub capacity: &'static [&'static str],
    /// On plain numbers.
    pub ratio: Plain,
    /// On a pen.
    pub worked: Traced,
}

impl<Plain, Traced> Check<Plain, Traced> {
    /// The check with the lines that its function wrote.
    pub fn written(&self, steps: Vec<Step>, remarks: Vec<String>) -> Worked {
        let side = |letters: &[&'static str]| {
            let has_line = |letter: &&&str| steps.iter().any(|step| step.symbol == ***letter);
            letters.iter().find(has_line).or(letters.first()).copied().unwrap_or_default()
        };
        Worked { demand: side(self.demand), capacity: side(self.capacity), steps, remarks }
    }
}

/// A list of checks, a row each: its function, its name in the results and what tells it from another of that name, its clause, the places
/// where it is made, the letters of demand and capacity. In front stands what the functions of the list are given.
///
/// A function is generic over a trace, which no function pointer is: the row takes it twice, once for each speed.
macro_rules! checks {
    ($given:tt: $($function:path: $name:literal $(($what:literal))?, $clause:literal, $places:ident, $demand:tt / $capacity:tt $(, $when:ident)?;)*) => {
        &[$($crate::codes::check::Check {
            about: $crate::codes::CheckAbout {
                name: $name,
                what: concat!($($what)?),
                clause: $clause,
                places: $crate::codes::Places::$places,
                only_failing: checks!(@only_failing $($when)?),
            },
            demand: &$demand,
            capacity: &$capacity,
            ratio: checks!(@call $given $function),
            worked: checks!(@call $given $function),
        }),*]
    };
    (@call ($($given:ident),*) $function:path) => { |$($given),*| $function($($given),*) };
    (@only_failing) => { false };
    (@only_failing only_failing) => { true };
}
pub(super) use checks;
