//! Where sessions come from and where their journals are kept.

use std::path::{Path, PathBuf};
use std::time::SystemTime;

use sessions::{
    Durability, FrontEndError, JournalFile, LiveSession, open_session, read_journal, read_text,
    wall_clock_s,
};
use sim_core::scenario::KnownRules;
use sim_core::session::clock::ClockEvent;
use sim_core::session::journal::{JournalLine, NullSink};
use sim_core::session::replay::replay;

/// A scenario as its card shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// The file.
    pub path: PathBuf,
    /// Its title.
    pub title: String,
    /// What it teaches.
    pub lesson: String,
    /// Time limit, minutes.
    pub limit_min: Option<f64>,
    /// What is wrong with it, when it cannot be opened.
    pub trouble: Option<String>,
}

/// A journal that is kept: of a session to go on with, or of one to look at again.
#[derive(Debug, Clone, PartialEq)]
pub struct Shelved {
    /// The file.
    pub path: PathBuf,
    /// The scenario's title.
    pub title: String,
    /// The number of its rig.
    pub seed: u64,
    /// Minutes of bench time so far.
    pub minutes: u64,
    /// Whether it can be gone on with.
    pub stands: Stands,
}

/// How a session in a journal stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stands {
    /// It was broken off.
    Unfinished,
    /// It has ended, and its journal is sealed.
    Ended,
}

/// Most journals of a kind that are offered.
const MOST_SHELVED: usize = 4;

/// The folder of the scenarios that came with the program: where it is run, beside the program, or
/// in the source tree.
pub fn scenarios_folder() -> Option<PathBuf> {
    let beside = std::env::current_exe().ok().and_then(|exe| Some(exe.parent()?.to_owned()));
    let places = [
        Some(PathBuf::from("scenarios")),
        beside.as_ref().map(|folder| folder.join("scenarios")),
        beside.as_ref().map(|folder| folder.join("../share/steady-draw/scenarios")),
        beside.as_ref().map(|folder| folder.join("../../scenarios")),
    ];
    places.into_iter().flatten().find(|folder| folder.is_dir())
}

/// Every scenario of a folder, in the order of the file names.
pub fn cards(folder: &Path) -> Vec<Card> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .map(|entries| entries.flatten().map(|entry| entry.path()).collect())
        .unwrap_or_default();
    files.retain(|path| path.extension().is_some_and(|kind| kind == "ron"));
    files.sort();
    files.iter().map(|path| card(path)).collect()
}

/// What the card of a scenario without help says.
const SITTING: &str = "A sitting: the work is done without help, and marked. What it was about is \
    told after the signature.";

/// The card of one scenario.
pub fn card(path: &Path) -> Card {
    let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let broken = |trouble: String| Card {
        path: path.to_owned(),
        title: name.clone(),
        lesson: String::new(),
        limit_min: None,
        trouble: Some(trouble),
    };
    let text = match read_text(path) {
        Ok(text) => text,
        Err(error) => return broken(error.to_string()),
    };
    match sim_core::scenario::check(&text, KnownRules::Any) {
        Ok(scenario) => Card {
            trouble: None,
            path: path.to_owned(),
            title: scenario.title,
            // Who is to be judged is not told beforehand what to look for.
            lesson: if scenario.terms.help { scenario.lesson } else { SITTING.to_owned() },
            limit_min: scenario.terms.time_limit_min,
        },
        Err(problems) => broken(match problems.as_slice() {
            [first, ..] => format!("{}:{first}", path.display()),
            [] => "it cannot be read".to_owned(),
        }),
    }
}

/// Begins a session with a new journal in the data folder. Where no journal can be kept the session
/// begins without one, and that is said.
///
/// # Errors
///
/// When the scenario has problems.
pub fn begin(
    scenario: &Path,
    seed: u64,
    data: Option<&Path>,
) -> Result<(Box<dyn LiveSession>, Option<String>), FrontEndError> {
    let kept = data
        .ok_or_else(|| "the system names no folder for data".to_owned())
        .and_then(|folder| new_journal(folder, scenario).map_err(|error| error.to_string()));
    match kept {
        Ok(ink) => {
            let mut session = sessions::begin(scenario, seed, || Ok(Box::new(ink)))?;
            session
                .note_clock(ClockEvent::Begun, wall_clock_s(), "begun in the window")
                .map_err(|error| FrontEndError::Wrong(error.to_string()))?;
            Ok((Box::new(session), None))
        }
        Err(why) => {
            let session = sessions::begin(scenario, seed, || Ok(Box::new(NullSink)))?;
            Ok((Box::new(session), Some(format!("No journal is kept of this session: {why}."))))
        }
    }
}

/// A fresh journal file, named after the scenario and the second.
fn new_journal(folder: &Path, scenario: &Path) -> Result<JournalFile, FrontEndError> {
    std::fs::create_dir_all(folder)
        .map_err(|error| FrontEndError::file("create", folder, &error))?;
    let name = scenario.file_stem().unwrap_or_default().to_string_lossy();
    let second = wall_clock_s();
    let mut error = None;
    // Two sessions that begin in the same second get two names.
    for attempt in 0..20 {
        let path = folder.join(format!("{name}-{second}-{attempt}.journal"));
        match JournalFile::create(&path, Durability::EachLine) {
            Ok(file) => return Ok(file),
            Err(why) => error = Some(why),
        }
    }
    Err(error.unwrap_or_else(|| FrontEndError::Wrong("no journal could be made".to_owned())))
}

/// Journals in the data folder that stand so, the latest first.
pub fn shelved(data: &Path, stands: Stands) -> Vec<Shelved> {
    let mut files: Vec<(SystemTime, PathBuf)> = std::fs::read_dir(data)
        .map(|entries| {
            entries
                .flatten()
                .filter_map(|entry| Some((entry.metadata().ok()?.modified().ok()?, entry.path())))
                .collect()
        })
        .unwrap_or_default();
    files.retain(|(_, path)| path.extension().is_some_and(|kind| kind == "journal"));
    files.sort_by(|a, b| b.cmp(a));
    let journals = files.iter().filter_map(|(_, path)| open_journal(path));
    journals.filter(|journal| journal.stands == stands).take(MOST_SHELVED).collect()
}

/// What a journal says of itself; `None` for every other file.
fn open_journal(path: &Path) -> Option<Shelved> {
    let text = read_journal(path).ok()?;
    let journal = sim_core::session::journal::read(&text).ok()?;
    let mut title = None;
    let (mut last, mut seed, mut stands) = (0, 0, Stands::Unfinished);
    for (_, line) in &journal.lines {
        match line {
            JournalLine::Scenario { text, .. } => {
                title = sim_core::scenario::check(text, KnownRules::Any).ok().map(|s| s.title);
            }
            JournalLine::Act { tick, .. } | JournalLine::Check { tick, .. } => {
                last = tick.whole_seconds()
            }
            JournalLine::Sealed { tick, .. } => {
                (last, stands) = (tick.whole_seconds(), Stands::Ended)
            }
            JournalLine::Drawn { seed: drawn, .. } => seed = *drawn,
            JournalLine::Clock(note) => last = note.tick.whole_seconds(),
            JournalLine::Journal { .. } => {}
        }
    }
    Some(Shelved { path: path.to_owned(), title: title?, seed, minutes: last / 60, stands })
}

/// Goes on with a journal.
///
/// # Errors
///
/// When it does not hold, or cannot be written to.
pub fn resume(path: &Path) -> Result<Box<dyn LiveSession>, FrontEndError> {
    let opened = open_session(None, 0, None, Some(path.to_owned()))?;
    let mut session = opened.session;
    let put_aside = session.clock().last().is_some_and(|note| note.what == ClockEvent::Left);
    let why = if put_aside {
        "gone on with"
    } else {
        "gone on with; the program had stopped without leaving the bench"
    };
    session
        .note_clock(ClockEvent::Resumed, wall_clock_s(), why)
        .map_err(|error| FrontEndError::Wrong(error.to_string()))?;
    Ok(session)
}

/// Has a session that has ended again from its journal, which is only read.
///
/// # Errors
///
/// When it does not hold, or has not ended.
pub fn ended(path: &Path) -> Result<Box<dyn LiveSession>, FrontEndError> {
    let text = read_journal(path)?;
    let replayed = replay(&text, Box::new(NullSink))
        .map_err(|error| FrontEndError::Wrong(format!("{}: {error}", path.display())))?;
    match replayed.session.ended() {
        Some(_) => Ok(Box::new(replayed.session)),
        None => Err(FrontEndError::Wrong(format!(
            "{}: the session has not ended: go on with it first",
            path.display()
        ))),
    }
}

#[cfg(test)]
mod tests {
    use super::{Stands, begin, cards, ended, resume, shelved};
    use sim_core::session::action::Action;

    fn scenarios() -> std::path::PathBuf {
        std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios")
    }

    #[test]
    fn every_scenario_has_a_card() {
        let cards = cards(&scenarios());
        assert!(cards.len() >= 6);
        for card in cards {
            assert_eq!(card.trouble, None, "{}", card.path.display());
            assert!(!card.lesson.is_empty());
        }
    }

    #[test]
    fn a_session_that_was_broken_off_is_offered_and_goes_on() {
        let data = tempfile::tempdir().expect("a folder");
        let scenario = cards(&scenarios()).remove(0);
        let (mut session, trouble) =
            begin(&scenario.path, 3, Some(data.path())).expect("a session");
        assert_eq!(trouble, None);
        session.act(Action::OpenLid).expect("the lid opens");
        session.advance(20 * 61).expect("time passes");
        drop(session);
        let list = shelved(data.path(), Stands::Unfinished);
        assert_eq!(list.len(), 1);
        let first = list.first().expect("one");
        assert_eq!((first.title.as_str(), first.minutes), (scenario.title.as_str(), 1));
        assert!(ended(&first.path).is_err(), "nobody looks at the truth of what goes on");
        let mut again = resume(&first.path).expect("it goes on");
        assert!(again.view().mounting.lid_open);
        again.act(Action::Sign).expect("it is signed");
        let open = shelved(data.path(), Stands::Unfinished);
        assert!(open.is_empty(), "a signed session is not offered");
        let done = shelved(data.path(), Stands::Ended);
        assert_eq!(done.len(), 1);
        let first = done.first().expect("one");
        assert_eq!((first.seed, first.minutes), (3, 1));
        let looked_at = ended(&first.path).expect("it is had again");
        assert_eq!(looked_at.view(), again.view());
    }

    #[test]
    fn without_a_folder_for_data_the_session_begins_and_says_so() {
        let scenario = cards(&scenarios()).remove(0);
        let (_, trouble) = begin(&scenario.path, 3, None).expect("a session");
        assert!(trouble.is_some_and(|said| said.contains("No journal")));
    }
}
