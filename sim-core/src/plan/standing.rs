//! Where a person stands in a plan: what is done, what is due again, and the next step.

use serde::Serialize;

use super::practice::{Practice, Practised};
use super::spacing::{DAY_S, Kept, LeitnerBox};
use super::written::{LessonPlan, PlanStep, StepKind};

/// Where a person stands in a plan at a moment.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlanStanding {
    /// Each step, in the order of the plan.
    pub steps: Vec<StepStanding>,
    /// The next step; none when everything is done and nothing is due.
    pub next: Option<NextStep>,
}

/// Where a person stands with one step.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StepStanding {
    /// What is to be done.
    pub state: StepState,
    /// How often it was done as the plan asks.
    pub counted: u8,
    /// How often that has to be.
    pub times: u8,
    /// How often it was done at all.
    pub tries: usize,
    /// When it was done last, seconds since 1970-01-01 00:00 UTC, where a journal says so.
    pub last_unix_s: Option<u64>,
    /// When it is due again, if it ever is.
    pub again: Option<DueAgain>,
}

/// When a step is due again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct DueAgain {
    /// Its box, from 1.
    pub box_number: u8,
    /// From when on it is due, seconds since 1970-01-01 00:00 UTC.
    pub due_unix_s: u64,
}

/// What is to be done with a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum StepState {
    /// It is not done as the plan asks yet.
    Open,
    /// It is done.
    Done,
    /// It was done, and is due again.
    Due,
}

/// The next step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct NextStep {
    /// Its place in the plan, from 0.
    pub index: usize,
    /// Why it is the next one: it is open, or due again.
    pub state: StepState,
}

impl PlanStanding {
    /// Where a person stands who did this, at this moment (seconds since 1970-01-01 00:00 UTC).
    /// `sha256_of` knows the scenarios at hand by the names of their files.
    ///
    /// What is due again comes before what is new, the longest overdue first; otherwise the next step is
    /// the first that is open.
    pub fn at<'a>(
        plan: &LessonPlan,
        practice: &[Practice],
        sha256_of: &dyn Fn(&str) -> Option<&'a str>,
        now_unix_s: u64,
    ) -> Self {
        let steps: Vec<StepStanding> = plan
            .steps
            .iter()
            .map(|step| {
                let own = practised(&step.step, sha256_of);
                let mut done: Vec<&Practice> =
                    practice.iter().filter(|one| own.as_ref() == Some(&one.what)).collect();
                // What has no time of the clock comes first, as it is listed.
                done.sort_by_key(|one| one.unix_s);
                StepStanding::of(step, &done, now_unix_s)
            })
            .collect();
        let next = next(&steps);
        Self { steps, next }
    }

    /// How many steps are done, due ones among them.
    pub fn done(&self) -> usize {
        self.steps.iter().filter(|step| step.state != StepState::Open).count()
    }
}

impl StepStanding {
    fn of(step: &PlanStep, done: &[&Practice], now_unix_s: u64) -> Self {
        let times = step.until.times.max(1);
        let mut counted: u8 = 0;
        let mut waiting: Option<(LeitnerBox, Option<u64>)> = None;
        for one in done {
            let is_good = counts(step, one);
            match &mut waiting {
                None => {
                    counted = counted.saturating_add(u8::from(is_good)).min(times);
                    if counted == times {
                        waiting = Some((LeitnerBox::FIRST, one.unix_s));
                    }
                }
                Some((leitner, put)) => {
                    let kept = if is_good { Kept::Yes } else { Kept::No };
                    // What is done before its day is practice, but no proof that it was kept so long.
                    let early = one.unix_s.zip(*put).is_some_and(|(at, put)| at < leitner.due(put));
                    if !(early && kept == Kept::Yes) {
                        (*leitner, *put) = (leitner.after(kept), one.unix_s);
                    }
                }
            }
        }
        let again = waiting.filter(|_| step.is_due_again()).and_then(|(leitner, put)| {
            Some(DueAgain { box_number: leitner.number(), due_unix_s: leitner.due(put?) })
        });
        let state = match (counted == times, again) {
            (false, _) => StepState::Open,
            (true, Some(again)) if again.due_unix_s <= now_unix_s => StepState::Due,
            (true, _) => StepState::Done,
        };
        let last_unix_s = done.iter().filter_map(|one| one.unix_s).max();
        Self { state, counted, times, tries: done.len(), last_unix_s, again }
    }

    /// Whole days for which it has been due at this moment.
    pub fn days_overdue(&self, now_unix_s: u64) -> Option<u64> {
        let again = self.again.filter(|_| self.state == StepState::Due)?;
        Some(now_unix_s.saturating_sub(again.due_unix_s) / DAY_S)
    }
}

/// The next step.
fn next(steps: &[StepStanding]) -> Option<NextStep> {
    let numbered = || steps.iter().enumerate();
    let due = numbered().filter(|(_, step)| step.state == StepState::Due);
    let due = due.min_by_key(|(_, step)| step.again.map(|again| again.due_unix_s));
    let open = || numbered().find(|(_, step)| step.state == StepState::Open);
    let (index, step) = due.or_else(open)?;
    Some(NextStep { index, state: step.state })
}

/// Whether a practice is as good as a step asks.
fn counts(step: &PlanStep, one: &Practice) -> bool {
    let enough = step.until.marks.is_none_or(|least| one.marks.is_some_and(|got| got >= least));
    one.passed && enough && (one.unaided || !step.until.unaided)
}

/// What a step has practised; none where its file is not at hand.
fn practised<'a>(
    kind: &StepKind,
    sha256_of: &dyn Fn(&str) -> Option<&'a str>,
) -> Option<Practised> {
    Some(match kind {
        StepKind::Drill(kind) => Practised::Drill(*kind),
        StepKind::Drawn(level) => Practised::Drawn { level: *level },
        StepKind::Lesson(file) | StepKind::Job(file) | StepKind::Sitting(file) => {
            Practised::Scenario { sha256: sha256_of(file)?.to_owned() }
        }
    })
}
