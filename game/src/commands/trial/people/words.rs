//! What people's marks are worth, as a text.

use std::io::{self, Write};
use std::time::Duration;

use report::people::{PeopleScenario, PeopleTrial};
use sim_core::trial::people::distribution::MarkDistribution;
use sim_core::trial::people::estimate::{Estimate, Share};
use sim_core::trial::people::volumes::VolumeFigures;
use sim_core::trial::people::{PeopleFigures, PersonGroup};

/// Writes the result of every scenario, and of all together.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write(out: &mut dyn Write, trial: &PeopleTrial) -> io::Result<()> {
    for scenario in &trial.scenarios {
        write_scenario(out, scenario)?;
    }
    if trial.scenarios.len() > 1 {
        writeln!(out, "All {} scenarios together", trial.scenarios.len())?;
        writeln!(out, "  passed: {}", share(&trial.together.passed))?;
        write_volumes(out, &trial.together.volumes)?;
        writeln!(out)?;
    }
    let settings = &trial.settings;
    writeln!(
        out,
        "Program {}, {} people in each scenario, {:.0} % of them careless, seed {}. Intervals hold \
         the true figure 95 times in 100.",
        trial.program,
        settings.people,
        100.0 * settings.careless,
        settings.seed
    )?;
    match &trial.caution {
        Some(caution) => writeln!(out, "{caution}"),
        None => Ok(()),
    }
}

fn write_scenario(out: &mut dyn Write, scenario: &PeopleScenario) -> io::Result<()> {
    let figures = &scenario.figures;
    writeln!(out, "{}  {}", scenario.file, scenario.title)?;
    writeln!(out, "  all people: {}", marks(&figures.marks))?;
    for group in &figures.groups {
        let name = match group.group {
            PersonGroup::Trained => "trained",
            PersonGroup::Careless => "careless",
        };
        writeln!(out, "  {name}: {}", marks(&group.marks))?;
    }
    write_reliability(out, figures)?;
    write_volumes(out, &figures.volumes)?;
    write_pass_mark(out, figures)?;
    if figures.unfinished > 0 {
        writeln!(out, "  {} sittings came to no proper end", figures.unfinished)?;
    }
    writeln!(out)
}

fn marks(marks: &MarkDistribution) -> String {
    let mut text =
        format!("passed {}, marks {:.1} ± {:.1}", share(&marks.passed), marks.mean, marks.sd);
    if let Some([_, low, middle, high, _]) = marks.percentiles {
        text.push_str(&format!(", half of them from {low:.1} to {high:.1}, median {middle:.1}"));
    }
    text
}

fn write_reliability(out: &mut dyn Write, figures: &PeopleFigures) -> io::Result<()> {
    let found = &figures.reliability;
    writeln!(
        out,
        "  reliability: alpha {} over the parts; KR-20 {} over {} rules ({} people); correlation of \
         both sittings {}",
        estimate(found.alpha, 2),
        estimate(found.kr20, 2),
        found.kr20_items,
        found.kr20_people,
        estimate(found.parallel, 2)
    )?;
    writeln!(
        out,
        "  standard error of measurement: {} marks between sittings, {} by alpha",
        estimate(found.error_by_sittings, 1),
        found.error_by_alpha.map_or_else(|| "unknown".to_owned(), |error| format!("{error:.1}"))
    )?;
    writeln!(
        out,
        "  the same decision in both sittings: {}, kappa {}",
        share(&found.agreement),
        estimate(found.kappa, 2)
    )
}

fn write_volumes(out: &mut dyn Write, volumes: &[VolumeFigures]) -> io::Result<()> {
    for one in volumes {
        writeln!(
            out,
            "  off by more than {:.0} %: {} of those who pass; of those whose volume is not, {} fail",
            one.off_by_more_than_pct,
            share(&one.passed_off),
            share(&one.good_failed)
        )?;
    }
    Ok(())
}

fn write_pass_mark(out: &mut dyn Write, figures: &PeopleFigures) -> io::Result<()> {
    match (&figures.proposed, figures.pass_mark) {
        (Some(proposed), Some(own)) => writeln!(
            out,
            "  pass mark {own:.0}: mean loss {:.3} for each person; least at {}, {:.3}",
            proposed.loss_at_own,
            estimate(Some(proposed.pass_mark), 0),
            proposed.loss
        ),
        _ => writeln!(out, "  no volume follows from any sitting, so no pass mark can be proposed"),
    }
}

/// A share with its interval, in percent.
fn share(share: &Share) -> String {
    let interval = share.interval;
    format!(
        "{:.1} % ({:.1} to {:.1}) of {}",
        100.0 * interval.share,
        100.0 * interval.low,
        100.0 * interval.high,
        share.of
    )
}

/// A figure with its interval.
fn estimate(estimate: Option<Estimate>, decimals: usize) -> String {
    match estimate {
        None => "unknown".to_owned(),
        Some(Estimate { value, low: Some(low), high: Some(high) }) => {
            format!("{value:.decimals$} ({low:.decimals$} to {high:.decimals$})")
        }
        Some(Estimate { value, .. }) => format!("{value:.decimals$}"),
    }
}

/// Writes how fast it went.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write_pace(
    out: &mut dyn Write,
    trial: &PeopleTrial,
    took: Duration,
    jobs: usize,
) -> io::Result<()> {
    let sessions = 2 * trial.settings.people * trial.scenarios.len() as u64;
    let seconds = took.as_secs_f64();
    let pace = if seconds > 0.0 { sessions as f64 / seconds } else { 0.0 };
    writeln!(out, "{sessions} sessions in {seconds:.1} s ({pace:.0} per second), {jobs} at a time.")
}
