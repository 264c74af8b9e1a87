//! The sections of a file of readings as they are written, each checked in itself.

use serde::Deserialize;
use sim_core::calibration::{AirConditions, FilterMasses, RecorderScale, RunPart};
use sim_core::units::{Pressure, Temperature};

use super::file::RunReadings;
use super::values::{
    Chart, DeltaHInh2o, DropMmhg, Intercept, LegInh2o, MassG, Minutes, PressureMmhg, Slope,
    TargetFlow, TemperatureC, TemperatureK, VolumeM3,
};

/// The sections as they are written.
#[derive(Debug, Deserialize)]
#[serde(rename = "sums", deny_unknown_fields)]
pub struct Sections {
    pub standard: Option<StandardSection>,
    pub transfer_standard: Option<CertificationSection>,
    pub conditions: Option<Air>,
    pub recorder: Option<RecorderScale>,
    pub averages: Option<Air>,
    pub points: Option<Vec<Point>>,
    pub line: Option<LineSection>,
    pub set_point: Option<SetPointSection>,
    pub run: Option<RunSection>,
    pub masses: Option<Masses>,
}

#[derive(Debug, Deserialize)]
#[serde(rename = "standard", deny_unknown_fields)]
pub struct StandardSection {
    pub slope: Slope,
    pub intercept: Intercept,
}

#[derive(Debug, Deserialize)]
#[serde(rename = "transfer_standard", deny_unknown_fields)]
pub struct CertificationSection {
    pub runs: Vec<CertificationRun>,
    pub conditions: Option<Air>,
}

#[derive(Debug, Deserialize)]
#[serde(rename = "runs", deny_unknown_fields)]
pub struct CertificationRun {
    pub volume_m3: VolumeM3,
    pub minutes: Minutes,
    pub pressure_drop_mmhg: DropMmhg,
    pub delta_h_inh2o: DeltaHInh2o,
}

#[derive(Debug, Deserialize)]
#[serde(rename = "line", deny_unknown_fields)]
pub struct LineSection {
    pub slope: Slope,
    pub intercept: Intercept,
}

#[derive(Debug, Deserialize)]
#[serde(rename = "set_point", deny_unknown_fields)]
pub struct SetPointSection {
    pub target_flow_std_m3_min: TargetFlow,
    pub conditions: Option<Air>,
}

/// Pressure and temperature, checked as a pair.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(try_from = "AirAsWritten")]
pub struct Air(pub AirConditions);

#[derive(Debug, Deserialize)]
#[serde(rename = "conditions", deny_unknown_fields)]
struct AirAsWritten {
    pressure_mmhg: PressureMmhg,
    temperature_c: Option<TemperatureC>,
    temperature_k: Option<TemperatureK>,
}

impl TryFrom<AirAsWritten> for Air {
    type Error = String;

    fn try_from(written: AirAsWritten) -> Result<Self, String> {
        let temperature = match (written.temperature_c, written.temperature_k) {
            (Some(celsius), None) => Temperature::from_c(celsius.get()),
            (None, Some(kelvins)) => Temperature::from_k(kelvins.get()),
            (None, None) => {
                return Err("the temperature is missing: add `temperature_c`".to_owned());
            }
            (Some(_), Some(_)) => {
                return Err(
                    "the temperature stands twice: keep `temperature_c` or `temperature_k`"
                        .to_owned(),
                );
            }
        };
        AirConditions::new(Pressure::from_mmhg(written.pressure_mmhg.get()), temperature)
            .map(Self)
            .map_err(|error| error.to_string())
    }
}

/// A point with both legs added.
#[derive(Debug, Deserialize)]
#[serde(try_from = "PointAsWritten")]
pub struct Point {
    pub delta_h_inh2o: DeltaHInh2o,
    pub chart: Chart,
    pub conditions: Option<Air>,
}

#[derive(Debug, Deserialize)]
#[serde(rename = "points", deny_unknown_fields)]
struct PointAsWritten {
    up_inh2o: Option<LegInh2o>,
    down_inh2o: Option<LegInh2o>,
    delta_h_inh2o: Option<DeltaHInh2o>,
    chart: Chart,
    conditions: Option<Air>,
}

impl TryFrom<PointAsWritten> for Point {
    type Error = String;

    fn try_from(written: PointAsWritten) -> Result<Self, String> {
        let PointAsWritten { up_inh2o, down_inh2o, delta_h_inh2o, chart, conditions } = written;
        let delta_h_inh2o = match (up_inh2o, down_inh2o, delta_h_inh2o) {
            (Some(up), Some(down), None) => DeltaHInh2o::try_from(up.get() + down.get())?,
            (None, None, Some(both)) => both,
            _ => {
                return Err("a point needs both legs, `up_inh2o` and `down_inh2o`, or their sum, \
                            `delta_h_inh2o`, and not all three"
                    .to_owned());
            }
        };
        Ok(Self { delta_h_inh2o, chart, conditions })
    }
}

/// A run, its readings in one of three ways.
#[derive(Debug, Deserialize)]
#[serde(try_from = "RunAsWritten")]
pub struct RunSection {
    pub readings: RunReadings,
    pub conditions: Option<Air>,
}

#[derive(Debug, Deserialize)]
#[serde(rename = "run", deny_unknown_fields)]
struct RunAsWritten {
    minutes: Option<Minutes>,
    mean_chart: Option<Chart>,
    start_chart: Option<Chart>,
    end_chart: Option<Chart>,
    parts: Option<Vec<Part>>,
    conditions: Option<Air>,
}

#[derive(Debug, Deserialize)]
#[serde(rename = "parts", deny_unknown_fields)]
pub struct Part {
    pub chart: Chart,
    pub minutes: Minutes,
}

impl TryFrom<RunAsWritten> for RunSection {
    type Error = String;

    fn try_from(written: RunAsWritten) -> Result<Self, String> {
        let RunAsWritten { minutes, mean_chart, start_chart, end_chart, parts, conditions } =
            written;
        let part =
            |chart: Chart, minutes: Minutes| RunPart { chart: chart.get(), minutes: minutes.get() };
        let readings = match (minutes, mean_chart, start_chart, end_chart, parts) {
            (Some(minutes), Some(mean), None, None, None) => {
                RunReadings::Parts(vec![part(mean, minutes)])
            }
            (Some(minutes), None, Some(start), Some(end), None) => {
                RunReadings::StartAndEnd(start.get(), end.get(), minutes.get())
            }
            (None, None, None, None, Some(parts)) if !parts.is_empty() => {
                RunReadings::Parts(parts.iter().map(|p| part(p.chart, p.minutes)).collect())
            }
            _ => {
                return Err("a run needs `minutes` and `mean_chart`; or `minutes`, `start_chart` \
                            and `end_chart`; or `parts`: give one of the three"
                    .to_owned());
            }
        };
        Ok(Self { readings, conditions })
    }
}

/// Masses of a filter that gained.
#[derive(Debug, Deserialize)]
#[serde(try_from = "MassesAsWritten")]
pub struct Masses(pub FilterMasses);

#[derive(Debug, Deserialize)]
#[serde(rename = "masses", deny_unknown_fields)]
struct MassesAsWritten {
    before_g: MassG,
    after_g: MassG,
}

impl TryFrom<MassesAsWritten> for Masses {
    type Error = String;

    fn try_from(written: MassesAsWritten) -> Result<Self, String> {
        let (before_g, after_g) = (written.before_g.get(), written.after_g.get());
        if after_g < before_g {
            return Err(
                "the filter weighs less after than before: check which mass is which".into()
            );
        }
        Ok(Self(FilterMasses { before_g, after_g }))
    }
}
