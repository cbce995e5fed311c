//! The kinds of checks, and the rows of a code's list of them.

use super::Places;
use crate::equation::Step;

/// The kinds of checks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Kind {
    Bending,
    BiaxialBending,
    Shear,
    Notch,
    Bearing,
    Deflection,
    Tension,
    Compression,
    BendingAndCompression,
    BendingAndTension,
    Stability,
    Slenderness,
    Vibration,
}

impl Kind {
    /// Whether it compares a strength with a demand; the others are limits of service or of slenderness.
    pub const fn is_strength(self) -> bool {
        !matches!(self, Self::Deflection | Self::Vibration | Self::Slenderness)
    }

    /// Its name in the results.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Bending => "bending",
            Self::BiaxialBending => "biaxial_bending",
            Self::Shear => "shear",
            Self::Notch => "notch",
            Self::Bearing => "bearing",
            Self::Deflection => "deflection",
            Self::Tension => "tension",
            Self::Compression => "compression",
            Self::BendingAndCompression => "bending_and_compression",
            Self::BendingAndTension => "bending_and_tension",
            Self::Stability => "stability",
            Self::Slenderness => "slenderness",
            Self::Vibration => "vibration",
        }
    }
}

/// A row of a code's list of checks.
#[derive(Clone, Copy, Debug)]
pub struct CheckAbout {
    /// Its kind, by which it goes in the results.
    pub kind: Kind,
    /// What tells it from another check of its kind on the same member, in words: `end grain`; empty where nothing has to.
    pub what: &'static str,
    /// Its clause.
    pub clause: &'static str,
    /// At which places it is made.
    pub places: Places,
    /// Whether it governs only where it fails.
    pub only_failing: bool,
}

/// A check worked out in full.
#[derive(Clone, Debug)]
pub struct Worked {
    /// Its lines.
    pub steps: Vec<Step>,
    /// The letter of the demand; its value is the step's.
    pub demand: &'static str,
    /// The letter of the capacity; its value is the step's.
    pub capacity: &'static str,
    /// Remarks on the clause.
    pub remarks: Vec<String>,
}

impl Worked {
    /// The last line of a letter.
    pub(super) fn last(&self, symbol: &str) -> Option<&Step> {
        self.steps.iter().rev().find(|step| step.symbol == symbol)
    }
}

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

/// A list of checks, a row each: its function, its kind and what tells it from another of that kind, its clause, the places
/// where it is made, the letters of demand and capacity. In front stands what the functions of the list are given.
///
/// A function is generic over a trace, which no function pointer is: the row takes it twice, once for each speed.
macro_rules! checks {
    ($given:tt: $($function:path: $kind:ident $(($what:literal))?, $clause:literal, $places:ident, $demand:tt / $capacity:tt $(, $when:ident)?;)*) => {
        &[$($crate::codes::check::Check {
            about: $crate::codes::CheckAbout {
                kind: $crate::codes::Kind::$kind,
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
