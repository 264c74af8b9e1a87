//! The parts of the bench's screen, and the key that goes from one to the next.

use bevy::input::keyboard::Key;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;

use crate::scene::spot_reader::SpotControl;
use crate::scene::spots::AtHand;
use crate::ui::keys::KeyPress;

/// A part of the window that F6 goes to.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
pub enum Region {
    /// The scene.
    Scene,
    /// The field book.
    Book,
    /// Watch and hand card.
    Watch,
}

pub struct RegionsPlugin;

impl Plugin for RegionsPlugin {
    fn build(&self, app: &mut App) {
        app.add_observer(next_region);
    }
}

/// Moves the focus on from scene to field book to watch, or back.
fn next_region(
    press: On<KeyPress>,
    mut focus: ResMut<InputFocus>,
    mut visible: ResMut<InputFocusVisible>,
    (children, tabs): (Query<&Children>, Query<&TabIndex>),
    regions: Query<(Entity, &Region)>,
    parents: Query<&ChildOf>,
    at_hand: Res<AtHand>,
    spots: Query<(Entity, &SpotControl)>,
) {
    if press.key != Key::F6 {
        return;
    }
    let current = focus
        .get()
        .and_then(|entity| {
            std::iter::once(entity)
                .chain(parents.iter_ancestors(entity))
                .find_map(|entity| regions.get(entity).ok())
        })
        .map_or(Region::Watch, |(_, region)| *region);
    let next = match (current, press.shift) {
        (Region::Scene, false) | (Region::Watch, true) => Region::Book,
        (Region::Book, false) | (Region::Scene, true) => Region::Watch,
        (Region::Watch, false) | (Region::Book, true) => Region::Scene,
    };
    let reachable = |entity: &Entity| tabs.get(*entity).is_ok_and(|tab| tab.0 >= 0);
    let target = if next == Region::Scene {
        // Back to the thing that was at hand.
        spots.iter().find(|(_, spot)| spot.0 == at_hand.0).map(|(entity, _)| entity)
    } else {
        regions.iter().find(|(_, region)| **region == next).and_then(|(entity, _)| {
            // The one that Tab comes to first; of equals the first in the window.
            let inside = children.iter_descendants_depth_first(entity).filter(reachable);
            inside.min_by_key(|entity| tabs.get(*entity).map_or(0, |tab| tab.0))
        })
    };
    if let Some(target) = target {
        focus.set(target, FocusCause::Navigated);
        visible.0 = true;
    }
}
