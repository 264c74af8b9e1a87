//! A person's progress in words, for a terminal or a screen reader.

use std::io::{self, Write};

use super::session::{Scale, Summary};
use super::{LATELY, Progress};
use crate::figures::Digits;
use crate::text::{part_name, severity};

/// Writes all of it.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write(out: &mut dyn Write, progress: &Progress) -> io::Result<()> {
    writeln!(out, "{}", counted(progress))?;
    for left_out in &progress.left_out {
        writeln!(out, "Left out: {}: {}", left_out.file, left_out.why)?;
    }
    let Some(first) = progress.sessions.first() else { return Ok(()) };
    write!(out, "\n     {:<17} {:<28}", "begun", "scenario")?;
    for share in first.parts {
        write!(out, " {:>9}", part_name(share.part))?;
    }
    writeln!(out, " {:>6}  result", "total")?;
    for (index, session) in progress.sessions.iter().enumerate() {
        let title: String = session.scenario.chars().take(28).collect();
        write!(out, "  {:>2} {:<17} {title:<28}", index + 1, begun(session))?;
        for share in session.parts {
            write!(out, " {:>9}", percent(share.percent))?;
        }
        writeln!(out, " {:>6.1}  {}", session.total, result(session))?;
    }
    writeln!(out, "  Parts in percent of what each could give.")?;
    writeln!(out, "\nRules that keep being broken")?;
    if progress.kept_broken().next().is_none() {
        writeln!(out, "  None.")?;
    }
    for rule in progress.kept_broken() {
        writeln!(
            out,
            "  {} ({}): in {} of {} sessions, {} of the last {}",
            rule.title,
            severity(rule.severity),
            rule.broken,
            progress.sessions.len(),
            rule.lately,
            progress.sessions.len().min(LATELY),
        )?;
    }
    writeln!(out, "\nReading error in divisions, mean distance (mean with its sign)")?;
    write!(out, "    ")?;
    for scale in Scale::ALL {
        write!(out, " {:>24}", scale.words())?;
    }
    writeln!(out)?;
    for (index, session) in progress.sessions.iter().enumerate() {
        write!(out, "  {:>2}", index + 1)?;
        for scale in Scale::ALL {
            write!(out, " {:>24}", error(session, scale))?;
        }
        writeln!(out)?;
    }
    writeln!(out, "\nWhat to practise next")?;
    if progress.next.is_empty() {
        writeln!(out, "  {}", nothing_next(progress))?;
    }
    for (index, advice) in progress.next.iter().enumerate() {
        writeln!(out, "  {}. {}", index + 1, advice.what)?;
        writeln!(out, "     Why: {}", advice.why)?;
        if let Some(scenario) = &advice.scenario {
            writeln!(out, "     In: {} ({})", scenario.title, scenario.file)?;
            writeln!(out, "         {}", scenario.lesson)?;
        }
    }
    Ok(())
}

/// What is said where there is no advice.
pub const fn nothing_next(progress: &Progress) -> &'static str {
    if progress.sessions.is_empty() {
        "There is no session to advise from."
    } else if progress.scenarios_at_hand == 0 {
        "Nothing presses. No scenarios were at hand to choose from: name their folder with --scenarios."
    } else {
        "Nothing presses, and every scenario at hand was passed."
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
    value.map_or_else(|| "–".to_owned(), |percent| format!("{percent:.0}"))
}

/// How far off a scale was read, or a dash.
pub fn error(session: &Summary, scale: Scale) -> String {
    session.errors(scale).map_or_else(
        || "–".to_owned(),
        |errors| {
            let [off, signed] = [Digits::Plain(2), Digits::Signed(2)];
            format!("{} ({})", off.write(errors.mean_off), signed.write(errors.mean_signed))
        },
    )
}

/// `passed` or `not yet`.
pub const fn result(session: &Summary) -> &'static str {
    if session.passed { "passed" } else { "not yet" }
}

/// When a session was begun, UTC, or a dash.
pub fn begun(session: &Summary) -> String {
    session.begun_unix_s.map_or_else(|| "–".to_owned(), utc)
}

/// Seconds since 1970-01-01 00:00 UTC as date and time.
fn utc(unix_s: u64) -> String {
    let (days, second) = (unix_s / 86_400, unix_s % 86_400);
    let (year, month, day) = date(days);
    format!("{year:04}-{month:02}-{day:02} {:02}:{:02}", second / 3600, second / 60 % 60)
}

/// The date so many days after 1970-01-01: first the year, then the month.
fn date(mut days: u64) -> (u64, u64, u64) {
    let leap = |year: u64| {
        year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400))
    };
    // The calendar repeats every 400 years, which are 146 097 days.
    let mut year = 1970 + 400 * (days / 146_097);
    days %= 146_097;
    while days >= 365 + u64::from(leap(year)) {
        days -= 365 + u64::from(leap(year));
        year += 1;
    }
    let lengths = [31, 28 + u64::from(leap(year)), 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    let mut month = 1;
    for length in lengths {
        if days < length {
            break;
        }
        days -= length;
        month += 1;
    }
    (year, month, days + 1)
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::super::session::tests::summary;
    use super::super::{Lesson, page};
    use super::*;

    /// What words and page say of what comes next.
    fn said(sessions: Vec<Summary>, lessons: &[Lesson]) -> (String, bool) {
        let progress = Progress::of(sessions, Vec::new(), lessons);
        let mut out = Vec::new();
        write(&mut out, &progress).unwrap();
        let page = format!("{:?}", page::document(&progress).blocks);
        let on_page = page.contains(nothing_next(&progress));
        (String::from_utf8(out).unwrap(), on_page)
    }

    #[test]
    fn where_no_scenario_is_at_hand_none_is_said_to_be_passed() {
        let (words, on_page) = said(vec![summary("a", &[])], &[]);
        assert!(words.contains("No scenarios were at hand"), "{words}");
        assert!(!words.contains("was passed") && on_page);

        let path = format!("{}/../../scenarios/08_wide_limb.ron", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).unwrap();
        let mut one = summary("a", &[]);
        one.scenario_sha256 = sim_core::digest::sha256_hex(text.as_bytes());
        let lesson = Lesson::of("08".to_owned(), &text).unwrap();
        let (words, on_page) = said(vec![one], &[lesson]);
        assert!(words.contains("every scenario at hand was passed") && on_page, "{words}");
    }

    #[test]
    fn seconds_become_date_and_time() {
        // Known moments of the count: its beginning, a billion seconds, a leap day, a new year.
        assert_eq!(utc(0), "1970-01-01 00:00");
        assert_eq!(utc(1_000_000_000), "2001-09-09 01:46");
        assert_eq!(utc(951_782_400), "2000-02-29 00:00");
        assert_eq!(utc(1_767_225_599), "2025-12-31 23:59");
    }
}
