//! A part of the marks before its weight.

use crate::procedure::strip;

/// Points that make a line.
pub(super) const POINTS_OF_A_LINE: usize = 3;

/// A part before its weight.
#[derive(Debug, Clone)]
pub(super) struct PartScore {
    /// What is left of it, 0 to 1.
    pub(super) share: f64,
    /// Why it is no more.
    pub(super) reasons: Vec<String>,
}

impl PartScore {
    /// A part that was never reached because the work was rightly stopped.
    pub(super) fn not_reached() -> Self {
        Self { share: 1.0, reasons: vec!["not reached: the work was rightly stopped".to_owned()] }
    }

    /// A part of a session that was broken off: worth as much as came of the points of a line.
    pub(super) fn cut_to(mut self, points: usize) -> Self {
        self.share *= points.min(POINTS_OF_A_LINE) as f64 / POINTS_OF_A_LINE as f64;
        self.reasons.push(match points {
            0 => "no point was taken, and nothing called for stopping".to_owned(),
            _ => format!("broken off after {points} of {POINTS_OF_A_LINE} points of a line"),
        });
        self
    }

    /// Safety of a session that was broken off: half of it at most, nothing when no hand went in.
    pub(super) fn capped(mut self, hands: strip::Hands) -> Self {
        let (most, reason) = match hands {
            strip::Hands::WentIn => (0.5, "broken off: only what was done is counted"),
            strip::Hands::StayedOut => (0.0, "nothing was done that could be done safely"),
        };
        self.share = self.share.min(most);
        self.reasons.push(reason.to_owned());
        self
    }
}
