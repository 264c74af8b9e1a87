//! The orifice calibrator as a transfer standard: its certification against a volume meter, and the
//! flow that it gives.

use super::error::{finite, not_negative, positive};
use super::{AirConditions, FittedLine, SumError};

/// The line of a transfer standard: root term = slope * flow + intercept.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TransferStandard {
    slope: f64,
    intercept: f64,
}

impl TransferStandard {
    /// From the pair on a certificate for standard conditions: slope m, root of inches of water per
    /// std m3/min, and intercept b, root of inches of water.
    ///
    /// # Errors
    ///
    /// When one is not finite or the slope is not above zero.
    pub fn new(slope: f64, intercept: f64) -> Result<Self, SumError> {
        finite("the slope of the transfer standard", slope)?;
        finite("the intercept of the transfer standard", intercept)?;
        if slope > 0.0 {
            Ok(Self { slope, intercept })
        } else {
            Err(SumError::SlopeNotPositive { slope })
        }
    }

    /// Slope m.
    pub const fn slope(self) -> f64 {
        self.slope
    }

    /// Intercept b.
    pub const fn intercept(self) -> f64 {
        self.intercept
    }

    /// Flow at standard conditions, std m3/min, from the differential pressure in inches of water:
    /// `Qstd = (sqrt(dH P2/760 298/T2) - b) / m` (READ, 40 CFR Part 50 App. B, 9.3.7).
    ///
    /// # Errors
    ///
    /// When the differential pressure is negative or not finite, or the root term is below the
    /// intercept and gives no flow.
    pub fn flow_std_m3_min(self, delta_h_inh2o: f64, at: AirConditions) -> Result<f64, SumError> {
        let term = root_term(delta_h_inh2o, at)?;
        let flow = finite("the flow", (term - self.intercept) / self.slope)?;
        if flow > 0.0 {
            Ok(flow)
        } else {
            Err(SumError::NoFlow { term, intercept: self.intercept })
        }
    }
}

/// The root term of the transfer standard, `sqrt(dH P/760 298/T)`: dH in inches of water, P in mmHg,
/// T in K; the result in roots of inches of water (40 CFR Part 50 App. B, 9.2; form READ, algebra
/// MEMORY).
///
/// # Errors
///
/// When the differential pressure is negative or not finite.
pub fn root_term(delta_h_inh2o: f64, at: AirConditions) -> Result<f64, SumError> {
    let delta_h = not_negative("the differential pressure", delta_h_inh2o)?;
    finite("the root term", (delta_h * at.to_standard()).sqrt())
}

/// One run of a transfer standard against a volume meter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StandardRun {
    /// Volume that the meter shows, Vm, m3.
    pub volume_m3: f64,
    /// Time, minutes.
    pub minutes: f64,
    /// How far the pressure at the inlet of the meter is below that of the air, mmHg.
    pub pressure_drop_mmhg: f64,
    /// Differential pressure of the transfer standard, inches of water.
    pub delta_h_inh2o: f64,
}

/// The result of one run of a transfer standard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StandardPoint {
    /// Volume at standard conditions, m3.
    pub volume_std_m3: f64,
    /// Flow at standard conditions, std m3/min.
    pub flow_std_m3_min: f64,
    /// The root term, roots of inches of water.
    pub root_term: f64,
}

impl StandardRun {
    /// Volume, flow and root term: `Vstd = Vm (P1 - dP)/760 298/T1`, `Qstd = Vstd / t`
    /// (40 CFR Part 50 App. B, 9.2; form READ, algebra MEMORY).
    ///
    /// # Errors
    ///
    /// When volume or time is not above zero, the pressure drop is negative or leaves no pressure, or
    /// the differential pressure is negative.
    pub fn point(&self, at: AirConditions) -> Result<StandardPoint, SumError> {
        let volume = positive("the volume", self.volume_m3)?;
        let minutes = positive("the time", self.minutes)?;
        let drop_mmhg = not_negative("the pressure drop", self.pressure_drop_mmhg)?;
        let pressure_mmhg = at.pressure().mmhg();
        if drop_mmhg >= pressure_mmhg {
            return Err(SumError::DropTooLarge { drop_mmhg, pressure_mmhg });
        }
        let left = 1.0 - drop_mmhg / pressure_mmhg;
        let volume_std_m3 = finite("the volume", volume * left * at.to_standard())?;
        let flow_std_m3_min = finite("the flow", volume_std_m3 / minutes)?;
        let root_term = root_term(self.delta_h_inh2o, at)?;
        Ok(StandardPoint { volume_std_m3, flow_std_m3_min, root_term })
    }
}

/// A certified transfer standard: its runs and their line.
#[derive(Debug, Clone, PartialEq)]
pub struct StandardFit {
    /// The result of each run, in the order of the runs.
    pub points: Vec<StandardPoint>,
    /// The line of the root term against the flow.
    pub line: FittedLine,
    /// The transfer standard for later use.
    pub standard: TransferStandard,
}

/// Certifies a transfer standard: fits `sqrt(dH P1/760 298/T1) = m Qstd + b` to its runs
/// (40 CFR Part 50 App. B, 9.2; form READ, algebra MEMORY).
///
/// # Errors
///
/// When a run cannot be calculated (the error names it), no line can be fitted, or the line does not
/// rise.
pub fn fit_transfer_standard(
    runs: &[StandardRun],
    at: AirConditions,
) -> Result<StandardFit, SumError> {
    let points = runs
        .iter()
        .enumerate()
        .map(|(index, run)| run.point(at).map_err(|error| error.at("run", index)))
        .collect::<Result<Vec<_>, _>>()?;
    let pairs: Vec<_> = points.iter().map(|p| (p.flow_std_m3_min, p.root_term)).collect();
    let line = FittedLine::fit(&pairs)?;
    let standard = TransferStandard::new(line.slope, line.intercept)?;
    Ok(StandardFit { points, line, standard })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Pressure, Temperature};

    fn standard_air() -> AirConditions {
        AirConditions::new(Pressure::from_mmhg(760.0), Temperature::from_k(298.0)).unwrap()
    }

    #[test]
    fn conditions_of_nothing_are_refused() {
        for (mmhg, k) in [(0.0, 298.0), (-1.0, 298.0), (f64::NAN, 298.0), (760.0, 0.0)] {
            let made = AirConditions::new(Pressure::from_mmhg(mmhg), Temperature::from_k(k));
            assert!(made.is_err(), "{mmhg} mmHg, {k} K");
        }
    }

    #[test]
    fn a_reading_below_the_intercept_gives_no_flow() {
        let standard = TransferStandard::new(1.5, 0.5).unwrap();
        let error = standard.flow_std_m3_min(0.16, standard_air()).unwrap_err();
        assert!(matches!(error, SumError::NoFlow { .. }));
        assert!(standard.flow_std_m3_min(-0.1, standard_air()).is_err());
        assert!((standard.flow_std_m3_min(4.0, standard_air()).unwrap() - 1.0).abs() < 1e-15);
    }

    #[test]
    fn a_bad_run_is_named() {
        let good = StandardRun {
            volume_m3: 3.0,
            minutes: 3.0,
            pressure_drop_mmhg: 4.0,
            delta_h_inh2o: 4.0,
        };
        let bad = StandardRun { pressure_drop_mmhg: 760.0, ..good };
        let error = fit_transfer_standard(&[good, bad], standard_air()).unwrap_err();
        assert!(error.to_string().starts_with("run 2: the pressure drop"), "{error}");
    }
}
