//! The beam: what holds it, how it yields to shear, and the stiffness of its supports against turning, factored once.

use crate::analysis::{Load, Panel, SAME_PLACE, Support, Unstable};
use std::fmt;

/// A prismatic beam that can stand.
#[derive(Debug, Clone, PartialEq)]
pub struct Beam {
    pub(super) length: f64,
    pub(super) supports: Vec<Support>,
    /// EI over the shear stiffness; 0 for a beam that yields to bending alone.
    pub(super) shear: f64,
    factors: Factors,
}

/// L D Lᵀ of the tridiagonal matrix that gives the moments needed to turn the supports.
#[derive(Debug, Clone, PartialEq)]
struct Factors {
    diagonal: Vec<f64>,
    lower: Vec<f64>,
}

impl Beam {
    /// A beam of this length on these supports, which are given from left to right.
    ///
    /// # Errors
    /// If the length is no positive number, a support is not on the beam or not right of the one before, or the beam would turn.
    pub fn new(length: f64, supports: Vec<Support>) -> Result<Beam, Unstable> {
        if !(length > 0.0 && length.is_finite()) {
            return Err(Unstable::Length { length });
        }
        let near = SAME_PLACE * length;
        if let Some(&Support { at, .. }) = supports.iter().find(|s| !(s.at >= -near && s.at <= length + near)) {
            return Err(Unstable::Outside { at });
        }
        if let Some(pair) = supports.windows(2).find(|pair| pair[1].at - pair[0].at <= near) {
            return Err(Unstable::Order { at: pair[1].at });
        }
        if supports.len() < 2 && !supports.iter().any(|s| s.fixed) {
            return Err(Unstable::Free);
        }
        let supports: Vec<_> = supports.into_iter().map(|s| Support { at: on_end(s.at, length), ..s }).collect();
        let factors = Factors::of(&supports, 0.0);
        Ok(Beam { length, supports, shear: 0.0, factors })
    }

    /// The same beam yielding to shear too (Timoshenko): `ratio` is EI over the shear stiffness, 1.2 EI/(G A) of a rectangle; a length
    /// squared, never negative.
    ///
    /// Deflections take it in, and so does what spans hand one another over supports: its moments differ from those of the same beam
    /// without it wherever the beam is not one span.
    #[must_use]
    pub fn with_shear(self, ratio: f64) -> Beam {
        debug_assert!(ratio >= 0.0 && ratio.is_finite(), "a shear flexibility cannot be {ratio}");
        Beam { factors: Factors::of(&self.supports, ratio), shear: ratio, ..self }
    }

    /// Its whole length, overhangs included.
    pub fn length(&self) -> f64 {
        self.length
    }

    /// Its supports, from the left.
    pub fn supports(&self) -> &[Support] {
        &self.supports
    }

    /// Its spans and overhangs, from the left.
    pub fn panels(&self) -> Vec<Panel> {
        let held = |s: Option<&Support>| s.map_or(0.0, |s| s.at);
        let (first, last) = (held(self.supports.first()), held(self.supports.last()));
        let left = (first > 0.0).then_some(Panel { number: 0, from: 0.0, to: first, overhang: true });
        let spans = self.supports.windows(2).zip(1..);
        let spans = spans.map(|(pair, number)| Panel { number, from: pair[0].at, to: pair[1].at, overhang: false });
        let right = Panel { number: self.supports.len(), from: last, to: self.length, overhang: true };
        left.into_iter().chain(spans).chain((last < self.length).then_some(right)).collect()
    }

    /// Whether a load lies on this beam, runs from left to right and is a number: what [`Beam::solve_all`] asks of every load.
    pub fn carries(&self, load: &Load) -> bool {
        let near = SAME_PLACE * self.length;
        let on = |at: f64| at >= -near && at <= self.length + near;
        match *load {
            Load::Line { from, to, start, end } => on(from) && on(to) && from <= to && start.is_finite() && end.is_finite(),
            Load::Point { at, force } => on(at) && force.is_finite(),
            Load::Moment { at, moment } => on(at) && moment.is_finite(),
        }
    }

    /// The slopes at the supports under these moments on them; they are 0 at fixed ones.
    pub(super) fn slopes(&self, mut moments: Vec<f64>) -> Vec<f64> {
        let Factors { diagonal, lower } = &self.factors;
        for (moment, _) in moments.iter_mut().zip(&self.supports).filter(|(_, s)| s.fixed) {
            *moment = 0.0;
        }
        for i in 1..moments.len() {
            moments[i] -= lower[i - 1] * moments[i - 1];
        }
        for (moment, d) in moments.iter_mut().zip(diagonal) {
            *moment /= d;
        }
        for i in (1..moments.len()).rev() {
            moments[i - 1] -= lower[i - 1] * moments[i];
        }
        moments
    }
}

impl Factors {
    /// A span takes `near` at the end that turns and passes `far` to the other; a fixed support does not turn.
    fn of(supports: &[Support], shear: f64) -> Factors {
        let mut diagonal: Vec<f64> = supports.iter().map(|s| if s.fixed { 1.0 } else { 0.0 }).collect();
        let mut beside = Vec::with_capacity(supports.len());
        for (i, pair) in supports.windows(2).enumerate() {
            let (near, far) = turning(pair[1].at - pair[0].at, shear);
            for (j, support) in (i..).zip(pair) {
                diagonal[j] += if support.fixed { 0.0 } else { near };
            }
            beside.push(if pair[0].fixed || pair[1].fixed { 0.0 } else { far });
        }
        let mut lower = Vec::with_capacity(beside.len());
        for (i, b) in beside.into_iter().enumerate() {
            lower.push(b / diagonal[i]);
            diagonal[i + 1] -= lower[i] * b;
        }
        Factors { diagonal, lower }
    }
}

/// The moments at the near and the far end of a span that is turned by 1 at the near end: 4/l and 2/l, less what shear gives way.
pub(super) fn turning(length: f64, shear: f64) -> (f64, f64) {
    let give = 12.0 * shear / (length * length);
    ((4.0 + give) / ((1.0 + give) * length), (2.0 - give) / ((1.0 + give) * length))
}

/// The end of the beam itself, for a place within rounding of it.
fn on_end(at: f64, length: f64) -> f64 {
    let near = SAME_PLACE * length;
    if at <= near {
        0.0
    } else if at >= length - near {
        length
    } else {
        at
    }
}

impl fmt::Display for Unstable {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        match self {
            Unstable::Length { length } => write!(f, "a beam cannot be {length} long"),
            Unstable::Outside { at } => write!(f, "the support at {at} is not on the beam"),
            Unstable::Order { at } => write!(f, "the support at {at} is not to the right of the one before it"),
            Unstable::Free => write!(f, "a beam needs two supports, or one that is fixed"),
        }
    }
}

impl std::error::Error for Unstable {}
