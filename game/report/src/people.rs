//! People who sat scenarios: their figures, and one self-contained HTML page with plots.

mod figures;

pub use figures::{PeopleScenario, PeopleSettings, PeopleTogether, PeopleTrial};
