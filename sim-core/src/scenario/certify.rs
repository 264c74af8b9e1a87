//! The certification of a calibrator in the laboratory, simulated: five runs against a positive
//! displacement meter, and the line through them.

use crate::air::DRY_AIR_J_KG_K;
use crate::calibration::{
    AirConditions, FittedLine, STANDARD_PRESSURE_MMHG, STANDARD_TEMPERATURE_K, SumError, root_term,
};
use crate::math;
use crate::noise::Stream;
use crate::scenario::setup::CertificatePair;
use crate::units::{PA_PER_INH2O, PA_PER_MMHG};

/// Pressures across the orifice at the five runs, inches of water (CHOSEN: they span the flows of
/// 40 CFR Part 50 Appendix B, 9.2.5).
const RUNS_INH2O: [f64; 5] = [2.4, 3.3, 4.4, 5.6, 6.9];
/// Scatter of a run, as a fraction of its time (CHOSEN).
const TIMING_SD: f64 = 0.001;
/// The result of a certification.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Certification {
    /// Slope and intercept of sqrt(dH P/760 298/T) on Qstd (m3/min).
    pub standard: CertificatePair,
    /// Slope and intercept of sqrt(dH T/P) on Qa (m3/min, K, mmHg).
    pub actual: CertificatePair,
    /// Correlation coefficient.
    pub correlation: f64,
}

impl Certification {
    /// A certification whose line at standard conditions is given.
    ///
    /// The actual line follows exactly, because Qstd = Qa (P/760)(298/T) and
    /// sqrt(dH P/760 298/T) = sqrt(dH T/P) (P/T) sqrt(298/760):
    /// ma = m sqrt(298/760), ba = b (T/P) sqrt(760/298).
    pub fn stated(standard: CertificatePair, correlation: f64, lab: AirConditions) -> Self {
        let root = (STANDARD_TEMPERATURE_K / STANDARD_PRESSURE_MMHG).sqrt();
        let actual = CertificatePair {
            slope: standard.slope * root,
            intercept: standard.intercept * lab.temperature().k() / lab.pressure().mmhg() / root,
        };
        Self { standard, actual, correlation }
    }

    /// The same by a laboratory whose flows are so much too high, percent: Q (1 + bias) on the same
    /// root term, so that only the slopes change.
    pub fn with_bias(self, bias_pct: f64) -> Self {
        let pair = |pair: CertificatePair| CertificatePair {
            slope: pair.slope / (1.0 + bias_pct / 100.0),
            ..pair
        };
        Self { standard: pair(self.standard), actual: pair(self.actual), ..self }
    }
}

/// Simulates the certification of an orifice of this effective area, m2.
///
/// At each run m = CdA eps sqrt(2 rho dP) with eps = 1 - 0.351 (1 - (p2/p1)^(1/1.4)) (the form of
/// ISO 5167-2 for a small bore, from memory) in dry air of density rho = P/(287.05 T); the meter's
/// volume over its time gives Qstd = m/rho_std with a scatter of 0.1 % in time (40 CFR Part 50
/// Appendix B, 9.2: form READ, algebra from memory). The line through the five runs is fitted by
/// least squares. Holds for areas above zero; the scatter comes from the stream called `name`.
///
/// # Errors
///
/// When no line can be fitted, as for an area that is not above zero.
pub fn certify(
    orifice_cda_m2: f64,
    lab: AirConditions,
    seed: u64,
    name: &str,
) -> Result<Certification, SumError> {
    let mut timing = Stream::new(seed, name);
    let pressure_pa = lab.pressure().pa();
    let density = pressure_pa / (DRY_AIR_J_KG_K * lab.temperature().k());
    let standard_density =
        STANDARD_PRESSURE_MMHG * PA_PER_MMHG / (DRY_AIR_J_KG_K * STANDARD_TEMPERATURE_K);
    let mut run = |drop_inh2o: f64| {
        let drop_pa = drop_inh2o * PA_PER_INH2O;
        let ratio = 1.0 - drop_pa / pressure_pa;
        let expansion = 1.0 - 0.351 * (1.0 - math::pow(ratio, 1.0 / 1.4));
        let mass_kg_s = orifice_cda_m2 * expansion * (2.0 * density * drop_pa).sqrt();
        let time = 1.0 + TIMING_SD * timing.normal().clamp(-3.0, 3.0);
        Ok((60.0 * mass_kg_s / standard_density / time, root_term(drop_inh2o, lab)?))
    };
    let runs: Result<Vec<(f64, f64)>, SumError> = RUNS_INH2O.into_iter().map(&mut run).collect();
    let line = FittedLine::fit(&runs?)?;
    let standard = CertificatePair { slope: line.slope, intercept: line.intercept };
    Ok(Certification::stated(standard, line.r, lab))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Pressure, Temperature};

    fn lab() -> AirConditions {
        AirConditions::new(Pressure::from_mmhg(755.0), Temperature::from_k(295.0)).unwrap()
    }

    #[test]
    fn the_line_gives_back_the_flow_of_the_orifice() {
        // dH 4.9 in of water at 755 mmHg, 295 K, CdA 5.417e-4 m2, worked by hand:
        // rho = 1.188695 kg/m3, dP = 1220.536 Pa, ratio 0.987874, eps = 0.996955,
        // m = 0.0290911 kg/s, Qstd = m/1.184521 x 60 = 1.473561 m3/min.
        for seed in 0..20 {
            let line = certify(5.417e-4, lab(), seed, "timing").unwrap().standard;
            let term = (4.9_f64 * 755.0 / 760.0 * 298.0 / 295.0).sqrt();
            let flow = (term - line.intercept) / line.slope;
            assert!((flow / 1.473561 - 1.0).abs() < 0.0025, "seed {seed}: {flow}");
        }
    }

    #[test]
    fn both_pairs_give_the_same_flow_in_the_laboratory() {
        let both = certify(5.417e-4, lab(), 3, "timing").unwrap();
        let standard = ((4.9_f64 * 755.0 / 760.0 * 298.0 / 295.0).sqrt() - both.standard.intercept)
            / both.standard.slope;
        let actual = ((4.9_f64 * 295.0 / 755.0).sqrt() - both.actual.intercept) / both.actual.slope;
        let as_standard = actual * 755.0 / 760.0 * 298.0 / 295.0;
        assert!((standard / as_standard - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_laboratory_s_bias_is_in_every_flow_by_both_pairs() {
        let plain = certify(5.417e-4, lab(), 3, "timing").unwrap();
        let biased = plain.with_bias(1.5);
        for drop_inh2o in [2.0_f64, 4.9, 7.0] {
            let term = (drop_inh2o * 755.0 / 760.0 * 298.0 / 295.0).sqrt();
            let flow = |pair: CertificatePair| (term - pair.intercept) / pair.slope;
            assert!((flow(biased.standard) / flow(plain.standard) - 1.015).abs() < 1e-12);
            let term = (drop_inh2o * 295.0 / 755.0).sqrt();
            let flow = |pair: CertificatePair| (term - pair.intercept) / pair.slope;
            assert!((flow(biased.actual) / flow(plain.actual) - 1.015).abs() < 1e-12);
        }
    }

    #[test]
    fn a_certification_looks_like_one() {
        for seed in 0..50 {
            let made = certify(5.417e-4, lab(), seed, "timing").unwrap();
            assert!(made.correlation > 0.9999 && made.correlation < 1.0, "{made:?}");
            // Expansion bends the line a little: the intercept is about -0.011 ± 0.005.
            assert!((-0.035..0.015).contains(&made.standard.intercept), "{made:?}");
        }
    }
}
