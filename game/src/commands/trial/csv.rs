//! The results as comma-separated values (RFC 4180), one row for each operator in each scenario.

use report::names::part_name;
use report::trial::{Figures, OperatorFigures, PARTS, ScenarioFigures};

/// The table with its header.
pub fn table(figures: &Figures) -> String {
    let mut text = header();
    for scenario in &figures.scenarios {
        for operator in &scenario.operators {
            text.push_str(&row(scenario, operator));
        }
    }
    text
}

fn header() -> String {
    let mut names: Vec<String> = [
        "scenario",
        "title",
        "verdict",
        "operator",
        "about",
        "sessions",
        "passed",
        "unfinished",
        "pass_rate",
        "pass_low",
        "pass_high",
        "total_mean",
        "total_sd",
    ]
    .map(str::to_owned)
    .to_vec();
    for part in PARTS {
        let name = part_name(part).replace(' ', "_");
        names.extend([format!("{name}_mean"), format!("{name}_sd")]);
    }
    names.extend(
        ["faults_in_force", "faults_noticed", "false_alarms", "decided_by"].map(str::to_owned),
    );
    line(&names)
}

fn row(scenario: &ScenarioFigures, one: &OperatorFigures) -> String {
    let share = |value: f64| format!("{value:.6}");
    let marks = |value: f64| format!("{value:.4}");
    let mut cells = vec![
        scenario.file.clone(),
        scenario.title.clone(),
        scenario.judged.verdict.words().to_owned(),
        one.operator.clone(),
        one.about.to_string(),
        one.sessions.to_string(),
        one.passed.to_string(),
        one.unfinished.to_string(),
        share(one.pass_rate.share),
        share(one.pass_rate.low),
        share(one.pass_rate.high),
        marks(one.total.mean),
        marks(one.total.sd),
    ];
    for part in &one.parts {
        cells.extend([marks(part.marks.mean), marks(part.marks.sd)]);
    }
    cells.extend([
        one.faults.iter().map(|fault| fault.ways.in_force).sum::<u64>().to_string(),
        one.faults.iter().map(|fault| fault.noticed).sum::<u64>().to_string(),
        one.false_alarms.to_string(),
        one.decided_by().unwrap_or_default().to_owned(),
    ]);
    line(&cells)
}

/// Cells as a line. A cell that holds a comma, a quotation mark or a line break is quoted.
pub(super) fn line(cells: &[String]) -> String {
    let quoted = cells.iter().map(|cell| {
        if cell.contains([',', '"', '\n', '\r']) {
            format!("\"{}\"", cell.replace('"', "\"\""))
        } else {
            cell.clone()
        }
    });
    quoted.collect::<Vec<_>>().join(",") + "\n"
}

#[cfg(test)]
mod tests {
    use super::line;

    #[test]
    fn commas_and_quotation_marks_are_kept_apart() {
        let cells = ["a", "b, c", "say \"d\""].map(str::to_owned);
        assert_eq!(line(&cells), "a,\"b, c\",\"say \"\"d\"\"\"\n");
    }
}
