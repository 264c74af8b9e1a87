//! What fills the window.

use bevy::prelude::*;

/// What fills the window.
#[derive(States, Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Screen {
    /// The list of scenarios.
    #[default]
    Start,
    /// The bench.
    Bench,
    /// After signing.
    Debrief,
}

/// Takes away what fills the window, by what marks it.
pub fn clear<Root: Component>(roots: Query<Entity, With<Root>>, mut commands: Commands) {
    for root in &roots {
        commands.entity(root).despawn();
    }
}
