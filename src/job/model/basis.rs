//! The basis of design: code, conditions, load cases and combinations, limits.

use super::{LimitedUse, Limits, Placed};
use crate::units::Ratio;

/// The building code of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CodeName {
    /// NDS with ASCE 7.
    American,
    /// CSA O86 with NBC.
    Canadian,
    /// EN 1995-1-1 with EN 1990.
    European,
}

impl CodeName {
    /// The word of the job file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::American => "american",
            Self::Canadian => "canadian",
            Self::European => "european",
        }
    }
}

/// Code, edition and conditions that hold for the whole job.
#[derive(Clone, Debug)]
pub struct Basis {
    /// Which code.
    pub code: Placed<CodeName>,
    /// Its edition, a word that the code knows.
    pub edition: Placed<String>,
    /// Design method, a word that the code knows (american: ASD, LRFD).
    pub method: Option<Placed<String>>,
    /// Loading standard, a word that the code knows.
    pub loading: Placed<String>,
    /// National choices.
    pub country: Option<Placed<String>>,
    /// Occupancy that picks psi or companion factors.
    pub use_category: Option<Placed<String>>,
    /// Whether the site lies above 1000 m, for the companion factor of snow (european).
    pub snow_high: bool,
    /// The expressions of strength combinations, a word that the code knows (european).
    pub expressions: Option<Placed<String>>,
    /// The edition of the table of strength classes, a word that the code knows (european).
    pub classes: Option<Placed<String>>,
    /// Moisture in service.
    pub moisture: Moisture,
    /// 1, 2 or 3.
    pub service_class: Option<Placed<u8>>,
    /// Sustained temperature, degrees Fahrenheit.
    pub temperature: Placed<Ratio>,
    /// Importance category.
    pub importance: Option<Placed<String>>,
    /// Companion factor of live load under LRFD, 1.0 or 0.5.
    pub live_companion: Option<Placed<Ratio>>,
    /// The loading data of the site.
    pub site: Vec<SiteItem>,
    /// Wording and file habits of a place.
    pub jurisdiction: String,
    /// All load cases: the seven that every job has, then the engineer's own. [`Case`] is an index into it.
    pub cases: Vec<LoadCase>,
    /// Deflection limits of the job file, by whose they are.
    pub limits: Vec<(LimitedUse, Limits)>,
    /// Whether the other system of units is shown in brackets.
    pub show_both_units: bool,
    /// Combinations of the engineer's own.
    pub combinations: OwnCombinations,
}

impl Basis {
    /// The nature of a case.
    pub fn nature(&self, case: Case) -> Nature {
        self.cases[case.0].nature
    }
}

/// One item of the site's loading data.
#[derive(Clone, Debug, PartialEq)]
pub struct SiteItem {
    /// What it is: `Ground snow load`.
    pub item: String,
    /// Its value as written.
    pub value: String,
    /// Where it comes from; open where not given.
    pub source: Option<String>,
}

/// Moisture in service.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moisture {
    /// At most 19 % (sawn), 16 % (glulam).
    Dry,
    /// More.
    Wet,
}

/// A load case, by its index in [`Basis::cases`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Case(pub usize);

/// The nature of a load case.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum Nature {
    Dead,
    Live,
    RoofLive,
    Snow,
    Wind,
    Seismic,
    Rain,
}

impl Nature {
    /// All, in the order in which every job's cases begin.
    pub const ALL: [Self; 7] = [Self::Dead, Self::Live, Self::RoofLive, Self::Snow, Self::Wind, Self::Seismic, Self::Rain];

    /// The word of the job file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Dead => "dead",
            Self::Live => "live",
            Self::RoofLive => "roof-live",
            Self::Snow => "snow",
            Self::Wind => "wind",
            Self::Seismic => "seismic",
            Self::Rain => "rain",
        }
    }

    /// The case of this nature that every job has.
    pub const fn case(self) -> Case {
        Case(self as usize)
    }
}

/// A load case: one of the seven, or one of the engineer's own that is like one of them.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadCase {
    /// Its name in the job file.
    pub name: String,
    /// Which of the seven it is or is like: load factors and pattern habit (reading 12).
    pub nature: Nature,
    /// Its duration, a word that the code knows; none: the duration of its nature.
    pub duration: Option<Placed<String>>,
    /// What a live load is of, a word that the code knows (american: occupancy, storage; european: a category of use).
    pub use_category: Option<Placed<String>>,
    /// The cases that it never acts together with (readings 46 and 50).
    pub instead_of: Vec<Case>,
}

/// The most sets of cases that may act together, and the most cases of the engineer's own in one of them.
pub const MOST_ALTERNATIVES: usize = 64;
/// See [`MOST_ALTERNATIVES`].
pub const MOST_TOGETHER: usize = 10;

/// The largest sets of these cases in which no two exclude each other, in the order of the cases; it stops once there are more than
/// [`MOST_ALTERNATIVES`].
pub fn alternatives(all: &[LoadCase], cases: &[Case]) -> Vec<Vec<Case>> {
    let excludes = |a: Case, b: Case| all[a.0].instead_of.contains(&b) || all[b.0].instead_of.contains(&a);
    let mut sets: Vec<Vec<Case>> = vec![Vec::new()];
    for case in cases {
        let mut next: Vec<Vec<Case>> = Vec::with_capacity(sets.len());
        for set in &sets {
            let mut with: Vec<Case> = set.iter().copied().filter(|other| !excludes(*other, *case)).collect();
            if with.len() < set.len() {
                next.push(set.clone());
            }
            with.push(*case);
            next.push(with);
        }
        let within = |a: &[Case], b: &[Case]| a.iter().all(|case| b.contains(case));
        sets = Vec::with_capacity(next.len());
        for (i, set) in next.iter().enumerate() {
            let covered = next.iter().enumerate().any(|(j, other)| i != j && within(set, other) && (set.len() < other.len() || j < i));
            if !covered {
                sets.push(set.clone());
            }
        }
        if sets.len() > MOST_ALTERNATIVES {
            break;
        }
    }
    sets
}

impl LoadCase {
    /// Whether its name reads like one of these letters.
    pub fn reads_like(&self, letters: &[&str]) -> bool {
        let bare = |text: &str| text.replace('_', "");
        letters.iter().any(|letter| bare(letter).eq_ignore_ascii_case(&bare(&self.name)))
    }
}

/// Combinations of the engineer's own (reading 14).
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OwnCombinations {
    /// Whether the code's strength combinations are left out.
    pub only: bool,
    /// The combinations.
    pub list: Vec<OwnCombination>,
}

impl OwnCombinations {
    /// Whether those for deflection stand in place of the code's (reading 14).
    pub fn replaces_deflections(&self) -> bool {
        self.only && self.list.iter().any(|own| own.deflection)
    }
}

/// A combination of the engineer's own.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnCombination {
    /// Its name.
    pub name: String,
    /// Factors by case.
    pub factors: Vec<(Case, f64)>,
    /// Its duration, a word that the code knows.
    pub duration: Option<Placed<String>>,
    /// Whether it is for deflection; else for strength (reading 11).
    pub deflection: bool,
}
