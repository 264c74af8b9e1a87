//! The four outcomes of a rule in a session.

use serde::Serialize;

use super::evidence::Evidence;
use super::slip::Slip;
use crate::field_book::Field;
use crate::time::Tick;

/// What a rule says about a session.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// The work came to where the rule applies, and the rule was kept.
    Kept,
    /// The rule was broken, once or more often.
    Broken(Vec<Slip>),
    /// The work never came to where the rule applies.
    NotReached,
    /// The rule applies, but the record lacks what it is judged by; the text says what that is.
    CannotJudge(String),
}

impl Outcome {
    /// The outcome of a rule that was reached: broken by these slips, or kept without any.
    pub fn reached(slips: impl IntoIterator<Item = Slip>) -> Self {
        let slips: Vec<Slip> = slips.into_iter().collect();
        if slips.is_empty() { Self::Kept } else { Self::Broken(slips) }
    }

    /// Broken by one slip.
    pub fn broken(slip: Slip) -> Self {
        Self::Broken(vec![slip])
    }

    /// The outcome of a rule that was reached at one moment: broken if something was wrong then.
    pub fn at(tick: Tick, wrong: Option<String>) -> Self {
        Self::reached(wrong.map(|text| Slip::at(tick, text)))
    }

    /// The outcome over every occasion on which a rule applies; without an occasion it was not
    /// reached.
    pub fn over<T>(
        occasions: impl IntoIterator<Item = T>,
        slip: impl FnMut(T) -> Option<Slip>,
    ) -> Self {
        let mut occasions = occasions.into_iter().peekable();
        if occasions.peek().is_none() {
            return Self::NotReached;
        }
        Self::reached(occasions.filter_map(slip))
    }

    /// The outcome of a rule that applies on two kinds of occasion.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::NotReached, other) => other,
            (one, Self::NotReached) => one,
            (Self::Broken(mut slips), Self::Broken(more)) => {
                slips.extend(more);
                Self::Broken(slips)
            }
            (Self::Broken(slips), _) | (_, Self::Broken(slips)) => Self::Broken(slips),
            (Self::CannotJudge(what), _) | (_, Self::CannotJudge(what)) => Self::CannotJudge(what),
            (Self::Kept, Self::Kept) => Self::Kept,
        }
    }

    /// The same outcome with the first slip only, where later ones say nothing new.
    #[must_use]
    pub fn first_only(self) -> Self {
        match self {
            Self::Broken(slips) => Self::reached(slips.into_iter().take(1)),
            outcome => outcome,
        }
    }

    /// The same outcome with near misses for slips.
    #[must_use]
    pub fn mild(self) -> Self {
        match self {
            Self::Broken(slips) => Self::reached(slips.into_iter().map(Slip::mild)),
            outcome => outcome,
        }
    }

    /// The rule cannot be judged, because a field is blank or cannot be read.
    pub fn without(evidence: &Evidence<'_>, field: Field) -> Self {
        let label = field.label();
        Self::CannotJudge(match evidence.book.text(field) {
            Some(text) if !field.is_words() => format!("the {label} (`{text}`) is not a number"),
            Some(text) => format!("the {label} (`{text}`) cannot be understood"),
            None => format!("the {label} is missing"),
        })
    }

    /// The same for the first of these fields that has no number. If all have one, what they give
    /// together makes no sense.
    pub fn without_one_of(evidence: &Evidence<'_>, fields: &[Field]) -> Self {
        match fields.iter().find(|field| evidence.book.number(**field).is_none()) {
            Some(field) => Self::without(evidence, *field),
            None => {
                let labels: Vec<String> = fields.iter().map(|field| field.label()).collect();
                Self::CannotJudge(format!("no calculation is possible with {}", labels.join(", ")))
            }
        }
    }

    /// The same outcome without its details.
    pub const fn kind(&self) -> OutcomeKind {
        match self {
            Self::Kept => OutcomeKind::Kept,
            Self::Broken(_) => OutcomeKind::Broken,
            Self::NotReached => OutcomeKind::NotReached,
            Self::CannotJudge(_) => OutcomeKind::CannotJudge,
        }
    }
}

/// The outcome of a rule without its details.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum OutcomeKind {
    /// Reached and kept.
    Kept,
    /// Broken.
    Broken,
    /// The work never came to where it applies.
    NotReached,
    /// The record lacks what it is judged by.
    CannotJudge,
    /// It does not belong to the phases of the lesson.
    NotAssessed,
}

/// The outcome of one rule in a session, for the marks.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RuleJudged {
    /// Id of the rule.
    pub rule: &'static str,
    /// Its outcome.
    pub outcome: OutcomeKind,
    /// What is missing, if it could not be judged.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub missing: Option<String>,
}

/// Whether a value is beyond its limit. What is not finite is beyond every limit, so that a calculation
/// that fails never passes for a right one.
pub(crate) fn beyond(value: f64, limit: f64) -> bool {
    !value.is_finite() || value > limit
}
