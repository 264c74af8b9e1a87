//! The station with at most one thing loose, kinked, missing or out of its place.

use super::super::bench::{self, Written};
use super::super::draw::Draw;
use super::super::drawn::{Drawn, Truth};
use super::super::error::DrawError;
use super::super::seen::{Asked, DrillLook};
use super::super::slip::DrillSlip;
use crate::rig::parts::{BlowerPlug, Leg, Nut, PartPlace, RigPart};
use crate::session::action::{Action, Exposure, Sight};

/// The answer that nothing is wrong.
pub const NOTHING: &str = "nothing";

/// In so many questions nothing is wrong: otherwise nobody would have to look.
const IN_ORDER: f64 = 0.2;
/// In so many questions the holder is bare, before the calibrator is mounted.
const BARE: f64 = 0.15;

/// A part of the station that can be named.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StationPart {
    /// The sampler's cord.
    Cord,
    /// The blower's plug.
    BlowerPlug,
    /// The tube.
    Tube,
    /// A valve of the manometer.
    Valve(Leg),
    /// The manometer as a whole.
    Manometer,
    /// The openings of the calibrator.
    Openings,
    /// The recorder with its tubing.
    Recorder,
    /// The pen.
    Pen,
    /// The lid, under which the air comes in.
    Lid,
    /// The blower with its exhaust.
    Blower,
    /// The thermometer.
    Thermometer,
    /// The filter holder with its gasket.
    Holder,
    /// A nut with its washer.
    Nut(Nut),
}

impl StationPart {
    /// Every part that can be named.
    pub fn all() -> Vec<Self> {
        let mut all = vec![
            Self::Cord,
            Self::BlowerPlug,
            Self::Tube,
            Self::Valve(Leg::Left),
            Self::Valve(Leg::Right),
            Self::Manometer,
            Self::Openings,
            Self::Recorder,
            Self::Pen,
            Self::Lid,
            Self::Blower,
            Self::Thermometer,
            Self::Holder,
        ];
        all.extend(Nut::ALL.map(Self::Nut));
        all
    }

    /// Its name, as on the bench.
    pub fn name(self) -> String {
        let name = match self {
            Self::Cord => "sampler's cord",
            Self::BlowerPlug => "blower's plug",
            Self::Tube => "tube",
            Self::Valve(Leg::Left) => "left valve",
            Self::Valve(Leg::Right) => "right valve",
            Self::Manometer => "manometer",
            Self::Openings => "calibrator's openings",
            Self::Recorder => "flow recorder",
            Self::Pen => "pen",
            Self::Lid => "lid of the shelter",
            Self::Blower => "blower",
            Self::Thermometer => "thermometer",
            Self::Holder => "filter holder",
            Self::Nut(nut) => return format!("nut {}", nut.number()),
        };
        name.to_owned()
    }
}

/// What is wrong.
struct Trouble {
    part: StationPart,
    /// A fault, as a scenario lists it.
    fault: String,
    /// What somebody did.
    done: Vec<Action>,
}

/// The question.
pub(super) fn draw(draw: &mut Draw) -> Result<Drawn, DrawError> {
    let (bare, in_order) = (draw.happens(BARE), draw.happens(IN_ORDER));
    let trouble = match (bare, in_order) {
        (true, false) => Some(gasket_missing(draw)),
        (false, false) => Some(trouble(draw)),
        (_, true) => None,
    };
    let faults = trouble.as_ref().map(|trouble| trouble.fault.clone()).unwrap_or_default();
    let (mut session, _) = bench::begin(draw, &Written { faults, ..Written::default() })?;
    if bare {
        bench::act_all(&mut session, laying_bare());
    } else {
        bench::act_all(&mut session, bench::mounting());
        bench::act_all(&mut session, bench::starting());
        let opening = draw.written(0.3, 1.0, 2);
        bench::act_all(&mut session, [Action::TurnKnob { opening }]);
    }
    // It hangs a little out of plumb at first, which would be wrong as well.
    let hung = session.view().manometer;
    let by_deg = -hung.tilt_deg;
    let by_in = -hung.scale_in;
    bench::act_all(&mut session, [Action::SwingManometer { by_deg }, Action::SlideScale { by_in }]);
    let done = trouble.as_ref().map(|trouble| trouble.done.clone()).unwrap_or_default();
    bench::act_all(&mut session, done);
    bench::act_all(&mut session, [Action::Look { at: Sight::Station, eye_mm: 0.0 }]);
    session.wait(draw.between(4.0, 9.0)).map_err(DrawError::new)?;
    let parts = StationPart::all();
    let right = trouble
        .as_ref()
        .and_then(|trouble| parts.iter().position(|part| *part == trouble.part))
        .map_or(0, |at| at + 1);
    let wrong = if trouble.is_some() { DrillSlip::WrongPart } else { DrillSlip::FalseAlarm };
    let mut choices = vec![(NOTHING.to_owned(), DrillSlip::Missed)];
    choices.extend(parts.iter().map(|part| (part.name(), wrong)));
    let looks = vec![DrillLook { at_s: 0.0, view: session.view() }];
    let truth = Truth::Choice { right, choices };
    Ok(Drawn::of(session, Asked::WhatIsWrong, looks, truth))
}

/// What lays the holder bare.
fn laying_bare() -> Vec<Action> {
    let mut acts = vec![Action::OpenLid];
    acts.extend(Nut::ALL.map(|nut| Action::TurnNut { nut, quarter_turns: -12 }));
    for (part, place) in [(RigPart::Frame, PartPlace::Ground), (RigPart::Filter, PartPlace::Case)] {
        acts.extend([Action::Take { part }, Action::Put { place }]);
    }
    let (part, place) = (RigPart::Manometer, PartPlace::Hook);
    acts.extend([Action::Take { part }, Action::Put { place }]);
    acts.extend([Leg::Left, Leg::Right].map(|leg| Action::TurnValve { leg, quarter_turns: 4 }));
    acts
}

/// The gasket of the holder is not there.
fn gasket_missing(draw: &mut Draw) -> Trouble {
    let leak = draw.between(10.0, 30.0);
    let fault = format!("(fault: HolderGasketMissing(leak_mm2: {leak:?}))");
    Trouble { part: StationPart::Holder, fault, done: Vec::new() }
}

/// Something is wrong at the station with the calibrator mounted.
fn trouble(draw: &mut Draw) -> Trouble {
    match draw.below(12) {
        0 => by_hand(StationPart::Cord, Action::UnplugSampler),
        1 => by_hand(StationPart::BlowerPlug, Action::PlugBlower { into: BlowerPlug::Loose }),
        2 => tube(draw),
        3 => {
            let leg = draw.one_of([Leg::Left, Leg::Right]);
            by_hand(StationPart::Valve(leg), Action::TurnValve { leg, quarter_turns: -4 })
        }
        4 => manometer(draw),
        5 => recorder(draw),
        6 => pen(draw),
        7 => {
            let (by, pct) = (draw.one_of(["Nest", "Snow"]), draw.between(60.0, 90.0));
            by_fault(StationPart::Lid, format!("InletBlocked(by: {by}, pct: {pct:?})"))
        }
        8 => {
            let (by, pct) = (draw.one_of(["Nest", "Snow"]), draw.between(15.0, 40.0));
            by_fault(StationPart::Blower, format!("ExhaustBlocked(by: {by}, area_pct: {pct:?})"))
        }
        9 => by_hand(StationPart::Thermometer, Action::PlaceThermometer { at: Exposure::Sun }),
        _ => nut(draw),
    }
}

fn by_hand(part: StationPart, done: Action) -> Trouble {
    Trouble { part, fault: String::new(), done: vec![done] }
}

fn by_fault(part: StationPart, fault: String) -> Trouble {
    Trouble { part, fault: format!("(fault: {fault})"), done: Vec::new() }
}

fn tube(draw: &mut Draw) -> Trouble {
    let height = draw.between(0.3, 0.8);
    match draw.below(3) {
        0 => by_hand(StationPart::Tube, Action::DisconnectTube),
        1 => by_fault(StationPart::Tube, "TubeKinked".to_owned()),
        _ => by_fault(StationPart::Tube, format!("TubeWet(height_in: {height:?})")),
    }
}

fn manometer(draw: &mut Draw) -> Trouble {
    let by_deg = draw.side() * draw.written(8.0, 15.0, 0);
    let length = draw.between(12.0, 20.0);
    if draw.happens(0.6) {
        by_hand(StationPart::Manometer, Action::SwingManometer { by_deg })
    } else {
        by_fault(StationPart::Manometer, format!("ManometerBubble(length_mm: {length:?})"))
    }
}

fn recorder(draw: &mut Draw) -> Trouble {
    let (lag, head) = (draw.between(20.0, 60.0), draw.between(0.2, 0.6));
    let fault = match draw.below(3) {
        0 => "RecorderLineOff".to_owned(),
        1 => format!("RecorderLineKinked(lag_s: {lag:?})"),
        _ => format!("RecorderLineWet(head_in: {head:?})"),
    };
    by_fault(StationPart::Recorder, fault)
}

fn pen(draw: &mut Draw) -> Trouble {
    let pct = draw.between(4.0, 10.0);
    if draw.happens(0.5) {
        by_fault(StationPart::Pen, format!("PenArmBent(pct: {pct:?})"))
    } else {
        by_hand(StationPart::Pen, Action::CapPen)
    }
}

fn nut(draw: &mut Draw) -> Trouble {
    let nut = draw.one_of(Nut::ALL);
    let leak = draw.between(10.0, 30.0);
    if draw.happens(0.6) {
        by_hand(StationPart::Nut(nut), Action::TurnNut { nut, quarter_turns: -12 })
    } else {
        let number = nut.number();
        by_fault(StationPart::Nut(nut), format!("WasherBelow(nut: {number}, leak_mm2: {leak:?})"))
    }
}
