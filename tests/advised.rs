//! The advice done by hand: whatever the sentences advise, the hands can show where and how.

use content::SpeechService as _;
use content::advice::{AdvisedStep, Deed};
use hands::{How, Spot, in_hands, step_by_hand};
use sim_core::field_book::Decision;
use sim_core::session::Session;
use sim_core::session::action::Action;
use sim_core::session::journal::NullSink;
use words::PlainSentences;

const CLEAN: &str = include_str!("../scenarios/01_first_calibration.ron");

fn begun() -> Session {
    Session::begin(CLEAN, 1, Box::new(NullSink)).expect("a session")
}

fn advised(session: &Session) -> AdvisedStep {
    let (view, papers) = (session.view(), session.papers());
    PlainSentences.next_step(&view, session.book(), &papers, &mut session.done())
}

#[test]
fn a_step_of_hands_says_where_and_with_which_key() {
    let session = begun();
    let view = session.view();
    let step = step_by_hand(&view, advised(&session), &PlainSentences);
    assert_eq!(step.at, Some(Spot::RoofEdge));
    assert!(step.caution.is_some_and(|words| words.contains("roof edge")), "{step:?}");
    let said = in_hands(&view, &Action::OpenLid, &PlainSentences);
    assert_eq!(said, "at the lid of the shelter, key 1: open the lid");
    let said = in_hands(&view, &Action::TurnKnob { opening: 0.42 }, &PlainSentences);
    assert!(said.contains("arrows") && said.contains("0.42"), "{said}");
}

#[test]
fn whatever_is_advised_can_be_shown() {
    // The way of the advice with readings as they happen to be: each step is one of hands at a
    // thing, a wait, a field or the signature, and never an empty one.
    let mut session = begun();
    let (mut hands, mut waits, mut fields) = (0, 0, 0);
    for _ in 0..400 {
        let view = session.view();
        let deeds = advised(&session).deeds;
        let step = step_by_hand(&view, advised(&session), &PlainSentences);
        match &step.how {
            How::Hands(actions) => {
                assert!(!actions.is_empty() && step.at.is_some(), "{step:?}");
                let mut copy = session.preview();
                for action in actions {
                    copy.act(action.clone()).unwrap_or_else(|error| panic!("{action:?}: {error}"));
                }
                hands += 1;
            }
            How::Wait(seconds) => {
                assert!(*seconds > 0.0);
                waits += 1;
            }
            How::Write(_) => fields += 1,
            How::Sign => break,
        }
        for deed in deeds {
            match deed {
                Deed::Do(action) => session.act(action).expect("it is done"),
                Deed::Wait(seconds) => session.wait(seconds).expect("time passes"),
                Deed::Write(field) => {
                    let (text, reason) = ("1".to_owned(), String::new());
                    let decision = Decision::CalibrationAccepted { line_moved: false };
                    let action = match field.is_decision() {
                        true => Action::Decide { decision, reason },
                        false => Action::Write { field, text },
                    };
                    session.act(action).expect("it is written");
                }
            }
        }
        session.finish_hands().expect("time passes");
    }
    assert!(hands > 40 && waits > 1 && fields > 15, "{hands} {waits} {fields}");
}
