//! A span table: the longest span that passes, by material, section and spacing.

use super::{Program, Value};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The whole table.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpanTable {
    /// The version of the table's form.
    pub format: u32,
    /// What made it.
    pub program: Program,
    /// `american`, `canadian`, `european`.
    pub code: String,
    /// Edition, method, loading standard.
    pub basis: Vec<String>,
    /// What the members do.
    #[serde(rename = "use")]
    pub role: String,
    /// Area loads by case, as asked for.
    pub loads: Vec<[String; 2]>,
    /// Deflection limits as asked for; those left out are the code's.
    pub limits: Vec<[String; 2]>,
    /// How the printed spans are rounded.
    pub rounding: String,
    /// The columns: spacings as asked for.
    pub spacings: Vec<String>,
    /// The rows.
    pub rows: Vec<SpanRow>,
    /// What the table takes for granted.
    pub assumptions: Vec<String>,
    /// What was not checked.
    pub not_checked: Vec<String>,
}

/// A row: one material and section.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpanRow {
    /// The material.
    pub material: String,
    /// The section.
    pub section: String,
    /// One a spacing; none where the code's tables have no such member.
    pub cells: Vec<Option<SpanCell>>,
}

/// The longest span that passes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpanCell {
    /// The span at which the governing ratio is 1; none where `printed` says `no bound` (no check stops it within 100 m), `none passes` or
    /// `not checked`.
    pub span: Option<Value>,
    /// As printed, rounded: `13-2` is 13 ft 2 in.
    pub printed: String,
    /// The check that stops it.
    pub governed_by: String,
}
