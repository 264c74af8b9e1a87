//! Faults that begin with something done, and faults that come and go.

use sim_core::fault::{Arises, Fault};
use sim_core::operator::{by_name, rehearse};
use sim_core::rig::manometer::electronic::ManometerKind;
use sim_core::session::Session;
use sim_core::session::action::Action;
use sim_core::session::ended_session::EndedSession;
use sim_core::session::ground_truth::EventRecord;
use sim_core::session::journal::NullSink;

const CLEAN: &str = include_str!("../../scenarios/01_first_calibration.ron");

/// A session of the first lesson with a fault, by the careful operator.
fn session_with(fault: &str, seed: u64) -> EndedSession {
    session_on("", fault, seed)
}

/// The same with other instruments.
fn session_on(instruments: &str, fault: &str, seed: u64) -> EndedSession {
    let text = CLEAN.replace("    terms:", &format!("    faults: [{fault}],\n    terms:"));
    assert_ne!(text, CLEAN);
    let text = text.replace("    certificates: [", &format!("{instruments}    certificates: ["));
    let mut session = Session::begin(&text, seed, Box::new(NullSink)).unwrap();
    rehearse(&mut session, by_name("careful", seed).unwrap().as_mut()).unwrap();
    session.open().unwrap()
}

fn first(signed: &EndedSession, wanted: impl Fn(&Action) -> bool, nth: usize) -> usize {
    let found = signed.events.iter().enumerate().filter(|(_, moment)| wanted(&moment.action));
    found.map(|(index, _)| index).nth(nth).expect("it is done")
}

/// Whether a fault is in force before and after what was done at this index.
fn around(signed: &EndedSession, index: usize) -> (bool, bool) {
    let EventRecord { before, after, .. } = &signed.events[index];
    (!before.faults.is_empty(), !after.faults.is_empty())
}

#[test]
fn a_fault_begins_right_after_its_event_and_stays() {
    use sim_core::field_book::Field;
    use sim_core::rig::parts::PartPlace;
    type Wanted = fn(&Action) -> bool;
    let cases: [(&str, Wanted, usize); 6] = [
        ("ManometerHung", |a| matches!(a, Action::Put { place: PartPlace::Hook }), 0),
        ("CalibratorMounted", |a| matches!(a, Action::Put { place: PartPlace::Adapter }), 0),
        ("TubeConnected", |a| *a == Action::ConnectTube, 0),
        ("ChartFitted", |a| *a == Action::FitChart, 0),
        ("KnobTurned(2)", |a| matches!(a, Action::TurnKnob { .. }), 1),
        // The careful operator writes the pen first, then the legs.
        ("PointWritten(3)", |a| matches!(a, Action::Write { field: Field::Down(_), .. }), 2),
    ];
    for (event, wanted, nth) in cases {
        let signed =
            session_with(&format!("(fault: LowVoltage(by_v: 3), onset: AtEvent({event}))"), 2);
        let index = first(&signed, wanted, nth);
        assert_eq!(around(&signed, index), (false, true), "{event}");
        let mut later = signed.events.iter().skip(index + 1);
        assert!(later.all(|moment| moment.before.faults.len() == 1), "{event}");
    }
}

/// Writes these fields of the first point one after the other, and tells after which of them a fault
/// that begins with the point is in force.
fn begins_after(fields: &[&str], then: Option<Action>) -> Vec<bool> {
    let fault = "(fault: LowVoltage(by_v: 3), onset: AtEvent(PointWritten(1)))";
    let text = CLEAN.replace("    terms:", &format!("    faults: [{fault}],\n    terms:"));
    let mut session = Session::begin(&text, 2, Box::new(NullSink)).unwrap();
    session.act(Action::Take { part: sim_core::rig::parts::RigPart::Calibrator }).unwrap();
    for field in fields {
        let field = ron::from_str(field).unwrap();
        session.act(Action::Write { field, text: "3.1".to_owned() }).unwrap();
    }
    session.act(then.unwrap_or(Action::Listen)).unwrap();
    session.act(Action::Sign).unwrap();
    let signed = session.open().unwrap();
    // Without what was taken up at first and the signature.
    let done = &signed.events[1..signed.events.len() - 1];
    done.iter().map(|moment| !moment.after.faults.is_empty()).collect()
}

#[test]
fn a_point_is_written_when_all_its_readings_are_whichever_comes_first() {
    let chart_first = begins_after(&["chart(1)", "up(1)", "down(1)"], None);
    assert_eq!(chart_first, [false, false, true, true]);
    let legs_first = begins_after(&["up(1)", "down(1)", "chart(1)"], None);
    assert_eq!(legs_first, [false, false, true, true]);
    assert_eq!(begins_after(&["delta_h(1)", "chart(1)"], None), [false, true, true]);
    assert_eq!(begins_after(&["chart(1)", "chart(2)", "delta_h(2)"], None), [false; 4]);
}

#[test]
fn a_point_that_is_left_unfinished_counts_as_written_when_the_knob_is_turned() {
    let knob = Action::TurnKnob { opening: 0.8 };
    assert_eq!(begins_after(&["chart(1)"], Some(knob.clone())), [false, true]);
    assert_eq!(begins_after(&["chart(2)"], Some(knob)), [false, false]);
}

/// Ticks at which the fault was found to have begun, or to have gone.
fn spells(signed: &EndedSession) -> Vec<(u64, bool)> {
    let mut turns = Vec::new();
    let mut lasts = false;
    for moment in &signed.events {
        let now = !moment.before.faults.is_empty();
        if now != lasts {
            turns.push((moment.tick.0, now));
            lasts = now;
        }
    }
    turns
}

#[test]
fn a_fault_comes_and_goes_by_the_seed_alone() {
    let fault = "(fault: LowVoltage(by_v: 3), onset: Intermittent(on_min: 2, off_min: 2))";
    let once = spells(&session_with(fault, 2));
    assert!(once.len() >= 4, "{once:?}");
    assert_eq!(once, spells(&session_with(fault, 2)));
    assert_ne!(once, spells(&session_with(fault, 3)));
}

#[test]
fn what_went_leaves_the_rig_as_it_was() {
    for fault in Fault::examples().filter(|fault| fault.arises() == Arises::ComesAndGoes) {
        let written = ron::to_string(&fault).unwrap();
        let instruments = match fault.manometer() {
            Some(ManometerKind::Electronic) => "    instruments: (manometer_kind: Electronic),\n",
            _ => "",
        };
        let entry = format!("(fault: {written}, onset: Intermittent(on_min: 0.5, off_min: 3))");
        let came =
            |signed: &EndedSession| signed.events.iter().any(|m| !m.before.faults.is_empty());
        let (seed, with) = (1..9)
            .map(|seed| (seed, session_on(instruments, &entry, seed)))
            .find(|(_, signed)| came(signed) && signed.end.faults.is_empty())
            .expect("a session in which it came and went");
        let clean = session_on(instruments, "", seed);
        let (one, other) = (&with.rig, &clean.rig);
        assert_eq!(one.parameters, other.parameters, "{fault:?}");
        assert_eq!(one.recorder.parameters, other.recorder.parameters, "{fault:?}");
        assert_eq!(one.manometer.parameters, other.manometer.parameters, "{fault:?}");
        assert_eq!(one.electronic.parameters, other.electronic.parameters, "{fault:?}");
    }
}
