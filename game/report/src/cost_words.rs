//! What each slip cost, in words.

use std::io::{self, Write};

use sim_core::marking::cost::{ChartFrom, Cost, CostOf, CostedRun, Costs};

use super::number_format::{NumberFormat, signed_percent};

/// Writes the costs: the run, the volumes, each slip, and the way to the true volume.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write_costs(out: &mut dyn Write, costs: &Costs) -> io::Result<()> {
    writeln!(out, "\nWhat each slip cost")?;
    if let Some(run) = &costs.run {
        writeln!(out, "  {}", costed_run(run))?;
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
        writeln!(out, "  From your volume to the true volume, in percent of the true volume:")?;
    }
    for step in &costs.waterfall {
        let to = cubic_metres(Some(step.to_m3));
        writeln!(out, "  {:>9} %  {} (to {to})", signed_percent(step.change_pct), step.title)?;
    }
    Ok(())
}

/// The run that all costs are of, in one sentence.
pub fn costed_run(run: &CostedRun) -> String {
    let from = match run.chart_from {
        ChartFrom::Written => "the set point in your field book",
        ChartFrom::OwnLine => "the set point from your calibration line",
        ChartFrom::OrderedFlow => "the reading that truly gives the ordered flow",
    };
    format!(
        "Costs are for a run of {:.0} min with the pen at {:.1} divisions ({from}), at {:.0} mmHg and \
         {:.0} °C.",
        run.minutes, run.chart, run.pressure_mmhg, run.temperature_c
    )
}

/// The volumes that are compared, with their names.
pub fn volumes(costs: &Costs) -> [(&'static str, Option<f64>); 4] {
    [
        ("from your calibration line", costs.own_volume_m3),
        ("from your readings, recalculated", costs.sums_redone_m3),
        ("from your readings, every slip corrected", costs.all_repaired_m3),
        ("actually sampled", costs.true_volume_m3),
    ]
}

/// What is said about all slips together.
pub fn sentences(costs: &Costs) -> Vec<String> {
    let mut sentences = costs.notes.iter().map(|note| sentence(note)).collect::<Vec<_>>();
    if let Some(together) = costs.together_pct {
        let together = signed_percent(together);
        sentences.push(format!("All slips and faults together cost {together} %."));
    }
    if let Some(apart) = costs.interaction_pct.map(signed_percent) {
        sentences.push(match apart.as_str() {
            "0.00" => "The single costs add up to the same.".to_owned(),
            _ => format!(
                "The sum of the single costs differs from this by {apart} %, because slips affect \
                 one another."
            ),
        });
    }
    if let Some(left) = costs.remaining_pct {
        sentences.push(format!(
            "With every slip corrected, {} % remains: your reading errors, the bias of the \
             certificate's laboratory and that of the method.",
            signed_percent(left)
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

/// What a slip or a fault cost, in a phrase.
pub fn cost_of(id: &str, of: CostOf, costs: &Costs) -> String {
    let Some(cost) = costs.each.iter().find(|cost| cost.id == id && cost.of == of) else {
        return "no effect on the volume".to_owned();
    };
    let note = if cost.note.is_empty() { String::new() } else { format!(" ({})", cost.note) };
    match cost.cost_pct {
        Some(percent) => format!("{} % of the volume{note}", signed_percent(percent)),
        None => format!("cannot be determined{note}"),
    }
}

/// A percentage with its sign, or a dash.
pub fn percent(value: Option<f64>) -> String {
    NumberFormat::Signed(2).write_known(value)
}

/// A volume, or a dash.
pub fn cubic_metres(value: Option<f64>) -> String {
    value.map_or_else(|| percent(None), |volume| format!("{volume:.1} m³"))
}

/// A note as a sentence.
fn sentence(note: &str) -> String {
    let mut letters = note.chars();
    let first = letters.next().map(|letter| letter.to_uppercase().to_string());
    let rest = letters.as_str().trim_end_matches('.');
    format!("{}{rest}.", first.unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::sentence;

    #[test]
    fn a_note_becomes_a_sentence() {
        assert_eq!(sentence("there is no line"), "There is no line.");
        assert_eq!(sentence("There is no line."), "There is no line.");
    }
}
