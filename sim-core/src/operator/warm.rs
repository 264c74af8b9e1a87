//! Phase D, second half: warming up, and what can be looked at meanwhile.

use super::mind::{Mind, Phase, Progress};
use super::{Practice, Scene};
use crate::field_book::Field;
use crate::rig::parts::Leg;
use crate::session::action::{Action, FaultPlace, Response, Sight};

/// Running time before the first point, s: five minutes and a little (READ, 40 CFR 50 App. B 9.3.3).
pub(super) const WARM_UP_S: f64 = 310.0;
/// How long a shut valve must hold the column, s.
const HOLD_S: f64 = 15.0;
/// How far the column may sink meanwhile, in.
const SINK_IN: f64 = 0.12;

/// Where the phase stands.
#[derive(Debug, Default)]
pub(super) enum WarmUp {
    /// The blower runs.
    #[default]
    Begin,
    /// The left valve is about to be shut with the column up, in.
    Shut,
    /// It is shut; the left leg stood at this height, in.
    Holding(f64),
    /// The rest of the five minutes.
    Wait,
    /// The thermometer is read.
    Temperature(u8),
    /// The barometer is read.
    Pressure,
    /// Warm.
    Warm,
}

impl Phase for WarmUp {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        if mind.refusal.is_some() {
            return Progress::Finished;
        }
        *self = match *self {
            Self::Begin if mind.listens() => {
                // The column must stand before it can be seen to sink.
                mind.waits(Mind::left_of(15.0, mind.flow_changed, scene));
                mind.looks(Sight::LeftLeg);
                Self::Shut
            }
            Self::Begin => Self::Wait,
            Self::Shut => {
                let stood_in = scene.view.manometer.left.meniscus_in;
                mind.does(Action::TurnValve { leg: Leg::Left, quarter_turns: -4 });
                mind.waits(HOLD_S);
                mind.looks(Sight::LeftLeg);
                Self::Holding(stood_in)
            }
            Self::Holding(stood_in) => {
                mind.does(Action::TurnValve { leg: Leg::Left, quarter_turns: 4 });
                if stood_in - scene.view.manometer.left.meniscus_in > SINK_IN {
                    mind.rejects(
                        FaultPlace::Manometer,
                        "the manometer's left valve leaks: the column sinks behind the shut valve",
                    );
                }
                Self::Wait
            }
            Self::Wait => {
                blower(scene, mind);
                if mind.habits.warm_up == Practice::Kept {
                    mind.waits(Mind::left_of(WARM_UP_S, mind.started, scene));
                }
                mind.looks(Sight::Thermometer);
                Self::Temperature(0)
            }
            Self::Temperature(looks) => temperature(looks, scene, mind),
            Self::Pressure => {
                mind.pressure_mmhg = mind.reads_dial(scene.view.barometer.pointer_mmhg);
                mind.writes(Field::Pressure, format!("{:.1}", mind.pressure_mmhg));
                Self::Warm
            }
            Self::Warm => return Progress::Finished,
        };
        Progress::More
    }
}

/// What is heard of the blower.
fn blower(scene: &Scene<'_>, mind: &mut Mind) {
    mind.does(Action::Listen);
    if scene.view.blower.wavering {
        mind.reports(
            FaultPlace::Blower,
            Response::Noted,
            "the blower's sound wavers: worn brushes or wandering mains",
        );
    }
}

/// Reads the thermometer once its column rests.
fn temperature(looks: u8, scene: &Scene<'_>, mind: &mut Mind) -> WarmUp {
    if scene.view.thermometer.moving && looks < 20 && mind.habits.settling == Practice::Kept {
        mind.waits(15.0);
        return WarmUp::Temperature(looks + 1);
    }
    mind.temperature_c = mind.reads_dial(scene.view.thermometer.column_c);
    mind.writes(Field::Temperature, format!("{:.1}", mind.temperature_c));
    mind.looks(Sight::Barometer);
    WarmUp::Pressure
}
