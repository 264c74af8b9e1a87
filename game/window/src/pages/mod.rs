//! What fills the window: the list, the bench, the debrief.

pub mod bench;
pub mod debrief;
pub mod jump_keys;
pub mod regions;
pub mod start;
