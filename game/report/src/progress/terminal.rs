//! A person's progress in words, for a terminal or a screen reader.

use std::io::{self, Write};

use super::super::names::{part_name, severity};
use super::calibration;
use super::overview::Progress;
use super::phrases::{
    begun, brier, counted, error, good_enough, minutes, no_advice, percent, plan_counted, result,
};
use super::recent::recent;
use super::session::ReadScale;

/// Letters of a scenario's title that have room in the table.
const TITLE: usize = 28;

/// Writes all of it.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write(out: &mut dyn Write, progress: &Progress) -> io::Result<()> {
    if let Some(name) = &progress.name {
        writeln!(out, "Progress of {name}")?;
    }
    write_next_step(out, progress)?;
    writeln!(out, "{}", counted(progress))?;
    for left_out in &progress.left_out {
        writeln!(out, "Left out: {}: {}", left_out.file, left_out.why)?;
    }
    write_drills(out, progress)?;
    write_plan(out, progress)?;
    if progress.sessions.is_empty() {
        return Ok(());
    }
    write_sessions(out, progress)?;
    write_rules(out, progress)?;
    write_readings(out, progress)?;
    write_judgement(out, progress)?;
    write_advice(out, progress)
}

/// The next step, first of all.
fn write_next_step(out: &mut dyn Write, progress: &Progress) -> io::Result<()> {
    let Some(next) = &progress.next_step else { return Ok(()) };
    writeln!(out, "Next step: {}", next.what)?;
    writeln!(out, "  {}", next.why)?;
    if let Some(command) = &next.command {
        writeln!(out, "  To do it: {command}")?;
    }
    writeln!(out)
}

fn write_drills(out: &mut dyn Write, progress: &Progress) -> io::Result<()> {
    if progress.drills.is_empty() {
        return Ok(());
    }
    writeln!(out, "\nDrills")?;
    for row in &progress.drills {
        writeln!(
            out,
            "  {:<32} {:>2} of the last {:>2} right and in time, {:>5.1} s each, {}",
            row.title,
            row.counting,
            row.of_last,
            row.seconds,
            good_enough(row)
        )?;
    }
    Ok(())
}

fn write_plan(out: &mut dyn Write, progress: &Progress) -> io::Result<()> {
    let Some(plan) = &progress.plan else { return Ok(()) };
    writeln!(out, "\nLesson plan: {} ({})", plan.title, plan.file)?;
    writeln!(out, "  {}", plan_counted(plan))?;
    for row in &plan.steps {
        let title: String = row.title.chars().take(TITLE + 10).collect();
        writeln!(
            out,
            "  {:>3} {:<9} {title:<width$} {:>4} min  {}",
            row.number,
            row.kind,
            minutes(row.minutes),
            row.state_words(),
            width = TITLE + 10,
        )?;
    }
    writeln!(out, "  {}", plan.time_source)?;
    writeln!(out, "  Due again by {}", plan.spacing_rule)
}

fn write_judgement(out: &mut dyn Write, progress: &Progress) -> io::Result<()> {
    let Some(judgement) = &progress.judgement else { return Ok(()) };
    writeln!(out, "\nHow well you judge your own work")?;
    writeln!(out, "  {}", judgement.said)?;
    writeln!(out, "  {}", brier(judgement))?;
    writeln!(out, "  {}", calibration::SOURCE)
}

fn write_sessions(out: &mut dyn Write, progress: &Progress) -> io::Result<()> {
    let Some(first) = progress.sessions.first() else { return Ok(()) };
    write!(out, "\n     {:<17} {:<TITLE$}", "begun", "scenario")?;
    for share in first.parts {
        write!(out, " {:>9}", part_name(share.part))?;
    }
    writeln!(out, " {:>6}  result", "total")?;
    for (index, session) in progress.sessions.iter().enumerate() {
        let title: String = session.scenario.chars().take(TITLE).collect();
        write!(out, "  {:>2} {:<17} {title:<TITLE$}", index + 1, begun(session))?;
        for share in session.parts {
            write!(out, " {:>9}", percent(share.percent))?;
        }
        writeln!(out, " {:>6.1}  {}", session.total, result(session))?;
    }
    writeln!(out, "  Parts are in percent of the marks that each can give.")
}

fn write_rules(out: &mut dyn Write, progress: &Progress) -> io::Result<()> {
    writeln!(out, "\nRules that keep being broken")?;
    if progress.kept_broken().next().is_none() {
        writeln!(out, "  None.")?;
    }
    for rule in progress.kept_broken() {
        writeln!(
            out,
            "  {} ({}): in {} of {} sessions, in {} of the last {}",
            rule.title,
            severity(rule.severity),
            rule.broken,
            progress.sessions.len(),
            rule.lately,
            recent(&progress.sessions).len(),
        )?;
    }
    Ok(())
}

fn write_readings(out: &mut dyn Write, progress: &Progress) -> io::Result<()> {
    writeln!(out, "\nReading error in divisions: mean distance (mean with its sign)")?;
    write!(out, "    ")?;
    for scale in ReadScale::ALL {
        write!(out, " {:>24}", scale.words())?;
    }
    writeln!(out)?;
    for (index, session) in progress.sessions.iter().enumerate() {
        write!(out, "  {:>2}", index + 1)?;
        for scale in ReadScale::ALL {
            write!(out, " {:>24}", error(session, scale))?;
        }
        writeln!(out)?;
    }
    Ok(())
}

fn write_advice(out: &mut dyn Write, progress: &Progress) -> io::Result<()> {
    writeln!(out, "\nWhat to practise next")?;
    if progress.next.is_empty() {
        writeln!(out, "  {}", no_advice(progress))?;
    }
    for (index, advice) in progress.next.iter().enumerate() {
        writeln!(out, "  {}. {}", index + 1, advice.what)?;
        writeln!(out, "     Why: {}", advice.why)?;
        if let Some(scenario) = &advice.scenario {
            writeln!(out, "     In: {} ({})", scenario.title, scenario.file)?;
            writeln!(out, "         {}", scenario.situation)?;
        }
    }
    Ok(())
}
