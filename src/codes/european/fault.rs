//! What the European tables and clauses refuse in a job file.

use crate::text::{Diagnostic, Label, Severity, Span, fault_ids, nearest};

/// A fault, as data; words in [`Fault::message`] and [`Fault::help`].
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Fault {
    UnknownWord { what: &'static str, word: String, known: &'static [&'static str] },
    UnknownClass { class: String, known: Vec<String> },
    NoSuchSection { name: String, known: Vec<String> },
    NoCountry { country: String, known: Vec<&'static str> },
    CountryUnsure { name: String, what: Vec<String>, known: Vec<&'static str> },
    NoExpressions { country: String, word: String },
    NoPsi { category: String },
    CategoryUnsure { category: String },
    NoImposedLoad { name: String, like: &'static str },
    ServiceClass { material: &'static str, class: u8 },
    NotCoveredYet { what: String, help: &'static str },
    MissingValue { key: &'static str, why: &'static str },
    TooManyPanels { panels: usize },
    TakenLetter { name: String },
    LaxLimit { key: &'static str, bound: String },
}

fault_ids! {
    Self::UnknownWord { .. } => "unknown-word",
    Self::UnknownClass { .. } => "unknown-class",
    Self::NoSuchSection { .. } => "no-such-section",
    Self::NoCountry { .. } => "no-country",
    Self::CountryUnsure { .. } => "country-unsure",
    Self::NoExpressions { .. } => "no-expressions",
    Self::NoPsi { .. } => "no-psi",
    Self::CategoryUnsure { .. } => "category-unsure",
    Self::NoImposedLoad { .. } => "no-live-load",
    Self::ServiceClass { .. } => "service-class",
    Self::NotCoveredYet { .. } => "not-covered",
    Self::MissingValue { .. } => "missing-value",
    Self::TooManyPanels { .. } => "too-many-spans",
    Self::TakenLetter { .. } => "taken-letter",
    Self::LaxLimit { .. } => "lax-limit",
}

/// Whether a name is one of nominal inches: `2x10`.
fn in_inches(name: &str) -> bool {
    let small = |text: &str| text.trim().parse::<f64>().is_ok_and(|number| number < 25.0);
    name.split_once('x').is_some_and(|(b, h)| small(b) && small(h))
}

impl Fault {
    /// What is wrong, in one line that stands alone.
    fn message(&self) -> String {
        match self {
            Self::UnknownWord { what, word, .. } => format!("`{word}` is no {what} that the european code knows"),
            Self::UnknownClass { class, .. } => format!("no table has a strength class `{class}`"),
            Self::NoSuchSection { name, .. } => format!("no customary section is called `{name}`"),
            Self::NoCountry { country, .. } => format!("no national choices are held for `{country}`"),
            Self::CountryUnsure { name, what, .. } => {
                format!("the choices of {name} are not all held for sure: {}", what.join("; "))
            }
            Self::NoExpressions { country, word } => format!("`{country}` does not design by the expressions `{word}`"),
            Self::NoPsi { category } => format!("EN 1990 Table A1.1 has no companion factors for a category `{category}`"),
            Self::CategoryUnsure { category } => {
                format!("the duration class of an imposed load of category `{category}` is not held for sure")
            }
            Self::NoImposedLoad { name, like } => format!("case `{name}` is like {like}: a category of use is of imposed loads"),
            Self::ServiceClass { material, class } => format!("no values are held for {material} in service class {class}"),
            Self::NotCoveredYet { what, .. } => format!("{what} is not covered yet"),
            Self::MissingValue { key, .. } => format!("the custom material does not give `{key}`"),
            Self::TooManyPanels { panels } => format!("{panels} spans and overhangs are more than every set of which can be tried"),
            Self::TakenLetter { name } => format!("a load case of your own is called `{name}`, which is the letter of a case of the code"),
            Self::LaxLimit { key, .. } => format!("a floor's `{key}` is laxer than EN 1995-1-1, Figure 7.2 goes"),
        }
    }

    /// What to write instead.
    fn help(&self) -> String {
        let listed = |known: &mut dyn Iterator<Item = &str>| known.map(|k| format!("`{k}`")).collect::<Vec<_>>().join(", ");
        let or_nearest = |word: &str, known: &[&str]| match nearest(word, known.iter().copied()) {
            Some(meant) => format!("did you mean `{meant}`? known: {}", listed(&mut known.iter().copied())),
            None => format!("known: {}", listed(&mut known.iter().copied())),
        };
        match self {
            Self::UnknownWord { word, known, .. } => or_nearest(word, known),
            Self::UnknownClass { class, known } => or_nearest(class, &known.iter().map(String::as_str).collect::<Vec<_>>()),
            Self::NoSuchSection { name, known } => match nearest(name, known.iter().map(String::as_str)).filter(|_| !in_inches(name)) {
                Some(meant) => format!("did you mean `{meant}`? or give `{{width: 45 mm, depth: 195 mm}}`"),
                None => "write breadth and depth in mm, such as `45x195`, or `{width: 45 mm, depth: 195 mm}`".to_owned(),
            },
            Self::NoCountry { known, .. } => {
                format!("leave `country` out for the recommended values, or write one of {}", listed(&mut known.iter().copied()))
            }
            Self::CountryUnsure { known, .. } => format!(
                "leave `country` out for the recommended values and see to the differences by other means, or write one of {}",
                listed(&mut known.iter().copied())
            ),
            Self::NoExpressions { .. } => "leave `expressions` out: the country decides".to_owned(),
            Self::NoPsi { .. } => {
                "write `A` (domestic), `B` (offices), `C` (people congregate), `D` (shops), `E` (storage) or `H` (roofs)".to_owned()
            }
            Self::CategoryUnsure { .. } => {
                "give the load as a case of your own with its duration: `cases: {traffic: {like: live, duration: …}}`".to_owned()
            }
            Self::NoImposedLoad { .. } => "leave `use-category` out, or make the case `like: live`".to_owned(),
            Self::ServiceClass { .. } => {
                "service class 3 asks for an adhesive, laminations and protection that a class name does not tell: use solid timber, or \
                 keep the member in service class 1 or 2"
                    .to_owned()
            }
            Self::NotCoveredYet { help, .. } => (*help).to_owned(),
            Self::MissingValue { key, why } => format!("add `{key}: …` under `values` ({why})"),
            Self::TooManyPanels { .. } => format!("split the member: at most {} spans and overhangs", crate::codes::MOST_PANELS),
            Self::LaxLimit { bound, .. } => format!("write {bound}"),
            Self::TakenLetter { .. } => "give it a longer name, such as `storage`".to_owned(),
        }
    }

    /// The fault at its place.
    pub(super) fn at(&self, span: Span) -> Diagnostic {
        Diagnostic::new(self.id(), Severity::Error, self.message(), Label::bare(span)).with_help(self.help())
    }
}
