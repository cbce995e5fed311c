//! What wood weighs, by its specific gravity. NDS Supplement 3.1.3.

/// Moisture content at which members weigh what they are taken to weigh, per cent (reading 9).
pub const MOISTURE: f64 = 19.0;

/// Weight in pounds per cubic foot; `gravity` is on oven-dry weight and volume, `moisture` in per cent.
///
/// The formula is not dimensionally consistent: 62.4 is the weight of water.
pub fn density_pcf(gravity: f64, moisture: f64) -> f64 {
    62.4 * gravity / (1.0 + gravity * 0.009 * moisture) * (1.0 + moisture / 100.0)
}
