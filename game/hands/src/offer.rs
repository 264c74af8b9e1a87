//! One thing that can be done by hand.

use sim_core::session::action::{Action, Sight};

/// Something that can be done now.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// The key that does it: `1` to `9`.
    pub key: char,
    /// What it is, in the words of the trade.
    pub words: String,
    /// What it does.
    pub action: Action,
}

/// Offers being collected.
#[derive(Debug, Default)]
pub(super) struct Offers(Vec<(String, Action)>);

impl Offers {
    /// Adds something that can be done.
    pub fn act(&mut self, words: impl Into<String>, action: Action) {
        self.0.push((words.into(), action));
    }

    /// Adds looking at something at eye level.
    pub fn look(&mut self, words: impl Into<String>, at: Sight) {
        self.act(words, Action::Look { at, eye_mm: 0.0 });
    }

    /// The list with its keys. There are never more than nine.
    pub fn numbered(self) -> Vec<Offer> {
        ('1'..='9').zip(self.0).map(|(key, (words, action))| Offer { key, words, action }).collect()
    }
}
