//! How far the manometer is filled: what was lost from its legs, and what sticks in them.

use super::cold::{ColdColumn, ColdExposure};
use super::parameters::ManometerParameters;
use crate::digest::digest_fields;
use crate::math;
use crate::rig::parts::GaugeFluid;

/// Time in which what still wants to go over at the end of a leg goes over, s (CHOSEN: with the whole
/// suction of a blower on it, water runs through such a tube at 2 m/s).
const GOES_OVER_S: f64 = 0.3;
/// Level that hands leave above the fill mark where they fill the manometer anew, mm (CHOSEN: a
/// bottle does not stop on the mark).
const POURED_ABOVE_MM: f64 = 2.0;
/// How far above the mark the legs can be filled, mm (CHOSEN).
const MOST_ABOVE_MM: f64 = 30.0;

/// The fluid in the legs: which it is, how much is missing, how much of it is ice, how dirty it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Filling {
    /// What it is, by its label.
    pub fluid: GaugeFluid,
    /// What is missing from both legs together, m3; negative if they are filled above the mark.
    pub missing_m3: f64,
    /// Its ice.
    pub cold: ColdColumn,
    /// How far dirt holds a meniscus back on the glass, m.
    pub clings_m: f64,
    /// Whether nothing can go over, whatever stands on it: only a session that is replayed to find out
    /// what a slip cost has this.
    pub kept: bool,
}

digest_fields!(Filling { fluid, missing_m3, cold, clings_m, kept });

impl Filling {
    /// Filled to the mark with this fluid, from the van.
    pub fn new(fluid: GaugeFluid) -> Self {
        Self { fluid, missing_m3: 0.0, cold: ColdColumn::default(), clings_m: 0.0, kept: false }
    }

    /// Empties it, dries it and fills it anew from a bottle, in the warmth of the van.
    pub fn change(&mut self, fluid: GaugeFluid, parameters: &ManometerParameters) {
        *self = Self { kept: self.kept, ..Self::new(fluid) };
        self.missing_m3 = -POURED_ABOVE_MM * 1e-3 * both_legs_m2(parameters);
    }

    /// Adds fluid to both legs, mm of level; negative takes some out. Returns what was added, m3.
    pub fn add(&mut self, by_mm: f64, parameters: &ManometerParameters) -> f64 {
        let area_m2 = both_legs_m2(parameters);
        let before_m3 = self.missing_m3;
        let by_m3 = if by_mm.is_finite() { by_mm * 1e-3 * area_m2 } else { 0.0 };
        let least_m3 = -MOST_ABOVE_MM * 1e-3 * area_m2;
        self.missing_m3 = (before_m3 - by_m3).clamp(least_m3, most_missing_m3(parameters));
        before_m3 - self.missing_m3
    }

    /// How far the level lies below the fill mark, m; both legs alike.
    pub fn below_mark_m(&self, parameters: &ManometerParameters) -> f64 {
        self.missing_m3 / both_legs_m2(parameters)
    }

    /// Takes what goes over at the top of the left leg within `dt_s` (s), where `beyond_m` (m) is how
    /// far the left meniscus would stand above it at rest. Returns its volume, m3.
    ///
    /// The left meniscus stays at the end of its leg while the right one falls: each metre of column
    /// that goes over lowers the right meniscus by one, so that 2 m of travel beyond the end is what
    /// goes over before the column balances. It goes over with a time constant of 0.3 s, and no more
    /// once the right meniscus is in the bend, where air bubbles through (CHOSEN).
    pub(super) fn goes_over(
        &mut self,
        dt_s: f64,
        beyond_m: f64,
        parameters: &ManometerParameters,
    ) -> f64 {
        if self.kept || !beyond_m.is_finite() || beyond_m <= 0.0 {
            return 0.0;
        }
        let bore_m = parameters.mean_bore_mm() * 1e-3;
        let wants_m3 = 2.0 * beyond_m * 0.25 * math::PI * bore_m * bore_m;
        let part = -math::exp_m1(-dt_s.max(0.0) / GOES_OVER_S);
        let left_m3 = (most_missing_m3(parameters) - self.missing_m3).max(0.0);
        let over_m3 = (part * wants_m3).min(left_m3);
        self.missing_m3 += over_m3;
        over_m3
    }

    /// Decay rate that dirt adds to the swing, 1/s: 0.1 for each millimetre by which it holds a meniscus
    /// back (CHOSEN).
    pub(super) fn dirt_decay_1_s(&self) -> f64 {
        100.0 * self.clings_m
    }

    /// Lets it stand in the air for `dt_s` (s).
    pub(super) fn stand(&mut self, dt_s: f64, air_c: f64, exposed: ColdExposure) {
        if self.fluid.freezes() {
            self.cold.stand(dt_s, air_c, exposed);
        }
    }
}

/// Area of both bores together, m2.
pub(super) fn both_legs_m2(parameters: &ManometerParameters) -> f64 {
    let area = |bore_mm: f64| 0.25 * math::PI * 1e-6 * bore_mm * bore_mm;
    area(parameters.left_bore_mm) + area(parameters.right_bore_mm)
}

/// The most that can be missing, m3: what stands above the bend while the left leg is full to its end.
fn most_missing_m3(parameters: &ManometerParameters) -> f64 {
    /// Metres in an inch (exact).
    const M_PER_IN: f64 = 0.0254;
    let bend_m = 0.5 * math::PI * parameters.limb_spacing_mm * 1e-3;
    let straight_m = 0.5 * (parameters.column_length_m - bend_m).max(0.0);
    let over_m = (straight_m - parameters.range_in * M_PER_IN).max(0.0);
    0.5 * over_m * both_legs_m2(parameters)
}
