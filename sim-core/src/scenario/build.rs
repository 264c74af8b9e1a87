//! Builds one concrete bench from a scenario and the numbers drawn for it.

use crate::rig::RigParameters;
use crate::scenario::Scenario;
use crate::scenario::apply::rig_parameters;
use crate::scenario::drawn::Drawn;
use crate::scenario::laboratory::BIAS;
use crate::scenario::run;
use crate::scenario::setup::{Certificate, Setup, WorkOrder};
use crate::scenario::weather::{THUNDER, plan};
use crate::text::printable;

/// Why no bench can be built from these numbers.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BuildError {
    /// A number was not drawn.
    #[error(
        "no value was drawn for `{}`: draw the bench again, or use the scenario that belongs to this journal",
        printable(.0)
    )]
    Missing(String),
    /// A number is outside the range of its parameter.
    #[error(
        "the value {value} drawn for `{name}` is outside {low} to {high}: the journal was altered, so use an unchanged copy"
    )]
    Outside {
        /// Which.
        name: &'static str,
        /// What was drawn.
        value: f64,
        /// The lowest value of its range.
        low: f64,
        /// The highest value of its range.
        high: f64,
    },
    /// A number is infinite or not a number.
    #[error(
        "the value drawn for `{}` is not a finite number: the journal was altered, so use an unchanged copy",
        printable(.0)
    )]
    NotFinite(String),
}

impl Setup {
    /// Builds the bench. Nothing is drawn here: the same two inputs always give the same bench.
    ///
    /// # Errors
    ///
    /// When a number is missing, not finite or outside the range of its parameter.
    pub fn build(scenario: &Scenario, drawn: &Drawn) -> Result<Self, BuildError> {
        for (name, value) in drawn.iter() {
            if !value.is_finite() {
                return Err(BuildError::NotFinite(name.to_owned()));
            }
        }
        let value =
            |name: &str| drawn.get(name).ok_or_else(|| BuildError::Missing(name.to_owned()));
        for (parameter, written) in scenario.weather.written().chain(scenario.instruments.written())
        {
            if parameter.name == THUNDER && written.is_none() {
                continue;
            }
            let value = value(parameter.name)?;
            if !parameter.holds(value) {
                let (name, low, high) = (parameter.name, parameter.low, parameter.high);
                return Err(BuildError::Outside { name, value, low, high });
            }
        }
        for (parameter, _) in scenario.run.iter().flat_map(|run| run.written()) {
            let value = value(parameter.name)?;
            if !parameter.holds(value) {
                let (name, low, high) = (parameter.name, parameter.low, parameter.high);
                return Err(BuildError::Outside { name, value, low, high });
            }
        }
        check_history(scenario, value)?;
        let certificates = scenario
            .certificates
            .iter()
            .map(|paper| paper.print(value))
            .collect::<Result<Vec<Certificate>, BuildError>>()?;
        let laboratory_bias_pct = scenario.bench_bias_pct(drawn);
        if !BIAS.holds(laboratory_bias_pct) {
            let (name, low, high) = (BIAS.name, BIAS.low, BIAS.high);
            return Err(BuildError::Outside { name, value: laboratory_bias_pct, low, high });
        }
        let rig = rig_parameters(scenario, drawn);
        let work_order = work_order(scenario, drawn, &rig, laboratory_bias_pct);
        Ok(Self {
            station: scenario.station.clone(),
            work_order,
            certificates,
            laboratory_bias_pct,
            weather: plan(value, drawn.get(THUNDER))?,
            run: match &scenario.run {
                Some(_) => Some(run::weather(value)?),
                None => None,
            },
            rig,
            faults: scenario.faults.iter().map(|entry| (entry.fault, entry.onset)).collect(),
            terms: scenario.terms.at_bench(),
        })
    }
}

/// The work order of the bench, with the history of its sampler.
fn work_order(
    scenario: &Scenario,
    drawn: &Drawn,
    rig: &RigParameters,
    laboratory_bias_pct: f64,
) -> WorkOrder {
    let today = scenario.station.date;
    let (entry, history) = (&scenario.work_order, scenario.history.as_ref());
    let moved_pct = history.map_or(0.0, |history| history.change_pct(today, drawn));
    let run = scenario.run.as_ref().map(|run| run.order());
    let mut order = entry.resolve(rig, laboratory_bias_pct, run, scenario.flow_check, moved_pct);
    order.history = history.map(|one| one.resolve(today, order.last_line.as_ref(), drawn));
    order
}

/// Whether everything that the history needs was drawn, within its range.
fn check_history(
    scenario: &Scenario,
    value: impl Fn(&str) -> Result<f64, BuildError>,
) -> Result<(), BuildError> {
    let Some(history) = &scenario.history else { return Ok(()) };
    let sizes = history.written().map(|(parameter, _)| (parameter.name.to_owned(), *parameter));
    for (key, parameter) in sizes.chain(history.scatter_keys(scenario.station.date)) {
        let value = value(&key)?;
        if !parameter.holds(value) {
            let (name, low, high) = (parameter.name, parameter.low, parameter.high);
            return Err(BuildError::Outside { name, value, low, high });
        }
    }
    Ok(())
}
