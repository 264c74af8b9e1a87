//! Phrases that terminal and page share.

use super::super::number_format::{NumberFormat, UNKNOWN, duration};
use super::calibration::JudgementCalibration;
use super::overview::Progress;
use super::plan::{DrillRow, PlanProgress};
use super::session::{ReadScale, SessionSummary};
use super::utc::utc;

/// What is said where there is no advice.
pub const fn no_advice(progress: &Progress) -> &'static str {
    if progress.sessions.is_empty() {
        "There is no session to base advice on."
    } else if progress.scenarios_at_hand == 0 {
        "Nothing is urgent. No scenarios were found to choose from: give their folder with --scenarios."
    } else {
        "Nothing is urgent, and you have passed every scenario at hand."
    }
}

/// How many sessions there are.
pub fn counted(progress: &Progress) -> String {
    let count = progress.sessions.len();
    let passed = progress.sessions.iter().filter(|one| one.passed).count();
    let sessions = if count == 1 { "session" } else { "sessions" };
    let left = match progress.left_out.len() {
        0 => String::new(),
        1 => "; 1 journal left out".to_owned(),
        many => format!("; {many} journals left out"),
    };
    format!("{count} {sessions}, {passed} passed{left}.")
}

/// How far a person is in a plan, and how long the rest takes.
pub fn plan_counted(plan: &PlanProgress) -> String {
    let (done, all) = (plan.done, plan.steps.len());
    let left = duration(plan.minutes_left);
    if done == all {
        format!("All {all} steps are done.")
    } else {
        format!("{done} of {all} steps are done. The others take about {left}.")
    }
}

/// The score of a person's judgements and its parts.
pub fn brier(judgement: &JudgementCalibration) -> String {
    let score = &judgement.brier;
    let not_scored = match judgement.not_scored {
        0 => String::new(),
        1 => " One judgement had no volume to be compared with.".to_owned(),
        many => format!(" {many} judgements had no volume to be compared with."),
    };
    format!(
        "Brier score {:.3} = reliability {:.3} - resolution {:.3} + uncertainty {:.3}.{not_scored}",
        score.score, score.reliability, score.resolution, score.uncertainty
    )
}

/// Whether a drill is good enough, in words.
pub const fn good_enough(row: &DrillRow) -> &'static str {
    if row.good_enough { "good enough" } else { "not good enough yet" }
}

/// Whole minutes, or a dash.
pub fn minutes(value: Option<f64>) -> String {
    NumberFormat::Plain(0).write_known(value)
}

/// Percent, or a dash.
pub fn percent(value: Option<f64>) -> String {
    NumberFormat::Plain(0).write_known(value)
}

/// How far off a scale was read, or a dash.
pub fn error(session: &SessionSummary, scale: ReadScale) -> String {
    session.errors(scale).map_or_else(
        || UNKNOWN.to_owned(),
        |errors| {
            let [off, signed] = [NumberFormat::Plain(2), NumberFormat::Signed(2)];
            format!("{} ({})", off.write(errors.mean_off), signed.write(errors.mean_signed))
        },
    )
}

/// `passed` or `not passed`.
pub const fn result(session: &SessionSummary) -> &'static str {
    if session.passed { "passed" } else { "not passed" }
}

/// When a session was begun, UTC, or a dash.
pub fn begun(session: &SessionSummary) -> String {
    session.begun_unix_s.map_or_else(|| UNKNOWN.to_owned(), utc)
}
