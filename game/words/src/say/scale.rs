//! Positions on scales in words, to half a division: what a sharp eye makes of them.

/// Rounds to a whole number of steps; no number counts as zero steps.
pub(super) fn steps(value: f64, step: f64) -> i64 {
    (value / step).round() as i64
}

/// A position on a scale with whole divisions, to half of one: `47` or `47 and a half`.
pub(super) fn whole(value: f64) -> String {
    let halves = steps(value, 0.5);
    let sign = if halves < 0 { "minus " } else { "" };
    let halves = halves.unsigned_abs();
    match (halves / 2, halves % 2) {
        (0, 1) => format!("{sign}a half"),
        (number, 0) => format!("{sign}{number}"),
        (number, _) => format!("{sign}{number} and a half"),
    }
}

/// A distance on a scale with tenths of an inch, to half a tenth, without its sign: `3.1`, `3.15`.
pub(super) fn tenths(value: f64) -> String {
    let halves = steps(value, 0.05).unsigned_abs();
    let (whole, tenth) = (halves / 20, halves / 2 % 10);
    let half = if halves.is_multiple_of(2) { "" } else { "5" };
    format!("{whole}.{tenth}{half}")
}

/// A position on a scale of inches with its zero in the middle.
pub(super) fn inches_from_zero(value: f64) -> String {
    match steps(value, 0.05) {
        0 => "at zero".to_owned(),
        halves if halves > 0 => format!("at {} above zero", tenths(value)),
        _ => format!("at {} below zero", tenths(value)),
    }
}

/// A rough length in inches, as the corner of the eye has it: to half an inch.
pub(super) fn rough_inches(value: f64) -> String {
    match steps(value, 0.5).unsigned_abs() {
        0 => "a little".to_owned(),
        1 => "about half an inch".to_owned(),
        2 => "about one inch".to_owned(),
        halves if halves % 2 == 0 => format!("about {} inches", halves / 2),
        halves => format!("about {} and a half inches", halves / 2),
    }
}

/// How far something is open, to a twentieth of its travel: `40 % open`, `45 % open`.
pub(super) fn twentieth(value: f64) -> String {
    match steps(value, 0.05) {
        20 => "fully open".to_owned(),
        0 => "fully closed".to_owned(),
        twentieths => {
            format!("{} % open", twentieths.clamp(0, 20) * 5)
        }
    }
}

/// A number of quarter turns.
pub(super) fn quarters(count: u8) -> String {
    match (count / 4, count % 4) {
        (0, 1) => "a quarter turn".to_owned(),
        (0, 2) => "half a turn".to_owned(),
        (0, 3) => "three quarters of a turn".to_owned(),
        (1, 0) => "one turn".to_owned(),
        (turns, 0) => format!("{turns} turns"),
        (turns, 1) => format!("{turns} and a quarter turns"),
        (turns, 2) => format!("{turns} and a half turns"),
        (turns, _) => format!("{turns} and three quarter turns"),
    }
}
