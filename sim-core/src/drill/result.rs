//! What came of one question: the record that summaries read.

use serde::{Deserialize, Serialize};

use super::kind::DrillKind;
use super::slip::DrillSlip;

/// One attempt: a question that was answered.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DrillResult {
    /// Which drill.
    pub kind: DrillKind,
    /// The seed of its series.
    pub seed: u64,
    /// Which question of the series, from 0.
    pub number: u32,
    /// When it was answered: the wall clock of the front end, seconds since 1970-01-01 00:00 UTC.
    pub unix_s: u64,
    /// From question to answer, s, by the clock of the front end.
    pub seconds: f64,
    /// By how much the answer was off, in the kind's [`error unit`](DrillKind::error_unit); positive
    /// if it was too high. `None` where an answer is right or wrong, with nothing in between.
    pub error: Option<f64>,
    /// Whether the answer was right, or within the tolerance of its kind.
    pub right: bool,
    /// The slip from which a wrong answer follows, if it follows from a typical one.
    pub slip: Option<DrillSlip>,
    /// Whether the reading was had in words.
    pub in_words: bool,
}
