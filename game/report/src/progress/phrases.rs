//! Phrases that terminal and page share.

use super::super::number_format::{NumberFormat, UNKNOWN};
use super::overview::Progress;
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
