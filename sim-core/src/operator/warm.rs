//! Phase D, second half: warming up, and what can be looked at meanwhile.

use super::hold_test::HoldTest;
use super::mind::{Mind, Phase, Progress};
use super::{Practice, Scene, suspect};
use crate::field_book::Field;
use crate::session::action::{Action, Exposure, FaultPlace, Response, Sight};

/// Running time before the first point, s: five minutes and a little (READ, 40 CFR 50 App. B 9.3.3).
pub(super) const WARM_UP_S: f64 = 310.0;
/// Where the phase stands.
#[derive(Debug, Default)]
pub(super) enum WarmUp {
    /// The blower runs.
    #[default]
    Begin,
    /// The manometer holds its column, or not.
    Manometer(HoldTest),
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
        let stage = std::mem::take(self);
        *self = match stage {
            Self::Begin if mind.minds_leaks() => {
                // The column must stand before it can be seen to sink.
                mind.waits(Mind::left_of(15.0, mind.flow_changed, scene));
                Self::Manometer(HoldTest::Begin)
            }
            Self::Begin => Self::Wait,
            Self::Manometer(mut test) => match test.go_on(scene, mind) {
                Progress::More => Self::Manometer(test),
                Progress::Finished => Self::Wait,
            },
            Self::Wait => {
                mind.does(Action::Listen);
                suspect::air_and_sound(scene, mind);
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
            Self::Warm => {
                *self = Self::Warm;
                return Progress::Finished;
            }
        };
        Progress::More
    }
}

/// Reads the thermometer once its column rests.
fn temperature(looks: u8, scene: &Scene<'_>, mind: &mut Mind) -> WarmUp {
    let in_sun = scene.view.thermometer.exposure == Exposure::Sun;
    if in_sun && looks == 0 && mind.habits.shade == Practice::Kept {
        into_the_shade(mind);
        mind.waits(15.0);
        return WarmUp::Temperature(1);
    }
    if scene.view.thermometer.moving && looks < 20 && mind.habits.settling == Practice::Kept {
        mind.waits(15.0);
        return WarmUp::Temperature(looks + 1);
    }
    mind.temperature_c = mind.reads_dial(scene.view.thermometer.column_c);
    mind.writes(Field::Temperature, format!("{:.1}", mind.temperature_c));
    mind.looks(Sight::Barometer);
    WarmUp::Pressure
}

/// Moves the thermometer into the shade.
pub(super) fn into_the_shade(mind: &mut Mind) {
    mind.does(Action::PlaceThermometer { at: Exposure::Shade });
    mind.reports(
        FaultPlace::Thermometer,
        Response::Repaired,
        "the thermometer stood in the sun; moved into the shade",
    );
}
