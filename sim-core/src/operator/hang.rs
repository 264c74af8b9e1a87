//! Phase C: the manometer is hung plumb, its valves opened, its water checked and its scale zeroed;
//! its tubing goes onto the pressure tap.

use super::display::DisplayPhase;
use super::memory::{Memory, OperatorPhase, PhaseProgress, Suspicion};
use super::{Observation, Practice, filling, suspect, tube_check};
use crate::rig::parts::{Leg, PartPlace, RigPart};
use crate::session::action::{Action, FaultKind, FaultPlace, Response, Sight};

/// Tilt that counts as plumb, degrees.
const PLUMB_DEG: f64 = 0.3;
/// Tilt that a sound hook never leaves, degrees.
const BENT_HOOK_DEG: f64 = 1.0;
/// A zero within this is good enough, in.
const ZEROED_IN: f64 = 0.02;
/// Difference of the legs at rest above which it is reported, in.
const UNEQUAL_IN: f64 = 0.06;
/// Difference of the legs at rest above which the manometer is not used, in.
const UNFIT_IN: f64 = 0.2;
/// If a breath moves the water by less than this, something obstructs it, in; in a sound manometer
/// the water dips by more than an inch.
const DIP_IN: f64 = 0.6;
/// Quarter turns of a fully open valve.
const OPEN_QUARTERS: u8 = 4;

/// How far the phase has come.
#[derive(Debug, Default)]
pub(super) enum HangPhase {
    /// In the case.
    #[default]
    Case,
    /// On the hook, with its tubing in focus.
    Tube,
    /// Being swung.
    Plumb(u8),
    /// Plumb; the valves are still to be opened.
    Valves,
    /// The operator has just blown into the tubing.
    Blown,
    /// The water is coming to rest.
    Resting(u8),
    /// The scale is being moved.
    Zero(u8),
    /// An electronic manometer is made ready.
    Display(DisplayPhase),
    /// The manometer is ready.
    Ready,
}

impl OperatorPhase for HangPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        if memory.refusal.is_some() {
            return PhaseProgress::Finished;
        }
        *self = match *self {
            Self::Case => {
                memory.counts_density(observed);
                filling::before_hanging(observed, memory);
                if observed.view.mounting.place(RigPart::Manometer) != PartPlace::Hook {
                    memory.moves(RigPart::Manometer, PartPlace::Hook);
                }
                memory.looks(Sight::Tube);
                Self::Tube
            }
            Self::Plumb(tries) => plumb(tries, observed, memory),
            Self::Valves => {
                opens_valves(observed, memory);
                memory.looks(Sight::Manometer);
                // The operator must see the water while it still swings.
                memory.at_once(Action::BlowThrough);
                memory.waits(0.4);
                Self::Blown
            }
            Self::Blown => {
                let seen = &observed.view.manometer;
                let dip_in = 0.5 * (seen.left.meniscus_in - seen.right.meniscus_in).abs();
                memory.thinks(format!(
                    "A breath moves the water by {dip_in:.2} in; in a sound manometer it is more than {DIP_IN:.1} in."
                ));
                if !seen.moving {
                    memory.rejects(
                        FaultKind::ManometerValveShut,
                        "the water does not follow a breath",
                    );
                } else if dip_in < DIP_IN {
                    memory.rejects(
                        FaultKind::ManometerValveBarelyOpens,
                        "the water hardly follows a breath: a valve does not open",
                    );
                }
                memory.waits(5.0);
                Self::Resting(0)
            }
            Self::Resting(looks) if observed.view.manometer.moving && looks < 20 => {
                memory.waits(2.0);
                Self::Resting(looks + 1)
            }
            Self::Resting(_) if filling::tops_up(observed, memory) => Self::Resting(0),
            Self::Resting(_) => Self::Zero(0),
            Self::Zero(tries) => zero(tries, observed, memory),
            Self::Tube => {
                memory.waits(2.0);
                tube_check::look_over(observed, memory);
                memory.glances(Sight::Manometer);
                match observed.view.manometer.display {
                    Some(_) => Self::Display(DisplayPhase::default()),
                    None => Self::Plumb(0),
                }
            }
            Self::Display(mut display) => match display.go_on(observed, memory) {
                PhaseProgress::More => Self::Display(display),
                PhaseProgress::Finished => Self::Ready,
            },
            Self::Ready => return PhaseProgress::Finished,
        };
        PhaseProgress::More
    }
}

/// Swings it until it hangs plumb.
fn plumb(tries: u8, observed: &Observation<'_>, memory: &mut Memory) -> HangPhase {
    let tilt_deg = observed.view.manometer.tilt_deg;
    memory.thinks(format!(
        "The manometer hangs {:.1}° out of plumb; {PLUMB_DEG:.1}° is good enough, and a sound hook leaves no more than \
         {BENT_HOOK_DEG:.1}°.",
        tilt_deg.abs()
    ));
    if tilt_deg.abs() < PLUMB_DEG || tries >= 3 {
        return HangPhase::Valves;
    }
    if tries == 0 && tilt_deg.abs() > BENT_HOOK_DEG {
        memory.reports(
            FaultKind::ManometerOutOfPlumb,
            Response::Repaired,
            "the manometer hung out of plumb; swung upright",
        );
    }
    memory.does(Action::SwingManometer { by_deg: -tilt_deg });
    HangPhase::Plumb(tries + 1)
}

/// Opens both valves fully.
pub(super) fn opens_valves(observed: &Observation<'_>, memory: &mut Memory) {
    for leg in [Leg::Left, Leg::Right] {
        let shut = OPEN_QUARTERS.saturating_sub(observed.view.manometer.leg(leg).valve_quarters);
        if shut > 0 {
            memory.does(Action::TurnValve { leg, quarter_turns: shut as i8 });
        }
    }
}

/// Moves the scale until both menisci are equally far from its zero.
fn zero(tries: u8, observed: &Observation<'_>, memory: &mut Memory) -> HangPhase {
    let manometer = &observed.view.manometer;
    let (left_in, right_in) = (manometer.left.meniscus_in, manometer.right.meniscus_in);
    let middle_in = 0.5 * (left_in + right_in);
    let apart_in = (left_in - right_in).abs();
    memory.thinks(format!(
        "At rest the scale is off its zero by {middle_in:+.2} in (at most {ZEROED_IN:.2} in), and the legs stand \
         {apart_in:.2} in apart (noted above {UNEQUAL_IN:.2} in, not used above {UNFIT_IN:.2} in)."
    ));
    if memory.habits.zeroing == Practice::Kept && middle_in.abs() > ZEROED_IN && tries < 3 {
        memory.does(Action::SlideScale { by_in: middle_in.clamp(-2.0, 2.0) });
        memory.looks(Sight::Manometer);
        return HangPhase::Zero(tries + 1);
    }
    if memory.habits.zeroing == Practice::Kept && middle_in.abs() > ZEROED_IN {
        memory.reports(
            FaultKind::ManometerScaleStuck,
            Response::Corrected,
            "the scale does not slide; both legs are read and added",
        );
    }
    if apart_in > UNFIT_IN {
        memory.rejects(
            Suspicion::unknown(FaultPlace::Manometer),
            "the legs stand far apart with both ends open",
        );
    } else if manometer.bubble {
        memory.rejects(FaultKind::ManometerBubble, "a bubble sits in the manometer's bend");
    // Gusts hold the legs apart as well.
    } else if apart_in > UNEQUAL_IN && observed.view.sky.wind <= suspect::GUSTY {
        memory.reports(
            Suspicion::unknown(FaultPlace::Manometer),
            Response::Noted,
            "the legs do not stand level with both ends open",
        );
    }
    memory.does(Action::ConnectTube);
    HangPhase::Ready
}
