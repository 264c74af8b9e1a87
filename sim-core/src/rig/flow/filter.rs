//! The filter and its loading.

use crate::air::viscosity_ratio_to_20c;
use crate::digest::digest_fields;
use crate::rig::parts::{FilterSide, Grip, Seat};

/// Leak past a filter that is not centred, area times discharge coefficient, mm2 (CHOSEN: a slit of
/// half a millimetre along 0.1 m of one margin).
pub const SHIFTED_LEAK_MM2: f64 = 30.0;
/// Fraction of the dust that falls off a filter with the smooth side up (CHOSEN; that some dust
/// falls off is common practice, without a source).
pub const SMOOTH_SIDE_LOSS: f64 = 0.05;
/// Fraction of the dust that falls off a filter folded with the dirty side out (CHOSEN).
pub const DIRTY_SIDE_OUT_LOSS: f64 = 0.04;
/// Mass that a thumb leaves on the face, kg (CHOSEN: half a milligram).
const THUMB_KG: f64 = 0.5e-6;

/// The filter sheet itself: its identity, its condition, and how it was handled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilterSheet {
    /// Which sheet it is: 0 is the one found on the holder; the fresh ones follow in the order of
    /// their envelopes.
    pub number: u8,
    /// Area of tears and pinholes times their discharge coefficient, mm2.
    pub holes_mm2: f64,
    /// Resistance divided by that of a dry sheet.
    pub wetness: f64,
    /// The side that is up.
    pub up: FilterSide,
    /// How it is seated on the holder.
    pub seat: Seat,
    /// Whether it was held against the light.
    pub seen_through: bool,
    /// How it is held, or was last held.
    pub grip: Grip,
    /// How often its face was touched with a thumb.
    pub thumbs: u8,
    /// Which side is out, once it is folded.
    pub folded_out: Option<FilterSide>,
    /// Whether it is in an envelope.
    pub in_envelope: bool,
}

digest_fields!(FilterSheet {
    number,
    holes_mm2,
    wetness,
    up,
    seat,
    seen_through,
    grip,
    thumbs,
    folded_out,
    in_envelope
});

impl Default for FilterSheet {
    fn default() -> Self {
        Self {
            number: 0,
            holes_mm2: 0.0,
            wetness: 1.0,
            up: FilterSide::Rough,
            seat: Seat::Centred,
            seen_through: false,
            grip: Grip::Edges,
            thumbs: 0,
            folded_out: None,
            in_envelope: false,
        }
    }
}

impl FilterSheet {
    /// A sound sheet in its envelope.
    pub fn fresh(number: u8) -> Self {
        Self { number, in_envelope: true, ..Self::default() }
    }

    /// Leak through its holes or past its edge, where air is not filtered: area times discharge
    /// coefficient, mm2.
    pub fn leak_mm2(&self) -> f64 {
        let beside = if self.seat == Seat::Shifted { SHIFTED_LEAK_MM2 } else { 0.0 };
        self.holes_mm2 + beside
    }

    /// Records how a hand takes it.
    pub const fn held(&mut self, grip: Grip) {
        self.grip = grip;
        self.in_envelope = false;
        if matches!(grip, Grip::Face) {
            self.thumbs = self.thumbs.saturating_add(1);
        }
    }
}

/// Parameters.
#[derive(Debug, Clone, PartialEq)]
pub struct FilterParameters {
    /// Resistance of the clean filter at 20 degrees Celsius: pressure drop over face velocity,
    /// Pa s/m. 40 CFR 50 App. B 7.1.5 allows 9.1 to 11.7 kPa s/m (READ); the default is CHOSEN.
    pub clean_pa_s_m: f64,
    /// Exposed area, m2: 63 square inches (READ, 40 CFR 50 App. B 7.1.2).
    pub exposed_area_m2: f64,
    /// Added resistance for each kg/m2 of deposit, 1/s. 2e5 to 1e6 by the Carman-Kozeny formula
    /// (MEMORY) for particles near 1 um; CHOSEN, the least certain number here.
    pub loading_per_s: f64,
}

digest_fields!(FilterParameters { clean_pa_s_m, exposed_area_m2, loading_per_s });

impl Default for FilterParameters {
    fn default() -> Self {
        Self {
            clean_pa_s_m: 10_400.0,
            exposed_area_m2: 63.0 * 0.0254 * 0.0254,
            loading_per_s: 2.5e5,
        }
    }
}

impl FilterParameters {
    /// Resistance of the exposed area, pressure drop over volume flow, Pa s/m3, at a temperature, K;
    /// `pa_s_m` is that at 20 degrees Celsius, pressure drop over face velocity, Pa s/m.
    pub(super) fn of_exposed_area(&self, pa_s_m: f64, temperature_k: f64) -> f64 {
        pa_s_m * viscosity_ratio_to_20c(temperature_k) / self.exposed_area_m2
    }

    /// Dust that a time step leaves, kg per m2 of exposed area: c Q dt / A.
    pub(super) fn deposit_kg_m2(&self, dt_s: f64, flow_m3_s: f64, dust_kg_m3: f64) -> f64 {
        dust_kg_m3 * flow_m3_s * dt_s / self.exposed_area_m2
    }
}

/// One filter.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Filter {
    /// Dust on it, kg per m2 of exposed area.
    pub deposit_kg_m2: f64,
    /// The sheet.
    pub sheet: FilterSheet,
}

digest_fields!(Filter { deposit_kg_m2, sheet });

impl Filter {
    /// Resistance of the exposed area: pressure drop over volume flow, Pa s/m3.
    ///
    /// dP = R Q / A, R = (R20 + K2 W) mu(T) / mu(20): Q volume flow in front of the filter in m3/s,
    /// A exposed area in m2, W deposit in kg/m2, mu viscosity. Darcy's law: the flow round glass
    /// fibres is laminar (READ, Wheat 1963, abstract).
    pub fn resistance_pa_s_m3(&self, parameters: &FilterParameters, temperature_k: f64) -> f64 {
        parameters.of_exposed_area(self.resistance_pa_s_m(parameters), temperature_k)
    }

    /// Resistance at 20 degrees Celsius: pressure drop over face velocity, Pa s/m.
    pub fn resistance_pa_s_m(&self, parameters: &FilterParameters) -> f64 {
        (parameters.clean_pa_s_m + parameters.loading_per_s * self.deposit_kg_m2)
            * self.sheet.wetness
    }

    /// Mass gain that a laboratory finds, kg: the deposit minus what fell off, plus what thumbs
    /// left.
    pub fn gained_kg(&self, parameters: &FilterParameters) -> f64 {
        let side = if self.sheet.up == FilterSide::Smooth { SMOOTH_SIDE_LOSS } else { 0.0 };
        let fold = match self.sheet.folded_out {
            Some(out) if out == self.sheet.up => DIRTY_SIDE_OUT_LOSS,
            _ => 0.0,
        };
        let stays = (1.0 - side) * (1.0 - fold);
        self.deposit_kg_m2 * parameters.exposed_area_m2 * stays
            + f64::from(self.sheet.thumbs) * THUMB_KG
    }

    /// Collects the dust of a time step: W grows by c Q dt / A.
    ///
    /// `flow_m3_s` actual volume flow Q through it, `dust_kg_m3` dust in the air c, `dt_s` time.
    /// All of the dust stays on the filter.
    pub fn load(
        &mut self,
        parameters: &FilterParameters,
        dt_s: f64,
        flow_m3_s: f64,
        dust_kg_m3: f64,
    ) {
        self.deposit_kg_m2 += parameters.deposit_kg_m2(dt_s, flow_m3_s, dust_kg_m3);
    }
}

#[cfg(test)]
mod tests {
    use super::{Filter, FilterParameters, FilterSheet};
    use crate::rig::parts::{FilterSide, Grip, Seat};

    #[test]
    fn what_is_done_to_a_sheet_changes_what_the_balance_finds() {
        let parameters = FilterParameters::default();
        let loaded = Filter { deposit_kg_m2: 4e-3, sheet: FilterSheet::fresh(1) };
        let clean_kg = loaded.gained_kg(&parameters);
        assert!((clean_kg - 4e-3 * parameters.exposed_area_m2).abs() < 1e-15);
        let mut spoilt = loaded;
        spoilt.sheet.up = FilterSide::Smooth;
        assert!((spoilt.gained_kg(&parameters) / clean_kg - 0.95).abs() < 1e-12);
        spoilt.sheet.folded_out = Some(FilterSide::Smooth);
        assert!((spoilt.gained_kg(&parameters) / clean_kg - 0.95 * 0.96).abs() < 1e-12);
        let mut thumbed = loaded;
        thumbed.sheet.held(Grip::Face);
        assert!((thumbed.gained_kg(&parameters) - clean_kg - 0.5e-6).abs() < 1e-15);
    }

    #[test]
    fn holes_and_a_shifted_seat_let_air_by() {
        let mut sheet = FilterSheet { holes_mm2: 4.0, ..FilterSheet::fresh(1) };
        assert!((sheet.leak_mm2() - 4.0).abs() < 1e-12);
        sheet.seat = Seat::Shifted;
        assert!((sheet.leak_mm2() - 34.0).abs() < 1e-12);
    }
}
