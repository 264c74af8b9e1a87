//! Who did the session, its result, and the marks by part.

use content::document::{CellAlign, PassOrNot, RichText, Table};
use content::names::ending;
use sim_core::scenario::setup::CheckedLine;
use sim_core::session::action::Action;
use sim_core::session::ground_truth::EventRecord;

use super::super::debrief::{NOT_ASSESSED, result};
use super::super::document::Block;
use super::super::names::{self, CAUTION};
use super::super::number_format::duration;
use super::super::session::{SessionReport, lesson_words};

/// The head of the report.
pub fn head(report: &SessionReport<'_>) -> Vec<Block> {
    let marks = &report.ended.marks;
    let outcome = if marks.passed { PassOrNot::Passed } else { PassOrNot::NotPassed };
    let mut blocks = vec![
        Block::Result(outcome, result(marks)),
        Block::Table(particulars(report)),
        Block::Caution(CAUTION.to_owned()),
        Block::Heading("What this scenario teaches".to_owned()),
        Block::Paragraph(RichText::from(report.lesson.clone())),
        Block::Heading("Marks".to_owned()),
        Block::Table(parts(report)),
    ];
    for part in marks.parts.iter().filter(|part| !part.reasons.is_empty()) {
        let name = names::part_name(part.name);
        blocks.push(Block::Subheading(match part.assessed {
            true => format!("Where {name} marks were lost"),
            false => format!("Why {name} was not assessed"),
        }));
        blocks.push(Block::List(part.reasons.iter().map(RichText::from).collect()));
    }
    blocks
}

/// Operator, scenario, station, work order, date and end.
fn particulars(report: &SessionReport<'_>) -> Table {
    let session = &report.ended.session;
    let station = &session.setup.station;
    let order = &session.setup.work_order;
    let mut table = Table::new([("", CellAlign::Left), ("", CellAlign::BreakAnywhere)]);
    let mut row = |name: &str, what: String| table.row([name.to_owned(), what]);
    row("Operator", report.operator.unwrap_or("not given").to_owned());
    row("Scenario", report.scenario.clone());
    row(
        "Station",
        format!(
            "{}, elevation {:.0} m; sampler {}",
            station.name, station.elevation_m, station.sampler_serial
        ),
    );
    if let Some(phases) = session.setup.terms.phases {
        row("Lesson", lesson_words(phases));
    }
    let asked = match order.flow_check.filter(|_| order.is_check_alone()) {
        Some(check) if check.line == CheckedLine::ControlledFlow => format!(
            "calibration at the controlled flow alone, target flow {} std m³/min, {} readings",
            order.target_flow_std_m3_min, check.readings
        ),
        Some(check) => format!("flow check, {} readings", check.readings),
        None => {
            // An inlet's design flow, converted to standard conditions, has endless decimals.
            let flow = (1000.0 * order.target_flow_std_m3_min).round() / 1000.0;
            format!("{}-point calibration, target flow {flow} std m³/min", order.points)
        }
    };
    row("Work order", format!("{}: {asked}", order.number));
    let ended = report.start().after(session.end_tick);
    let days = ((report.start().hours() * 3600.0 + session.end_tick.seconds()) / 86_400.0) as u64;
    let later = match days {
        0 => String::new(),
        1 => " the next day".to_owned(),
        days => format!(", {days} days later"),
    };
    let began = report.start().after(report.began());
    row("Date on the bench", format!("{}, {began} to {ended}{later}", station.date));
    let time = duration(report.time_line.minutes() - report.began().seconds() / 60.0);
    row("Ended", format!("{} after {time} on the bench", ending(session.ended)));
    let in_words = |event: &&EventRecord| event.action == Action::ReadInWords;
    match session.events.iter().filter(in_words).count() {
        0 => {}
        1 => row("Readings in words", "1, as this scenario allows".to_owned()),
        count => row("Readings in words", format!("{count}, as this scenario allows")),
    }
    table
}

fn parts(report: &SessionReport<'_>) -> Table {
    let right = CellAlign::Right;
    let mut table = Table::new([("part", CellAlign::Left), ("marks", right), ("of", right)]);
    let figures = &report.figures;
    for part in &report.ended.marks.parts {
        let name = names::part_name(part.name);
        let got = match part.assessed {
            true => figures.text(&format!("marks.{name}")),
            false => NOT_ASSESSED.to_owned(),
        };
        table.row([name.to_owned(), got, figures.text(&format!("marks.{name}.of"))]);
    }
    table.total(["total".to_owned(), figures.text("marks.total"), figures.text("marks.total.of")]);
    table.row(["needed to pass".to_owned(), String::new(), figures.text("marks.needed")]);
    table
}
