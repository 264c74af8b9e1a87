//! What a trial says about a scenario.

use serde::Serialize;

use super::tally::Tally;

/// The operator who must pass.
pub const CAREFUL: &str = "careful";
/// The careful operator must pass at least this percentage of seeds.
pub const CAREFUL_PCT: u64 = 99;
/// A habit that the scenario is about may pass at most this percentage of seeds.
pub const HABIT_PCT: u64 = 5;
/// The careful operator must notice each fault in at least this percentage of the sessions in which it
/// is in force.
pub const NOTICED_PCT: u64 = 90;

/// What a trial says about a scenario.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum TrialVerdict {
    /// The careful operator passes, the habits do not, and every fault is noticed.
    Proven,
    /// The careful operator fails too often.
    TooHard,
    /// A habit that the scenario is about passes too often.
    TooEasy,
    /// The careful operator overlooks a fault too often.
    CannotBeNoticed,
    /// An operator that the proof needs did not take part.
    Open,
}

impl TrialVerdict {
    /// The verdict in words.
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
pub struct TrialJudgement {
    /// The verdict.
    pub verdict: TrialVerdict,
    /// Everything that speaks against the scenario, in words; empty if it is proven.
    pub reasons: Vec<String>,
    /// The same, with what it takes to tell more of it.
    #[serde(skip)]
    pub objections: Vec<Objection>,
}

/// Something that speaks against a scenario.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Objection {
    /// What it makes of the scenario.
    pub verdict: TrialVerdict,
    /// The operator that it is about.
    pub operator: String,
    /// What the operator did.
    pub subject: Subject,
    /// The lowest seed that shows it, if one is known.
    pub seed: Option<u64>,
    /// The objection in words, with its counts.
    pub text: String,
}

/// What an operator did that speaks against a scenario.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Subject {
    /// It should pass, and failed.
    Failed,
    /// It should fail, and passed.
    Passed,
    /// It did not notice the fault with this number.
    Overlooked(usize),
    /// The fault with this number did not come about.
    NeverInForce(usize),
    /// It did not take part.
    Absent,
}

/// Judges a scenario: `about` are the habits that it is about, `faults` the names of its faults in
/// their order, `tallies` the operators that took part.
///
/// Everything that speaks against it is reported. If there are several reasons, the verdict names the
/// first of these: a fault that cannot be noticed, the careful operator failing, a habit passing, an
/// operator missing.
pub fn judge(about: &[String], faults: &[&str], tallies: &[(&str, &Tally)]) -> TrialJudgement {
    let mut against: Vec<Objection> = Vec::new();
    let of = |name: &str| tallies.iter().find(|(known, _)| *known == name).map(|(_, t)| *t);
    let sat = |name: &str| of(name).filter(|tally| tally.sessions > 0);
    match sat(CAREFUL) {
        Some(tally) => {
            against.extend(overlooked(faults, tally));
            against.extend(failed(tally));
        }
        None => against.push(absent(CAREFUL)),
    }
    for habit in about {
        match sat(habit) {
            Some(tally) => against.extend(got_through(habit, tally)),
            None => against.push(absent(habit)),
        }
    }
    let order = [
        TrialVerdict::CannotBeNoticed,
        TrialVerdict::TooHard,
        TrialVerdict::TooEasy,
        TrialVerdict::Open,
    ];
    let verdict = order
        .into_iter()
        .find(|verdict| against.iter().any(|known| known.verdict == *verdict))
        .unwrap_or(TrialVerdict::Proven);
    let reasons = against.iter().map(|objection| objection.text.clone()).collect();
    TrialJudgement { verdict, reasons, objections: against }
}

fn absent(operator: &str) -> Objection {
    Objection {
        verdict: TrialVerdict::Open,
        operator: operator.to_owned(),
        subject: Subject::Absent,
        seed: None,
        text: format!("`{operator}` did not take part: add it to --operators"),
    }
}

/// Faults that the careful operator overlooks.
fn overlooked(faults: &[&str], tally: &Tally) -> Vec<Objection> {
    let mut against = Vec::new();
    for (index, (name, fault)) in faults.iter().zip(&tally.faults).enumerate() {
        let (noticed, in_force) = (fault.noticed(), fault.in_force);
        let (subject, seed, text) = if in_force == 0 {
            let text = format!("{name} never occurred while `{CAREFUL}` was working");
            (Subject::NeverInForce(index), any_seed(tally), text)
        } else if noticed.saturating_mul(100) < in_force.saturating_mul(NOTICED_PCT) {
            let text = format!(
                "`{CAREFUL}` noticed {name} in {noticed} of {}, below {NOTICED_PCT} %",
                sessions(in_force)
            );
            (Subject::Overlooked(index), fault.overlooked_seed, text)
        } else {
            continue;
        };
        let operator = CAREFUL.to_owned();
        let verdict = TrialVerdict::CannotBeNoticed;
        against.push(Objection { verdict, operator, subject, seed, text });
    }
    against
}

/// The lowest seed of a tally.
fn any_seed(tally: &Tally) -> Option<u64> {
    tally.passed_seeds.first().into_iter().chain(tally.failed_seeds.first()).min().copied()
}

/// Whether the careful operator fails too often.
fn failed(tally: &Tally) -> Option<Objection> {
    let short = tally.passed.saturating_mul(100) < tally.sessions.saturating_mul(CAREFUL_PCT);
    short.then(|| Objection {
        verdict: TrialVerdict::TooHard,
        operator: CAREFUL.to_owned(),
        subject: Subject::Failed,
        seed: tally.failed_seeds.first().copied(),
        text: format!(
            "`{CAREFUL}` passed {} of {}, below {CAREFUL_PCT} %{}{}",
            tally.passed,
            sessions(tally.sessions),
            decided_by(tally),
            examples(&tally.failed_seeds)
        ),
    })
}

/// Whether a habit passes too often.
fn got_through(habit: &str, tally: &Tally) -> Option<Objection> {
    let often = tally.passed.saturating_mul(100) > tally.sessions.saturating_mul(HABIT_PCT);
    often.then(|| Objection {
        verdict: TrialVerdict::TooEasy,
        operator: habit.to_owned(),
        subject: Subject::Passed,
        seed: tally.passed_seeds.first().copied(),
        text: format!(
            "`{habit}` passed {} of {}, above {HABIT_PCT} %{}",
            tally.passed,
            sessions(tally.sessions),
            examples(&tally.passed_seeds)
        ),
    })
}

fn sessions(count: u64) -> String {
    if count == 1 { "1 session".to_owned() } else { format!("{count} sessions") }
}

/// What decided most often; of equals, the first in the alphabet.
fn decided_by(tally: &Tally) -> String {
    let most = tally.decided.iter().rev().max_by_key(|&(_, count)| *count);
    most.map_or_else(String::new, |(by, count)| format!("; {count} failed on {by}"))
}

fn examples(seeds: &[u64]) -> String {
    let seeds: Vec<String> = seeds.iter().map(u64::to_string).collect();
    if seeds.is_empty() { String::new() } else { format!(" (seeds {})", seeds.join(", ")) }
}

#[cfg(test)]
mod tests {
    use super::{TrialVerdict, judge};
    use crate::trial::tally::{NoticeCount, Tally};

    /// So many of a thousand sessions passed, and the one fault was noticed in so many.
    fn tally(passed: u64, found: u64) -> Tally {
        let fault = NoticeCount { in_force: 1000, found, ..NoticeCount::default() };
        let failed_seeds = if passed < 1000 { vec![17] } else { Vec::new() };
        Tally { sessions: 1000, passed, faults: vec![fault], failed_seeds, ..Tally::default() }
    }

    fn verdict(careful: (u64, u64), habit: u64) -> TrialVerdict {
        let (careful, habit) = (tally(careful.0, careful.1), tally(habit, 0));
        let about = ["hurried".to_owned()];
        judge(&about, &["PenDry"], &[("careful", &careful), ("hurried", &habit)]).verdict
    }

    #[test]
    fn the_bounds_themselves_still_prove() {
        assert_eq!(verdict((990, 900), 50), TrialVerdict::Proven);
        assert_eq!(verdict((989, 900), 50), TrialVerdict::TooHard);
        assert_eq!(verdict((990, 900), 51), TrialVerdict::TooEasy);
        assert_eq!(verdict((990, 899), 50), TrialVerdict::CannotBeNoticed);
        assert_eq!(verdict((989, 899), 51), TrialVerdict::CannotBeNoticed);
        assert_eq!(verdict((989, 900), 51), TrialVerdict::TooHard);
    }

    #[test]
    fn everything_against_a_scenario_is_told() {
        let (careful, habit) = (tally(980, 10), tally(900, 0));
        let about = ["hurried".to_owned(), "one-leg".to_owned()];
        let sat = [("careful", &careful), ("hurried", &habit)];
        assert_eq!(
            judge(&about, &["PenDry"], &sat).reasons,
            [
                "`careful` noticed PenDry in 10 of 1000 sessions, below 90 %",
                "`careful` passed 980 of 1000 sessions, below 99 % (seeds 17)",
                "`hurried` passed 900 of 1000 sessions, above 5 %",
                "`one-leg` did not take part: add it to --operators",
            ]
        );
    }

    #[test]
    fn without_the_careful_one_or_a_habit_it_stays_open() {
        let careful = tally(1000, 1000);
        let about = ["hurried".to_owned()];
        assert_eq!(
            judge(&about, &["PenDry"], &[("careful", &careful)]).verdict,
            TrialVerdict::Open
        );
        assert_eq!(judge(&[], &["PenDry"], &[]).verdict, TrialVerdict::Open);
        assert_eq!(judge(&[], &["PenDry"], &[("careful", &careful)]).verdict, TrialVerdict::Proven);
    }

    #[test]
    fn a_fault_that_never_comes_about_cannot_be_noticed() {
        let mut careful = tally(1000, 1000);
        careful.faults = vec![NoticeCount::default()];
        let judged = judge(&[], &["PenDry"], &[("careful", &careful)]);
        assert_eq!(judged.verdict, TrialVerdict::CannotBeNoticed);
    }
}
