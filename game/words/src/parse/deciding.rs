//! Decisions: about the calibration, the flow check and the sample.

use sim_core::field_book::Field;
use sim_core::session::action::{Action, Decision};
use sim_core::time::Date;

use super::form::{Built, Form, form, one};
use super::sentence::unquoted;
use super::trouble::{Trouble, but};
use crate::prose::capital;
use crate::request::Request;

/// A line that may be used, as it was before.
const ACCEPTED: Decision = Decision::CalibrationAccepted { line_moved: false };
/// A line that may be used although it has moved.
const ACCEPTED_MOVED: Decision = Decision::CalibrationAccepted { line_moved: true };

pub(super) const FORMS: &[Form] = &[
    form(
        &["accept calibration? line?", "accept it"],
        &["accept the calibration line"],
        "decides about the calibration",
        |_, _| decide(ACCEPTED, ""),
    ),
    form(
        &["accept calibration? line? because <text>", "accept it because <text>"],
        &["accept the calibration line because all points lie on it"],
        "with the reason",
        |caught, _| decide(ACCEPTED, &caught.said()?),
    ),
    form(
        &["accept moved calibration? line? because <text>"],
        &["accept the moved calibration line because the recorder was adjusted"],
        "if it has moved since the last calibration, and you know why",
        |caught, _| decide(ACCEPTED_MOVED, &caught.said()?),
    ),
    form(&["accept moved calibration? line? without reason"], &[], "", |_, _| {
        decide(ACCEPTED_MOVED, "")
    }),
    form(&["accept moved calibration? line?"], &[], "", |_, _| {
        but("say why it may be used: `accept the moved calibration line because the recorder was \
             adjusted`")
    }),
    form(
        &["refuse|reject calibration? line? because <text>", "refuse|reject it because <text>"],
        &["refuse the calibration line because the points scatter"],
        "with the reason",
        |caught, _| decide(Decision::CalibrationRefused, &caught.said()?),
    ),
    form(&["refuse|reject calibration? line? without reason"], &[], "", |_, _| {
        decide(Decision::CalibrationRefused, "")
    }),
    form(&["refuse|reject calibration? line?", "refuse|reject it"], &[], "", |_, _| {
        but("say why: `refuse the calibration line because the points scatter`")
    }),
    form(
        &["call check <text>", "check is <text>"],
        &[
            "call the check passed",
            "call the check failed, calibrate again, not valid since 2026-03-02",
        ],
        "decides about the flow check; `because` and a reason may follow",
        |caught, _| decided(Field::CheckOutcome, &caught.text()?),
    ),
    form(
        &["call sample <text>", "sample is <text>"],
        &["call the sample valid", "call the sample not valid because the filter is torn"],
        "decides about the sample",
        |caught, _| decided(Field::Validity, &caught.text()?),
    ),
];

fn decide(decision: Decision, reason: &str) -> Built {
    one(Action::Decide { decision, reason: reason.to_owned() })
}

/// The decision that a text states for a field that shows one, with its reason.
///
/// # Errors
///
/// When the text does not state a decision: what to say instead.
pub fn decision(field: Field, text: &str) -> Result<(Decision, String), String> {
    match decided(field, text.trim()) {
        Ok(Request::Do(actions)) => match actions.into_iter().next() {
            Some(Action::Decide { decision, reason }) => Ok((decision, reason)),
            _ => Err(WHICH.to_owned()),
        },
        Err(Trouble::Say(why)) => Err(capital(&format!("{why}."))),
        Ok(_) | Err(Trouble::Misfit) => Err(WHICH.to_owned()),
    }
}

/// What is said of a text that states no decision.
const WHICH: &str = "Say what you decide.";

/// The decision that a text states for a field. A text that states neither is asked back.
pub(super) fn decided(field: Field, text: &str) -> Built {
    let (stated, reason) = match text.split_once("because ") {
        Some((stated, reason)) => (stated, unquoted(reason.trim())),
        None => (text, ""),
    };
    let stated = stated.trim().trim_end_matches([',', ';', ':', '.']).to_lowercase();
    let parts: Vec<&str> = stated.split([',', ';', ':']).map(str::trim).collect();
    let (first, rest) = parts.split_first().unwrap_or((&"", &[]));
    match (field, *first, rest) {
        (Field::Decision, "accepted" | "accept", []) => decide(ACCEPTED, reason),
        (Field::Decision, "refused" | "refuse" | "rejected", []) if !reason.is_empty() => {
            decide(Decision::CalibrationRefused, reason)
        }
        (Field::Decision, _, _) => but(
            "say `accept the calibration line`, or `refuse the calibration line because` and why",
        ),
        (Field::CheckOutcome, "passed", []) => decide(Decision::CheckPassed, reason),
        (Field::CheckOutcome, "failed", rest) => failed(rest, reason),
        (Field::CheckOutcome, _, _) => {
            but("say `call the check passed`, or `call the check failed, calibrate again`")
        }
        (_, "valid", []) => decide(Decision::SampleValid, reason),
        (_, "not valid" | "invalid" | "void", []) => decide(Decision::SampleNotValid, reason),
        _ => but("say `call the sample valid`, or `call the sample not valid because` and why"),
    }
}

/// A failed check and what follows from it.
fn failed(follows: &[&str], reason: &str) -> Built {
    let (mut calibrate_again, mut not_valid_since) = (false, None);
    for part in follows {
        let since = part
            .strip_prefix("samples since ")
            .and_then(|rest| {
                rest.strip_suffix(" not valid").or(rest.strip_suffix(" are not valid"))
            })
            .or_else(|| part.strip_prefix("not valid since "));
        match (*part, since) {
            ("calibrate again" | "recalibrate" | "a new calibration is needed", _) => {
                calibrate_again = true;
            }
            (_, Some(date)) => match Date::try_from(date.trim().to_owned()) {
                Ok(date) => not_valid_since = Some(date),
                Err(_) => {
                    return but(
                        "write the date as year, month and day: `not valid since 2026-03-02`",
                    );
                }
            },
            _ => {
                return but(
                    "say what follows: `call the check failed, calibrate again, not valid since 2026-03-02`",
                );
            }
        }
    }
    decide(Decision::CheckFailed { calibrate_again, not_valid_since }, reason)
}
