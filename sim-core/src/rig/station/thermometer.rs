//! The thermometer.

use crate::digest::digest_fields;
use crate::math;
use crate::rig::parts::Exposure;

/// Time constant in the shaded screen, s (CHOSEN).
const SHADE_LAG_S: f64 = 60.0;
/// Time constant in the sun and wind, s (CHOSEN).
const SUN_LAG_S: f64 = 45.0;
/// The column is seen to move while it is further than this from rest, K (CHOSEN).
const SEEN_MOVING_K: f64 = 0.1;

/// Days since a thermometer in good order was certified (CHOSEN: within the year).
const CERTIFIED_DAYS: f64 = 98.0;

/// The thermometer. It follows the air temperature with a first-order lag of 60 s in the shade and
/// 45 s in the sun (CHOSEN), where it settles above the air temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thermometer {
    /// Days since it was last certified, as its sticker says.
    pub certified_days: f64,
    exposure: Exposure,
    column_c: f64,
    target_c: f64,
}

digest_fields!(Thermometer { certified_days, exposure, column_c, target_c });

impl Thermometer {
    /// A thermometer that has settled at `column_c` (degrees Celsius) in its place.
    pub const fn new(column_c: f64, exposure: Exposure) -> Self {
        Self { certified_days: CERTIFIED_DAYS, exposure, column_c, target_c: column_c }
    }

    /// Advances the column by `dt_s` (s) in air of `air_c` (degrees Celsius); in the sun it would
    /// settle `sun_k` (K) higher. Exact for any `dt_s` in steady air.
    pub fn step(&mut self, dt_s: f64, air_c: f64, sun_k: f64) {
        let (target_c, lag_s) = match self.exposure {
            Exposure::Shade => (air_c, SHADE_LAG_S),
            Exposure::Sun => (air_c + sun_k, SUN_LAG_S),
        };
        if target_c.is_finite() && dt_s.is_finite() {
            self.target_c = target_c;
            self.column_c =
                target_c + (self.column_c - target_c) * math::exp(-dt_s.max(0.0) / lag_s);
        }
    }

    /// Its reading, degrees Celsius.
    pub const fn column_c(&self) -> f64 {
        self.column_c
    }

    /// Whether the column is seen to move.
    pub fn is_moving(&self) -> bool {
        (self.column_c - self.target_c).abs() > SEEN_MOVING_K
    }

    /// Whether it is in the shade or in the sun.
    pub const fn exposure(&self) -> Exposure {
        self.exposure
    }

    /// Moves it to another place.
    pub const fn place(&mut self, at: Exposure) {
        self.exposure = at;
    }
}

#[cfg(test)]
mod tests {
    use super::Thermometer;
    use crate::rig::parts::Exposure;

    #[test]
    fn it_settles_above_the_air_in_the_sun_and_comes_back_in_the_shade() {
        let mut thermometer = Thermometer::new(20.0, Exposure::Sun);
        for _ in 0..45 {
            thermometer.step(1.0, 20.0, 8.0);
        }
        let expected = 28.0 - 8.0 * 0.367_879_441_171_442_33;
        assert!((thermometer.column_c() - expected).abs() < 1e-9);
        thermometer.place(Exposure::Shade);
        thermometer.step(0.05, 20.0, 8.0);
        assert!(thermometer.is_moving());
        thermometer.step(600.0, 20.0, 8.0);
        assert!((thermometer.column_c() - 20.0).abs() < 1e-3 && !thermometer.is_moving());
    }
}
