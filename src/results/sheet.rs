//! What is found out about one member: its sheet in numbers.

use super::Value;
use crate::codes::Verdict;
use crate::equation::Step;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// A member's results.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Member {
    /// Its mark.
    pub mark: String,
    /// What it does.
    #[serde(rename = "use")]
    pub role: String,
    /// What its checks come to.
    pub verdict: Verdict,
    /// Why it does not pass though no check fails, in words: a load in no strength combination, a check asked for that could not be made.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub unmade: Vec<String>,
    /// Its section.
    pub section: Section,
    /// Its material.
    pub material: Material,
    /// What governs.
    pub governing: Governing,
    /// Loads as analysed, each with where it comes from.
    pub loads: Vec<Load>,
    /// Cases of which the member bears a part only, by the area that it bears; what it hands down is whole.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub reduced: Vec<Reduced>,
    /// How much the load of each case on this member may grow, the others standing, before the governing ratio is 1.
    #[serde(default)]
    pub reserve: Vec<Reserve>,
    /// Reactions by support.
    pub reactions: Vec<Reaction>,
    /// The account of factors.
    pub account: Account,
    /// The worst check of each kind, governing first.
    pub checks: Vec<Check>,
    /// Every deflection against its limit.
    pub deflections: Vec<Deflection>,
    /// Governing diagrams.
    pub diagrams: Vec<Diagram>,
    /// Largest and smallest of all load sets, for drawing.
    pub envelopes: Vec<Envelope>,
    /// How many load sets (patterns and arrangements) were tried.
    pub load_sets: usize,
    /// Ids of the assumptions that this member uses, by what they are about: `top edge`, `moisture` …
    pub assumed: BTreeMap<String, String>,
    /// Notes of the engineer's and of the program.
    pub notes: Vec<String>,
    /// What was not checked.
    pub not_checked: Vec<String>,
}

/// A section.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Section {
    /// Catalogue name, or the size.
    pub name: String,
    /// The dressed size in words: `1-1/2 × 9-1/4 in`; empty where the name says it.
    #[serde(default)]
    pub size: String,
    /// Width of all plies together.
    pub width: Value,
    /// Depth.
    pub depth: Value,
    /// Plies.
    pub plies: u32,
    /// The table it is from, or why not.
    pub reference: String,
    /// Area, section modulus, second moment of area, of all plies.
    pub properties: Vec<Property>,
}

/// A property of a section.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Property {
    /// Its letter.
    pub symbol: String,
    /// As printed.
    pub printed: String,
    /// Its value.
    pub value: Value,
}

/// A material.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Material {
    /// Species and grade, or class.
    pub name: String,
    /// The table it was read from, or the stated source.
    pub table: String,
    /// The row.
    pub cell: String,
}

impl Member {
    /// Whether a check governs it; none does where nothing was checked.
    pub fn is_governed(&self) -> bool {
        self.checks.iter().any(|check| check.governs)
    }
}

/// What governs a member.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Governing {
    /// Check.
    pub check: String,
    /// Span from the left, overhangs 0 and n + 1; none for a bearing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub span: Option<usize>,
    /// Support, of a bearing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub support: Option<usize>,
    /// Combination.
    pub combination: String,
    /// Ratio; `null`: no finite ratio, it fails.
    #[serde(with = "super::written")]
    #[schemars(with = "Option<f64>")]
    pub ratio: f64,
}

impl Governing {
    /// In the place of a check where none was made.
    pub const NONE: &str = "none";
}

/// A load as analysed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Load {
    /// Its case.
    pub case: String,
    /// `line`, `point`, `moment` or `axial`.
    pub kind: String,
    /// From here (or at), from the left end, along the member as analysed.
    pub from: Value,
    /// To here; as `from` for a point or a moment.
    pub to: Value,
    /// At `from`.
    pub start: Value,
    /// At `to`.
    pub end: Value,
    /// Where it comes from.
    pub because: String,
    /// Whether it acts across the depth of a member that leans, and so bends it about its weak axis.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub across: bool,
    /// Mark of the member that hands it down; empty if none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub from_member: String,
    /// Its support that hands it down, from 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from_support: Option<usize>,
}

/// A case that is reduced by the area that the member bears.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Reduced {
    /// The case.
    pub case: String,
    /// The load on a surface before.
    pub from: Value,
    /// After.
    pub to: Value,
    /// The part that stays.
    pub factor: f64,
    /// How it comes about.
    pub steps: Vec<Step>,
}

/// How much a case may grow.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Reserve {
    /// The case.
    pub case: String,
    /// The factor on this case alone; below 1 where the member fails, 0 where it fails without the case too; none: without bound.
    pub factor: Option<f64>,
    /// The check that stops it; empty where none does.
    pub governed_by: String,
}

/// Reaction of a support, positive upward.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Reaction {
    /// Support, from 1.
    pub support: usize,
    /// Where, from the left end.
    pub at: Value,
    /// Bearing length, where given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bearing: Option<Value>,
    /// Each case on all spans.
    pub by_case: BTreeMap<String, Value>,
    /// The largest of all strength combinations and load sets.
    pub largest: InCombination,
    /// The smallest.
    pub smallest: InCombination,
    /// Each case by the pattern that makes it largest, where it differs from `by_case` (reading 5).
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub handed_down: BTreeMap<String, Value>,
    /// Each case by the pattern that makes it smallest, where it differs.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub handed_down_smallest: BTreeMap<String, Value>,
    /// The outward thrust at the heel of a rafter on a ridge board, by case.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub thrust: BTreeMap<String, Value>,
    /// The marks of the members, or the names of the supports, that receive it.
    pub received_by: String,
    /// What `received_by` is: `member` where a member is among them, `named`, `deferred` (an X- part) or `nobody`.
    pub receiver: String,
    /// Each of them; several where the row that the member is of rests partly on each.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub receivers: Vec<Receiver>,
}

/// What receives a reaction.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Receiver {
    /// Its mark, its name, or the id of the deferred part.
    pub name: String,
    /// `member`, `named` or `deferred`.
    pub kind: String,
}

impl Reaction {
    /// What receives it that is of a kind.
    pub fn received_by_kind<'r>(&'r self, kind: &'r str) -> impl Iterator<Item = &'r str> {
        self.receivers.iter().filter(move |receiver| receiver.kind == kind).map(|receiver| receiver.name.as_str())
    }
}

/// A force in a combination.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InCombination {
    /// Its name.
    pub combination: String,
    /// The force.
    pub force: Value,
}

/// The account of factors: one column a property, a row a factor.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Account {
    /// What stands over the names: `psi`.
    pub unit: String,
    /// Properties: letter (Typst), plain letter, words, values as printed before and after the factors, in the code's words.
    pub columns: Vec<AccountColumn>,
    /// Factors.
    pub rows: Vec<AccountRow>,
    /// Where the reference values come from.
    pub reference: String,
    /// Remark beside the reference values: `E in 10^6 psi`.
    pub remark: String,
    /// Clause of the adjusted values.
    pub adjusted_reference: String,
}

/// A column of the account.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct AccountColumn {
    /// Letter in plain characters.
    pub symbol: String,
    /// Letter as Typst math.
    pub typst: String,
    /// Letter in words.
    pub words: String,
    /// Reference value as printed.
    pub reference: String,
    /// Adjusted value as printed.
    pub adjusted: String,
}

/// A row of the account.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct AccountRow {
    /// Letter in plain characters.
    pub symbol: String,
    /// Letter as Typst math.
    pub typst: String,
    /// Letter in words.
    pub words: String,
    /// Name of the factor.
    pub name: String,
    /// One a column, as printed; empty where the clause has no such factor.
    pub values: Vec<String>,
    /// Why it has this value.
    pub because: String,
    /// Clause or table.
    pub reference: String,
}

/// A quantity of a check.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Side {
    /// Letter in plain characters.
    pub symbol: String,
    /// Value; `null`: not a number.
    #[serde(deserialize_with = "crate::equation::number_or_null")]
    #[schemars(with = "Option<f64>")]
    pub value: f64,
    /// Unit.
    pub unit: String,
}

/// A check.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Check {
    /// Its name (see the results contract).
    pub check: String,
    /// What tells it from another check of its name on the same member, in words: `end grain`, `on the top`; empty where nothing has to.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub what: String,
    /// Its clause.
    pub clause: String,
    /// Combination.
    pub combination: String,
    /// The load set, in words: `live load on spans 1 and 2`; empty where there is only one.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub load_set: String,
    /// Span, from the left; overhangs 0 and n + 1; none for a bearing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub span: Option<usize>,
    /// Support, of a bearing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub support: Option<usize>,
    /// Where, from the left end along the member.
    pub at: Value,
    /// Where, in words: `at mid-span`, `over support 2`, `at d from the face of support 1`.
    pub place: String,
    /// Demand.
    pub demand: Side,
    /// Capacity.
    pub capacity: Side,
    /// Demand over capacity; `null`: no finite ratio, it fails.
    #[serde(with = "super::written")]
    #[schemars(with = "Option<f64>")]
    pub ratio: f64,
    /// Whether it passes.
    pub passes: bool,
    /// Whether it governs the member.
    pub governs: bool,
    /// Whether it is the worst of its kind: that one is shown in full; the others stand in its `others` in short.
    pub leading: bool,
    /// Its lines; only a ratio where it stands for others (`--all-combinations`).
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<Step>,
    /// The worst of the same check in other combinations and at other places, in short: what, ratio.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub others: Vec<Other>,
    /// Remarks: preconditions, what the clause excludes.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub remarks: Vec<String>,
}

/// A check that lost.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Other {
    /// Combination, or place, with its duration factor where that matters: `D (C_D 0.9)`, `support 3`.
    pub what: String,
    /// Its ratio; `null`: no finite ratio, it fails.
    #[serde(with = "super::written")]
    #[schemars(with = "Option<f64>")]
    pub ratio: f64,
}

/// A deflection against its limit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Deflection {
    /// `live`, `total`, `long-term` …
    pub what: String,
    /// The combination as printed: `0.5 D + L`.
    pub combination: String,
    /// Span, from the left; overhangs 0 and n + 1.
    pub span: usize,
    /// Where.
    pub at: Value,
    /// How much, down positive.
    pub value: Value,
    /// The limit; none where it is shown only.
    pub limit: Option<Value>,
    /// How the limit was said: `L/360`, `2L/360`; empty where there is none.
    pub limit_as: String,
    /// Ratio; none where there is no limit.
    pub ratio: Option<f64>,
    /// The assumption or clause that chose the limit.
    pub reference: String,
}

/// A diagram as polynomial pieces.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Diagram {
    /// Combination.
    pub combination: String,
    /// The load set, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub load_set: String,
    /// `shear`, `moment` or `deflection`.
    pub quantity: String,
    /// Unit of the quantity.
    pub unit: String,
    /// Pieces from the left.
    pub pieces: Vec<Piece>,
    /// Extremes to be labelled.
    pub extremes: Vec<Extreme>,
    /// Panels (0 left overhang, 1 … n, n + 1) without live load in this load set; empty where all are loaded.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub off_panels: Vec<usize>,
}

/// A piece of a diagram: coefficients of 1, x, x² …, x from the piece's `from`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Piece {
    /// From here.
    pub from: Value,
    /// To here.
    pub to: Value,
    /// Coefficients, in the units of `from` and of the quantity.
    pub polynomial: Vec<f64>,
}

/// An extreme of a diagram.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Extreme {
    /// Where.
    pub at: Value,
    /// How much.
    pub value: f64,
}

/// Largest and smallest of all load sets, sampled for drawing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Envelope {
    /// `shear`, `moment` or `deflection`.
    pub quantity: String,
    /// Unit of the quantity.
    pub unit: String,
    /// Unit of the places.
    pub at_unit: String,
    /// Place, smallest, largest.
    pub points: Vec<[f64; 3]>,
    /// Extremes to be labelled (one a panel, where larger than the governing curve's).
    pub extremes: Vec<Extreme>,
}
