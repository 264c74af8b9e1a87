//! The density and the viscosity of water.

use crate::math;
use crate::units::ZERO_CELSIUS_K;

/// Density of pure water at one atmosphere, kg/m3.
///
/// rho = a5 \[1 - (t + a1)^2 (t + a2) / (a3 (t + a4))\], t in degrees Celsius, 0 to 45.
/// Tanaka et al., Metrologia 38 (2001) 301, stated for 0 to 40 degrees (coefficients MEMORY,
/// confirmed against IAPWS-95 within 3 ppm). Temperatures outside are limited to that range.
pub fn density_kg_m3(temperature_k: f64) -> f64 {
    let t = celsius(temperature_k);
    let a = t - 3.983035;
    999.974950 * (1.0 - a * a * (t + 301.797) / (522_528.9 * (t + 69.34881)))
}

/// Kinematic viscosity of water, m2/s.
///
/// mu = 1.0016 mPa s x 10^y,
/// y = (20 - t)/(t + 96) \[1.2364 - 1.37e-3 (20 - t) + 5.7e-6 (20 - t)^2\], nu = mu / rho, t in
/// degrees Celsius, 0 to 45. The form of Kestin, Sokolov and Wakeham (1978) with the IAPWS value at
/// 20 degrees (MEMORY, confirmed against the IAPWS formulation). Temperatures outside are limited
/// to that range.
pub fn kinematic_viscosity_m2_s(temperature_k: f64) -> f64 {
    let t = celsius(temperature_k);
    let below = 20.0 - t;
    let exponent = below / (t + 96.0) * (1.2364 - 1.37e-3 * below + 5.7e-6 * below * below);
    1.0016e-3 * math::pow(10.0, exponent) / density_kg_m3(temperature_k)
}

/// Temperature in degrees Celsius, limited to the range of the fits.
fn celsius(temperature_k: f64) -> f64 {
    super::within(temperature_k - ZERO_CELSIUS_K, 0.0, 45.0)
}
