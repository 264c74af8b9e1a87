//! The units in which the program itself speaks. Instruments, papers and what the trainee wrote keep
//! their own.

use serde::{Deserialize, Serialize};
use sim_core::units::{Pressure, Temperature, VolumeFlow};

/// In what temperatures are said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum TemperatureUnit {
    /// Degrees Celsius.
    #[default]
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
}

/// In what pressures of the air are said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum PressureUnit {
    /// Millimetres of mercury.
    #[default]
    MmHg,
    /// Hectopascals.
    HPa,
    /// Inches of mercury.
    InHg,
}

/// In what flows are said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum FlowUnit {
    /// Cubic metres a minute.
    #[default]
    M3Min,
    /// Cubic feet a minute.
    Ft3Min,
}

/// The units that a person has set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Units {
    /// Of temperatures.
    pub temperature: TemperatureUnit,
    /// Of the air's pressure.
    pub pressure: PressureUnit,
    /// Of flows.
    pub flow: FlowUnit,
}

impl TemperatureUnit {
    /// As it is written behind a number.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Celsius => "\u{b0}C",
            Self::Fahrenheit => "\u{b0}F",
        }
    }
}

impl PressureUnit {
    /// As it is written behind a number.
    pub const fn name(self) -> &'static str {
        match self {
            Self::MmHg => "mmHg",
            Self::HPa => "hPa",
            Self::InHg => "inHg",
        }
    }

    /// Decimals beyond those of millimetres of mercury that say as much.
    const fn more_decimals(self) -> usize {
        match self {
            Self::MmHg | Self::HPa => 0,
            Self::InHg => 2,
        }
    }
}

impl FlowUnit {
    /// As it is written behind a number.
    pub const fn name(self) -> &'static str {
        match self {
            Self::M3Min => "m\u{b3}/min",
            Self::Ft3Min => "ft\u{b3}/min",
        }
    }
}

impl Units {
    /// A temperature given in degrees Celsius, to so many decimals.
    pub fn temperature(self, celsius: f64, decimals: usize) -> String {
        let value = match self.temperature {
            TemperatureUnit::Celsius => celsius,
            TemperatureUnit::Fahrenheit => Temperature::from_c(celsius).f(),
        };
        format!("{} {}", plain(value, decimals), self.temperature.name())
    }

    /// A pressure given in millimetres of mercury, to so many decimals of these.
    pub fn pressure(self, mmhg: f64, decimals: usize) -> String {
        let pressure = Pressure::from_mmhg(mmhg);
        let value = match self.pressure {
            PressureUnit::MmHg => mmhg,
            PressureUnit::HPa => pressure.hpa(),
            PressureUnit::InHg => pressure.inhg(),
        };
        let decimals = decimals + self.pressure.more_decimals();
        format!("{} {}", plain(value, decimals), self.pressure.name())
    }

    /// A flow given in cubic metres a minute, to so many decimals of these.
    pub fn flow(self, m3_min: f64, decimals: usize) -> String {
        let (value, decimals) = match self.flow {
            FlowUnit::M3Min => (m3_min, decimals),
            FlowUnit::Ft3Min => {
                (VolumeFlow::from_m3_min(m3_min).ft3_min(), decimals.saturating_sub(1).max(1))
            }
        };
        format!("{} {}", plain(value, decimals), self.flow.name())
    }
}

/// A number to so many decimals; nothing is never less than nothing.
pub(crate) fn plain(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    if text.chars().all(|c| matches!(c, '-' | '0' | '.')) {
        text.trim_start_matches('-').to_owned()
    } else {
        text
    }
}

/// Two choices of units for the tests: that of the instruments, and one that differs in each.
#[cfg(test)]
pub(crate) mod choices {
    use super::{FlowUnit, PressureUnit, TemperatureUnit, Units};

    pub const USUAL: Units = Units {
        temperature: TemperatureUnit::Celsius,
        pressure: PressureUnit::MmHg,
        flow: FlowUnit::M3Min,
    };
    pub const OTHER: Units = Units {
        temperature: TemperatureUnit::Fahrenheit,
        pressure: PressureUnit::HPa,
        flow: FlowUnit::Ft3Min,
    };
}

#[cfg(test)]
mod tests {
    use super::choices::{OTHER, USUAL};
    use super::*;

    #[test]
    fn values_are_said_in_the_units_that_are_set() {
        assert_eq!(USUAL.temperature(21.46, 1), "21.5 \u{b0}C");
        assert_eq!(OTHER.temperature(21.46, 1), "70.6 \u{b0}F");
        assert_eq!(OTHER.temperature(-17.78, 0), "0 \u{b0}F");
        assert_eq!(USUAL.pressure(757.3, 1), "757.3 mmHg");
        assert_eq!(OTHER.pressure(760.0, 1), "1013.3 hPa");
        let inches = Units { pressure: PressureUnit::InHg, ..USUAL };
        assert_eq!(inches.pressure(760.0, 0), "29.92 inHg");
        assert_eq!(OTHER.flow(1.13, 2), "39.9 ft\u{b3}/min");
    }
}
