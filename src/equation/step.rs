//! A line of calculation as it is printed.

use schemars::JsonSchema;
use serde::{Deserialize, Deserializer, Serialize};

/// One line: a letter, its value, where it comes from, and the equation behind it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Step {
    /// The letter in plain characters.
    pub symbol: String,
    /// The letter as Typst math.
    pub typst: String,
    /// The letter in words.
    pub words: String,
    /// The value in `unit`, rounded to ten figures; `null`: not a number.
    #[serde(deserialize_with = "crate::equation::number_or_null")]
    #[schemars(with = "Option<f64>")]
    pub value: f64,
    /// The unit it is shown in; empty for a ratio.
    pub unit: String,
    /// The value as printed.
    pub printed: String,
    /// Clause or table.
    pub reference: String,
    /// The reason, where there is a choice; may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub because: String,
    /// The equation; none for a value that the calculation starts from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub equation: Option<Equation>,
}

/// Reads a number of a document; one that is not a number stands there as `null`.
pub(crate) fn number_or_null<'d, D: Deserializer<'d>>(from: D) -> Result<f64, D::Error> {
    Ok(Option::deserialize(from)?.unwrap_or(f64::NAN))
}

/// An equation in its forms.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Equation {
    /// Letters, in plain characters.
    pub plain: String,
    /// Numbers, in plain characters.
    pub substituted: String,
    /// Letters, as Typst math.
    pub typst: String,
    /// Numbers, as Typst math.
    pub typst_substituted: String,
    /// The whole line in words, for those who cannot see it.
    pub words: String,
    /// The printed numbers would need more figures than is sensible to give the printed result: it was worked with unrounded values.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub unrounded: bool,
}
