//! Talks from the first word to the last.

use std::path::{Path, PathBuf};

use sessions::{Outcome, open_session};

use super::Talk;

fn scenario() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios/03_a_new_blower.ron")
}

/// What is said in a talk, and how the session ends; nothing when the talker leaves before.
fn talk(said: &str, journal: Option<&Path>, resume: Option<&Path>) -> (String, Option<Outcome>) {
    talk_of(resume.is_none().then(scenario), said, journal, resume)
}

/// The same of another scenario.
fn talk_of(
    begun: Option<PathBuf>,
    said: &str,
    journal: Option<&Path>,
    resume: Option<&Path>,
) -> (String, Option<Outcome>) {
    let opened = open_session(begun, 1, journal.map(Into::into), resume.map(Into::into));
    let mut out = Vec::new();
    let ended =
        Talk::new(opened.expect("a session")).run(&mut said.as_bytes(), &mut out).expect("a talk");
    let passed = ended.map(|ended| ended.finish().expect("marks").marks.passed);
    let outcome = passed.map(|passed| if passed { Outcome::Done } else { Outcome::Negative });
    (String::from_utf8(out).expect("words"), outcome)
}

#[test]
fn who_leaves_is_told_whether_a_journal_is_kept_and_where_the_work_stood() {
    let (text, outcome) = talk("look at sky\n", None, None);
    assert!(text.contains("No journal is kept"), "{text}");
    assert!(text.trim_end().ends_with("no journal of it was kept."), "{text}");
    assert_eq!(outcome, None);

    let name = format!("steady-draw-talk-{}.journal", std::process::id());
    let path = std::env::temp_dir().join(name);
    let _ = std::fs::remove_file(&path);
    let (text, _) = talk("look at sky\nunplug sampler\nquit\n", Some(&path), None);
    assert!(!text.contains("No journal"), "{text}");
    assert!(text.contains("drive --words --resume"), "{text}");
    let (text, _) = talk("quit\n", None, Some(&path));
    assert!(text.contains("You are back"), "{text}");
    assert!(text.contains("look at the sky; unplug the sampler"), "{text}");
    assert!(text.contains("Mounted: the hold-down frame, the filter."), "{text}");
    std::fs::remove_file(&path).expect("it is there");
}

#[test]
fn a_book_with_blanks_is_signed_only_when_asked_twice() {
    let (text, outcome) = talk("sign\nlook at sky\nsign\n", None, None);
    assert_eq!(text.matches("Say `sign` again").count(), 2, "{text}");
    assert_eq!(outcome, None, "{text}");
    let (text, outcome) = talk("sign\nsign\n", None, None);
    assert_eq!(outcome, Some(Outcome::Negative), "{text}");
}

#[test]
fn a_site_that_is_not_ready_is_left_only_when_asked_twice() {
    let run = scenario().with_file_name("27_from_set_point_to_volume.ron");
    let (text, _) = talk_of(Some(run.clone()), "leave site\nlook at sky\nquit\n", None, None);
    assert!(text.contains("lacks: the filter's number; "), "{text}");
    assert!(text.contains("Say `leave site` again"), "{text}");
    assert!(!text.contains("You are back at the site"), "{text}");
    let (text, _) = talk_of(Some(run), "leave site\nleave site\nquit\n", None, None);
    assert!(text.contains("You are back at the site"), "{text}");
}

#[test]
fn a_caution_is_said_once_and_what_is_done_is_said_back() {
    let said = "unplug sampler\nplug in sampler\ntap it 3 times\nlisten\nask what now\n\
        write temperature cold\nreport calibrator gasket missing, repaired\nbook\n";
    let (text, _) = talk(said, None, None);
    assert_eq!(text.matches("Caution: At a mains outlet").count(), 1, "{text}");
    assert!(!text.contains("Caution: Caution"), "{text}");
    for part in [
        "You tap the recorder's case 3 times.",
        "Nothing is running: it is quiet.",
        "Look where you stand",
        "Your request is logged.",
        "`cold` is not a number",
        "Reported: mounting, no gasket under the calibrator, repaired.",
        "  set point, chart        ____",
        "mounting: no gasket under the calibrator, repaired",
    ] {
        assert!(text.contains(part), "{part} in {text}");
    }
}

#[test]
fn edge_ladder_and_sky_are_cautioned_about_before_the_work_and_once() {
    let (text, _) = talk("look at roof edge\nleave roof\n", None, None);
    let start = text.find("Say what you do").expect("the start");
    for words in ["roof edge, work behind a guard", "Face the ladder", "At the first thunder"] {
        assert_eq!(text.matches(words).count(), 1, "{words} in {text}");
        assert!(text.find(words).is_some_and(|at| at < start), "{words} comes late: {text}");
    }
}

#[test]
fn show_me_gives_sentences_that_are_understood() {
    let (text, _) = talk("show me\n", None, None);
    let said =
        "Say: `look at the roof edge`, then `look at the sky`, then `look at the work order`";
    assert!(text.contains(said), "{text}");
}

/// A character that would steer a terminal, other than the end of a line.
fn steers(c: char) -> bool {
    c != '\n' && crate::printable(&c.to_string()).chars().ne([c])
}

#[test]
fn nothing_that_was_written_steers_the_terminal() {
    let folder = std::env::temp_dir().join(format!("steady-draw-hostile-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let journal = folder.join("\u{1b}[31mtalk.journal");
    let said = "look\nsing\u{1b}[31m\nwrite custody \u{202e}me\u{2028}Passed\n\
        open door\nmark chart \"\u{2067}1\"\nreport tube \u{200f}cracked\u{2029}, noted\nwrite slope \u{202a}x\n\
        write slope 3\nbook\n";
    let (text, _) = talk(said, Some(&journal), None);
    assert!(text.contains("\\u{202e}me\\u{2028}Passed"), "{text:?}");
    assert!(text.contains("\\u{1b}[31mtalk.journal"), "{text:?}");
    assert!(!text.contains(steers), "{text:?}");
    let (text, _) = talk("book\nlook at recorder\n", None, Some(&journal));
    assert!(text.contains("You are back"), "{text:?}");
    assert!(text.contains("\"\\u{2067}1\" is marked near"), "{text:?}");
    assert!(!text.contains(steers), "{text:?}");
    std::fs::remove_dir_all(&folder).expect("it is there");
}

#[test]
fn who_signs_is_told_what_is_undone_and_may_sign_anyway() {
    let (text, outcome) = talk("unplug the blower\nopen the door and sign\n", None, None);
    assert!(text.contains("Still undone: the blower is not plugged in;"), "{text}");
    assert!(text.contains("the recorder's door is open"), "{text}");
    assert!(text.contains("The field book lacks: "), "{text}");
    assert!(text.contains("or `sign anyway`"), "{text}");
    assert_eq!(outcome, None, "{text}");
    let (text, outcome) = talk("sign anyway\n", None, None);
    assert!(!text.contains("Still undone"), "{text}");
    assert_eq!(outcome, Some(Outcome::Negative), "{text}");
    let (text, _) = talk("what is still missing\n", None, None);
    assert!(text.contains("The field book lacks: "), "{text}");
}

#[test]
fn the_situation_is_told_before_the_work_and_the_musts_beneath_the_order() {
    let (text, _) = talk("read the work order\nhelp musts\n", None, None);
    assert!(text.contains("A depot, early on a September morning."), "{text}");
    assert!(text.contains("The mandatory steps of this visit"), "{text}");
    assert!(text.contains("No power and no motion before hands go in"), "{text}");
    assert!(!text.contains("intercept reveal it"), "the lesson is told after the work: {text}");
}

#[test]
fn who_wants_to_undo_an_entry_is_told_how_to_strike_it_out() {
    let said = "write temperature 12\nundo\nstrike temperature\nbook\n";
    let (text, _) = talk(said, None, None);
    assert!(text.contains("say `strike point 3`"), "{text}");
    assert!(text.contains("Struck out: temperature"), "{text}");
    assert!(text.contains("temperature, C: 12"), "it stays legible: {text}");
}
