//! What takes the place of sections and materials that could not be read, while the rest of a job file is tried against the tables.

use crate::job::StandIns;
use crate::job::model::{MaterialAsked, Placed, SectionAsked};

/// Sections of unlike rules: lumber narrow and wide, 5 in and thicker square and deep, laminated timber.
const SECTIONS: [(&str, Option<&str>); 6] =
    [("2x10", None), ("2x4", None), ("6x6", None), ("6x12", None), ("5-1/8x24", Some("24F-1.8E")), ("4x8", None)];
const SPECIES: &[&str] = &["Douglas Fir-Larch", "Southern Pine", "Hem-Fir", "Spruce-Pine-Fir"];
const GRADES: &[&str] = &["No.2", "Select Structural", "No.1"];

/// The stand-ins.
pub(super) fn all() -> StandIns {
    let placed = |word: &str| Placed { value: word.to_owned(), span: StandIns::NOWHERE };
    let material = |combination: Option<&str>| match combination {
        Some(name) => MaterialAsked::Combination { name: placed(name), species: None },
        None => MaterialAsked::Graded { species: placed(SPECIES[0]), grade: placed(GRADES[0]) },
    };
    let pair = |(section, combination): (&str, Option<&str>)| (SectionAsked::Named(section.to_owned()), material(combination));
    StandIns { pairs: SECTIONS.map(pair).to_vec(), species: SPECIES, grades: GRADES }
}
