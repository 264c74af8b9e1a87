//! How people put what they do, in their own words: `phrasings.txt`. Each line has a sentence and, as
//! JSON, the actions that it must give, or `ask back` where it does not say enough.
//!
//! An expected reason or an expected `seen` that is empty stands for any.

use content::sample;
use sim_core::field_book::FieldBook;
use sim_core::session::action::Action;
use sim_core::session::view::View;

use super::not_understood::NotUnderstood;
use super::read::parse;
use super::said::examples;
use super::sentence::Sentence;
use crate::request::Request;

const PHRASINGS: &str = include_str!("phrasings.txt");

/// A bench on which everything that is opened is shut and everything that is tightened is loose, so that
/// each move is made whole.
fn view_for(actions: &[Action]) -> View {
    let mut view = sample::view();
    let opens =
        actions.iter().any(|action| matches!(action, Action::TurnValve { quarter_turns: 1.., .. }));
    for leg in [&mut view.manometer.left, &mut view.manometer.right] {
        leg.valve_quarters = if opens { 0 } else { 4 };
    }
    view
}

fn phrasings() -> Vec<(&'static str, Option<Vec<Action>>)> {
    let lines = PHRASINGS.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    lines
        .map(|line| {
            let (sentence, expected) = line.split_once(" => ").expect(line);
            let actions = (expected != "ask back").then(|| {
                let read = |json: &str| serde_json::from_str(json).expect(line);
                expected.split(" + ").map(read).collect()
            });
            (sentence, actions)
        })
        .collect()
}

/// What was understood, with the words left out that the table leaves open.
fn comparable(said: Action, expected: Option<&Action>) -> Action {
    match (said, expected) {
        (Action::Decide { decision, .. }, Some(Action::Decide { reason, .. }))
            if reason.is_empty() =>
        {
            Action::Decide { decision, reason: String::new() }
        }
        (Action::Report(mut report), Some(Action::Report(expected)))
            if expected.seen.is_empty() =>
        {
            report.seen = String::new();
            Action::Report(report)
        }
        (said, _) => said,
    }
}

/// What a sentence gives on its bench.
fn given(sentence: &str, expected: &[Action]) -> Result<Vec<Action>, NotUnderstood> {
    let request = parse(sentence, &view_for(expected), &FieldBook::default())?;
    let actions = match request {
        Request::Do(actions) | Request::Anyway(actions) => actions,
        Request::Wait(seconds) => vec![Action::Wait { seconds }],
        other => panic!("{sentence}: {other:?}"),
    };
    let said = actions.into_iter().enumerate();
    Ok(said.map(|(at, action)| comparable(action, expected.get(at))).collect())
}

#[test]
fn what_people_say_is_understood_or_asked_back() {
    let mut wrong = Vec::new();
    for (sentence, expected) in phrasings() {
        let given = given(sentence, expected.as_deref().unwrap_or_default());
        match (expected, given) {
            (Some(expected), Ok(given)) if expected == given => {}
            (None, Err(_)) => {}
            (expected, given) => {
                wrong.push(format!("{sentence}\n  wanted {expected:?}\n  gave   {given:?}"))
            }
        }
    }
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), phrasings().len(), wrong.join("\n"));
}

#[test]
fn the_phrasings_are_many_and_none_is_of_the_help() {
    let phrasings = phrasings();
    assert!(phrasings.len() >= 300, "{}", phrasings.len());
    let asked_back = phrasings.iter().filter(|(_, expected)| expected.is_none()).count();
    assert!(asked_back >= 30, "{asked_back}");
    // Articles do not make another sentence.
    let words = |sentence: &str| {
        let tokens = Sentence::read(sentence).tokens.into_iter();
        tokens.map(|token| token.word).collect::<Vec<_>>()
    };
    let in_help: Vec<Vec<String>> = examples().map(words).collect();
    let mut seen: Vec<Vec<String>> = Vec::new();
    let mut wrong = Vec::new();
    for (sentence, _) in phrasings {
        let words = words(sentence);
        if seen.contains(&words) || in_help.contains(&words) {
            wrong.push(sentence);
        }
        seen.push(words);
    }
    assert!(wrong.is_empty(), "said twice, or in the help: {wrong:?}");
}
