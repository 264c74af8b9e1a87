//! Decisions: about the calibration, the flow check and the sample.

use sim_core::control_chart::ChartReading;
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
        &[
            "accept calibration? line?",
            "accept it",
            "calibration|line is? accepted|good|ok|okay|fine|sound|acceptable",
            "calibration line is? accepted|good|ok|okay|fine|sound|acceptable",
        ],
        &["accept the calibration line"],
        "decides about the calibration",
        |_, _| decide(ACCEPTED, ""),
    ),
    form(
        &[
            "accept calibration? line? because <text>",
            "accept it because <text>",
            "accept calibration? line? <reason>",
            "calibration|line is? accepted|good|ok|okay|fine|sound|acceptable <reason>",
            "calibration line is? accepted|good|ok|okay|fine|sound|acceptable <reason>",
        ],
        &["accept the calibration line because all points lie on it"],
        "with the reason",
        |caught, _| decide(ACCEPTED, &caught.said()?),
    ),
    form(
        &[
            "accept moved calibration? line? because <text>",
            "accept calibration? line? although|though it|line has moved <reason>",
            "accept calibration? line? even though it|line has moved <reason>",
        ],
        &["accept the moved calibration line because the recorder was adjusted"],
        "if it has moved since the last calibration, and you know why",
        |caught, _| decide(ACCEPTED_MOVED, &caught.said()?),
    ),
    form(&["accept moved calibration? line? without reason"], &[], "", |_, _| {
        decide(ACCEPTED_MOVED, "")
    }),
    form(
        &[
            "accept moved calibration? line?",
            "accept calibration? line? although|though it|line has moved",
            "accept calibration? line? even though it|line has moved",
        ],
        &[],
        "",
        |_, _| {
            but(
                "say why it may be used: `accept the moved calibration line because the recorder was \
             adjusted`",
            )
        },
    ),
    form(
        &[
            "refuse|reject calibration? line? because <text>",
            "refuse|reject it because <text>",
            "refuse|reject calibration? line? <reason>",
            "do not|don't accept calibration? line? <reason>",
            "cannot|can't|won't accept calibration? line? <reason>",
            "calibration|line is? refused|rejected|unacceptable <reason>",
            "calibration line is? refused|rejected|unacceptable <reason>",
            "calibration|line is not accepted|acceptable|good|sound <reason>",
            "calibration line is not accepted|acceptable|good|sound <reason>",
            "no calibration today? <reason>",
        ],
        &["refuse the calibration line because the points scatter"],
        "with the reason",
        |caught, _| decide(Decision::CalibrationRefused, &caught.said()?),
    ),
    form(&["refuse|reject calibration? line? without reason"], &[], "", |_, _| {
        decide(Decision::CalibrationRefused, "")
    }),
    form(
        &[
            "refuse|reject calibration? line?",
            "refuse|reject it",
            "do not|don't accept calibration? line?",
            "calibration|line is? not? refused|rejected|unacceptable|accepted",
            "no calibration today?",
        ],
        &[],
        "",
        |_, _| but("say why: `refuse the calibration line because the points scatter`"),
    ),
    form(
        &["pass|passed flow? check", "flow? check is|has|was? passed|ok|okay|good|fine"],
        &["pass the check"],
        "decides about the flow check",
        |_, _| decide(Decision::CheckPassed, ""),
    ),
    form(
        &[
            "pass|passed flow? check <reason>",
            "flow? check is|has|was? passed|ok|okay|good|fine <reason>",
        ],
        &[],
        "",
        |caught, _| decide(Decision::CheckPassed, &caught.said()?),
    ),
    form(&["fail|failed flow? check", "flow? check is|has|was? failed"], &[], "", |_, _| {
        decided(Field::CheckOutcome, "failed")
    }),
    form(
        &["fail|failed flow? check <text>", "flow? check is|has|was? failed <text>"],
        &[],
        "",
        |caught, _| {
            let follows = caught.text()?;
            let joint = if follows.starts_with("because") { " " } else { ", " };
            let follows = follows.replace(" and ", ", ");
            decided(Field::CheckOutcome, &format!("failed{joint}{follows}"))
        },
    ),
    form(
        &["sample is|was? valid|good|ok|okay", "sample is|was? valid|good|ok|okay <reason>"],
        &["the sample is valid"],
        "decides about the sample",
        |caught, _| decide(Decision::SampleValid, &caught.said().unwrap_or_default()),
    ),
    form(
        &[
            "sample is|was? invalid|void <reason>",
            "sample is|was not valid <reason>",
            "void|invalidate|reject sample <reason>",
        ],
        &["the sample is not valid because the filter is torn"],
        "with the reason",
        |caught, _| decide(Decision::SampleNotValid, &caught.said()?),
    ),
    form(&["passed|failed|pass|fail", "it passed|failed"], &[], "", |_, _| {
        but("say what: `pass the check`, or `call the check failed, calibrate again`")
    }),
    form(
        &["it is fine|ok|okay|good", "it's fine|ok|okay|good", "all is? good|fine|well"],
        &[],
        "",
        |_, _| {
            but("say what you decide: `accept the calibration line`, `pass the check` or \
                    `the sample is valid`")
        },
    ),
    form(
        &[
            "accept|refuse or refuse|reject|accept calibration? line?",
            "write? decision pending|open?",
        ],
        &[],
        "",
        |_, _| {
            but("decide first, then say `accept the calibration line`, or \
                    `refuse the calibration line because` and why")
        },
    ),
    form(
        &["call flow? check <text>", "check is <text>"],
        &[
            "call the check passed",
            "call the check failed, calibrate again, not valid since 2026-03-02",
        ],
        "decides about the flow check; `because` and a reason may follow",
        |caught, _| decided(Field::CheckOutcome, &caught.text()?),
    ),
    form(
        &["call sample <text>", "sample is|was <text>"],
        &["call the sample valid", "call the sample not valid because the filter is torn"],
        "decides about the sample",
        |caught, _| decided(Field::Validity, &caught.text()?),
    ),
    form(
        &["call control chart <text>", "control chart is|shows|showed <text>"],
        &[
            "call the control chart in control",
            "call the control chart a drift, calibrate again",
            "call the control chart a jump, calibrate again, in doubt since 2026-03-02",
            "call the control chart out of limits",
        ],
        "decides what the sampler's history shows",
        |caught, _| decided(Field::HistoryReading, &caught.text()?),
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
        Err(Trouble::Say(why) | Trouble::Stop(why)) => Err(capital(&format!("{why}."))),
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
        (Field::HistoryReading, shows, rest) => charted(shows, rest, reason),
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
                rest.strip_suffix(" are not valid").or(rest.strip_suffix(" not valid"))
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

/// What a control chart shows and what follows from it.
fn charted(shows: &str, follows: &[&str], reason: &str) -> Built {
    const HOW: &str = "say what the chart shows: `call the control chart in control`, `a drift`, `a jump` \
                       or `out of limits`, and what follows, such as `, calibrate again, in doubt since \
                       2026-03-02`";
    let bare = ["a ", "an ", "the "].iter().find_map(|article| shows.strip_prefix(article));
    let shows = match bare.unwrap_or(shows).trim() {
        "in control" => ChartReading::InControl,
        "drift" | "drifting" => ChartReading::Drift,
        "jump" => ChartReading::Jump,
        "out of limits" | "out of limit" | "point out of limits" => ChartReading::OutOfLimits,
        _ => return but(HOW),
    };
    let (mut calibrate_again, mut in_doubt_since) = (false, None);
    for part in follows {
        let since = part
            .strip_prefix("in doubt since ")
            .or_else(|| part.strip_prefix("flows since ")?.strip_suffix(" are in doubt"));
        match (*part, since) {
            ("calibrate again" | "recalibrate" | "a new calibration is needed", _) => {
                calibrate_again = true;
            }
            (_, Some(date)) => match Date::try_from(date.trim().to_owned()) {
                Ok(date) => in_doubt_since = Some(date),
                Err(_) => {
                    return but(
                        "write the date as year, month and day: `in doubt since 2026-03-02`",
                    );
                }
            },
            _ => return but(HOW),
        }
    }
    decide(Decision::HistoryRead { shows, calibrate_again, in_doubt_since }, reason)
}
