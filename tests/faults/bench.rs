//! A pair of hands and eyes at the catalogue's bench: real sessions, read as a sharp eye reads.

use sim_core::fault::Fault;
use sim_core::rig::parts::{BlowerPlug, Leg, Nut, Part, Place, TimerSwitch};
use sim_core::session::action::{Action, OnOff, Sight};
use sim_core::session::journal::NoInk;
use sim_core::session::view::View;
use sim_core::session::{ActError, Session};

/// The bench without a fault.
pub const CLEAN: &str = include_str!("bench.ron");

/// The bench's scenario with a fault from the start, and the papers that the fault speaks of.
pub fn scenario(fault: Option<&Fault>) -> String {
    let Some(fault) = fault else { return CLEAN.to_owned() };
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
    CLEAN
        .replace("faults: []", &format!("faults: [(fault: {written}, onset: {onset})]"))
        .replace(own, &papers)
}

/// A session under way on the catalogue's bench.
pub struct Bench(Session);

impl Bench {
    /// The bench with or without a fault, as it is found.
    pub fn new(fault: Option<&Fault>, seed: u64) -> Self {
        let text = scenario(fault);
        Self(Session::begin(&text, seed, Box::new(NoInk)).unwrap_or_else(|e| panic!("{e}\n{text}")))
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
        for (part, place) in [(Part::Frame, Place::Ground), (Part::Filter, Place::Case)] {
            self.carry(part, place);
        }
        self.carry(Part::Adapter, Place::Holder);
        self.turn_nuts(8);
        self.carry(Part::Calibrator, Place::Adapter);
    }

    /// The manometer hung, plumb, open and as well zeroed as its scale allows.
    pub fn hung(&mut self) {
        self.carry(Part::Manometer, Place::Hook);
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

    fn carry(&mut self, part: Part, place: Place) {
        self.act(Action::Take { part });
        self.act(Action::Put { place });
    }

    fn turn_nuts(&mut self, quarter_turns: i8) {
        for nut in Nut::ALL {
            self.act(Action::TurnNut { nut, quarter_turns });
        }
    }
}
