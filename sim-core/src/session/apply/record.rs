//! What is put on record: entries, decisions, reports, and what is struck out.

use super::refusal::{Refusal, check_text, refuse};
use crate::field_book::{Decision, Field, Struck};
use crate::session::action::Action;
use crate::session::fault_report::{FaultReport, SuspectedCause};
use crate::session::state::SessionState;
use crate::time::Tick;

/// Puts something on record.
pub(super) fn apply(state: &mut SessionState, now: Tick, action: &Action) -> Result<(), Refusal> {
    match action {
        Action::Write { field, text } => write(state, now, *field, text),
        Action::Strike { what } => strike(state, now, *what),
        Action::Decide { decision, reason } => decide(state, now, *decision, reason),
        Action::Report(report) => may_report(report),
        _ => refuse("this cannot be put on record"),
    }
}

fn write(state: &mut SessionState, now: Tick, field: Field, text: &str) -> Result<(), Refusal> {
    check_text(text)?;
    match field {
        Field::Decision => refuse("decide about the calibration: accept it or refuse it"),
        Field::CheckOutcome => refuse("decide about the flow check: it is passed or failed"),
        Field::Validity => refuse("decide about the sample: it is valid or not valid"),
        Field::HistoryReading => refuse(
            "decide what the control chart shows: in control, a drift, a jump, or out of limits",
        ),
        _ => {
            state.book.write(now, field, text);
            Ok(())
        }
    }
}

fn strike(state: &mut SessionState, now: Tick, what: Struck) -> Result<(), Refusal> {
    let written: Vec<Field> =
        what.fields().into_iter().filter(|&field| state.book.text(field).is_some()).collect();
    if written.is_empty() {
        return refuse(match what {
            Struck::Field(field) => {
                format!("there is nothing to strike out: the {} is blank", field.label())
            }
            Struck::Point(number) => {
                format!("there is nothing to strike out: point {} is blank", number.number())
            }
        });
    }
    for field in written {
        state.book.strike(now, field);
    }
    Ok(())
}

fn decide(
    state: &mut SessionState,
    now: Tick,
    decision: Decision,
    reason: &str,
) -> Result<(), Refusal> {
    check_text(reason)?;
    state.book.decide(now, decision, reason);
    Ok(())
}

fn may_report(report: &FaultReport) -> Result<(), Refusal> {
    check_text(&report.seen)?;
    match &report.cause {
        SuspectedCause::Known(kind) if kind.place() != report.place => refuse(format!(
            "{} is not a cause at the {}: report it at the {}",
            kind.sheet().title,
            report.place.words(),
            kind.place().words()
        )),
        SuspectedCause::SomethingElse(words) if words.trim().is_empty() => {
            refuse("say what the cause is, or report it as not known yet")
        }
        SuspectedCause::SomethingElse(words) => check_text(words),
        SuspectedCause::Known(_) | SuspectedCause::NotKnownYet => Ok(()),
    }
}
