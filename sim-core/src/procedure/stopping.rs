//! Whether the work was stopped for a good reason.

use super::evidence::{Evidence, PointTaken, TraineeDecision};
use super::faults::grounds_for_refusal;

impl Evidence<'_> {
    /// Whether the points were stopped for a good reason: thunder, or a refusal that a fault in
    /// force justifies.
    pub fn rightly_stopped(&self) -> bool {
        self.fled_from_thunder()
            || self.verdict() == TraineeDecision::Refused && grounds_for_refusal(self)
    }

    /// Whether this point, the last one begun, was left half read for a good reason.
    pub fn broken_off(&self, point: &PointTaken<'_>) -> bool {
        self.rightly_stopped()
            && self.points().iter().all(|other| other.first.index <= point.first.index)
    }
}
