//! People who sat scenarios: their figures, and one self-contained HTML page with plots.

mod figures;
mod page;
mod tables;

pub use figures::{PeopleScenario, PeopleSettings, PeopleTogether, PeopleTrial};
pub use page::page;
