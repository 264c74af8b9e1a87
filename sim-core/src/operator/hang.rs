//! Phase C: the manometer hung plumb, open, swinging freely, zeroed, and its tube on the tap.

use super::mind::{Mind, Phase, Progress};
use super::{Practice, Scene, tube_check};
use crate::rig::parts::{Leg, Part, Place};
use crate::session::action::{Action, FaultPlace, Response, Sight};

/// Tilt that counts as plumb, degrees.
const PLUMB_DEG: f64 = 0.3;
/// Tilt that no hook leaves by itself, degrees.
const BENT_HOOK_DEG: f64 = 1.0;
/// Zero that is good enough, in.
const ZEROED_IN: f64 = 0.02;
/// Difference of the legs at rest that is reported, in.
const UNEQUAL_IN: f64 = 0.06;
/// Difference of the legs at rest with which the manometer is not used, in.
const UNFIT_IN: f64 = 0.2;
/// A breath that moves the water by less than this is held back, in; a sound manometer dips by more
/// than an inch.
const DIP_IN: f64 = 0.6;
/// Quarter turns of a fully open valve.
const OPEN_QUARTERS: u8 = 4;

/// Where the phase stands.
#[derive(Debug, Default)]
pub(super) enum Hang {
    /// In the case.
    #[default]
    Case,
    /// On the hook, its tube in focus.
    Tube,
    /// Being swung.
    Plumb(u8),
    /// Plumb, valves to be opened.
    Valves,
    /// A breath was just blown into the tube.
    Blown,
    /// The water comes to rest.
    Resting(u8),
    /// The scale is being slid.
    Zero(u8),
    /// Everything hangs.
    Ready,
}

impl Phase for Hang {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        if mind.refusal.is_some() {
            return Progress::Finished;
        }
        *self = match *self {
            Self::Case => {
                if scene.view.mounting.place(Part::Manometer) != Place::Hook {
                    mind.moves(Part::Manometer, Place::Hook);
                }
                mind.looks(Sight::Tube);
                Self::Tube
            }
            Self::Plumb(tries) => plumb(tries, scene, mind),
            Self::Valves => {
                opens_valves(scene, mind);
                mind.looks(Sight::Manometer);
                // The water is watched while it still swings.
                mind.at_once(Action::BlowThrough);
                mind.waits(0.4);
                Self::Blown
            }
            Self::Blown => {
                let seen = &scene.view.manometer;
                let dip_in = 0.5 * (seen.left.meniscus_in - seen.right.meniscus_in).abs();
                if !seen.moving {
                    mind.rejects(FaultPlace::Manometer, "the water does not follow a breath");
                } else if dip_in < DIP_IN {
                    mind.rejects(
                        FaultPlace::Manometer,
                        "the water hardly follows a breath: a valve does not open",
                    );
                }
                mind.waits(5.0);
                Self::Resting(0)
            }
            Self::Resting(looks) if scene.view.manometer.moving && looks < 20 => {
                mind.waits(2.0);
                Self::Resting(looks + 1)
            }
            Self::Resting(_) => Self::Zero(0),
            Self::Zero(tries) => zero(tries, scene, mind),
            Self::Tube => {
                mind.waits(2.0);
                tube_check::look_over(scene, mind);
                mind.glances(Sight::Manometer);
                Self::Plumb(0)
            }
            Self::Ready => return Progress::Finished,
        };
        Progress::More
    }
}

/// Swings it until it hangs plumb.
fn plumb(tries: u8, scene: &Scene<'_>, mind: &mut Mind) -> Hang {
    let tilt_deg = scene.view.manometer.tilt_deg;
    if tilt_deg.abs() < PLUMB_DEG || tries >= 3 {
        return Hang::Valves;
    }
    if tries == 0 && tilt_deg.abs() > BENT_HOOK_DEG {
        mind.reports(
            FaultPlace::Manometer,
            Response::Repaired,
            "the manometer hung out of plumb; swung upright",
        );
    }
    mind.does(Action::SwingManometer { by_deg: -tilt_deg });
    Hang::Plumb(tries + 1)
}

/// Opens both valves fully.
pub(super) fn opens_valves(scene: &Scene<'_>, mind: &mut Mind) {
    for leg in [Leg::Left, Leg::Right] {
        let shut = OPEN_QUARTERS.saturating_sub(scene.view.manometer.leg(leg).valve_quarters);
        if shut > 0 {
            mind.does(Action::TurnValve { leg, quarter_turns: shut as i8 });
        }
    }
}

/// Slides the scale until both menisci are equally far from its zero.
fn zero(tries: u8, scene: &Scene<'_>, mind: &mut Mind) -> Hang {
    let manometer = &scene.view.manometer;
    let (left_in, right_in) = (manometer.left.meniscus_in, manometer.right.meniscus_in);
    let middle_in = 0.5 * (left_in + right_in);
    if mind.habits.zeroing == Practice::Kept && middle_in.abs() > ZEROED_IN && tries < 3 {
        mind.does(Action::SlideScale { by_in: middle_in.clamp(-2.0, 2.0) });
        mind.looks(Sight::Manometer);
        return Hang::Zero(tries + 1);
    }
    if mind.habits.zeroing == Practice::Kept && middle_in.abs() > ZEROED_IN {
        mind.reports(
            FaultPlace::Manometer,
            Response::Corrected,
            "the scale does not slide; both legs are read and added",
        );
    }
    let apart_in = (left_in - right_in).abs();
    if apart_in > UNFIT_IN {
        mind.rejects(FaultPlace::Manometer, "the legs stand far apart with both ends open");
    } else if manometer.bubble {
        mind.rejects(FaultPlace::Manometer, "a bubble sits in the manometer's bend");
    } else if apart_in > UNEQUAL_IN {
        mind.reports(
            FaultPlace::Manometer,
            Response::Noted,
            "the legs do not stand level with both ends open",
        );
    }
    mind.does(Action::ConnectTube);
    Hang::Ready
}
