//! What an operator thinks: that it changes nothing, and that nothing is reported or decided without it.

use sim_core::field_book::Decision;
use sim_core::operator::{Thought, by_name, rehearse, rehearse_explained};
use sim_core::session::Session;
use sim_core::session::action::Action;
use sim_core::session::ended_session::EndedSession;
use sim_core::session::journal::NullSink;
use sim_core::time::Tick;

/// The texts of the scenarios that come with the program, by name.
fn scenarios() -> Vec<(String, String)> {
    let folder = bench_tests::repository().join("scenarios");
    let files = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut found: Vec<_> = files
        .filter(|path| path.extension().is_some_and(|ending| ending == "ron"))
        .map(|path| {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            (name, std::fs::read_to_string(&path).unwrap())
        })
        .collect();
    found.sort();
    found
}

/// A session with the thoughts of its operator.
fn explained(text: &str, operator: &str, seed: u64) -> (EndedSession, Vec<(Tick, Thought)>) {
    let mut session = Session::begin(text, seed, Box::new(NullSink)).unwrap();
    let mut thoughts = Vec::new();
    let mut hears = |tick, thought| thoughts.push((tick, thought));
    rehearse_explained(&mut session, by_name(operator, seed).unwrap().as_mut(), &mut hears)
        .unwrap();
    (session.open().unwrap(), thoughts)
}

/// A report or a decision is planned when the thought comes, and done once the hands are free from what
/// was planned before it, s.
const AT_MOST_LATER_S: f64 = 180.0;

/// What an action concludes, as the thought must say it.
fn concluded(action: &Action) -> Option<String> {
    match action {
        Action::Report(report) => Some(report.words()),
        Action::Decide { decision, reason } => Some(decision.entry(reason)),
        _ => None,
    }
}

/// Whether a thought only says what is done about something.
fn is_conclusion(text: &str) -> bool {
    ["Reports", "Decides", "Gives up"].iter().any(|begins| text.starts_with(begins))
}

#[test]
fn thoughts_change_nothing() {
    for (name, text) in scenarios() {
        let first = name.starts_with("01");
        let habits = first.then_some("hurried+one-leg+sees-faults");
        for operator in std::iter::once("careful").chain(habits) {
            let mut session = Session::begin(&text, 11, Box::new(NullSink)).unwrap();
            rehearse(&mut session, by_name(operator, 11).unwrap().as_mut()).unwrap();
            let silent = session.open().unwrap();
            let (spoken, thoughts) = explained(&text, operator, 11);
            assert_eq!(silent.head, spoken.head, "{name}, {operator}");
            assert_eq!(silent.end_tick, spoken.end_tick);
            assert!(thoughts.len() > 5, "{name}, {operator}: {thoughts:?}");
        }
    }
}

#[test]
fn every_report_and_every_decision_follows_from_something_seen() {
    let (mut reports, mut decisions) = (0, 0);
    for (name, text) in scenarios() {
        let seed = 3;
        let (ended, thoughts) = explained(&text, "careful", seed);
        assert!(thoughts.is_sorted_by_key(|(tick, _)| *tick), "{name}");
        for moment in &ended.events {
            let Some(said) = concluded(&moment.action) else { continue };
            let place = format!("{name}, seed {seed}, {}: {said}", moment.tick.seconds());
            let concludes = |(tick, thought): &(Tick, Thought)| {
                *tick <= moment.tick && is_conclusion(&thought.text) && thought.text.contains(&said)
            };
            let index = thoughts.iter().rposition(concludes).expect(&place);
            let (at, _) = &thoughts[index];
            assert!(moment.tick.seconds_since(*at) <= AT_MOST_LATER_S, "{place}: too long before");
            // What was seen stands before it, at the same moment.
            let seen = thoughts[..index].iter().rev().take_while(|(tick, _)| tick == at);
            let seen = seen.filter(|(_, thought)| !is_conclusion(&thought.text)).count();
            assert!(seen > 0, "{place}: nothing was seen");
            match moment.action {
                Action::Report(_) => reports += 1,
                _ => decisions += 1,
            }
        }
    }
    assert!(reports > 20 && decisions > 30, "{reports} reports, {decisions} decisions");
}

#[test]
fn a_leak_is_explained_by_what_was_heard_and_by_the_limit() {
    let text = scenarios().swap_remove(2).1;
    let (ended, thoughts) = explained(&text, "careful", 2);
    let of = |phase: &str| {
        let of = thoughts.iter().filter(|(_, thought)| thought.phase == phase);
        of.map(|(_, thought)| thought.text.as_str()).collect::<Vec<_>>()
    };
    assert!(
        of("mounting").iter().any(|text| text.starts_with("There is no gasket")),
        "{thoughts:?}"
    );
    let leak = of("leak check");
    assert!(leak.iter().any(|text| text.ends_with("and nothing hissed: no leak.")), "{leak:?}");
    assert!(leak.iter().any(|text| text.contains("a leak is suspected above 4.4")), "{leak:?}");
    let accepted = Decision::CalibrationAccepted { line_moved: false }.entry("");
    assert!(
        of("calculations").contains(&format!("Decides on the calibration: {accepted}.").as_str())
    );
    // Numbers are told with the limit against which they were held.
    let line =
        of("calculations").into_iter().find(|text| text.starts_with("The line through 7 points"));
    assert!(
        line.is_some_and(|text| text.contains("at least 0.99") && text.contains("at most 0.04")),
        "{line:?}"
    );
    assert_eq!(ended.events.iter().filter(|m| matches!(m.action, Action::Sign)).count(), 1);
    assert_eq!(of("signature").len(), 1);
}
