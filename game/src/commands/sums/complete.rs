//! From the sections of a file to its readings: the rules within a section and across sections.

use sim_core::calibration::{
    AirConditions, Basis, Expression, FilterMasses, FittedLine, PointReading, RunPart, StandardRun,
};
use sim_core::units::{Pressure, Temperature};

use super::readings::{LineSource, Readings, RunReadings, Standard};
use super::sections::{Air, CertificationSection, Masses, Part, Point, RunSection, Sections};
use super::values::DeltaHInh2o;
use super::wrong_entry::WrongEntry;

/// The readings of a file.
///
/// # Errors
///
/// Every entry that is wrong or missing.
pub fn complete(sections: &Sections) -> Result<Readings, Vec<WrongEntry>> {
    let mut check = Check { sections, common: None, problems: Vec::new() };
    check.common = sections.conditions.as_ref().and_then(|air| check.air(air, "conditions"));
    check.needs();
    let standard = check.standard();
    let line = check.line();
    let set_point = sections.set_point.as_ref().and_then(|section| {
        let air = check.air_of(section.conditions.as_ref(), "set_point");
        Some((section.target_flow_std_m3_min.get(), air?))
    });
    let run = sections.run.as_ref().and_then(|section| {
        let readings = check.run(section);
        let air = check.air_of(section.conditions.as_ref(), "run");
        Some((readings?, air?))
    });
    let masses = sections.masses.as_ref().and_then(|section| check.masses(section));
    if check.problems.is_empty() && standard.is_none() && line.is_none() {
        let what = "there is nothing to calculate: see `steady-draw sums --help` for the form";
        check.wrong("", what);
    }
    if check.problems.is_empty() {
        let fully_open = sections.fully_open.unwrap_or_default();
        Ok(Readings { standard, line, fully_open, set_point, run, masses })
    } else {
        Err(check.problems)
    }
}

/// What has been found so far.
struct Check<'a> {
    sections: &'a Sections,
    /// The air for everything that has no conditions of its own.
    common: Option<AirConditions>,
    problems: Vec<WrongEntry>,
}

impl Check<'_> {
    fn wrong(&mut self, path: impl Into<String>, what: impl Into<String>) {
        self.problems.push(WrongEntry::at(path, what));
    }

    /// What one section needs of another.
    fn needs(&mut self) {
        let sections = self.sections;
        let is_standard_there = sections.standard.is_some() || sections.transfer_standard.is_some();
        let is_line_there = sections.points.is_some() || sections.line.is_some();
        if sections.points.is_some() && !is_standard_there {
            let what = "`points` need a transfer standard: add `standard` or `transfer_standard`";
            self.wrong("points", what);
        }
        if is_line_there && sections.recorder.is_none() {
            let path = if sections.points.is_some() { "points" } else { "line" };
            self.wrong(path, "`recorder` is missing: add it, such as `recorder: square_root`");
        }
        if sections.fully_open.is_some() && sections.points.is_none() {
            let what = "`fully_open` is about `points`: add them, or leave it out";
            self.wrong("fully_open", what);
        }
        if sections.set_point.is_some() && !is_line_there {
            let what = "`set_point` needs a calibration line: add `points` or `line`";
            self.wrong("set_point", what);
        }
        if sections.run.is_some() && !is_line_there {
            self.wrong("run", "`run` needs a calibration line: add `points` or `line`");
        }
        if sections.masses.is_some() && sections.run.is_none() {
            self.wrong("masses", "`masses` need the volume of a run: add `run`");
        }
    }

    /// Pressure and temperature, checked as a pair.
    fn air(&mut self, air: &Air, path: &str) -> Option<AirConditions> {
        let temperature = match (air.temperature_c, air.temperature_k) {
            (Some(celsius), None) => Temperature::from_c(celsius.get()),
            (None, Some(kelvins)) => Temperature::from_k(kelvins.get()),
            (None, None) => {
                self.wrong(path, "the temperature is missing: add `temperature_c`");
                return None;
            }
            (Some(_), Some(_)) => {
                let what =
                    "the temperature is given twice: keep `temperature_c` or `temperature_k`";
                self.wrong(format!("{path}.temperature_k"), what);
                return None;
            }
        };
        AirConditions::new(Pressure::from_mmhg(air.pressure_mmhg.get()), temperature)
            .map_err(|error| self.wrong(path, error.to_string()))
            .ok()
    }

    /// The air of a section: its own, or that of the whole file.
    fn air_of(&mut self, own: Option<&Air>, section: &str) -> Option<AirConditions> {
        if let Some(air) = own {
            return self.air(air, &format!("{section}.conditions"));
        }
        if self.sections.conditions.is_none() {
            let what = format!("`{section}` has no air: add `conditions` to it");
            self.wrong(section, what);
        }
        self.common
    }

    /// The transfer standard, from its certificate or its runs.
    fn standard(&mut self) -> Option<Standard> {
        let sections = self.sections;
        match (&sections.standard, &sections.transfer_standard) {
            (None, None) => None,
            (Some(_), Some(_)) => {
                let what = "give `standard` or `transfer_standard`, not both";
                self.wrong("transfer_standard", what);
                None
            }
            (Some(pair), None) => {
                Some(Standard::Certificate(pair.slope.get(), pair.intercept.get()))
            }
            (None, Some(section)) => self.certification(section),
        }
    }

    fn certification(&mut self, section: &CertificationSection) -> Option<Standard> {
        if section.runs.len() < FittedLine::FEWEST_POINTS {
            let what = "`transfer_standard` needs at least 3 runs: add more";
            self.wrong("transfer_standard.runs", what);
        }
        let air = self.air_of(section.conditions.as_ref(), "transfer_standard")?;
        let runs = section.runs.iter().map(|run| StandardRun {
            volume_m3: run.volume_m3.get(),
            minutes: run.minutes.get(),
            pressure_drop_mmhg: run.pressure_drop_mmhg.get(),
            delta_h_inh2o: run.delta_h_inh2o.get(),
        });
        Some(Standard::Runs(runs.collect(), air))
    }

    /// The calibration line, from points or as given.
    fn line(&mut self) -> Option<LineSource> {
        let sections = self.sections;
        let averages = sections.averages.as_ref().map(|air| self.air(air, "averages"));
        let expression = sections.recorder.map(|recorder| {
            let basis = averages.flatten().map_or(Basis::Actual, Basis::Averages);
            Expression { recorder, basis }
        });
        match (&sections.points, &sections.line) {
            (None, None) => None,
            (Some(_), Some(_)) => {
                self.wrong("line", "give `points` or `line`, not both");
                None
            }
            (None, Some(pair)) => {
                Some(LineSource::Given(pair.slope.get(), pair.intercept.get(), expression?))
            }
            (Some(points), None) => {
                if points.len() < FittedLine::FEWEST_POINTS {
                    self.wrong("points", "`points` needs at least 3 points: add more");
                }
                let readings = self.points(points);
                Some(LineSource::Points(readings, expression?))
            }
        }
    }

    fn points(&mut self, points: &[Point]) -> Vec<PointReading> {
        let airless = points.iter().position(|point| point.conditions.is_none());
        if let Some(index) = airless.filter(|_| self.sections.conditions.is_none()) {
            let what = format!("point {} has no air: add `conditions` for all points", index + 1);
            self.wrong(format!("points[{index}]"), what);
        }
        let mut readings = Vec::new();
        for (index, point) in points.iter().enumerate() {
            let path = format!("points[{index}]");
            let delta_h_inh2o = delta_h(point).map_err(|what| self.wrong(path.as_str(), what));
            let air = match &point.conditions {
                Some(air) => self.air(air, &format!("{path}.conditions")),
                None => self.common,
            };
            if let (Ok(delta_h_inh2o), Some(conditions)) = (delta_h_inh2o, air) {
                let chart = point.chart.get();
                readings.push(PointReading { delta_h_inh2o, chart, conditions });
            }
        }
        readings
    }

    /// The readings of a run, in one of three ways.
    fn run(&mut self, run: &RunSection) -> Option<RunReadings> {
        let RunSection { minutes, mean_chart, start_chart, end_chart, parts, .. } = run;
        match (minutes, mean_chart, start_chart, end_chart, parts) {
            (Some(minutes), Some(mean), None, None, None) => {
                Some(RunReadings::Parts(vec![RunPart {
                    chart: mean.get(),
                    minutes: minutes.get(),
                }]))
            }
            (Some(minutes), None, Some(start), Some(end), None) => {
                Some(RunReadings::StartAndEnd(start.get(), end.get(), minutes.get()))
            }
            (None, None, None, None, Some(parts)) if !parts.is_empty() => {
                let part =
                    |part: &Part| RunPart { chart: part.chart.get(), minutes: part.minutes.get() };
                Some(RunReadings::Parts(parts.iter().map(part).collect()))
            }
            _ => {
                let what = "a run needs `minutes` and `mean_chart`; or `minutes`, `start_chart` and \
                            `end_chart`; or `parts`: give one of the three";
                self.wrong("run", what);
                None
            }
        }
    }

    /// The masses of a filter that gained.
    fn masses(&mut self, masses: &Masses) -> Option<FilterMasses> {
        let (before_g, after_g) = (masses.before_g.get(), masses.after_g.get());
        if after_g < before_g {
            let what =
                "the filter weighs less after the run than before: check which mass is which";
            self.wrong("masses.after_g", what);
            return None;
        }
        Some(FilterMasses { before_g, after_g })
    }
}

/// The differential pressure of a point, inches of water.
fn delta_h(point: &Point) -> Result<f64, String> {
    match (point.up_inh2o, point.down_inh2o, point.delta_h_inh2o) {
        (Some(up), Some(down), None) => Ok(DeltaHInh2o::try_from(up.get() + down.get())?.get()),
        (None, None, Some(sum)) => Ok(sum.get()),
        _ => Err("a point needs both legs, `up_inh2o` and `down_inh2o`, or their sum, \
                  `delta_h_inh2o`, but not all three"
            .to_owned()),
    }
}
