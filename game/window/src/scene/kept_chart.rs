//! The chart of a run that is off the recorder: the hand brings it on under the loupe hour by hour.

use bevy::prelude::*;
use hands::Grain;

/// Asks for another hour of the chart, so many hours on.
#[derive(Message, Debug, Clone, Copy, PartialEq)]
pub struct ChartTurn(pub f64);

impl ChartTurn {
    /// By steps of the hand.
    pub fn by(steps: i32, grain: Grain) -> Self {
        let hours = match grain {
            Grain::Coarse => 1.0,
            Grain::Fine => 0.25,
        };
        Self(hours * f64::from(steps))
    }
}
