//! A pair of hands and eyes at the catalogue's bench: real sessions, read as a sharp eye reads.

use sim_core::fault::{Fault, FaultPlace};
use sim_core::rig::manometer::electronic::ManometerKind;
use sim_core::rig::parts::{BlowerPlug, Grip, Leg, Nut, PartPlace, RigPart, TimerSwitch, Trip};
use sim_core::session::action::{Action, OnOff, Sight};
use sim_core::session::journal::NullSink;
use sim_core::session::view::View;
use sim_core::session::view::run::RunView;
use sim_core::session::{ActError, Session};

/// The bench without a fault.
pub const CLEAN: &str = include_str!("bench.ron");

/// The flow of such a run, m3/min at standard conditions: with less, no dust that a scenario may ask for
/// takes so much that the controller cannot hold it.
const RUN_STD_M3_MIN: f64 = 1.3;

/// What follows the calibration where a fault is one of the run.
const RUN: &str = r#"    run: (
        on: (day: 1, at: "00:00"),
        off: (day: 2, at: "00:00"),
        back: (day: 2, at: "08:00"),
        filters: [(number: "F-1", mass_g: 4.1), (number: "F-2", mass_g: 4.2)],
    ),
    certificates: ["#;

/// The bench on which a fault is read, without it: a run is ordered where the fault needs one.
pub fn sound(fault: &Fault) -> String {
    let clean = match fault.manometer() {
        Some(ManometerKind::Electronic) => with_display(CLEAN),
        _ => CLEAN.to_owned(),
    };
    if fault.belongs_to_run() { with_run(&clean) } else { clean }
}

/// The same with the fault, as it usually begins, and the papers that the fault speaks of.
pub fn faulty(fault: &Fault) -> String {
    let own = "(serial: \"OC-100\", date: \"2025-11-04\"),";
    let papers = match fault {
        Fault::CertificateExpired => format!("(serial: \"OC-100\", date: \"2024-10-30\"), {own}"),
        Fault::CertificateOfAnother => format!("(serial: \"OC-107\", date: \"2025-11-04\"), {own}"),
        Fault::CertificateActualFirst => {
            "(serial: \"OC-100\", date: \"2025-11-04\", print: ActualFirst),".to_owned()
        }
        Fault::CertificateFarFromLast => {
            let new = "(serial: \"OC-100\", date: \"2025-11-04\", orifice_differs_pct: Fixed(8)),";
            format!("{new} (serial: \"OC-100\", date: \"2024-11-06\"),")
        }
        Fault::CertificateDigitsExchanged => {
            let copy = "heading: \"copy of certificate\", print: DigitsExchanged";
            format!("(serial: \"OC-100\", date: \"2025-11-04\", {copy}), {own}")
        }
        _ => own.to_owned(),
    };
    let written = ron::to_string(fault).unwrap();
    let onset = ron::to_string(&fault.sheet().begins).unwrap();
    sound(fault)
        .replace("faults: []", &format!("faults: [(fault: {written}, onset: {onset})]"))
        .replace(own, &papers)
}

/// The same with two faults.
pub fn both(one: &Fault, other: &Fault) -> String {
    // The papers of the one that speaks of them, and the run of the one that needs it.
    let papers = |fault: &&Fault| fault.place() == FaultPlace::Certificate;
    let (first, second) = if papers(&other) { (other, one) } else { (one, other) };
    let electronic = |fault: &Fault| fault.manometer() == Some(ManometerKind::Electronic);
    let mut text = faulty(first);
    if electronic(second) && !electronic(first) {
        text = with_display(&text);
    }
    if second.belongs_to_run() && !first.belongs_to_run() {
        text = with_run(&text);
    }
    let written = ron::to_string(second).unwrap();
    let onset = ron::to_string(&second.sheet().begins).unwrap();
    text.replacen("faults: [", &format!("faults: [(fault: {written}, onset: {onset}), "), 1)
}

/// The same bench, with an electronic manometer.
fn with_display(text: &str) -> String {
    let instruments = "    instruments: (manometer_kind: Electronic),\n    certificates: [";
    text.replace("    certificates: [", instruments)
}

/// The same bench, with a run ordered.
fn with_run(text: &str) -> String {
    let flow = |target: f64| format!("target_flow_std_m3_min: {target:.2}");
    text.replace("    certificates: [", RUN).replace(&flow(1.13), &flow(RUN_STD_M3_MIN))
}

/// Flow with the trim screw at its lower stop, and what a turn adds, m3/min at standard conditions.
const LOWEST_STD_M3_MIN: f64 = 0.8;
const TURN_STD_M3_MIN: f64 = 0.05;

/// A session under way on the catalogue's bench.
pub struct Bench(Session);

impl Bench {
    /// The bench of a scenario, as it is found.
    pub fn new(text: &str, seed: u64) -> Self {
        Self(
            Session::begin(text, seed, Box::new(NullSink))
                .unwrap_or_else(|e| panic!("{e}\n{text}")),
        )
    }

    /// The session, for its papers.
    pub const fn session(&self) -> &Session {
        &self.0
    }

    /// Does something that must be possible.
    pub fn act(&mut self, action: Action) {
        self.0.act(action.clone()).unwrap_or_else(|error| panic!("{action:?}: {error}"));
    }

    /// Does something where it is possible.
    pub fn tries(&mut self, action: Action) {
        match self.0.act(action) {
            Ok(()) | Err(ActError::Refused(_)) => {}
            Err(error) => panic!("{error}"),
        }
    }

    /// Lets time pass, s.
    pub fn wait(&mut self, seconds: f64) {
        self.0.advance((seconds * 20.0).round() as u64).unwrap();
    }

    /// What a sharp eye sees.
    pub fn view(&self) -> View {
        self.0.view().at_eye_resolution()
    }

    /// Looks at something and says what a sharp eye sees.
    pub fn look(&mut self, at: Sight) -> View {
        self.act(Action::Look { at, eye_mm: 0.0 });
        self.view()
    }

    /// The calibrator in place of the filter, nothing repaired on the way.
    pub fn mounted(&mut self) {
        self.act(Action::UnplugSampler);
        self.act(Action::OpenLid);
        self.turn_nuts(-12);
        for (part, place) in
            [(RigPart::Frame, PartPlace::Ground), (RigPart::Filter, PartPlace::Case)]
        {
            self.carry(part, place);
        }
        self.carry(RigPart::Adapter, PartPlace::Holder);
        self.turn_nuts(8);
        self.carry(RigPart::Calibrator, PartPlace::Adapter);
    }

    /// The manometer hung, plumb, open and as well zeroed as its scale allows.
    pub fn hung(&mut self) {
        self.carry(RigPart::Manometer, PartPlace::Hook);
        let tilt_deg = self.0.view().manometer.tilt_deg;
        self.act(Action::SwingManometer { by_deg: -tilt_deg });
        for leg in [Leg::Left, Leg::Right] {
            self.act(Action::TurnValve { leg, quarter_turns: 4 });
        }
        self.wait(30.0);
        let seen = self.0.view().manometer;
        self.tries(Action::SlideScale {
            by_in: 0.5 * (seen.left.meniscus_in + seen.right.meniscus_in),
        });
    }

    /// A fresh chart under an uncapped pen.
    pub fn recorder(&mut self) {
        self.act(Action::OpenDoor);
        self.act(Action::FitChart);
        self.act(Action::UncapPen);
        self.act(Action::LowerPen);
    }

    /// Everything in place and the blower on the line for this long, s.
    pub fn running(&mut self, seconds: f64) {
        self.mounted();
        self.hung();
        self.act(Action::ConnectTube);
        self.recorder();
        self.act(Action::PlugBlower { into: BlowerPlug::LineOutlet });
        self.act(Action::SwitchLine { to: OnOff::On });
        self.wait(seconds);
    }

    /// The sampler on its controller, as it was found, for this long, s.
    pub fn on_controller(&mut self, seconds: f64) {
        self.act(Action::OpenDoor);
        self.act(Action::UncapPen);
        self.act(Action::SwitchTimer { to: TimerSwitch::On });
        self.wait(seconds);
    }

    /// The holder bare.
    pub fn filter_off(&mut self) {
        self.act(Action::OpenLid);
        self.turn_nuts(-12);
        for (part, place) in
            [(RigPart::Frame, PartPlace::Ground), (RigPart::Filter, PartPlace::Case)]
        {
            self.carry(part, place);
        }
    }

    /// The next fresh filter in the hand, held against the light.
    pub fn filter_in_hand(&mut self) {
        self.filter_off();
        self.act(Action::TakeFilter { grip: Grip::Edges });
        self.act(Action::HoldToLight);
    }

    /// A fresh filter on the holder, the frame laid on it.
    pub fn filter_framed(&mut self) {
        self.filter_in_hand();
        self.act(Action::Put { place: PartPlace::Holder });
        self.carry(RigPart::Frame, PartPlace::Holder);
    }

    /// The sampler loaded, its screw set to the ordered flow, armed for the ordered day, left, and come
    /// back to.
    pub fn after_the_run(&mut self) {
        self.filter_framed();
        self.turn_nuts(8);
        self.act(Action::CloseLid);
        let screw = (RUN_STD_M3_MIN - LOWEST_STD_M3_MIN) / TURN_STD_M3_MIN;
        self.act(Action::TurnTrim { turns: screw - self.view().power.trim_turns });
        self.recorder();
        self.act(Action::CloseDoor);
        let now = self.view();
        let today = now.date.weekday();
        self.act(Action::SetDial { weekday: today, hours: now.time.hours() });
        for (trip, days) in [(Trip::On, 1), (Trip::Off, 2)] {
            let weekday = (today + days) % 7;
            self.act(Action::SetTripper { trip, weekday, hours: 0.0 });
        }
        self.0.leave_site().unwrap();
    }

    /// What a sharp eye sees of filter, timer and chart.
    pub fn run(&self) -> RunView {
        *self.view().run.unwrap()
    }

    /// The whole column, in.
    pub fn column_in(&self) -> f64 {
        let seen = self.view().manometer;
        seen.left.meniscus_in - seen.right.meniscus_in
    }

    /// The pen, divisions, tapped to rest.
    pub fn tapped_pen(&mut self) -> f64 {
        for _ in 0..6 {
            self.act(Action::Tap);
            self.wait(1.0);
        }
        self.pen()
    }

    /// The pen as it stands, divisions.
    pub fn pen(&self) -> f64 {
        self.view().recorder.pen.unwrap()
    }

    fn carry(&mut self, part: RigPart, place: PartPlace) {
        self.act(Action::Take { part });
        self.act(Action::Put { place });
    }

    fn turn_nuts(&mut self, quarter_turns: i8) {
        for nut in Nut::ALL {
            self.act(Action::TurnNut { nut, quarter_turns });
        }
    }
}

/// Highest less lowest of what is read once a second.
pub fn range(bench: &mut Bench, seconds: u32, read: fn(&mut Bench) -> f64) -> f64 {
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for _ in 0..seconds {
        bench.wait(1.0);
        let now = read(bench);
        (low, high) = (low.min(now), high.max(now));
    }
    high - low
}
