//! What was true: readings against what was to be seen, and the flow at each point.

use bevy::prelude::*;
use sim_core::field_book::Field;
use sim_core::marking::{Marks, ReadingJudged};
use sim_core::session::signed::Signed;
use sim_core::time::TimeOfDay;

use super::table::{self, Set, row};
use crate::bench::theme::{self, Theme};
use crate::report::words;
use crate::words::units::Units;

/// Columns of the flows, percent.
const FLOWS: [f32; 3] = [20.0, 40.0, 40.0];
/// Columns of the readings, percent.
const READINGS: [f32; 5] = [28.0, 16.0, 18.0, 22.0, 16.0];

/// The part of the debrief that tells the truth.
pub fn spawn(
    root: &mut ChildSpawnerCommands,
    theme: &Theme,
    units: Units,
    (signed, marks): (&Signed, &Marks),
    start: TimeOfDay,
) {
    table::part(root, theme, "What was true", |sheet| {
        let end = &signed.end;
        let air = format!(
            "The air at the end: {} and {} at the station.",
            units.pressure(end.pressure_mmhg, 1),
            units.temperature(end.temperature_c, 1)
        );
        sheet.spawn(theme::text(air, theme::BODY, theme.ink));
        if let Some(error) = marks.set_point_flow_error_pct {
            let line = format!("Volumes at the ordered flow by your own line: {error:+.1} % off.");
            sheet.spawn(theme::text(line, theme::BODY, theme.ink));
        }
        flows(sheet, theme, units, signed);
        readings(sheet, theme, &marks.readings, start);
    });
}

/// The flow of each point: as written, and as it truly was when it was read.
fn flows(sheet: &mut ChildSpawnerCommands, theme: &Theme, units: Units, signed: &Signed) {
    let evidence = signed.evidence();
    let points = evidence.points();
    if points.is_empty() {
        return;
    }
    row(sheet, theme, &FLOWS, &["flow at point", "as written", "truly"], Set::Head);
    for point in points {
        let number = point.number.number().to_string();
        let written = signed.book.text(Field::PointFlow(point.number)).unwrap_or("\u{2013}");
        // What was written stays as written, in the book's own unit.
        let written = match written {
            "\u{2013}" => written.to_owned(),
            text => format!("{text} m\u{b3}/min"),
        };
        let truly = units.flow(point.first.facts().calibrator_flow_std_m3_min, 3);
        row(sheet, theme, &FLOWS, &[&number, &units.beside(&written), &truly], Set::Plain);
    }
}

/// Every reading in the units of its instrument.
fn readings(
    sheet: &mut ChildSpawnerCommands,
    theme: &Theme,
    readings: &[ReadingJudged],
    start: TimeOfDay,
) {
    if readings.is_empty() {
        return;
    }
    let head = ["reading", "written", "to be seen", "undisturbed", "off, divisions"];
    row(sheet, theme, &READINGS, &head, Set::Head);
    for reading in readings {
        let name = format!("{} {}", start.after(reading.tick), words::field_name(reading.field));
        let number = |value: f64| format!("{value:.2}");
        let cells = [number(reading.written), number(reading.seen), number(reading.undisturbed)];
        let [written, seen, undisturbed] = &cells;
        let off = words::off(reading);
        row(sheet, theme, &READINGS, &[&name, written, seen, undisturbed, &off], Set::Plain);
    }
}
