//! A deflection that a code limits or shows, and what is left of it where some of its cases are absent.

use super::combination::own_name;
use super::{Code, Combination, Purpose, name_of, together};
use crate::job::model::{Basis, Case, DeflectionLimit, DeflectionOf, Nature};

/// How a deflection is called.
#[derive(Clone, Debug, PartialEq)]
pub enum Title {
    /// By factors, with words behind them: `G + 0.7 Q with creep`.
    Factors {
        /// The factors as printed.
        shown: Vec<(Case, f64)>,
        /// The words behind them.
        after: &'static str,
    },
    /// By the engineer's own name.
    Own(String),
}

/// A deflection that a code limits, or shows.
#[derive(Clone, Debug)]
pub struct DeflectionCase {
    /// What it is of.
    pub what: DeflectionOf,
    /// As printed: `0.5 D + L`.
    pub combination: String,
    /// Factors by case.
    pub factors: Vec<(Case, f64)>,
    /// What its name is made of.
    pub title: Title,
    /// The nature that leads it; none where the code does not tell one from the others.
    pub leading: Option<Nature>,
    /// The limit; none: shown only.
    pub limit: Option<DeflectionLimit>,
    /// The camber that is taken off it, mm.
    pub camber: f64,
    /// The clause or assumption behind it.
    pub reference: String,
    /// Whether all cases of a nature count by one factor, so that a check may tell the natures apart.
    pub by_nature: bool,
    /// The load sets in which it is looked at; none: all that make a difference.
    pub within: Option<Vec<usize>>,
}

impl DeflectionCase {
    /// The combination that it is of.
    pub fn combined(&self) -> Combination {
        Combination {
            name: self.combination.clone(),
            number: String::new(),
            purpose: Purpose::Deflection,
            factors: self.factors.clone(),
            time: None,
            duration: None,
            class: String::new(),
            time_printed: String::new(),
            own: false,
            complete: true,
            superior: None,
            reference: self.reference.clone(),
        }
    }

    /// The deflection with these of its cases only.
    pub fn with(&self, code: &dyn Code, basis: &Basis, factors: Vec<(Case, f64)>) -> Self {
        let left = |(case, _): &&(Case, f64)| factors.iter().any(|(c, _)| c == case);
        let (combination, title) = match &self.title {
            Title::Own(name) => (own_name(code, basis, name, &self.factors, &factors), self.title.clone()),
            Title::Factors { shown, after } => {
                let shown: Vec<(Case, f64)> = shown.iter().filter(left).copied().collect();
                (titled(code, basis, &shown, after), Title::Factors { shown, after })
            }
        };
        Self { combination, factors, title, ..self.clone() }
    }

    /// The same deflection once for every largest set of its cases in which no two exclude each other.
    pub fn alternatives(&self, code: &dyn Code, basis: &Basis) -> Vec<Self> {
        together(basis, &self.factors).into_iter().map(|factors| self.with(code, basis, factors)).collect()
    }
}

/// The name of a deflection by its factors, with words behind them.
pub fn titled(code: &dyn Code, basis: &Basis, shown: &[(Case, f64)], after: &str) -> String {
    let name = name_of(code, basis, shown);
    if after.is_empty() { name } else { format!("{name} {after}") }
}
