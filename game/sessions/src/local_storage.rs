//! Scenarios, journals, settings and reports in folders of this machine.

use std::collections::BTreeMap;
use std::fs::File;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use sim_core::marking::mark;
use sim_core::scenario::KnownRules;
use sim_core::scenario::site_look::SiteLook;
use sim_core::session::Session;
use sim_core::session::journal::NullSink;
use sim_core::session::replay::replay;

use crate::clock::wall_clock_s;
use crate::error::FrontEndError;
use crate::journal_ends::JournalEnds;
use crate::journal_file::{Durability, JournalFile};
use crate::live::LiveSession;
use crate::opened::{Opened, begin, open_session, read_journal, situation};
use crate::replace_files::replace_files;
use crate::storage::{
    JobKind, KeptSession, KeptState, KeptText, MarksGot, ScenarioCard, Storage, StorageId,
};
use crate::text_file::{only_a_file, read_text};

/// Folders of this machine.
#[derive(Debug, Clone, Default)]
pub struct LocalStorage {
    /// A scenario that is offered first of all.
    pub first: Option<PathBuf>,
    /// The folder of scenarios.
    pub scenarios: Option<PathBuf>,
    /// Where journals and reports are kept.
    pub data: Option<PathBuf>,
    /// Where settings are kept.
    pub config: Option<PathBuf>,
}

impl LocalStorage {
    /// A fresh journal file, named after the scenario and the second.
    fn new_journal(&self, scenario: &Path) -> Result<(JournalFile, PathBuf), FrontEndError> {
        let folder = self.data_folder()?;
        std::fs::create_dir_all(folder)
            .map_err(|error| FrontEndError::file("create", folder, &error))?;
        let name = scenario.file_stem().unwrap_or_default().to_string_lossy();
        let second = wall_clock_s();
        let mut error = None;
        // Two sessions that begin in the same second get two names.
        for attempt in 0..20 {
            let path = folder.join(format!("{name}-{second}-{attempt}.journal"));
            match JournalFile::create(&path, Durability::EachLine) {
                Ok(file) => return Ok((file, path)),
                Err(why) => error = Some(why),
            }
        }
        Err(error.unwrap_or_else(|| FrontEndError::Wrong("no journal could be made".to_owned())))
    }

    fn data_folder(&self) -> Result<&Path, FrontEndError> {
        let none = || FrontEndError::Wrong("the system names no folder for data".to_owned());
        self.data.as_deref().ok_or_else(none)
    }

    fn settings_file(&self) -> Result<PathBuf, FrontEndError> {
        let none = || FrontEndError::Wrong("the system names no folder for settings".to_owned());
        Ok(self.config.as_deref().ok_or_else(none)?.join("settings.ron"))
    }
}

impl Storage for LocalStorage {
    fn scenarios(&self) -> Vec<ScenarioCard> {
        // Lessons have a folder of their own beside the whole jobs.
        let folders =
            self.scenarios.iter().flat_map(|folder| [folder.clone(), folder.join(LESSONS)]);
        let files = folders.flat_map(|folder| files(&folder, "ron"));
        let files = self.first.clone().into_iter().chain(files);
        files.map(card).collect()
    }

    fn kept_sessions(&self) -> Vec<KeptSession> {
        let files = self.data.as_deref().map(|folder| files(folder, "journal")).unwrap_or_default();
        let mut dated: Vec<(SystemTime, PathBuf)> = files
            .into_iter()
            .map(|path| (changed(&path).unwrap_or(SystemTime::UNIX_EPOCH), path))
            .collect();
        dated.sort_by(|a, b| b.cmp(a));
        let mut titles = Titles::default();
        dated.into_iter().filter_map(|(_, path)| kept_session(path, &mut titles)).collect()
    }

    fn begin(&self, scenario: &StorageId, seed: u64) -> Result<Opened, FrontEndError> {
        let (mut journal, mut notice) = (None, None);
        let session = begin(&scenario.0, seed, || match self.new_journal(&scenario.0) {
            Ok((file, path)) => {
                journal = Some(path);
                Ok(Box::new(file))
            }
            Err(why) => {
                notice = Some(format!("No journal is kept of this session: {why}."));
                Ok(Box::new(NullSink))
            }
        })?;
        let situation = situation(&scenario.0);
        let notice = notice.or_else(|| lesson_notice(&session));
        Ok(Opened { session: Box::new(session), notice, journal, situation })
    }

    fn resume(&self, session: &StorageId) -> Result<Opened, FrontEndError> {
        open_session(None, 0, None, Some(session.0.clone()))
    }

    fn replay_ended(&self, session: &StorageId) -> Result<Box<dyn LiveSession>, FrontEndError> {
        let path = &session.0;
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

    fn marks_got(&self, session: &StorageId) -> Option<MarksGot> {
        let text = read_journal(&session.0).ok()?;
        let ended = replay(&text, Box::new(NullSink)).ok()?.session.open().ok()?;
        let marks = mark(&ended.evidence());
        Some(MarksGot { head: ended.head, percent: marks.percent(), passed: marks.passed })
    }

    fn settings(&self) -> Result<KeptText, FrontEndError> {
        let file = self.settings_file()?;
        let name = file.display().to_string();
        match std::fs::read_to_string(&file) {
            Ok(text) => Ok(KeptText { name, text: Some(text) }),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
                Ok(KeptText { name, text: None })
            }
            Err(error) => Err(FrontEndError::file("read", &file, &error)),
        }
    }

    fn keep_settings(&self, text: &str) -> Result<(), FrontEndError> {
        let file = self.settings_file()?;
        if let Some(folder) = &self.config {
            std::fs::create_dir_all(folder)
                .map_err(|error| FrontEndError::file("write", &file, &error))?;
        }
        replace_files(&[(file, text.as_bytes().to_vec())])
    }

    fn wall_clock_s(&self) -> u64 {
        wall_clock_s()
    }

    fn keep_report(&self, name: &str, files: &[(&str, Vec<u8>)]) -> Result<String, FrontEndError> {
        let folder = self.data_folder()?.join("reports").join(name);
        std::fs::create_dir_all(&folder)
            .map_err(|error| FrontEndError::file("create", &folder, &error))?;
        let files: Vec<(PathBuf, Vec<u8>)> =
            files.iter().map(|(name, bytes)| (folder.join(name), bytes.clone())).collect();
        replace_files(&files)?;
        Ok(folder.display().to_string())
    }
}

/// What there is to say of a lesson that has just begun.
fn lesson_notice(session: &Session) -> Option<String> {
    let phases = session.papers().terms.phases?;
    Some(format!(
        "This is a lesson: {}. Everything before it has been done. Sign the field book when the work of the lesson is done.",
        phases.words()
    ))
}

/// The folder of lessons among the scenarios.
const LESSONS: &str = "lessons";

/// The files of a folder whose names end so, in the order of their names.
fn files(folder: &Path, kind: &str) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.path()).collect();
    files.retain(|path| path.extension().is_some_and(|ends| ends == kind));
    files.sort();
    files
}

/// When a file was written last.
fn changed(path: &Path) -> Option<SystemTime> {
    path.metadata().ok()?.modified().ok()
}

/// A file's name for people.
fn stem(path: &Path) -> String {
    path.file_stem().unwrap_or_default().to_string_lossy().into_owned()
}

/// The card of one scenario.
fn card(path: PathBuf) -> ScenarioCard {
    let read = read_text(&path).map_err(|error| error.to_string()).and_then(|text| {
        sim_core::scenario::check(&text, KnownRules::Any).map_err(|problems| {
            match problems.as_slice() {
                [first, ..] => format!("{}:{first}", path.display()),
                [] => "it cannot be read".to_owned(),
            }
        })
    });
    match read {
        Ok(scenario) => ScenarioCard {
            id: StorageId(path),
            look: Some(SiteLook::of(&scenario)),
            job: JobKind::of(&scenario),
            title: scenario.title,
            situation: scenario.situation,
            limit_min: scenario.terms.time_limit_min,
            trouble: None,
        },
        Err(trouble) => ScenarioCard {
            title: stem(&path),
            id: StorageId(path),
            situation: None,
            look: None,
            job: JobKind::Unknown,
            limit_min: None,
            trouble: Some(trouble),
        },
    }
}

/// Titles of scenarios by their checksums: many sessions are of the same scenario.
#[derive(Debug, Default)]
struct Titles(BTreeMap<String, Option<String>>);

impl Titles {
    fn of(&mut self, sha256: String, text: &str) -> Option<String> {
        let read = || {
            let scenario = sim_core::scenario::check(text, KnownRules::Any).ok();
            scenario.map(|scenario| scenario.title)
        };
        self.0.entry(sha256).or_insert_with(read).clone()
    }
}

/// What a journal says of itself; `None` for every other file.
fn kept_session(path: PathBuf, titles: &mut Titles) -> Option<KeptSession> {
    // Opening a pipe would wait until somebody writes into it.
    only_a_file(&path).ok()?;
    let ends = match File::open(&path).and_then(JournalEnds::read) {
        Ok(ends) => ends?,
        Err(error) => {
            return Some(KeptSession {
                title: stem(&path),
                seed: None,
                minutes: None,
                state: KeptState::Unreadable(error.to_string()),
                id: StorageId(path),
            });
        }
    };
    let state = if !ends.is_of_this_version() {
        KeptState::OtherVersion(ends.version)
    } else if ends.sealed {
        KeptState::Ended
    } else {
        KeptState::Unfinished
    };
    let title = ends.scenario.and_then(|(sha256, text)| titles.of(sha256, &text));
    // A journal that was broken off in its head has no session in it.
    if title.is_none() && matches!(state, KeptState::Unfinished) {
        return None;
    }
    Some(KeptSession {
        title: title.unwrap_or_else(|| stem(&path)),
        seed: ends.seed,
        minutes: Some(ends.last.map_or(0, |tick| tick.whole_seconds() / 60)),
        state,
        id: StorageId(path),
    })
}

#[cfg(test)]
mod tests {
    use std::io::Write as _;
    use std::path::{Path, PathBuf};

    use sim_core::session::action::Action;
    use sim_core::session::clock::ClockEvent;

    use super::LocalStorage;
    use crate::storage::{JobKind, KeptSession, KeptState, Storage};

    fn scenarios() -> PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios")
    }

    /// Storage in a folder of its own, and the folder.
    fn storage() -> (LocalStorage, tempfile::TempDir) {
        let folder = tempfile::tempdir().expect("a folder");
        let storage = LocalStorage {
            first: None,
            scenarios: Some(scenarios()),
            data: Some(folder.path().join("data")),
            config: Some(folder.path().join("config")),
        };
        (storage, folder)
    }

    /// A session of the first scenario that was left after a minute.
    fn left(storage: &LocalStorage, seed: u64) {
        let scenario = storage.scenarios().remove(0);
        let mut opened = storage.begin(&scenario.id, seed).expect("a session");
        opened.session.act(Action::OpenLid).expect("the lid opens");
        opened.session.advance(20 * 61).expect("time passes");
        opened
            .session
            .note_clock(ClockEvent::Left, 1_800_000_000, "put aside")
            .expect("it is noted");
    }

    fn only(list: Vec<KeptSession>) -> KeptSession {
        assert_eq!(list.len(), 1, "{list:?}");
        list.into_iter().next().expect("one")
    }

    #[test]
    fn every_scenario_has_a_card() {
        let cards = storage().0.scenarios();
        assert!(cards.len() >= 6);
        for kind in JobKind::ALL {
            let there = cards.iter().filter(|card| card.job == kind).count();
            assert_eq!(there == 0, kind == JobKind::Unknown, "{kind:?}: {there}");
        }
        for card in cards {
            assert!(card.look.is_some(), "{card:?}");
            assert_eq!(card.trouble, None, "{}", card.title);
            assert!(card.situation.is_some_and(|told| !told.is_empty()), "{}", card.title);
        }
    }

    #[test]
    fn a_lesson_begins_where_its_phase_does_and_goes_on_after_it_was_left() {
        let (storage, _folder) = storage();
        let lessons: Vec<_> =
            storage.scenarios().into_iter().filter(|card| card.job == JobKind::Lesson).collect();
        assert_eq!(lessons.len(), 8);
        let points =
            lessons.into_iter().find(|card| card.title == "Seven flows").expect("a lesson");
        let opened = storage.begin(&points.id, 2).expect("a session");
        let told = opened.notice.clone().expect("a notice");
        assert!(told.starts_with("This is a lesson: points."), "{told}");
        let before = opened.session.view();
        assert!(before.calibrator.knob > 0.99 && before.blower.loudness > 0.5, "it is warm");
        drop(opened);
        let kept = only(storage.kept_sessions());
        assert_eq!(kept.state, KeptState::Unfinished);
        let again = storage.resume(&kept.id).expect("it goes on").session;
        assert_eq!(again.view(), before);
        assert!(again.lesson_began().is_some());
    }

    #[test]
    fn a_session_that_was_broken_off_is_kept_and_goes_on() {
        let (storage, _folder) = storage();
        left(&storage, 3);
        let kept = only(storage.kept_sessions());
        assert_eq!(kept.title, storage.scenarios().remove(0).title);
        assert_eq!((kept.seed, kept.minutes), (Some(3), Some(1)));
        assert_eq!(kept.state, KeptState::Unfinished);
        let early = storage.replay_ended(&kept.id);
        assert!(early.is_err(), "nobody looks at the truth of what goes on");
        let mut again = storage.resume(&kept.id).expect("it goes on").session;
        assert!(again.view().mounting.lid_open);
        again.act(Action::Sign).expect("it is signed");
        let kept = only(storage.kept_sessions());
        assert_eq!((kept.seed, kept.minutes, kept.state), (Some(3), Some(1), KeptState::Ended));
        let looked_at = storage.replay_ended(&kept.id).expect("it is replayed");
        assert_eq!(looked_at.view(), again.view());
    }

    #[test]
    fn all_sessions_are_listed_and_those_of_other_versions_say_so() {
        let (storage, folder) = storage();
        for seed in 1..=7 {
            left(&storage, seed);
        }
        let other = folder.path().join("data/first-1-0.journal");
        let head = "0123456789abcdef Journal(form:1,version:\"0.0.7\")\n";
        std::fs::write(&other, head).expect("a journal");
        let no_journal = folder.path().join("data/other.journal");
        std::fs::write(no_journal, "dear diary\n").expect("a file");
        let list = storage.kept_sessions();
        assert_eq!(list.len(), 8, "{list:?}");
        let of = |wanted: &KeptState| list.iter().filter(|kept| kept.state == *wanted).count();
        assert_eq!(of(&KeptState::Unfinished), 7);
        assert_eq!(of(&KeptState::OtherVersion("0.0.7".to_owned())), 1);
    }

    #[test]
    fn a_broken_last_line_stays_until_something_is_written() {
        let (storage, folder) = storage();
        left(&storage, 3);
        let kept = only(storage.kept_sessions());
        let path = std::fs::read_dir(folder.path().join("data"))
            .expect("the folder")
            .map(|entry| entry.expect("a file").path())
            .next()
            .expect("the journal");
        let whole = std::fs::read(&path).expect("it is read");
        let mut file = std::fs::OpenOptions::new().append(true).open(&path).expect("it opens");
        file.write_all(b"0123456789abcdef Act(tick:").expect("it is written");
        drop(file);
        let mut again = storage.resume(&kept.id).expect("it goes on");
        assert!(again.notice.is_some_and(|notice| notice.contains("incomplete")));
        again.session.act(Action::CloseLid).expect("the lid closes");
        let then = std::fs::read(&path).expect("it is read");
        assert!(then.starts_with(&whole), "what was whole is kept");
        let added = String::from_utf8(then[whole.len()..].to_vec()).expect("text");
        assert_eq!(added.lines().count(), 1, "{added}");
        assert!(added.contains("close_lid"), "{added}");
    }

    #[test]
    fn without_a_folder_for_data_the_session_begins_and_says_so() {
        let storage = LocalStorage { scenarios: Some(scenarios()), ..LocalStorage::default() };
        let scenario = storage.scenarios().remove(0);
        let opened = storage.begin(&scenario.id, 3).expect("a session");
        assert!(opened.journal.is_none());
        assert!(opened.notice.is_some_and(|said| said.contains("No journal")));
    }

    #[test]
    fn a_report_takes_the_place_of_the_one_before() {
        let (storage, _folder) = storage();
        for content in ["first", "second"] {
            let at = storage.keep_report("abc", &[("a.txt", content.into())]).expect("it is kept");
            let folder = Path::new(&at);
            assert_eq!(std::fs::read_to_string(folder.join("a.txt")).expect("a file"), content);
            assert_eq!(std::fs::read_dir(folder).expect("the folder").count(), 1);
        }
    }

    #[test]
    fn settings_come_back_as_they_were_kept() {
        let (storage, _folder) = storage();
        assert_eq!(storage.settings().expect("nothing yet").text, None);
        storage.keep_settings("(text_percent: 150)").expect("they are kept");
        let kept = storage.settings().expect("they are read");
        assert_eq!(kept.text.as_deref(), Some("(text_percent: 150)"));
        assert!(kept.name.ends_with("settings.ron"));
    }
}
