//! People: a stated population of operators with abilities, and what their marks are worth.
//!
//! | file | what it does |
//! |---|---|
//! | [`latent`] | draws correlated abilities |
//! | [`practices`] | which practices there are, how widely each is known, how often it is left out |
//! | [`population`] | makes people out of abilities |
//! | [`sitting`] | lets a person sit a scenario, and keeps what statistics need |
//! | [`outcome`] | how each rule came out in a sitting |
//!
//! Every number of the population is CHOSEN: no group of people was measured. Whoever has figures of
//! a real group should put them in their place.

pub mod latent;
pub mod outcome;
pub mod population;
pub mod practices;
pub mod sitting;

pub use population::{Person, Population};
pub use sitting::{MarkedSitting, Sitting};
