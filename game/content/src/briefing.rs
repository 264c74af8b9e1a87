//! What a trainee is told before a job: what is expected, what is recorded, how long it takes, and what
//! help there is.

use serde::Serialize;

/// A briefing. Each part is a few whole sentences; none is empty.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Briefing {
    /// What is expected, and when the job is passed.
    pub expected: Vec<String>,
    /// What is recorded of the work.
    pub recorded: Vec<String>,
    /// How long it takes, and whether there is a limit.
    pub time: Vec<String>,
    /// What help there is.
    pub help: Vec<String>,
}

impl Briefing {
    /// Each part with its heading, in the order in which they are told.
    pub fn parts(&self) -> [(&'static str, &[String]); 4] {
        [
            ("What is expected", &self.expected),
            ("What is recorded", &self.recorded),
            ("How long it takes", &self.time),
            ("What help there is", &self.help),
        ]
    }
}
