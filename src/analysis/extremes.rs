//! The largest and the smallest value: ends of pieces, and roots of the derivative between them.

use crate::analysis::{At, Diagram, Extremes, Piece, Quantity, SAME_PLACE, SAME_VALUE};

impl Diagram {
    /// The largest and the smallest value from `from` to `to`, and where.
    ///
    /// Jumps inside the interval are seen from both sides, a jump at an end of it from inside only: over one panel the shear is
    /// that of the panel. Where the value stays at its extreme over a stretch, the place is the middle of the stretch;
    /// where it is reached at several places, the first from the left. An interval of no length takes both sides.
    /// The two ends may be given in either order. Off the beam the value is 0.
    pub fn extremes(&self, quantity: Quantity, from: f64, to: f64) -> Extremes {
        let (from, to) = (from.min(to), from.max(to));
        let tie = SAME_VALUE * self.size(quantity, from, to);
        let near = NEIGHBOUR * self.length();
        let (mut largest, mut smallest) = (Best::new(tie, near), Best::new(tie, near));
        let mut offer = |from: f64, to: f64, value: f64| {
            largest.offer(from, to, value);
            smallest.offer(from, to, -value);
        };
        for (piece, low, high) in self.within(from, to) {
            let polynomial = piece.polynomial(quantity);
            let h = piece.to - piece.from;
            if polynomial.sway(h) <= tie {
                offer(piece.from + low, piece.from + high, polynomial.at(0.5 * (low + high)));
                continue;
            }
            let mut point = |x: f64| offer(piece.from + x, piece.from + x, polynomial.at(x));
            point(low);
            piece.turning(quantity).roots(h).as_slice().iter().filter(|&&x| low < x && x < high).for_each(|&x| point(x));
            point(high);
        }
        let at = |best: Best, sign: f64| match best.found {
            // A piece's own coordinate and back can end a rounding outside the interval.
            Some((start, end, value)) => At { x: (0.5 * (start + end)).max(from).min(to), value: sign * value },
            None => At { x: 0.5 * (from + to), value: 0.0 },
        };
        Extremes { largest: at(largest, 1.0), smallest: at(smallest, -1.0) }
    }

    /// The pieces that overlap an interval, each with the overlap in its own coordinate.
    pub(super) fn within(&self, from: f64, to: f64) -> impl Iterator<Item = (&Piece, f64, f64)> {
        let near = SAME_PLACE * self.length();
        let skip = self.pieces.partition_point(|piece| piece.to < from - near);
        self.pieces[skip..].iter().take_while(move |piece| piece.from <= to + near).filter_map(move |piece| {
            let (low, high) = (from.max(piece.from), to.min(piece.to));
            let overlaps = high - low > near || to - from <= near;
            overlaps.then(|| (piece, (low - piece.from).min(piece.to - piece.from), (high - piece.from).max(0.0)))
        })
    }

    /// A bound on the size of a quantity on an interval, from the sizes of its terms: what rounding is measured by.
    pub(super) fn size(&self, quantity: Quantity, from: f64, to: f64) -> f64 {
        let bound = |piece: &Piece| {
            let polynomial = piece.polynomial(quantity);
            polynomial.0[0].abs() + polynomial.sway(piece.to - piece.from)
        };
        self.within(from, to).map(|(piece, ..)| bound(piece)).fold(0.0, f64::max)
    }
}

/// Equal values closer than this, in lengths of the beam, belong to one peak.
const NEIGHBOUR: f64 = 1e-3;

/// The largest value so far, from the left, and the stretch it holds on.
struct Best {
    found: Option<(f64, f64, f64)>,
    tie: f64,
    near: f64,
}

impl Best {
    fn new(tie: f64, near: f64) -> Best {
        Best { found: None, tie, near }
    }

    fn offer(&mut self, from: f64, to: f64, value: f64) {
        let Some((start, end, best)) = self.found else {
            self.found = Some((from, to, value));
            return;
        };
        if value > best + self.tie {
            self.found = Some((from, to, value));
        } else if value >= best - self.tie && from - end <= self.near {
            self.found = match (start < end, from < to) {
                (true, true) => Some((start, to, best)),
                (false, true) => Some((from, to, value)),
                (false, false) if value > best => Some((from, to, value)),
                _ => self.found,
            };
        }
    }
}
