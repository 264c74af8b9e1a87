//! A calibrator with fixed plates, and an electronic manometer: whole sessions, and what hands are
//! refused.

use sim_core::air::{AirState, Ambient};
use sim_core::field_book::Field;
use sim_core::marking::mark;
use sim_core::operator::{by_name, rehearse};
use sim_core::rig::RigParameters;
use sim_core::rig::flow::operating_point::calibrating;
use sim_core::rig::flow::plates::Plate;
use sim_core::rig::manometer::electronic::Shown;
use sim_core::rig::parts::{Leg, OnOff, PartPlace, RigPart};
use sim_core::session::Session;
use sim_core::session::action::{Action, Sight};
use sim_core::session::ended_session::EndedSession;
use sim_core::session::journal::NullSink;

const PLATES: &str = include_str!("../../scenarios/34_five_plates.ron");
const DISPLAY: &str = include_str!("../../scenarios/35_no_water_in_it.ron");

fn begun(text: &str) -> Session {
    Session::begin(text, 3, Box::new(NullSink)).unwrap()
}

fn rehearsed(text: &str, name: &str) -> EndedSession {
    let mut session = begun(text);
    rehearse(&mut session, by_name(name, 3).unwrap().as_mut()).unwrap();
    session.open().unwrap()
}

#[track_caller]
fn refused(session: &mut Session, action: Action, words: &str) {
    let said = session.act(action).unwrap_err().to_string();
    assert!(said.contains(words), "{said}");
}

#[test]
fn five_plates_cover_the_range_of_the_method() {
    let rig = RigParameters::default();
    let air = AirState { pressure_pa: 101_325.0, temperature_k: 293.15, humidity: 0.0 };
    let flow = |plate: Plate| {
        let passage = rig.calibrator.passage_at(plate.open_share());
        calibrating(&rig, Ambient::from(air), Some(passage)).flow_std_m3_min()
    };
    let flows = Plate::ALL.map(flow);
    assert!(flows.windows(2).all(|pair| pair[0] > pair[1] + 0.08), "{flows:?}");
    assert!(flows[0] > 1.7 && flows[4] < 1.12, "{flows:?}");
}

#[test]
fn a_plate_comes_out_before_the_next_goes_in() {
    let mut session = begun(PLATES);
    let [widest, next, ..] = Plate::ALL;
    refused(&mut session, Action::PutInPlate { plate: widest }, "in its case");
    session.act(Action::Take { part: RigPart::Calibrator }).unwrap();
    refused(&mut session, Action::PutInPlate { plate: widest }, "both hands");
    session.act(Action::Put { place: PartPlace::Ground }).unwrap();
    refused(&mut session, Action::TakeOutPlate, "no plate");
    refused(&mut session, Action::TurnKnob { opening: 0.5 }, "has no knob");
    session.act(Action::PutInPlate { plate: widest }).unwrap();
    refused(&mut session, Action::PutInPlate { plate: next }, "18 holes is in the calibrator");
    session.act(Action::TakeOutPlate).unwrap();
    session.act(Action::PutInPlate { plate: next }).unwrap();
    assert_eq!(session.view().calibrator.plates.unwrap().inserted, Some(next));
    let mut knob = begun(DISPLAY);
    refused(&mut knob, Action::PutInPlate { plate: widest }, "takes no plates");
}

#[test]
fn a_careful_one_proves_each_plate_tight_and_reads_all_five() {
    let ended = rehearsed(PLATES, "careful");
    let marks = mark(&ended.evidence());
    assert!(marks.passed, "{:#?}", marks.findings);
    let covers =
        |m: &&sim_core::session::ground_truth::EventRecord| m.action == Action::BlockOpenings;
    assert!(ended.events.iter().filter(covers).count() >= 5);
    let put: Vec<Plate> = ended
        .events
        .iter()
        .filter_map(|moment| match moment.action {
            Action::PutInPlate { plate } => Some(plate),
            _ => None,
        })
        .collect();
    assert_eq!(put, Plate::ALL);
    for moment in ended.events.iter().filter(|m| m.action == Action::TakeOutPlate) {
        assert!(!moment.before.powered && moment.before.speed_ratio < 0.05);
    }
    for (name, rule) in [("listens-once", "plate-leak-check"), ("reaches-in", "dead-before-hands")]
    {
        let marks = mark(&rehearsed(PLATES, name).evidence());
        assert!(!marks.passed && marks.findings.iter().any(|f| f.rule == rule), "{name}");
    }
}

#[test]
fn a_careful_one_keeps_the_display_zeroed_and_its_battery_fresh() {
    let ended = rehearsed(DISPLAY, "careful");
    let marks = mark(&ended.evidence());
    assert!(marks.passed, "{:#?}", marks.findings);
    assert!(ended.events.iter().any(|moment| moment.action == Action::ChangeBattery));
    let legs = |field: &Field| matches!(field, Field::Up(_) | Field::Down(_));
    let writes = ended.events.iter().filter_map(|moment| match &moment.action {
        Action::Write { field, .. } => Some(*field),
        _ => None,
    });
    assert_eq!(writes.filter(legs).count(), 0);
    let marks = mark(&rehearsed(DISPLAY, "never-zeroes").evidence());
    assert!(!marks.passed && marks.findings.iter().any(|f| f.rule == "display-zeroed"));
}

#[test]
fn an_electronic_manometer_has_keys_and_no_valves() {
    let mut session = begun(DISPLAY);
    let on = Action::SwitchManometer { to: OnOff::On };
    refused(&mut session, on.clone(), "in its case");
    session.act(Action::Take { part: RigPart::Manometer }).unwrap();
    session.act(Action::Put { place: PartPlace::Hook }).unwrap();
    refused(&mut session, Action::ZeroManometer, "switch it on first");
    refused(&mut session, Action::TurnValve { leg: Leg::Left, quarter_turns: 4 }, "no valves");
    refused(&mut session, Action::SlideScale { by_in: 0.1 }, "no scale");
    refused(&mut session, Action::BlowThrough, "do not blow");
    session.act(on.clone()).unwrap();
    refused(&mut session, on, "already on");
    session.wait(20.0).unwrap();
    session.act(Action::Look { at: Sight::Display, eye_mm: 0.0 }).unwrap();
    let Shown::Reading(offset_in) = session.view().manometer.display.unwrap().shows else {
        panic!("no reading")
    };
    assert!((0.1..0.4).contains(&offset_in), "{offset_in}");
    session.act(Action::ZeroManometer).unwrap();
    session.wait(5.0).unwrap();
    let shows = session.view().manometer.display.unwrap().shows;
    assert!(matches!(shows, Shown::Reading(reading) if reading.abs() < 0.025), "{shows:?}");
}
