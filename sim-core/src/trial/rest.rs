//! The rest of the marks, with which the sessions of a rule are compared.

use crate::marking::{MarkPartName, Marks};
use crate::procedure::{ProcedureRule, Severity};

/// The total of the marks without the parts to which a rule contributes.
///
/// A rule compared with a total that includes its own marks would always seem to tell good sessions
/// from bad ones.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rest {
    /// Without safety.
    Safety,
    /// Without procedure.
    Procedure,
    /// Without procedure and fit.
    Fit,
    /// Without procedure and judgement.
    Judgement,
}

impl Rest {
    /// The rest for a rule.
    pub fn of(rule: &ProcedureRule) -> Self {
        match (rule.severity, rule.id) {
            (Severity::Critical | Severity::Safety, _) => Self::Safety,
            (_, "points-enough" | "points-spread" | "points-as-ordered") => Self::Fit,
            (
                _,
                "decision-sound" | "decision-written" | "correlation" | "residuals" | "last-line"
                | "false-alarms",
            ) => Self::Judgement,
            (Severity::Data | Severity::Practice, _) => Self::Procedure,
        }
    }

    /// The rest of these marks, in percent of what it could give; 0 if nothing of it was assessed.
    pub fn percent(self, marks: &Marks) -> f64 {
        let kept = marks.parts.iter().filter(|part| part.assessed && !self.leaves_out(part.name));
        let (got, of) = kept.fold((0.0, 0.0), |(got, of), part| (got + part.got, of + part.weight));
        if of > 0.0 { 100.0 * got / of } else { 0.0 }
    }

    /// Whether a part is left out.
    pub const fn leaves_out(self, part: MarkPartName) -> bool {
        match part {
            MarkPartName::Safety => matches!(self, Self::Safety),
            MarkPartName::Procedure => !matches!(self, Self::Safety),
            MarkPartName::Fit => matches!(self, Self::Fit),
            MarkPartName::Judgement => matches!(self, Self::Judgement),
            MarkPartName::Readings | MarkPartName::Record => false,
        }
    }
}
