//! From a sentence to what it asks for. Every sentence is an entry in a table of forms: patterns,
//! examples, a note for the help, and the action it makes.

mod air;
mod as_said;
mod asking;
mod catch;
pub(super) mod causes;
mod causes_measuring;
mod causes_sampling;
mod causes_upkeep;
pub(crate) mod checklist;
mod deciding;
mod entries;
#[cfg(test)]
mod every_action;
mod flow;
pub(super) mod form;
mod looking;
mod manometer;
mod mounting;
mod nearest;
#[cfg(test)]
mod nonsense;
mod not_understood;
mod numbers;
mod pattern;
#[cfg(test)]
mod phrasings;
mod power;
mod read;
mod recorder;
mod relaxed;
mod remarks;
#[cfg(test)]
mod remarks_tests;
mod responses;
mod run;
#[cfg(test)]
mod said;
mod sentence;
pub(super) mod sights;
mod slots;
pub(super) mod table;
#[cfg(test)]
mod tests;
mod trouble;
pub(super) mod typed;
pub(super) mod vocabulary;
mod writing;

pub use deciding::decision;
pub use not_understood::{LONGEST_SENTENCE, NotUnderstood};
pub use read::parse;
