//! The page that trainers write from says what the program does.

use sim_core::fault::{Fault, Signs};
use sim_core::procedure::{self, Decides, Severity};
use sim_core::scenario::history::HistorySpreads;
use sim_core::scenario::instruments::Instruments;
use sim_core::scenario::parameters::Parameter;
use sim_core::scenario::rules::RULES;
use sim_core::scenario::run::RunSpreads;
use sim_core::scenario::setup::SessionTerms;
use sim_core::scenario::weather::Weather;

use super::shipped;

fn page() -> String {
    let path = bench_tests::repository().join("scenarios/README.md");
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// A parameter as a row of the page.
fn row(parameter: &Parameter) -> String {
    let Parameter { unit, low, high, usual, what, .. } = parameter;
    let unit = if unit.is_empty() { "–" } else { unit };
    let usual = match parameter.name {
        "weather.pressure_mmhg" | "weather.temperature_c" | "weather.humidity_pct" => {
            "must be given".to_owned()
        }
        "weather.thunder_min" | "history.drift_pct_month" | "history.jump_pct" => "none".to_owned(),
        _ => format!("`{usual}`"),
    };
    format!("| `{}` | {unit} | {low} to {high} | {usual} | {what} |", parameter.field())
}

#[test]
fn every_parameter_stands_there_with_unit_range_and_default() {
    let page = page();
    let missing: Vec<String> = Weather::PARAMETERS
        .iter()
        .chain(Instruments::parameters())
        .chain(RunSpreads::PARAMETERS)
        .chain(HistorySpreads::PARAMETERS)
        .map(row)
        .filter(|row| !page.contains(row.as_str()))
        .collect();
    assert!(missing.is_empty(), "these rows are missing:\n{}", missing.join("\n"));
}

#[test]
fn every_term_of_a_session_stands_there() {
    let page = page();
    let error = ron::from_str::<SessionTerms>("(none_such: 1)").expect_err("no such term");
    let ron::Error::NoSuchStructField { expected: known, .. } = error.code else {
        panic!("{error}");
    };
    assert!(known.contains(&"readings_in_words"), "{known:?}");
    let missing: Vec<_> =
        known.iter().filter(|name| !page.contains(&format!("\n| `{name}` | "))).collect();
    assert!(missing.is_empty(), "these terms are missing: {missing:?}");
}

#[test]
fn every_rule_for_scenarios_stands_there() {
    let page = page();
    let missing: Vec<String> = RULES
        .iter()
        .map(|rule| format!("| `{}` | {} |", rule.id, rule.about))
        .filter(|row| !page.contains(row.as_str()))
        .collect();
    assert!(missing.is_empty(), "these rows are missing:\n{}", missing.join("\n"));
}

/// Severity and weight of a rule of the work, in the page's words.
fn stake(rule: &procedure::ProcedureRule) -> String {
    let stake = match rule.severity {
        Severity::Critical => return "life and limb: decides".to_owned(),
        Severity::Safety => "safety",
        Severity::Data => "the volume",
        Severity::Practice => "good craft",
    };
    let decides = match rule.decides {
        Decides::Never => "",
        Decides::AsHabit => ": decides as a habit",
        Decides::Always => ": decides",
    };
    format!("{stake}{decides}")
}

#[test]
fn every_rule_of_the_work_stands_there() {
    let page = page();
    let missing: Vec<String> = procedure::RULES
        .iter()
        .map(|rule| format!("| `{}` | {} | {} |", rule.id, rule.title, stake(rule)))
        .filter(|row| !page.contains(row.as_str()))
        .collect();
    assert!(missing.is_empty(), "these rows are missing:\n{}", missing.join("\n"));
}

#[test]
fn every_operator_stands_there() {
    let page = page();
    for (name, does) in sim_core::operator::NAMES {
        assert!(page.contains(&format!("| `{name}` | {does} |")), "| `{name}` | {does} |");
    }
}

#[test]
fn every_scenario_that_comes_with_the_program_stands_there() {
    let page = page();
    for (name, _) in shipped() {
        assert!(page.contains(&format!("`{name}`")), "{name} is missing");
    }
}

#[test]
fn the_example_on_the_page_is_sound() {
    let page = page();
    let example = page.split("```ron\n").nth(1).and_then(|rest| rest.split("```").next());
    let example = example.expect("the page has an example in RON");
    let checked = super::checked(example);
    assert!(checked.is_ok(), "{}", super::listed(&checked.expect_err("problems")));
}

/// The faults in the short table of their catalogue: what is written, read as a fault, with its range.
fn faults() -> Vec<(Fault, String)> {
    let path = bench_tests::repository().join("scenarios/FAULTS.md");
    let page = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    let table = page.split("\n## In short").nth(1).expect("the catalogue has a short table");
    let table = table.split("\n## ").next().unwrap_or(table);
    let rows = table.lines().filter(|line| line.starts_with("| `"));
    rows.map(|row| {
        let mut cells = row.split('|').map(str::trim).skip(1);
        let written = cells.next().unwrap_or("").trim_matches('`');
        let fault = ron::from_str(written).unwrap_or_else(|error| panic!("{written}: {error}"));
        (fault, cells.next().unwrap_or("").to_owned())
    })
    .collect()
}

#[test]
fn every_fault_stands_in_the_catalogue_with_its_range() {
    assert!(page().contains("](FAULTS.md)"), "the page leads to the catalogue");
    let faults = faults();
    for (fault, range) in &faults {
        let usual = Fault::examples().any(|example| example == *fault);
        assert!(usual, "the example of {} is not usual", fault.name());
        let expected = fault.size().map_or("–".to_owned(), |size| {
            assert!(size.in_range(), "the example of {} is out of range", fault.name());
            let sign = if size.signs == Signs::Either { "±" } else { "" };
            let unit = if size.unit.is_empty() { "" } else { " " };
            format!("{sign}{} to {}{unit}{}", size.smallest, size.largest, size.unit)
        });
        assert_eq!(*range, expected, "{}", fault.name());
    }
    let error = ron::from_str::<Fault>("None").expect_err("no such fault");
    let ron::Error::NoSuchEnumVariant { expected: known, .. } = error.code else {
        panic!("{error}");
    };
    for name in known {
        assert!(faults.iter().any(|(fault, _)| fault.name() == *name), "{name} is missing");
    }
}
