//! A whole first calibration in the words of somebody who had not seen the help, said to a bench from
//! the first look to the signature: `first_calibration.txt`.

use std::path::Path;

use sessions::{LiveSession, open_session};
use sim_core::session::ActError;
use sim_core::session::action::Action;

use crate::parse::parse;
use crate::request::Request;
use crate::script::Step;

const SPOKEN: &str = include_str!("first_calibration.txt");

/// What became of a sentence.
enum Heard {
    Done,
    NotUnderstood(String),
    Refused(String),
}

fn say(session: &mut dyn LiveSession, sentence: &str) -> Heard {
    let steps = match parse(sentence, &session.view(), session.book()) {
        Ok(Request::Do(actions) | Request::Anyway(actions)) => {
            actions.into_iter().map(Step::Do).collect()
        }
        Ok(Request::Wait(seconds)) => vec![Step::Wait(seconds)],
        Ok(Request::Settle(settling)) => vec![Step::Settle(settling)],
        Ok(_) => Vec::new(),
        Err(error) => return Heard::NotUnderstood(error.to_string()),
    };
    for step in steps {
        match step.take(session) {
            Ok(()) => {}
            Err(ActError::Refused(refusal)) => return Heard::Refused(refusal.to_string()),
            Err(error) => panic!("{sentence}: {error}"),
        }
    }
    Heard::Done
}

#[test]
fn a_first_calibration_is_understood_as_people_say_it() {
    let scenario =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios/01_first_calibration.ron");
    let mut session = open_session(Some(scenario), 1, None, None).expect("it opens").session;
    let sentences: Vec<&str> = SPOKEN.lines().collect();
    assert!(sentences.len() >= 120, "{}", sentences.len());
    let (mut not_understood, mut refused) = (Vec::new(), Vec::new());
    for sentence in &sentences {
        match say(session.as_mut(), sentence) {
            Heard::Done => {}
            Heard::NotUnderstood(why) => not_understood.push(format!("{sentence}: {why}")),
            Heard::Refused(why) => refused.push(format!("{sentence}: {why}")),
        }
    }
    assert!(
        20 * not_understood.len() < sentences.len(),
        "{} of {}:\n{}",
        not_understood.len(),
        sentences.len(),
        not_understood.join("\n")
    );
    assert!(20 * refused.len() < sentences.len(), "{}", refused.join("\n"));
    assert!(session.ended().is_some(), "the last sentence signs");
    let done = |wanted: fn(&Action) -> bool| session.done().filter(|(_, a)| wanted(a)).count();
    assert_eq!(done(|action| matches!(action, Action::TurnKnob { .. })), 7);
    assert!(done(|action| matches!(action, Action::Write { .. })) > 30);
}
