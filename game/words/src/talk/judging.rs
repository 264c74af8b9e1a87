//! The trainee's own judgement, asked for between the signature and the debrief.

use std::io::{BufRead, Write};

use sessions::{FrontEndError, InputLine, LiveSession, read_line};
use sim_core::session::action::ChecklistItem;
use sim_core::session::own_judgement::{OwnJudgement, Sureness, VolumeClaim, VolumeOff};

use crate::parse::checklist::CHECKLIST_ITEMS;

/// What is said before the questions.
const BEFORE: &str = "\
Before you see the debrief, judge your own work. Your answers cost no marks. They are kept with the
session, so that you can compare later what you thought with what was true. To leave a question out,
press Enter.";
const HOW_FAR: &str = "\
How far off is the volume that follows from your work, at most? Say 2, 5 or 10 for so many percent,
or `more`:";
const HOW_SURE: &str =
    "How sure are you of that? Say 50, 60, 70, 80, 90 or 100; 50 is a guess, 100 is certain:";

/// Asks, and records the answers. Without any answer nothing is recorded.
///
/// # Errors
///
/// When the journal or the output cannot be written.
pub(super) fn judge(
    session: &mut dyn LiveSession,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
) -> Result<(), FrontEndError> {
    writeln!(out, "\n{BEFORE}")?;
    let papers = session.papers();
    let items = ChecklistItem::of(papers.work_order, papers.terms);
    let has_volume = OwnJudgement::has_volume(papers.work_order, papers.terms);
    let mut own = OwnJudgement::default();
    if has_volume {
        let Some(off) = ask(HOW_FAR, volume_off, input, out)? else { return keep(session, own) };
        if let Some(off) = off {
            let Some(sure) = ask(HOW_SURE, sureness, input, out)? else {
                return keep(session, own);
            };
            own.volume = sure.map(|sure_pct| VolumeClaim { off, sure_pct });
        }
    }
    let names: Vec<&str> = items.iter().map(|item| item.name()).collect();
    let what = format!(
        "What would you do again? Name the phases, with commas between them, or say `nothing`:\n({})",
        names.join(", ")
    );
    if let Some(again) = ask(&what, |line| phases(line, &items), input, out)? {
        own.again = again.unwrap_or_default().into_iter().collect();
    }
    keep(session, own)
}

/// Records what was said, if anything was.
fn keep(session: &mut dyn LiveSession, own: OwnJudgement) -> Result<(), FrontEndError> {
    if own == OwnJudgement::default() {
        return Ok(());
    }
    session.judge(own).map_err(|error| FrontEndError::Wrong(error.to_string()))
}

/// Asks until there is an answer that can be understood. The outer `None` says that nobody is there any
/// more, the inner one that the question was left out.
fn ask<T>(
    question: &str,
    understood: impl Fn(&str) -> Result<T, String>,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
) -> Result<Option<Option<T>>, FrontEndError> {
    let mut line = String::new();
    loop {
        writeln!(out, "{question}")?;
        write!(out, "> ")?;
        out.flush()?;
        line.clear();
        match read_line(input, &mut line)? {
            InputLine::End => {
                writeln!(out)?;
                return Ok(None);
            }
            InputLine::TooLong => {
                writeln!(out, "That is too long. Answer the question, or press Enter.")?;
                continue;
            }
            InputLine::Line => {}
        }
        match line.trim() {
            "" => return Ok(Some(None)),
            answer => match understood(answer) {
                Ok(answer) => return Ok(Some(Some(answer))),
                Err(what) => writeln!(out, "{what}")?,
            },
        }
    }
}

/// How far off the volume is said to be.
fn volume_off(answer: &str) -> Result<VolumeOff, String> {
    let answer = answer.trim_end_matches(['%', ' ', '.']).to_lowercase();
    let answer = answer.trim_end_matches("percent").trim();
    let answer = answer.strip_prefix("within ").unwrap_or(answer);
    match answer {
        "2" => Ok(VolumeOff::Within2),
        "5" => Ok(VolumeOff::Within5),
        "10" => Ok(VolumeOff::Within10),
        "more" | "worse" | "more than 10" => Ok(VolumeOff::Worse),
        _ => Err("Say 2, 5, 10 or `more`.".to_owned()),
    }
}

/// How sure somebody says to be.
fn sureness(answer: &str) -> Result<Sureness, String> {
    let answer = answer.trim_end_matches(['%', ' ', '.']).to_lowercase();
    let number = answer.trim_end_matches("percent").trim().parse::<u8>();
    let sure = number.ok().and_then(|percent| Sureness::try_from(percent).ok());
    sure.ok_or_else(|| "Say 50, 60, 70, 80, 90 or 100.".to_owned())
}

/// The phases that somebody names.
fn phases(answer: &str, items: &[ChecklistItem]) -> Result<Vec<ChecklistItem>, String> {
    let answer = answer.trim_end_matches('.').to_lowercase();
    if matches!(answer.as_str(), "nothing" | "none" | "no" | "nothing at all") {
        return Ok(Vec::new());
    }
    let mut named = Vec::new();
    for name in answer.split([',', ';']).map(str::trim).filter(|name| !name.is_empty()) {
        let bare = |name: &str| name.strip_prefix("the ").unwrap_or(name).replace(" the ", " ");
        let found = CHECKLIST_ITEMS.iter().find(|(known, _)| bare(known) == bare(name));
        match found.map(|&(_, item)| item).filter(|item| items.contains(item)) {
            Some(item) => named.push(item),
            None => {
                return Err(format!(
                    "This job has no phase `{}`. Use the names in brackets.",
                    sessions::printable(name)
                ));
            }
        }
    }
    Ok(named)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn answers_are_taken_as_people_type_them() {
        for (said, off) in [
            ("5", VolumeOff::Within5),
            ("within 2 %", VolumeOff::Within2),
            ("10 percent", VolumeOff::Within10),
            ("More.", VolumeOff::Worse),
        ] {
            assert_eq!(volume_off(said), Ok(off), "{said}");
        }
        assert!(volume_off("3").is_err() && volume_off("good").is_err());
        assert_eq!(sureness("80 %").map(Sureness::percent), Ok(80));
        for wrong in ["75", "40", "110", "300", "sure", "-50"] {
            assert!(sureness(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn phases_are_those_of_the_job() {
        let items = [ChecklistItem::Points, ChecklistItem::Manometer, ChecklistItem::Papers];
        assert_eq!(phases("nothing", &items), Ok(Vec::new()));
        let both = Ok(vec![ChecklistItem::Points, ChecklistItem::Papers]);
        assert_eq!(phases("Points, the papers and weather.", &items), both);
        let error = phases("points, volume", &items).expect_err("there is none");
        assert!(error.contains("`volume`"), "{error}");
    }
}
