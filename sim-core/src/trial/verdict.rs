//! What a trial says about a scenario.

use serde::Serialize;

use super::tally::Tally;

/// The operator who must pass.
pub const CAREFUL: &str = "careful";
/// Least share of seeds that the careful one passes, percent.
pub const CAREFUL_PCT: u64 = 99;
/// Largest share of seeds that a habit passes which the scenario is about, percent.
pub const HABIT_PCT: u64 = 5;
/// Least share of sessions in which the careful one notices a fault in force, percent.
pub const NOTICED_PCT: u64 = 90;

/// What a trial says about a scenario.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// The careful one passes, the habits do not, and every fault is noticed.
    Proven,
    /// The careful one fails too often.
    TooHard,
    /// A habit that it is about passes too often.
    TooEasy,
    /// The careful one overlooks a fault too often.
    CannotBeNoticed,
    /// Not everybody sat it whose sessions the proof needs.
    Open,
}

impl Verdict {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Proven => "proven",
            Self::TooHard => "too hard",
            Self::TooEasy => "too easy",
            Self::CannotBeNoticed => "cannot be noticed",
            Self::Open => "open",
        }
    }
}

/// A verdict with its reasons.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Judged {
    /// What it is.
    pub verdict: Verdict,
    /// Everything that speaks against the scenario; nothing when it is proven.
    pub reasons: Vec<String>,
}

/// Judges a scenario: `about` are the habits it is about, `faults` the names of its faults in their
/// order, `tallies` the operators that sat it.
///
/// All that speaks against it is told. Where several things do, the verdict names the first of:
/// a fault that cannot be noticed, the careful one failing, a habit passing, somebody missing.
pub fn judge(about: &[String], faults: &[&str], tallies: &[(&str, &Tally)]) -> Judged {
    let mut against: Vec<(Verdict, String)> = Vec::new();
    let of = |name: &str| tallies.iter().find(|(known, _)| *known == name).map(|(_, t)| *t);
    let sat = |name: &str| of(name).filter(|tally| tally.sessions > 0);
    match sat(CAREFUL) {
        Some(tally) => {
            against.extend(overlooked(faults, tally));
            against.extend(failed(tally));
        }
        None => against.push((Verdict::Open, format!("`{CAREFUL}` did not sit it"))),
    }
    for habit in about {
        match sat(habit) {
            Some(tally) => against.extend(got_through(habit, tally)),
            None => against.push((Verdict::Open, format!("`{habit}` did not sit it"))),
        }
    }
    let order = [Verdict::CannotBeNoticed, Verdict::TooHard, Verdict::TooEasy, Verdict::Open];
    let verdict = order
        .into_iter()
        .find(|verdict| against.iter().any(|(known, _)| known == verdict))
        .unwrap_or(Verdict::Proven);
    Judged { verdict, reasons: against.into_iter().map(|(_, reason)| reason).collect() }
}

/// Faults that the careful one overlooks.
fn overlooked(faults: &[&str], tally: &Tally) -> Vec<(Verdict, String)> {
    let mut against = Vec::new();
    for (name, fault) in faults.iter().zip(&tally.faults) {
        let (noticed, in_force) = (fault.noticed(), fault.in_force);
        let reason = if in_force == 0 {
            format!("{name} never came about while `{CAREFUL}` was at work")
        } else if noticed.saturating_mul(100) < in_force.saturating_mul(NOTICED_PCT) {
            format!(
                "`{CAREFUL}` noticed {name} in {noticed} of {in_force} sessions, below {NOTICED_PCT} %"
            )
        } else {
            continue;
        };
        against.push((Verdict::CannotBeNoticed, reason));
    }
    against
}

/// Whether the careful one fails too often.
fn failed(tally: &Tally) -> Option<(Verdict, String)> {
    let short = tally.passed.saturating_mul(100) < tally.sessions.saturating_mul(CAREFUL_PCT);
    short.then(|| {
        let text = format!(
            "`{CAREFUL}` passed {} of {} sessions, below {CAREFUL_PCT} %{}{}",
            tally.passed,
            tally.sessions,
            decided_by(tally),
            examples(&tally.failed_seeds)
        );
        (Verdict::TooHard, text)
    })
}

/// Whether a habit passes too often.
fn got_through(habit: &str, tally: &Tally) -> Option<(Verdict, String)> {
    let often = tally.passed.saturating_mul(100) > tally.sessions.saturating_mul(HABIT_PCT);
    often.then(|| {
        let text = format!(
            "`{habit}` passed {} of {} sessions, above {HABIT_PCT} %{}",
            tally.passed,
            tally.sessions,
            examples(&tally.passed_seeds)
        );
        (Verdict::TooEasy, text)
    })
}

/// What decided most often; of equals the first in the alphabet.
fn decided_by(tally: &Tally) -> String {
    let most = tally.decided.iter().rev().max_by_key(|&(_, count)| *count);
    most.map_or_else(String::new, |(by, count)| format!(", {count} of them lost by {by}"))
}

fn examples(seeds: &[u64]) -> String {
    let seeds: Vec<String> = seeds.iter().map(u64::to_string).collect();
    if seeds.is_empty() { String::new() } else { format!(" (seeds {})", seeds.join(", ")) }
}
