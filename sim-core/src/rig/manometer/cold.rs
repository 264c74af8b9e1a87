//! Water that freezes where it stands, and thaws again.

use crate::digest::digest_fields;

/// Kelvin-minutes below freezing in which a column of water freezes through (CHOSEN: a bore of 6.5 mm
/// holds 11 kJ to each metre. In a wind of 3 m/s, 9 mm of glass give off 50 W/m2 K by Hilpert's
/// correlation (MEMORY), 1.4 W to each metre and kelvin, which is 130 K min; in still air it would be
/// three times that).
pub const FREEZES_K_MIN: f64 = 120.0;
/// The warmth of water that comes from the van, as a share of the heat of fusion: 10 K (computed:
/// 10 K times 4.19 kJ/kg K over 334 kJ/kg).
const WARMTH: f64 = 0.125;
/// Part of that exchange which goes on in the closed case (CHOSEN).
const IN_CASE: f64 = 0.2;
/// From this share of ice on it is seen, and the water is slush (CHOSEN).
const SLUSH: f64 = 0.05;
/// From this share of ice on nothing moves (CHOSEN).
const STUCK: f64 = 0.9;
/// Lag of the column where half of it is ice, s (CHOSEN).
const HALF_FROZEN_LAG_S: f64 = 6.0;

/// How much of some standing water is ice.
///
/// df/dt = -T/D, with T the air's temperature in degrees Celsius and D [`FREEZES_K_MIN`]. `f` lies
/// between -0.125, water of 10 degrees Celsius, and 1, ice throughout; below zero it is what must
/// still be lost before ice forms. A constant T makes steps of any length compose exactly. The
/// density of ice is left out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ColdColumn {
    frozen: f64,
}

digest_fields!(ColdColumn { frozen });

impl Default for ColdColumn {
    fn default() -> Self {
        Self { frozen: -WARMTH }
    }
}

/// What ice looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum IceLook {
    /// No ice.
    None,
    /// Needles and a white rim: the water is slush.
    Slush,
    /// White throughout, with cracks.
    Solid,
}

impl ColdColumn {
    /// Lets it stand in air of `air_c` (degrees Celsius) for `dt_s` (s), in its case or out of it.
    pub fn stand(&mut self, dt_s: f64, air_c: f64, exposed: ColdExposure) {
        if !dt_s.is_finite() || !air_c.is_finite() {
            return;
        }
        let share = match exposed {
            ColdExposure::Case => IN_CASE,
            ColdExposure::Open => 1.0,
        };
        let gained = -air_c * share * dt_s.max(0.0) / 60.0 / FREEZES_K_MIN;
        self.frozen = (self.frozen + gained).clamp(-WARMTH, 1.0);
    }

    /// Makes it ice throughout.
    pub const fn freeze_through(&mut self) {
        self.frozen = 1.0;
    }

    /// Share of it that is ice, 0 to 1.
    pub const fn ice(&self) -> f64 {
        self.frozen.max(0.0)
    }

    /// Whether it no longer moves.
    pub fn is_stuck(&self) -> bool {
        self.ice() >= STUCK
    }

    /// What it looks like.
    pub fn look(&self) -> IceLook {
        match self.ice() {
            ice if ice >= STUCK => IceLook::Solid,
            ice if ice >= SLUSH => IceLook::Slush,
            _ => IceLook::None,
        }
    }

    /// The lag of slush, s: 6 s f/(1 - f); none without ice (CHOSEN).
    pub fn lag_s(&self) -> f64 {
        let ice = self.ice();
        if ice < SLUSH { 0.0 } else { HALF_FROZEN_LAG_S * ice / (1.0 - ice).max(1.0 - STUCK) }
    }
}

/// Where something stands in the cold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ColdExposure {
    /// In its closed case.
    Case,
    /// In the open air.
    Open,
}

#[cfg(test)]
mod tests {
    use super::{ColdColumn, ColdExposure, FREEZES_K_MIN, IceLook};

    /// Minutes in this air until something is so.
    fn minutes(air_c: f64, exposed: ColdExposure, so: fn(&ColdColumn) -> bool) -> f64 {
        let mut water = ColdColumn::default();
        let mut seconds = 0.0;
        while !so(&water) {
            water.stand(1.0, air_c, exposed);
            seconds += 1.0;
            assert!(seconds < 1e6, "never at {air_c}");
        }
        seconds / 60.0
    }

    #[test]
    fn at_six_below_slush_comes_in_minutes_and_ice_in_twenty() {
        let slush = minutes(-6.0, ColdExposure::Open, |water| water.look() == IceLook::Slush);
        let stuck = minutes(-6.0, ColdExposure::Open, ColdColumn::is_stuck);
        assert!((slush - 0.175 * FREEZES_K_MIN / 6.0).abs() < 0.05, "{slush}");
        assert!((stuck - 1.025 * FREEZES_K_MIN / 6.0).abs() < 0.05, "{stuck}");
        assert!((3.0..4.0).contains(&slush) && (20.0..21.0).contains(&stuck));
        let cased = minutes(-6.0, ColdExposure::Case, ColdColumn::is_stuck);
        assert!((cased / stuck - 5.0).abs() < 0.01, "{cased}");
    }

    #[test]
    fn above_freezing_nothing_ever_changes_and_ice_thaws_as_it_froze() {
        let mut water = ColdColumn::default();
        water.stand(86_400.0, 0.0, ColdExposure::Open);
        water.stand(86_400.0, 12.0, ColdExposure::Open);
        assert_eq!(water, ColdColumn::default());
        assert!(water.lag_s() <= 0.0 && water.look() == IceLook::None);
        water.freeze_through();
        assert_eq!(water.look(), IceLook::Solid);
        water.stand(360.0, 10.0, ColdExposure::Open);
        assert!((water.ice() - 0.5).abs() < 1e-12 && water.look() == IceLook::Slush);
        assert!((water.lag_s() - 6.0).abs() < 1e-9);
    }

    #[test]
    fn steps_of_any_length_compose() {
        let (mut short, mut long) = (ColdColumn::default(), ColdColumn::default());
        for _ in 0..2000 {
            short.stand(0.05, -7.3, ColdExposure::Open);
        }
        long.stand(100.0, -7.3, ColdExposure::Open);
        assert!((short.frozen - long.frozen).abs() < 1e-12);
    }
}
