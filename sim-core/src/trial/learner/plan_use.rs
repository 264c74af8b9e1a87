//! How learners use a plan.

use serde::Serialize;

/// How the learners use the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PlanUse {
    /// Everything, and what is due again is done again.
    Whole,
    /// Everything, and nothing is done again.
    WithoutSpacing,
    /// Its jobs in their order, without its drills and lessons.
    JobsAlone,
}

impl PlanUse {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Whole, Self::WithoutSpacing, Self::JobsAlone];

    /// It in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Whole => "the whole plan",
            Self::WithoutSpacing => "the plan, nothing done again",
            Self::JobsAlone => "its jobs alone",
        }
    }
}
