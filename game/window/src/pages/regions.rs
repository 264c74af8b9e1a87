//! The parts of the bench's screen, and the key that goes from one to the next.

use accesskit::Role;
use bevy::a11y::AccessibilityNode;
use bevy::input::keyboard::Key;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::input_focus::{FocusCause, FocusGained, InputFocus, InputFocusVisible};
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
        app.init_resource::<LastInBook>().add_observer(remember).add_observer(next_region);
    }
}

/// What had the focus in the field book last.
#[derive(Resource, Default)]
struct LastInBook(Option<Entity>);

/// The part of the window in which something lies.
fn region_of(
    entity: Entity,
    parents: &Query<&ChildOf>,
    regions: &Query<(Entity, &Region)>,
) -> Option<Region> {
    let mut above = std::iter::once(entity).chain(parents.iter_ancestors(entity));
    above.find_map(|entity| regions.get(entity).ok()).map(|(_, region)| *region)
}

/// The work is on the page, and not on the tab that opened it.
fn remember(
    gained: On<FocusGained>,
    parents: Query<&ChildOf>,
    regions: Query<(Entity, &Region)>,
    told: Query<&AccessibilityNode>,
    mut last: ResMut<LastInBook>,
) {
    let is_tab = told.get(gained.entity).is_ok_and(|node| node.role() == Role::Tab);
    if gained.entity == gained.original_event_target()
        && !is_tab
        && region_of(gained.entity, &parents, &regions) == Some(Region::Book)
    {
        last.0 = Some(gained.entity);
    }
}

/// Moves the focus on from scene to field book to watch, or back: in the book to where it was last.
fn next_region(
    press: On<KeyPress>,
    mut focus: ResMut<InputFocus>,
    mut visible: ResMut<InputFocusVisible>,
    (children, tabs): (Query<&Children>, Query<&TabIndex>),
    regions: Query<(Entity, &Region)>,
    parents: Query<&ChildOf>,
    (at_hand, last): (Res<AtHand>, Res<LastInBook>),
    spots: Query<(Entity, &SpotControl)>,
    told: Query<(Entity, &AccessibilityNode)>,
) {
    if press.key != Key::F6 {
        return;
    }
    let current = focus.get().and_then(|entity| region_of(entity, &parents, &regions));
    let current = current.unwrap_or(Region::Watch);
    let next = match (current, press.shift) {
        (Region::Scene, false) | (Region::Watch, true) => Region::Book,
        (Region::Book, false) | (Region::Scene, true) => Region::Watch,
        (Region::Watch, false) | (Region::Book, true) => Region::Scene,
    };
    let reachable = |entity: &Entity| tabs.get(*entity).is_ok_and(|tab| tab.0 >= 0);
    // On a page that was just opened nothing was gone to yet: its first field, if it has any.
    let page = told.iter().find(|(_, node)| node.role() == Role::TabPanel).map(|(page, _)| page);
    let on_page = page.and_then(|page| children.iter_descendants_depth_first(page).find(reachable));
    let kept = last.0.filter(|entity| next == Region::Book && reachable(entity));
    let target = if kept.is_some() {
        kept
    } else if next == Region::Scene {
        // Back to the thing that was at hand.
        spots.iter().find(|(_, spot)| spot.0 == at_hand.0).map(|(entity, _)| entity)
    } else if let Some(first) = on_page.filter(|_| next == Region::Book) {
        Some(first)
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
