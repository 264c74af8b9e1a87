//! How long a lesson plan takes: an estimate from the careful operator's times.
//!
//! | step | minutes |
//! |---|---|
//! | drill | [`SERIES`] series of as many questions as its standard looks at, each in half the time that the standard allows |
//! | lesson, job, sitting | the careful operator's time at the bench, hours away left out, times [`LEARNER_FACTOR`], and [`AROUND_MIN`] for briefing and debrief |
//! | drawn rig | the same as of a job with [`DRAWN_MIN`] |
//!
//! All factors are CHOSEN: no group of people was timed.

use crate::drill::DrillKind;
use crate::operator;
use crate::plan::{LessonPlan, StepKind};
use crate::session::action::Action;
use crate::session::ended_session::EndedSession;
use crate::time::TICKS_PER_SECOND;

/// By how much longer people take who are learning (CHOSEN).
pub const LEARNER_FACTOR: f64 = 1.5;
/// Minutes for the briefing before a session and the debrief after it (CHOSEN).
pub const AROUND_MIN: f64 = 5.0;
/// Series of a drill until it is good enough (CHOSEN).
pub const SERIES: f64 = 2.0;
/// Minutes of the careful operator on a drawn rig (CHOSEN: what a calibration with seven points takes).
pub const DRAWN_MIN: f64 = 32.0;
/// The seed of the session that is timed.
const SEED: u64 = 1;

/// Where the estimate comes from, as a page gives it.
pub fn source() -> String {
    format!(
        "Times are estimated: {LEARNER_FACTOR} times what the careful operator takes at the bench, and \
         {AROUND_MIN:.0} min for briefing and debrief; {SERIES:.0} series for a drill (factors chosen for this bench)."
    )
}

/// Estimated minutes of each step; none where the scenario is not at hand, or cannot be worked.
pub fn step_minutes<'a>(
    plan: &LessonPlan,
    text_of: &dyn Fn(&str) -> Option<&'a str>,
) -> Vec<Option<f64>> {
    plan.steps
        .iter()
        .map(|step| {
            let once = match &step.step {
                StepKind::Drill(kind) => return Some(drill_minutes(*kind)),
                StepKind::Drawn(_) => DRAWN_MIN,
                StepKind::Lesson(file) | StepKind::Job(file) | StepKind::Sitting(file) => {
                    careful_minutes(text_of(file)?)?
                }
            };
            let times = f64::from(step.until.times.max(1));
            Some(times * (LEARNER_FACTOR * once + AROUND_MIN))
        })
        .collect()
}

/// Estimated minutes of a drill until it is good enough.
fn drill_minutes(kind: DrillKind) -> f64 {
    let standard = kind.standard();
    SERIES * f64::from(standard.of_last) * 0.5 * standard.within_s / 60.0
}

/// Minutes that the careful operator is at the bench with a scenario.
fn careful_minutes(text: &str) -> Option<f64> {
    let mut session = operator::begin_unrecorded(text, SEED).ok()?;
    let mut hands = operator::in_session("careful", &session).ok()?;
    operator::rehearse(&mut session, hands.as_mut()).ok()?;
    let ended = session.open().ok()?;
    Some(attended_ticks(&ended) as f64 / (60.0 * TICKS_PER_SECOND as f64))
}

/// Ticks for which somebody was at the site.
fn attended_ticks(ended: &EndedSession) -> u64 {
    let began = ended.lesson.map_or(0, |lesson| lesson.tick.0);
    // What went before a lesson took nobody's time.
    let events = || ended.events.iter().filter(|event| event.tick.0 >= began);
    let pairs = events().zip(events().skip(1));
    let away = pairs.filter(|(event, _)| event.action == Action::LeaveSite);
    let away: u64 = away.map(|(event, next)| next.tick.0.saturating_sub(event.tick.0)).sum();
    ended.end_tick.0.saturating_sub(began).saturating_sub(away)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{FilesAtHand, check};

    const PLAN: &str = r#"(format: 1, title: "Times", for_whom: "Anybody.", steps: [
        (step: Drill("leg")), (step: Job("first.ron")), (step: Job("run.ron"), until: (times: 2)),
        (step: Job("away.ron")), (step: Drawn(1)),
    ])"#;

    #[test]
    fn hours_away_take_nobodys_time_and_repetitions_count() {
        let plan = check(PLAN, FilesAtHand::Unknown).expect("a sound plan");
        let text_of = |file: &str| match file {
            "first.ron" => Some(include_str!("../../../scenarios/01_first_calibration.ron")),
            "run.ron" => Some(include_str!("../../../scenarios/27_from_set_point_to_volume.ron")),
            _ => None,
        };
        let minutes = step_minutes(&plan, &text_of);
        let [leg, first, run, missing, drawn] = minutes.as_slice() else { panic!("{minutes:?}") };
        assert_eq!((*missing, *drawn), (None, Some(53.0)));
        let leg = leg.expect("a drill takes time");
        assert!((leg - 20.0 * 10.0 / 60.0).abs() < 1e-9, "{leg}");
        let (first, run) = (first.expect("a time"), run.expect("a time"));
        assert!((45.0..65.0).contains(&first), "{first}");
        assert!((2.0 * first..8.0 * first).contains(&run), "two nights are not counted: {run}");
    }
}
