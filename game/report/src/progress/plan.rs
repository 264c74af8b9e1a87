//! Where a person stands in a lesson plan, as rows to be shown, and the next step as one value.

use serde::Serialize;
use sim_core::drill::{DrillKind, DrillResult};
use sim_core::plan::spacing;
use sim_core::plan::{LessonPlan, PlanStanding, StepKind, StepState};
use sim_core::trial::plan_time;

use super::utc::utc_date;

/// Where a person stands in a lesson plan.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlanProgress {
    /// The plan's file.
    pub file: String,
    /// Its title.
    pub title: String,
    /// For whom it is made.
    pub for_whom: String,
    /// Each step.
    pub steps: Vec<PlanRow>,
    /// Steps that are done, those that are due again among them.
    pub done: usize,
    /// Estimated minutes of what is still open.
    pub minutes_left: f64,
    /// Where the times come from.
    pub time_source: String,
    /// By which rule something is due again.
    pub spacing_rule: &'static str,
}

/// One step of the plan.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlanRow {
    /// Its number, from 1.
    pub number: usize,
    /// What kind of step it is, in a word.
    pub kind: &'static str,
    /// What is done.
    pub title: String,
    /// What it takes to go on.
    pub until: String,
    /// What is to be done with it.
    pub state: StepState,
    /// How often it was done as the plan asks, and how often that has to be.
    pub counted: [u8; 2],
    /// How often it was done at all.
    pub tries: usize,
    /// Its box, from 1, if it is due again some day.
    pub box_number: Option<u8>,
    /// The day on which it is due again (UTC), likewise.
    pub due: Option<String>,
    /// The same moment, seconds since 1970-01-01 00:00 UTC.
    pub due_unix_s: Option<u64>,
    /// Estimated minutes.
    pub minutes: Option<f64>,
    /// What to type to do it; none where its scenario is not at hand.
    pub command: Option<String>,
}

/// The next step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct NextAction {
    /// What to do, in words.
    pub what: String,
    /// Why it is the next one.
    pub why: String,
    /// What to type to do it.
    pub command: Option<String>,
}

/// How somebody stands with one drill.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DrillRow {
    /// Which.
    pub kind: DrillKind,
    /// Its title.
    pub title: &'static str,
    /// Attempts in all.
    pub attempts: u32,
    /// How many of the last ones count: right and in time.
    pub counting: u32,
    /// Of how many.
    pub of_last: u32,
    /// Mean time of these, s.
    pub seconds: f64,
    /// Whether the skill is good enough.
    pub good_enough: bool,
}

/// What is known of the steps of a plan besides the plan itself.
#[derive(Debug)]
pub struct StepFacts {
    /// The title of its scenario, where there is one.
    pub title: Option<String>,
    /// What to type to do it.
    pub command: Option<String>,
    /// Estimated minutes.
    pub minutes: Option<f64>,
}

impl PlanProgress {
    /// The rows of a plan. `facts` has one entry for each step.
    pub fn of(
        file: String,
        plan: &LessonPlan,
        standing: &PlanStanding,
        facts: &[StepFacts],
    ) -> Self {
        let rows = plan.steps.iter().zip(&standing.steps).zip(facts).enumerate();
        let steps: Vec<PlanRow> = rows
            .map(|(index, ((step, stands), facts))| PlanRow {
                number: index + 1,
                kind: step.step.word(),
                title: facts.title.clone().unwrap_or_else(|| own_title(&step.step)),
                until: step.until_words(),
                state: stands.state,
                counted: [stands.counted, stands.times],
                tries: stands.tries,
                box_number: stands.again.map(|again| again.box_number),
                due: stands.again.map(|again| utc_date(again.due_unix_s)),
                due_unix_s: stands.again.map(|again| again.due_unix_s),
                minutes: facts.minutes,
                command: facts.command.clone(),
            })
            .collect();
        let open = steps.iter().filter(|row| row.state == StepState::Open);
        Self {
            file,
            title: plan.title.clone(),
            for_whom: plan.for_whom.clone(),
            done: standing.done(),
            minutes_left: open.filter_map(|row| row.minutes).sum(),
            steps,
            time_source: plan_time::source(),
            spacing_rule: spacing::SOURCE,
        }
    }

    /// The next step of the plan, if there is one.
    pub fn next(&self, standing: &PlanStanding) -> Option<NextAction> {
        let next = standing.next?;
        let row = self.steps.get(next.index)?;
        let what = format!("{}: {}", capital(row.kind), row.title);
        let why = match (next.state, &row.due) {
            (StepState::Due, Some(day)) => {
                format!(
                    "It is due again since {day}: what was learnt fades unless it is practised."
                )
            }
            _ if row.tries > 0 => {
                format!("Step {} of the plan goes on until it is {}.", row.number, row.until)
            }
            _ => format!(
                "It is step {} of the plan. It is done when it is {}.",
                row.number, row.until
            ),
        };
        Some(NextAction { what, why, command: row.command.clone() })
    }
}

impl DrillRow {
    /// How somebody stands with each drill that was tried, in the order of the work.
    pub fn all(results: &[DrillResult]) -> Vec<Self> {
        let of_kind = |kind: DrillKind| {
            let mut own: Vec<&DrillResult> =
                results.iter().filter(|result| result.kind == kind).collect();
            own.sort_by_key(|result| (result.unix_s, result.number));
            let standing = kind.standard().standing(own.iter().copied());
            let last = own.iter().rev().take(standing.of_last as usize);
            let seconds = last.map(|result| result.seconds).sum::<f64>();
            (standing.attempts > 0).then(|| Self {
                kind,
                title: kind.title(),
                attempts: standing.attempts,
                counting: standing.counting,
                of_last: standing.of_last,
                seconds: seconds / f64::from(standing.of_last.max(1)),
                good_enough: standing.good_enough,
            })
        };
        DrillKind::ALL.into_iter().filter_map(of_kind).collect()
    }
}

impl PlanRow {
    /// Where somebody stands with it, in a few words.
    pub fn state_words(&self) -> String {
        match (self.state, &self.due) {
            (StepState::Open, _) if self.tries == 0 => "open".to_owned(),
            (StepState::Open, _) => {
                let [counted, times] = self.counted;
                format!("{counted} of {times} done, {} tried", self.tries)
            }
            (StepState::Due, Some(day)) => format!("due again since {day}"),
            (StepState::Done, Some(day)) => format!("done; due again on {day}"),
            (StepState::Due | StepState::Done, _) => "done".to_owned(),
        }
    }
}

/// The title of a step that has no scenario at hand.
fn own_title(kind: &StepKind) -> String {
    match kind {
        StepKind::Drill(kind) => kind.title().to_owned(),
        StepKind::Drawn(level) => format!("A rig that you have never seen, level {level}"),
        StepKind::Lesson(file) | StepKind::Job(file) | StepKind::Sitting(file) => file.clone(),
    }
}

/// The same with a capital.
fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use sim_core::plan::{FilesAtHand, Practice, Practised, check};

    use super::*;

    const DAY: u64 = spacing::DAY_S;

    fn progress(practice: &[Practice], day: u64) -> (PlanProgress, PlanStanding) {
        let text = r#"(format: 1, title: "T", for_whom: "Anybody.", steps: [
            (step: Drill("leg")), (step: Job("job.ron"))])"#;
        let plan = check(text, FilesAtHand::Unknown).unwrap();
        let standing = PlanStanding::at(&plan, practice, &|_| Some("sha"), day * DAY);
        let facts = || StepFacts {
            title: None,
            command: Some("steady-draw …".to_owned()),
            minutes: Some(10.0),
        };
        let plan = PlanProgress::of("p.ron".to_owned(), &plan, &standing, &[facts(), facts()]);
        (plan, standing)
    }

    fn leg(day: u64) -> Practice {
        let what = Practised::Drill(DrillKind::Leg);
        Practice { what, unix_s: Some(day * DAY), passed: true, marks: None, unaided: true }
    }

    #[test]
    fn the_next_step_says_what_why_and_how() {
        let (plan, standing) = progress(&[], 0);
        let next = plan.next(&standing).unwrap();
        assert_eq!(next.what, "Drill: One leg of the manometer");
        assert!(
            next.why.starts_with("It is step 1 of the plan. It is done when it is good enough")
        );
        assert_eq!(next.command.as_deref(), Some("steady-draw …"));
        assert!((plan.minutes_left - 20.0).abs() < 1e-9);
    }

    #[test]
    fn what_is_due_again_is_named_with_its_day() {
        let (plan, standing) = progress(&[leg(0)], 5);
        let next = plan.next(&standing).unwrap();
        assert!(next.why.contains("due again since 1970-01-02"), "{}", next.why);
        assert_eq!(plan.steps[0].state_words(), "due again since 1970-01-02");
        assert_eq!(plan.steps[1].state_words(), "open");
        assert_eq!(plan.done, 1);
    }
}
