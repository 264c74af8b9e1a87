//! Numbers as people say them, with the units that are natural where they stand.

use sim_core::field_book::number_as_written;

use super::catch::Value;
use super::sentence::Sentence;

/// Numbers that are said in words.
const WORDS: [(&str, f64); 17] = [
    ("zero", 0.0),
    ("one", 1.0),
    ("two", 2.0),
    ("three", 3.0),
    ("four", 4.0),
    ("five", 5.0),
    ("six", 6.0),
    ("seven", 7.0),
    ("eight", 8.0),
    ("nine", 9.0),
    ("ten", 10.0),
    ("eleven", 11.0),
    ("twelve", 12.0),
    ("twenty", 20.0),
    ("half", 0.5),
    ("quarter", 0.25),
    ("tenth", 0.1),
];

/// A unit and how many of the slot's own unit it is.
type Units = &'static [(&'static str, f64)];

const SECONDS: Units = &[
    ("s", 1.0),
    ("sec", 1.0),
    ("secs", 1.0),
    ("second", 1.0),
    ("seconds", 1.0),
    ("min", 60.0),
    ("mins", 60.0),
    ("minute", 60.0),
    ("minutes", 60.0),
    ("h", 3600.0),
    ("hr", 3600.0),
    ("hour", 3600.0),
    ("hours", 3600.0),
];
const MINUTES: Units = &[
    ("min", 1.0),
    ("mins", 1.0),
    ("minute", 1.0),
    ("minutes", 1.0),
    ("h", 60.0),
    ("hour", 60.0),
    ("hours", 60.0),
];
const HOURS: Units = &[("h", 1.0), ("hour", 1.0), ("hours", 1.0), ("o'clock", 1.0)];
const QUARTERS: Units = &[
    ("quarter turns", 1.0),
    ("quarter turn", 1.0),
    ("quarters", 1.0),
    ("turns", 4.0),
    ("turn", 4.0),
];
const TURNS: Units =
    &[("turns", 1.0), ("turn", 1.0), ("quarter turns", 0.25), ("quarter turn", 0.25)];
const INCHES: Units = &[("in", 1.0), ("inch", 1.0), ("inches", 1.0), ("\"", 1.0), ("″", 1.0)];
const DEGREES: Units = &[("deg", 1.0), ("degree", 1.0), ("degrees", 1.0), ("°", 1.0)];
const MILLIMETRES: Units =
    &[("mm", 1.0), ("millimetre", 1.0), ("millimetres", 1.0), ("millimeters", 1.0), ("cm", 10.0)];
const DIVISIONS: Units = &[("division", 1.0), ("divisions", 1.0)];
const TIMES: Units = &[("times", 1.0), ("time", 1.0)];
/// Units that may follow a reading of the point sheet; they are printed there.
const READING: Units = &[("in", 1.0), ("inch", 1.0), ("inches", 1.0), ("divisions", 1.0)];
/// Percent are divided, not multiplied: 7 % is then the same number as 0.07.
const PERCENT: [&str; 2] = ["%", "percent"];

/// A quantity at a place, in the unit of its slot.
pub(super) fn measured(slot: &str, sentence: &Sentence, at: usize) -> Vec<(usize, Value)> {
    let found = match slot {
        "number" => numbers(sentence, at),
        "ordinal" => ordinal(sentence, at),
        "time" => time(sentence, at),
        "clock" => clock(sentence, at),
        "chart-minutes" => with_unit(MINUTES, sentence, at),
        "quarters" => in_unit(QUARTERS, sentence, at),
        "turns" => with_unit(TURNS, sentence, at),
        "inches" => with_unit(INCHES, sentence, at),
        "degrees" => with_unit(DEGREES, sentence, at),
        "millimetres" => with_unit(MILLIMETRES, sentence, at),
        "divisions" => with_unit(DIVISIONS, sentence, at),
        "times" => times(sentence, at),
        "opening" => opening(sentence, at),
        _ => Vec::new(),
    };
    found.into_iter().map(|(count, number)| (count, Value::Number(number))).collect()
}

/// A number as it was written, for the field book, without the unit that is printed there.
pub(super) fn reading(sentence: &Sentence, at: usize) -> Vec<(usize, Value)> {
    let mut found = Vec::new();
    for (count, _) in written(sentence, at) {
        let text = sentence.between(at, at + count).trim_end_matches([',', ';', ':', '.']);
        let text = Value::Text(text.to_owned());
        for &(unit, _) in READING {
            if let Some(more) = sentence.phrase_at(at + count, unit) {
                found.push((count + more, text.clone()));
            }
        }
        found.push((count, text));
    }
    found
}

/// Numbers in digits, longest first: `56 1/2` before `56`.
fn written(sentence: &Sentence, at: usize) -> Vec<(usize, f64)> {
    let Some(first) = sentence.word(at) else { return Vec::new() };
    let mut found = Vec::new();
    if let Some(second) = sentence.word(at + 1).filter(|word| word.contains(['/', '½', '¼', '¾']))
        && let Ok(number) = number_as_written(&format!("{first} {second}"))
    {
        found.push((2, number));
    }
    if let Ok(number) = number_as_written(first) {
        found.push((1, number));
    }
    found
}

/// Numbers in digits or words.
fn numbers(sentence: &Sentence, at: usize) -> Vec<(usize, f64)> {
    let mut found = written(sentence, at);
    let said = |&&(word, _): &&(&str, f64)| sentence.word(at) == Some(word);
    found.extend(WORDS.iter().find(said).map(|&(_, number)| (1, number)));
    found
}

/// Numbers with one of the units behind them.
fn in_unit(units: Units, sentence: &Sentence, at: usize) -> Vec<(usize, f64)> {
    let mut found = Vec::new();
    for (count, number) in numbers(sentence, at) {
        for &(unit, factor) in units {
            let product = number * factor;
            if let Some(more) = sentence.phrase_at(at + count, unit)
                && product.is_finite()
            {
                found.push((count + more, product));
            }
        }
    }
    found
}

/// Numbers with or without a unit.
fn with_unit(units: Units, sentence: &Sentence, at: usize) -> Vec<(usize, f64)> {
    let mut found = in_unit(units, sentence, at);
    found.extend(numbers(sentence, at));
    found
}

/// Times, seconds: `5 min`, `1 h 30 min`, `a minute and a half`. A bare number is none.
fn time(sentence: &Sentence, at: usize) -> Vec<(usize, f64)> {
    let mut found = in_unit(SECONDS, sentence, at);
    found.extend(and_a_half(sentence, at));
    let longer: Vec<_> = found
        .iter()
        .flat_map(|&(count, first)| {
            in_unit(SECONDS, sentence, at + count)
                .into_iter()
                .map(move |(more, second)| (count + more, first + second))
        })
        .collect();
    found.extend(longer);
    found
}

/// A minute or an hour without a number, and halves: `a minute`, `an hour and a half`, `two and a
/// half minutes`.
fn and_a_half(sentence: &Sentence, at: usize) -> Vec<(usize, f64)> {
    let unit = |at: usize| match sentence.word(at) {
        Some("minute" | "minutes") => Some(60.0),
        Some("hour" | "hours") => Some(3600.0),
        _ => None,
    };
    let half = |at: usize| sentence.phrase_at(at, "and half");
    let mut found = Vec::new();
    if let Some(seconds) = unit(at) {
        found.push((1, seconds));
        found.extend(half(at + 1).map(|more| (1 + more, 1.5 * seconds)));
    }
    for (count, number) in numbers(sentence, at) {
        let behind = half(at + count).map(|more| count + more);
        let seconds = behind.and_then(|count| unit(at + count));
        if let (Some(count), Some(seconds)) = (behind, seconds) {
            found.push((count + 1, (number + 0.5) * seconds));
        }
    }
    found
}

/// Hours of a day: `8:15`, `08:15`, `8.25 h`, `6 am`, `midnight`, `noon`.
fn clock(sentence: &Sentence, at: usize) -> Vec<(usize, f64)> {
    let hands = sentence.word(at).and_then(|word| {
        let (hours, minutes) = word.split_once(':')?;
        let (hours, minutes): (u32, u32) = (hours.parse().ok()?, minutes.parse().ok()?);
        (minutes < 60 && hours <= 24).then(|| f64::from(hours) + f64::from(minutes) / 60.0)
    });
    match (sentence.word(at), hands) {
        (Some("midnight"), _) => vec![(1, 0.0)],
        (Some("noon"), _) => vec![(1, 12.0)],
        (_, Some(hours)) => vec![(1, hours)],
        _ => {
            let mut found = half_day(sentence, at);
            found.extend(with_unit(HOURS, sentence, at));
            found
        }
    }
}

/// Hours of half a day: `6 am`, `2 pm`.
fn half_day(sentence: &Sentence, at: usize) -> Vec<(usize, f64)> {
    let mut found = Vec::new();
    for (count, number) in numbers(sentence, at) {
        let later = match sentence.word(at + count) {
            Some("am" | "a.m") => 0.0,
            Some("pm" | "p.m") => 12.0,
            _ => continue,
        };
        if (1.0..=12.0).contains(&number) {
            found.push((count + 1, number % 12.0 + later));
        }
    }
    found
}

/// How often: `once`, `twice`, `three times`, `3`.
fn times(sentence: &Sentence, at: usize) -> Vec<(usize, f64)> {
    match sentence.word(at) {
        Some("once") => vec![(1, 1.0)],
        Some("twice") => vec![(1, 2.0)],
        Some("thrice") => vec![(1, 3.0)],
        _ => with_unit(TIMES, sentence, at),
    }
}

/// Places in a row: `first`, `fourth`.
fn ordinal(sentence: &Sentence, at: usize) -> Vec<(usize, f64)> {
    const ORDINALS: [(&str, f64); 4] =
        [("first", 1.0), ("second", 2.0), ("third", 3.0), ("fourth", 4.0)];
    let said = |&&(word, _): &&(&str, f64)| sentence.word(at) == Some(word);
    ORDINALS.iter().find(said).map(|&(_, number)| (1, number)).into_iter().collect()
}

/// Openings of the knob: `0.4`, `40 %`, `half`, `three quarters`.
fn opening(sentence: &Sentence, at: usize) -> Vec<(usize, f64)> {
    let mut found = Vec::new();
    if let Some(count) = sentence.phrase_at(at, "three quarters") {
        found.push((count, 0.75));
    }
    for (count, number) in numbers(sentence, at) {
        match sentence.word(at + count) {
            Some("per") if sentence.word(at + count + 1) == Some("cent") => {
                found.push((count + 2, number / 100.0));
            }
            Some(word) if PERCENT.contains(&word) => found.push((count + 1, number / 100.0)),
            _ => found.push((count, number)),
        }
    }
    found
}
