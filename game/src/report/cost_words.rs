//! What each slip cost, in words.

use std::io::{self, Write};

use sim_core::marking::cost::{ChartFrom, Cost, CostOf, CostedRun, Costs};

use crate::words::units::Units;

/// Writes the costs: the run, the volumes, each line, and the way to the true volume.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write_costs(out: &mut dyn Write, costs: &Costs) -> io::Result<()> {
    writeln!(out, "\nWhat each slip cost")?;
    if let Some(run) = &costs.run {
        writeln!(out, "  {}", of_run(run))?;
    }
    for (name, volume) in volumes(costs) {
        writeln!(out, "  {name:<44} {}", cubic_metres(volume))?;
    }
    for cost in &costs.each {
        writeln!(out, "  {:>9} %  {}", percent(cost.cost_pct), title(cost))?;
        if !cost.note.is_empty() {
            writeln!(out, "               {}", cost.note)?;
        }
    }
    for sentence in sentences(costs) {
        writeln!(out, "  {sentence}")?;
    }
    if !costs.waterfall.is_empty() {
        writeln!(out, "  From the own volume to the true one, percent of the true volume:")?;
    }
    for step in &costs.waterfall {
        let to = cubic_metres(Some(step.to_m3));
        writeln!(out, "  {:>9} %  {} (to {to})", signed(step.change_pct), step.title)?;
    }
    Ok(())
}

/// The run in one sentence.
pub fn of_run(run: &CostedRun) -> String {
    of_run_in(run, Units::default())
}

/// The run in one sentence, in the units that are set.
pub fn of_run_in(run: &CostedRun, units: Units) -> String {
    let from = match run.chart_from {
        ChartFrom::Written => "as written",
        ChartFrom::OwnLine => "by the own line",
        ChartFrom::OrderedFlow => "that truly means the ordered flow",
    };
    format!(
        "A run of {:.0} min with the pen at {:.1} ({from}), at {} and {}.",
        run.minutes,
        run.chart,
        units.pressure(run.pressure_mmhg, 0),
        units.temperature(run.temperature_c, 0)
    )
}

/// The volumes that are compared, with their names.
pub fn volumes(costs: &Costs) -> [(&'static str, Option<f64>); 4] {
    [
        ("by the own line", costs.own_volume_m3),
        ("by the own readings, sums done again", costs.sums_redone_m3),
        ("by the own readings, all of it undone", costs.all_repaired_m3),
        ("truly drawn", costs.true_volume_m3),
    ]
}

/// What is said about all of it together.
pub fn sentences(costs: &Costs) -> Vec<String> {
    let mut sentences = costs.notes.iter().map(|note| sentence(note)).collect::<Vec<_>>();
    if let Some(together) = costs.together_pct {
        sentences.push(format!("All of it together costs {} %.", signed(together)));
    }
    if let Some(apart) = costs.interaction_pct.map(signed) {
        sentences.push(match apart.as_str() {
            "0.00" => "The single costs added come to the same.".to_owned(),
            _ => format!(
                "The single costs added differ from that by {apart} %: slips act on one another."
            ),
        });
    }
    if let Some(left) = costs.remaining_pct {
        sentences.push(format!(
            "With all of it undone {} % are left: own reading errors and what the method leaves.",
            signed(left)
        ));
    }
    sentences
}

/// A cost's title: slips by their rule, faults by their name.
pub fn title(cost: &Cost) -> String {
    match cost.of {
        CostOf::Rule => cost.title.clone(),
        CostOf::Fault => format!("Fault: {}", cost.title),
    }
}

/// A percentage with its sign, or a dash.
pub fn percent(value: Option<f64>) -> String {
    value.map_or_else(|| "–".to_owned(), signed)
}

/// A volume, or a dash.
pub fn cubic_metres(value: Option<f64>) -> String {
    value.map_or_else(|| "–".to_owned(), |volume| format!("{volume:.1} m³"))
}

/// A percentage with its sign; what rounds to nothing has none.
pub fn signed(value: f64) -> String {
    let rounded = (value * 100.0).round() / 100.0;
    if rounded.abs() < 0.005 { "0.00".to_owned() } else { format!("{rounded:+.2}") }
}

/// A note as a sentence.
fn sentence(note: &str) -> String {
    let mut letters = note.chars();
    let first = letters.next().map(|letter| letter.to_uppercase().to_string());
    format!("{}{}.", first.unwrap_or_default(), letters.as_str())
}

#[cfg(test)]
mod tests {
    use super::{sentence, signed};

    #[test]
    fn numbers_bear_their_sign_and_nothing_bears_none() {
        assert_eq!(signed(-29.1712), "-29.17");
        assert_eq!(signed(3.0), "+3.00");
        assert_eq!(signed(-0.0001), "0.00");
        assert_eq!(sentence("there is no line"), "There is no line.");
    }
}
