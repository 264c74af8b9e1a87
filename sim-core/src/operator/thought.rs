//! What an operator thinks when it decides: what it saw, against what it held it, and what follows.

use crate::field_book::{Decision, Field};
use crate::session::action::{FaultReport, Response};

/// One thought of an operator.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Thought {
    /// What the operator was working at.
    pub phase: &'static str,
    /// The thought, in a sentence.
    pub text: String,
}

/// The thoughts since the operator was last asked for them. Nothing that an operator does depends on
/// them.
#[derive(Debug, Default)]
pub(super) struct Thoughts {
    phase: &'static str,
    kept: Vec<Thought>,
}

impl Thoughts {
    /// From now on the operator works at this.
    pub const fn turn_to(&mut self, phase: &'static str) {
        self.phase = phase;
    }

    /// Keeps a thought. The same thought twice in a row is one.
    pub fn keep(&mut self, text: String) {
        let thought = Thought { phase: self.phase, text };
        if self.kept.last() != Some(&thought) {
            self.kept.push(thought);
        }
    }

    /// Hands out the thoughts, and forgets them.
    pub fn hand_out(&mut self) -> Vec<Thought> {
        std::mem::take(&mut self.kept)
    }
}

/// The thought with which a report is made.
pub(super) fn reported(report: &FaultReport) -> String {
    let response = match report.response {
        Response::Repaired => "repaired",
        Response::Corrected => "allowed for",
        Response::Rejected => "not used",
        Response::Noted => "noted",
    };
    format!("Reports at the {} ({response}): {}.", report.place.words(), report.words())
}

/// The thought with which a decision is made.
pub(super) fn decided(decision: Decision, reason: &str) -> String {
    let about = match decision.field() {
        Field::CheckOutcome => "flow check",
        Field::Validity => "sample",
        _ => "calibration",
    };
    format!("Decides on the {about}: {}.", decision.entry(reason))
}

#[cfg(test)]
mod tests {
    use super::Thoughts;

    #[test]
    fn a_thought_is_handed_out_once_with_its_phase() {
        let mut thoughts = Thoughts::default();
        thoughts.turn_to("leak check");
        thoughts.keep("Nothing hisses.".to_owned());
        thoughts.keep("Nothing hisses.".to_owned());
        thoughts.turn_to("warm-up");
        thoughts.keep("Nothing hisses.".to_owned());
        let all: Vec<_> =
            thoughts.hand_out().into_iter().map(|one| (one.phase, one.text)).collect();
        let same = "Nothing hisses.".to_owned();
        assert_eq!(all, [("leak check", same.clone()), ("warm-up", same)]);
        assert_eq!(thoughts.hand_out(), []);
    }
}
