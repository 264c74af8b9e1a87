//! A file of readings, complete for what it asks: the rules across its sections.

use ron::extensions::Extensions;
use serde::Deserialize;
use sim_core::calibration::{
    AirConditions, Basis, Expression, FilterMasses, FittedLine, PointReading, RunPart, StandardRun,
};

use super::place;
use super::sections::{
    Air, CertificationRun, CertificationSection, LineSection, Point, Sections, StandardSection,
};

/// Deepest nesting that is read; the form needs four levels.
const DEEPEST: usize = 32;

/// A file of readings, complete for what it asks.
#[derive(Debug, Deserialize)]
#[serde(try_from = "Sections")]
pub struct SumsFile {
    /// How the transfer standard is known.
    pub standard: Option<Standard>,
    /// Where the calibration line comes from.
    pub line: Option<LineSource>,
    /// The set point that is asked for.
    pub set_point: Option<(f64, AirConditions)>,
    /// The run that is asked for.
    pub run: Option<(RunReadings, AirConditions)>,
    /// The filter's masses.
    pub masses: Option<FilterMasses>,
}

/// How the transfer standard is known.
#[derive(Debug)]
pub enum Standard {
    /// Slope and intercept from a certificate.
    Certificate(f64, f64),
    /// The runs of its certification, and the air during them.
    Runs(Vec<StandardRun>, AirConditions),
}

/// Where the calibration line comes from.
#[derive(Debug)]
pub enum LineSource {
    /// The points of a calibration.
    Points(Vec<PointReading>, Expression),
    /// Slope and intercept of an earlier calibration.
    Given(f64, f64, Expression),
}

impl LineSource {
    /// The expression of the chart term.
    pub const fn expression(&self) -> Expression {
        match self {
            Self::Points(_, expression) | Self::Given(_, _, expression) => *expression,
        }
    }
}

/// What was read of a run.
#[derive(Debug)]
pub enum RunReadings {
    /// Mean readings of the whole run, or of its parts.
    Parts(Vec<RunPart>),
    /// Readings at its start and its end, and its minutes.
    StartAndEnd(f64, f64, f64),
}

impl SumsFile {
    /// Reads the text of a file.
    ///
    /// # Errors
    ///
    /// Every problem found, each beginning with its line and column.
    pub fn read(text: &str) -> Result<Self, Vec<String>> {
        ron::Options::default()
            .with_default_extension(Extensions::IMPLICIT_SOME)
            .with_recursion_limit(DEEPEST)
            .from_str(text)
            .map_err(|error| place::problems(&error))
    }
}

impl TryFrom<Sections> for SumsFile {
    type Error = String;

    /// The rules across sections: every one that is broken is told, one a line.
    fn try_from(sections: Sections) -> Result<Self, String> {
        let mut problems = Vec::new();
        let common = sections.conditions.map(|air| air.0);
        let masses = sections.masses.map(|masses| masses.0);
        let standard =
            standard(sections.standard, sections.transfer_standard, common, &mut problems);
        let expression = sections.recorder.map(|recorder| Expression {
            recorder,
            basis: sections.averages.map_or(Basis::Actual, |air| Basis::Averages(air.0)),
        });
        let line = line(sections.points, sections.line, expression, common, &mut problems);
        let mut air = |own: Option<Air>, section: &str| {
            let air = own.map(|air| air.0).or(common);
            if air.is_none() {
                problems.push(format!("`{section}` has no air: add `conditions` to it"));
            }
            air
        };
        let set_point = sections.set_point.and_then(|section| {
            let target = section.target_flow_std_m3_min.get();
            Some((target, air(section.conditions, "set_point")?))
        });
        let run = sections
            .run
            .and_then(|section| Some((section.readings, air(section.conditions, "run")?)));
        let file = Self { standard, line, set_point, run, masses };
        if problems.is_empty() {
            problems.extend(file.gaps().map(str::to_owned));
        }
        if problems.is_empty() { Ok(file) } else { Err(problems.join("\n")) }
    }
}

impl SumsFile {
    /// What one section needs of another and does not find.
    fn gaps(&self) -> impl Iterator<Item = &'static str> {
        let points = matches!(self.line, Some(LineSource::Points(..)));
        let nothing = self.standard.is_none() && self.line.is_none() && self.run.is_none();
        let asked = self.set_point.is_some() || self.masses.is_some();
        [
            (
                points && self.standard.is_none(),
                "`points` need a transfer standard: add `standard` or `transfer_standard`",
            ),
            (
                self.set_point.is_some() && self.line.is_none(),
                "`set_point` needs a calibration line: add `points` or `line`",
            ),
            (
                self.run.is_some() && self.line.is_none(),
                "`run` needs a calibration line: add `points` or `line`",
            ),
            (
                self.masses.is_some() && self.run.is_none(),
                "`masses` need the volume of a run: add `run`",
            ),
            (
                nothing && !asked,
                "there is nothing to work out: see `steady-draw sums --help` for the form",
            ),
        ]
        .into_iter()
        .filter_map(|(broken, words)| broken.then_some(words))
    }
}

/// The transfer standard, from its certificate or its runs.
fn standard(
    certificate: Option<StandardSection>,
    certification: Option<CertificationSection>,
    common: Option<AirConditions>,
    problems: &mut Vec<String>,
) -> Option<Standard> {
    match (certificate, certification) {
        (None, None) => None,
        (Some(_), Some(_)) => {
            problems.push("give `standard` or `transfer_standard`, not both".to_owned());
            None
        }
        (Some(pair), None) => Some(Standard::Certificate(pair.slope.get(), pair.intercept.get())),
        (None, Some(section)) => {
            if section.runs.len() < FittedLine::FEWEST_POINTS {
                problems.push("`transfer_standard` needs at least 3 runs: add more".to_owned());
            }
            let air = section.conditions.map(|air| air.0).or(common);
            if air.is_none() {
                problems.push("`transfer_standard` has no air: add `conditions` to it".to_owned());
            }
            let run = |run: &CertificationRun| StandardRun {
                volume_m3: run.volume_m3.get(),
                minutes: run.minutes.get(),
                pressure_drop_mmhg: run.pressure_drop_mmhg.get(),
                delta_h_inh2o: run.delta_h_inh2o.get(),
            };
            Some(Standard::Runs(section.runs.iter().map(run).collect(), air?))
        }
    }
}

/// The calibration line, from points or as given.
fn line(
    points: Option<Vec<Point>>,
    given: Option<LineSection>,
    expression: Option<Expression>,
    common: Option<AirConditions>,
    problems: &mut Vec<String>,
) -> Option<LineSource> {
    if points.is_some() && given.is_some() {
        problems.push("give `points` or `line`, not both".to_owned());
    }
    if expression.is_none() && (points.is_some() || given.is_some()) {
        problems.push("`recorder` is missing: add it, such as `recorder: square_root`".to_owned());
    }
    let Some(points) = points else {
        return given.and_then(|pair| {
            Some(LineSource::Given(pair.slope.get(), pair.intercept.get(), expression?))
        });
    };
    if points.len() < FittedLine::FEWEST_POINTS {
        problems.push("`points` needs at least 3 points: add more".to_owned());
    }
    let mut readings = Vec::new();
    let mut airless = Vec::new();
    for (index, point) in points.iter().enumerate() {
        match point.conditions.map(|air| air.0).or(common) {
            Some(conditions) => readings.push(PointReading {
                delta_h_inh2o: point.delta_h_inh2o.get(),
                chart: point.chart.get(),
                conditions,
            }),
            None => airless.push(index + 1),
        }
    }
    if let Some(first) = airless.first() {
        problems.push(format!("point {first} has no air: add `conditions` for all points"));
    }
    Some(LineSource::Points(readings, expression?))
}
