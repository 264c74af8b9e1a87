//! The aneroid barometer.

use crate::digest::digest_fields;
use crate::math;
use crate::rig::parts::BarometerReference;
use crate::units::PA_PER_MMHG;

/// Days since a barometer in good order was certified (CHOSEN: within the year).
const CERTIFIED_DAYS: f64 = 131.0;

/// The barometer. It shows the station pressure, or that pressure reduced to sea level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Barometer {
    /// Error of its pointer, mmHg. A fault changes it at its onset.
    pub offset_mmhg: f64,
    /// Days since it was last certified, as its sticker says.
    pub certified_days: f64,
    elevation_m: f64,
    set_to: BarometerReference,
}

digest_fields!(Barometer { offset_mmhg, certified_days, elevation_m, set_to });

impl Barometer {
    /// A barometer at a station `elevation_m` (m) above sea level, set to show the pressure
    /// `set_to`.
    pub const fn new(elevation_m: f64, set_to: BarometerReference) -> Self {
        Self { offset_mmhg: 0.0, certified_days: CERTIFIED_DAYS, elevation_m, set_to }
    }

    /// Its reading, mmHg, at a station pressure of `station_pa` (Pa).
    pub fn pointer_mmhg(&self, station_pa: f64) -> f64 {
        let shown_pa = match self.set_to {
            BarometerReference::Station => station_pa,
            BarometerReference::SeaLevel => reduced_to_sea_level_pa(station_pa, self.elevation_m),
        };
        let pointer = shown_pa / PA_PER_MMHG + self.offset_mmhg;
        if pointer.is_finite() { pointer } else { 0.0 }
    }

    /// Which pressure it is set to show.
    pub const fn set_to(&self) -> BarometerReference {
        self.set_to
    }

    /// Sets which pressure it shows. Its error remains.
    pub const fn set(&mut self, to: BarometerReference) {
        self.set_to = to;
    }
}

/// A station pressure reduced to sea level with the standard atmosphere, Pa.
///
/// p0 = p (1 - 0.0065 h/288.15)^-5.25588, with p the station pressure (Pa) and h its elevation (m),
/// taken as geopotential height (50 ppm too low at 1600 m). Range -500 to 9000 m; elevations beyond
/// are replaced by the bound. US Standard Atmosphere 1976 (MEMORY).
pub fn reduced_to_sea_level_pa(station_pa: f64, elevation_m: f64) -> f64 {
    let height_m = if elevation_m.is_finite() { elevation_m.clamp(-500.0, 9000.0) } else { 0.0 };
    station_pa * math::pow(1.0 - 0.0065 * height_m / 288.15, -5.25588)
}

#[cfg(test)]
mod tests {
    use super::Barometer;
    use crate::rig::parts::BarometerReference;

    /// 1000 m has 89 874.6 Pa in the standard atmosphere (US Standard Atmosphere 1976).
    #[test]
    fn the_standard_atmosphere_reduces_to_760_mmhg() {
        let mut barometer = Barometer::new(1000.0, BarometerReference::SeaLevel);
        assert!((barometer.pointer_mmhg(89_874.6) - 760.0).abs() < 0.01);
        barometer.set(BarometerReference::Station);
        assert!((barometer.pointer_mmhg(89_874.6) - 674.115).abs() < 0.01);
        barometer.offset_mmhg = -8.0;
        assert!((barometer.pointer_mmhg(89_874.6) - 666.115).abs() < 0.01);
    }
}
