//! One thing that can be done by hand.

use sim_core::session::action::{Action, Sight};

/// Something that can be done now.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// The key that does it: `1` to `9`. It stays with the deed while others come and go.
    pub key: char,
    /// What it is, in the words of the trade.
    pub words: String,
    /// What it does.
    pub action: Action,
}

/// Offers being collected, the likeliest first, each with its number.
#[derive(Debug, Default)]
pub(super) struct Offers(Vec<(u8, String, Action)>);

impl Offers {
    /// Adds something that can be done, under the number after the highest so far.
    pub fn act(&mut self, words: impl Into<String>, action: Action) {
        let next = self.0.iter().map(|(number, ..)| *number).max().unwrap_or_default() + 1;
        self.act_as(next, words, action);
    }

    /// Adds something that can be done under a number of its own: a deed keeps its number while others
    /// of the same thing come and go, so that a number pressed twice never undoes what it did.
    pub fn act_as(&mut self, number: u8, words: impl Into<String>, action: Action) {
        self.0.push((number, words.into(), action));
    }

    /// Adds looking at something at eye level.
    pub fn look(&mut self, words: impl Into<String>, at: Sight) {
        self.act(words, Action::Look { at, eye_mm: 0.0 });
    }

    /// Adds looking at something at eye level, under a number of its own.
    pub fn look_as(&mut self, number: u8, words: impl Into<String>, at: Sight) {
        self.act_as(number, words, Action::Look { at, eye_mm: 0.0 });
    }

    /// The list with its keys. No number is higher than nine: what would have a higher one gets the lowest
    /// that is free.
    pub fn numbered(self) -> Vec<Offer> {
        let mut taken: Vec<u8> = self.0.iter().map(|(number, ..)| *number).collect();
        let keyed = self.0.into_iter().filter_map(|(number, words, action)| {
            let number = match number {
                1..=9 => number,
                _ => (1..=9).find(|free| !taken.contains(free))?,
            };
            taken.push(number);
            let key = char::from_digit(u32::from(number), 10)?;
            Some(Offer { key, words, action })
        });
        keyed.collect()
    }
}
