//! The calculations of a file.

use serde::{Serialize, Serializer};
use sim_core::calibration::{
    AirConditions, Basis, Calibration, Concern, Curve, Expression, Occasion, PointReading,
    PredictionInterval, RunVolume, StandardFit, SumError, TransferStandard, ValidityProblem,
    averages_problems, calibrate, concentration, fit_transfer_standard, run_problems, run_volume,
    set_point, standard_problems, target_problems,
};

use super::readings::{LineSource, Readings, RunReadings, Standard};
use super::wrong_entry::WrongEntry;

/// Share of readings between the two ends of a set point.
const CONFIDENCE: f64 = 0.95;

/// Every result; the field names are the keys of `--json`. `None` where the file did not ask.
#[derive(Debug, Default, Serialize)]
pub struct Report {
    pub transfer_standard: Option<StandardReport>,
    pub points: Vec<PointReport>,
    pub slope: Option<f64>,
    pub intercept: Option<f64>,
    pub r: Option<f64>,
    pub residual_sd: Option<f64>,
    pub slope_se: Option<f64>,
    pub intercept_se: Option<f64>,
    pub target_flow_std_m3_min: Option<f64>,
    pub target_flow_actual_m3_min: Option<f64>,
    pub set_point: Option<f64>,
    pub set_point_low: Option<f64>,
    pub set_point_high: Option<f64>,
    pub minutes: Option<f64>,
    pub mean_flow_std_m3_min: Option<f64>,
    pub mean_flow_actual_m3_min: Option<f64>,
    pub volume_std_m3: Option<f64>,
    pub volume_actual_m3: Option<f64>,
    pub tsp_ug_std_m3: Option<f64>,
    pub tsp_ug_actual_m3: Option<f64>,
    #[serde(serialize_with = "problems")]
    pub problems: Vec<ValidityProblem>,
    /// The expression for the corrected chart reading, for the heading of the table.
    #[serde(skip)]
    pub expression: Option<Expression>,
}

/// The transfer standard.
#[derive(Debug, Serialize)]
pub struct StandardReport {
    /// Its runs; none when slope and intercept were given.
    pub points: Vec<StandardPointReport>,
    pub slope: f64,
    pub intercept: f64,
    /// `None` when slope and intercept were given.
    pub r: Option<f64>,
}

/// One run of the transfer standard.
#[derive(Debug, Serialize)]
pub struct StandardPointReport {
    pub volume_std_m3: f64,
    pub flow_std_m3_min: f64,
    pub root_term: f64,
}

/// One point of the calibration.
#[derive(Debug, Serialize)]
pub struct PointReport {
    pub delta_h_inh2o: f64,
    pub chart: f64,
    pub flow_std_m3_min: f64,
    pub chart_term: f64,
    pub residual_m3_min: f64,
}

impl Report {
    /// Works out everything that a file asks for.
    ///
    /// # Errors
    ///
    /// The first entry that gives no result.
    pub fn work_out(file: &Readings) -> Result<Self, WrongEntry> {
        let mut report = Self::default();
        let standard = file.standard.as_ref().map(|s| report.standard(s)).transpose();
        let standard = standard.map_err(|error| no_standard(file, &error))?;
        let Some(source) = &file.line else { return Ok(report) };
        let (curve, calibration) = report
            .calibration(source, file.fully_open, standard)
            .map_err(|error| no_line(source, &error))?;
        if let Some((target, expected)) = file.set_point {
            report
                .set_point(curve, calibration.as_ref(), target, expected)
                .map_err(|error| WrongEntry::at("set_point", format!("set point: {error}")))?;
        }
        if let Some((readings, during)) = &file.run {
            let run = report.run(curve, readings, *during).map_err(|error| {
                WrongEntry::at(entry("run", "run.parts", &error), format!("run: {error}"))
            })?;
            if let Some(masses) = file.masses {
                let found = concentration(masses, &run)
                    .map_err(|error| WrongEntry::at("masses", format!("masses: {error}")))?;
                report.tsp_ug_std_m3 = Some(found.ug_std_m3);
                report.tsp_ug_actual_m3 = Some(found.ug_actual_m3);
            }
        }
        Ok(report)
    }

    fn standard(&mut self, standard: &Standard) -> Result<TransferStandard, SumError> {
        let (points, r, standard) = match standard {
            Standard::Certificate(slope, intercept) => {
                (Vec::new(), None, TransferStandard::new(*slope, *intercept)?)
            }
            Standard::Runs(runs, during) => {
                let fit = fit_transfer_standard(runs, *during)?;
                self.problems.extend(standard_problems(&fit));
                (standard_points(&fit), Some(fit.line.r), fit.standard)
            }
        };
        let (slope, intercept) = (standard.slope(), standard.intercept());
        self.transfer_standard = Some(StandardReport { points, slope, intercept, r });
        Ok(standard)
    }

    fn calibration(
        &mut self,
        source: &LineSource,
        fully_open: bool,
        standard: Option<TransferStandard>,
    ) -> Result<(Curve, Option<Calibration>), SumError> {
        self.expression = Some(source.expression());
        let (curve, calibration) = match (source, standard) {
            (LineSource::Points(readings, expression), Some(standard)) => {
                let calibration = calibrate(readings, standard, *expression)?;
                self.points(readings, &calibration);
                self.problems.extend(calibration.problems(fully_open));
                for (index, reading) in readings.iter().enumerate() {
                    let during = Occasion::Point(index + 1);
                    self.averages(calibration.curve, reading.conditions, during);
                }
                (calibration.curve, Some(calibration))
            }
            (LineSource::Given(slope, intercept, expression), _) => {
                (Curve::new(*slope, *intercept, *expression)?, None)
            }
            // A file with points and no standard is refused when it is read.
            (LineSource::Points(..), None) => {
                return Err(SumError::NotFinite { what: "the transfer standard" });
            }
        };
        self.slope = Some(curve.slope());
        self.intercept = Some(curve.intercept());
        Ok((curve, calibration))
    }

    fn points(&mut self, readings: &[PointReading], calibration: &Calibration) {
        self.points = readings
            .iter()
            .zip(&calibration.points)
            .map(|(reading, point)| PointReport {
                delta_h_inh2o: reading.delta_h_inh2o,
                chart: reading.chart,
                flow_std_m3_min: point.flow_std_m3_min,
                chart_term: point.chart_term,
                residual_m3_min: point.residual_m3_min,
            })
            .collect();
        self.r = Some(calibration.line.r);
        self.residual_sd = Some(calibration.line.residual_sd);
        self.slope_se = Some(calibration.line.se_slope);
        self.intercept_se = Some(calibration.line.se_intercept);
    }

    fn set_point(
        &mut self,
        curve: Curve,
        calibration: Option<&Calibration>,
        target: f64,
        expected: AirConditions,
    ) -> Result<(), SumError> {
        self.target_flow_std_m3_min = Some(target);
        self.set_point = Some(set_point(curve, target, expected)?);
        if let Some(calibration) = calibration {
            let PredictionInterval { low, high, .. } =
                calibration.line.prediction_interval(target, CONFIDENCE)?;
            let chart = |term: f64| curve.expression().chart_for(term, expected).ok();
            // There is no reading below zero: the lower end is then the zero of the chart.
            self.set_point_low = chart(low.max(0.0));
            self.set_point_high = chart(high);
        }
        let actual = target / expected.to_standard();
        self.target_flow_actual_m3_min = Some(actual);
        self.problems.extend(target_problems(actual));
        self.averages(curve, expected, Occasion::SetPoint);
        Ok(())
    }

    fn run(
        &mut self,
        curve: Curve,
        readings: &RunReadings,
        during: AirConditions,
    ) -> Result<RunVolume, SumError> {
        let run = match readings {
            RunReadings::Parts(parts) => run_volume(curve, parts, during)?,
            RunReadings::StartAndEnd(start, end, minutes) => {
                RunVolume::from_start_and_end(curve, *start, *end, *minutes, during)?
            }
        };
        self.minutes = Some(run.minutes);
        self.mean_flow_std_m3_min = Some(run.mean_flow_std_m3_min);
        self.mean_flow_actual_m3_min = Some(run.mean_flow_actual_m3_min);
        self.volume_std_m3 = Some(run.volume_std_m3);
        self.volume_actual_m3 = Some(run.volume_actual_m3);
        self.problems.extend(run_problems(run.mean_flow_actual_m3_min, run.minutes));
        self.averages(curve, during, Occasion::Run);
        Ok(run)
    }

    /// Holds conditions against the averages, if the line has any built in.
    fn averages(&mut self, curve: Curve, actual: AirConditions, during: Occasion) {
        if let Basis::Averages(averages) = curve.expression().basis {
            self.problems.extend(averages_problems(averages, actual, during));
        }
    }
}

/// Why the transfer standard cannot be worked out.
fn no_standard(file: &Readings, error: &SumError) -> WrongEntry {
    let path = match &file.standard {
        Some(Standard::Runs(..)) => entry("transfer_standard", "transfer_standard.runs", error),
        Some(Standard::Certificate(..)) | None => "standard".to_owned(),
    };
    WrongEntry::at(path, format!("transfer standard: {error}"))
}

/// Why the calibration line cannot be worked out.
fn no_line(source: &LineSource, error: &SumError) -> WrongEntry {
    let path = match source {
        LineSource::Points(..) => entry("points", "points", error),
        LineSource::Given(..) => "line".to_owned(),
    };
    WrongEntry::at(path, format!("calibration: {error}"))
}

/// The entry that an error is about: one of a list, or the whole section.
fn entry(section: &str, list: &str, error: &SumError) -> String {
    match error {
        SumError::At { number, .. } => format!("{list}[{}]", number.saturating_sub(1)),
        _ => section.to_owned(),
    }
}

fn standard_points(fit: &StandardFit) -> Vec<StandardPointReport> {
    fit.points
        .iter()
        .map(|point| StandardPointReport {
            volume_std_m3: point.volume_std_m3,
            flow_std_m3_min: point.flow_std_m3_min,
            root_term: point.root_term,
        })
        .collect()
}

/// The word for what a problem concerns.
pub const fn concerns(problem: ValidityProblem) -> &'static str {
    match problem.concern() {
        Concern::Calibration => "calibration",
        Concern::SetPoint => "set_point",
        Concern::Run => "run",
    }
}

fn problems<S: Serializer>(problems: &[ValidityProblem], serializer: S) -> Result<S::Ok, S::Error> {
    #[derive(Serialize)]
    struct ProblemReport {
        kind: &'static str,
        concerns: &'static str,
        message: String,
    }
    serializer.collect_seq(problems.iter().map(|&problem| ProblemReport {
        kind: problem.kind(),
        concerns: concerns(problem),
        message: problem.to_string(),
    }))
}
