//! Demand over capacity, in a form in which no comparison can lose it.

use crate::units;
use std::cmp::Ordering;

/// Demand over capacity: never negative, never not-a-number. What has no finite ratio is infinite and fails.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Utilization(f64);

/// Below nought by no more than this is nought, which rounding left there.
const ROUNDING: f64 = 1e-9;
/// Two ratios nearer than this part of them are equal in a search: of equals the first stands.
const EQUAL: f64 = 1e-9;

impl Utilization {
    /// Nothing is asked.
    pub const NOTHING: Self = Self(0.0);
    /// No finite ratio: it fails.
    pub const FAILS: Self = Self(f64::INFINITY);

    /// Of a number; not-a-number and a negative number fail.
    pub fn new(ratio: f64) -> Self {
        if ratio >= 0.0 {
            // Without the sign of nought.
            Self(ratio + 0.0)
        } else if ratio >= -ROUNDING {
            Self::NOTHING
        } else {
            Self::FAILS
        }
    }

    /// The number; infinite where there is no finite one.
    pub const fn value(self) -> f64 {
        self.0
    }

    /// Whether it is no more than 1, but for the last bits.
    pub fn passes(self) -> bool {
        units::ratio(self.0).at_most(1.0)
    }

    /// Whether nothing is asked.
    pub fn is_nothing(self) -> bool {
        self == Self::NOTHING
    }

    /// Whether it is larger, by more than the last bits.
    pub fn is_worse_than(self, other: Self) -> bool {
        self.0 > other.0 * (1.0 + EQUAL)
    }

    /// The largest of some things by their ratios; the first of equals.
    pub fn largest<T>(of: impl IntoIterator<Item = T>, ratio: impl Fn(&T) -> Self) -> Option<T> {
        of.into_iter().reduce(|best, next| if ratio(&next) > ratio(&best) { next } else { best })
    }
}

impl Eq for Utilization {}

impl PartialOrd for Utilization {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Utilization {
    fn cmp(&self, other: &Self) -> Ordering {
        self.0.total_cmp(&other.0)
    }
}

#[cfg(test)]
mod tests {
    use super::Utilization;

    #[test]
    fn what_is_no_ratio_fails_and_is_the_largest() {
        for bad in [f64::NAN, -f64::NAN, -0.5, -1e-6, f64::NEG_INFINITY, f64::INFINITY] {
            let fails = Utilization::new(bad);
            assert!(!fails.passes() && fails == Utilization::FAILS, "{bad}");
            let others = [0.2, 7.0, 1e300].map(Utilization::new);
            for place in 0..=others.len() {
                let mut all = others.to_vec();
                all.insert(place, fails);
                assert_eq!(all.iter().max(), Some(&fails), "{bad} at {place}");
                assert_eq!(Utilization::largest(all.iter().copied(), |one| *one), Some(fails));
                assert_eq!(all.iter().copied().reduce(Ord::max), Some(fails));
                all.sort();
                assert_eq!(all.last(), Some(&fails));
            }
        }
    }

    #[test]
    fn what_is_a_ratio_stays_the_number_that_it_is() {
        for good in [0.0, 1e-300, 0.25, 1.0, 1.000_1, 1e300] {
            assert_eq!(Utilization::new(good).value().to_bits(), f64::to_bits(good));
        }
        // Nought without a sign, and what a subtraction leaves of it.
        assert!(Utilization::new(-0.0).value().is_sign_positive());
        assert!(Utilization::new(-1e-12).is_nothing());
        assert!(Utilization::new(1.0 + 1e-12).passes() && !Utilization::new(1.000_01).passes());
        let [less, more] = [1.0, 1.0 + 1e-12].map(Utilization::new);
        assert!(more > less && !more.is_worse_than(less) && Utilization::FAILS.is_worse_than(more));
    }
}
