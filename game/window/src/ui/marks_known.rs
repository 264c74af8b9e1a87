//! What was got in sessions that have ended. Such a session changes no more, so its journal is replayed once,
//! whoever asks: the list of scenarios, or the debrief of a later session.

use std::sync::{Arc, Mutex};

use bevy::prelude::*;
use sessions::{MarksGot, Storage, StorageId};

/// The sessions that were replayed, and what was got in each.
#[derive(Resource, Debug, Clone, Default)]
pub struct MarksKnown(Arc<Mutex<Vec<(StorageId, MarksGot)>>>);

impl MarksKnown {
    /// What was got in a session that has ended; `None` if its journal does not hold. This may take a
    /// replay.
    pub fn of(&self, storage: &dyn Storage, id: &StorageId) -> Option<MarksGot> {
        let known = |all: &[(StorageId, MarksGot)]| {
            all.iter().find(|(known, _)| known == id).map(|(_, marks)| marks.clone())
        };
        // Whoever left the lock in a panic had only read or added to the list.
        let kept = || self.0.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        if let Some(marks) = known(&kept()) {
            return Some(marks);
        }
        // Nobody waits for the lock while a journal is replayed.
        let marks = storage.marks_got(id)?;
        kept().push((id.clone(), marks.clone()));
        Some(marks)
    }
}
