//! People: a stated population of operators with abilities, and what their marks are worth.
//!
//! | file | what it does |
//! |---|---|
//! | [`latent`] | draws correlated abilities |
//! | [`practices`] | which practices there are, how widely each is known, how often it is left out |
//! | [`population`] | makes people out of abilities |
//! | [`sitting`] | lets a person sit a scenario, and keeps what statistics need |
//! | [`outcome`] | how each rule came out in a sitting |
//! | [`seated`] | a person with two sittings |
//! | [`estimate`] | figures with their intervals |
//! | [`distribution`] | the marks of all people and of each group |
//! | [`consistency`] | reliability of the marks, and whether the decision would come again |
//! | [`items`] | each rule as an item of an examination |
//! | [`volumes`] | volumes that are off behind a pass, and good ones behind a fail |
//! | [`pass_mark`] | what every pass mark would do, and which one costs least |
//! | [`figures`] | all of it together |
//!
//! Every number of the population is CHOSEN: no group of people was measured. Whoever has figures of
//! a real group should put them in their place.

pub mod consistency;
pub mod distribution;
pub mod estimate;
pub mod figures;
pub mod items;
pub mod latent;
pub mod outcome;
pub mod pass_mark;
pub mod population;
pub mod practices;
pub mod seated;
pub mod sitting;
pub mod volumes;

pub use figures::{PeopleFigures, people_figures};
pub use pass_mark::DecisionCosts;
pub use population::{Person, PersonGroup, Population};
pub use seated::Seated;
pub use sitting::{MarkedSitting, Sitting};
