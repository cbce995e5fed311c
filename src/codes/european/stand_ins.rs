//! What takes the place of sections and materials that could not be read, while the rest of a job file is tried against the tables.

use crate::job::StandIns;
use crate::job::model::{MaterialAsked, Placed, SectionAsked};
use crate::units::MM;

/// Sections of unlike rules, mm: joists of softwood, a beam of hardwood, laminated timber.
const SECTIONS: [(f64, f64, &str); 4] = [(45.0, 195.0, "C24"), (120.0, 480.0, "GL24h"), (75.0, 100.0, "C16"), (100.0, 300.0, "D30")];

/// The stand-ins. Its materials are classes, so that there are no species and grades.
pub(super) fn all() -> StandIns {
    let placed = |word: &str| Placed { value: word.to_owned(), span: StandIns::NOWHERE };
    let pair = |(width, depth, class): (f64, f64, &str)| {
        (SectionAsked::Size { width: MM.of(width), depth: MM.of(depth) }, MaterialAsked::Class(placed(class)))
    };
    StandIns { pairs: SECTIONS.map(pair).to_vec(), species: &[""], grades: &[""] }
}
