//! The debrief in words, for a terminal or a screen reader.

use std::io::{self, Write};

use content::names::ending;
use sim_core::marking::compared::compare;
use sim_core::marking::own_judgement::judged;
use sim_core::marking::{Marks, ReadingJudged, RunJudged, Standing};
use sim_core::procedure::ProcedureFinding;
use sim_core::time::TimeOfDay;

use super::cost_words::write_costs;
use super::figures::{AS_WRITTEN, Figures, RECALCULATED, TRUE_VALUE};
use super::grouped_findings::{GroupedFinding, at_points, grouped};
use super::judgement_words;
use super::names::{CAUTION, part_name, reported, severity, verdict};
use super::number_format::{NumberFormat, duration, signed_percent};
use super::reading_columns::reading_error;
use super::rule_outcomes;
use super::session::{lesson_words, title_and_lesson};
use sessions::MarkedSession;
use words::{field_name, printable, source_words};

/// Writes the whole debrief.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write_debrief(out: &mut dyn Write, ended: &MarkedSession) -> io::Result<()> {
    let MarkedSession { session, head, marks, costs } = ended;
    let station = &session.setup.station;
    writeln!(out, "Debrief: {}, {}", station.name, station.date)?;
    let began_s = session.lesson.map_or(0.0, |lesson| lesson.tick.seconds());
    let minutes = (session.end_tick.seconds() - began_s) / 60.0;
    let (time, how) = (duration(minutes), ending(session.ended));
    if let Some(phases) = session.setup.terms.phases {
        writeln!(out, "Lesson: {}.", lesson_words(phases))?;
    }
    writeln!(out, "{how} after {time} on the bench. Seed {}.", session.source.seed)?;
    writeln!(out)?;
    write_marks(out, marks, station.start)?;
    if let Some(own) = &session.judgement {
        writeln!(out, "\nYour own judgement")?;
        for sentence in judgement_words::sentences(&judged(own, marks)) {
            writeln!(out, "  {sentence}")?;
        }
    }
    write_costs(out, costs)?;
    write_compared(out, &Figures::of(marks, &compare(session), costs))?;
    let (_, lesson) = title_and_lesson(session);
    if !lesson.is_empty() {
        writeln!(out, "\nWhat this scenario teaches\n  {}", printable(&lesson))?;
    }
    writeln!(out, "\n{CAUTION}")?;
    writeln!(out, "Program {}, scenario {}", sim_core::VERSION, session.source.sha256)?;
    writeln!(out, "Head of the journal {head}")
}

/// Writes result, parts, findings, faults and readings. `start` is the time at the first tick.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write_marks(out: &mut dyn Write, marks: &Marks, start: TimeOfDay) -> io::Result<()> {
    writeln!(out, "{}", result(marks))?;
    writeln!(out)?;
    let one = NumberFormat::Plain(1);
    for part in &marks.parts {
        let (name, got) = (part_name(part.name), one.write(part.got));
        match part.assessed {
            true => writeln!(out, "  {name:<10} {got:>5} of {:3.0}", part.weight)?,
            false => {
                writeln!(out, "  {name:<10} {:>5} of {:3.0} ({NOT_ASSESSED})", "–", part.weight)?
            }
        }
        for reason in &part.reasons {
            writeln!(out, "             - {reason}")?;
        }
    }
    let (total, needed) = (one.write(marks.total), needed(marks));
    writeln!(out, "  {:<10} {total:>5} of {:3.0} ({needed} needed)", "total", marks.of)?;
    if let Some(error) = marks.set_point_flow_error_pct {
        writeln!(
            out,
            "\nAt the ordered set point, the flow from your calibration line is off by {} %.",
            signed_percent(error)
        )?;
    }
    if let Some(run) = &marks.run {
        write_run(out, run)?;
    }
    write_findings(out, &marks.findings, start)?;
    for sentence in rule_outcomes::sentences(&marks.rules) {
        writeln!(out, "  {sentence}")?;
    }
    write_faults(out, marks, start)?;
    write_readings(out, &marks.readings, start)
}

/// Writes the trainee's results beside the true values, and the other figures.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write_compared(out: &mut dyn Write, figures: &Figures) -> io::Result<()> {
    let rows = figures.rows([AS_WRITTEN, RECALCULATED, TRUE_VALUE]);
    if !rows.is_empty() {
        let head = "Your results and the true values";
        writeln!(out, "\n{head:<46} {AS_WRITTEN:>12} {RECALCULATED:>14} {TRUE_VALUE:>10}")?;
    }
    for (row, unit, [written, recalculated, truth]) in rows {
        let line = format!("  {row:<44} {written:>12} {recalculated:>14} {truth:>10}  {unit}");
        writeln!(out, "{}", line.trim_end())?;
    }
    let rows = figures.rows(["value"]);
    if !rows.is_empty() {
        writeln!(out, "\nFigures")?;
    }
    for (row, unit, [value]) in rows {
        writeln!(out, "  {}", format!("{row:<58} {value:>10}  {unit}").trim_end())?;
    }
    Ok(())
}

/// The run as written against what was actually sampled.
fn write_run(out: &mut dyn Write, run: &RunJudged) -> io::Result<()> {
    let truth = &run.truth;
    writeln!(
        out,
        "\nThe run actually sampled {:.1} std m³ in {:.1} min, at a mean flow of {:.3} std m³/min \
         ({:.3} to {:.3}).",
        truth.volume_std_m3,
        truth.powered_min,
        truth.mean_flow_std_m3_min,
        truth.lowest_std_m3_min,
        truth.highest_std_m3_min,
    )?;
    if truth.starts > 1 {
        writeln!(out, "  The power was interrupted: the blower started {} times.", truth.starts)?;
    }
    match run.volume_std_m3.zip(run.error_pct) {
        Some((volume, error)) => {
            let error = signed_percent(error);
            writeln!(out, "  The field book has {volume} std m³, which is off by {error} %.")?;
        }
        None => writeln!(out, "  The field book has no volume.")?,
    }
    if let Some(error) = run.perfect_trace_error_pct {
        writeln!(
            out,
            "  With your calibration line and a perfectly read trace, the volume would be off by {} %.",
            signed_percent(error)
        )?;
    }
    Ok(())
}

fn write_findings(
    out: &mut dyn Write,
    findings: &[ProcedureFinding],
    start: TimeOfDay,
) -> io::Result<()> {
    if findings.is_empty() {
        return writeln!(out, "\nNo findings.");
    }
    writeln!(out, "\nFindings")?;
    for GroupedFinding { finding, points } in grouped(findings) {
        let (time, points) = (start.after(finding.tick), at_points(&points));
        writeln!(out, "  {time}{points}  [{}] {}", severity(finding.severity), finding.title)?;
        writeln!(out, "      {}", finding.evidence)?;
        writeln!(out, "      Why: {}", finding.why)?;
        writeln!(out, "      Source: {}", source_words(finding.source))?;
    }
    Ok(())
}

fn write_faults(out: &mut dyn Write, marks: &Marks, start: TimeOfDay) -> io::Result<()> {
    if marks.faults.is_empty() {
        return Ok(());
    }
    writeln!(out, "\nFaults")?;
    for fault in &marks.faults {
        let when = reported(fault.reported, start);
        writeln!(out, "  {}: {} ({when})", fault.what, verdict(fault.verdict))?;
    }
    Ok(())
}

fn write_readings(
    out: &mut dyn Write,
    readings: &[ReadingJudged],
    start: TimeOfDay,
) -> io::Result<()> {
    if readings.is_empty() {
        return Ok(());
    }
    writeln!(out, "\nReadings                        written  visible  error, divisions")?;
    for reading in readings {
        let time = start.after(reading.tick);
        let name = field_name(reading.field);
        let (written, seen) = (reading.written, reading.seen);
        let error = reading_error(reading);
        writeln!(out, "  {time} {name:<20} {written:8.2} {seen:8.2} {error:>6}")?;
    }
    Ok(())
}

/// What stands in place of the marks of a part that the work rightly never came to.
pub const NOT_ASSESSED: &str = "not assessed";

/// Whether the session was passed, and by how much.
pub fn result(marks: &Marks) -> String {
    let word = if marks.passed { "Passed" } else { "Not passed" };
    let standing = match marks.standing {
        Standing::Worked => "",
        Standing::RightlyStopped => " Stopping the work was the right decision.",
        Standing::BrokenOff => " The work was abandoned.",
    };
    let (got, needed) = (NumberFormat::Plain(1).write(marks.total), needed(marks));
    match &marks.gate {
        Some(gate) => {
            let though = if marks.total >= marks.needed { "but" } else { "and" };
            let (title, shown) = (gate.title, &gate.evidence);
            format!(
                "{word}: {got} of {:.0} marks ({needed} needed), {though} a mandatory step was missed: \
                 {title} ({shown}).{standing}",
                marks.of
            )
        }
        None if !marks.unassessed.is_empty() => {
            let parts: Vec<&str> = marks.unassessed.iter().map(|part| part_name(*part)).collect();
            format!(
                "{word}: {got} of {:.0} marks ({needed} needed), and not assessed: {}.{standing}",
                marks.of,
                parts.join(", ")
            )
        }
        None => format!("{word}: {got} of {:.0} marks ({needed} needed).{standing}", marks.of),
    }
}

/// The marks needed to pass, without a decimal where there is none.
fn needed(marks: &Marks) -> String {
    match marks.needed.fract().abs() < 0.05 {
        true => format!("{:.0}", marks.needed),
        false => format!("{:.1}", marks.needed),
    }
}
