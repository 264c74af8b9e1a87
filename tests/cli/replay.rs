//! `replay`: what holds, what does not and where, and the exit statuses.

use bench_tests::program::run;
use insta::assert_snapshot;
use sim_core::session::journal::{Chain, FORM};

use super::desk::{desk, object, refused, refused_as_json, rehearsed};

/// What `replay` says about the bytes of a journal.
#[track_caller]
fn said_about(bytes: &[u8]) -> String {
    let desk = desk();
    std::fs::write(desk.path().join("a.journal"), bytes).unwrap();
    let plain = refused(desk.path(), &["replay", "a.journal"]);
    assert_eq!(refused_as_json(desk.path(), &["replay", "a.journal"]), plain);
    plain
}

#[test]
fn a_whole_journal_is_marked_as_it_was() {
    let desk = desk();
    rehearsed(&desk);
    let marks = std::fs::read_to_string(desk.path().join("out/marks.json")).unwrap();
    let marks: serde_json::Value = serde_json::from_str(&marks).unwrap();
    let said = run(desk.path(), &["replay", "out/session.journal", "--json"]);
    assert_eq!(said.status, 0);
    let replayed = object(&said);
    for key in ["marks", "journal_head", "scenario_sha256", "seed", "ended", "bench_seconds"] {
        assert_eq!(replayed[key], marks[key], "{key}");
    }
    assert!(replayed["checksums"].as_u64().unwrap() > 20);
    let words = run(desk.path(), &["replay", "out/session.journal"]);
    assert_eq!((words.status, words.error.as_str()), (0, ""));
    assert!(words.out.starts_with("The journal is intact: "), "{}", words.out);
    assert!(words.out.contains(marks["journal_head"].as_str().unwrap()), "{}", words.out);
}

#[test]
fn a_journal_that_was_cut_is_status_1() {
    let desk = desk();
    let journal = rehearsed(&desk);
    let path = desk.path().join("cut.journal");
    let lines: Vec<&str> = journal.split_inclusive('\n').collect();
    std::fs::write(&path, lines[..100].concat()).unwrap();
    let said = run(desk.path(), &["replay", "cut.journal"]);
    assert_eq!((said.status, said.error.as_str()), (1, ""));
    assert!(said.out.contains("The session has not ended"), "{}", said.out);
    let said = run(desk.path(), &["replay", "cut.journal", "--json"]);
    assert_eq!((said.status, &object(&said)["ended"]), (1, &serde_json::Value::Null));
    // The last line is incomplete: it is said, although the session had been signed.
    std::fs::write(&path, &journal[..journal.len() - 1]).unwrap();
    let said = run(desk.path(), &["replay", "cut.journal"]);
    assert_eq!(said.status, 1);
    assert!(said.out.contains("Its last line is incomplete and was left out."), "{}", said.out);
    let said = run(desk.path(), &["replay", "cut.journal", "--json"]);
    assert_eq!((said.status, &object(&said)["last_line_broken"]), (1, &true.into()));
}

#[test]
fn an_edited_journal_is_told_with_its_line() {
    let desk = desk();
    let journal = rehearsed(&desk);
    let line = journal.lines().position(|line| line.contains("3.40")).unwrap() + 1;
    let said = said_about(journal.replacen("3.40", "3.45", 1).as_bytes());
    assert_snapshot!(said.replace(&format!("line {line}:"), "line [3.40]:"), @"a.journal: line [3.40]: this line does not follow from the lines before it: it was changed, or lines were removed or inserted here; use an unchanged copy of the journal");
    // A byte that is no text any more.
    let mut bytes = journal.clone().into_bytes();
    let at = journal.find("3.40").unwrap();
    bytes[at] |= 0x80;
    assert_eq!(said_about(&bytes), said);
}

#[test]
fn what_is_no_journal_of_this_program_says_so() {
    let desk = desk();
    let journal = rehearsed(&desk);
    assert_snapshot!(said_about(b""), @"a.journal: the journal is empty: give a file that a session wrote");
    assert_snapshot!(said_about(b"\x7fELF\xff\xfe\x00\n\x00"), @"a.journal: line 1: this is not the journal of a session: give a file that a session wrote");
    assert_snapshot!(said_about(super::desk::first().as_bytes()), @"a.journal: line 1: this is not the journal of a session: give a file that a session wrote");
    assert_snapshot!(said_about(journal.lines().next().unwrap().as_bytes()), @"a.journal: line 1: this is not the journal of a session: give a file that a session wrote");
    let head: String = journal.split_inclusive('\n').take(2).collect();
    assert_snapshot!(said_about(head.as_bytes()), @"a.journal: line 2: the journal ends before its session begins: there is nothing to replay, so begin a new session");
    let other = Chain::default().add(&format!("Journal(form:{FORM},version:\"0.0.9\")")) + "\n";
    assert_snapshot!(said_about(other.as_bytes()).replace(sim_core::VERSION, "[THIS]"), @"a.journal: line 1: the journal was written by version 0.0.9, and this is version [THIS]: only the same version gives the same session, so replay it with version 0.0.9");
    let other = Chain::default().add("Journal(form:1,version:\"0.1.0\")") + "\n";
    assert_snapshot!(said_about(other.as_bytes()), @"a.journal: line 1: the journal has format 1, and this program reads format 2: replay it with version 0.1.0, which wrote it");
}

#[test]
fn a_folder_in_place_of_a_report_is_told_with_what_to_do() {
    let desk = desk();
    rehearsed(&desk);
    std::fs::create_dir_all(desk.path().join("report/report.html")).unwrap();
    std::fs::create_dir_all(desk.path().join("progress/progress.pdf")).unwrap();
    std::fs::create_dir_all(desk.path().join("again/session.journal")).unwrap();
    for arguments in [
        &["replay", "out/session.journal", "--out", "report", "--replace"][..],
        &["progress", "out", "--out", "progress", "--replace"],
        &["rehearse", "first.ron", "--out", "again", "--replace"],
    ] {
        let said = refused(desk.path(), arguments);
        let mend = ": there is a folder of that name: choose another folder, or move that one away";
        assert!(said.starts_with("cannot create ") && said.ends_with(mend), "{said}");
    }
    assert!(!desk.path().join("report/report.pdf").exists(), "nothing is written by halves");
}
