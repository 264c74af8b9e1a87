//! Where people stand in a small plan.

use super::*;
use crate::drill::DrillKind;

const DAY: u64 = spacing::DAY_S;

const PLAN: &str = r#"(
    format: 1,
    title: "Two skills and a job",
    for_whom: "Whoever wants to try it.",
    steps: [
        (step: Drill("leg")),
        (step: Lesson("hang.ron"), until: (unaided: true)),
        (step: Job("job.ron"), until: (marks: 85, times: 2)),
    ],
)"#;

fn plan() -> LessonPlan {
    check(PLAN, FilesAtHand::Unknown).expect("a sound plan")
}

fn drill(day: u64, passed: bool) -> Practice {
    let what = Practised::Drill(DrillKind::Leg);
    Practice { what, unix_s: Some(day * DAY), passed, marks: None, unaided: true }
}

fn scenario(file: &str, day: u64, marks: f64, unaided: bool) -> Practice {
    let what = Practised::Scenario { sha256: format!("sha of {file}") };
    Practice { what, unix_s: Some(day * DAY), passed: marks >= 75.0, marks: Some(marks), unaided }
}

fn standing(practice: &[Practice], day: u64) -> PlanStanding {
    let known = |file: &str| match file {
        "hang.ron" => Some("sha of hang.ron"),
        "job.ron" => Some("sha of job.ron"),
        _ => None,
    };
    PlanStanding::at(&plan(), practice, &known, day * DAY)
}

fn next(practice: &[Practice], day: u64) -> Option<(usize, StepState)> {
    standing(practice, day).next.map(|next| (next.index, next.state))
}

#[test]
fn the_first_open_step_is_the_next_one() {
    assert_eq!(next(&[], 0), Some((0, StepState::Open)));
    assert_eq!(next(&[drill(0, false)], 0), Some((0, StepState::Open)), "not good enough");
    assert_eq!(next(&[drill(0, true)], 0), Some((1, StepState::Open)));
}

#[test]
fn a_step_asks_for_marks_for_no_help_and_for_how_often() {
    let mut done = vec![drill(0, true), scenario("hang.ron", 0, 90.0, false)];
    assert_eq!(next(&done, 0), Some((1, StepState::Open)), "help was asked for");
    done.push(scenario("hang.ron", 0, 90.0, true));
    assert_eq!(next(&done, 0), Some((2, StepState::Open)));
    done.push(scenario("job.ron", 0, 84.9, true));
    done.push(scenario("job.ron", 0, 85.0, false));
    let standing = standing(&done, 0);
    let job = standing.steps.last().expect("a step");
    assert_eq!((job.state, job.counted, job.times, job.tries), (StepState::Open, 1, 2, 2));
    done.push(scenario("job.ron", 0, 99.0, true));
    assert_eq!(next(&done, 0), None, "everything is done");
    // A job is not due again unless the plan says so.
    assert_eq!(next(&done, 0), None);
}

#[test]
fn what_is_due_again_comes_before_what_is_new() {
    let done = [drill(0, true)];
    assert_eq!(next(&done, 0), Some((1, StepState::Open)));
    assert_eq!(next(&done, 1), Some((0, StepState::Due)));
    let kept = [drill(0, true), drill(1, true)];
    assert_eq!(next(&kept, 3), Some((1, StepState::Open)), "the second box waits three days");
    assert_eq!(next(&kept, 4), Some((0, StepState::Due)));
    let lost = [drill(0, true), drill(1, true), drill(4, false)];
    let after = standing(&lost, 4);
    let leg = after.steps.first().and_then(|step| step.again).expect("it is due again");
    assert_eq!((leg.box_number, leg.due_unix_s), (1, 5 * DAY), "back in the first box");
}

#[test]
fn practice_before_its_day_moves_nothing_up() {
    let early = [drill(0, true), drill(0, true), drill(0, true)];
    let after = standing(&early, 0);
    let leg = after.steps.first().and_then(|step| step.again).expect("it is due again");
    assert_eq!((leg.box_number, leg.due_unix_s), (1, DAY));
    assert_eq!(
        standing(&early, 3).steps.first().and_then(|step| step.days_overdue(3 * DAY)),
        Some(2)
    );
}

#[test]
fn of_several_the_longest_overdue_comes_first() {
    let done = [drill(2, true), scenario("hang.ron", 0, 90.0, true)];
    assert_eq!(next(&done, 9), Some((1, StepState::Due)));
}

#[test]
fn what_has_no_date_counts_but_is_never_due() {
    let mut undated = drill(0, true);
    undated.unix_s = None;
    let after = standing(&[undated], 900);
    let leg = after.steps.first().expect("a step");
    assert_eq!((leg.state, leg.again), (StepState::Done, None));
}
