//! What keys and presses were spent on.

use std::collections::BTreeMap;

/// Keys or presses, and what each was for.
#[derive(Debug)]
pub struct Tally {
    all: u32,
    spent: BTreeMap<String, u32>,
    doing: String,
}

impl Tally {
    /// Nothing yet; what comes first is for this.
    pub fn begun(doing: &str) -> Self {
        Self { all: 0, spent: BTreeMap::new(), doing: doing.to_owned() }
    }

    /// What comes now is for something else.
    pub fn turn_to(&mut self, doing: &str) {
        doing.clone_into(&mut self.doing);
    }

    /// So many more.
    pub fn add(&mut self, count: u32) {
        self.all += count;
        *self.spent.entry(self.doing.clone()).or_default() += count;
    }

    /// How many there were.
    pub const fn all(&self) -> u32 {
        self.all
    }

    /// What most of them were for, the most first, a line each.
    pub fn spent(&self) -> String {
        let mut spent: Vec<_> = self.spent.iter().collect();
        spent.sort_by_key(|(_, count)| std::cmp::Reverse(**count));
        let lines = spent.into_iter().map(|(what, count)| format!("{count:4} {what}"));
        lines.collect::<Vec<_>>().join("\n")
    }
}
