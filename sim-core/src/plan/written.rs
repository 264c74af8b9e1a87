//! A lesson plan as a trainer writes it.

use serde::{Deserialize, Serialize};

use crate::drill::DrillKind;

/// The format that this program reads.
pub const PLAN_FORMAT: u32 = 1;

/// A lesson plan as written.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LessonPlan {
    /// The format's number, [`PLAN_FORMAT`].
    pub format: u32,
    /// A short title, for lists.
    pub title: String,
    /// For whom it is made, and to what it leads.
    pub for_whom: String,
    /// The steps, in order.
    pub steps: Vec<PlanStep>,
}

/// One step.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlanStep {
    /// What is done.
    pub step: StepKind,
    /// What it takes to go on.
    #[serde(default)]
    pub until: Until,
    /// Whether it is due again after a while; if left out, a drill and a lesson are, and nothing else.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub again: Option<bool>,
}

/// What is done in a step.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum StepKind {
    /// A drill, until it is good enough.
    Drill(DrillKind),
    /// A lesson on a part of the work: a scenario, by its file.
    Lesson(String),
    /// A whole job: a scenario, by its file.
    Job(String),
    /// A rig that nobody has seen, drawn by this level.
    Drawn(u8),
    /// A sitting: a scenario against the clock and without help, by its file.
    Sitting(String),
}

/// What it takes to go on. A drill has to be good enough, anything else passed; the rest comes on top.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Until {
    /// Marks at least, of 100.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub marks: Option<f64>,
    /// Whether it has to be done without asking for help.
    pub unaided: bool,
    /// How often.
    pub times: u8,
}

impl Default for Until {
    fn default() -> Self {
        Self { marks: None, unaided: false, times: 1 }
    }
}

impl PlanStep {
    /// Whether the step is due again after a while.
    pub fn is_due_again(&self) -> bool {
        self.again.unwrap_or(matches!(self.step, StepKind::Drill(_) | StepKind::Lesson(_)))
    }

    /// What it takes to go on, in words.
    pub fn until_words(&self) -> String {
        let mut words = match &self.step {
            StepKind::Drill(kind) => {
                let standard = kind.standard();
                format!(
                    "good enough: {} of the last {} right, each within {:.0} s",
                    standard.needed, standard.of_last, standard.within_s
                )
            }
            _ => "passed".to_owned(),
        };
        if let Some(marks) = self.until.marks {
            words.push_str(&format!(" with {marks} marks at least"));
        }
        if self.until.unaided {
            words.push_str(", without asking for help");
        }
        if self.until.times > 1 {
            words.push_str(&format!(", {} times", self.until.times));
        }
        words
    }
}

impl StepKind {
    /// What kind of step it is, in a word.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Drill(_) => "drill",
            Self::Lesson(_) => "lesson",
            Self::Job(_) => "job",
            Self::Drawn(_) => "drawn rig",
            Self::Sitting(_) => "sitting",
        }
    }

    /// The file of its scenario, if it has one.
    pub fn file(&self) -> Option<&str> {
        match self {
            Self::Lesson(file) | Self::Job(file) | Self::Sitting(file) => Some(file),
            Self::Drill(_) | Self::Drawn(_) => None,
        }
    }
}
