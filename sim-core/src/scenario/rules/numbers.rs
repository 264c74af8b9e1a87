//! Rules on single numbers and spreads.

use super::{ScenarioFindings, ScenarioRule};
use crate::fault::{Onset, Signs};
use crate::scenario::Scenario;
use crate::scenario::laboratory::BIAS;
use crate::scenario::parameters::Parameter;
use crate::scenario::spread::Spread;

/// No list is too long.
pub(super) const LISTS: ScenarioRule = ScenarioRule {
    id: "list-length",
    about: "There are 1 to 4 certificates, at most 12 faults, at most 24 habits and at most 100 rules \
            switched off: one session has no room for more. Longer lists are not checked any further.",
    find: lists,
};

fn lists(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    for (path, what, count, fewest, most) in [
        ("about", "habits are named", scenario.about.len(), 0, 24),
        ("certificates", "certificates are in the box", scenario.certificates.len(), 1, 4),
        ("faults", "faults are listed", scenario.faults.len(), 0, 12),
        ("terms.rules_off", "rules are switched off", scenario.terms.rules_off.len(), 0, 100),
    ] {
        if count < fewest || count > most {
            findings.add(path, format!("{count} {what}"), format!("list {fewest} to {most}"));
        }
    }
}

/// Every number is in its range.
pub(super) const IN_RANGE: ScenarioRule = ScenarioRule {
    id: "number-in-range",
    about: "Every number is in its range, so that the rig it describes could really exist. \
            The message says so when the number looks like another unit.",
    find: in_range,
};

/// A number with its path, unit and range.
struct Ranged {
    path: String,
    value: f64,
    low: f64,
    high: f64,
    unit: &'static str,
}

fn in_range(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    for number in single_numbers(scenario) {
        let Ranged { path, value, low, high, unit } = number;
        if !(low..=high).contains(&value) {
            let name = path.rsplit('.').next().unwrap_or(&path).to_owned();
            let mend = hint(unit, value).map_or_else(
                || format!("write a value in this range{}", of_unit(unit)),
                str::to_owned,
            );
            findings.add(path, format!("{name} {value} is outside {low} to {high}"), mend);
        }
    }
    fault_sizes(scenario, findings);
}

fn single_numbers(scenario: &Scenario) -> Vec<Ranged> {
    let (station, order, terms) = (&scenario.station, &scenario.work_order, &scenario.terms);
    let mut numbers = Vec::new();
    let mut add = |path: String, value: f64, low: f64, high: f64, unit: &'static str| {
        numbers.push(Ranged { path, value, low, high, unit });
    };
    add("station.elevation_m".into(), station.elevation_m, -430.0, 4000.0, "m");
    for (field, target) in [
        ("target_flow_std_m3_min", order.target_flow_std_m3_min),
        ("target_flow_actual_m3_min", order.target_flow_actual_m3_min),
    ] {
        if let Some(target) = target {
            add(format!("work_order.{field}"), target, 0.9, 1.8, "m3/min");
        }
    }
    add("work_order.run_pressure_mmhg".into(), order.run_pressure_mmhg, 400.0, 820.0, "mmHg");
    let run_temperature = order.run_temperature_c;
    add("work_order.run_temperature_c".into(), run_temperature, -30.0, 50.0, "degrees Celsius");
    add("work_order.points".into(), f64::from(order.points), 5.0, 12.0, "");
    if let Some(last) = &order.last_line {
        if let Some(slope) = last.slope {
            add("work_order.last_line.slope".into(), slope, 10.0, 80.0, "");
        }
        if let Some(intercept) = last.intercept {
            add("work_order.last_line.intercept".into(), intercept, -30.0, 30.0, "");
        }
    }
    for (index, paper) in scenario.certificates.iter().enumerate() {
        let mut given = |field: &str, value: Option<f64>, low: f64, high: f64| {
            if let Some(value) = value {
                add(format!("certificates[{index}].{field}"), value, low, high, "");
            }
        };
        given("slope", paper.slope, 0.5, 3.0);
        given("intercept", paper.intercept, -0.3, 0.3);
        given("correlation", paper.correlation, 0.9, 1.0);
    }
    for (index, entry) in scenario.faults.iter().enumerate() {
        let path = format!("faults[{index}].onset");
        match entry.onset {
            Onset::AfterMinutes(minutes) | Onset::AfterRunningMinutes(minutes) => {
                add(path, minutes, 0.0, 480.0, "min");
            }
            Onset::Intermittent { on_min, off_min } => {
                add(format!("{path}.on_min"), on_min, 0.1, 120.0, "min");
                add(format!("{path}.off_min"), off_min, 0.1, 120.0, "min");
            }
            Onset::AfterRunHours(hours) => add(path, hours, 0.0, 48.0, "h"),
            Onset::Start | Onset::AtEvent(_) => {}
        }
    }
    let weights = &terms.weights;
    for (name, weight) in [
        ("safety", weights.safety),
        ("readings", weights.readings),
        ("fit", weights.fit),
        ("procedure", weights.procedure),
        ("judgement", weights.judgement),
        ("record", weights.record),
    ] {
        add(format!("terms.weights.{name}"), weight, 0.0, 100.0, "");
    }
    add("terms.pass_mark".into(), terms.pass_mark, 0.0, 100.0, "");
    if let Some(limit) = terms.time_limit_min {
        add("terms.time_limit_min".into(), limit, 20.0, 480.0, "min");
    }
    numbers
}

fn fault_sizes(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    for (index, entry) in scenario.faults.iter().enumerate() {
        let Some(size) = entry.fault.size() else { continue };
        if !size.in_range() {
            let (field, value) = (size.field, size.value);
            let (smallest, largest) = (size.smallest, size.largest);
            let signs = match size.signs {
                Signs::Positive => "",
                Signs::Either => " (above or below zero)",
            };
            findings.add(
                format!("faults[{index}].fault.{field}"),
                format!(
                    "{field} {value} of {} is outside {smallest} to {largest}{signs}",
                    entry.fault.name()
                ),
                format!("write a size in this range{}", of_unit(size.unit)),
            );
        }
    }
}

/// Every spread makes sense and stays in its range.
pub(super) const SPREAD: ScenarioRule = ScenarioRule {
    id: "spread-in-range",
    about: "Every value that a spread can give is in the range of its parameter: a scenario that \
            works with one seed and not with the next proves nothing.",
    find: spread,
};

fn spread(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    for (parameter, written) in scenario.weather.written() {
        spread_of(parameter.name.to_owned(), parameter, written, findings);
    }
    for (parameter, written) in scenario.instruments.written() {
        spread_of(format!("instruments.{}", parameter.name), parameter, written, findings);
    }
    for (parameter, written) in scenario.run.iter().flat_map(|run| run.written()) {
        let path = format!("run.weather.{}", parameter.field());
        spread_of(path, parameter, written, findings);
    }
    for (parameter, written) in scenario.history.iter().flat_map(|history| history.written()) {
        let path = format!("history.sizes.{}", parameter.field());
        spread_of(path, parameter, written, findings);
    }
    for (index, paper) in scenario.certificates.iter().enumerate() {
        let path = format!("certificates[{index}].orifice_differs_pct");
        spread_of(path, &ORIFICE_DIFFERS, paper.orifice_differs_pct, findings);
        let path = format!("certificates[{index}].laboratory_bias_pct");
        spread_of(path, &BIAS, paper.laboratory_bias_pct, findings);
    }
}

const ORIFICE_DIFFERS: Parameter = Parameter {
    name: "certificates.orifice_differs_pct",
    unit: "%",
    low: -15.0,
    high: 15.0,
    usual: Spread::Fixed(0.0),
    what: "area of the certified orifice relative to that of the calibrator on the bench",
};

fn spread_of(
    path: String,
    parameter: &Parameter,
    written: Option<Spread>,
    findings: &mut ScenarioFindings<'_>,
) {
    let Some(spread) = written else { return };
    let (name, low, high) = (parameter.field(), parameter.low, parameter.high);
    let ((least, most), centre) = (spread.bounds(), spread.centre());
    if let Some((what, mend)) = spread.flaw() {
        findings.add(path, format!("{name}: {what}"), mend);
    } else if !parameter.holds(centre) {
        let mend = hint(parameter.unit, centre).map_or_else(
            || format!("write a value in this range{}", of_unit(parameter.unit)),
            str::to_owned,
        );
        findings.add(path, format!("{name} {centre} is outside {low} to {high}"), mend);
    } else if !(parameter.holds(least) && parameter.holds(most)) {
        findings.add(
            path,
            format!("{name} {spread} reaches from {least} to {most}, outside {low} to {high}"),
            "make the spread narrower, or move its centre",
        );
    }
}

/// The last calibration line is in the past.
pub(super) const LAST_LINE: ScenarioRule = ScenarioRule {
    id: "last-line-in-past",
    about: "The line of the last calibration was made before the day of the session.",
    find: last_line,
};

fn last_line(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let today = scenario.station.date;
    if let Some(last) = &scenario.work_order.last_line
        && last.date >= today
    {
        findings.add(
            "work_order.last_line.date",
            format!(
                "the last calibration line is dated {}, but the session is on {today}",
                last.date
            ),
            "date it before the session, or leave `last_line` out",
        );
    }
}

fn of_unit(unit: &str) -> String {
    if unit.is_empty() { String::new() } else { format!(", in {unit}") }
}

/// Which unit a value outside its range looks like, and what to do about it.
fn hint(unit: &str, value: f64) -> Option<&'static str> {
    Some(match unit {
        "mmHg" if (50_000.0..=110_000.0).contains(&value) => {
            "it looks like pascals: divide by 133.322"
        }
        "mmHg" if (820.0..=1100.0).contains(&value) => {
            "it looks like hectopascals: divide by 1.33322"
        }
        "mmHg" if (50.0..=110.0).contains(&value) => {
            "it looks like kilopascals: multiply by 7.50062"
        }
        "mmHg" if (15.0..=33.0).contains(&value) => {
            "it looks like inches of mercury: multiply by 25.4"
        }
        "degrees Celsius" if (200.0..=330.0).contains(&value) => {
            "it looks like kelvins: subtract 273.15"
        }
        "degrees Celsius" if (50.0..=130.0).contains(&value) => {
            "it looks like degrees Fahrenheit: subtract 32 and divide by 1.8"
        }
        "m3/min" if (30.0..=65.0).contains(&value) => {
            "it looks like cubic feet per minute: multiply by 0.0283168"
        }
        "m3/min" if (900.0..=1900.0).contains(&value) => {
            "it looks like litres per minute: divide by 1000"
        }
        "m2" if (100.0..=3000.0).contains(&value) => "it looks like mm2: multiply by 1e-6",
        "m2" if (1.0..=30.0).contains(&value) => "it looks like cm2: multiply by 1e-4",
        "mm" if (0.15..=0.5).contains(&value) => "it looks like inches: multiply by 25.4",
        "V" if (180.0..=260.0).contains(&value) => "the blower is built for 120 V",
        _ => return None,
    })
}
