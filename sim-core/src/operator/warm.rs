//! Phase D, second half: the warm-up, and what can be inspected in that time.

use super::hold_test::HoldTest;
use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::{Observation, Practice, suspect};
use crate::field_book::Field;
use crate::session::action::{Action, Exposure, FaultKind, Response, Sight};

/// Running time before the first point, s: a little over five minutes (READ, 40 CFR 50 App. B
/// 9.3.3).
pub(super) const WARM_UP_S: f64 = 310.0;
/// How far the phase has come.
#[derive(Debug, Default)]
pub(super) enum WarmUpPhase {
    /// The blower runs.
    #[default]
    Begin,
    /// The manometer is being tested for leaks.
    Manometer(HoldTest),
    /// The rest of the five minutes.
    Wait,
    /// The thermometer is in focus.
    Temperature(u8),
    /// The barometer is in focus.
    Pressure,
    /// The blower is warm.
    Warm,
}

impl OperatorPhase for WarmUpPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        if memory.refusal.is_some() {
            return PhaseProgress::Finished;
        }
        let stage = std::mem::take(self);
        *self = match stage {
            Self::Begin if memory.checks_leaks() => {
                // The column must be at rest before one can see it sink.
                memory.waits(Memory::left_of(15.0, memory.flow_changed, observed));
                Self::Manometer(HoldTest::Begin)
            }
            Self::Begin => Self::Wait,
            Self::Manometer(mut test) => match test.go_on(observed, memory) {
                PhaseProgress::More => Self::Manometer(test),
                PhaseProgress::Finished => Self::Wait,
            },
            Self::Wait => {
                memory.does(Action::Listen);
                suspect::air_and_sound(observed, memory);
                if memory.habits.warm_up == Practice::Kept {
                    let left_s = Memory::left_of(WARM_UP_S, memory.started, observed);
                    memory.thinks(format!(
                        "The blower must run for {WARM_UP_S:.0} s before the first point; {left_s:.0} s of them are left."
                    ));
                    memory.waits(left_s);
                }
                memory.looks(Sight::Thermometer);
                Self::Temperature(0)
            }
            Self::Temperature(looks) => temperature(looks, observed, memory),
            Self::Pressure => {
                memory.pressure_mmhg = memory.reads_dial(observed.view.barometer.pointer_mmhg);
                memory.writes(Field::Pressure, format!("{:.1}", memory.pressure_mmhg));
                Self::Warm
            }
            Self::Warm => {
                *self = Self::Warm;
                return PhaseProgress::Finished;
            }
        };
        PhaseProgress::More
    }
}

/// Reads the thermometer once its column is at rest.
fn temperature(looks: u8, observed: &Observation<'_>, memory: &mut Memory) -> WarmUpPhase {
    let in_sun = observed.view.thermometer.exposure == Exposure::Sun;
    if in_sun && looks == 0 && memory.habits.shade == Practice::Kept {
        into_the_shade(memory);
        memory.waits(15.0);
        return WarmUpPhase::Temperature(1);
    }
    if observed.view.thermometer.moving && looks < 20 && memory.habits.settling == Practice::Kept {
        memory.waits(15.0);
        return WarmUpPhase::Temperature(looks + 1);
    }
    let rest = if observed.view.thermometer.moving { "still moves" } else { "is at rest" };
    memory.temperature_c = memory.reads_dial(observed.view.thermometer.column_c);
    memory.thinks(format!(
        "The thermometer {rest} at {:.1} °C, and is written down.",
        memory.temperature_c
    ));
    memory.writes(Field::Temperature, format!("{:.1}", memory.temperature_c));
    memory.looks(Sight::Barometer);
    WarmUpPhase::Pressure
}

/// Moves the thermometer into the shade.
pub(super) fn into_the_shade(memory: &mut Memory) {
    memory.thinks(
        "The thermometer stands in the sun, which warms it above the air: it goes into the shade.",
    );
    memory.does(Action::PlaceThermometer { at: Exposure::Shade });
    memory.reports(
        FaultKind::ThermometerInSun,
        Response::Repaired,
        "the thermometer stood in the sun; moved into the shade",
    );
}
