//! The band between the largest and the smallest of many diagrams, for drawing.

use crate::analysis::{Diagram, Quantity, SAME_VALUE, Side};

/// The largest and the smallest of many diagrams at chosen places.
#[derive(Debug, Clone, PartialEq)]
pub struct Envelope {
    /// In the order of the places asked for. A place where a diagram jumps is there twice, first as seen from the left.
    pub bounds: Vec<Bounds>,
}

/// The bounds at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Distance from the left end.
    pub x: f64,
    /// The largest value of any diagram.
    pub largest: f64,
    /// The smallest value of any diagram.
    pub smallest: f64,
}

impl Envelope {
    /// The envelope of diagrams at places along the beam. Without diagrams it is empty.
    ///
    /// For drawing only: a peak between two places is not seen. Give the breaks of the pieces among the places, and take governing
    /// values from [`Diagram::extremes`].
    pub fn of(diagrams: &[Diagram], quantity: Quantity, xs: &[f64]) -> Envelope {
        let size = diagrams.iter().map(|diagram| diagram.size(quantity, 0.0, diagram.length())).fold(0.0, f64::max);
        let bounds = |x: f64, side: Side| {
            let bounds = Bounds { x, largest: f64::NEG_INFINITY, smallest: f64::INFINITY };
            diagrams.iter().map(|diagram| diagram.value(quantity, x, side)).fold(bounds, |b, value| Bounds {
                largest: b.largest.max(value),
                smallest: b.smallest.min(value),
                ..b
            })
        };
        let mut envelope = Envelope { bounds: Vec::new() };
        if diagrams.is_empty() {
            return envelope;
        }
        for &x in xs {
            let (left, right) = (bounds(x, Side::Left), bounds(x, Side::Right));
            envelope.bounds.push(left);
            let jump = (left.largest - right.largest).abs().max((left.smallest - right.smallest).abs());
            if jump > SAME_VALUE * size {
                envelope.bounds.push(right);
            }
        }
        envelope
    }
}
