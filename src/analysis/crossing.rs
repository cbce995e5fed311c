//! Where a function that is known by its values alone crosses nought.

/// Steps after which the interval is as small as numbers allow, halved only.
const MOST: usize = 200;
/// Values and relative distances as small as this are nought.
const NOTHING: f64 = 1e-13;

/// The place where a function crosses nought, between `low`, where it is not above it, and `high`, where it is: each a place and the
/// value there. Either may lie to the left of the other.
///
/// Secants with one end held back (Illinois), every third step a halving, so that a jump or a pole is found as surely as a root. A
/// value that is not a number counts as above nought. At the answer the function is nought but for the last bits, or it is the last
/// place below a jump.
pub fn crossing(low: (f64, f64), high: (f64, f64), mut function: impl FnMut(f64) -> f64) -> f64 {
    let (mut low, mut high) = (low, high);
    for step in 0..MOST {
        if low.1 >= -NOTHING || (high.0 - low.0).abs() <= NOTHING * high.0.abs().max(low.0.abs()) {
            break;
        }
        let secant = low.0 - low.1 * (high.0 - low.0) / (high.1 - low.1);
        let within = (secant - low.0) * (secant - high.0) < 0.0;
        let x = if within && step % 3 != 2 { secant } else { 0.5 * (low.0 + high.0) };
        let value = function(x);
        if value.abs() <= NOTHING {
            return x;
        }
        if value < 0.0 {
            low = (x, value);
            high.1 *= 0.5;
        } else {
            high = (x, if value.is_nan() { f64::INFINITY } else { value });
            low.1 *= 0.5;
        }
    }
    low.0
}

#[cfg(test)]
mod tests {
    use super::crossing;

    fn of(function: impl Fn(f64) -> f64, low: f64, high: f64) -> f64 {
        crossing((low, function(low)), (high, function(high)), function)
    }

    #[test]
    fn roots_poles_and_jumps_are_found_from_both_sides() {
        assert!((of(|x| 0.25 * x - 1.0, 1.0, 100.0) - 4.0).abs() < 1e-12);
        assert!((of(|x| x * x * x - 2.0, 0.0, 1e6) - libm::cbrt(2.0)).abs() < 1e-12);
        assert!((of(|x| 2.0 - x, 9.0, -3.0) - 2.0).abs() < 1e-12);
        // A column near its Euler load: the ratio has a pole, and is not a number behind it.
        let column = |x: f64| if x < 3.0 { x / 10.0 + 0.1 / (1.0 - x / 3.0) - 1.0 } else { f64::NAN };
        let x = of(column, 1.0, 50.0);
        assert!(column(x).abs() < 1e-9, "{x}");
        let jump = |x: f64| if x <= 7.0 { -0.5 } else { 0.5 };
        let x = of(jump, 0.0, 10.0);
        assert!(jump(x) < 0.0 && (x - 7.0).abs() < 1e-9, "{x}");
    }
}
