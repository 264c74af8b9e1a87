//! What is asked of the list.

use bevy::prelude::*;

/// What is asked of the list, by numbers in the [`Library`](super::library::Library).
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub enum StartRequest {
    /// Begin a session of the scenario with this number.
    Begin(usize),
    /// Go on with the kept session with this number.
    Resume(usize),
    /// Open the debrief of the kept session with this number.
    Debrief(usize),
}
