//! Ratios as they are printed, wherever that is.

use crate::codes;
use crate::units::decimals;

/// A ratio in a sentence or beside a scale mark: two places, three from 0.995 to 1.005; one that fails never reads as 1.
pub fn ratio(ratio: f64) -> String {
    if ratio.is_nan() {
        return "not a number".into();
    }
    if ratio > 999.0 {
        return "over 999".into();
    }
    let places = if (0.995..1.005).contains(&ratio) { 3 } else { 2 };
    if !fails(ratio) {
        return decimals(ratio, places);
    }
    (places..=9).map(|n| decimals(ratio, n)).find(|text| text.parse::<f64>().is_ok_and(|r| r > 1.0)).unwrap_or_else(|| "over 1".into())
}

/// Whether a ratio fails; not-a-number does.
pub fn fails(ratio: f64) -> bool {
    !codes::passes(ratio)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_failing_ratio_never_reads_as_one() {
        assert_eq!(ratio(1.000_04), "1.00004");
        assert_eq!(ratio(1.0), "1.000");
        assert_eq!(ratio(0.9986), "0.999");
        assert_eq!(ratio(0.8749), "0.87");
        assert_eq!(ratio(1.088), "1.09");
        assert!(fails(f64::NAN));
    }
}
