//! The controller trimmed by its screw until the standard shows the ordered flow.

use super::memory::{Memory, PhaseProgress};
use super::{Legs, Observation, arithmetic};
use crate::session::action::{Action, Sight};

/// The standard is brought this near to the ordered flow, as a part of it.
const NEAR: f64 = 0.005;
/// By how much one turn of the screw changes the flow, m3/min (common practice is to find this by trial;
/// the value belongs to the bench's own design).
const FLOW_A_TURN_M3_MIN: f64 = 0.05;
/// How often the screw is turned at most.
const MOST_TURNS: u8 = 10;
/// Time in which flow and column settle after the screw was turned, s.
const TRIMMED_S: f64 = 25.0;

/// How far the trimming has come.
#[derive(Debug, Default)]
pub(super) struct TrimByStandard {
    turned: u8,
    stage: Stage,
}

#[derive(Debug, Default)]
enum Stage {
    /// The manometer is to be read.
    #[default]
    Begin,
    /// The leg that rose is in focus.
    Left,
    /// The leg that fell is in focus.
    Right(f64),
}

impl TrimByStandard {
    /// Plans the next steps.
    pub fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        let manometer = &observed.view.manometer;
        match self.stage {
            Stage::Begin => {
                memory.looks_to_read(Sight::LeftLeg);
                self.stage = Stage::Left;
            }
            Stage::Left => {
                let up_in = memory.reads_in(manometer.left.meniscus_in);
                memory.looks_to_read(Sight::RightLeg);
                self.stage = Stage::Right(up_in);
            }
            Stage::Right(up_in) => {
                let down_in = -memory.reads_in(manometer.right.meniscus_in);
                let sum_in = match memory.habits.legs {
                    Legs::Both => up_in + down_in,
                    Legs::Left => up_in,
                    Legs::LeftDoubled => 2.0 * up_in,
                };
                return self.turns_screw(sum_in * memory.density, observed, memory);
            }
        }
        PhaseProgress::More
    }

    /// Turns the screw towards the ordered flow, unless the standard shows it.
    fn turns_screw(
        &mut self,
        delta_h_in: f64,
        observed: &Observation<'_>,
        memory: &mut Memory,
    ) -> PhaseProgress {
        let (Some(standard), Some(air)) = (memory.standard, memory.air()) else {
            return PhaseProgress::Finished;
        };
        let wanted = observed.papers.work_order.target_flow_std_m3_min;
        let flow = arithmetic::flow(delta_h_in, air, standard);
        let off = wanted - flow;
        memory.thinks(format!(
            "The standard shows {flow:.3} m3/min, ordered are {wanted:.3}: {off:+.3} to go (at most {:.3}).",
            NEAR * wanted
        ));
        if off.abs() <= NEAR * wanted || self.turned >= MOST_TURNS {
            return PhaseProgress::Finished;
        }
        let turns = arithmetic::rounded(off / FLOW_A_TURN_M3_MIN, 2).clamp(-5.0, 5.0);
        memory.does(Action::TurnTrim { turns });
        memory.waits(TRIMMED_S);
        *self = Self { turned: self.turned + 1, stage: Stage::Begin };
        PhaseProgress::More
    }
}
