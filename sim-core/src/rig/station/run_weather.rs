//! The weather of an unattended run: the daily cycle, a front, dust, and a power cut.

use crate::air::vapour_pressure_pa;
use crate::digest::digest_fields;
use crate::math;

/// The warmest hour of the day (common practice, without a source).
const WARMEST_H: f64 = 15.0;
/// Amplitude of the semidiurnal pressure tide, Pa (CHOSEN: about that of middle latitudes).
const TIDE_PA: f64 = 60.0;
/// Hour of the day at which the tide is high.
const HIGH_TIDE_H: f64 = 10.0;
/// Time in which a front passes, h (CHOSEN).
const FRONT_H: f64 = 1.5;

/// The weather while nobody is at the station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunWeather {
    /// Half of the difference between the warmest and the coldest hour, K.
    pub swing_k: f64,
    /// How many hours after departure a front passes.
    pub front_after_h: f64,
    /// By how much the pressure is lower behind it, Pa.
    pub front_pa: f64,
    /// By how much the air is colder behind it, K.
    pub front_k: f64,
    /// Dust in the air, kg/m3.
    pub dust_kg_m3: f64,
}

digest_fields!(RunWeather { swing_k, front_after_h, front_pa, front_k, dust_kg_m3 });

/// A period without power, h after departure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerCut {
    /// Its beginning.
    pub from_h: f64,
    /// Its end.
    pub to_h: f64,
}

digest_fields!(PowerCut { from_h, to_h });

/// A period with more dust in the air, h after departure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DustEvent {
    /// Its beginning.
    pub from_h: f64,
    /// Its end.
    pub to_h: f64,
    /// Dust divided by the usual dust.
    pub factor: f64,
}

digest_fields!(DustEvent { from_h, to_h, factor });

/// The air at the moment of departure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeavingAir {
    /// Hour of the day, 0 to 24.
    pub hour: f64,
    /// Pressure, Pa.
    pub pressure_pa: f64,
    /// Temperature, K.
    pub temperature_k: f64,
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
}

digest_fields!(LeavingAir { hour, pressure_pa, temperature_k, humidity });

/// Pressure (Pa), temperature (K) and relative humidity (0 to 1).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunAir {
    /// Station pressure, Pa.
    pub pressure_pa: f64,
    /// Temperature, K.
    pub temperature_k: f64,
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
}

impl RunWeather {
    /// The air this many hours after departure, without its short-term variations.
    ///
    /// Temperature: a daily cosine about the warmest hour, starting from the value at departure; a
    /// front is a logistic step of one and a half hours. Pressure: a tide twice a day and the
    /// front. The water vapour in the air stays as it was, up to saturation, so a cold night is
    /// humid. All shapes and sizes CHOSEN; hours below 1000.
    pub fn air(&self, left: &LeavingAir, hours: f64) -> RunAir {
        let wave = |period_h: f64, high_h: f64| {
            let at = |hour: f64| math::cos(math::TAU * (hour - high_h) / period_h);
            at(left.hour + hours) - at(left.hour)
        };
        let front = 1.0 / (1.0 + math::exp(-4.0 * (hours - self.front_after_h) / FRONT_H));
        let temperature_k =
            left.temperature_k + self.swing_k * wave(24.0, WARMEST_H) - self.front_k * front;
        let pressure_pa =
            left.pressure_pa + TIDE_PA * wave(12.0, HIGH_TIDE_H) - self.front_pa * front;
        let vapour_pa = vapour_pressure_pa(left.temperature_k, left.humidity);
        let saturated_pa = vapour_pressure_pa(temperature_k, 1.0);
        let humidity = (vapour_pa / saturated_pa).clamp(0.0, 1.0);
        RunAir { pressure_pa, temperature_k, humidity }
    }
}

#[cfg(test)]
mod tests {
    use super::{LeavingAir, RunWeather};

    #[test]
    fn a_day_comes_back_to_where_it_began_and_a_front_leaves_its_step() {
        let left =
            LeavingAir { hour: 10.0, pressure_pa: 1e5, temperature_k: 288.15, humidity: 0.6 };
        let calm = RunWeather {
            swing_k: 5.0,
            front_after_h: 12.0,
            front_pa: 0.0,
            front_k: 0.0,
            dust_kg_m3: 6e-8,
        };
        let (day, night) = (calm.air(&left, 24.0), calm.air(&left, 17.0));
        assert!((day.temperature_k - left.temperature_k).abs() < 1e-9);
        assert!((day.pressure_pa - left.pressure_pa).abs() < 1e-6);
        assert!((day.humidity - 0.6).abs() < 1e-9);
        // The coldest hour is 03:00, colder than the warmest one by twice the swing.
        assert!((calm.air(&left, 5.0).temperature_k - night.temperature_k - 10.0).abs() < 1e-9);
        assert!(night.humidity > 0.6 && night.humidity <= 1.0);
        let front = RunWeather { front_pa: 900.0, front_k: 4.0, ..calm };
        let behind = front.air(&left, 48.0);
        assert!((behind.pressure_pa - left.pressure_pa + 900.0).abs() < 0.01);
        assert!((behind.temperature_k - left.temperature_k + 4.0).abs() < 1e-6);
    }
}
