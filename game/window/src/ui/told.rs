//! What a screen reader is told of the window, shown to other programs: every control with its role, name,
//! value, place on the screen and place in the order of the Tab key. For tests, and for people who
//! look for what is missing.

use std::sync::Arc;

use accesskit::Role;
use bevy::a11y::AccessibilityNode;
use bevy::input_focus::InputFocus;
use bevy::input_focus::tab_navigation::{TabGroup, TabIndex};
use bevy::picking::hover::Hovered;
use bevy::prelude::*;
use bevy::ui::{CalculatedClip, UiGlobalTransform};
use serde::{Deserialize, Serialize};
use sessions::Publisher;

/// One thing of the window.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Told {
    /// Its role, as AccessKit names it.
    pub role: String,
    /// Its name.
    pub label: String,
    /// Its value; empty when it has none.
    pub value: String,
    /// Left, top, right and lower edge of what is seen of it, pixels of the screen; `None` when it
    /// is scrolled out of sight.
    pub seen: Option<[f32; 4]>,
    /// Whether the Tab key comes to it.
    pub tab: bool,
    /// Whether it has the focus.
    pub focus: bool,
    /// Whether the pointer is over it; `None` for what takes no notice of that.
    pub pointed: Option<bool>,
}

/// Where it is shown, and what was shown last.
#[derive(Resource)]
struct Shown {
    to: Arc<dyn Publisher>,
    last: Vec<Told>,
}

/// Shows it to other programs.
pub struct ToldPlugin {
    /// Where.
    pub to: Arc<dyn Publisher>,
}

impl Plugin for ToldPlugin {
    fn build(&self, app: &mut App) {
        app.insert_resource(Shown { to: Arc::clone(&self.to), last: Vec::new() })
            .add_systems(Last, show);
    }
}

fn show(world: &mut World) {
    let told = told(world);
    let Some(mut shown) = world.get_resource_mut::<Shown>() else { return };
    if shown.last == told {
        return;
    }
    let text = serde_json::to_vec(&told).unwrap_or_default();
    if let Err(error) = shown.to.publish(&text) {
        bevy::log::warn!("{error}");
    }
    shown.last = told;
}

/// Everything that is told of the window: first what the Tab key comes to, in its order, then the
/// rest.
pub fn told(world: &mut World) -> Vec<Told> {
    let focus = world.get_resource::<InputFocus>().and_then(InputFocus::get);
    let mut roots = world.query_filtered::<Entity, (With<Node>, Without<ChildOf>)>();
    let roots: Vec<Entity> = roots.iter(world).collect();
    let mut found = Vec::new();
    for root in roots {
        collect(world, root, Group::default(), focus, &mut found);
    }
    found.sort_by_key(|(order, _)| *order);
    found.into_iter().map(|(_, told)| told).collect()
}

/// The tab group that something lies in.
#[derive(Debug, Clone, Copy, Default)]
struct Group {
    order: i32,
    there: bool,
}

/// The order of the Tab key: what is not in it comes last.
type Order = (bool, i32, i32);

fn collect(
    world: &World,
    entity: Entity,
    mut group: Group,
    focus: Option<Entity>,
    found: &mut Vec<(Order, Told)>,
) {
    let Some(size) = world.get::<ComputedNode>(entity) else { return };
    // A reader passes over what is hidden, with all that is in it.
    if world.get::<AccessibilityNode>(entity).is_some_and(|node| node.is_hidden()) {
        return;
    }
    if let Some(own) = world.get::<TabGroup>(entity) {
        group = Group { order: own.order, there: true };
    }
    if let Some(node) = world.get::<AccessibilityNode>(entity)
        && node.role() != Role::GenericContainer
        && let Some(place) = world.get::<UiGlobalTransform>(entity)
    {
        let index = world.get::<TabIndex>(entity).map_or(-1, |index| index.0);
        let tab = group.there && index >= 0;
        let mut seen = Rect::from_center_size(place.translation, size.size());
        if let Some(clip) = world.get::<CalculatedClip>(entity) {
            seen = seen.intersect(clip.clip);
        }
        let told = Told {
            role: format!("{:?}", node.role()),
            label: node.label().unwrap_or_default().to_owned(),
            value: node.value().unwrap_or_default().to_owned(),
            seen: (!seen.is_empty()).then_some([seen.min.x, seen.min.y, seen.max.x, seen.max.y]),
            tab,
            focus: focus == Some(entity),
            pointed: world.get::<Hovered>(entity).map(Hovered::get),
        };
        let order = if tab { (false, group.order, index) } else { (true, 0, 0) };
        found.push((order, told));
    }
    for &child in world.get::<Children>(entity).into_iter().flatten() {
        collect(world, child, group, focus, found);
    }
}
