//! The field book as a form: what stands in it, and what is blank.

use std::fmt::Write;

use sessions::LiveSession;
use sim_core::field_book::{Decision, Field, FieldBook, PointNumber};
use sim_core::scenario::setup::{LessonPhase, LessonPhases, WorkOrder};
use sim_core::session::action::{Action, Response};

use crate::field_names::field_name;
use crate::printable::printable;

/// Entries above the points.
const HEAD: [Field; 7] = [
    Field::CalibratorSerial,
    Field::CertificateSerial,
    Field::CertificateDate,
    Field::CertificateSlope,
    Field::CertificateIntercept,
    Field::Temperature,
    Field::Pressure,
];
/// Entries below the points.
const FOOT: [Field; 8] = [
    Field::Expression,
    Field::Slope,
    Field::Intercept,
    Field::Correlation,
    Field::Decision,
    Field::TargetFlow,
    Field::SetPoint,
    Field::Remarks,
];
/// What is shown where nothing is written.
const BLANK: &str = "____";

/// The form with its entries, what was struck out, and what was reported.
pub(super) fn form(session: &dyn LiveSession) -> String {
    let (book, start) = (session.book(), session.papers().station.start);
    let mut text = String::new();
    // Writing into a String cannot fail.
    let plain = |fields: &[Field], text: &mut String| {
        for &field in fields {
            let stands = written(book, field);
            let _ = writeln!(text, "  {:<24}{stands}", field_name(field));
        }
    };
    plain(&HEAD, &mut text);
    text.push_str("  point   up, in  down, in  sum, in    chart     flow corrected\n");
    for point in book.points() {
        let _ = write!(text, "  {:<5}", point.number());
        for field in [
            Field::Up(point),
            Field::Down(point),
            Field::DeltaH(point),
            Field::Chart(point),
            Field::PointFlow(point),
            Field::ChartTerm(point),
        ] {
            let _ = write!(text, " {:>8}", written(book, field));
        }
        text.push('\n');
    }
    if book.points().is_empty() {
        text.push_str("  no points yet\n");
    }
    plain(&FOOT, &mut text);
    if session.papers().work_order.flow_check.is_some() {
        for reading in PointNumber::all() {
            let fields =
                [Field::CheckUp(reading), Field::CheckDown(reading), Field::CheckChart(reading)];
            if fields.iter().any(|field| book.text(*field).is_some()) {
                plain(&fields, &mut text);
            }
        }
        plain(&Field::CHECK, &mut text);
    }
    if session.papers().work_order.history.is_some() {
        plain(&Field::HISTORY, &mut text);
    }
    if session.papers().work_order.run.is_some() {
        plain(&Field::RUN, &mut text);
        let added: Vec<Field> = added_filters(session.papers().work_order).collect();
        plain(&added, &mut text);
        if session.papers().work_order.next_run().is_some() {
            plain(&[Field::NextFilterNumber], &mut text);
        }
        for part in PointNumber::all() {
            let fields = [Field::PartChart(part), Field::PartMinutes(part)];
            if fields.iter().any(|field| book.text(*field).is_some()) {
                plain(&fields, &mut text);
            }
        }
    }
    for entry in book.entries() {
        if !book.entry(entry.field).is_some_and(|now| std::ptr::eq(now, entry)) {
            let (time, field) = (start.after(entry.tick), field_name(entry.field));
            let old = printable(&entry.text);
            let _ = writeln!(text, "  struck out {time}  {field}: {old}");
        }
    }
    for (tick, action) in session.done() {
        if let Action::Report(remark) = action {
            let place = remark.place.words();
            let response = response_word(remark.response);
            let time = start.after(tick);
            let what = printable(&remark.words());
            let _ = writeln!(text, "  reported {time}  {place}: {what}, {response}");
        }
    }
    text.truncate(text.trim_end().len());
    text
}

/// The fields of the test with added filters that is ordered.
fn added_filters(order: &WorkOrder) -> impl Iterator<Item = Field> {
    Field::of_added_filters(order.added_filters().map_or(0, |order| order.sheets))
}

/// What stands in a field, or a blank.
fn written(book: &FieldBook, field: Field) -> String {
    book.text(field).map_or_else(|| BLANK.to_owned(), printable)
}

/// Every entry that a finished book has and this one lacks, in words; of a lesson, only those of its
/// phases.
pub(super) fn lacking(
    book: &FieldBook,
    order: &WorkOrder,
    phases: Option<LessonPhases>,
) -> Vec<String> {
    let points_wanted = order.points;
    let belongs = |phase| phases.is_none_or(|phases| phases.has(phase));
    let blank =
        |field: &Field| belongs(LessonPhase::of_field(*field)) && book.text(*field).is_none();
    let mut missing: Vec<String> = HEAD.into_iter().filter(blank).map(field_name).collect();
    if order.is_check_alone() {
        // What a check alone comes to: its air stands above the points.
        let sums = order.flow_check.iter().flat_map(|check| check.sums().iter().copied());
        let checked = sums.chain([Field::CheckOutcome]);
        missing.extend(checked.filter(blank).map(field_name));
        let history = order.history.iter().flat_map(|_| Field::HISTORY);
        missing.extend(history.filter(blank).map(field_name));
        return missing;
    }
    let points = book.points();
    let refused = book.decision(Field::Decision) == Some(Decision::CalibrationRefused);
    let taken = belongs(LessonPhase::Points);
    if taken && points.len() < usize::from(points_wanted) && !refused {
        missing.push(format!(
            "{} of {points_wanted} points",
            usize::from(points_wanted) - points.len()
        ));
    }
    for point in points {
        let fields = [
            Field::Up(point),
            Field::Down(point),
            Field::DeltaH(point),
            Field::Chart(point),
            Field::PointFlow(point),
            Field::ChartTerm(point),
        ];
        missing.extend(fields.into_iter().filter(blank).map(field_name));
    }
    let foot = FOOT.iter().copied().filter(|field| match field {
        Field::Remarks => false,
        Field::TargetFlow | Field::SetPoint => !refused,
        _ => true,
    });
    missing.extend(foot.filter(blank).map(field_name));
    if order.flow_check.is_some() && !refused {
        missing.extend(Field::CHECK.into_iter().filter(blank).map(field_name));
    }
    if order.run.is_some() && !refused {
        missing.extend(Field::RUN.into_iter().filter(blank).map(field_name));
        missing.extend(added_filters(order).filter(blank).map(field_name));
        let next = order.next_run().map(|_| Field::NextFilterNumber);
        missing.extend(next.into_iter().filter(blank).map(field_name));
    }
    missing
}

const fn response_word(response: Response) -> &'static str {
    match response {
        Response::Repaired => "repaired",
        Response::Corrected => "corrected",
        Response::Rejected => "rejected",
        Response::Noted => "noted",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sim_core::time::Tick;

    #[test]
    fn what_is_lacking_is_named() {
        let mut book = FieldBook::default();
        let bench = content::sample::Box::new();
        let order = bench.papers().work_order.clone();
        let all = lacking(&book, &order, None);
        assert!(all.contains(&"5 of 5 points".to_owned()), "{all:?}");
        assert!(all.contains(&"decision".to_owned()));
        book.write(Tick(0), Field::Up(PointNumber::try_from(1).expect("it is so")), "3.1");
        let some = lacking(&book, &order, None);
        assert!(some.contains(&"point 1 dH, in".to_owned()), "{some:?}");
        book.decide(Tick(0), Decision::CalibrationRefused, "it leaks");
        let refused = lacking(&book, &order, None);
        assert!(!refused.iter().any(|name| name.contains("target")), "{refused:?}");
    }
}
