//! The filter and its loading.

use crate::air::viscosity_ratio_to_20c;

/// Parameters.
#[derive(Debug, Clone, PartialEq)]
pub struct FilterParameters {
    /// Resistance of the clean filter at 20 degrees Celsius: pressure drop over face velocity,
    /// Pa s/m. 40 CFR 50 App. B 7.1.5 allows 9.1 to 11.7 kPa s/m (READ); the default is CHOSEN.
    pub clean_pa_s_m: f64,
    /// Area that the air passes, m2: 63 square inches (READ, 40 CFR 50 App. B 7.1.2).
    pub exposed_area_m2: f64,
    /// Resistance gained for each kg/m2 of deposit, 1/s. 2e5 to 1e6 by the Carman-Kozeny formula
    /// (MEMORY) for particles near 1 um; CHOSEN, the least certain number here.
    pub loading_per_s: f64,
}

impl Default for FilterParameters {
    fn default() -> Self {
        Self { clean_pa_s_m: 10_400.0, exposed_area_m2: 63.0 * 0.0254 * 0.0254, loading_per_s: 5e5 }
    }
}

/// One filter.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Filter {
    /// Dust on it, kg for each m2 of exposed area.
    pub deposit_kg_m2: f64,
}

impl Filter {
    /// Resistance of the exposed area: pressure drop over volume flow, Pa s/m3.
    ///
    /// dP = R Q / A, R = (R20 + K2 W) mu(T) / mu(20): Q volume flow in front of the filter in m3/s,
    /// A exposed area in m2, W deposit in kg/m2, mu viscosity. Darcy's law: the flow round glass
    /// fibres is laminar (READ, Wheat 1963, abstract).
    pub fn resistance_pa_s_m3(&self, parameters: &FilterParameters, temperature_k: f64) -> f64 {
        self.resistance_pa_s_m(parameters) * viscosity_ratio_to_20c(temperature_k)
            / parameters.exposed_area_m2
    }

    /// Resistance at 20 degrees Celsius: pressure drop over face velocity, Pa s/m.
    pub fn resistance_pa_s_m(&self, parameters: &FilterParameters) -> f64 {
        parameters.clean_pa_s_m + parameters.loading_per_s * self.deposit_kg_m2
    }

    /// Collects the dust of a time: W grows by c Q dt / A.
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
        self.deposit_kg_m2 += dust_kg_m3 * flow_m3_s * dt_s / parameters.exposed_area_m2;
    }
}

impl crate::digest::Digestible for Filter {
    fn digest(&self, digest: &mut crate::digest::Digest) {
        digest.number(self.deposit_kg_m2);
    }
}
