//! The results as a text for people.

use std::io::{self, Write};
use std::time::Duration;

use report::trial::{Figures, OperatorFigures, ScenarioFigures};
use sessions::printable;
use sim_core::trial::TrialReason;
use sim_core::trial::verdict::CAREFUL;

use super::work::Done;

/// Widest column of names. Many habits joined make a name of any length, which then stands out.
const WIDEST: usize = 60;

/// Writes the result of every scenario.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write(out: &mut dyn Write, figures: &Figures) -> io::Result<()> {
    for scenario in &figures.scenarios {
        write_scenario(out, scenario)?;
    }
    let last = figures.first_seed + figures.runs - 1;
    writeln!(out, "Program {}, seeds {} to {last}.", figures.program, figures.first_seed)?;
    match &figures.caution {
        Some(caution) => writeln!(out, "{caution}"),
        None => Ok(()),
    }
}

fn write_scenario(out: &mut dyn Write, scenario: &ScenarioFigures) -> io::Result<()> {
    writeln!(
        out,
        "{}  {}: {}",
        scenario.file,
        scenario.title,
        scenario.judged.verdict.words().to_uppercase()
    )?;
    for reason in &scenario.judged.reasons {
        writeln!(out, "  {reason}")?;
        for detail in scenario.details.iter().filter(|detail| detail.reason == *reason) {
            write_detail(out, detail)?;
        }
    }
    let longest = scenario.operators.iter().map(|one| one.operator.len()).max().unwrap_or(0);
    let width = longest.clamp(12, WIDEST);
    for one in &scenario.operators {
        writeln!(out, "  {}", row(one, width))?;
    }
    for fault in scenario.operators.iter().filter(|one| one.operator == CAREFUL) {
        for fault in &fault.faults {
            let (name, noticed, of) = (&fault.fault, fault.noticed, fault.ways.in_force);
            writeln!(out, "  {name}: noticed by {CAREFUL} in {noticed} of {of} sessions")?;
        }
    }
    writeln!(out)
}

/// Writes an objection as one session shows it, and what to change.
fn write_detail(out: &mut dyn Write, detail: &TrialReason) -> io::Result<()> {
    let TrialReason { operator, seed, time, phase, about, what, saw, .. } = detail;
    writeln!(
        out,
        "    `{operator}` with seed {seed}, at {time}, {phase}: {about}: {}",
        printable(what)
    )?;
    writeln!(out, "    It saw: {}", printable(saw))?;
    writeln!(out, "    {}", printable(&detail.change.sentence()))
}

fn row(one: &OperatorFigures, width: usize) -> String {
    let rate = &one.pass_rate;
    let mut row = format!(
        "{:width$}  passed {:>5.1} % ({:.1} to {:.1}) of {}, marks {:.1} ± {:.1}",
        one.operator,
        100.0 * rate.share,
        100.0 * rate.low,
        100.0 * rate.high,
        one.sessions,
        one.total.mean,
        one.total.sd,
    );
    if let Some(by) = one.decided_by() {
        row.push_str(&format!(", failed mostly by {by}"));
    }
    if one.unfinished > 0 {
        row.push_str(&format!(", {} unfinished", one.unfinished));
    }
    row
}

/// Writes how fast it went.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write_pace(out: &mut dyn Write, done: &Done, took: Duration) -> io::Result<()> {
    let Done { fresh, known, jobs, .. } = done;
    let seconds = took.as_secs_f64();
    let pace = if seconds > 0.0 { *fresh as f64 / seconds } else { 0.0 };
    write!(out, "{fresh} sessions in {seconds:.1} s ({pace:.0} per second), {jobs} at a time")?;
    if *known > 0 {
        write!(out, "; {known} were already known")?;
    }
    writeln!(out, ".")
}
