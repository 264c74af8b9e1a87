//! The sections of a file of readings as they are written.

use serde::Deserialize;
use sim_core::calibration::RecorderScale;

use super::values::{
    Chart, DeltaHInh2o, DropMmhg, Intercept, LegInh2o, MassG, Minutes, PressureMmhg, Slope,
    TargetFlow, TemperatureC, TemperatureK, VolumeM3,
};

/// All sections. Each may be left out.
#[derive(Debug, Deserialize)]
#[serde(rename = "sums", deny_unknown_fields)]
pub struct Sections {
    pub standard: Option<StandardSection>,
    pub transfer_standard: Option<CertificationSection>,
    pub conditions: Option<Air>,
    pub recorder: Option<RecorderScale>,
    pub averages: Option<Air>,
    pub points: Option<Vec<Point>>,
    pub fully_open: Option<bool>,
    pub line: Option<LineSection>,
    pub set_point: Option<SetPointSection>,
    pub run: Option<RunSection>,
    pub masses: Option<Masses>,
}

/// The certificate of the transfer standard.
#[derive(Debug, Deserialize)]
#[serde(rename = "standard", deny_unknown_fields)]
pub struct StandardSection {
    pub slope: Slope,
    pub intercept: Intercept,
}

/// The certification of the transfer standard, to be worked out.
#[derive(Debug, Deserialize)]
#[serde(rename = "transfer_standard", deny_unknown_fields)]
pub struct CertificationSection {
    pub runs: Vec<CertificationRun>,
    pub conditions: Option<Air>,
}

/// One run of a certification.
#[derive(Debug, Deserialize)]
#[serde(rename = "runs", deny_unknown_fields)]
pub struct CertificationRun {
    pub volume_m3: VolumeM3,
    pub minutes: Minutes,
    pub pressure_drop_mmhg: DropMmhg,
    pub delta_h_inh2o: DeltaHInh2o,
}

/// The line of an earlier calibration.
#[derive(Debug, Deserialize)]
#[serde(rename = "line", deny_unknown_fields)]
pub struct LineSection {
    pub slope: Slope,
    pub intercept: Intercept,
}

/// The set point that is wanted.
#[derive(Debug, Deserialize)]
#[serde(rename = "set_point", deny_unknown_fields)]
pub struct SetPointSection {
    pub target_flow_std_m3_min: TargetFlow,
    pub conditions: Option<Air>,
}

/// Pressure and temperature, the latter in one of two units.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename = "conditions", deny_unknown_fields)]
pub struct Air {
    pub pressure_mmhg: PressureMmhg,
    pub temperature_c: Option<TemperatureC>,
    pub temperature_k: Option<TemperatureK>,
}

/// A point of the calibration: both legs of the manometer, or their sum.
#[derive(Debug, Deserialize)]
#[serde(rename = "points", deny_unknown_fields)]
pub struct Point {
    pub up_inh2o: Option<LegInh2o>,
    pub down_inh2o: Option<LegInh2o>,
    pub delta_h_inh2o: Option<DeltaHInh2o>,
    pub chart: Chart,
    pub conditions: Option<Air>,
}

/// A run, its readings in one of three ways.
#[derive(Debug, Deserialize)]
#[serde(rename = "run", deny_unknown_fields)]
pub struct RunSection {
    pub minutes: Option<Minutes>,
    pub mean_chart: Option<Chart>,
    pub start_chart: Option<Chart>,
    pub end_chart: Option<Chart>,
    pub parts: Option<Vec<Part>>,
    pub conditions: Option<Air>,
}

/// A part of a run during which the flow was nearly constant.
#[derive(Debug, Deserialize)]
#[serde(rename = "parts", deny_unknown_fields)]
pub struct Part {
    pub chart: Chart,
    pub minutes: Minutes,
}

/// The filter before and after the run.
#[derive(Debug, Deserialize)]
#[serde(rename = "masses", deny_unknown_fields)]
pub struct Masses {
    pub before_g: MassG,
    pub after_g: MassG,
}
