//! Ratios as they are printed, wherever that is.

use super::Check;
use crate::codes::Utilization;
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

/// Whether a ratio fails; what is no ratio does.
pub fn fails(ratio: f64) -> bool {
    !Utilization::new(ratio).passes()
}

/// Of some checks the one with the largest ratio; the first of equals.
pub fn worst<'c>(checks: impl IntoIterator<Item = &'c Check>) -> Option<&'c Check> {
    Utilization::largest(checks, |check| Utilization::new(check.ratio))
}

/// A ratio as it stands in a document: `null` where there is no finite one, and read again as one that fails.
pub mod written {
    use crate::codes::Utilization;
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    /// Writes it.
    ///
    /// # Errors
    /// Those of the writer.
    pub fn serialize<S: Serializer>(ratio: &f64, to: S) -> Result<S::Ok, S::Error> {
        Some(Utilization::new(*ratio).value()).filter(|ratio| ratio.is_finite()).serialize(to)
    }

    /// Reads it.
    ///
    /// # Errors
    /// What is neither a number nor `null`.
    pub fn deserialize<'d, D: Deserializer<'d>>(from: D) -> Result<f64, D::Error> {
        Ok(Option::<f64>::deserialize(from)?.map_or(Utilization::FAILS, Utilization::new).value())
    }
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
