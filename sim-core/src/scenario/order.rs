//! The work order as a trainer writes it, and the line of the last calibration on it.

use serde::{Deserialize, Serialize};

use crate::air::{AirState, Ambient};
use crate::calibration::{AirConditions, Basis, Expression, FittedLine, STANDARD_PRESSURE_MMHG};
use crate::rig::RigParameters;
use crate::rig::flow::calibrator::CalibratorKind;
use crate::rig::flow::operating_point::calibrating;
use crate::rig::flow::plates::Plate;
use crate::rig::recorder::{FlowRecorder, RecorderInputs, RecorderKind};
use crate::scenario::averages::SeasonAverages;
use crate::scenario::flow_check::FlowCheckOrder;
use crate::scenario::run::RunOrder;
use crate::scenario::setup::{LastLine, WorkOrder, expression_for};
use crate::time::Date;

/// The work order as written.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OrderEntry {
    /// Its number.
    pub number: String,
    /// What is to be done, in plain words.
    pub text: String,
    /// Serial number of the calibrator to be used.
    pub calibrator_serial: String,
    /// Target flow at standard conditions, m3/min.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub target_flow_std_m3_min: Option<f64>,
    /// Instead of it, the design flow of a size-selective inlet at the conditions of the run, m3/min.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub target_flow_actual_m3_min: Option<f64>,
    /// Expected mean station pressure of the run, mmHg.
    pub run_pressure_mmhg: f64,
    /// Expected mean temperature of the run, degrees Celsius.
    pub run_temperature_c: f64,
    /// How many points are ordered.
    pub points: u8,
    /// Whether the points are to be taken with a filter under the calibrator.
    #[serde(default, skip_serializing_if = "is_not")]
    pub filter_in_place: bool,
    /// Averages of the season to be built into the calibration line.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub averages: Option<SeasonAverages>,
    /// Line of the last calibration.
    #[serde(default)]
    pub last_line: Option<LastLineEntry>,
}

/// The line of the last calibration as written. What is left out is worked out from the rig as drawn,
/// so that a sound rig agrees with its own past.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LastLineEntry {
    /// When it was made.
    pub date: Date,
    /// Its slope.
    #[serde(default)]
    pub slope: Option<f64>,
    /// Its intercept.
    #[serde(default)]
    pub intercept: Option<f64>,
}

/// Whether a flag is not set: then it is not written.
const fn is_not(flag: &bool) -> bool {
    !*flag
}

/// Openings of the points from which the last line was made.
const OPENINGS: [f64; 5] = [1.0, 0.6, 0.42, 0.33, 0.27];

impl OrderEntry {
    /// The target flow at standard conditions: as given, or worked out from the design flow and the
    /// air expected for the run, Qstd = Qa P/760 298/T.
    fn target_std_m3_min(&self) -> f64 {
        let air = AirConditions::as_read(self.run_pressure_mmhg, self.run_temperature_c);
        let actual = self.target_flow_actual_m3_min.zip(air.ok());
        let design = actual.map(|(flow, air)| flow * air.to_standard());
        self.target_flow_std_m3_min.or(design).unwrap_or(f64::NAN)
    }

    /// The work order of a bench with this rig, in the state before any fault. Since the last
    /// calibration its flows have moved so much against the line of that day.
    pub(super) fn resolve(
        &self,
        rig: &RigParameters,
        laboratory_bias_pct: f64,
        run: Option<RunOrder>,
        flow_check: Option<FlowCheckOrder>,
        moved_pct: f64,
    ) -> WorkOrder {
        WorkOrder {
            number: self.number.clone(),
            text: self.text.clone(),
            calibrator_serial: self.calibrator_serial.clone(),
            target_flow_std_m3_min: self.target_std_m3_min(),
            target_flow_actual_m3_min: self.target_flow_actual_m3_min,
            run_pressure_mmhg: self.run_pressure_mmhg,
            run_temperature_c: self.run_temperature_c,
            points: self.points,
            filter_in_place: self.filter_in_place,
            averages: self.averages,
            last_line: self.last_line.as_ref().and_then(|entry| {
                entry.resolve(rig, laboratory_bias_pct, moved_pct, self.averages)
            }),
            run,
            flow_check,
            history: None,
            calibrator: rig.calibrator.kind,
            manometer: rig.manometer_kind,
        }
    }
}

impl LastLineEntry {
    /// The line, rounded to a tenth as such cards print it. It was made with the same calibrator and
    /// certificate, so that its flows have the bias of the same laboratory.
    /// Where the order asks for averages of the season, they were built into it as well.
    fn resolve(
        &self,
        rig: &RigParameters,
        laboratory_bias_pct: f64,
        moved_pct: f64,
        averages: Option<SeasonAverages>,
    ) -> Option<LastLine> {
        // On a linear chart the corrected chart readings are ten times smaller, so a hundredth is as
        // fine as a tenth on a square-root chart.
        let steps = match rig.recorder.kind {
            RecorderKind::Linear => 100.0,
            RecorderKind::SquareRoot | RecorderKind::MassFlow => 10.0,
        };
        let tenth = |value: f64| (value * steps).round() / steps;
        let (slope, intercept) = match (self.slope, self.intercept) {
            (Some(slope), Some(intercept)) => (slope, intercept),
            (slope, intercept) => {
                let line = line_of(rig, averages)?;
                // A line that gives more flow for the same chart reading is less steep.
                let certified =
                    line.slope / (1.0 + laboratory_bias_pct / 100.0) / (1.0 + moved_pct / 100.0);
                let from_rig = (tenth(certified), tenth(line.intercept));
                (slope.unwrap_or(from_rig.0), intercept.unwrap_or(from_rig.1))
            }
        };
        Some(LastLine { date: self.date, slope, intercept })
    }
}

/// The calibration line (corrected chart reading against Qstd) of a sound rig with a warm blower at
/// 760 mmHg and 15 degrees Celsius, read without error.
fn line_of(rig: &RigParameters, averages: Option<SeasonAverages>) -> Option<FittedLine> {
    let air = AirConditions::as_read(STANDARD_PRESSURE_MMHG, 15.0).ok()?;
    let state = AirState {
        pressure_pa: air.pressure().pa(),
        temperature_k: air.temperature().k(),
        humidity: 0.5,
    };
    let recorder = FlowRecorder::new(rig.recorder);
    let plain = expression_for(rig.recorder.kind);
    let built_in = averages.and_then(SeasonAverages::air).map(Basis::Averages);
    let expression = Expression { basis: built_in.unwrap_or(plain.basis), ..plain };
    let openings = match rig.calibrator.kind {
        CalibratorKind::VariableOpening => OPENINGS,
        CalibratorKind::FixedPlates => Plate::ALL.map(Plate::open_share),
    };
    let point = |opening: f64| {
        let passage = rig.calibrator.passage_at(opening);
        let flow = calibrating(rig, Ambient::from(state), Some(passage));
        let chart = recorder.undisturbed(RecorderInputs::from(&flow));
        Some((flow.flow_std_m3_min(), expression.calibration_term(chart, air).ok()?))
    };
    let points: Option<Vec<(f64, f64)>> = openings.into_iter().map(point).collect();
    FittedLine::fit(&points?).ok()
}
