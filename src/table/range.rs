//! A range of numbers as the columns of a row give it.

use crate::units::ratio;

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
