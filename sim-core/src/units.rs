//! Quantities of the trade with exact factors.
//!
//! Each type holds one private `f64` in its documented SI unit; constructors and getters are named
//! by unit. Only arithmetic that makes physical sense is offered. Factors are from NIST SP 811,
//! Appendix B (READ in a reproduced copy), unless a line says otherwise.

use serde::{Deserialize, Serialize};

/// A value rounded to so many decimals (3 at most) for a text, never minus zero: `{:+.1}` of -0.04
/// would be "-0.0".
pub fn for_text(value: f64, decimals: u8) -> f64 {
    let steps = match decimals {
        0 => 1.0,
        1 => 10.0,
        2 => 100.0,
        _ => 1000.0,
    };
    (value * steps).round() / steps + 0.0
}

/// Conventional inch of water, Pa (NIST SP 811, App. B).
pub const PA_PER_INH2O: f64 = 249.08891;
/// Conventional millimetre of mercury, Pa: 13 595.1 kg/m3 x 9.806 65 m/s2 x 1 mm.
pub const PA_PER_MMHG: f64 = 133.322387;
/// Conventional inch of mercury, Pa (NIST SP 811, App. B).
pub const PA_PER_INHG: f64 = 3386.389;
/// Standard atmosphere, Pa (exact).
pub const PA_PER_ATM: f64 = 101_325.0;
/// Cubic foot, m3 (exact: 0.3048 m cubed).
pub const M3_PER_FT3: f64 = 0.028316846592;
/// Standard gravity, m/s2 (exact).
pub const STANDARD_GRAVITY: f64 = 9.80665;
/// Freezing point of water, K (exact).
pub const ZERO_CELSIUS_K: f64 = 273.15;

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $unit:literal, $( $(#[$vdoc:meta])* $from:ident / $get:ident = $factor:expr ),+ $(,)?) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(f64);

        impl $name {
            $(
                $(#[$vdoc])*
                pub const fn $from(value: f64) -> Self {
                    Self(value * $factor)
                }

                $(#[$vdoc])*
                pub const fn $get(self) -> f64 {
                    self.0 / $factor
                }
            )+

            /// Whether the value is neither infinite nor not-a-number.
            pub const fn is_finite(self) -> bool {
                self.0.is_finite()
            }
        }

        impl core::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }

        impl core::ops::Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }

        impl core::ops::Div for $name {
            type Output = f64;
            fn div(self, divisor: Self) -> f64 {
                self.0 / divisor.0
            }
        }
    };
}

macro_rules! additive {
    ($($name:ident),+) => {
        $(
            impl core::ops::Add for $name {
                type Output = Self;
                fn add(self, other: Self) -> Self {
                    Self(self.0 + other.0)
                }
            }

            impl core::ops::Sub for $name {
                type Output = Self;
                fn sub(self, other: Self) -> Self {
                    Self(self.0 - other.0)
                }
            }

            impl core::ops::Neg for $name {
                type Output = Self;
                fn neg(self) -> Self {
                    Self(-self.0)
                }
            }
        )+
    };
}

quantity! {
    /// Pressure, absolute or as a difference. Held in pascals.
    Pressure, "Pa",
    /// In pascals.
    from_pa / pa = 1.0,
    /// In hectopascals.
    from_hpa / hpa = 100.0,
    /// In kilopascals.
    from_kpa / kpa = 1000.0,
    /// In conventional inches of water.
    from_inh2o / inh2o = PA_PER_INH2O,
    /// In conventional millimetres of mercury.
    from_mmhg / mmhg = PA_PER_MMHG,
    /// In conventional inches of mercury.
    from_inhg / inhg = PA_PER_INHG,
    /// In standard atmospheres.
    from_atm / atm = PA_PER_ATM,
}

quantity! {
    /// Thermodynamic temperature. Held in kelvins. Temperatures are not added to each other.
    Temperature, "K",
    /// In kelvins.
    from_k / k = 1.0,
}

impl Temperature {
    /// From degrees Celsius.
    pub const fn from_c(celsius: f64) -> Self {
        Self(celsius + ZERO_CELSIUS_K)
    }

    /// In degrees Celsius.
    pub const fn c(self) -> f64 {
        self.0 - ZERO_CELSIUS_K
    }

    /// From degrees Fahrenheit.
    pub const fn from_f(fahrenheit: f64) -> Self {
        Self::from_c((fahrenheit - 32.0) / 1.8)
    }

    /// In degrees Fahrenheit.
    pub const fn f(self) -> f64 {
        self.c() * 1.8 + 32.0
    }
}

quantity! {
    /// Volume flow. Held in m3/s. Where it is used, it is stated whether it is actual or standard.
    VolumeFlow, "m3/s",
    /// In cubic metres per second.
    from_m3_s / m3_s = 1.0,
    /// In cubic metres per minute.
    from_m3_min / m3_min = (1.0 / 60.0),
    /// In cubic feet per minute.
    from_ft3_min / ft3_min = (M3_PER_FT3 / 60.0),
}

quantity! {
    /// Volume. Held in m3.
    Volume, "m3",
    /// In cubic metres.
    from_m3 / m3 = 1.0,
    /// In cubic feet.
    from_ft3 / ft3 = M3_PER_FT3,
}

quantity! {
    /// Length. Held in metres.
    Length, "m",
    /// In metres.
    from_m / m = 1.0,
    /// In millimetres.
    from_mm / mm = 0.001,
    /// In inches (exact: 25.4 mm).
    from_in / inches = 0.0254,
}

quantity! {
    /// Area. Held in m2.
    Area, "m2",
    /// In square metres.
    from_m2 / m2 = 1.0,
    /// In square millimetres.
    from_mm2 / mm2 = 1e-6,
}

quantity! {
    /// Density. Held in kg/m3.
    Density, "kg/m3",
    /// In kilograms per cubic metre.
    from_kg_m3 / kg_m3 = 1.0,
}

quantity! {
    /// Mass flow. Held in kg/s.
    MassFlow, "kg/s",
    /// In kilograms per second.
    from_kg_s / kg_s = 1.0,
}

quantity! {
    /// Voltage. Held in volts.
    Voltage, "V",
    /// In volts.
    from_v / v = 1.0,
}

quantity! {
    /// Rotor speed. Held in rad/s.
    RotorSpeed, "rad/s",
    /// In radians per second.
    from_rad_s / rad_s = 1.0,
    /// In revolutions per minute.
    from_rpm / rpm = (core::f64::consts::TAU / 60.0),
}

additive!(Pressure, VolumeFlow, Volume, Length, Area, MassFlow, Voltage, RotorSpeed);

impl core::ops::Div<Density> for MassFlow {
    type Output = VolumeFlow;
    /// Volume flow at a density, Q = m / rho.
    fn div(self, density: Density) -> VolumeFlow {
        VolumeFlow(self.0 / density.0)
    }
}

impl core::ops::Mul<Density> for VolumeFlow {
    type Output = MassFlow;
    /// Mass flow at a density, m = Q rho.
    fn mul(self, density: Density) -> MassFlow {
        MassFlow(self.0 * density.0)
    }
}
