//! Codes: what each one asks of a member, behind two small traits, and the walk down the load path that all of them share.
//!
//! A [`Code`] turns a member of the job into something [`Prepared`]: its section and material resolved against the code's tables, its
//! factors settled. [`walk`] solves the member's beam, tries every combination, load set and critical place by `ratio`, has the worst
//! of each kind `worked` on a tape, and hands the reactions down by load case.
//!
//! Everything that is generic over a trace stays inside the code's own folder. Numbers here are f64 in N and mm, as in
//! [`crate::analysis`]; a code's `notation` gives them back their dimensions.

mod account;
pub mod american;
mod arrange;
mod assumed;
mod check;
mod combination;
mod deflection_case;
mod demand;
pub mod european;
mod prepared;
mod search;
mod trials;
mod unmade;
mod utilization;
mod verdict;
mod walk;
mod wrong;

pub use account::{Account, AccountColumn, AccountRow, Leading};
use arrange::every;
pub use arrange::{Across, Along, Applied, Arranged, Beside, HandedDown, LeftOut, LoadSet, MOST_PANELS, Statics, Upon, Way};
pub use check::{CheckAbout, Kind, Worked};
use combination::dead_alone;
pub use combination::{Combination, Purpose, name as name_of, name_with, own_name, reduce, spread, together};
pub use deflection_case::{DeflectionCase, Title, titled};
pub use demand::{Action, Bends, Bent, Clear, Demand, Held, Holder, Loaded, NO_PARTS, Notched, Part, Parts, Places, Time};
pub use prepared::{Looks, Material, Prepared, Resolved, Section};
pub use search::{Asks, Checked, Deflected, Drawn, Found, Lost, Reacted, Reserved, Search, SideForce, Worst};
pub use utilization::Utilization;
pub use verdict::Verdict;
pub use walk::{Walked, prepare, walk};
pub use wrong::wrong;

use crate::equation::Step;
use crate::job::StandIns;
use crate::job::model::{Basis, Case, CodeName, Job, MaterialAsked, Member, Nature, SectionAsked};
use crate::table::{Cell, Found as InTable, Table};
use crate::text::Faults;
use crate::units::{Dimension, Q, Unit};
use std::fmt;

/// Every code that this program holds, in the order of the catalogue.
pub static ALL: &[&dyn Code] = &[&american::American, &european::European];

/// The code of a basis; none if it is not covered yet.
pub fn of(basis: &Basis) -> Option<&'static dyn Code> {
    named(basis.code.value)
}

fn named(name: CodeName) -> Option<&'static dyn Code> {
    ALL.iter().copied().find(|code| code.name() == name)
}

/// The units that a code prints in.
#[derive(Clone, Copy, Debug)]
pub struct Shown {
    /// Of spans and places.
    pub span: &'static Unit,
    /// Of sections, bearings and deflections.
    pub section: &'static Unit,
    /// Of forces.
    pub force: &'static Unit,
    /// Of loads along a line.
    pub line: &'static Unit,
    /// Of loads on a surface.
    pub area: &'static Unit,
    /// Of moments.
    pub moment: &'static Unit,
}

/// A standard cited in a package.
#[derive(Clone, Debug)]
pub struct Cited {
    /// As cited on the sheets.
    pub short: &'static str,
    /// As cited where room is scarce.
    pub brief: &'static str,
    /// Title and edition.
    pub title: &'static str,
    /// What it is used for.
    pub used_for: &'static str,
    /// What the program holds and does not hold of this edition.
    pub note: &'static str,
}

/// Letters and what they stand for.
#[derive(Clone, Copy, Debug)]
pub struct Lettered {
    /// As said: `l u, l e`.
    pub plain: &'static str,
    /// As Typst math.
    pub typst: &'static str,
    /// What they stand for.
    pub meaning: &'static str,
}

/// A cell that was read from a table, and the value as shown.
#[derive(Clone, Debug)]
pub struct Read {
    /// The cell.
    pub cell: Cell,
    /// The value.
    pub value: f64,
    /// Its unit.
    pub unit: &'static str,
}

impl Read {
    /// A number without unit.
    fn plain(found: InTable<f64>) -> Self {
        Self { cell: found.cell, value: found.value, unit: "" }
    }

    /// A quantity, as it is shown.
    fn shown<D: Dimension>(found: InTable<Q<D>>, unit: &'static Unit) -> Self {
        Self { cell: found.cell, value: unit.number(found.value.value()), unit: unit.name }
    }

    /// Takes a number without unit among what was read. Not a number where the table has none, so that nothing passes by it.
    fn keep(found: Option<InTable<f64>>, read: &mut Vec<Self>) -> f64 {
        found.map_or(f64::NAN, |found| {
            let value = found.value;
            read.push(Self::plain(found));
            value
        })
    }
}

/// Where an assumption comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// The job file says it.
    JobFile,
    /// The job file is silent.
    Default,
    /// A rule of this program for what the standards leave open, by its number.
    Reading(u8),
}

/// As it stands in the results: `job`, `default`, `reading 4`.
impl fmt::Display for Origin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::JobFile => f.write_str("job"),
            Self::Default => f.write_str("default"),
            Self::Reading(number) => write!(f, "reading {number}"),
        }
    }
}

/// An assumption that a code or a reading takes for a member.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumed {
    /// What it is about, one word or two: the sheet finds its number by it.
    pub topic: &'static str,
    /// The assumption, as a sentence that holds for every member that makes it.
    pub text: String,
    /// Where it comes from.
    pub from: Origin,
    /// Who has to confirm it; may be empty.
    pub confirm: String,
    /// Whether that is still to be done.
    pub open: bool,
}

/// One code.
pub trait Code: Sync {
    /// Which code.
    fn name(&self) -> CodeName;

    /// Editions that it holds, the default first.
    fn editions(&self) -> &'static [&'static str];

    /// The units that it prints in.
    fn shown(&self) -> Shown;

    /// The standards that a job on this basis cites.
    fn cites(&self, basis: &Basis) -> Vec<Cited>;

    /// Conditions of service that hold for the whole job, each in a few words: `dry`.
    fn conditions(&self, basis: &Basis) -> Vec<String>;

    /// What a property of the account is called before its factors, and after them: `reference value`, `adjusted value`.
    fn value_names(&self) -> [&'static str; 2];

    /// Letters that its sheets use without a word beside them, the shorthand of our own last.
    fn letters(&self) -> &'static [Lettered];

    /// Faults of the basis: words that this code does not know.
    fn faults(&self, basis: &Basis) -> Faults;

    /// All combinations of the basis, the engineer's own among them.
    fn combinations(&self, basis: &Basis) -> Vec<Combination>;

    /// The combinations as the basis of a job lists them in which only these cases act somewhere; all of them unless a code says less.
    fn combinations_listed(&self, basis: &Basis, _acting: &[Case]) -> Vec<Combination> {
        self.combinations(basis)
    }

    /// A combination with the class of load duration and the printed factor of the cases that it has.
    fn timed(&self, basis: &Basis, combination: Combination) -> Combination;

    /// How the case of a nature is abbreviated in names of combinations: `D`, `L`, `S`.
    fn letter_of(&self, nature: Nature) -> &'static str;

    /// The same of any case; the engineer's own go by their names.
    fn letter<'a>(&self, basis: &'a Basis, case: Case) -> &'a str {
        match Nature::ALL.get(case.0) {
            Some(nature) => self.letter_of(*nature),
            None => basis.cases.get(case.0).map_or("", |own| &own.name),
        }
    }

    /// A duration factor with its letter, as it stands behind the name of a combination that lost: `C_D 0.9`.
    fn time_in_words(&self, basis: &Basis, factor: f64) -> String;

    /// How the loads of a nature are set on several spans.
    fn pattern(&self, nature: Nature) -> Pattern;

    /// What the code would ask of the site's data: item, and the words by which it is known to be given.
    fn site_items(&self, job: &Job) -> Vec<(&'static str, &'static [&'static str])>;

    /// Its tables, for the catalogue.
    fn tables(&self) -> Vec<&'static Table>;

    /// The sections of its catalogue that a member of this use and material could have, for `size`; none: it has no catalogue.
    fn sections(&self, _: &Basis, _: &Member) -> Vec<Offer> {
        Vec::new()
    }

    /// The grades or classes that could stand in place of the member's material, its own among them, the strongest first.
    fn grades(&self, _: &Basis, member: &Member) -> Vec<MaterialAsked> {
        vec![member.material.value.clone()]
    }

    /// What takes the place of values that could not be read while a job file with faults is tried against the code's tables.
    fn stand_ins(&self) -> StandIns;

    /// Resolves a member against the code's tables.
    ///
    /// # Errors
    /// Everything in the member's entry that the code's tables and clauses do not allow, each at its place.
    fn prepare(&self, job: &Job, member: &Member) -> Result<Box<dyn Prepared>, Faults>;
}

/// A section of a code's catalogue.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// As a job file asks for it.
    pub section: SectionAsked,
    /// Width of one ply, mm.
    pub width: f64,
    /// Depth, mm.
    pub depth: f64,
}

/// How a load is set on several spans.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pattern {
    /// On all spans.
    All,
    /// On a set of spans; on the others this part of it.
    Sets {
        /// The part on the spans outside the set.
        rest: f64,
    },
}

/// A case of which a member bears a part only, by the area that it bears. What it hands down is whole.
#[derive(Clone, Debug)]
pub struct Reduced {
    /// The case.
    pub case: Case,
    /// The load of the case on a surface before it, N/mm².
    pub whole: f64,
    /// The part that stays.
    pub part: f64,
    /// How it comes about.
    pub steps: Vec<Step>,
    /// Cells that were read for it.
    pub read: Vec<Read>,
}
