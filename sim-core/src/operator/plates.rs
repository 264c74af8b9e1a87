//! The plates of a calibrator with fixed plates: the power goes off, one plate comes out, the next goes
//! in, and the joints are proved tight again.

use super::leak::{self, LeakCheckPhase};
use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::plate::puts_in;
use super::running::stands_still;
use super::{Observation, Practice};
use crate::rig::flow::plates::Plate;

/// The change from one plate to another.
#[derive(Debug)]
pub(super) struct PlateChange {
    plate: Plate,
    stage: Stage,
}

#[derive(Debug, Default)]
enum Stage {
    /// The blower still runs.
    #[default]
    Running,
    /// The power is off; the rotor may still turn.
    Stopping,
    /// The new plate is in.
    Changed,
    /// The joints are checked.
    Checking(LeakCheckPhase),
    /// The plate is ready to be read.
    Ready,
}

impl PlateChange {
    /// A change to this plate.
    pub fn to(plate: Plate) -> Self {
        Self { plate, stage: Stage::Running }
    }
}

impl OperatorPhase for PlateChange {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        if memory.refusal.is_some() {
            return PhaseProgress::Finished;
        }
        self.stage = match std::mem::take(&mut self.stage) {
            Stage::Running if memory.habits.hands_off == Practice::Skipped => {
                puts_in(self.plate, observed, memory);
                memory.flow_changed = Some(observed.view.tick);
                Stage::Changed
            }
            Stage::Running => {
                memory.thinks(
                    "Without a plate the calibrator is open down to the fan: the power goes off first.",
                );
                memory.stops_blower(observed);
                Stage::Stopping
            }
            Stage::Stopping if stands_still(observed) => {
                puts_in(self.plate, observed, memory);
                Stage::Changed
            }
            Stage::Stopping => {
                memory.waits(5.0);
                Stage::Stopping
            }
            Stage::Changed => {
                if memory.habits.hands_off == Practice::Kept {
                    memory.starts_blower(observed);
                }
                if leak::listens(memory) {
                    Stage::Checking(LeakCheckPhase::default())
                } else {
                    Stage::Ready
                }
            }
            Stage::Checking(mut check) => match check.go_on(observed, memory) {
                PhaseProgress::More => Stage::Checking(check),
                PhaseProgress::Finished => Stage::Ready,
            },
            Stage::Ready => return PhaseProgress::Finished,
        };
        PhaseProgress::More
    }
}
