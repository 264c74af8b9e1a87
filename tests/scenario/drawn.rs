//! Drawing a bench: from the seed alone, within the ranges, and back from the numbers drawn.

use std::collections::BTreeSet;

use sim_core::scenario::Drawn;
use sim_core::scenario::instruments::Instruments;
use sim_core::scenario::parameters::Parameter;
use sim_core::scenario::setup::Setup;

use super::{checked, shipped, sound};

fn bench(scenario: &sim_core::scenario::Scenario, seed: u64) -> Setup {
    Setup::build(scenario, &scenario.draw(seed)).expect("a bench")
}

#[test]
fn one_seed_gives_one_bench_and_another_seed_another() {
    for (name, text) in shipped() {
        let scenario = checked(&text).expect("sound");
        assert_eq!(scenario.draw(11), scenario.draw(11), "{name}");
        let (one, other) = (scenario.draw(11), scenario.draw(12));
        let same: Vec<&str> = one
            .iter()
            .filter(|(name, value)| other.get(name) == Some(*value))
            .map(|(name, _)| name)
            .collect();
        // Water is water, and a sky that the scenario holds under clouds stays so.
        assert!(
            same.iter().all(|n| ["manometer.fluid_relative_density", "weather.sun_k"].contains(n)),
            "{name}: {same:?} can be learnt by heart"
        );
    }
}

#[test]
fn numbers_survive_the_journal_bit_for_bit() {
    for (_, text) in shipped() {
        let drawn = checked(&text).expect("sound").draw(5);
        let json = serde_json::to_string(&drawn).expect("drawn numbers can be written");
        let back: Drawn = serde_json::from_str(&json).expect("and read");
        assert_eq!(back, drawn);
    }
}

#[test]
fn every_seed_gives_a_bench_within_the_ranges() {
    let scenario = sound(&[]);
    for seed in 0..500 {
        bench(&scenario, seed);
    }
}

#[test]
fn setting_one_parameter_shifts_no_other() {
    let plain = sound(&[]).draw(3);
    let changed = sound(&[("recorder_kind", "blower: (winding_ohm: Fixed(4.6)), recorder_kind")]);
    let changed = changed.draw(3);
    let differing: Vec<&str> = plain
        .iter()
        .filter(|(name, value)| changed.get(name) != Some(*value))
        .map(|(name, _)| name)
        .collect();
    assert_eq!(differing, ["blower.winding_ohm"]);
}

#[test]
fn every_parameter_is_drawn_once() {
    let drawn = sound(&[]).draw(1);
    let names: Vec<&str> = drawn.iter().map(|(name, _)| name).collect();
    let once: BTreeSet<&str> = names.iter().copied().collect();
    assert_eq!(names.len(), once.len());
    for parameter in Instruments::parameters() {
        assert!(once.contains(parameter.name), "{}", parameter.name);
    }
    assert!(!once.contains("weather.thunder_min"), "there is no thunder unless it is asked for");
}

#[test]
fn every_parameter_of_an_instrument_reaches_the_rig() {
    let scenario = sound(&[]);
    let rig_with = |changed: Option<&Parameter>| {
        let numbers: Vec<(String, f64)> = scenario
            .draw(4)
            .iter()
            .map(|(name, drawn)| match changed {
                Some(parameter) if parameter.name == name => {
                    (name.to_owned(), 0.3 * parameter.low + 0.7 * parameter.high)
                }
                _ => (name.to_owned(), drawn),
            })
            .collect();
        let json = serde_json::to_value(numbers).expect("numbers");
        let drawn: Drawn = serde_json::from_value(json).expect("drawn");
        Setup::build(&scenario, &drawn).expect("a bench").rig
    };
    let plain = rig_with(None);
    let lost: Vec<&str> = Instruments::parameters()
        .filter(|parameter| rig_with(Some(*parameter)) == plain)
        .map(|parameter| parameter.name)
        .collect();
    assert!(lost.is_empty(), "these change nothing: {lost:?}");
}

#[test]
fn thunder_comes_when_it_is_asked_for() {
    let asked = sound(&[(
        "humidity_pct: Uniform(55, 75)",
        "humidity_pct: Uniform(55, 75), thunder_min: Uniform(20, 40)",
    )]);
    let minutes = bench(&asked, 9).weather.thunder_min.expect("thunder");
    assert!((20.0..=40.0).contains(&minutes));
    assert_eq!(bench(&sound(&[]), 9).weather.thunder_min, None);
}

#[test]
fn weather_is_turned_into_the_units_of_the_core() {
    let setup = bench(
        &sound(&[
            ("Normal(761, 4)", "Fixed(750)"),
            ("Normal(13, 2)", "Fixed(20)"),
            ("Uniform(55, 75)", "Fixed(50), pressure_mmhg_h: Fixed(-1)"),
        ]),
        1,
    );
    assert!((setup.weather.pressure_pa - 750.0 * 133.322387).abs() < 1e-6);
    assert!((setup.weather.pressure_pa_h + 133.322387).abs() < 1e-9);
    assert!((setup.weather.temperature_k - 293.15).abs() < 1e-9);
    assert!((setup.weather.humidity - 0.5).abs() < 1e-12);
}

#[test]
fn a_stated_certificate_is_printed_as_stated() {
    let setup = bench(
        &sound(&[(
            "(serial: \"OC-318\", date: \"2025-11-04\")",
            "(serial: \"OC-318\", date: \"2025-11-04\", slope: 1.51318, intercept: -0.0237, correlation: 0.99998)",
        )]),
        1,
    );
    let certificate = &setup.certificates[0];
    assert!((certificate.standard.slope - 1.51318).abs() < 1e-12);
    assert!((certificate.standard.intercept + 0.0237).abs() < 1e-12);
    assert!((certificate.correlation - 0.99998).abs() < 1.1e-5);
    // The actual-conditions slope is the standard one times sqrt(298/760).
    assert!((certificate.actual.slope - 1.51318 * 0.626183).abs() < 1e-5);
}

#[test]
fn a_simulated_certificate_fits_its_calibrator() {
    // Qstd = (sqrt(dH) - b)/m at 760 mmHg and 298 K for dH = 4.9 in of water through 5.4e-4 m2 of
    // dry air: rho = 1.184521 kg/m3, dP = 1220.536 Pa, eps = 0.996975, m = 0.0289492 kg/s.
    for bias_pct in [0.0, -1.2, 2.0] {
        let stated = format!("\", laboratory_bias_pct: Fixed({bias_pct}), date: ");
        let scenario = sound(&[("Normal(5.4e-4, 5e-6)", "Fixed(5.4e-4)"), ("\", date: ", &stated)]);
        for seed in 0..20 {
            let setup = bench(&scenario, seed);
            let pair = setup.certificates[0].standard;
            let flow = (4.9_f64.sqrt() - pair.intercept) / pair.slope;
            let stated = 1.46638 * (1.0 + bias_pct / 100.0);
            assert!((flow / stated - 1.0).abs() < 0.003, "seed {seed}, {bias_pct} %: {flow}");
            assert!((setup.laboratory_bias_pct - bias_pct).abs() < 1e-12);
        }
    }
}

#[test]
fn an_original_and_its_copy_differ_in_two_digits_only() {
    let scenario = sound(&[
        (
            "(serial: \"OC-318\", date: \"2025-11-04\"),",
            "(heading: \"copy of certificate\", serial: \"OC-318\", date: \"2025-11-04\", print: DigitsExchanged), (serial: \"OC-318\", date: \"2025-11-04\"),",
        ),
        (
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: CertificateDigitsExchanged),",
        ),
    ]);
    for seed in 0..50 {
        let setup = bench(&scenario, seed);
        let [copy, original] = &setup.certificates[..] else { panic!("two papers") };
        let digits = |x: f64| format!("{x:.5}").into_bytes();
        let (copied, right) = (digits(copy.standard.slope), digits(original.standard.slope));
        let wrong = copied.iter().zip(&right).filter(|(a, b)| a != b).count();
        let (mut sorted, mut other) = (copied.clone(), right.clone());
        sorted.sort_unstable();
        other.sort_unstable();
        assert!(wrong == 2 && sorted == other, "seed {seed}: {copy:?} {original:?}");
        assert_eq!(copy.actual, original.actual);
        assert_eq!(copy.standard.intercept.to_bits(), original.standard.intercept.to_bits());
    }
}

#[test]
fn altered_numbers_build_no_bench() {
    let scenario = sound(&[]);
    let altered = |name: &str, value: Option<f64>| {
        let numbers: Vec<(String, f64)> = scenario
            .draw(2)
            .iter()
            .filter_map(|(known, drawn)| {
                let kept = if known == name { value? } else { drawn };
                Some((known.to_owned(), kept))
            })
            .collect();
        let json = serde_json::to_value(numbers).expect("numbers");
        let drawn: Drawn = serde_json::from_value(json).expect("drawn");
        Setup::build(&scenario, &drawn).expect_err("no bench").to_string()
    };
    insta::assert_snapshot!(altered("blower.winding_ohm", None), @"no value was drawn for `blower.winding_ohm`: draw the bench again, or use the scenario that belongs to this journal");
    insta::assert_snapshot!(altered("blower.winding_ohm", Some(-1.0)), @"the value -1 drawn for `blower.winding_ohm` is outside 2 to 9: the journal was altered, so use an unchanged copy");
}

#[test]
fn the_chart_of_every_bench_shows_what_its_scenario_is_about() {
    use sim_core::control_chart::{ChartPoint, ChartReading};
    for (file, shows, today_pct) in [
        ("36_the_orchard.ron", ChartReading::Drift, -1.8 + 0.55 * 8.28),
        ("37_the_ferry_landing.ron", ChartReading::Jump, -1.8 + 4.5),
    ] {
        let all = shipped();
        let (_, text) = all.iter().find(|(name, _)| name == file).expect("it is shipped");
        let scenario = checked(text).expect("sound");
        let mut otherwise = 0;
        for seed in 0..400 {
            let setup = bench(&scenario, seed);
            let history = setup.work_order.history.as_ref().expect("a history");
            assert_eq!(history.visits().len(), 27 + 5, "{file}");
            let today = ChartPoint { date: setup.station.date, difference_pct: today_pct };
            let chart = history.chart(Some(today)).expect("a chart");
            assert!(!chart.signals().is_empty(), "{file} {seed}: no signal");
            otherwise += u32::from(chart.reading() != shows);
            // Before today's check every one was within the limit of the order.
            let limit_pct = setup.work_order.flow_check.expect("a check").within_pct;
            assert!(chart.points().iter().all(|point| point.difference_pct.abs() < limit_pct));
        }
        assert!(otherwise <= 4, "{file}: {otherwise} of 400 charts show something else");
    }
}
