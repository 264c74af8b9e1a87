//! A part of the marks before its weight.

use crate::procedure::strip;

/// Points that are needed for a line.
pub(super) const POINTS_OF_A_LINE: usize = 3;

/// A part before its weight.
#[derive(Debug, Clone)]
pub(super) struct PartScore {
    /// The fraction of it that was earned, 0 to 1.
    pub(super) share: f64,
    /// Where marks were lost.
    pub(super) reasons: Vec<String>,
}

const NOT_REACHED: &str = "not reached, because the work was rightly stopped";
const NO_POINT: &str = "no point was taken, and there was no reason to stop";
const STOPPED_EARLY: &str = "stopped early: only what was done counts";
const NO_HANDLING: &str = "no work was done on which safety could be judged";

impl PartScore {
    /// A part that was never reached because the work was rightly stopped.
    pub(super) fn not_reached() -> Self {
        Self { share: 1.0, reasons: vec![NOT_REACHED.to_owned()] }
    }

    /// A part of a session that was stopped early: worth as much as the points that were taken.
    pub(super) fn cut_to(mut self, points: usize) -> Self {
        self.share *= points.min(POINTS_OF_A_LINE) as f64 / POINTS_OF_A_LINE as f64;
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
        self.share = self.share.min(most);
        self.reasons.push(reason.to_owned());
        self
    }
}
