//! What can be begun, resumed and looked at again, as the storage has it. It is read beside the
//! frames: a slow disk does not hold the window up.

use bevy::prelude::*;
use sessions::{KeptSession, KeptState, ScenarioCard};

use crate::ui::background::{Background, Job};
use crate::ui::store::Store;

/// What can be begun, resumed and looked at again.
#[derive(Resource, Debug, Default)]
pub struct Library {
    /// The scenarios.
    pub cards: Vec<ScenarioCard>,
    /// The sessions that are kept, the latest first.
    pub kept: Vec<KeptSession>,
    reading: Option<Job<Read>>,
}

/// What was read.
#[derive(Debug)]
struct Read {
    /// Scenarios are read once: nobody changes them meanwhile.
    cards: Option<Vec<ScenarioCard>>,
    kept: Vec<KeptSession>,
}

impl Library {
    /// Begins to read.
    pub fn read(&mut self, store: &Store, background: &Background) {
        let (store, first) = (store.clone(), self.cards.is_empty());
        self.reading = Some(background.begin(move || Read {
            cards: first.then(|| store.scenarios()),
            kept: store.kept_sessions(),
        }));
    }

    /// Whether it is still being read.
    pub const fn is_reading(&self) -> bool {
        self.reading.is_some()
    }

    /// Takes over what was read, once it was. Whether there is something new.
    pub fn take_over(&mut self) -> bool {
        let Some(read) = self.reading.as_mut().and_then(Job::result) else { return false };
        self.reading = None;
        self.cards = read.cards.unwrap_or_else(|| std::mem::take(&mut self.cards));
        self.kept = read.kept;
        true
    }

    /// Those sessions that are shown together, each with its number.
    pub fn shelf(&self, shelf: Shelf) -> impl Iterator<Item = (usize, &KeptSession)> {
        self.kept.iter().enumerate().filter(move |(_, kept)| Shelf::of(&kept.state) == shelf)
    }

    /// The number of a rig on which none of the sessions that are kept was had: the next one.
    pub fn fresh_rig(&self) -> u64 {
        let had = self.kept.iter().filter_map(|session| session.seed).max();
        had.map_or(1, |last| last.saturating_add(1) % 1_000_000_000)
    }
}

/// Sessions that are shown together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shelf {
    /// They can be resumed.
    Unfinished,
    /// Their debrief can be opened.
    Ended,
    /// This program cannot open them.
    Closed,
}

impl Shelf {
    const fn of(state: &KeptState) -> Self {
        match state {
            KeptState::Unfinished => Self::Unfinished,
            KeptState::Ended => Self::Ended,
            KeptState::OtherVersion(_) | KeptState::Unreadable(_) => Self::Closed,
        }
    }
}
