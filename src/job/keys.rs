//! Every key of a job file: where it stands, what it holds, whether it is needed, and what it means.
//!
//! The reader refuses what has no row here and proposes the nearest that has one; [`super::schema`] and the starter file are made
//! from the same rows.

mod table;

use super::model::{CodeName, Use};
use crate::text::nearest;
use crate::units::kinds;
use crate::yaml::Value;

pub use table::{DENSITY, KEYS, LOAD};

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

    /// The key that was probably meant by an unknown one: a word of the trade for it, or a slip of the pen; rather one that a member of this
    /// use, or this code, has.
    pub fn meant(self, word: &str, role: Option<Use>, code: Option<CodeName>) -> Option<&'static Key> {
        let lower = word.to_lowercase().replace('_', "-");
        let fits = |key: &&Key| {
            role.is_none_or(|role| key.uses.is_empty() || key.uses.contains(&role))
                && code.is_none_or(|code| key.codes.is_empty() || key.codes.contains(&code))
        };
        let synonym = |key: &&Key| key.synonyms.contains(&lower.as_str());
        let slip = |word| self.keys().find(|key| key.name == word);
        (self.keys().filter(fits).find(synonym))
            .or_else(|| nearest(word, self.keys().filter(fits).map(|key| key.name)).and_then(slip))
            .or_else(|| self.keys().find(synonym))
            .or_else(|| nearest(word, self.keys().map(|key| key.name)).and_then(slip))
    }
}

/// What a key holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// `~`: nothing is meant here.
    Nothing,
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
    /// Whether a value has the shape of this kind: a text where a map is due has not.
    pub fn may_be(&self, value: &Value) -> bool {
        match self {
            Self::Map(_) | Self::Named(_) => matches!(value, Value::Map(_)),
            Self::List(of) => matches!(value, Value::List(_)) || of.may_be(value),
            Self::Either(kinds) => kinds.iter().any(|kind| kind.may_be(value)),
            Self::Nothing => *value == Value::Null,
            _ => matches!(value, Value::Scalar(_)),
        }
    }

    /// Whether a value that stands without the list that is due may be an item of it: a map only if it has a key of its part.
    pub fn may_be_item(&self, value: &Value) -> bool {
        match (self, value) {
            (Self::Map(part), Value::Map(entries)) => entries.iter().any(|entry| part.keys().any(|key| key.name == entry.key)),
            (Self::Either(kinds), _) => kinds.iter().any(|kind| kind.may_be_item(value)),
            _ => self.may_be(value),
        }
    }

    /// What is due, in words for a message.
    pub fn words(self) -> String {
        match self {
            Self::Nothing => "`~`".into(),
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
    /// Words of the trade that an unknown key may use for it: named in the hint, never accepted.
    pub synonyms: &'static [&'static str],
    /// Whether it may be written without a value, for somebody to fill in.
    pub may_be_empty: bool,
}

impl Key {
    /// What to write in place of an unknown key that means this one; where the value has another shape, what that is.
    pub fn in_place_of(&self, word: &str) -> String {
        match self.kind {
            Kind::Map(part) if part.keys().any(|key| key.name == word) => {
                format!("`{word}` belongs inside `{}`: write {}", self.name, self.kind.words())
            }
            Kind::Map(_) => format!("did you mean `{}`? It is {}", self.name, self.kind.words()),
            _ => format!("did you mean `{}`?", self.name),
        }
    }

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

    const fn known_as(self, synonyms: &'static [&'static str]) -> Self {
        Self { synonyms, ..self }
    }

    const fn or_empty(self) -> Self {
        Self { may_be_empty: true, ..self }
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
            for word in key.synonyms {
                let apart =
                    |other: &Key| !other.codes.is_empty() && !key.codes.is_empty() && !other.codes.iter().any(|c| key.codes.contains(c));
                assert!(key.part.keys().all(|other| other.name != *word || apart(other)), "{:?} `{word}` is a key", key.part);
                let same = |other: &&Key| other.synonyms.contains(word) && other.codes == key.codes && other.uses == key.uses;
                assert_eq!(key.part.keys().filter(same).count(), 1, "{:?} `{word}` has two meanings", key.part);
            }
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
