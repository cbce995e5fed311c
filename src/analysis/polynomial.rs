//! Polynomials up to the fifth degree, and their roots on an interval.

/// A polynomial: its coefficients, constant term first.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Polynomial(pub [f64; 6]);

/// Roots in rising order; a polynomial of the fifth degree has no more than five.
#[derive(Default)]
pub(super) struct Roots {
    at: [f64; 6],
    count: usize,
}

impl Roots {
    fn push(&mut self, x: f64) {
        if self.count < self.at.len() {
            self.at[self.count] = x;
            self.count += 1;
        }
    }

    pub(super) fn as_slice(&self) -> &[f64] {
        &self.at[..self.count]
    }
}

impl Polynomial {
    /// The value at `x`.
    pub fn at(&self, x: f64) -> f64 {
        self.0.iter().rev().fold(0.0, |sum, c| sum * x + c)
    }

    /// The size of its terms up to `x`.
    pub(super) fn size(&self, x: f64) -> f64 {
        self.0.iter().rev().fold(0.0, |sum, c| sum * x.abs() + c.abs())
    }

    /// The derivative.
    pub fn derivative(&self) -> Polynomial {
        let [_, b, c, d, e, f] = self.0;
        Polynomial([b, 2.0 * c, 3.0 * d, 4.0 * e, 5.0 * f, 0.0])
    }

    /// The integral that is `constant` at 0, of a polynomial up to the fourth degree.
    pub fn integral(&self, constant: f64) -> Polynomial {
        let [a, b, c, d, e, _] = self.0;
        Polynomial([constant, a, b / 2.0, c / 3.0, d / 4.0, e / 5.0])
    }

    /// The polynomial with all signs changed.
    pub fn negated(&self) -> Polynomial {
        self.times(-1.0)
    }

    /// The polynomial multiplied by a number.
    pub(super) fn times(&self, factor: f64) -> Polynomial {
        let [a, b, c, d, e, f] = self.0;
        Polynomial([factor * a, factor * b, factor * c, factor * d, factor * e, factor * f])
    }

    /// The polynomial with so many times another added.
    pub(super) fn plus(&self, factor: f64, other: &Polynomial) -> Polynomial {
        let ([a, b, c, d, e, f], [g, h, i, j, k, l]) = (self.0, other.0);
        Polynomial([a + factor * g, b + factor * h, c + factor * i, d + factor * j, e + factor * k, f + factor * l])
    }

    /// How far it can be from its constant term between 0 and `h`: the sum of the other terms' sizes.
    pub(super) fn sway(&self, h: f64) -> f64 {
        let [_, b, c, d, e, f] = self.0;
        ((((f.abs() * h + e.abs()) * h + d.abs()) * h + c.abs()) * h + b.abs()) * h
    }

    /// Its roots from 0 to `h`, both included. A double root may be left out: the sign does not change there.
    pub(super) fn roots(&self, h: f64) -> Roots {
        let mut roots = Roots::default();
        let [a, b, c, ..] = self.0;
        if a.abs() > self.sway(h) {
            return roots;
        }
        match self.0.iter().rposition(|&c| c != 0.0) {
            None | Some(0) => {}
            Some(1) => {
                let x = -a / b;
                if (0.0..=h).contains(&x) {
                    roots.push(x);
                }
            }
            Some(2) => {
                for x in quadratic(a, b, c).into_iter().flatten().filter(|x| (0.0..=h).contains(x)) {
                    roots.push(x);
                }
            }
            Some(_) => self.roots_between_turns(h, &mut roots),
        }
        roots
    }

    /// From one root of the derivative to the next the polynomial only rises or only falls: it has one root there or none.
    fn roots_between_turns(&self, h: f64, roots: &mut Roots) {
        let derivative = self.derivative();
        let (mut left, mut below) = (0.0, self.0[0]);
        for &right in derivative.roots(h).as_slice().iter().chain([&h]) {
            let above = self.at(right);
            if below == 0.0 {
                roots.push(left);
            } else if above != 0.0 && (below < 0.0) != (above < 0.0) {
                roots.push(self.root_between(&derivative, (left, below), right));
            }
            (left, below) = (right, above);
        }
        if below == 0.0 {
            roots.push(left);
        }
    }

    /// The one root between two places of opposite sign: Newton's steps, halving where one would leave the bracket.
    fn root_between(&self, derivative: &Polynomial, (mut left, below): (f64, f64), mut right: f64) -> f64 {
        let mut x = 0.5 * (left + right);
        // Halving alone needs 60 steps to reach the last bit.
        for _ in 0..100 {
            let y = self.at(x);
            if y == 0.0 {
                break;
            }
            if (y < 0.0) == (below < 0.0) {
                left = x;
            } else {
                right = x;
            }
            let step = x - y / derivative.at(x);
            let next = if left < step && step < right { step } else { 0.5 * (left + right) };
            let moved = (next - x).abs();
            x = next;
            if moved <= 2.0 * f64::EPSILON * x.abs() {
                break;
            }
        }
        x
    }
}

/// The real roots of a + b x + c x², in rising order, without the loss of figures of the school formula.
fn quadratic(a: f64, b: f64, c: f64) -> [Option<f64>; 2] {
    let discriminant = b * b - 4.0 * a * c;
    if discriminant < 0.0 {
        return [None; 2];
    }
    let q = -0.5 * (b + discriminant.sqrt().copysign(b));
    if q == 0.0 {
        return [Some(0.0), None];
    }
    let (one, other) = (q / c, a / q);
    [Some(one.min(other)), Some(one.max(other))]
}
