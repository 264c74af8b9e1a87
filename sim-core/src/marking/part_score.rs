//! A part of the marks before its weight.

use crate::procedure::strip;

/// Points that are needed for a line.
pub(super) const POINTS_OF_A_LINE: usize = 3;

/// A part before its weight.
#[derive(Debug, Clone)]
pub(super) struct PartScore {
    /// The fraction of it that was earned, 0 to 1; none if it was not assessed.
    pub(super) share: Option<f64>,
    /// Where marks were lost.
    pub(super) reasons: Vec<String>,
}

const NOT_REACHED: &str = "not assessed, because the work was rightly stopped before it";
const OUTSIDE: &str = "not assessed, because nothing of it belongs to this lesson";
const NO_POINT: &str = "no point was taken, and there was no reason to stop";
const STOPPED_EARLY: &str = "stopped early: only what was done counts";
const NO_HANDLING: &str = "no work was done on which safety could be judged";

impl PartScore {
    /// A part of which this fraction was earned.
    pub(super) const fn earned(share: f64, reasons: Vec<String>) -> Self {
        Self { share: Some(share), reasons }
    }

    /// A part that was never reached because the work was rightly stopped: it is not assessed.
    pub(super) fn not_reached() -> Self {
        Self { share: None, reasons: vec![NOT_REACHED.to_owned()] }
    }

    /// A part of which nothing belongs to the phases of the lesson: it is not assessed.
    pub(super) fn outside_lesson() -> Self {
        Self { share: None, reasons: vec![OUTSIDE.to_owned()] }
    }

    /// A part of a session that was stopped early: worth as much as the points that were taken.
    pub(super) fn cut_to(mut self, points: usize) -> Self {
        let done = points.min(POINTS_OF_A_LINE) as f64 / POINTS_OF_A_LINE as f64;
        self.share = self.share.map(|share| share * done);
        self.reasons.push(match points {
            0 => NO_POINT.to_owned(),
            _ => format!(
                "stopped after {points} of the {POINTS_OF_A_LINE} points that a calibration line needs"
            ),
        });
        self
    }

    /// Safety of a session that was stopped early: half of it at most, and nothing if no hands went
    /// in.
    pub(super) fn capped(mut self, hands: strip::Hands) -> Self {
        let (most, reason) = match hands {
            strip::Hands::WentIn => (0.5, STOPPED_EARLY),
            strip::Hands::StayedOut => (0.0, NO_HANDLING),
        };
        self.share = self.share.map(|share| share.min(most));
        self.reasons.push(reason.to_owned());
        self
    }
}
