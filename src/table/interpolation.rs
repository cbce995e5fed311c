//! Values between two rows.

use super::{Cell, Found, Row, Status, Table};
use crate::units::{Dimension, Q, ratio};

impl Table {
    /// The value of `column` where the number column `along` has this value (N, mm and s; plain without a unit), among the rows with
    /// these texts: a row's own value, or a straight line between the two rows around it, which the cell names. None outside the rows.
    pub fn interpolate<D: Dimension>(&self, keys: &[(&str, &str)], along: (&str, f64), column: &str) -> Option<Found<Q<D>>> {
        let (name, x) = along;
        let place = |row: &Row<'_>| row.base(name);
        let rows = || self.rows_with(keys).filter(|row| place(row).is_some());
        if let Some(row) = rows().find(|row| place(row).is_some_and(|at| ratio(at).at_most(x) && ratio(at).at_least(x))) {
            return row.quantity(column);
        }
        let by_place = |a: &Row<'_>, b: &Row<'_>| place(a).unwrap_or(f64::NAN).total_cmp(&place(b).unwrap_or(f64::NAN));
        let below = rows().filter(|row| place(row).is_some_and(|at| at < x)).max_by(by_place)?;
        let above = rows().filter(|row| place(row).is_some_and(|at| at > x)).min_by(by_place)?;
        let (x1, x2) = (place(&below)?, place(&above)?);
        let (low, high): (Found<Q<D>>, Found<Q<D>>) = (below.quantity(column)?, above.quantity(column)?);
        let part = (x - x1) / (x2 - x1);
        let value = Q::new(low.value.value() * (1.0 - part) + high.value.value() * part);
        Some(Found { value, cell: between(low.cell, high.cell) })
    }
}

/// The cell of a value between two: read only where both were.
fn between(low: Cell, high: Cell) -> Cell {
    let status = if low.status.is_read() && high.status.is_read() { low.status } else { Status::Memory };
    let said = if low.said == high.said { low.said } else { format!("{}; {}", low.said, high.said) };
    Cell { row: format!("between {} and {}", low.row, high.row), status, said, ..high }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{IN, Length, Ratio};

    #[test]
    fn lies_on_the_line_between_two_rows_and_on_the_rows_themselves() {
        let text = "# title: t\n# standard: Own\n# edition: 1\n# table: Table 2\n# keys: size\n# units: in for d\n# source: invented\n\
            # status: mixed\n# notes: none\nsize,d,k,status\nsmall,2,1.0,read (a page)\nlarge,4,2.0,from memory\n";
        let table = Table::parse("own.csv", text).unwrap();
        let at = |inches: f64| -> Option<Found<Ratio>> { table.interpolate(&[], ("d", (IN.of(inches) as Length).value()), "k") };
        assert_eq!(at(2.0).map(|f| (f.value, f.cell.row)), Some((Ratio::new(1.0), "small".into())));
        let middle = at(2.5).unwrap();
        assert!((middle.value.value() - 1.25).abs() < 1e-12);
        assert_eq!((middle.cell.row.as_str(), middle.cell.status), ("between small and large", Status::Memory));
        assert!(at(1.9).is_none() && at(4.1).is_none());
    }
}
