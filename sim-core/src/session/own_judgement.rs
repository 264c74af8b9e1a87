//! What the trainee thinks of the work, said after the signature and before any truth is shown: how
//! good the volume is, how sure they are of that, and what they would do again.
//!
//! It stands in the journal, in a line of its own behind the seal. There it travels with its session
//! wherever the file goes, and is part of the chain of checksums, so that it cannot be changed
//! afterwards without a trace; and as the session has ended, no state, rule or mark can depend on it.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::checklist_item::ChecklistItem;
use crate::scenario::lesson::LessonPhase;
use crate::scenario::setup::{SessionTerms, WorkOrder};

/// The trainee's own judgement of a session.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnJudgement {
    /// How good the volume is; none where nothing was said, or the order has no volume.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub volume: Option<VolumeClaim>,
    /// What the trainee would do again, by the phases of the work.
    #[serde(default)]
    pub again: BTreeSet<ChecklistItem>,
}

/// How good the trainee says the volume is, and how sure they are of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VolumeClaim {
    /// How far it is off, at most.
    pub off: VolumeOff,
    /// How sure the trainee is, percent.
    pub sure_pct: Sureness,
}

/// How far off a volume is said to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum VolumeOff {
    /// At most 2 percent.
    #[serde(rename = "within_2")]
    Within2,
    /// At most 5 percent.
    #[serde(rename = "within_5")]
    Within5,
    /// At most 10 percent.
    #[serde(rename = "within_10")]
    Within10,
    /// More than 10 percent.
    Worse,
}

impl OwnJudgement {
    /// Whether a job leads to a volume that can be judged: it has a calibration line, or a sample.
    pub fn has_volume(order: &WorkOrder, terms: &SessionTerms) -> bool {
        let is_taught = |phase| terms.phases.is_none_or(|phases| phases.has(phase));
        let leads_to = is_taught(LessonPhase::Calculations) || is_taught(LessonPhase::Volume);
        leads_to && !order.is_check_alone()
    }
}

impl VolumeOff {
    /// All of them, the closest first.
    pub const ALL: [Self; 4] = [Self::Within2, Self::Within5, Self::Within10, Self::Worse];

    /// The limit, percent; none for the last one, which has only a lower one.
    pub const fn limit_pct(self) -> Option<f64> {
        match self {
            Self::Within2 => Some(2.0),
            Self::Within5 => Some(5.0),
            Self::Within10 => Some(10.0),
            Self::Worse => None,
        }
    }

    /// It in words: the volume is …
    pub const fn words(self) -> &'static str {
        match self {
            Self::Within2 => "within 2 %",
            Self::Within5 => "within 5 %",
            Self::Within10 => "within 10 %",
            Self::Worse => "off by more than 10 %",
        }
    }

    /// Whether a volume that is off by so many percent is as good as was said.
    pub fn holds(self, error_pct: f64) -> bool {
        match self.limit_pct() {
            Some(limit) => error_pct.abs() <= limit,
            None => error_pct.abs() > 10.0,
        }
    }
}

/// How sure somebody is that a statement of their own is right: 50, 60, 70, 80, 90 or 100 percent. 50
/// is a guess, 100 is certain; below 50 they would have said the opposite. Six steps are as many as
/// people can tell apart (CHOSEN), and sessions with the same answer can be compared with each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(into = "u8", try_from = "u8")]
pub struct Sureness(u8);

/// A number that is not a sureness.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("{0} is not one of 50, 60, 70, 80, 90 and 100: 50 percent is a guess, and 100 is certain")]
pub struct NotASureness(u8);

impl Sureness {
    /// All of them, from a guess to certainty.
    pub const ALL: [Self; 6] = [Self(50), Self(60), Self(70), Self(80), Self(90), Self(100)];

    /// As a probability, 0.5 to 1.
    pub fn probability(self) -> f64 {
        f64::from(self.0) / 100.0
    }

    /// Whole percent.
    pub const fn percent(self) -> u8 {
        self.0
    }
}

impl TryFrom<u8> for Sureness {
    type Error = NotASureness;

    fn try_from(percent: u8) -> Result<Self, NotASureness> {
        let is_step = (50..=100).contains(&percent) && percent.is_multiple_of(10);
        if is_step { Ok(Self(percent)) } else { Err(NotASureness(percent)) }
    }
}

impl From<Sureness> for u8 {
    fn from(sure: Sureness) -> Self {
        sure.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sureness_lies_between_a_guess_and_certainty() {
        for wrong in [0, 40, 49, 65, 101, 110, 255] {
            assert_eq!(Sureness::try_from(wrong), Err(NotASureness(wrong)));
            assert!(ron::from_str::<Sureness>(&wrong.to_string()).is_err());
        }
        assert_eq!(ron::from_str::<Sureness>("100"), Ok(Sureness(100)));
    }

    #[test]
    fn a_claim_holds_up_to_its_limit() {
        for (off, error, holds) in [
            (VolumeOff::Within2, -2.0, true),
            (VolumeOff::Within2, 2.1, false),
            (VolumeOff::Within10, -10.0, true),
            (VolumeOff::Worse, 10.0, false),
            (VolumeOff::Worse, -10.1, true),
        ] {
            assert_eq!(off.holds(error), holds, "{off:?} {error}");
        }
    }
}
