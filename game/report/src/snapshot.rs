//! One moment of a session in words: what was visible then, and what was true.

use content::snapshot::NamedValue;
use content::units::Units;
use sim_core::rig::parts::{PartPlace, RigPart};
use sim_core::session::action::Action;
use sim_core::session::ground_truth::{EventRecord, GroundTruth};
use sim_core::session::view::{Hiss, View};
use sim_core::time::{Tick, TimeOfDay};

use words::say_action;

/// Loudness from which a blower is heard to be running.
const RUNNING: f64 = 0.02;

/// What was visible, no finer than a sharp eye sees it.
pub fn visible(view: &View, units: Units) -> Vec<NamedValue> {
    let view = view.at_eye_resolution();
    let look = say_action(&Action::Look { at: view.focus, eye_mm: view.eye_mm });
    let eyes = look.trim_start_matches("look at ").to_owned();
    let legs = match view.mounting.place(RigPart::Manometer) {
        PartPlace::Hook => {
            let (left, right) = (view.manometer.left.meniscus_in, view.manometer.right.meniscus_in);
            let moving = if view.manometer.moving { ", moving" } else { "" };
            format!("left {left:+.2} in, right {right:+.2} in{moving}")
        }
        _ => "not hung".to_owned(),
    };
    let pen = match view.recorder.pen {
        None => "capped".to_owned(),
        Some(pen) => {
            let paper = if view.recorder.on_paper { "" } else { ", off the paper" };
            let moving = if view.recorder.moving { ", moving" } else { "" };
            format!("{pen:.1} divisions{paper}{moving}")
        }
    };
    let blower = match (view.blower.loudness >= RUNNING, view.blower.hiss) {
        (false, _) => "stopped",
        (true, None) => "running",
        (true, Some(Hiss::UnderCalibrator)) => "running; air hisses in under the calibrator",
        (true, Some(_)) => "running; air hisses in at the adapter plate",
    };
    let opening = match view.calibrator.plates {
        None => ("knob", format!("{:.0} % open", 100.0 * view.calibrator.knob)),
        Some(plates) => (
            "plate",
            plates.inserted.map_or("none".to_owned(), |plate| format!("{} holes", plate.holes())),
        ),
    };
    vec![
        ("eyes on", eyes),
        ("manometer", legs),
        ("pen", pen),
        opening,
        ("blower", blower.to_owned()),
        ("barometer", units.beside(&format!("{:.1} mmHg", view.barometer.pointer_mmhg))),
        ("thermometer", units.beside(&format!("{:.1} \u{b0}C", view.thermometer.column_c))),
    ]
}

/// What was true.
pub fn ground_truth(truth: &GroundTruth, units: Units) -> Vec<NamedValue> {
    let [left, right] = truth.undisturbed_menisci_in;
    let names: Vec<&str> = truth.faults.iter().map(|fault| fault.answer().0).collect();
    let faults = if names.is_empty() { "none".to_owned() } else { names.join("; ") };
    let air = (units.pressure(truth.pressure_mmhg, 1), units.temperature(truth.temperature_c, 1));
    vec![
        ("flow", units.flow(truth.flow_std_m3_min, 3)),
        ("through the calibrator", units.flow(truth.calibrator_flow_std_m3_min, 3)),
        ("leak area", format!("{:.1} mm\u{b2}", truth.leak_mm2)),
        ("pressure across the orifice", format!("{:.2} inH\u{2082}O", truth.orifice_inh2o)),
        ("legs, fault-free", format!("left {left:+.2} in, right {right:+.2} in")),
        ("pen, fault-free", format!("{:.1} divisions", truth.undisturbed_pen)),
        ("air", format!("{} and {}", air.0, air.1)),
        ("faults present", faults),
    ]
}

/// The last action up to a tick, in words. Looking, listening and waiting do not count.
pub fn last_action(events: &[EventRecord], tick: Tick, start: TimeOfDay) -> Option<String> {
    let counts = |event: &&EventRecord| {
        let looks = matches!(event.action, Action::Look { .. } | Action::ReadInWords);
        !looks && !matches!(event.action, Action::Wait { .. } | Action::Listen)
    };
    let up_to = events.partition_point(|event| event.tick <= tick);
    let last = events.get(..up_to)?.iter().rfind(counts)?;
    Some(format!("{}: {}", start.after(last.tick), say_action(&last.action)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use sim_core::operator::{by_name, rehearse};
    use sim_core::session::Session;
    use sim_core::session::ended_session::EndedSession;
    use sim_core::session::history::History;
    use sim_core::session::journal::NullSink;

    const LEAK: &str = include_str!("../../../scenarios/03_a_new_blower.ron");

    fn ended_session() -> EndedSession {
        let mut session = Session::begin(LEAK, 1, Box::new(NullSink)).expect("a session");
        rehearse(&mut session, by_name("skips-leak-check", 1).expect("an operator").as_mut())
            .expect("a rehearsal");
        session.open().expect("it has ended")
    }

    #[test]
    fn what_was_visible_shows_nothing_of_what_was_true() {
        let ended = ended_session();
        let track = History::of(&ended);
        let at = ended.evidence().points().first().expect("a point").first.tick();
        let glimpse = track.at(at);
        let value = |rows: &[NamedValue], name: &str| {
            rows.iter().find(|row| row.0 == name).map(|row| row.1.clone()).unwrap_or_default()
        };
        let seen = visible(&glimpse.view, Units::default());
        let truth = ground_truth(&glimpse.truth, Units::default());
        assert!(value(&seen, "manometer").starts_with("left +"), "{seen:?}");
        assert!(value(&seen, "pen").contains("divisions"));
        assert!(value(&truth, "faults present").contains("gasket"), "{truth:?}");
        assert!(!format!("{seen:?}").contains("gasket"));
        let flow: f64 =
            value(&truth, "flow").split(' ').next().and_then(|v| v.parse().ok()).expect("a flow");
        let through: f64 = value(&truth, "through the calibrator")
            .split(' ')
            .next()
            .and_then(|v| v.parse().ok())
            .expect("a flow");
        assert!(flow > through + 0.01, "the leak takes a part: {flow} and {through}");
    }

    #[test]
    fn looking_is_not_the_last_action() {
        let ended = ended_session();
        let start = ended.setup.station.start;
        assert_eq!(last_action(&ended.events, Tick(0), start).filter(|l| l.contains("look")), None);
        let last = last_action(&ended.events, ended.end_tick, start).expect("an action");
        assert!(last.ends_with("sign"), "{last}");
    }
}
