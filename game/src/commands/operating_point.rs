//! `operating-point`: the steady state of the default rig under stated conditions.

use std::io::Write;

use clap::Args;
use serde::Serialize;
use sessions::{FrontEndError, Outcome};
use sim_core::air::{AirState, Ambient};
use sim_core::rig::RigParameters;
use sim_core::rig::flow::filter::Filter;
use sim_core::rig::flow::flow_path::{Inlet, Machine};
use sim_core::rig::flow::operating_point::{OperatingConditions, OperatingPoint, steady};
use sim_core::rig::flow::plates::Plate;
use sim_core::rig::flow::warmth::Warmth;
use sim_core::units::{Pressure, Temperature};

use super::json::print_object;

const EXAMPLE: &str = "\
Example: a station at 1600 m on a cool day, with the calibrator half closed:
  steady-draw operating-point --pressure-pa 83528 --temperature-c 5 --opening 0.5

The keys of --json: flow_m3_min, flow_std_m3_min, calibrator_flow_m3_min, orifice_pressure_inh2o,
exit_pressure_inh2o, chart, speed_rpm, electrical_power_w, exhaust_temperature_c, casing_loss_w,
mass_flow_kg_s. At rest the electrical power is what heats the air, mass_flow_kg_s x 1006 J/(kg K) x
its rise above the air outside, and casing_loss_w. Standard conditions are 25 degrees Celsius and 101325 Pa.

Exit status 0: done. 2: a value is out of range, or the output could not be written.";

/// Calculates the steady flow of a fault-free rig at a given pressure, temperature and opening.
#[derive(Debug, Clone, Args)]
#[command(after_help = EXAMPLE, allow_negative_numbers = true)]
pub struct OperatingPointArguments {
    /// Station pressure, Pa (50000 to 110000)
    #[arg(long, value_name = "P", default_value_t = 101_325.0)]
    pub pressure_pa: f64,
    /// Air temperature, degrees Celsius (-40 to 50)
    #[arg(long, value_name = "T", default_value_t = 20.0)]
    pub temperature_c: f64,
    /// Relative humidity, percent (0 to 100)
    #[arg(long, value_name = "H", default_value_t = 0.0)]
    pub humidity_pct: f64,
    /// Opening of the calibrator: 0 closed, 1 fully open
    #[arg(long, value_name = "F", default_value_t = 1.0)]
    pub opening: f64,
    /// Put this plate of a calibrator with fixed plates in the place of an opening: 18, 13, 10, 7 or 5
    /// holes
    #[arg(long, value_name = "HOLES", conflicts_with = "opening")]
    pub plate: Option<u8>,
    /// Leak under the calibrator, or past the filter if there is no calibrator: effective area, mm2
    /// (0 to 1000)
    #[arg(long, value_name = "A", default_value_t = 0.0)]
    pub leak_mm2: f64,
    /// Voltage at the motor, V (0 to 150)
    #[arg(long, value_name = "V", default_value_t = 120.0)]
    pub volts: f64,
    /// Fit a filter of this resistance at 20 degrees Celsius, Pa s/m (0 to 1000000; a clean filter has
    /// about 10400), under the calibrator if there is one
    #[arg(long, value_name = "R")]
    pub filter_pa_s_m: Option<f64>,
    /// Remove the calibrator; the opening then has no effect
    #[arg(long)]
    pub no_calibrator: bool,
    /// Print one JSON object and nothing else
    #[arg(long)]
    pub json: bool,
}

/// The answer; its field names are the keys of `--json`.
#[derive(Debug, Serialize)]
struct Answer {
    flow_m3_min: f64,
    flow_std_m3_min: f64,
    calibrator_flow_m3_min: f64,
    orifice_pressure_inh2o: f64,
    exit_pressure_inh2o: f64,
    chart: f64,
    speed_rpm: f64,
    electrical_power_w: f64,
    exhaust_temperature_c: f64,
    casing_loss_w: f64,
    mass_flow_kg_s: f64,
}

/// Calculates the steady state and prints it.
///
/// # Errors
///
/// When an argument is out of its range (all such are named), or the output cannot be written.
pub fn run(
    arguments: &OperatingPointArguments,
    out: &mut dyn Write,
) -> Result<Outcome, FrontEndError> {
    check(arguments)?;
    let answer = answer(arguments);
    if arguments.json {
        print_object(out, &answer)?;
        return Ok(Outcome::Done);
    }
    writeln!(out, "total flow          {:8.4} m3/min", answer.flow_m3_min)?;
    writeln!(out, "  at standard       {:8.4} std m3/min", answer.flow_std_m3_min)?;
    writeln!(out, "through calibrator  {:8.4} m3/min", answer.calibrator_flow_m3_min)?;
    writeln!(out, "orifice pressure    {:8.3} inH2O", answer.orifice_pressure_inh2o)?;
    writeln!(out, "exhaust pressure    {:8.3} inH2O", answer.exit_pressure_inh2o)?;
    writeln!(out, "chart               {:8.2}", answer.chart)?;
    writeln!(out, "rotor speed         {:8.0} rpm", answer.speed_rpm)?;
    writeln!(out, "electrical power    {:8.0} W", answer.electrical_power_w)?;
    writeln!(out, "exhaust             {:8.1} degrees Celsius", answer.exhaust_temperature_c)?;
    Ok(Outcome::Done)
}

/// Refuses what is out of range, naming every such argument.
fn check(arguments: &OperatingPointArguments) -> Result<(), FrontEndError> {
    let ranges = [
        ("--pressure-pa", arguments.pressure_pa, 50_000.0, 110_000.0),
        ("--temperature-c", arguments.temperature_c, -40.0, 50.0),
        ("--humidity-pct", arguments.humidity_pct, 0.0, 100.0),
        ("--opening", arguments.opening, 0.0, 1.0),
        ("--leak-mm2", arguments.leak_mm2, 0.0, 1000.0),
        ("--volts", arguments.volts, 0.0, 150.0),
        ("--filter-pa-s-m", arguments.filter_pa_s_m.unwrap_or(0.0), 0.0, 1e6),
    ];
    let plate = arguments.plate.and_then(|holes| Plate::try_from(holes).err());
    let problems: Vec<String> = ranges
        .into_iter()
        .filter(|(_, value, least, most)| !(*least..=*most).contains(value))
        .map(|(name, value, least, most)| {
            format!("{name} is {value}: it must be from {least} to {most}")
        })
        .chain(plate.map(|problem| format!("--plate: {problem}")))
        .collect();
    if problems.is_empty() { Ok(()) } else { Err(FrontEndError::Wrong(problems.join("\n"))) }
}

/// The ambient air asked for.
fn ambient(arguments: &OperatingPointArguments) -> Ambient {
    Ambient::from(AirState {
        pressure_pa: arguments.pressure_pa,
        temperature_k: Temperature::from_c(arguments.temperature_c).k(),
        humidity: arguments.humidity_pct / 100.0,
    })
}

/// The warm default rig under the conditions asked for.
fn solve(arguments: &OperatingPointArguments, rig: &mut RigParameters) -> OperatingPoint {
    let ambient = ambient(arguments);
    let plate = arguments.plate.and_then(|holes| Plate::try_from(holes).ok());
    let open_share = plate.map_or(arguments.opening, Plate::open_share);
    let filter_pa_s_m3 = arguments.filter_pa_s_m.map(|resistance| {
        rig.filter.clean_pa_s_m = resistance;
        Filter::default().resistance_pa_s_m3(&rig.filter, ambient.temperature_k)
    });
    let inlet = Inlet {
        calibrator: (!arguments.no_calibrator).then(|| rig.calibrator.passage_at(open_share)),
        filter_pa_s_m3,
        leak_cda_m2: arguments.leak_mm2 * 1e-6,
        ..Inlet::default()
    };
    let machine = Machine { blower: &rig.blower, path: &rig.flow_path };
    let warmth = Warmth::warm(&rig.blower.motor);
    steady(
        machine,
        &OperatingConditions { ambient, inlet, volts: arguments.volts, warmth, probe: 0.0 },
    )
}

/// What the command answers.
fn answer(arguments: &OperatingPointArguments) -> Answer {
    let mut rig = RigParameters::default();
    let point = solve(arguments, &mut rig);
    let exit_pressure_inh2o = Pressure::from_pa(point.flow.exit_pressure_pa).inh2o();
    let heating_k = point.flow.heating_k(&ambient(arguments));
    Answer {
        flow_m3_min: point.flow.flow_m3_min(),
        flow_std_m3_min: point.flow.flow_std_m3_min(),
        calibrator_flow_m3_min: point.flow.calibrator_flow_m3_min(),
        orifice_pressure_inh2o: Pressure::from_pa(point.flow.orifice_drop_pa).inh2o(),
        exit_pressure_inh2o,
        chart: rig.recorder.square_root_divisions * exit_pressure_inh2o.max(0.0).sqrt(),
        speed_rpm: point.speed_rpm(),
        electrical_power_w: point.electrical_w,
        exhaust_temperature_c: Temperature::from_k(point.flow.exit_temperature_k).c(),
        casing_loss_w: rig.flow_path.casing_w_k * heating_k,
        mass_flow_kg_s: point.flow.mass_flow_kg_s,
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use clap::Parser;
    use sessions::{FrontEndError, Outcome};

    use super::{OperatingPointArguments, run};

    /// A command line of this command alone.
    #[derive(Debug, Parser)]
    struct Line {
        #[command(flatten)]
        arguments: OperatingPointArguments,
    }

    /// Runs the command as typed and gives what it printed.
    fn typed(line: &str) -> Result<String, FrontEndError> {
        let line = Line::try_parse_from(line.split_whitespace())
            .map_err(|error| FrontEndError::Wrong(error.to_string()))?;
        let mut out = Vec::new();
        let outcome = run(&line.arguments, &mut out)?;
        assert_eq!(outcome, Outcome::Done);
        String::from_utf8(out).map_err(|error| FrontEndError::Wrong(error.to_string()))
    }

    fn answer(line: &str) -> serde_json::Value {
        serde_json::from_str(&typed(line).unwrap()).unwrap()
    }

    fn near(answer: &serde_json::Value, key: &str, expected: f64) {
        let found = answer[key].as_f64().unwrap();
        assert!((found - expected).abs() <= 1e-6 * expected, "{key}: {found}, not {expected}");
    }

    #[test]
    fn the_defaults_are_the_open_calibrator_at_sea_level() {
        let answer = answer("operating-point --json");
        assert_eq!(answer.as_object().unwrap().len(), 11);
        near(&answer, "flow_m3_min", 1.78075522);
        near(&answer, "flow_std_m3_min", 1.81112799);
        near(&answer, "calibrator_flow_m3_min", 1.78075522);
        near(&answer, "orifice_pressure_inh2o", 7.32169681);
        near(&answer, "exit_pressure_inh2o", 5.9197982);
        near(&answer, "chart", 87.5902875);
        near(&answer, "electrical_power_w", 755.545598);
        near(&answer, "exhaust_temperature_c", 39.396958);
        near(&answer, "casing_loss_w", 58.1908742);
        near(&answer, "mass_flow_kg_s", 0.035737333);
    }

    #[test]
    fn every_argument_is_used() {
        let leaky = answer(
            "operating-point --pressure-pa 83527.66 --temperature-c 5 --opening 0.235 --leak-mm2 20 --json",
        );
        near(&leaky, "flow_m3_min", 1.11276499);
        let filtered = answer("operating-point --no-calibrator --filter-pa-s-m 10404 --json");
        near(&filtered, "flow_std_m3_min", 1.54196335);
        near(&filtered, "calibrator_flow_m3_min", 0.0);
        let both = answer("operating-point --filter-pa-s-m 10404 --json");
        assert!(both["flow_m3_min"].as_f64() < filtered["flow_m3_min"].as_f64());
        let weak = answer("operating-point --volts 100 --json");
        assert!(weak["speed_rpm"].as_f64().unwrap() < 17_200.0);
        let humid = answer("operating-point --temperature-c 30 --humidity-pct 80 --json");
        let dry = answer("operating-point --temperature-c 30 --json");
        assert!(humid["flow_m3_min"].as_f64() > dry["flow_m3_min"].as_f64());
        let off = answer("operating-point --volts 0 --temperature-c -10 --json");
        near(&off, "speed_rpm", 0.0);
    }

    #[test]
    fn what_is_out_of_range_is_named() {
        let error = typed("operating-point --opening 1.5 --volts NaN --leak-mm2 -1").unwrap_err();
        assert_eq!(
            error.to_string(),
            "--opening is 1.5: it must be from 0 to 1\n\
             --leak-mm2 is -1: it must be from 0 to 1000\n\
             --volts is NaN: it must be from 0 to 150"
        );
    }

    #[test]
    fn it_prints_a_table_for_people() {
        let text = typed("operating-point --opening 0").unwrap();
        assert!(text.contains("total flow            0.0000 m3/min"), "{text}");
    }
}
