//! What rides along with a number.

use super::{Letter, Unit};

/// What stands beside a printed line.
#[derive(Clone, Copy, Debug)]
pub struct Line {
    /// Its clause or table.
    pub clause: &'static str,
    /// Why it is so, where there is a choice; may be empty.
    pub because: &'static str,
    /// The expression as written, so that its literals print as the standard has them (1.20, not 1.2).
    pub source: &'static str,
}

/// Nothing (`()`, inlined away), or a pen that writes the calculation down (in [`crate::equation`]).
///
/// The number is computed by [`Q`](super::Q) alone; a trace only hears of it, so plain and traced values are equal to the last bit.
pub trait Trace: Copy {
    /// Hears of a number written in the equation itself, in N, mm and s, and of the unit it is written in.
    fn literal(self, value: f64, unit: &'static Unit) -> Self;
    /// Hears of an operation on one value.
    fn unary(self, op: Op) -> Self;
    /// Hears of an operation on two values.
    fn binary(self, op: Op, other: Self) -> Self;
    /// Hears that a value was given a symbol, and so became a step of the calculation.
    fn name(self, letter: &'static Letter, value: f64, line: Line) -> Self;
}

/// An operation of the equations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Op {
    /// `a + b`
    Add,
    /// `a − b`
    Sub,
    /// `a b`
    Mul,
    /// `a / b`
    Div,
    /// The smaller.
    Min,
    /// The larger.
    Max,
    /// `√a`
    Sqrt,
    /// `a²`
    Square,
    /// `a³`
    Cube,
    /// `aⁿ`
    Power(f64),
    /// `ln a`
    Ln,
    /// `a` to the power `b`, of the number in the unit of the line
    Raise,
}

impl Trace for () {
    #[inline(always)]
    fn literal(self, _: f64, _: &'static Unit) {}
    #[inline(always)]
    fn unary(self, _: Op) {}
    #[inline(always)]
    fn binary(self, _: Op, (): ()) {}
    #[inline(always)]
    fn name(self, _: &'static Letter, _: f64, _: Line) {}
}
