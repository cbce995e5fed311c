//! A row and what is read from it.

use super::range::Bounds;
use super::reading::Record;
use super::{Cell, Found, Range, Status, Table, status};
use crate::units::{Dimension, Q};

/// A row of a table.
#[derive(Clone, Copy, Debug)]
pub struct Row<'a> {
    pub(super) table: &'a Table,
    pub(super) record: &'a Record,
}

impl<'a> Row<'a> {
    /// The row by its keys: `Hem-Fir, No.2`.
    pub fn name(&self) -> String {
        let keys = || self.table.heading().keys.iter();
        self.record.name.get_or_init(|| keys().filter_map(|key| self.text(key)).collect::<Vec<_>>().join(", ")).clone()
    }

    /// The text of a cell; none where there is no value, or no such column.
    pub fn text(&self, column: &str) -> Option<&'a str> {
        self.text_at(self.table.place(column)?.0)
    }

    fn text_at(&self, place: usize) -> Option<&'a str> {
        self.record.cells.get(place).map(str::trim).filter(|text| !text.is_empty() && *text != "-")
    }

    /// The number of a cell as it stands there, whatever its unit.
    pub fn number(&self, column: &str) -> Option<Found<f64>> {
        Some(Found { value: self.bare(column)?, cell: self.cell(column)? })
    }

    /// The quantity of a cell, by the unit in the table's heading. None where there is no value, or the unit is of another dimension.
    pub fn quantity<D: Dimension>(&self, column: &str) -> Option<Found<Q<D>>> {
        let (_, unit) = self.table.place(column)?;
        let number = self.bare(column)?;
        (unit.exponents == D::EXPONENTS).then_some(Found { value: unit.of(number), cell: self.cell(column)? })
    }

    /// The cell of a column, whether or not it holds a value: where the absence of one is what matters.
    pub fn cell(&self, column: &str) -> Option<Cell> {
        let (place, _) = self.table.place(column)?;
        let said = self.text("status").unwrap_or_default();
        let statuses = self.record.statuses.get_or_init(|| status::of_columns(said, self.table.columns()));
        Some(Cell {
            table: self.table.cited().to_owned(),
            row: self.name(),
            column: column.to_owned(),
            status: statuses[place].clone().unwrap_or(Status::Memory),
            said: said.to_owned(),
        })
    }

    /// The number of a cell as it stands there, without the cell: where the same value is cited elsewhere.
    pub fn bare(&self, column: &str) -> Option<f64> {
        self.bare_at(self.table.place(column)?.0)
    }

    pub(super) fn bare_at(&self, place: usize) -> Option<f64> {
        self.text_at(place)?.parse().ok().filter(|number: &f64| number.is_finite())
    }

    /// The quantity of a cell without the cell.
    pub fn value<D: Dimension>(&self, column: &str) -> Option<Q<D>> {
        let (_, unit) = self.table.place(column)?;
        (unit.exponents == D::EXPONENTS).then_some(unit.of(self.bare(column)?))
    }

    /// The number of a cell in N, mm and s.
    pub fn base(&self, column: &str) -> Option<f64> {
        let (_, unit) = self.table.place(column)?;
        Some(self.bare(column)? * unit.factor)
    }

    /// Whether the row has a text in a column, or in its `…_also`.
    pub(super) fn has(&self, key: &Key<'_>) -> bool {
        let also = || self.text_at(key.also?);
        key.place.and_then(|place| self.text_at(place)).is_some_and(|known| same(known, key.text))
            || also().is_some_and(|all| all.split('|').any(|known| same(known, key.text)))
    }

    /// The range of this name; none if the table has no such range.
    pub fn range(&self, name: &str) -> Option<Range> {
        Some(Bounds::of(self.table, name)?.in_row(self))
    }
}

/// A text that a row is sought by, with the places of its column and of the column's `…_also`.
pub(super) struct Key<'k> {
    place: Option<usize>,
    also: Option<usize>,
    text: &'k str,
}

impl<'k> Key<'k> {
    /// Looks for the columns in a table.
    pub fn of(table: &Table, column: &str, text: &'k str) -> Self {
        let place = |column: &str| table.place(column).map(|(place, _)| place);
        Self { place: place(column), also: table.column(column, "also").and_then(place), text }
    }
}

/// The same letters; their case and blanks do not count. A table is asked a thousand times a member: nothing is built to compare.
fn same(a: &str, b: &str) -> bool {
    let (mut a, mut b) = (a.chars().filter(|c| !c.is_whitespace()), b.chars().filter(|c| !c.is_whitespace()));
    let mut any = false;
    loop {
        match (a.next(), b.next()) {
            (None, None) => return any,
            (Some(x), Some(y)) if x == y || x.to_lowercase().eq(y.to_lowercase()) => any = true,
            _ => return false,
        }
    }
}
