//! The reference formula for the density of moist air.

use crate::math;
use crate::units::ZERO_CELSIUS_K;

/// Molar gas constant of the formula, J/(mol K).
const GAS_CONSTANT_J_MOL_K: f64 = 8.314472;
/// Molar mass of dry air at 400 ppm of carbon dioxide, kg/mol.
const DRY_AIR_KG_MOL: f64 = 28.96546e-3;
/// Molar mass of water, kg/mol.
const WATER_KG_MOL: f64 = 18.01528e-3;

/// Density of moist air by CIPM-2007, kg/m3.
///
/// rho = p Ma / (Z R T) \[1 - xv (1 - Mv/Ma)\], xv = h f psv / p, with p the pressure in Pa, T the
/// temperature in K, t in degrees Celsius, h the humidity 0 to 1, psv the saturation pressure in
/// Pa, f the enhancement factor, Z the compressibility. Stated for 600 to 1100 hPa and 15 to 27
/// degrees Celsius; it agrees with an independent equation of state within 66 ppm from 0 to 45
/// degrees (computed). Picard et al., Metrologia 45 (2008) 149 (coefficients READ in public
/// implementations, the last one of psv MEMORY).
pub fn density_kg_m3(pressure_pa: f64, temperature_k: f64, humidity: f64) -> f64 {
    let vapour =
        humidity * enhancement(pressure_pa, temperature_k) * saturation_pressure_pa(temperature_k)
            / pressure_pa;
    let lightness = 1.0 - WATER_KG_MOL / DRY_AIR_KG_MOL;
    pressure_pa * DRY_AIR_KG_MOL * (1.0 - vapour * lightness)
        / (compressibility(pressure_pa, temperature_k, vapour)
            * GAS_CONSTANT_J_MOL_K
            * temperature_k)
}

/// Saturation pressure of water vapour, Pa: exp(A T^2 + B T + C + D/T), T in K.
fn saturation_pressure_pa(temperature_k: f64) -> f64 {
    math::exp(
        (1.2378847e-5 * temperature_k - 1.9121316e-2) * temperature_k + 33.93711047
            - 6343.1645 / temperature_k,
    )
}

/// Enhancement factor f = 1.00062 + 3.14e-8 p + 5.6e-7 t^2, p in Pa, t in degrees Celsius.
fn enhancement(pressure_pa: f64, temperature_k: f64) -> f64 {
    let t = temperature_k - ZERO_CELSIUS_K;
    1.00062 + 3.14e-8 * pressure_pa + 5.6e-7 * t * t
}

/// Compressibility Z of the mixture, with the mole fraction of vapour.
fn compressibility(pressure_pa: f64, temperature_k: f64, vapour: f64) -> f64 {
    let t = temperature_k - ZERO_CELSIUS_K;
    let ratio = pressure_pa / temperature_k;
    let first = 1.58123e-6
        + (-2.9331e-8 + 1.1043e-10 * t) * t
        + (5.707e-6 - 2.051e-8 * t) * vapour
        + (1.9898e-4 - 2.376e-6 * t) * vapour * vapour;
    1.0 - ratio * first + ratio * ratio * (1.83e-11 - 0.765e-8 * vapour * vapour)
}
