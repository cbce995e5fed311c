//! Superposition, and the value at a place.

use crate::analysis::{Diagram, Piece, Polynomial, Quantity, SAME_PLACE, SAME_VALUE, Side};

impl Diagram {
    /// The weighted sum of diagrams of one beam: a load combination of load cases. No terms give a diagram without pieces.
    ///
    /// # Panics
    /// If the diagrams are not of one [`Beam::solve_all`](crate::analysis::Beam::solve_all), and so have not the same breaks.
    pub fn combine(terms: &[(f64, &Diagram)]) -> Diagram {
        let Some((&(factor, first), rest)) = terms.split_first() else { return Diagram::default() };
        let mut sum = first.times(factor);
        for &(factor, term) in rest {
            assert_eq!(sum.pieces.len(), term.pieces.len(), "diagrams with different breaks cannot be combined");
            add(&mut sum.reactions, &term.reactions, factor);
            add(&mut sum.fixing_moments, &term.fixing_moments, factor);
            for (to, from) in sum.pieces.iter_mut().zip(&term.pieces) {
                assert!(to.from == from.from && to.to == from.to, "diagrams with different breaks cannot be combined");
                to.load = to.load.plus(factor, &from.load);
                to.shear = to.shear.plus(factor, &from.shear);
                to.moment = to.moment.plus(factor, &from.moment);
                to.slope = to.slope.plus(factor, &from.slope);
                to.deflection = to.deflection.plus(factor, &from.deflection);
            }
        }
        sum
    }

    /// The value at a place. At the ends of the beam both sides give the inner one; off the beam it is 0, and so is what rounding leaves
    /// where a value vanishes.
    pub fn value(&self, quantity: Quantity, x: f64, side: Side) -> f64 {
        self.piece_at(x, side).map_or(0.0, |piece| piece.value(piece.polynomial(quantity), x))
    }

    /// The value at a place of what [`Diagram::combine`] gives, without the rest of it.
    ///
    /// # Panics
    /// As there.
    pub fn combined_value(terms: &[(f64, &Diagram)], quantity: Quantity, x: f64, side: Side) -> f64 {
        let Some((&(factor, first), rest)) = terms.split_first() else { return 0.0 };
        let Some(piece) = first.piece_at(x, side) else { return 0.0 };
        let mut sum = piece.polynomial(quantity).times(factor);
        for &(factor, term) in rest {
            let same = term.piece_at(x, side).filter(|other| other.from == piece.from && other.to == piece.to);
            let Some(same) = same else { panic!("diagrams with different breaks cannot be combined") };
            sum = sum.plus(factor, same.polynomial(quantity));
        }
        piece.value(&sum, x)
    }

    /// The piece on which a place lies, seen from one side.
    fn piece_at(&self, x: f64, side: Side) -> Option<&Piece> {
        let near = SAME_PLACE * self.length();
        let count = match side {
            Side::Left => self.pieces.partition_point(|piece| piece.from < x - near),
            Side::Right => self.pieces.partition_point(|piece| piece.from <= x + near),
        };
        self.pieces.get(count.saturating_sub(1)).filter(|piece| x >= piece.from - near && x <= piece.to + near)
    }

    /// The length of the beam.
    pub(super) fn length(&self) -> f64 {
        self.pieces.last().map_or(0.0, |piece| piece.to)
    }

    fn times(&self, factor: f64) -> Diagram {
        let all = |values: &[f64]| values.iter().map(|v| factor * v).collect();
        let piece = |p: &Piece| Piece {
            from: p.from,
            to: p.to,
            load: p.load.times(factor),
            shear: p.shear.times(factor),
            moment: p.moment.times(factor),
            slope: p.slope.times(factor),
            deflection: p.deflection.times(factor),
        };
        Diagram {
            reactions: all(&self.reactions),
            fixing_moments: all(&self.fixing_moments),
            pieces: self.pieces.iter().map(piece).collect(),
        }
    }
}

impl Piece {
    /// The value at a place of a polynomial on this piece.
    fn value(&self, curve: &Polynomial, x: f64) -> f64 {
        let value = curve.at(x.clamp(self.from, self.to) - self.from);
        let is_rounding = value.abs() < 1e-6 && value.abs() < SAME_VALUE * curve.size(self.to - self.from);
        if is_rounding { 0.0 } else { value }
    }

    /// The polynomial of a quantity.
    pub fn polynomial(&self, quantity: Quantity) -> &Polynomial {
        match quantity {
            Quantity::Shear => &self.shear,
            Quantity::Moment => &self.moment,
            Quantity::Deflection => &self.deflection,
        }
    }

    /// The polynomial whose roots are where a quantity turns: its derivative, save for the sign.
    pub(super) fn turning(&self, quantity: Quantity) -> &Polynomial {
        match quantity {
            Quantity::Shear => &self.load,
            Quantity::Moment => &self.shear,
            Quantity::Deflection => &self.slope,
        }
    }
}

fn add(sum: &mut [f64], terms: &[f64], factor: f64) {
    for (to, from) in sum.iter_mut().zip(terms) {
        *to += factor * from;
    }
}
