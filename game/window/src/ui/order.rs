//! The order of a frame, in one place.
//!
//! Keys and the pointer come first, in the engine's `PreUpdate`: what they ask of the desk is done in
//! the same frame, and everything of `Update` shows it. Readers are told last of all.

use bevy::app::RunFixedMainLoopSystems;
use bevy::prelude::*;

/// What happens to the desk, in this order, before anything of `Update`.
#[derive(SystemSet, Debug, Clone, PartialEq, Eq, Hash)]
pub enum DeskStep {
    /// As much time passes as was asked for and a frame has room for. Ticks have passed before, in
    /// `FixedUpdate`.
    Pass,
    /// The bench is looked at again.
    Look,
    /// A session that has ended, or is left, goes to the next screen.
    Leave,
}

/// What happens in `Update`, in this order.
#[derive(SystemSet, Debug, Clone, PartialEq, Eq, Hash)]
pub enum Frame {
    /// Each feature does what was asked of it.
    Obey,
    /// Sheets and pages are laid as they are to be now.
    Lay,
    /// What has changed is shown on what is laid, and told to readers.
    Show,
}

pub struct OrderPlugin;

impl Plugin for OrderPlugin {
    fn build(&self, app: &mut App) {
        app.configure_sets(
            RunFixedMainLoop,
            (DeskStep::Pass, DeskStep::Look, DeskStep::Leave)
                .chain()
                .in_set(RunFixedMainLoopSystems::AfterFixedMainLoop),
        )
        .configure_sets(Update, (Frame::Obey, Frame::Lay, Frame::Show).chain());
    }
}
