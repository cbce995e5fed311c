//! Every key of a job file: where it stands, what it holds, whether it is needed, and what it means.
//!
//! The reader refuses what has no row here and proposes the nearest that has one; [`super::schema`] and the starter file are made
//! from the same rows.

mod table;

use super::model::{CodeName, Use};
use crate::units::kinds;

pub use table::{DENSITY, KEYS};

/// A kind of map in a job file; its keys are the rows of that part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum Part {
    File,
    About,
    Revision,
    Change,
    Assumption,
    Deferred,
    Confirmed,
    Basis,
    SiteItem,
    LoadCase,
    LimitsByUse,
    Limits,
    OwnCombinations,
    OwnCombination,
    Layer,
    Prices,
    Price,
    Member,
    Section,
    Material,
    CustomValues,
    Overhangs,
    Braced,
    BracedAt,
    Conditions,
    Retardant,
    Notch,
    LiveReduction,
    RoofLiveReduction,
    Floor,
    Decking,
    Ends,
    EffectiveLength,
    AreaLoad,
    LineLoad,
    PointLoad,
    MomentLoad,
    ReactionLoad,
    ThrustLoad,
    AxialLoad,
    Eccentricity,
    RestsOn,
    Plate,
    Comment,
    Checker,
    CheckerNumber,
}

impl Part {
    /// What it is called in a message.
    pub const fn words(self) -> &'static str {
        match self {
            Self::File => "the file",
            Self::About => "`job`",
            Self::Revision => "a revision",
            Self::Change => "a change",
            Self::Assumption => "an assumption",
            Self::Deferred => "a deferred part",
            Self::Confirmed => "a confirmation",
            Self::Basis => "`basis`",
            Self::SiteItem => "an item of the site",
            Self::LoadCase => "a load case",
            Self::LimitsByUse => "the `limits` of the basis",
            Self::Limits => "`limits`",
            Self::OwnCombinations => "`combinations`",
            Self::OwnCombination => "a combination",
            Self::Layer => "a layer",
            Self::Prices => "`prices`",
            Self::Price => "a price",
            Self::Member => "a member",
            Self::Section => "a section",
            Self::Material => "a material",
            Self::CustomValues => "`values`",
            Self::Overhangs => "`overhangs`",
            Self::Braced => "`braced`",
            Self::BracedAt => "a bracing",
            Self::Conditions => "`conditions`",
            Self::Retardant => "`retardant`",
            Self::Notch => "a notch",
            Self::LiveReduction => "`live-reduction`",
            Self::RoofLiveReduction => "`roof-live-reduction`",
            Self::Floor => "`floor`",
            Self::Decking => "`decking`",
            Self::Ends => "`ends`",
            Self::EffectiveLength => "`effective-length`",
            Self::AreaLoad => "an area load",
            Self::LineLoad => "a line load",
            Self::PointLoad => "a point load",
            Self::MomentLoad => "a moment",
            Self::ReactionLoad => "a reaction",
            Self::ThrustLoad => "a thrust",
            Self::AxialLoad => "an axial load",
            Self::Eccentricity => "`eccentricity`",
            Self::RestsOn => "an entry of `rests-on`",
            Self::Plate => "`plate`",
            Self::Comment => "a comment",
            Self::Checker => "`checker`",
            Self::CheckerNumber => "a number of the checker",
        }
    }

    /// Its name in the schema.
    pub const fn name(self) -> &'static str {
        match self {
            Self::File => "file",
            Self::About => "job",
            Self::Revision => "revision",
            Self::Change => "change",
            Self::Assumption => "assumption",
            Self::Deferred => "deferred",
            Self::Confirmed => "confirmed",
            Self::Basis => "basis",
            Self::SiteItem => "site-item",
            Self::LoadCase => "load-case",
            Self::LimitsByUse => "limits-by-use",
            Self::Limits => "limits",
            Self::OwnCombinations => "combinations",
            Self::OwnCombination => "combination",
            Self::Layer => "layer",
            Self::Prices => "prices",
            Self::Price => "price",
            Self::Member => "member",
            Self::Section => "section",
            Self::Material => "material",
            Self::CustomValues => "custom-values",
            Self::Overhangs => "overhangs",
            Self::Braced => "braced",
            Self::BracedAt => "braced-at",
            Self::Conditions => "conditions",
            Self::Retardant => "retardant",
            Self::Notch => "notch",
            Self::LiveReduction => "live-reduction",
            Self::RoofLiveReduction => "roof-live-reduction",
            Self::Floor => "floor",
            Self::Decking => "decking",
            Self::Ends => "ends",
            Self::EffectiveLength => "effective-length",
            Self::AreaLoad => "area-load",
            Self::LineLoad => "line-load",
            Self::PointLoad => "point-load",
            Self::MomentLoad => "moment-load",
            Self::ReactionLoad => "reaction-load",
            Self::ThrustLoad => "thrust-load",
            Self::AxialLoad => "axial-load",
            Self::Eccentricity => "eccentricity",
            Self::RestsOn => "rests-on",
            Self::Plate => "plate",
            Self::Comment => "comment",
            Self::Checker => "checker",
            Self::CheckerNumber => "checker-number",
        }
    }

    /// Its rows, in the order of the table.
    pub fn keys(self) -> impl Iterator<Item = &'static Key> {
        KEYS.iter().filter(move |key| key.part == self)
    }
}

/// What a key holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// Any text.
    Text,
    /// A number without unit.
    Number,
    /// A whole number.
    Whole,
    /// `yes` or `no`.
    YesNo,
    /// `2026-03-18`.
    Date,
    /// One of these words.
    Word(&'static [&'static str]),
    /// A quantity of a kind of [`kinds`].
    Quantity(&'static str),
    /// `25 deg`.
    Angle,
    /// `100 F`.
    Temperature,
    /// `6:12` or `25 deg`.
    Slope,
    /// `L/360`, a length, or `none`.
    Limit,
    /// `mid`, or a length from the left end.
    Place,
    /// A map with the keys of a part.
    Map(Part),
    /// A list of these.
    List(&'static Kind),
    /// A map whose keys are names that the engineer gives.
    Named(&'static Kind),
    /// Any of these.
    Either(&'static [Kind]),
}

impl Kind {
    /// What is due, in words for a message.
    pub fn words(self) -> String {
        match self {
            Self::Text => "a text".into(),
            Self::Number => "a number".into(),
            Self::Whole => "a whole number".into(),
            Self::YesNo => "`yes` or `no`".into(),
            Self::Date => "a date such as `2026-03-18`".into(),
            Self::Word(words) => one_of(words),
            Self::Quantity(kinds::LENGTH) => "a length such as `13 ft 6 in`".into(),
            Self::Quantity(kinds::FORCE) => "a force such as `300 lbf`".into(),
            Self::Quantity(kinds::AREA_LOAD) => "a load such as `40 psf`".into(),
            Self::Quantity(kinds::LINE_LOAD) => "a load such as `80 plf`".into(),
            Self::Quantity(kinds::MOMENT) => "a moment such as `500 lbf.ft`".into(),
            Self::Quantity(kinds::AREA) => "an area such as `340 ft2`".into(),
            Self::Quantity(kinds::DENSITY) => "a density such as `420 kg/m3`".into(),
            Self::Quantity(kinds::STRESS) => "a stress such as `900 psi`".into(),
            Self::Quantity(kinds::MASS) => "a mass such as `50 kg/m2`".into(),
            Self::Quantity(kinds::WIDTH_STIFFNESS) => "a stiffness such as `2.2 kN.m2/m`".into(),
            Self::Quantity(kind) => format!("a {kind}"),
            Self::Angle => "an angle such as `25 deg`".into(),
            Self::Temperature => "a temperature such as `100 F`".into(),
            Self::Slope => "a slope such as `6:12` or `25 deg`".into(),
            Self::Limit => "a limit such as `L/360`, `3/4 in` or `none`".into(),
            Self::Place => "`mid` or a length from the left end".into(),
            Self::Map(Part::Material) => "a map such as `{species: Hem-Fir, grade: No.2}` or `{class: C24}`".into(),
            Self::Map(Part::RestsOn) => "a map such as `{mark: B1, at: 4 ft}`".into(),
            Self::Map(Part::Braced) => "a map such as `{top: sheathed, bottom: {at: 4 ft}}`".into(),
            Self::Map(part) => {
                let names: Vec<&str> = part.keys().map(|key| key.name).take(3).collect();
                format!("a map such as `{{{}: …}}`", names.join(": …, "))
            }
            Self::List(_) => "a list".into(),
            Self::Named(_) => "a map from names to values".into(),
            Self::Either(kinds) => kinds.iter().map(|kind| kind.words()).collect::<Vec<_>>().join(", or "),
        }
    }
}

/// Words in a row: `` `a`, `b` or `c` ``.
pub fn one_of(words: &[&str]) -> String {
    match words {
        [] => "nothing".into(),
        [word] => format!("`{word}`"),
        [first @ .., last] => format!("{} or `{last}`", first.iter().map(|w| format!("`{w}`")).collect::<Vec<_>>().join(", ")),
    }
}

/// What happens where a key is left out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Need {
    /// It is a fault.
    Needed,
    /// Nothing is taken for it.
    Optional,
    /// This is taken.
    Default(&'static str),
    /// The program does not cover the key yet.
    Later,
}

/// A row of the table of keys.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Key {
    /// The map in which it stands.
    pub part: Part,
    /// Its name.
    pub name: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// What happens where it is left out.
    pub need: Need,
    /// What it means.
    pub words: &'static str,
    /// The codes that know it; none: all.
    pub codes: &'static [CodeName],
    /// The uses of members that know it; none: all.
    pub uses: &'static [Use],
}

impl Key {
    /// What to write for it, after its name.
    pub fn help(&self) -> String {
        let mut letters = self.words.trim_end_matches('.').chars();
        let words: String = letters.next().into_iter().flat_map(char::to_lowercase).chain(letters).collect();
        match self.kind {
            Kind::Word(_) | Kind::Date => format!("({words}), {}", self.kind.words()),
            _ => format!("({words})"),
        }
    }

    const fn of_codes(self, codes: &'static [CodeName]) -> Self {
        Self { codes, ..self }
    }

    const fn of_uses(self, uses: &'static [Use]) -> Self {
        Self { uses, ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_key_has_two_rows_and_every_part_has_one() {
        for (i, key) in KEYS.iter().enumerate() {
            assert!(KEYS[..i].iter().all(|other| (other.part, other.name) != (key.part, key.name)), "{:?} {}", key.part, key.name);
            assert!(!key.words.is_empty() && key.words.ends_with('.'), "{}", key.name);
            let mut kinds = vec![key.kind];
            while let Some(kind) = kinds.pop() {
                match kind {
                    Kind::Map(part) => assert!(part.keys().next().is_some(), "{part:?} has no keys"),
                    Kind::List(of) | Kind::Named(of) => kinds.push(*of),
                    Kind::Either(of) => kinds.extend(of),
                    _ => {}
                }
            }
        }
    }
}
