//! A session on the roof: the views that the pictures are drawn from.

use sim_core::rig::parts::{BlowerPlug, Leg, Nut, PartPlace, RigPart, TimerSwitch};
use sim_core::session::Session;
use sim_core::session::action::{Action, OnOff, Sight};
use sim_core::session::journal::{JournalSink, NullSink};
use sim_core::session::view::View;

/// The scenario in which nothing is wrong.
pub const SCENARIO: &str = include_str!("../../../scenarios/01_first_calibration.ron");

/// Everything that can be looked at.
pub const SIGHTS: [Sight; 21] = [
    Sight::Station,
    Sight::WorkOrder,
    Sight::Certificate(0),
    Sight::Sky,
    Sight::RoofEdge,
    Sight::Barometer,
    Sight::Thermometer,
    Sight::Holder,
    Sight::Filter,
    Sight::Calibrator,
    Sight::Tube,
    Sight::Manometer,
    Sight::LeftLeg,
    Sight::RightLeg,
    Sight::Recorder,
    Sight::Pen,
    Sight::Controller,
    Sight::Timer,
    Sight::Plugs,
    Sight::Blower,
    Sight::Watch,
];

/// What mounts the calibrator in a sampler that is closed, and hangs the manometer.
pub fn to_mount() -> Vec<Action> {
    let mut acts = vec![Action::OpenLid];
    acts.extend(Nut::ALL.map(|nut| Action::TurnNut { nut, quarter_turns: -12 }));
    for (part, place) in [
        (RigPart::Frame, PartPlace::Ground),
        (RigPart::Filter, PartPlace::Case),
        (RigPart::Adapter, PartPlace::Holder),
        (RigPart::Calibrator, PartPlace::Adapter),
        (RigPart::Manometer, PartPlace::Hook),
    ] {
        acts.extend([Action::Take { part }, Action::Put { place }]);
    }
    acts
}

/// A session in which the calibrator is mounted, the manometer hung and zeroed, the pen down.
pub fn mounted() -> Session {
    mounted_in(Box::new(NullSink))
}

/// The same, with a journal.
pub fn mounted_in(journal: Box<dyn JournalSink>) -> Session {
    let mut session = Session::begin(SCENARIO, 7, journal).unwrap();
    let mut acts = to_mount();
    acts.extend(Nut::ALL.map(|nut| Action::TurnNut { nut, quarter_turns: 7 }));
    acts.extend([Leg::Left, Leg::Right].map(|leg| Action::TurnValve { leg, quarter_turns: 4 }));
    acts.extend([
        Action::OpenDoor,
        Action::UncapPen,
        Action::LowerPen,
        Action::PlugSampler,
        Action::SwitchLine { to: OnOff::On },
        Action::SwitchTimer { to: TimerSwitch::On },
        Action::PlugBlower { into: BlowerPlug::LineOutlet },
        Action::ConnectTube,
    ]);
    for action in acts {
        // What is already so is refused, and needs no doing.
        let _ = session.act(action);
    }
    session
}

/// The view with the eyes on something.
pub fn looking(session: &mut Session, at: Sight, eye_mm: f64) -> View {
    session.act(Action::Look { at, eye_mm }).unwrap();
    session.view()
}

/// Views of a whole run at several openings, still swinging and settled.
pub fn views(at: &[Sight]) -> Vec<View> {
    let mut session = mounted();
    let mut views = Vec::new();
    for opening in [1.0, 0.8, 0.62, 0.5, 0.41, 0.33, 0.27] {
        session.act(Action::TurnKnob { opening }).unwrap();
        for wait_s in [0.4, 1.3, 40.0] {
            session.wait(wait_s).unwrap();
            for (index, sight) in at.iter().enumerate() {
                let eye_mm = [0.0, 60.0, -90.0][(views.len() + index) % 3];
                views.push(looking(&mut session, *sight, eye_mm));
            }
        }
        session.act(Action::Tap).unwrap();
    }
    views
}
