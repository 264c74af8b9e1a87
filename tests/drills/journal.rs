//! A drill's journal: it replays to the same results, and a changed byte is named by its line.

use std::sync::{Arc, Mutex};

use sessions::{Durability, JournalFile, drill_records, read_drill_journal};
use sim_core::drill::journal::{DrillJournalError, DrillLine, DrillWriter, read};
use sim_core::drill::replay::replay;
use sim_core::drill::{Answer, DrillKind, DrillMove, DrillResult, DrillSeries};
use sim_core::session::journal::{JournalSink, SinkError};

#[derive(Clone, Default)]
struct Paper(Arc<Mutex<String>>);

impl Paper {
    fn text(&self) -> String {
        self.0.lock().unwrap().clone()
    }
}

impl JournalSink for Paper {
    fn write_line(&mut self, line: &str) -> Result<(), SinkError> {
        let mut text = self.0.lock().unwrap();
        text.push_str(line);
        text.push('\n');
        Ok(())
    }
}

/// A series of some questions, answered somehow: its journal and its results.
fn series(kind: DrillKind) -> (String, Vec<DrillResult>) {
    let paper = Paper::default();
    let mut series = DrillSeries::begin(kind, 77, 1_000, Box::new(paper.clone())).unwrap();
    for number in 0..4_u32 {
        if number > 0 {
            series.go_on().unwrap();
        }
        if number == 1 {
            // Refused where there is nothing of the kind.
            let _ = series.make(DrillMove::Eye { eye_mm: 12.5 });
            let _ = series.make(DrillMove::ReadInWords);
        }
        let choice = series.question().choices().last().map(|name| (*name).to_owned());
        let answer = choice.map_or(Answer::Number(f64::from(number) - 1.3), Answer::Choice);
        series.answer(answer, 3.25 + f64::from(number), 1_010 + u64::from(number)).unwrap();
    }
    let results = series.results().to_vec();
    series.end(1_100).unwrap();
    (paper.text(), results)
}

#[test]
fn a_journal_replays_to_the_same_results() {
    for kind in DrillKind::ALL {
        let (text, results) = series(kind);
        let journal = read(text.as_bytes()).unwrap();
        assert_eq!((journal.kind, journal.seed, journal.begun_unix_s), (kind, 77, 1_000));
        assert_eq!(journal.results().cloned().collect::<Vec<_>>(), results, "{kind}");
        assert_eq!(replay(&journal).unwrap(), results, "{kind}");
        assert!(!journal.cut_short);
    }
}

#[test]
fn a_changed_byte_is_named_by_its_line() {
    let (text, _) = series(DrillKind::Leg);
    for (number, line) in text.lines().enumerate() {
        let from = text.find(line).unwrap();
        for at in [0, 5, 16, 20, line.len() - 1] {
            let mut bytes = text.clone().into_bytes();
            bytes[from + at] ^= 1;
            let error = read(&bytes).unwrap_err().to_string();
            assert!(error.starts_with(&format!("line {}: ", number + 1)), "{number} {at}: {error}");
        }
        if number > 0 {
            let without = text.replacen(&format!("{line}\n"), "", 1);
            assert!(read(without.as_bytes()).is_err() || number + 1 == text.lines().count());
        }
    }
}

/// Every answer is safe before it is judged: after a power failure between the two, the replay judges it.
#[test]
fn an_answer_that_was_not_judged_any_more_is_judged_by_the_replay() {
    let (text, results) = series(DrillKind::Pen);
    let lines: Vec<&str> = text.lines().collect();
    let answered = lines.iter().rposition(|line| line.contains("Answered")).unwrap();
    assert!(lines[answered + 1].contains("Judged"));
    let kept = format!("{}\n{}", lines[..=answered].join("\n"), "0123 half a li");
    let journal = read(kept.as_bytes()).unwrap();
    assert!(journal.cut_short);
    assert_eq!(journal.results().count(), results.len() - 1);
    assert_eq!(replay(&journal).unwrap(), results);
}

/// A whole new chain over another result is found by the replay.
#[test]
fn a_result_that_does_not_follow_from_its_answer_is_found() {
    let (text, _) = series(DrillKind::Barometer);
    let journal = read(text.as_bytes()).unwrap();
    let paper = Paper::default();
    let mut writer = DrillWriter::new(Box::new(paper.clone()));
    let version = journal.version.clone();
    writer.write(&DrillLine::Drill { form: 1, version }).unwrap();
    let (kind, seed) = (journal.kind, journal.seed);
    writer.write(&DrillLine::Series { kind, seed, unix_s: 1_000 }).unwrap();
    let mut forged_line = 0;
    for (line, content) in &journal.lines {
        let mut content = content.clone();
        if let DrillLine::Judged(result) = &mut content
            && result.number == 2
        {
            result.right = true;
            forged_line = *line;
        }
        writer.write(&content).unwrap();
    }
    let forged = read(paper.text().as_bytes()).unwrap();
    assert_eq!(replay(&forged), Err(DrillJournalError::Differs { line: forged_line }));
}

#[test]
fn lines_in_another_order_or_of_another_version_are_refused() {
    let written = |lines: &[DrillLine]| {
        let paper = Paper::default();
        let mut writer = DrillWriter::new(Box::new(paper.clone()));
        for line in lines {
            writer.write(line).unwrap();
        }
        read(paper.text().as_bytes())
    };
    let head = |version: &str| DrillLine::Drill { form: 1, version: version.to_owned() };
    let begun = DrillLine::Series { kind: DrillKind::Leg, seed: 1, unix_s: 0 };
    let answered = |number, seconds| {
        let answer = Answer::Number(1.0);
        DrillLine::Answered { number, answer, seconds, unix_s: 0 }
    };
    let other = written(&[head("0.0.1"), begun.clone()]).unwrap();
    assert_eq!(replay(&other), Err(DrillJournalError::OtherVersion { found: "0.0.1".to_owned() }));
    let form = DrillLine::Drill { form: 9, version: "9.0.0".to_owned() };
    assert!(matches!(written(&[form, begun.clone()]), Err(DrillJournalError::OtherForm { .. })));
    for lines in [
        vec![answered(1, 1.0)],
        vec![answered(0, -1.0)],
        vec![answered(0, f64::NAN)],
        vec![answered(0, 1.0), answered(1, 1.0)],
        vec![answered(0, 1.0), DrillLine::Ended { unix_s: 0 }],
        vec![DrillLine::Ended { unix_s: 0 }, answered(0, 1.0)],
        vec![begun.clone()],
        vec![DrillLine::Moved { number: 3, made: DrillMove::ReadInWords }],
    ] {
        let all = [vec![head(sim_core::VERSION), begun.clone()], lines.clone()].concat();
        let error = written(&all).unwrap_err();
        assert!(matches!(error, DrillJournalError::Unreadable { .. }), "{lines:?}: {error}");
    }
    let session = "4a5e1e4baab89f3a Journal(form:2,version:\"0.3.0\")\n";
    let error = read(session.as_bytes()).unwrap_err();
    assert_eq!(error, DrillJournalError::NotADrill { line: 1 });
    assert_eq!(read(b"").unwrap_err(), DrillJournalError::NotADrill { line: 1 });
    assert_eq!(read(&[0xff, b'\n']).unwrap_err(), DrillJournalError::NotADrill { line: 1 });
}

/// A sink that fails from some line on.
struct Fails(u32);

impl JournalSink for Fails {
    fn write_line(&mut self, _line: &str) -> Result<(), SinkError> {
        self.0 = self.0.checked_sub(1).ok_or_else(|| SinkError("the disk is full".to_owned()))?;
        Ok(())
    }
}

#[test]
fn an_answer_that_cannot_be_kept_is_not_judged() {
    let mut series = DrillSeries::begin(DrillKind::Leg, 1, 0, Box::new(Fails(2))).unwrap();
    assert!(series.answer(Answer::Number(1.0), 1.0, 0).is_err());
    assert!(series.results().is_empty());
    assert!(series.go_on().is_err(), "the question stays open");
    assert!(DrillSeries::begin(DrillKind::Leg, 1, 0, Box::new(Fails(1))).is_err());
}

/// What a summary of a person reads: every attempt in a folder, the oldest first, and what was left out.
#[test]
fn results_are_read_from_a_folder_of_journals() {
    let folder = tempfile::tempdir().unwrap();
    let inner = folder.path().join("older");
    std::fs::create_dir(&inner).unwrap();
    for (path, kind, unix_s) in [
        (folder.path().join("b.drill"), DrillKind::Pen, 5_000),
        (inner.join("a.drill"), DrillKind::Leg, 4_000),
    ] {
        let file = JournalFile::create(&path, Durability::EachLine).unwrap();
        let mut series = DrillSeries::begin(kind, 3, unix_s, Box::new(file)).unwrap();
        for number in 0..3 {
            if number > 0 {
                series.go_on().unwrap();
            }
            series.answer(Answer::Number(2.0), 4.0, unix_s + number).unwrap();
        }
    }
    std::fs::write(folder.path().join("broken.drill"), "nothing").unwrap();
    std::fs::write(folder.path().join("session.journal"), "nothing").unwrap();
    let records = drill_records(&[folder.path().to_owned()]).unwrap();
    let kinds: Vec<DrillKind> = records.results.iter().map(|result| result.kind).collect();
    assert_eq!(kinds, [[DrillKind::Leg; 3], [DrillKind::Pen; 3]].concat());
    assert_eq!(records.of(DrillKind::Leg).count(), 3);
    let standing = records.standing(DrillKind::Leg);
    assert_eq!((standing.attempts, standing.of_last, standing.good_enough), (3, 3, false));
    assert_eq!(records.left_out.len(), 1);
    assert!(records.left_out[0].1.contains("broken.drill: line 1: "), "{:?}", records.left_out);
    let path = folder.path().join("b.drill");
    assert_eq!(replay(&read_drill_journal(&path).unwrap()).unwrap().len(), 3);
    assert!(drill_records(&[folder.path().join("missing")]).is_err());
}
