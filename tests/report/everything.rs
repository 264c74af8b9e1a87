//! A report with every finding and every fault that there can be, and one with none.

use report::paper::PaperSize;
use report::session::SessionReport;
use report::{html, pdf};
use sessions::{MarkedSession, mark_ended};
use sim_core::fault::{Fault, sheets};
use sim_core::marking::{FaultJudged, FaultVerdict};
use sim_core::operator;
use sim_core::procedure::{ProcedureFinding, RULES};
use sim_core::session::Session;
use sim_core::session::journal::NullSink;
use sim_core::time::Tick;

use super::browser::Browser;
use super::desk::paper_text;
use super::screen::is_right;

/// A session without a finding.
fn clean() -> MarkedSession {
    let path = bench_tests::repository().join("scenarios/01_first_calibration.ron");
    let text = std::fs::read_to_string(path).unwrap();
    let mut session = Session::begin(&text, 1, Box::new(NullSink)).unwrap();
    let mut hands = operator::by_name("careful", 1).unwrap();
    operator::rehearse(&mut session, hands.as_mut()).unwrap();
    mark_ended(session).unwrap()
}

/// The same with a finding of every rule, spread over the session, and every fault, missed.
fn everything() -> MarkedSession {
    let mut ended = clean();
    let end = ended.session.end_tick.0;
    let finding =
        |(index, rule): (usize, &&'static sim_core::procedure::ProcedureRule)| ProcedureFinding {
            rule: rule.id,
            title: rule.title,
            why: rule.why,
            severity: rule.severity,
            critical: false,
            decisive: index % 3 == 0,
            phase: rule.phase,
            source: rule.source,
            repair: rule.repair,
            tick: Tick(end * index as u64 / RULES.len() as u64),
            point: (index % 4 == 0).then_some(3),
            evidence: format!("shown by {index}: read 3.4 in where 3.38 in was visible"),
        };
    ended.marks.findings = RULES.iter().enumerate().map(finding).collect();
    ended.marks.gate = ended.marks.findings.first().cloned();
    ended.marks.passed = false;
    ended.marks.faults = Fault::examples()
        .map(|fault| FaultJudged {
            place: fault.place(),
            fault: Some(fault),
            what: fault.sheet().title.to_owned(),
            reported: None,
            suspected: None,
            response: None,
            verdict: FaultVerdict::Missed,
        })
        .collect();
    ended
}

/// Writes page and paper, looks at both, and gives the paper's words.
#[track_caller]
fn looked_at(ended: &MarkedSession, browser: &mut Browser) -> String {
    let folder = tempfile::tempdir().unwrap();
    let document = SessionReport::of(ended, None).document();
    let (page, paper) = (folder.path().join("report.html"), folder.path().join("report.pdf"));
    std::fs::write(&page, html::page(&document).unwrap()).unwrap();
    std::fs::write(&paper, pdf::file(&document, PaperSize::default()).unwrap()).unwrap();
    for width in [360, 1280] {
        is_right(browser, &page, width);
    }
    paper_text(&paper).split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_report_of_everything_has_all_of_it() {
    let ended = everything();
    let mut browser = Browser::start();
    let paper = looked_at(&ended, &mut browser);
    for rule in RULES {
        assert!(paper.contains(rule.title), "{} is not on the paper", rule.id);
    }
    for sheet in sheets() {
        assert!(paper.contains(sheet.title), "{} is not on the paper", sheet.name);
        let sign: Vec<&str> = sheet.sign.split_whitespace().take(4).collect();
        assert!(paper.contains(&sign.join(" ")), "the sign of {} is not on the paper", sheet.name);
    }
}

#[test]
fn a_report_of_nothing_says_so() {
    let ended = clean();
    assert!(ended.marks.findings.is_empty() && ended.marks.faults.is_empty());
    let mut browser = Browser::start();
    let paper = looked_at(&ended, &mut browser);
    for words in [
        "None: every rule that the work came to was followed.",
        "There were no faults, and none was reported.",
        "not given",
    ] {
        assert!(paper.contains(words), "{words}");
    }
}
