//! A drill for other programs: questions, results and the end as objects.

use std::path::PathBuf;

use serde::Deserialize;
use serde_json::{Value, json};
use sim_core::drill::{Answer, DrillKind, DrillMove, DrillResult, DrillSheet, Judged, Question};
use sim_core::session::action::BarometerReference;
use words::drill::{DrillRequest, asked as question_words, drums, reading, seen as seen_words};

use super::said::Said;

/// A line of input.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum Input {
    Answer(Given),
    Eye { eye_mm: f64 },
    SetBarometer { to: BarometerReference },
    ReadInWords,
    Quit,
}

/// An answer as it is given.
#[derive(Debug, Deserialize)]
#[serde(untagged)]
enum Given {
    Number(f64),
    Choice(String),
}

/// What a line of input asks for.
pub(super) fn said(line: &str) -> Said {
    let input: Input = match serde_json::from_str(line) {
        Ok(input) => input,
        Err(error) => {
            return Said::NotUnderstood(format!(
                "this is not an answer (at column {}): {}; write {{\"answer\":3.15}} or \
                 {{\"answer\":\"tube\"}}",
                error.column(),
                without_place(&error.to_string())
            ));
        }
    };
    Said::Request(match input {
        Input::Answer(Given::Number(number)) => DrillRequest::Answer(Answer::Number(number)),
        Input::Answer(Given::Choice(name)) => DrillRequest::Answer(Answer::Choice(name)),
        Input::Eye { eye_mm } => DrillRequest::Move(DrillMove::Eye { eye_mm }),
        Input::SetBarometer { to } => DrillRequest::Move(DrillMove::SetBarometer { to }),
        Input::ReadInWords => DrillRequest::Move(DrillMove::ReadInWords),
        Input::Quit => DrillRequest::Quit,
    })
}

/// An error without where it is, which is said before it.
fn without_place(error: &str) -> &str {
    error.split(" at line ").next().unwrap_or(error)
}

/// A kind of drill.
pub(super) fn kind(kind: DrillKind) -> Value {
    json!({
        "kind": kind,
        "title": kind.title(),
        "error_unit": kind.error_unit(),
        "standard": kind.standard(),
    })
}

/// A question, with what can be seen and not what is true.
pub(super) fn question(question: &Question, pictures: &[PathBuf]) -> Value {
    let pictures: Vec<_> = pictures.iter().map(|path| path.to_string_lossy()).collect();
    let mut moves = Vec::new();
    for (can, name) in [
        (question.eye_moves(), "eye"),
        (question.barometer_can_be_set(), "set_barometer"),
        (question.can_be_read_in_words(), "read_in_words"),
    ] {
        if can {
            moves.push(name);
        }
    }
    json!({
        "question": {
            "kind": question.kind(),
            "seed": question.seed(),
            "number": question.number(),
            "asked": question_words(question),
            "choices": question.choices(),
            "moves": moves,
            "seen": seen(question),
            "read_out": reading(question),
            "pictures": pictures,
        }
    })
}

/// What can be seen: positions against the marks of a scale, papers and numbers, and no reading.
fn seen(question: &Question) -> Value {
    let first = question.looks().first().map(|look| &look.view);
    match question.kind() {
        DrillKind::ChartMean => {
            let run = first.and_then(|view| view.at_eye_resolution().run);
            json!({ "trace": run.and_then(|run| run.kept_chart) })
        }
        DrillKind::ElapsedTime => json!({ "drums": drums(question) }),
        DrillKind::Certificate | DrillKind::Station => json!({ "words": seen_words(question) }),
        DrillKind::PointSums | DrillKind::Line => match question.sheet() {
            Some(DrillSheet::Point(sheet)) => json!({ "point": sheet }),
            Some(DrillSheet::Line(sheet)) => {
                let points = sheet.points.iter().map(|point| {
                    json!({
                        "flow_std_m3_min": point.flow_std_m3_min,
                        "chart_term": point.chart_term,
                        "residual_m3_min": point.residual_m3_min,
                    })
                });
                let (slope, intercept, r) = (sheet.line.slope, sheet.line.intercept, sheet.line.r);
                json!({
                    "points": points.collect::<Vec<_>>(),
                    "line": { "slope": slope, "intercept": intercept, "r": r },
                })
            }
            None => Value::Null,
        },
        DrillKind::Leg
        | DrillKind::Difference
        | DrillKind::Pen
        | DrillKind::Barometer
        | DrillKind::Thermometer
        | DrillKind::WaterAtRest
        | DrillKind::PenAtRest => json!({ "looks": looks(question) }),
    }
}

/// Looks at a scale.
fn looks(question: &Question) -> Vec<Value> {
    let (stands, rims) = (question.against_scale(), question.rims_against_scale());
    question
        .looks()
        .iter()
        .zip(stands)
        .enumerate()
        .map(|(at, (look, stands))| {
            let set_to = (question.kind() == DrillKind::Barometer)
                .then_some(look.view.barometer.set_to)
                .flatten();
            json!({
                "at_s": look.at_s,
                "looking_at": look.view.focus,
                "eye_mm": look.view.eye_mm,
                "set_to": set_to,
                "stands": stands,
                "rim": rims.get(at),
            })
        })
        .collect()
}

/// What came of an answer.
pub(super) fn judged(question: &Question, judged: &Judged, result: Option<&DrillResult>) -> Value {
    let truth = match &judged.truth {
        Answer::Number(number) => json!(number),
        Answer::Choice(name) => json!(name),
    };
    json!({
        "judged": result,
        "truth": truth,
        "told": words::drill::told(
            question,
            judged,
            result.map_or(0.0, |result| result.seconds)
        ),
    })
}

/// How a skill stands.
pub(super) fn summary(kind: DrillKind, results: &[DrillResult], head: Option<&str>) -> Value {
    json!({
        "ended": true,
        "kind": kind,
        "results": results,
        "standard": kind.standard(),
        "standing": kind.standard().standing(results),
        "journal_head": head,
    })
}
