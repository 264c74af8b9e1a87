//! Clean filters laid on the one on the holder, to see whether the flow controller still holds the flow
//! against more resistance (40 CFR Part 50 App. B, 9.3.11, READ).

use super::filter::{Filter, FilterParameters};
use crate::digest::digest_fields;

/// The most filters that may be laid on the first (MEMORY: the method asks for one or two).
pub const MOST_ADDED: u8 = 2;

/// The filters on top of the one on the holder. The topmost takes the dust.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct AddedFilters {
    /// How many there are.
    pub sheets: u8,
    /// Dust on the topmost, kg per m2 of exposed area.
    pub deposit_kg_m2: f64,
}

digest_fields!(AddedFilters { sheets, deposit_kg_m2 });

impl AddedFilters {
    /// Whether the filter on the holder is covered.
    pub const fn cover(&self) -> bool {
        self.sheets > 0
    }

    /// Lays a clean filter on top.
    pub const fn lay_on(&mut self) {
        self.sheets += 1;
        self.deposit_kg_m2 = 0.0;
    }

    /// Takes the topmost filter off.
    pub const fn lift_off(&mut self) {
        self.sheets = self.sheets.saturating_sub(1);
        self.deposit_kg_m2 = 0.0;
    }

    /// Resistance of the filters on top: pressure drop over volume flow, Pa s/m3. The resistances of
    /// sheets that lie on each other add up; each follows the law of [`Filter::resistance_pa_s_m3`].
    pub fn resistance_pa_s_m3(&self, parameters: &FilterParameters, temperature_k: f64) -> f64 {
        let clean = Filter::default().resistance_pa_s_m(parameters) * f64::from(self.sheets);
        let loaded = clean + parameters.loading_per_s * self.deposit_kg_m2;
        parameters.of_exposed_area(loaded, temperature_k)
    }

    /// Collects the dust of a time step; see [`Filter::load`].
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
    use super::*;

    #[test]
    fn each_sheet_resists_like_a_clean_filter_and_the_topmost_takes_the_dust() {
        let parameters = FilterParameters::default();
        let one = Filter::default().resistance_pa_s_m3(&parameters, 288.15);
        let mut added = AddedFilters::default();
        assert!(added.resistance_pa_s_m3(&parameters, 288.15).abs() < 1e-12);
        added.lay_on();
        added.lay_on();
        assert!((added.resistance_pa_s_m3(&parameters, 288.15) / (2.0 * one) - 1.0).abs() < 1e-12);
        added.load(&parameters, 86_400.0, 1.13 / 60.0, 100e-9);
        assert!(added.resistance_pa_s_m3(&parameters, 288.15) > 2.0 * one);
        added.lift_off();
        assert!((added.resistance_pa_s_m3(&parameters, 288.15) / one - 1.0).abs() < 1e-12);
        added.lift_off();
        added.lift_off();
        assert!(!added.cover());
    }
}
