//! A row and what is read from it.

use super::{Cell, Found, Range, Status, Table, status};
use crate::units::{Dimension, Q};

/// A row of a table.
#[derive(Clone, Copy, Debug)]
pub struct Row<'a> {
    pub(super) table: &'a Table,
    pub(super) cells: &'a csv::StringRecord,
}

impl<'a> Row<'a> {
    /// The row by its keys: `Hem-Fir, No.2`.
    pub fn name(&self) -> String {
        let keys = self.table.heading().keys.iter();
        keys.filter_map(|key| self.text(key)).collect::<Vec<_>>().join(", ")
    }

    /// The text of a cell; none where there is no value, or no such column.
    pub fn text(&self, column: &str) -> Option<&'a str> {
        let (place, _) = self.table.place(column)?;
        self.cells.get(place).map(str::trim).filter(|text| !text.is_empty() && *text != "-")
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
        self.table.place(column)?;
        let said = self.text("status").unwrap_or_default();
        Some(Cell {
            table: self.table.cited().to_owned(),
            row: self.name(),
            column: column.to_owned(),
            status: status::of(said, column).unwrap_or(Status::Memory),
            said: said.to_owned(),
        })
    }

    /// The number of a cell as it stands there, without the cell: where the same value is cited elsewhere.
    pub fn bare(&self, column: &str) -> Option<f64> {
        self.text(column)?.parse().ok().filter(|number: &f64| number.is_finite())
    }

    /// The number of a cell in N, mm and s.
    pub fn base(&self, column: &str) -> Option<f64> {
        let (_, unit) = self.table.place(column)?;
        Some(self.bare(column)? * unit.factor)
    }

    /// Whether the row has these texts in these columns, or in their `…_also`.
    pub fn has(&self, keys: &[(&str, &str)]) -> bool {
        keys.iter().all(|(column, text)| {
            let also = || self.text(self.table.column(column, "also")?);
            self.text(column).is_some_and(|known| same(known, text))
                || also().is_some_and(|all| all.split('|').any(|known| same(known, text)))
        })
    }

    /// The range of this name; none if the table has no such range.
    pub fn range(&self, name: &str) -> Option<Range> {
        let columns = ["from", "above", "to", "below"].map(|end| self.table.column(name, end));
        let [from, above, to, below] = columns.map(|column| self.base(column?));
        columns.iter().any(Option::is_some).then_some(Range { from, above, to, below })
    }

    /// Whether the number lies in the range of this name; no if the table has no such range.
    pub fn holds(&self, name: &str, number: f64) -> bool {
        self.range(name).is_some_and(|range| range.holds(number))
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
