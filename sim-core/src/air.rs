//! Moist air, water and the standard atmosphere.
//!
//! The simulated rig moves air by the simple law of [`AirState::density`]; [`cipm`] holds the
//! reference formula that it is checked against.

pub mod atmosphere;
pub mod cipm;
pub mod water;

use crate::math;
use crate::units::{Density, PA_PER_ATM, ZERO_CELSIUS_K};

/// Specific gas constant of dry air, J/(kg K) (MEMORY).
pub const DRY_AIR_J_KG_K: f64 = 287.05;
/// Specific heat of air at constant pressure, J/(kg K) (MEMORY).
pub const AIR_CP_J_KG_K: f64 = 1006.0;
/// One minus the ratio of the molar masses of water and dry air, 1 - 18.01528/28.96546.
const VAPOUR_LIGHTNESS: f64 = 0.37802;
/// Standard pressure of 40 CFR 50, Pa (READ).
pub const STANDARD_PRESSURE_PA: f64 = PA_PER_ATM;
/// Standard temperature of 40 CFR 50, K (READ: 25 degrees Celsius).
pub const STANDARD_TEMPERATURE_K: f64 = 298.15;
/// Density of dry air at standard conditions, kg/m3, by the ideal gas law.
pub const STANDARD_DRY_DENSITY_KG_M3: f64 =
    STANDARD_PRESSURE_PA / (DRY_AIR_J_KG_K * STANDARD_TEMPERATURE_K);
/// Sutherland's constant of air, K (MEMORY).
const SUTHERLAND_K: f64 = 110.4;

/// The state of the ambient air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AirState {
    /// Station pressure, Pa.
    pub pressure_pa: f64,
    /// Temperature, K.
    pub temperature_k: f64,
    /// Relative humidity over water, 0 to 1.
    pub humidity: f64,
}

impl AirState {
    /// Density of moist air as used by the simulated rig.
    ///
    /// rho = (p - 0.37802 e) / (287.05 T), with p the station pressure in Pa, T the temperature in
    /// K, e the vapour pressure in Pa from [`vapour_pressure_pa`]. Within 620 ppm of CIPM-2007 from
    /// 0 to 45 degrees Celsius and 70 to 105 kPa (computed). Numbers out of range are limited as in
    /// [`Ambient`].
    pub fn density(self) -> Density {
        Density::from_kg_m3(Ambient::from(self).density_kg_m3())
    }
}

/// Partial pressure of water vapour, Pa.
///
/// Magnus' form e = H 611.2 exp(17.62 t / (243.12 + t)), t in degrees Celsius, H relative humidity
/// from 0 to 1; over water, -45 to 60 degrees (WMO Guide to Instruments, MEMORY).
pub fn vapour_pressure_pa(temperature_k: f64, humidity: f64) -> f64 {
    let t = temperature_k - ZERO_CELSIUS_K;
    humidity * 611.2 * math::exp(17.62 * t / (243.12 + t))
}

/// Viscosity of air divided by that at 20 degrees Celsius.
///
/// Sutherland's law, mu ~ T^1.5 / (T + 110.4 K), T in K, 200 to 600 K (MEMORY).
pub fn viscosity_ratio_to_20c(temperature_k: f64) -> f64 {
    let reference = ZERO_CELSIUS_K + 20.0;
    let ratio = temperature_k / reference;
    ratio * ratio.sqrt() * (reference + SUTHERLAND_K) / (temperature_k + SUTHERLAND_K)
}

/// The ambient air, prepared for the calculation of the flow: an ideal gas whose constant includes
/// the humidity. Create it again when the weather changes, not at every tick.
///
/// Values out of range are limited to its ends, so that every result is finite: 20 to 120 kPa, 200
/// to 350 K, humidity 0 to 1. Scenarios are checked against narrower ranges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ambient {
    /// Station pressure, Pa.
    pub pressure_pa: f64,
    /// Temperature, K.
    pub temperature_k: f64,
    /// Specific gas constant of this air, J/(kg K).
    pub gas_constant_j_kg_k: f64,
}

impl From<AirState> for Ambient {
    fn from(state: AirState) -> Self {
        let pressure_pa = within(state.pressure_pa, 20_000.0, 120_000.0);
        let temperature_k = within(state.temperature_k, 200.0, 350.0);
        let humidity = within(state.humidity, 0.0, 1.0);
        let vapour_pa = vapour_pressure_pa(temperature_k, humidity).min(0.5 * pressure_pa);
        let gas_constant_j_kg_k =
            DRY_AIR_J_KG_K / (1.0 - VAPOUR_LIGHTNESS * vapour_pa / pressure_pa);
        Self { pressure_pa, temperature_k, gas_constant_j_kg_k }
    }
}

impl Ambient {
    /// Density, kg/m3.
    pub fn density_kg_m3(&self) -> f64 {
        self.pressure_pa / (self.gas_constant_j_kg_k * self.temperature_k)
    }

    /// Density of this same moist air at 298.15 K and 101 325 Pa, kg/m3. A mass flow divided by it
    /// is the flow at standard conditions, equal to Q (p / 101 325) (298.15 / T).
    pub fn standard_density_kg_m3(&self) -> f64 {
        STANDARD_PRESSURE_PA / (self.gas_constant_j_kg_k * STANDARD_TEMPERATURE_K)
    }
}

/// The value limited to between `least` and `most`; a value that is not a number becomes `least`.
pub(crate) fn within(value: f64, least: f64, most: f64) -> f64 {
    if value > least { value.min(most) } else { least }
}
