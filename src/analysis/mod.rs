//! Statics of a straight beam on any number of supports: exact, and knowing nothing of wood, units or codes.
//!
//! A [`Beam`] is a length and its supports. It is prismatic (one EI throughout) and elastic; it yields to bending alone, or to shear
//! as well where [`Beam::with_shear`] says how much.
//! Each set of loads gives a [`Diagram`]: the reactions, and shear, moment, slope and deflection as polynomials from break to break.
//! Diagrams of one [`Beam::solve_all`] share their breaks, so that a load combination is [`Diagram::combine`], a weighted sum of
//! coefficients. Extremes are roots of polynomials, never the best of a row of samples.
//!
//! **Units.** Plain `f64`: N and mm are meant (N/mm, N mm), but any coherent set will do. The solver takes EI = 1: divide slopes
//! and deflections by EI.
//!
//! **Signs.** `x` runs to the right from the left end.
//!
//! | positive | |
//! | --- | --- |
//! | loads, deflection | down |
//! | reactions | up |
//! | shear | pushes the part on the left up: V = dM/dx |
//! | moment | sags, with tension at the bottom |
//! | applied moments, fixing moments, slope | clockwise |
//!
//! ```
//! use latewood::analysis::{Beam, Load, Quantity, Support};
//!
//! // Two spans of 3000 mm, 2 N/mm on the left one only.
//! let beam = Beam::new(6000.0, [0.0, 3000.0, 6000.0].map(|at| Support { at, fixed: false }).into())?;
//! let diagram = beam.solve(&[Load::Line { from: 0.0, to: 3000.0, start: 2.0, end: 2.0 }]);
//!
//! assert!((diagram.reactions[2] + 375.0).abs() < 1e-6); // the far end lifts
//! let moment = diagram.extremes(Quantity::Moment, 0.0, 6000.0);
//! assert!((moment.largest.x - 3000.0 * 7.0 / 16.0).abs() < 1e-6);
//! assert!((moment.smallest.value + 2.0 * 3000.0 * 3000.0 / 16.0).abs() < 1e-3);
//! # Ok::<(), latewood::analysis::Unstable>(())
//! ```
//!
//! Source of the method: slope-deflection equations of elastic beam theory (Euler-Bernoulli; Timoshenko where shear counts), common
//! practice; it is checked in the tests against closed forms.

mod beam;
mod crossing;
mod diagram;
mod envelope;
mod extremes;
mod polynomial;
mod solve;
mod zeros;

#[cfg(test)]
mod laws;
#[cfg(test)]
mod tests;

pub use beam::Beam;
pub use crossing::crossing;
pub use envelope::{Bounds, Envelope};
pub use polynomial::Polynomial;

/// A place where the beam is held.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Support {
    /// Distance from the left end.
    pub at: f64,
    /// Held against rotation too; against vertical movement it always is.
    pub fixed: bool,
}

/// A load on a beam. Places are measured from the left end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Load {
    /// A force per length, changing evenly from `start` to `end`; positive down.
    Line {
        /// Where it begins.
        from: f64,
        /// Where it ends, not left of `from`.
        to: f64,
        /// Force per length at `from`.
        start: f64,
        /// Force per length at `to`.
        end: f64,
    },
    /// A force; positive down. At a support it goes straight into the reaction.
    Point {
        /// Where it acts.
        at: f64,
        /// Its size.
        force: f64,
    },
    /// A moment; positive clockwise. The diagram jumps up by it.
    Moment {
        /// Where it acts.
        at: f64,
        /// Its size.
        moment: f64,
    },
}

/// A span or an overhang.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Panel {
    /// 0 for an overhang on the left, then the spans from 1, then the overhang on the right.
    pub number: usize,
    /// Its left end.
    pub from: f64,
    /// Its right end.
    pub to: f64,
    /// Held at one end only.
    pub overhang: bool,
}

/// Why a beam cannot be made of these supports.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Unstable {
    /// The length is not a positive number.
    Length {
        /// The length given.
        length: f64,
    },
    /// A support does not lie on the beam.
    Outside {
        /// Where it was put.
        at: f64,
    },
    /// A support does not lie to the right of the one before it.
    Order {
        /// Where it was put.
        at: f64,
    },
    /// Fewer than two supports, and none that is fixed: the beam would turn or fall.
    Free,
}

/// What a set of loads does to a beam.
///
/// Made by [`Beam::solve_all`]; those of one call have the same breaks and can be combined.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Diagram {
    /// One a support; positive up.
    pub reactions: Vec<f64>,
    /// The moment with which each support holds the beam; positive clockwise, 0 where the support is not fixed.
    pub fixing_moments: Vec<f64>,
    /// From the left end to the right one, without gaps.
    pub pieces: Vec<Piece>,
}

/// A stretch of the beam on which everything is one polynomial, in the distance from its own left end.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Its left end.
    pub from: f64,
    /// Its right end.
    pub to: f64,
    /// Force per length.
    pub load: Polynomial,
    /// Shear; its derivative is the load, negative.
    pub shear: Polynomial,
    /// Moment; its derivative is the shear.
    pub moment: Polynomial,
    /// Slope of the axis for EI = 1; its derivative is the moment, negative, less what shear adds to it.
    pub slope: Polynomial,
    /// Deflection for EI = 1; its derivative is the slope.
    pub deflection: Polynomial,
}

/// What a diagram can be asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// Shear.
    Shear,
    /// Moment.
    Moment,
    /// Deflection for EI = 1.
    Deflection,
}

/// From which side a place is seen; it matters where the diagram jumps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Just left of it.
    Left,
    /// Just right of it.
    Right,
}

/// A value and its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct At {
    /// Distance from the left end of the beam.
    pub x: f64,
    /// The value there.
    pub value: f64,
}

/// The largest and the smallest value on an interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extremes {
    /// The largest, with its sign.
    pub largest: At,
    /// The smallest, with its sign.
    pub smallest: At,
}

/// Places closer than this, in lengths of the beam, are one place.
const SAME_PLACE: f64 = 1e-9;

/// Values closer than this, in sizes of the terms they are summed from, are equal.
const SAME_VALUE: f64 = 1e-12;
