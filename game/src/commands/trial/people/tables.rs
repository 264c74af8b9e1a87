//! Rules and pass marks as comma-separated values (RFC 4180).

use report::people::PeopleTrial;
use sim_core::trial::people::estimate::Share;
use sim_core::trial::people::volumes::BOUNDS_PCT;

use crate::commands::trial::csv::line;

fn number(value: Option<f64>) -> String {
    value.map_or_else(String::new, |value| format!("{value:.6}"))
}

fn share(share: &Share) -> [String; 5] {
    let interval = share.interval;
    [
        share.count.to_string(),
        share.of.to_string(),
        number(Some(interval.share)),
        number(Some(interval.low)),
        number(Some(interval.high)),
    ]
}

fn header(names: &[&str]) -> String {
    let names: Vec<String> = names.iter().map(|&name| name.to_owned()).collect();
    line(&names)
}

/// One row for each rule in each scenario.
pub fn rules(trial: &PeopleTrial) -> String {
    let mut text = header(&[
        "scenario",
        "rule",
        "reached",
        "cannot_judge",
        "kept",
        "of",
        "difficulty",
        "difficulty_low",
        "difficulty_high",
        "discrimination",
        "discrimination_low",
        "discrimination_high",
        "slope",
        "location",
        "information",
    ]);
    for scenario in &trial.scenarios {
        for item in &scenario.figures.items.items {
            let found = item.discrimination;
            let mut cells = vec![scenario.file.clone(), item.rule.to_owned()];
            cells.extend([item.reached.to_string(), item.cannot_judge.to_string()]);
            cells.extend(share(&item.difficulty));
            cells.extend([
                number(found.map(|found| found.value)),
                number(found.and_then(|found| found.low)),
                number(found.and_then(|found| found.high)),
                number(item.slope),
                number(item.location),
                number(item.information),
            ]);
            text.push_str(&line(&cells));
        }
    }
    text
}

/// One row for each pass mark in each scenario.
pub fn curve(trial: &PeopleTrial) -> String {
    let mut names: Vec<String> =
        ["scenario", "pass_mark", "passed", "of", "pass_rate", "pass_low", "pass_high"]
            .map(str::to_owned)
            .to_vec();
    for bound in BOUNDS_PCT {
        for what in ["passed_off", "good_failed"] {
            let name = |which: &str| format!("{what}_{bound:.0}{which}");
            names.extend(["", "_of", "_share", "_low", "_high"].map(name));
        }
    }
    names.push("loss".to_owned());
    let mut text = line(&names);
    for scenario in &trial.scenarios {
        for point in &scenario.figures.curve {
            let mut cells = vec![scenario.file.clone(), format!("{:.0}", point.pass_mark)];
            cells.extend(share(&point.passed));
            for volumes in &point.volumes {
                cells.extend(share(&volumes.passed_off));
                cells.extend(share(&volumes.good_failed));
            }
            cells.push(number(point.loss));
            text.push_str(&line(&cells));
        }
    }
    text
}
