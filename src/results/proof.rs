//! The verification report: what published cases and tables that are law give on the machine where it was made.

use super::Program;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The whole report.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Proof {
    /// The version of the report's form.
    pub format: u32,
    /// What made it.
    pub program: Program,
    /// Whether every figure and every cell agrees, or differs as it is known to.
    pub agrees: bool,
    /// How much was compared.
    pub counts: Counts,
    /// Cases, by code; each says what stands behind its figures.
    pub cases: Vec<Case>,
    /// Tables that are law.
    pub laws: Vec<Law>,
    /// Short names of sources, and what they stand for.
    #[serde(default)]
    pub abbreviations: Vec<Abbreviation>,
    /// What could not be checked, with the reason.
    pub not_checked: Vec<NotChecked>,
    /// How our copies of the reference tables stand.
    pub tables: Vec<Standing>,
}

/// What stands behind a figure that is expected. A cell of a tabulated law is a kind of its own, and stands with its law.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// Printed by a source that was read: outside evidence.
    #[default]
    Published,
    /// Given by a closed form that was read in its source.
    ClosedForm,
    /// Worked by ourselves from the clauses or from a formula: it shows that the program does what we read, not that we read it well.
    OwnArithmetic,
    /// Given by a formula, or values, recalled from memory.
    FromMemory,
}

impl Kind {
    /// All of them, the strongest evidence first.
    pub const ALL: [Self; 4] = [Self::Published, Self::ClosedForm, Self::OwnArithmetic, Self::FromMemory];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::ClosedForm => "closed form",
            Self::OwnArithmetic => "own arithmetic",
            Self::FromMemory => "from memory",
        }
    }

    /// What it is worth.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Published => "printed by a source that was read",
            Self::ClosedForm => "given by a formula that was read in its source",
            Self::OwnArithmetic => "worked by ourselves from clauses or a formula: no outside evidence",
            Self::FromMemory => "given by a formula or by values recalled from memory",
        }
    }
}

/// Cases and figures of one kind.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OfKind {
    /// The kind.
    pub kind: Kind,
    /// Cases.
    pub cases: usize,
    /// Figures; a case of one kind may hold some of another.
    pub figures: usize,
    /// Figures outside their tolerance.
    pub outside: usize,
}

/// How much was compared.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Counts {
    /// Cases of every kind.
    pub cases: usize,
    /// Figures of them.
    pub figures: usize,
    /// The same by what stands behind them.
    #[serde(default)]
    pub kinds: Vec<OfKind>,
    /// Figures outside their tolerance.
    pub figures_outside: usize,
    /// Cells of tables that are law.
    pub cells: usize,
    /// Cells that differ.
    pub cells_differing: usize,
    /// Of these, cells that differ as they are known to.
    pub cells_known: usize,
}

/// A short name of a source.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Abbreviation {
    /// As it stands in the sources of the cases.
    pub short: String,
    /// What it stands for.
    pub meaning: String,
}

/// A case.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Case {
    /// Its name.
    pub id: String,
    /// The code.
    pub code: String,
    /// What it is.
    pub title: String,
    /// Where it was published.
    pub source: String,
    /// What stands behind its figures.
    #[serde(default)]
    pub kind: Kind,
    /// The same in the words of its file: `read`, `formula read; figures own arithmetic` …
    pub status: String,
    /// Why it could not be run; empty where it was.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub fault: String,
    /// Its figures.
    pub figures: Vec<Figure>,
}

/// A figure of a case.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Figure {
    /// What stands behind it.
    #[serde(default)]
    pub kind: Kind,
    /// Mark of the member.
    pub member: String,
    /// The check.
    pub check: String,
    /// The combination.
    pub combination: String,
    /// Where, where that matters.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub place: String,
    /// The letter, in plain characters.
    pub symbol: String,
    /// The letter as the typesetter has it; empty where no line of the program has it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub typst: String,
    /// The letter as it is said.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub words: String,
    /// The unit.
    pub unit: String,
    /// As printed, or as worked.
    pub expected: f64,
    /// As computed here; none where there is no such line.
    pub computed: Option<f64>,
    /// Computed less expected.
    pub difference: Option<f64>,
    /// How much they may differ, in the unit.
    pub tolerance: f64,
    /// Whether they agree.
    pub agrees: bool,
    /// Why the tolerance is what it is, or what was printed.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub because: String,
}

/// A table that is law.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Law {
    /// As it is cited.
    pub table: String,
    /// What it holds.
    pub title: String,
    /// The code whose values stand behind it.
    pub code: String,
    /// Where our copy was read.
    pub source: String,
    /// How our copy stands.
    pub status: String,
    /// What it rests on, as far as known.
    pub notes: String,
    /// Its cells.
    pub cells: Vec<Cell>,
}

/// A cell of a table that is law: a span.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Cell {
    /// The row and column, in words.
    pub what: String,
    /// As printed: `13-2`, or `over 26-0`.
    pub printed: String,
    /// The longest span that passes here, in the unit.
    pub computed: f64,
    /// The same as it would be printed.
    pub rounded: String,
    /// Computed less printed; none where the table has no number.
    pub difference: Option<f64>,
    /// The unit.
    pub unit: String,
    /// The check that stops it.
    pub governed_by: String,
    /// Whether they agree.
    pub agrees: bool,
    /// Whether they differ by as much as the model behind the table is known to miss the cell.
    pub known: bool,
    /// What is to be known of the cell.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub because: String,
}

/// Something that could not be checked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct NotChecked {
    /// What.
    pub what: String,
    /// Why.
    pub reason: String,
}

/// How our copy of a reference table stands.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Standing {
    /// The code.
    pub code: String,
    /// The table.
    pub table: String,
    /// Values read in the standard or in a document that reprints it.
    pub read: usize,
    /// Values computed from others.
    pub computed: usize,
    /// Values from memory.
    pub from_memory: usize,
    /// Of these, values that are the only ones that reproduce what a law prints.
    #[serde(default)]
    pub fixed: usize,
    /// Of these, values that were recalled by two readings that differ.
    #[serde(default)]
    pub recalled_twice: usize,
    /// The values from memory that nothing fixes, a row an entry: `Hem-Fir, No.3: F_t, F_c`.
    #[serde(default)]
    pub unconfirmed: Vec<String>,
}

impl Case {
    /// Whether it ran and every figure of it agrees.
    pub fn agrees(&self) -> bool {
        self.fault.is_empty() && self.figures.iter().all(|f| f.agrees)
    }
}

impl Law {
    /// How many cells agree.
    pub fn agreeing(&self) -> usize {
        self.cells.iter().filter(|c| c.agrees).count()
    }
}
