//! The account of factors of a member: its properties, and what they are multiplied by.

use super::{Kind, Time, Worked};
use crate::equation::{Letter, Step};
use crate::units::{decimals, figures};

/// The account of factors of a member: its properties and what they are multiplied by.
#[derive(Clone, Debug)]
pub struct Account {
    /// What stands over the names: `psi`.
    pub unit: &'static str,
    /// Properties.
    pub columns: Vec<AccountColumn>,
    /// Factors.
    pub rows: Vec<AccountRow>,
    /// Where the reference values come from.
    pub reference: String,
    /// Remark beside the reference values.
    pub remark: &'static str,
    /// Clause of the adjusted values.
    pub adjusted_reference: &'static str,
}

/// A property in the account; texts as printed.
#[derive(Clone, Debug)]
pub struct AccountColumn {
    /// Its letter.
    pub letter: &'static Letter,
    /// Before the factors.
    pub reference: String,
    /// After them.
    pub adjusted: String,
}

/// A factor in the account; texts as printed.
#[derive(Clone, Debug)]
pub struct AccountRow {
    /// Its letter.
    pub letter: &'static Letter,
    /// What it is for: `wet service`.
    pub name: &'static str,
    /// One a column; none where the clause has no such factor.
    pub values: Vec<Option<String>>,
    /// Why it has this value.
    pub because: String,
    /// Clause or table.
    pub reference: String,
}

/// What the worst check of each kind found, and the load duration that it was worked with.
#[derive(Clone, Debug)]
pub struct Leading<'a>(pub Vec<(Kind, &'a Worked, &'a Time)>);

impl<'a> Leading<'a> {
    /// The last line of a letter in the checks of a kind.
    pub(super) fn step(&self, kind: Kind, symbol: &str) -> Option<&'a Step> {
        self.0.iter().filter(|(of, ..)| *of == kind).find_map(|(_, worked, _)| worked.last(symbol))
    }

    /// The last line of a letter in any check, and the duration of that check.
    pub(super) fn any(&self, symbol: &str) -> Option<(&'a Step, &'a Time)> {
        self.0.iter().find_map(|(_, worked, time)| Some((worked.last(symbol)?, *time)))
    }

    /// The last line of a letter in the check that [`Self::any`] finds the first of these others in: a factor beside the value that it is in.
    pub(super) fn beside(&self, values: &[&str], symbol: &str) -> Option<&'a Step> {
        let of = |value: &&str| self.0.iter().find(|(_, worked, _)| worked.last(value).is_some());
        values.iter().find_map(of)?.1.last(symbol)
    }

    /// The duration that a check of a kind was worked with.
    pub(super) fn time(&self, kind: Kind) -> Option<&'a Time> {
        self.0.iter().find(|(of, ..)| *of == kind).map(|(.., time)| *time)
    }
}

/// A factor as printed: at least one place, at most four figures.
pub(super) fn factor(number: f64) -> String {
    let text = (1..=4).map(|places| decimals(number, places)).find(|t| t.parse::<f64>().is_ok_and(|v| (v - number).abs() < 1e-9));
    text.unwrap_or_else(|| figures(number, 4))
}
