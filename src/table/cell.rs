//! A value and the place it was read from.

use super::Status;

/// A cell of a table, as it is cited.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cell {
    /// The table as printed: `NDS Supplement 2018 Table 4A`.
    pub table: String,
    /// The row by its keys: `Hem-Fir, No.2`.
    pub row: String,
    /// The column: `F_b`.
    pub column: String,
    /// Whether the value was read.
    pub status: Status,
    /// What the row says of itself, in full.
    pub said: String,
}

/// A value with the cell that it stands in.
#[derive(Clone, Debug, PartialEq)]
pub struct Found<V> {
    /// The value.
    pub value: V,
    /// Where it stands.
    pub cell: Cell,
}
