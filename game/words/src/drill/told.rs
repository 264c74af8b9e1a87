//! What an answer is worth, and how the skill stands.

use sim_core::drill::{
    Answer, Asked, DrillKind, DrillResult, ErrorUnit, Judged, Question, Standing,
};

use super::asked::standard_words;
use crate::prose::{capital, sentence};

/// What an answer is worth: how far off, which way, and the slip that it follows from.
pub fn told(question: &Question, judged: &Judged, seconds: f64) -> String {
    let right = number_of(question, &judged.truth);
    let within_s = question.kind().standard().within_s;
    let unit = question.kind().error_unit();
    let mut said = match (judged.error, judged.right) {
        (Some(error), true) => format!("Right: {right}{}.", off(error, unit)),
        (Some(error), false) => {
            format!(
                "{}. Right is {right}.",
                capital(off(error, unit).trim_start_matches("; you were "))
            )
        }
        (None, true) => format!("Right: {right}."),
        (None, false) => format!("Wrong: right is {right}."),
    };
    if let Some(slip) = judged.slip {
        said.push(' ');
        said.push_str(&sentence(slip.words()));
    }
    if judged.right && seconds > within_s {
        said.push_str(&format!(
            " It took {seconds:.0} s; what counts takes at most {within_s:.0} s."
        ));
    }
    said
}

/// By how much and which way.
fn off(error: f64, unit: ErrorUnit) -> String {
    let (sign, decimals) = (unit.sign(), unit.decimals());
    let amount = format!("{:.decimals$}", error.abs());
    if amount.parse::<f64>() == Ok(0.0) {
        return String::new();
    }
    let way = if error > 0.0 { "too high" } else { "too low" };
    format!("; you were {amount} {sign} {way}")
}

/// What is right, with its unit.
pub fn number_of(question: &Question, answer: &Answer) -> String {
    match answer {
        Answer::Choice(name) => match question.kind() {
            DrillKind::Certificate => format!("certificate {name}"),
            _ => name.replace('-', " "),
        },
        Answer::Number(number) => match question.asked() {
            Asked::Leg(_) => format!("{number:.2} in"),
            Asked::Difference => format!("{number:.2} inches of water"),
            Asked::Pen | Asked::ChartMean => format!("{number:.1} divisions"),
            Asked::StationPressure => format!("{number:.1} mmHg"),
            Asked::Temperature => format!("{number:.1} degrees Celsius"),
            Asked::ElapsedTime => format!("{number:.1} min"),
            Asked::PointFlow => format!("{number:.3} m3/min"),
            _ => format!("{number:.2}"),
        },
    }
}

/// How the attempts of a drill stand: how many, how far off, how fast, and whether that is good enough.
pub fn summary(kind: DrillKind, results: &[DrillResult]) -> String {
    let standing = kind.standard().standing(results);
    let mut lines = vec![match results.len() {
        0 => "No question was answered.".to_owned(),
        1 => "1 question was answered.".to_owned(),
        count => format!("{count} questions were answered."),
    }];
    if !results.is_empty() {
        lines.push(figures(kind, results));
    }
    let in_words = results.iter().filter(|result| result.in_words).count();
    match in_words {
        0 => {}
        1 => lines.push("1 reading was had in words.".to_owned()),
        count => lines.push(format!("{count} readings were had in words.")),
    }
    lines.push(standard_words(kind));
    lines.push(verdict(kind, standing));
    lines.join("\n")
}

/// Counts, errors and times.
fn figures(kind: DrillKind, results: &[DrillResult]) -> String {
    let count = results.len() as f64;
    let right = results.iter().filter(|result| result.right).count();
    let seconds = results.iter().map(|result| result.seconds).sum::<f64>() / count;
    let errors: Vec<f64> = results.iter().filter_map(|result| result.error).collect();
    let mut said = format!("Right: {right} of {}. Mean time {seconds:.0} s.", results.len());
    if !errors.is_empty() {
        let (unit, decimals) = (kind.error_unit().sign(), kind.error_unit().decimals());
        let mean = errors.iter().sum::<f64>() / errors.len() as f64;
        let size = errors.iter().map(|error| error.abs()).sum::<f64>() / errors.len() as f64;
        said.push_str(&format!(
            " Mean error {size:.decimals$} {unit}; on the whole {mean:+.decimals$} {unit}."
        ));
    }
    said
}

/// Whether it is good enough.
fn verdict(kind: DrillKind, standing: Standing) -> String {
    let standard = kind.standard();
    let Standing { counting, of_last, good_enough, .. } = standing;
    let so_far = format!("{counting} of the last {of_last} were right and in time");
    if standing.attempts == 0 {
        format!(
            "Whether it is good enough cannot be said yet: {} answers are needed.",
            standard.of_last
        )
    } else if good_enough {
        format!("That is good enough: {so_far}.")
    } else if of_last < standard.of_last {
        format!("That cannot be said yet: {so_far}, and {} answers are needed.", standard.of_last)
    } else {
        format!("That is not good enough yet: {so_far}, and {} are needed.", standard.needed)
    }
}
