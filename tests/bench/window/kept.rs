//! The sessions that are kept, as the list shows them.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

use bevy::input::keyboard::{Key, KeyCode};
use sessions::{
    Durability, FrontEndError, JournalFile, KeptSession, KeptText, LiveSession, LocalStorage,
    MarksGot, Opened, ScenarioCard, Storage, StorageId,
};
use sim_core::session::Session;
use sim_core::session::action::Action;

use super::harness::{Bench, scenarios};
use super::layout;

/// A journal of the first scenario that was broken off after some minutes.
fn broken_off(folder: &Path, seed: u64) -> PathBuf {
    let data = folder.join("data");
    std::fs::create_dir_all(&data).expect("a folder");
    let text = std::fs::read_to_string(scenarios().join("01_first_calibration.ron"));
    let path = data.join(format!("kept-{seed}.journal"));
    let file = JournalFile::create(&path, Durability::AtClose).expect("a journal");
    let mut session =
        Session::begin(&text.expect("a scenario"), seed, Box::new(file)).expect("a session");
    session.act(Action::OpenLid).expect("the lid opens");
    session.advance(20 * 60 * seed).expect("time passes");
    session.act(Action::CloseLid).expect("the lid closes");
    path
}

fn listed(folder: tempfile::TempDir, size: (u32, u32), text_percent: u16) -> Bench {
    Bench::opened(folder, scenarios(), size, text_percent)
}

#[test]
fn every_session_is_listed_however_many_there_are() {
    let folder = tempfile::tempdir().expect("a folder");
    for seed in 1..=9 {
        broken_off(folder.path(), seed);
    }
    let mut bench = listed(folder, (1280, 800), 100);
    for minutes in 1..=9 {
        assert!(bench.is_there(&format!("First calibration, {minutes} min in")), "{minutes} min");
    }
    // The next rig is one on which none of them was had.
    let rig = bench.value_of("rig number: each number sets up a different rig");
    assert_eq!(rig.as_deref(), Some("10"));
}

#[test]
fn help_and_settings_are_in_sight_however_long_the_list_is() {
    for size in [(1280, 720), (1280, 800), (1920, 1080)] {
        let folder = tempfile::tempdir().expect("a folder");
        for seed in 1..=12 {
            broken_off(folder.path(), seed);
        }
        let mut bench = listed(folder, size, 200);
        let told = window::ui::told::told(bench.app.world_mut());
        for label in ["F1 help", "F2 settings"] {
            let one = told.iter().find(|one| one.label == label).expect("it is told");
            let [_, top, _, foot] = one.seen.expect("it is in sight");
            assert!(foot - top > 8.0, "{label} is cut at {size:?}: {:?}", one.seen);
        }
    }
}

#[test]
fn the_last_of_many_sessions_is_gone_to_by_keys_and_goes_on() {
    let folder = tempfile::tempdir().expect("a folder");
    for seed in 1..=30 {
        broken_off(folder.path(), seed);
    }
    let mut bench = listed(folder, (1280, 800), 100);
    bench.tab_to_label("First calibration, 1 min in");
    let told = window::ui::told::told(bench.app.world_mut());
    let focus = told.iter().find(|one| one.focus).expect("it has the focus");
    assert!(focus.seen.is_some(), "it is scrolled to where it can be seen");
    bench.press(Key::Enter, KeyCode::Enter);
    bench.rest(6);
    assert_eq!(bench.view().tick.whole_seconds() / 60, 1);
}

#[test]
fn a_list_of_many_sessions_is_whole() {
    for percent in [100, 200] {
        let folder = tempfile::tempdir().expect("a folder");
        for seed in 1..=12 {
            broken_off(folder.path(), seed);
        }
        let mut bench = listed(folder, (1280, 800), percent);
        layout::check(&mut bench, (1280, 800), &format!("many sessions, {percent} %"));
    }
}

#[test]
fn a_session_of_another_version_says_which_version_opens_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = broken_off(folder.path(), 1);
    let text = std::fs::read_to_string(&path).expect("the journal");
    let this = format!("version:\"{}\"", sim_core::VERSION);
    assert!(text.contains(&this), "{text}");
    std::fs::write(&path, text.replace(&this, "version:\"0.0.7\"")).expect("it is written");
    let mut bench = listed(folder, (1280, 800), 100);
    let shown = bench.on_screen();
    let said = shown.lines().find(|line| line.contains("0.0.7")).expect("it is listed");
    assert!(said.starts_with("First calibration"), "{said}");
    assert!(!bench.is_there("First calibration, 1 min in"), "it cannot be opened here");
}

#[test]
fn only_the_ends_of_a_journal_are_read_for_the_list() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = broken_off(folder.path(), 3);
    let text = std::fs::read_to_string(&path).expect("the journal");
    let changed = text.replacen("open_lid", "tap", 1);
    assert_ne!(text, changed, "nothing was changed in the middle");
    std::fs::write(&path, changed).expect("it is written");
    let mut bench = listed(folder, (1280, 800), 100);
    // Who opens it is told that it was changed.
    bench.tab_to_label("First calibration, 3 min in");
    bench.press(Key::Enter, KeyCode::Enter);
    bench.rest(6);
    assert!(bench.on_screen().contains("was changed"), "{}", bench.on_screen());
    assert!(bench.is_there("First calibration, 3 min in"), "it stays on the list");
}

/// A storage whose list of kept sessions is not read before it may be.
#[derive(Debug)]
struct Slow {
    local: LocalStorage,
    may_read: Arc<Mutex<()>>,
}

impl Storage for Slow {
    fn scenarios(&self) -> Vec<ScenarioCard> {
        self.local.scenarios()
    }

    fn kept_sessions(&self) -> Vec<KeptSession> {
        let _turn = self.may_read.lock().expect("nobody gave up");
        self.local.kept_sessions()
    }

    fn begin(&self, scenario: &StorageId, seed: u64) -> Result<Opened, FrontEndError> {
        self.local.begin(scenario, seed)
    }

    fn resume(&self, session: &StorageId) -> Result<Opened, FrontEndError> {
        self.local.resume(session)
    }

    fn replay_ended(&self, session: &StorageId) -> Result<Box<dyn LiveSession>, FrontEndError> {
        self.local.replay_ended(session)
    }

    fn marks_got(&self, session: &StorageId) -> Option<MarksGot> {
        self.local.marks_got(session)
    }

    fn settings(&self) -> Result<KeptText, FrontEndError> {
        self.local.settings()
    }

    fn keep_settings(&self, text: &str) -> Result<(), FrontEndError> {
        self.local.keep_settings(text)
    }

    fn wall_clock_s(&self) -> u64 {
        self.local.wall_clock_s()
    }

    fn keep_report(&self, name: &str, files: &[(&str, Vec<u8>)]) -> Result<String, FrontEndError> {
        self.local.keep_report(name, files)
    }
}

#[test]
fn the_window_goes_on_while_the_list_is_read() {
    let folder = tempfile::tempdir().expect("a folder");
    broken_off(folder.path(), 2);
    let local = LocalStorage {
        scenarios: Some(scenarios()),
        data: Some(folder.path().join("data")),
        ..LocalStorage::default()
    };
    let may_read = Arc::new(Mutex::new(()));
    let slow = Slow { local, may_read: Arc::clone(&may_read) };
    let turn = may_read.lock().expect("nobody gave up");
    let mut bench = Bench::built(folder, Arc::new(slow), (1280, 800), 100);
    for _ in 0..20 {
        bench.app.update();
    }
    let shown = bench.on_screen();
    assert!(shown.contains("is being read"), "{shown}");
    assert!(shown.contains("F1 help"), "{shown}");
    drop(turn);
    bench.rest(4);
    let shown = bench.on_screen();
    assert!(!shown.contains("is being read"), "{shown}");
    assert!(shown.contains("First calibration, 2 min in"), "{shown}");
    assert_eq!(bench.label_of_focus().as_deref(), Some("First calibration, 2 min in"));
}
