//! Whose session it was, how it came out, and the marks by part.

use crate::document::{Block, Outcome, Stands, Table, Text};
use crate::session::SessionReport;
use crate::text;

/// The head of the report.
pub fn head(report: &SessionReport<'_>) -> Vec<Block> {
    let signed = &report.ended.signed;
    let marks = &report.ended.marks;
    let station = &signed.setup.station;
    let order = &signed.setup.work_order;
    let outcome = if marks.passed { Outcome::Passed } else { Outcome::NotYet };
    let ended = report.start().after(signed.end_tick);
    let days = ((report.start().hours() * 3600.0 + signed.end_tick.seconds()) / 86_400.0) as u64;
    let later = match days {
        0 => String::new(),
        1 => " on the next day".to_owned(),
        days => format!(", {days} days later"),
    };
    let minutes = report.time_line.minutes();
    let mut facts = Table::new([("", Stands::Left), ("", Stands::Anyhow)]);
    let mut fact = |name: &str, what: String| facts.row([name.to_owned(), what]);
    fact("Operator", report.operator.unwrap_or("not named").to_owned());
    fact("Scenario", report.scenario.clone());
    fact(
        "Station",
        format!(
            "{}, {:.0} m above the sea; sampler {}",
            station.name, station.elevation_m, station.sampler_serial
        ),
    );
    let asked = match order.flow_check.filter(|_| order.is_check_alone()) {
        Some(check) => format!("a check of the flow, {} readings", check.readings),
        None => {
            // An inlet's design flow, turned into standard conditions, has no end of digits.
            let flow = (1000.0 * order.target_flow_std_m3_min).round() / 1000.0;
            format!("{} points, {flow} m³/min", order.points)
        }
    };
    fact("Work order", format!("{}: {asked}", order.number));
    fact("Date on the bench", format!("{}, {} to {ended}{later}", station.date, report.start()));
    fact("Ended", format!("{} after {minutes:.0} min on the bench", text::ending(signed.ended)));
    let mut blocks = vec![
        Block::Result(outcome, text::result(marks)),
        Block::Table(facts),
        Block::Caution(text::CAUTION.to_owned()),
        Block::Heading("Marks".to_owned()),
        Block::Table(parts(report)),
    ];
    for part in marks.parts.iter().filter(|part| !part.reasons.is_empty()) {
        let name = text::part_name(part.name);
        blocks.push(Block::Subheading(format!("Why no more for {name}")));
        blocks.push(Block::List(part.reasons.iter().map(Text::from).collect()));
    }
    blocks
}

fn parts(report: &SessionReport<'_>) -> Table {
    let right = Stands::Right;
    let mut table = Table::new([("part", Stands::Left), ("got", right), ("of", right)]);
    let figures = &report.figures;
    for part in &report.ended.marks.parts {
        let name = text::part_name(part.name);
        let got = figures.text(&format!("marks.{name}"));
        table.row([name.to_owned(), got, figures.text(&format!("marks.{name}.of"))]);
    }
    table.sum(["total".to_owned(), figures.text("marks.total"), figures.text("marks.total.of")]);
    table.row(["needed".to_owned(), String::new(), figures.text("marks.needed")]);
    table
}
