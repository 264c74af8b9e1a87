//! Where the loupe is held: it follows what is read, without hurry, so that water is seen to swing.

use sim_core::session::action::Sight;
use sim_core::session::view::View;

use crate::chart;

/// What the middle of the loupe is on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gaze {
    sight: Sight,
    centre: f64,
    kept: Option<KeptChart>,
}

/// How the chart of a run is held under the loupe, once it is off the recorder.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum KeptChart {
    /// The whole of it.
    Whole,
    /// About an hour of it, 0 to 24.
    Hour(f64),
}

/// How a loupe follows: in units of what is read.
struct Leash {
    /// What is read may move so far from the middle before the loupe follows.
    slack: f64,
    /// Farther it is never let go.
    length: f64,
}

/// Time in which the loupe covers most of the way that it follows, s.
const FOLLOWS_S: f64 = 0.5;

impl Gaze {
    /// Straight on what has the focus.
    pub fn on(view: &View) -> Self {
        Self { sight: view.focus, centre: read(view), kept: None }
    }

    /// The loupe `dt_s` (s) later: kept where it is while what is read stays near its middle, drawn
    /// after it when it leaves, and put straight on anything new.
    pub fn followed(self, view: &View, dt_s: f64) -> Self {
        if self.sight != view.focus || !self.centre.is_finite() {
            return Self::on(view);
        }
        let Some(Leash { slack, length }) = leash(self.sight) else {
            return Self::on(view);
        };
        let off = read(view) - self.centre;
        let beyond = off - off.clamp(-slack, slack);
        let kept = (-dt_s.max(0.0) / FOLLOWS_S).exp();
        let drawn = self.centre + beyond * (1.0 - kept);
        let centre = drawn.clamp(read(view) - length, read(view) + length);
        Self { centre, ..self }
    }

    /// The same with the chart of a run held under the glass, or put down again.
    pub const fn holding(self, kept: Option<KeptChart>) -> Self {
        Self { kept, ..self }
    }

    /// How the chart of a run is held.
    pub(super) const fn kept(self) -> Option<KeptChart> {
        self.kept
    }

    /// What the middle is on: inches, mmHg, degrees Celsius; of the chart the nib's radius.
    pub(super) const fn centre(self) -> f64 {
        self.centre
    }
}

/// What is read of a view, in the unit of its scale.
fn read(view: &View) -> f64 {
    match view.focus {
        Sight::LeftLeg => view.manometer.left.meniscus_in,
        Sight::RightLeg => view.manometer.right.meniscus_in,
        Sight::Pen => {
            let ruling = chart::Ruling::of(&view.recorder);
            view.recorder.pen.map_or(chart::R0, |pen| ruling.radius(pen))
        }
        Sight::Barometer => view.barometer.pointer_mmhg,
        Sight::Thermometer => view.thermometer.column_c,
        _ => 0.0,
    }
}

/// How a sight is followed; `None` where the loupe has no reason to move.
fn leash(sight: Sight) -> Option<Leash> {
    match sight {
        Sight::LeftLeg | Sight::RightLeg => Some(Leash { slack: 0.25, length: 0.45 }),
        Sight::Pen => Some(Leash { slack: 2.5, length: 5.0 }),
        Sight::Barometer => Some(Leash { slack: 1.5, length: 4.0 }),
        Sight::Thermometer => Some(Leash { slack: 1.0, length: 3.0 }),
        _ => None,
    }
}
