//! `drive`: a session line by line, as JSON for other programs and in plain sentences for people.

use std::io::{BufRead, IsTerminal, Write};
use std::path::PathBuf;

use clap::Args;
use serde_json::{Value, json};
use sessions::{
    FrontEndError, InputLine, LiveSession, MarkedSession, Opened, Outcome, PersonName,
    action_from_json, open_session, open_text, read_line, wall_clock_s,
};
use sim_core::scenario::setup::PastWork;
use sim_core::session::ActError;
use sim_core::session::action::{Action, ChecklistItem};
use sim_core::session::clock::ClockEvent;
use words::talk::Talk;

use super::drawn::{self, DrawnArguments};
use super::json::print_object;

mod own_judgement;

/// Runs a session line by line: reads actions from standard input, prints what can be seen.
///
/// Each line of input is one action as JSON. Each line of output is one JSON object: the tick, the
/// time on the watch, and what a sharp eye can see; where the sampler has a history, also that, with
/// its control chart. A line that is not an action is answered with
/// `error`, an action that cannot be done with `refused`; neither changes anything.
/// `{"wait":{"seconds":30}}` lets time pass. After `"sign"` the last line of output gives the marks.
///
/// The first object also holds the briefing: what is expected, what is recorded, how long it takes, and
/// what help there is. With --ask-judgement, the end of the session is answered with
/// `"asks":"own_judgement"`, and the next line says how good the work is, as in
/// `{"volume":{"off":"within_5","sure_pct":80},"again":["points"]}`, or `null` to say nothing.
///
/// In a terminal, or with --words, input and output are plain sentences. Type `help` for a list.
///
/// Exit status 0: signed and passed. 1: signed but not passed, or not signed. 2: the session could not
/// be run, or the output could not be written.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  echo '{\"look\":{\"at\":\"barometer\"}}' | steady-draw drive scenarios/01_first_calibration.ron\n  steady-draw drive scenarios/01_first_calibration.ron --words --journal today.journal\n  steady-draw drive --drawn 1 --seed 7 --words"
)]
pub struct DriveArguments {
    /// The scenario. Not needed with --resume or --drawn.
    #[arg(required_unless_present_any = ["resume", "drawn"])]
    pub scenario: Option<PathBuf>,
    /// A drawn rig in its place.
    #[command(flatten)]
    pub drawn: DrawnArguments,
    /// The seed: another seed draws another rig and another day.
    #[arg(long, default_value_t = 1)]
    pub seed: u64,
    /// Use plain sentences instead of JSON.
    #[arg(long)]
    pub words: bool,
    /// Ask for your own judgement of the work before the marks are given. With --words this is always
    /// asked.
    #[arg(long, conflicts_with = "words")]
    pub ask_judgement: bool,
    /// Write the journal to this file, line by line. An existing file is never overwritten.
    #[arg(long, conflicts_with = "resume")]
    pub journal: Option<PathBuf>,
    /// Your name, where several people share this machine. The journal is then kept in a folder of your own,
    /// where `progress --name` finds it. Nothing else about you is kept.
    #[arg(long, conflicts_with_all = ["journal", "resume"])]
    pub name: Option<PersonName>,
    /// Continue the session of this journal.
    #[arg(long, conflicts_with_all = ["scenario", "seed", "drawn"])]
    pub resume: Option<PathBuf>,
}

/// Runs the command on the process's own input.
///
/// # Errors
///
/// When the session cannot begin, or its journal cannot be written.
pub fn run(arguments: DriveArguments, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    let stdin = std::io::stdin();
    let words = arguments.words || (stdin.is_terminal() && std::io::stdout().is_terminal());
    run_on(DriveArguments { words, ..arguments }, &mut stdin.lock(), out)
}

/// Runs the command on any input.
///
/// # Errors
///
/// As [`run`].
pub fn run_on(
    arguments: DriveArguments,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
) -> Result<Outcome, FrontEndError> {
    let DriveArguments { scenario, drawn: asked, seed, words, ask_judgement, .. } = arguments;
    let DriveArguments { name, journal, resume, .. } = arguments;
    let rig = asked.rig(seed)?;
    let of = rig.as_ref().map(|_| drawn::name()).or(scenario.as_deref());
    let journal = match (&name, of) {
        (Some(name), Some(of)) => Some(name.new_journal(of)?),
        _ => journal,
    };
    let is_kept = journal.is_some() || resume.is_some();
    let began = if resume.is_some() { ClockEvent::Resumed } else { ClockEvent::Begun };
    let mut opened = match rig {
        Some(rig) => open_text(drawn::name(), &rig.text, seed, journal)?,
        None => open_session(scenario, seed, journal, resume)?,
    };
    if is_kept && opened.session.ended().is_none() {
        note(opened.session.as_mut(), began, "in a terminal")?;
    }
    if words {
        return talk(opened, input, out);
    }
    let Opened { mut session, notice, .. } = opened;
    if let Some(notice) = notice {
        say(out, &json!({ "note": notice }))?;
    }
    let mut first = seen(session.as_ref());
    if let (true, Some(fields)) = (session.done().next().is_none(), first.as_object_mut()) {
        let briefing = json!(words::briefing(&session.papers()));
        fields.insert("briefing".to_owned(), briefing);
    }
    say(out, &first)?;
    let ends_now = session.ended().is_none();
    let mut line = String::new();
    while session.ended().is_none() {
        line.clear();
        match read_line(input, &mut line)? {
            InputLine::End => break,
            InputLine::TooLong => {
                say(
                    out,
                    &json!({ "error": "the line is longer than 64 KiB: send one action per line" }),
                )?;
                continue;
            }
            InputLine::Line => {}
        }
        if line.trim().is_empty() {
            continue;
        }
        let answer = answer(session.as_mut(), line.trim())?;
        say(out, &answer)?;
    }
    match session.ended() {
        None => {
            if is_kept {
                note(session.as_mut(), ClockEvent::Left, "the input ended")?;
            }
            Ok(Outcome::Negative)
        }
        Some(_) => {
            if ask_judgement && ends_now && session.judgement().is_none() {
                own_judgement::ask(session.as_mut(), input, out)?;
            }
            if is_kept && ends_now {
                note(session.as_mut(), ClockEvent::Ended, "the session has ended")?;
            }
            let ended = session.finish()?;
            say(out, &ended_as_json(&ended))?;
            Ok(outcome(&ended))
        }
    }
}

/// Notes the clock on the wall in the journal.
fn note(session: &mut dyn LiveSession, what: ClockEvent, why: &str) -> Result<(), FrontEndError> {
    let noted = session.note_clock(what, wall_clock_s(), why);
    noted.map_err(|error| FrontEndError::Wrong(error.to_string()))
}

/// Runs the session in plain sentences, and writes the debrief once it has ended.
fn talk(
    opened: Opened,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
) -> Result<Outcome, FrontEndError> {
    let (is_kept, ends_now) = (opened.journal.is_some(), opened.session.ended().is_none());
    let Some(mut session) = Talk::new(opened).run(input, out)? else {
        return Ok(Outcome::Negative);
    };
    if is_kept && ends_now {
        note(session.as_mut(), ClockEvent::Ended, "the session has ended")?;
    }
    let ended = session.finish()?;
    writeln!(out)?;
    report::debrief::write_debrief(out, &ended)?;
    Ok(outcome(&ended))
}

/// Whether the session was passed.
const fn outcome(ended: &MarkedSession) -> Outcome {
    if ended.marks.passed { Outcome::Done } else { Outcome::Negative }
}

/// Takes one line and answers it.
fn answer(session: &mut dyn LiveSession, line: &str) -> Result<Value, FrontEndError> {
    let action = match action_from_json(line) {
        Ok(action) => action,
        Err(what) => return Ok(json!({ "error": what })),
    };
    let done = match action {
        Action::Wait { seconds } => session.wait(seconds),
        Action::LeaveSite => session.leave_site(),
        action => session.act(action),
    };
    match done {
        Ok(()) => Ok(seen(session)),
        Err(ActError::Refused(refusal)) => Ok(json!({ "refused": refusal.to_string() })),
        Err(error @ (ActError::Sink(_) | ActError::Ended)) => {
            Err(FrontEndError::Wrong(error.to_string()))
        }
    }
}

/// What can be seen, as one object.
fn seen(session: &dyn LiveSession) -> Value {
    let read = session.read_in_words();
    let view = read.unwrap_or_else(|| session.view()).at_eye_resolution();
    let mut object = json!({ "tick": view.tick, "time": view.time, "seen": view });
    if let (Some(checklist), Some(fields)) = (checklist(session), object.as_object_mut()) {
        fields.insert("checklist".to_owned(), checklist);
    }
    if let (Some(history), Some(fields)) = (history(session), object.as_object_mut()) {
        fields.insert("history".to_owned(), history);
    }
    if let (Some(lesson), Some(fields)) = (lesson(session), object.as_object_mut()) {
        fields.insert("lesson".to_owned(), lesson);
    }
    object
}

/// The checklist with its ticks, where it was marked last.
fn checklist(session: &dyn LiveSession) -> Option<Value> {
    let (_, last) = session.done().next_back()?;
    if !matches!(last, Action::MarkChecklist { .. }) {
        return None;
    }
    let papers = session.papers();
    let ticked = ChecklistItem::ticked(session.done().map(|(_, action)| action));
    let items = ChecklistItem::of(papers.work_order, papers.terms).into_iter().map(
        |item| json!({ "item": item, "printed": item.printed(), "ticked": ticked.contains(&item) }),
    );
    Some(json!(items.collect::<Vec<_>>()))
}

/// The lesson, if the session is one: its phases, where it began, and the next step if that is shown all the
/// time.
fn lesson(session: &dyn LiveSession) -> Option<Value> {
    let phases = session.papers().terms.phases?;
    let next = words::shown_step(session);
    let began = session.lesson_began().map(|began| began.tick);
    Some(
        json!({ "from": phases.from, "to": phases.to, "help": phases.help, "began": began, "next": next }),
    )
}

/// The history of the sampler as the field book keeps it, if there is one: visits, and the control
/// chart with what is entered on it for today.
fn history(session: &dyn LiveSession) -> Option<Value> {
    let papers = session.papers();
    let history = papers.work_order.history.as_ref()?;
    let visits = history.visits().iter().map(|visit| {
        let date = visit.date;
        match &visit.work {
            PastWork::FlowCheck { difference_pct } => {
                json!({ "date": date, "flow_check": { "difference_pct": difference_pct } })
            }
            PastWork::Calibration { slope, intercept } => {
                json!({ "date": date, "calibration": { "slope": slope, "intercept": intercept } })
            }
            PastWork::Repair { text } => json!({ "date": date, "repair": text }),
            PastWork::Note { text } => json!({ "date": date, "note": text }),
        }
    });
    let chart = papers.control_chart(session.book()).map(|chart| {
        let limits = chart.limits();
        json!({
            "centre_pct": limits.centre_pct,
            "sd_pct": limits.sd_pct,
            "warning_pct": limits.warning_pct(),
            "action_pct": limits.action_pct(),
            "points": chart.points().iter().map(|point| {
                json!({ "date": point.date, "difference_pct": point.difference_pct })
            }).collect::<Vec<_>>(),
        })
    });
    Some(json!({ "visits": visits.collect::<Vec<_>>(), "control_chart": chart }))
}

/// The end of a session, as one object.
fn ended_as_json(ended: &MarkedSession) -> Value {
    let MarkedSession { session, head, marks, .. } = ended;
    let mut object = json!({ "ended": true, "journal_head": head, "marks": marks });
    if let (Some(own), Some(fields)) = (&session.judgement, object.as_object_mut()) {
        let judged = json!(own_judgement::judged(own, marks));
        fields.insert("own_judgement".to_owned(), judged);
    }
    object
}

/// Writes one object on one line and delivers it at once: the other program waits for it.
fn say(out: &mut dyn Write, value: &Value) -> Result<(), FrontEndError> {
    print_object(out, value)?;
    out.flush()?;
    Ok(())
}
