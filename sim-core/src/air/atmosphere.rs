//! The standard atmosphere: the average pressure and temperature at a height.

use crate::math;

/// Radius of the earth in the standard atmosphere, m.
const EARTH_RADIUS_M: f64 = 6_356_766.0;

/// Pressure at a geometric height, Pa.
///
/// p = 101 325 (1 - 0.0065 h / 288.15)^5.25588, h = r z / (r + z), r = 6 356 766 m, with z the
/// height above sea level in m, limited to -500 to 11 000. US Standard Atmosphere 1976 (MEMORY;
/// figures computed with two independent tools).
pub fn pressure_pa(height_m: f64) -> f64 {
    let z = super::within(height_m, -500.0, 11_000.0);
    let h = EARTH_RADIUS_M * z / (EARTH_RADIUS_M + z);
    101_325.0 * math::pow(1.0 - 0.0065 * h / 288.15, 5.25588)
}

/// Temperature at a geometric height, K: T = 288.15 - 0.0065 h, with h as for [`pressure_pa`].
pub fn temperature_k(height_m: f64) -> f64 {
    let z = super::within(height_m, -500.0, 11_000.0);
    288.15 - 0.0065 * EARTH_RADIUS_M * z / (EARTH_RADIUS_M + z)
}
