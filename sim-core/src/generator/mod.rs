//! Rigs that nobody has seen: whole scenarios drawn from a level and a seed.
//!
//! | file | what it does |
//! |---|---|
//! | [`level`] | how hard a drawn rig is |
//! | [`troubles`] | the faults that are drawn, each with the habit that overlooks it and the orders for it |
//! | `pairs` | which two faults are drawn together |
//! | `job` | what is drawn: site, season, weather, instruments, papers, order, faults |
//! | `order` | the kinds of order, and which are drawn at which level |
//! | `dice` | draws by name, so that one draw does not shift another |
//! | `names` | invented stations and what they are |
//! | `text` | the job as the text of a scenario |
//!
//! A drawn scenario is a scenario like any other: it can be kept as a file, passes the check, and its
//! journal holds its text, so that a session of it is replayed without the generator. Only faults and
//! pairs of faults are drawn that the careful operator is proven to find, each on the orders on which it
//! is proven; a test holds the tables to that.

mod dice;
mod job;
pub mod level;
mod names;
mod order;
mod pairs;
mod text;
pub mod troubles;

pub use job::DrawnJob;
pub use level::{Level, LevelError};
pub use order::OrderKind;
pub use pairs::PAIRS;
pub use troubles::{TROUBLES, Trouble};

/// A rig that nobody has seen, as the text of a scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawnRig {
    /// What is told before the work: only how hard it is.
    pub title: String,
    /// The scenario.
    pub text: String,
    /// What was drawn. Nobody who is to work on the rig may see it.
    pub job: DrawnJob,
}

/// Draws a rig. The same level and seed always give the same text.
pub fn draw(level: Level, seed: u64) -> DrawnRig {
    of_job(DrawnJob::draw(level, seed))
}

/// The rig of a job.
pub fn of_job(job: DrawnJob) -> DrawnRig {
    DrawnRig { title: level::title(job.level), text: text::scenario(&job), job }
}
