//! The volume that was sampled during a run.

use super::error::{finite, positive};
use super::{AirConditions, Curve, SumError};

/// A part of a run in which the flow hardly changed: its mean chart reading and its length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunPart {
    /// Mean chart reading of this part, chart divisions.
    pub chart: f64,
    /// Length, minutes.
    pub minutes: f64,
}

/// Flow and volume of a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunVolume {
    /// Time, minutes.
    pub minutes: f64,
    /// Mean flow at standard conditions, std m3/min.
    pub mean_flow_std_m3_min: f64,
    /// Mean flow at the conditions of the run, m3/min.
    pub mean_flow_actual_m3_min: f64,
    /// Volume at standard conditions, std m3.
    pub volume_std_m3: f64,
    /// Volume at the conditions of the run, m3.
    pub volume_actual_m3: f64,
}

impl RunVolume {
    /// Flow and volume from a mean flow at standard conditions, std m3/min, a time in minutes, and the
    /// mean conditions of the run: `V = Q t`; actual = standard / (P3/760 298/T3), P in mmHg, T in K
    /// (40 CFR Part 50 App. B, 10, MEMORY).
    ///
    /// # Errors
    ///
    /// When the flow or the time is not above zero.
    pub fn from_flow(
        mean_flow_std_m3_min: f64,
        minutes: f64,
        during: AirConditions,
    ) -> Result<Self, SumError> {
        let flow = positive("the mean flow", mean_flow_std_m3_min)?;
        let minutes = positive("the time of the run", minutes)?;
        let to_standard = positive("the correction for the air of the run", during.to_standard())?;
        let volume_std_m3 = finite("the volume", flow * minutes)?;
        Ok(Self {
            minutes,
            mean_flow_std_m3_min: flow,
            mean_flow_actual_m3_min: finite("the actual flow", flow / to_standard)?,
            volume_std_m3,
            volume_actual_m3: finite("the actual volume", volume_std_m3 / to_standard)?,
        })
    }

    /// Flow and volume for a sampler without a continuous recorder: the mean of the flows at the start
    /// and at the end, not the flow at the mean reading (40 CFR Part 50 App. B, 10.1, MEMORY).
    ///
    /// # Errors
    ///
    /// When a reading gives no flow, or the time is not above zero.
    pub fn from_start_and_end(
        curve: Curve,
        start_chart: f64,
        end_chart: f64,
        minutes: f64,
        during: AirConditions,
    ) -> Result<Self, SumError> {
        let start = curve.flow_std_m3_min(start_chart, during)?;
        let end = curve.flow_std_m3_min(end_chart, during)?;
        Self::from_flow((start + end) / 2.0, minutes, during)
    }
}

/// Flow and volume of a run with a continuous recorder, from the mean chart reading of the whole run,
/// or of each of its parts if the flow changed a lot (splitting READ, 40 CFR Part 50 App. B,
/// 10.1.2): `V = sum Q t`, mean flow `V / sum t`.
///
/// # Errors
///
/// When there is no part, or a part has no flow or no time (the error names it).
pub fn run_volume(
    curve: Curve,
    parts: &[RunPart],
    during: AirConditions,
) -> Result<RunVolume, SumError> {
    let (mut volume, mut minutes) = (0.0, 0.0);
    for (index, part) in parts.iter().enumerate() {
        let flow = positive("the time", part.minutes)
            .and_then(|_| curve.flow_std_m3_min(part.chart, during))
            .map_err(|error| if parts.len() > 1 { error.at("part", index) } else { error })?;
        volume += flow * part.minutes;
        minutes += part.minutes;
    }
    if parts.is_empty() {
        return Err(SumError::EmptyRun);
    }
    RunVolume::from_flow(volume / minutes, minutes, during)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calibration::{Expression, RecorderScale};
    use crate::units::{Pressure, Temperature};

    fn curve() -> Curve {
        Curve::new(30.0, 3.0, Expression::actual(RecorderScale::SquareRoot)).unwrap()
    }

    fn standard_air() -> AirConditions {
        AirConditions::new(Pressure::from_mmhg(760.0), Temperature::from_k(298.0)).unwrap()
    }

    #[test]
    fn parts_weigh_by_their_time() {
        let parts =
            [RunPart { chart: 48.0, minutes: 360.0 }, RunPart { chart: 36.0, minutes: 1080.0 }];
        let run = run_volume(curve(), &parts, standard_air()).unwrap();
        assert!((run.volume_std_m3 - (1.5 * 360.0 + 1.1 * 1080.0)).abs() < 1e-9);
        assert!((run.mean_flow_std_m3_min - 1.2).abs() < 1e-12);
    }

    #[test]
    fn thin_air_makes_the_actual_volume_larger() {
        let thin =
            AirConditions::new(Pressure::from_mmhg(608.0), Temperature::from_k(298.0)).unwrap();
        let run = RunVolume::from_flow(1.2, 1440.0, thin).unwrap();
        assert!((run.volume_actual_m3 / run.volume_std_m3 - 1.25).abs() < 1e-12);
    }

    #[test]
    fn a_run_of_nothing_is_refused() {
        assert_eq!(run_volume(curve(), &[], standard_air()), Err(SumError::EmptyRun));
        let parts = [RunPart { chart: 40.0, minutes: 0.0 }];
        assert!(run_volume(curve(), &parts, standard_air()).is_err());
        let parts = [RunPart { chart: 2.0, minutes: 10.0 }];
        assert!(run_volume(curve(), &parts, standard_air()).is_err());
    }
}
