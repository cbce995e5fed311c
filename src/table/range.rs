//! A range of numbers as the columns of a row give it.

use super::{Row, Table};
use crate::units::{Unit, ratio};

/// The numbers that a row is for, in N, mm and s; what is not given does not bound it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// This or more.
    pub from: Option<f64>,
    /// More than this.
    pub above: Option<f64>,
    /// This or less.
    pub to: Option<f64>,
    /// Less than this.
    pub below: Option<f64>,
}

impl Range {
    /// Whether a number lies in it, but for the last bits.
    pub fn holds(&self, number: f64) -> bool {
        let x = ratio(number);
        self.from.is_none_or(|bound| x.at_least(bound))
            && self.above.is_none_or(|bound| !x.at_most(bound))
            && self.to.is_none_or(|bound| x.at_most(bound))
            && self.below.is_none_or(|bound| !x.at_least(bound))
    }
}

/// Where a table has the columns of a range, with their units.
pub(super) struct Bounds([Option<(usize, &'static Unit)>; 4]);

impl Bounds {
    /// The columns of the range of this name; none if the table has no such range.
    pub fn of(table: &Table, name: &str) -> Option<Self> {
        let places = ["from", "above", "to", "below"].map(|end| table.column(name, end).and_then(|column| table.place(column)));
        places.iter().any(Option::is_some).then_some(Self(places))
    }

    /// The range in a row.
    pub fn in_row(&self, row: &Row<'_>) -> Range {
        let [from, above, to, below] = self.0.map(|place| place.and_then(|(place, unit)| Some(row.bare_at(place)? * unit.factor)));
        Range { from, above, to, below }
    }
}
