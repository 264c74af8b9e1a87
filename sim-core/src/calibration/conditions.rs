//! Temperature and pressure of the air, and the conversion to standard conditions.

use super::SumError;
use super::error::positive;
use crate::units::{Pressure, Temperature};

/// Standard temperature of the method, K (READ, 40 CFR Part 50 App. B, 2.2 and 9.3.7).
///
/// The method rounds 25 degrees Celsius to 298 K. Readings in degrees Celsius are converted with
/// 273.15, as [`Temperature::from_c`] does. A sheet that adds 273 instead gives flows that differ by
/// 0.03 %.
pub const STANDARD_TEMPERATURE_K: f64 = 298.0;
/// Standard pressure of the method, mmHg (READ, 40 CFR Part 50 App. B, 2.2 and 9.3.7).
pub const STANDARD_PRESSURE_MMHG: f64 = 760.0;

/// Pressure and temperature of the air at one time and place. Both are finite and above zero.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AirConditions {
    pressure: Pressure,
    temperature: Temperature,
}

impl AirConditions {
    /// Station pressure (not reduced to sea level) and air temperature.
    ///
    /// # Errors
    ///
    /// When either is not finite or not above zero.
    pub fn new(pressure: Pressure, temperature: Temperature) -> Result<Self, SumError> {
        positive("the pressure", pressure.pa())?;
        positive("the temperature in kelvins", temperature.k())?;
        Ok(Self { pressure, temperature })
    }

    /// Conditions from the units in which barometer and thermometer are read: mmHg and degrees Celsius.
    ///
    /// # Errors
    ///
    /// As [`Self::new`].
    pub fn as_read(pressure_mmhg: f64, temperature_c: f64) -> Result<Self, SumError> {
        Self::new(Pressure::from_mmhg(pressure_mmhg), Temperature::from_c(temperature_c))
    }

    /// Station pressure.
    pub const fn pressure(self) -> Pressure {
        self.pressure
    }

    /// Air temperature.
    pub const fn temperature(self) -> Temperature {
        self.temperature
    }

    /// The factor from a volume at these conditions to one at standard conditions,
    /// `P/760 * 298/T`, with P in mmHg and T in K.
    pub fn to_standard(self) -> f64 {
        (self.pressure.mmhg() / STANDARD_PRESSURE_MMHG)
            * (STANDARD_TEMPERATURE_K / self.temperature.k())
    }

    /// The factor from a volume at these conditions to one at others, `P/Pa * Ta/T`.
    pub fn relative_to(self, others: Self) -> f64 {
        (self.pressure / others.pressure) * (others.temperature / self.temperature)
    }
}
