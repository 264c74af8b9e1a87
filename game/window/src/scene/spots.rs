//! The things in the scene as controls: each is taken hold of by its drawn shape, and has its name and state
//! for readers.

use bevy::a11y::AccessibilityNode;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::input_focus::{FocusCause, FocusGained, InputFocus};
use bevy::picking::PickingSystems;
use bevy::picking::hover::Hovered;
use bevy::picking::pointer::PointerLocation;
use bevy::prelude::*;
use bevy::ui::UiGlobalTransform;
use hands::Spot;

use crate::desk::Seen;
use crate::scene::owners::is_there;
use crate::scene::panel::{ScenePanel, in_scene};
use crate::scene::places::{Area, HEIGHT, WIDTH};
use crate::scene::reach::Reach;
use crate::scene::spot_reader::{self, SpotControl};
use crate::ui::access::Unspoken;
use crate::ui::order::Frame;
use crate::ui::overlay::Overlay;
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, Tone};

/// The thing that the hand card is about: what had the focus last.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq)]
pub struct AtHand(pub Spot);

/// What a hand takes hold of at each point of the scene, as it stands now.
#[derive(Resource, Default)]
pub struct Grasp {
    reach: Reach,
}

impl Grasp {
    /// What is reached where.
    pub const fn reach(&self) -> &Reach {
        &self.reach
    }
}

/// What the pointer meets of a thing. It is as large as the thing and lies about it; the pointer meets it
/// only where the thing's shape is.
#[derive(Component)]
struct Hold(Spot);

/// The name that appears beside what is pointed at.
#[derive(Component)]
struct NameTag;

pub struct SpotsPlugin;

impl Plugin for SpotsPlugin {
    fn build(&self, app: &mut App) {
        let on_bench = || in_state(Screen::Bench).and_then(resource_exists::<Seen>);
        app.insert_resource(AtHand(Spot::WorkOrder))
            .init_resource::<Grasp>()
            .add_observer(come_to_hand)
            .add_systems(
                PreUpdate,
                point
                    .after(PickingSystems::ProcessInput)
                    .before(PickingSystems::Backend)
                    .run_if(on_bench()),
            )
            .add_systems(
                Update,
                (follow, place, keep_at_hand, name_it)
                    .chain()
                    .in_set(Frame::Show)
                    .run_if(on_bench()),
            );
    }
}

/// Puts the controls of all things into the scene's panel.
pub fn spawn(panel: &mut ChildSpawnerCommands) {
    for (order, spot) in Spot::all().into_iter().enumerate() {
        let hidden =
            || Node { position_type: PositionType::Absolute, display: Display::None, ..default() };
        panel.spawn((
            SpotControl(spot),
            spot_reader::node(spot),
            TabIndex(order as i32),
            Hovered::default(),
            Pickable::IGNORE,
            hidden(),
            children![(Hold(spot), Pickable::IGNORE, hidden())],
        ));
    }
    panel.spawn((
        NameTag,
        Node {
            position_type: PositionType::Absolute,
            display: Display::None,
            padding: UiRect::axes(px(6), px(1)),
            border: UiRect::all(px(1)),
            border_radius: BorderRadius::all(px(3)),
            ..default()
        },
        Surface(Tone::Page),
        Border(Tone::Ink),
        ZIndex(60),
        Pickable::IGNORE,
        children![(theme::text("", theme::SMALL, Tone::Ink), Unspoken)],
    ));
}

/// Percent of the panel, so that the controls keep their places whatever its size.
pub fn lay(node: &mut Node, area: Area) {
    node.left = percent(area.x / WIDTH * 100.0);
    node.top = percent(area.y / HEIGHT * 100.0);
    node.width = percent(area.w / WIDTH * 100.0);
    node.height = percent(area.h / HEIGHT * 100.0);
}

/// Follows what is drawn.
fn follow(seen: Res<Seen>, mut grasp: ResMut<Grasp>) {
    if !seen.is_changed() {
        return;
    }
    if grasp.bypass_change_detection().reach.follow(&seen.0) {
        grasp.set_changed();
    }
}

/// Lets the pointer meet the one thing whose shape is under it.
fn point(
    grasp: Res<Grasp>,
    pointers: Query<&PointerLocation>,
    panels: Query<(&ComputedNode, &UiGlobalTransform), With<ScenePanel>>,
    mut holds: Query<(&Hold, &mut Pickable)>,
) {
    let met: Vec<Spot> = pointers
        .iter()
        .filter_map(|pointer| {
            let at = in_scene(pointer.location()?.position, &panels)?;
            grasp.reach.at(at.x, at.y)
        })
        .collect();
    for (Hold(spot), mut pickable) in &mut holds {
        pickable.set_if_neq(if met.contains(spot) {
            Pickable::default()
        } else {
            Pickable::IGNORE
        });
    }
}

/// The share of one length in another, percent.
fn share(part: f32, whole: f32) -> Val {
    percent(part / whole * 100.0)
}

fn place(
    (seen, grasp): (Res<Seen>, Res<Grasp>),
    added: Query<(), Added<SpotControl>>,
    mut controls: Query<(&SpotControl, &mut Node, &mut TabIndex, &mut AccessibilityNode)>,
    mut holds: Query<(&Hold, &mut Node), Without<SpotControl>>,
) {
    if !seen.is_changed() && !grasp.is_changed() && added.is_empty() {
        return;
    }
    for (order, (SpotControl(spot), mut node, mut tab, mut access)) in
        controls.iter_mut().enumerate()
    {
        let mut wanted = node.clone();
        match grasp.reach.heart(*spot).filter(|_| is_there(&seen.0, *spot)) {
            Some(heart) => {
                lay(&mut wanted, heart);
                wanted.display = Display::Flex;
                tab.set_if_neq(TabIndex(order as i32));
            }
            None => {
                wanted.display = Display::None;
                tab.set_if_neq(TabIndex(-1));
            }
        }
        node.set_if_neq(wanted);
        spot_reader::tell(&mut access, &seen.0, *spot);
    }
    for (Hold(spot), mut node) in &mut holds {
        let mut wanted = node.clone();
        match grasp.reach.heart(*spot).zip(grasp.reach.bounds(*spot)) {
            Some((heart, whole)) => {
                wanted.display = Display::Flex;
                wanted.left = share(whole.x - heart.x, heart.w);
                wanted.top = share(whole.y - heart.y, heart.h);
                wanted.width = share(whole.w, heart.w);
                wanted.height = share(whole.h, heart.h);
            }
            None => wanted.display = Display::None,
        }
        node.set_if_neq(wanted);
    }
}

/// What gets the focus comes onto the hand card.
fn come_to_hand(
    gained: On<FocusGained>,
    controls: Query<&SpotControl>,
    mut at_hand: ResMut<AtHand>,
) {
    if let Ok(SpotControl(spot)) = controls.get(gained.entity) {
        at_hand.set_if_neq(AtHand(*spot));
    }
}

/// A click on nothing takes the focus from everything: what is on the hand card gets it back, so that
/// what the keys act on is always outlined.
fn keep_at_hand(
    (at_hand, overlay, seen): (Res<AtHand>, Res<Overlay>, Res<Seen>),
    controls: Query<(Entity, &SpotControl)>,
    mut focus: ResMut<InputFocus>,
    mut had: Local<bool>,
) {
    let had_focus = std::mem::replace(&mut *had, focus.get().is_some());
    if !had_focus || *had || overlay.0.is_some() || !is_there(&seen.0, at_hand.0) {
        return;
    }
    if let Some((entity, _)) = controls.iter().find(|(_, spot)| spot.0 == at_hand.0) {
        focus.set(entity, FocusCause::Navigated);
    }
}

/// Shows the name of what is pointed at, or of what has the focus.
fn name_it(
    (grasp, seen): (Res<Grasp>, Res<Seen>),
    focus: Res<InputFocus>,
    controls: Query<(Entity, &SpotControl, &Hovered)>,
    changed: Query<(), Changed<Hovered>>,
    mut tags: Query<(&mut Node, &Children), With<NameTag>>,
    mut texts: Query<&mut Text>,
) {
    if changed.is_empty() && !focus.is_changed() && !seen.is_changed() {
        return;
    }
    let Ok((mut node, children)) = tags.single_mut() else { return };
    let pointed = controls
        .iter()
        .find(|(_, _, hovered)| hovered.get())
        .or_else(|| controls.iter().find(|(entity, _, _)| focus.get() == Some(*entity)));
    let area = pointed.and_then(|(_, spot, _)| Some((spot.0, beside(grasp.reach(), spot.0)?)));
    let mut wanted = node.clone();
    match area {
        None => wanted.display = Display::None,
        Some((spot, area)) => {
            wanted.display = Display::Flex;
            // Beside the thing, on the side where there is room.
            if area.x > WIDTH * 0.6 {
                wanted.left = Val::Auto;
                wanted.right = percent((1.0 - area.x / WIDTH) * 100.0 + 0.5);
            } else {
                wanted.right = Val::Auto;
                wanted.left = percent((area.x + area.w) / WIDTH * 100.0 + 0.5);
            }
            wanted.top = percent((area.y / HEIGHT * 100.0).min(95.0));
            if let Some(mut text) = children.first().and_then(|&child| texts.get_mut(child).ok()) {
                let name = spot.name();
                if text.0 != name {
                    text.0 = name;
                }
            }
        }
    }
    node.set_if_neq(wanted);
}

/// Where the name of a thing is put: beside the whole of it, or in the midst of what is very broad.
fn beside(reach: &Reach, spot: Spot) -> Option<Area> {
    let whole = reach.bounds(spot)?;
    if whole.w < 0.4 * WIDTH { Some(whole) } else { reach.heart(spot) }
}
