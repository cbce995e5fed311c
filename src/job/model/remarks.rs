//! What others say of a package: a reviewer's comments, an independent checker's numbers.

use super::{Date, Placed};
use crate::units::Ratio;

/// A remark of a reviewer and the reply to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Comment {
    /// Its number in the reviewer's list.
    pub number: String,
    /// The remark.
    pub comment: String,
    /// The reply; none: still open.
    pub reply: Option<String>,
    /// Mark of the member whose sheet shows it.
    pub mark: Option<Placed<String>>,
    /// Part of the package that shows it.
    pub part: Option<&'static str>,
    /// Whose remark it is.
    pub from: Option<String>,
}

/// An independent checker and their numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct Checker {
    /// Who made them.
    pub by: String,
    /// When.
    pub date: Date,
    /// By what means.
    pub means: Option<String>,
    /// The numbers, in file order.
    pub numbers: Vec<CheckerNumber>,
}

/// A number of an independent checker.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckerNumber {
    /// Mark of the member.
    pub mark: Placed<String>,
    /// The check.
    pub check: &'static str,
    /// Demand over capacity.
    pub ratio: Ratio,
    /// The demand.
    pub demand: Option<Amount>,
    /// The capacity.
    pub capacity: Option<Amount>,
    /// The combination.
    pub combination: Option<String>,
    /// A remark.
    pub remark: Option<String>,
}

/// A stress, force, moment or length as somebody else wrote it.
#[derive(Clone, Debug, PartialEq)]
pub struct Amount {
    /// As written.
    pub text: String,
    /// What it is: one of [`crate::units::kinds`].
    pub kind: &'static str,
    /// In N and mm.
    pub value: f64,
}
