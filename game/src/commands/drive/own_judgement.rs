//! The trainee's own judgement in JSON: asked for once the session has ended, before its marks.

use std::io::{BufRead, Write};

use serde_json::{Value, json};
use sessions::{FrontEndError, InputLine, LiveSession, read_line};
use sim_core::session::action::ChecklistItem;
use sim_core::session::own_judgement::{OwnJudgement, VolumeOff};

pub use sim_core::marking::own_judgement::judged;

use crate::commands::json::print_object;

/// Asks, and records the answer. A line that is no judgement is answered with `error`, and asked again;
/// `null`, or the end of the input, leaves the question open.
///
/// # Errors
///
/// When the journal or the output cannot be written.
pub fn ask(
    session: &mut dyn LiveSession,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
) -> Result<(), FrontEndError> {
    say(out, &question(session))?;
    let mut line = String::new();
    loop {
        line.clear();
        match read_line(input, &mut line)? {
            InputLine::End => return Ok(()),
            InputLine::TooLong => {
                say(
                    out,
                    &json!({ "error": "the line is longer than 64 KiB: send one judgement" }),
                )?;
                continue;
            }
            InputLine::Line if line.trim().is_empty() => continue,
            InputLine::Line => {}
        }
        match serde_json::from_str::<Option<OwnJudgement>>(line.trim()) {
            Ok(None) => return Ok(()),
            Ok(Some(own)) => match unfit(session, &own) {
                Some(what) => say(out, &json!({ "error": what }))?,
                None => {
                    let kept = session.judge(own);
                    return kept.map_err(|error| FrontEndError::Wrong(error.to_string()));
                }
            },
            Err(error) => say(out, &json!({ "error": error.to_string() }))?,
        }
    }
}

/// What is asked, with the values that an answer can have.
fn question(session: &dyn LiveSession) -> Value {
    let papers = session.papers();
    let (order, terms) = (papers.work_order, papers.terms);
    let volume = OwnJudgement::has_volume(order, terms)
        .then(|| json!({ "off": VolumeOff::ALL, "sure_pct": [50, 60, 70, 80, 90, 100] }));
    json!({ "asks": "own_judgement", "volume": volume, "again": ChecklistItem::of(order, terms) })
}

/// Why a judgement does not fit the job, if it does not.
fn unfit(session: &dyn LiveSession, own: &OwnJudgement) -> Option<String> {
    let papers = session.papers();
    let (order, terms) = (papers.work_order, papers.terms);
    if own.volume.is_some() && !OwnJudgement::has_volume(order, terms) {
        return Some(
            "this job has no calibration line and no volume: leave `volume` out".to_owned(),
        );
    }
    let items = ChecklistItem::of(order, terms);
    let other = own.again.iter().find(|item| !items.contains(item))?;
    Some(format!("this job has no phase `{}`: use those that `again` lists", other.name()))
}

/// Writes one object and delivers it at once: the other program waits for it.
fn say(out: &mut dyn Write, value: &Value) -> Result<(), FrontEndError> {
    print_object(out, value)?;
    out.flush()?;
    Ok(())
}
