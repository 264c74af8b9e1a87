//! The manometer's own leak test: a shut valve must hold the column.

use super::memory::{Memory, PhaseProgress};
use super::running::has_power;
use super::{Observation, Practice};
use crate::rig::parts::Leg;
use crate::session::action::{Action, FaultKind, Sight};

/// For how long a shut valve must hold the column, s.
const HOLD_S: f64 = 15.0;
/// By how much the column may sink in that time, in.
const SINK_IN: f64 = 0.12;
/// Quarter turns from open to shut.
const QUARTERS: i8 = 4;

/// The left valve is shut while the column is displaced by the blower. Behind a tight valve the
/// enclosed air holds the column; if the valve leaks, the column sinks.
#[derive(Debug, Default)]
pub(super) enum HoldTest {
    /// The operator is about to look at the left leg.
    #[default]
    Begin,
    /// The left leg is in focus.
    Standing,
    /// The valve is shut; the leg stood at this height, in.
    Holding(f64),
    /// The valve is open again.
    Over,
}

impl HoldTest {
    /// Continues the test.
    pub fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        let stands_in = observed.view.manometer.left.meniscus_in;
        *self = match *self {
            // An electronic manometer has no valve to be tried.
            Self::Begin if observed.view.manometer.display.is_some() => Self::Over,
            Self::Begin if memory.habits.hold_test == Practice::Skipped => Self::Over,
            // A column that falls with the rotor proves nothing.
            Self::Begin if !has_power(observed) => {
                memory.thinks("The blower is off: a column that falls with the rotor says nothing of a valve.");
                Self::Over
            }
            Self::Begin => {
                memory.looks(Sight::LeftLeg);
                Self::Standing
            }
            Self::Standing => {
                memory.does(Action::TurnValve { leg: Leg::Left, quarter_turns: -QUARTERS });
                memory.waits(HOLD_S);
                memory.looks(Sight::LeftLeg);
                Self::Holding(stands_in)
            }
            Self::Holding(stood_in) => {
                memory.does(Action::TurnValve { leg: Leg::Left, quarter_turns: QUARTERS });
                memory.thinks(format!(
                    "Behind the shut left valve the column sank by {:.2} in during {HOLD_S:.0} s (at most {SINK_IN:.2} in).",
                    (stood_in - stands_in).max(0.0)
                ));
                if stood_in - stands_in > SINK_IN {
                    memory.rejects(
                        FaultKind::ManometerValveLeaks,
                        "the manometer's left valve leaks: the column sinks behind the shut valve",
                    );
                }
                Self::Over
            }
            Self::Over => return PhaseProgress::Finished,
        };
        PhaseProgress::More
    }
}
