//! Where a quantity is zero: points of inflection, the place of no shear.

use crate::analysis::{Diagram, Quantity, SAME_PLACE, SAME_VALUE};

impl Diagram {
    /// The places from `from` to `to` where a quantity is zero or jumps through zero, from the left.
    ///
    /// A stretch on which it is zero throughout gives its two ends.
    pub fn zeros(&self, quantity: Quantity, from: f64, to: f64) -> Vec<f64> {
        let (from, to) = (from.min(to), from.max(to));
        let nothing = SAME_VALUE * self.size(quantity, from, to);
        let near = TOUCH * self.length();
        let mut zeros = Zeros { places: Vec::new(), stretch: false, near: SAME_PLACE * self.length() };
        let mut before = 0.0;
        for (piece, low, high) in self.within(from, to) {
            let polynomial = piece.polynomial(quantity);
            let h = piece.to - piece.from;
            if polynomial.0[0].abs() + polynomial.sway(h) <= nothing {
                zeros.stretch(piece.from + low, piece.from + high);
                before = 0.0;
                continue;
            }
            let (first, last) = (polynomial.at(low), polynomial.at(high));
            let (at_low, at_high) = (first.abs() <= nothing, last.abs() <= nothing);
            if at_low || before * first < 0.0 {
                zeros.point(piece.from + low);
            }
            let (roots, turns) = (polynomial.roots(h), piece.turning(quantity).roots(h));
            let touches = turns.as_slice().iter().filter(|&&x| polynomial.at(x).abs() <= nothing);
            let mut inside: Vec<f64> = roots.as_slice().iter().chain(touches).copied().collect();
            inside.retain(|&x| low < x && x < high && !(at_low && x - low < near) && !(at_high && high - x < near));
            inside.sort_by(f64::total_cmp);
            inside.dedup_by(|b, a| *b - *a < near);
            inside.into_iter().for_each(|x| zeros.point(piece.from + x));
            if at_high {
                zeros.point(piece.from + high);
            }
            before = if at_high { 0.0 } else { last };
        }
        zeros.places
    }
}

/// Where a diagram only touches zero, rounding can move its root this far, in lengths of the beam.
const TOUCH: f64 = 1e-6;

/// Places found so far, from the left, and whether the last one ends a stretch.
struct Zeros {
    places: Vec<f64>,
    stretch: bool,
    near: f64,
}

impl Zeros {
    fn point(&mut self, x: f64) {
        if self.places.last().is_none_or(|last| x - last > self.near) {
            self.places.push(x);
            self.stretch = false;
        }
    }

    /// A stretch that begins where another ended makes it longer.
    fn stretch(&mut self, from: f64, to: f64) {
        match self.places.last_mut() {
            Some(last) if self.stretch && from - *last <= self.near => *last = to,
            _ => {
                self.point(from);
                self.point(to);
                self.stretch = true;
            }
        }
    }
}
