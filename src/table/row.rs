//! A row and what is read from it.

use super::{Cell, Found, Status, Table, status};
use crate::units::{Dimension, Q, ratio};

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
            table: self.table.heading().to_string(),
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
    pub(super) fn base(&self, column: &str) -> Option<f64> {
        let (_, unit) = self.table.place(column)?;
        Some(self.bare(column)? * unit.factor)
    }

    pub(super) fn has(&self, keys: &[(&str, &str)]) -> bool {
        keys.iter().all(|(column, text)| {
            let also = self.text(&format!("{column}_also")).unwrap_or_default();
            self.text(column).into_iter().chain(also.split('|')).any(|known| !known.is_empty() && same(known, text))
        })
    }

    /// Whether the number lies in the range of this name; no if the table has no such range.
    pub(super) fn holds(&self, name: &str, number: f64) -> bool {
        let x = ratio(number);
        let ends = ["from", "above", "to", "below"].map(|end| format!("{name}_{end}"));
        let [from, above, to, below] = ends.each_ref().map(|column| self.base(column));
        ends.iter().any(|column| self.table.place(column).is_some())
            && from.is_none_or(|bound| x.at_least(bound))
            && above.is_none_or(|bound| !x.at_most(bound))
            && to.is_none_or(|bound| x.at_most(bound))
            && below.is_none_or(|bound| !x.at_least(bound))
    }
}

fn same(a: &str, b: &str) -> bool {
    let letters = |text: &str| text.chars().filter(|c| !c.is_whitespace()).flat_map(char::to_lowercase).collect::<String>();
    letters(a) == letters(b)
}
