//! The equation, written once.
//!
//! A check is a function generic over a [`Trace`]. Run on `()` it is arithmetic at the speed of hand-written f64. Run on a [`Pen`] it
//! leaves every operation on a [`Tape`], and the tape prints each line as symbols, as numbers, in plain characters and in words.
//! The number on paper and the number computed come from one expression, so they cannot disagree.
//!
//! [`eq!`](crate::eq) binds a name and makes it a step; [`given!`](crate::given) declares what a check is given and its traced twin;
//! [`notation!`](crate::notation) declares a code's letters.

mod expression;
mod macros;
mod print;
mod rework;
mod step;
mod tape;

pub use crate::units::{Letter, Line, Trace};
pub(crate) use step::number_or_null;
pub use step::{Equation, Step};
pub use tape::{Coherent, Fact, Facts, OfDimension, Pen, Symbol, Tape};

/// The reference of a load that a closed form starts from; the results say of which cases it is made.
pub const LOADS: &str = "loads";

#[cfg(test)]
mod tests;
