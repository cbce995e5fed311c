//! What a job is, once it has been read without a fault: ids resolved, quantities in place, the load path sorted.
//!
//! Values that a message or a code's table may have to point back at keep their place in the file ([`Placed`]).

mod standing;

pub use standing::{Axis, Eccentricity, EndHeld, Finish, Joined, Plate, Standing};

use crate::text::Span;
use crate::units::{AreaLoad, Degrees, Force, Length, LineLoad, Moment, Ratio, Stress};

/// A value and where it stands in the job file.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed<T> {
    /// The value.
    pub value: T,
    /// Its place.
    pub span: Span,
}

/// A whole job.
#[derive(Clone, Debug)]
pub struct Job {
    /// Title, people, dates, revisions.
    pub about: About,
    /// Code, edition, conditions.
    pub basis: Basis,
    /// Weights added up from layers, in file order.
    pub build_ups: Vec<BuildUp>,
    /// Area loads, in file order.
    pub areas: Vec<Area>,
    /// Members, in file order.
    pub members: Vec<Member>,
    /// Indices into `members`, sorted so that a member comes after all that rests on it.
    pub path: Vec<usize>,
    /// What the reader took where the job file is silent, one entry a default taken.
    pub defaults: Vec<TakenDefault>,
}

/// A default taken by the reader; printed in the assumption register.
#[derive(Clone, Debug, PartialEq)]
pub struct TakenDefault {
    /// What was taken, as a sentence.
    pub text: String,
    /// Marks of the members that it concerns; empty: the whole job.
    pub members: Vec<String>,
}

/// Title, people, dates, revisions: the `job` part of the file.
#[derive(Clone, Debug)]
pub struct About {
    /// Title of the job.
    pub title: String,
    /// Job number.
    pub number: Option<String>,
    /// Where the building stands.
    pub site: Option<String>,
    /// For whom.
    pub client: Option<String>,
    /// The office.
    pub firm: Option<String>,
    /// Who prepared the package.
    pub prepared_by: Option<String>,
    /// Who checked it.
    pub checked_by: Option<String>,
    /// When it was checked.
    pub checked_on: Option<Date>,
    /// The date of the package; everything dated in it is dated so.
    pub date: Date,
    /// What the package is issued for.
    pub issued_for: Purpose,
    /// Page size.
    pub paper: Paper,
    /// The mark of this revision.
    pub revision: String,
    /// All revisions, oldest first.
    pub revisions: Vec<Revision>,
    /// The engineer's own assumptions.
    pub assumptions: Vec<Assumption>,
    /// Parts left to others.
    pub deferred: Vec<Deferred>,
    /// Tables that somebody compared with the printed standard.
    pub confirmed: Vec<Confirmed>,
}

/// A day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    /// Year, four digits.
    pub year: u16,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month.
    pub day: u8,
}

impl std::fmt::Display for Date {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

/// What a package is issued for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// For a building permit.
    Permit,
    /// For somebody's remarks.
    Review,
    /// For the record.
    Record,
}

impl Purpose {
    /// The word of the job file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Permit => "permit",
            Self::Review => "review",
            Self::Record => "record",
        }
    }
}

/// Page size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 8-1/2 × 11 in.
    Letter,
    /// 210 × 297 mm.
    A4,
}

/// A row of the revision table.
#[derive(Clone, Debug, PartialEq)]
pub struct Revision {
    /// Its mark.
    pub mark: String,
    /// Its date.
    pub date: Date,
    /// What it is about.
    pub note: String,
    /// Reasons: what was changed, why, by whom.
    pub changes: Vec<Change>,
}

/// A reason that stands with a revision.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// What was changed.
    pub of: String,
    /// Why.
    pub why: String,
    /// Who wanted it.
    pub who: String,
}

/// An assumption of the engineer's own.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumption {
    /// What is assumed.
    pub text: String,
    /// Who has to confirm it.
    pub confirm: Option<String>,
    /// Whether that is still to be done.
    pub open: bool,
    /// Marks it concerns; empty: all.
    pub members: Vec<String>,
}

/// A part left to others.
#[derive(Clone, Debug, PartialEq)]
pub struct Deferred {
    /// `X-1`, `X-2` …
    pub id: String,
    /// What is left.
    pub text: String,
    /// To whom.
    pub by: Option<String>,
}

/// A table that somebody compared with the printed standard.
#[derive(Clone, Debug, PartialEq)]
pub struct Confirmed {
    /// Its name as the references page prints it.
    pub table: Placed<String>,
    /// Who compared it.
    pub by: String,
    /// When.
    pub date: Date,
}

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
    /// Deflection limits of the job file by use class (`floor`, `roof`).
    pub limits: Vec<(String, Limits)>,
    /// Whether the other system of units is shown in brackets.
    pub show_both_units: bool,
    /// Combinations of the engineer's own.
    pub combinations: OwnCombinations,
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
    /// What a live load is of, a word that the code knows (american: occupancy, storage).
    pub use_category: Option<Placed<String>>,
    /// The case that it never acts together with, for which it stands (reading 46).
    pub instead_of: Option<Case>,
}

/// Combinations of the engineer's own (reading 14).
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OwnCombinations {
    /// Whether the code's strength combinations are left out.
    pub only: bool,
    /// The combinations.
    pub list: Vec<OwnCombination>,
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

/// A limit on a deflection.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DeflectionLimit {
    /// Span over this number: `L/360`.
    SpanOver(f64),
    /// A length.
    Length(Length),
    /// Taken off: `none`.
    Off,
}

/// Limits by what they limit (`live`, `total`, `instant`, `final`, `net-final`, `permanent`, `wind`); a key left out keeps its default.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Limits(pub Vec<(Placed<String>, DeflectionLimit)>);

/// A weight added up from layers.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildUp {
    /// Its name.
    pub name: String,
    /// Layers: what it is, and its weight.
    pub layers: Vec<(String, AreaLoad)>,
}

impl BuildUp {
    /// The sum of the layers.
    pub fn sum(&self) -> AreaLoad {
        self.layers.iter().fold(AreaLoad::new(0.0), |sum, (_, weight)| sum + *weight)
    }
}

/// Area loads under one name.
#[derive(Clone, Debug, PartialEq)]
pub struct Area {
    /// Its name.
    pub name: String,
    /// Loads by case.
    pub loads: Vec<AreaOfCase>,
}

/// An area load of one case.
#[derive(Clone, Debug, PartialEq)]
pub struct AreaOfCase {
    /// Its case.
    pub case: Case,
    /// How much.
    pub load: AreaLoad,
    /// The build-up that it is the sum of, an index into [`Job::build_ups`].
    pub build_up: Option<usize>,
}

/// What a member does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Use {
    Joist,
    Rafter,
    Beam,
    Header,
    Stud,
    Post,
    Tie,
}

impl Use {
    /// The word of the job file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Joist => "joist",
            Self::Rafter => "rafter",
            Self::Beam => "beam",
            Self::Header => "header",
            Self::Stud => "stud",
            Self::Post => "post",
            Self::Tie => "tie",
        }
    }

    /// Whether forces along the member are its business: it has a length instead of spans.
    pub const fn is_standing(self) -> bool {
        matches!(self, Self::Stud | Self::Post | Self::Tie)
    }

    /// Whether it stands upright: what it bears it hands down at its foot.
    pub const fn is_upright(self) -> bool {
        matches!(self, Self::Stud | Self::Post)
    }
}

/// A member.
#[derive(Clone, Debug)]
pub struct Member {
    /// Its name on the drawings.
    pub mark: Placed<String>,
    /// What it does.
    pub role: Use,
    /// Where it stands.
    pub place: Option<String>,
    /// The drawing that shows it.
    pub drawing: Option<String>,
    /// Names of supports that no member receives, by support; none where a member does or nothing was said.
    pub rests_on: Vec<Option<String>>,
    /// Section as asked for.
    pub section: Placed<SectionAsked>,
    /// How many plies.
    pub plies: Placed<u32>,
    /// Material as asked for.
    pub material: Placed<MaterialAsked>,
    /// Centre to centre, of repetitive members.
    pub spacing: Option<Placed<Length>>,
    /// The system factor decided by hand: `yes` that its conditions are met, `no` that it is not taken.
    pub system: Option<bool>,
    /// Slope of a rafter.
    pub slope: Option<Placed<Slope>>,
    /// Lean of a purlin's depth from the vertical.
    pub tilt: Option<Placed<Degrees>>,
    /// Spans between the side supports of a tilted member, from its first support line to its last; none: its supports hold it sideways too.
    pub weak_spans: Option<Vec<Placed<Length>>>,
    /// Spans and overhangs between support lines, on plan; of a post, stud or tie its length as one span.
    pub spans: Spans,
    /// What a post, stud or tie has instead of spans; none on a member that spans.
    pub standing: Option<Standing>,
    /// Bearing lengths by support; none: not given, bearing is not checked (reading 42).
    pub bearing: Option<Vec<Placed<Length>>>,
    /// How the top edge is held.
    pub top: Bracing,
    /// How the bottom edge is held.
    pub bottom: Bracing,
    /// Conditions that differ from the basis.
    pub conditions: Conditions,
    /// Notches.
    pub notches: Vec<Notch>,
    /// Limits of this member; they go before those of the basis.
    pub limits: Limits,
    /// Notes for the foot of the sheet.
    pub notes: Vec<String>,
    /// Supports that do not bear from below, from 1.
    pub hangers: Vec<usize>,
    /// The ceiling under a roof member.
    pub ceiling: Option<Ceiling>,
    /// Whether the member's own weight is added.
    pub self_weight: bool,
    /// Loads, in file order.
    pub loads: Vec<Load>,
    /// The member's whole entry.
    pub span: Span,
}

/// A section as the job file asks for it; the code's tables resolve the name.
#[derive(Clone, Debug, PartialEq)]
pub enum SectionAsked {
    /// A name of the catalogue: `2x10`.
    Named(String),
    /// Width and depth of one ply.
    Size {
        /// Width.
        width: Length,
        /// Depth.
        depth: Length,
    },
}

/// A material as the job file asks for it; the code's tables resolve it.
#[derive(Clone, Debug, PartialEq)]
pub enum MaterialAsked {
    /// Species and grade.
    Graded {
        /// Species group.
        species: Placed<String>,
        /// Grade.
        grade: Placed<String>,
    },
    /// A strength class.
    Class(Placed<String>),
    /// A glulam combination or stress class.
    Combination {
        /// Its designation.
        name: Placed<String>,
        /// The species of its laminations, for a stress class that is made of several.
        species: Option<Placed<String>>,
    },
    /// Values with a stated source (reading 41).
    Custom {
        /// Its name.
        name: String,
        /// `sawn`, `timber`, `glulam`, `composite`.
        kind: Placed<String>,
        /// Where the values come from.
        source: String,
        /// Stresses by key.
        stresses: Vec<(Placed<String>, Stress)>,
        /// Numbers without unit by key (specific gravity).
        numbers: Vec<(Placed<String>, Ratio)>,
        /// Lengths by key.
        lengths: Vec<(Placed<String>, Length)>,
    },
}

/// The slope of a rafter.
#[derive(Clone, Debug, PartialEq)]
pub struct Slope {
    /// As it was written.
    pub text: String,
    /// Angle from the level, degrees.
    pub angle: Degrees,
}

/// Spans and overhangs between support lines; on plan for a rafter.
#[derive(Clone, Debug, PartialEq)]
pub struct Spans {
    /// Spans from the left.
    pub spans: Vec<Placed<Length>>,
    /// Overhang at the left, nought where there is none.
    pub left: Length,
    /// Overhang at the right, nought where there is none.
    pub right: Length,
    /// Whether the job file gave clear spans (already turned into spans between lines here).
    pub from_clear: bool,
}

impl Spans {
    /// The whole length, overhangs included.
    pub fn length(&self) -> Length {
        self.spans.iter().fold(self.left + self.right, |sum, span| sum + span.value)
    }

    /// Places of the support lines from the left end.
    pub fn supports(&self) -> Vec<Length> {
        let mut at = self.left;
        let mut places = vec![at];
        for span in &self.spans {
            at = at + span.value;
            places.push(at);
        }
        places
    }
}

/// How an edge is held between supports (reading 3).
#[derive(Clone, Debug, PartialEq)]
pub enum Bracing {
    /// By structural sheathing fixed to it.
    Sheathed,
    /// Throughout, by something else.
    Continuous,
    /// At supports only.
    None,
    /// At a spacing from the left end.
    Every(Length),
    /// At places from the left end.
    Places(Vec<Length>),
}

/// Conditions of a member that differ from the basis; none: as the basis has it, or not so.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Conditions {
    /// Moisture in service.
    pub moisture: Option<Moisture>,
    /// 1, 2 or 3.
    pub service_class: Option<Placed<u8>>,
    /// Sustained temperature, degrees Fahrenheit.
    pub temperature: Option<Placed<Ratio>>,
    /// Incised for treatment.
    pub incised: bool,
    /// Laid flat.
    pub flat: bool,
    /// Green when installed; `Some(false)`: said to be dry.
    pub green: Option<bool>,
}

/// Which end of a member.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum End {
    Left,
    Right,
}

/// A notch (reading 16).
#[derive(Clone, Debug, PartialEq)]
pub struct Notch {
    /// Where: at an end, or at a place along the member.
    pub at: NotchPlace,
    /// Whether in the bottom edge; else in the top.
    pub bottom: bool,
    /// What is taken away.
    pub depth: Placed<Length>,
    /// From the end of the member; along the member for a notch elsewhere.
    pub length: Length,
}

/// Where a notch is.
#[derive(Clone, Debug, PartialEq)]
pub enum NotchPlace {
    /// At an end.
    End(End),
    /// At a place from the left end.
    At(Placed<Length>),
}

/// The ceiling under a roof member.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Ceiling {
    Gypsum,
    Other,
    None,
}

/// A load on a member.
#[derive(Clone, Debug, PartialEq)]
pub struct Load {
    /// What it is.
    pub kind: LoadKind,
    /// Its place in the file.
    pub span: Span,
}

/// Kinds of loads. Places are from the left end, on plan; downward positive, moments clockwise positive.
#[derive(Clone, Debug, PartialEq)]
pub enum LoadKind {
    /// An area load over the spacing or a tributary width.
    Area {
        /// Index into [`Job::areas`].
        area: usize,
        /// Tributary width; none: the spacing.
        width: Option<Length>,
        /// From here.
        from: Length,
        /// To here.
        to: Length,
    },
    /// A load along a line.
    Line {
        /// Its case.
        case: Case,
        /// At the left.
        start: LineLoad,
        /// At the right.
        end: LineLoad,
        /// From here.
        from: Length,
        /// To here.
        to: Length,
        /// The axis that it bends the member about.
        about: Axis,
    },
    /// A point load.
    Point {
        /// Its case.
        case: Case,
        /// How much.
        force: Force,
        /// Where.
        at: Length,
        /// The axis that it bends the member about.
        about: Axis,
    },
    /// A moment.
    Moment {
        /// Its case.
        case: Case,
        /// How much.
        moment: Moment,
        /// Where.
        at: Length,
        /// The axis that it bends the member about.
        about: Axis,
    },
    /// A force along a post, stud or tie; compression positive on post and stud, tension on a tie.
    Axial {
        /// Its case.
        case: Case,
        /// How much.
        force: Force,
        /// How far from the axis.
        eccentricity: Eccentricity,
    },
    /// The reaction of another member, handed down by load case.
    Reaction {
        /// Index into [`Job::members`] of the member that gives it.
        from_member: usize,
        /// Support of that member, from 1.
        support: usize,
        /// How it arrives.
        arrives: Arrival,
    },
}

/// How a reaction arrives.
#[derive(Clone, Debug, PartialEq)]
pub enum Arrival {
    /// As a point load.
    At(Length),
    /// On the head of a post or stud.
    Head {
        /// How far apart they stand, of a row on a wall; none: all of it.
        every: Option<Length>,
        /// How far from the axis.
        eccentricity: Eccentricity,
    },
    /// As many, so far apart, spread as a line load (reading 5).
    Every {
        /// How far apart.
        spacing: Length,
        /// From here.
        from: Length,
        /// To here.
        to: Length,
    },
}
