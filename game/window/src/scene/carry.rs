//! The pointer's hands: looking, turning, and carrying things to where they go.

use bevy::picking::events::{Click, Drag, DragEnd, DragStart, Pointer, Scroll};
use bevy::picking::pointer::PointerButton;
use bevy::prelude::*;
use bevy::ui::UiGlobalTransform;
use hands::{Grain, Spot, part_name, sight_of, turn};
use sim_core::rig::parts::{Grip, RigPart};
use sim_core::session::action::Action;

use crate::desk::{Desk, Seen};
use crate::scene::follow;
use crate::scene::kept_chart::ChartTurn;
use crate::scene::owners::in_hand as held_drawing;
use crate::scene::panel::{ScenePanel, in_scene};
use crate::scene::pictures;
use crate::scene::places::{
    Area, Carried, HAND, HEIGHT, WIDTH, carried_after, carried_by, grip_at, let_go, targets,
};
use crate::scene::spot_reader::SpotControl;
use crate::scene::spots::{Grasp, lay};
use crate::scene::wheel::{Turned, notches};
use crate::scene::word::SaidHere;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, Tone};

/// What follows the pointer, and where the pointer is in the scene.
#[derive(Resource)]
struct InHand {
    carried: Option<Carried>,
    /// What is carried once the drag has gone so far, scene units.
    meant: Option<(Carried, f32)>,
    /// How a filter was gripped.
    grip: Grip,
    /// Where the drag began, and where the pointer is.
    from: Vec2,
    at: Vec2,
    /// Fine steps of a turning drag, and parts of one, that are not yet taken.
    rest: f32,
    /// When the last of them were taken, seconds.
    taken_s: f32,
}

impl Default for InHand {
    fn default() -> Self {
        let (from, at) = (Vec2::ZERO, Vec2::ZERO);
        Self { carried: None, meant: None, grip: Grip::Edges, from, at, rest: 0.0, taken_s: 0.0 }
    }
}

/// The picture that follows the pointer.
#[derive(Component)]
struct Following;
/// Its name.
#[derive(Component)]
struct FollowingName;
/// The outline of a place where what is carried can go.
#[derive(Component)]
struct Target;

/// Most places that anything can go to.
const MOST_TARGETS: usize = 4;
/// A hand that turns something is followed so often, seconds: each time it is moved on is an act.
const FOLLOWED_S: f32 = 0.3;

pub struct CarryPlugin;

impl Plugin for CarryPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<InHand>()
            .add_observer(on_click)
            .add_observer(on_wheel)
            .add_observer(on_drag_start)
            .add_observer(on_drag)
            .add_observer(on_drag_end)
            .add_systems(
                Update,
                show.in_set(Frame::Show)
                    .run_if(in_state(Screen::Bench).and_then(resource_exists::<Seen>)),
            );
    }
}

/// Puts the picture in hand and the outlines of its places into the scene's panel.
pub fn spawn(panel: &mut ChildSpawnerCommands) {
    for _ in 0..MOST_TARGETS {
        panel.spawn((
            Target,
            Node {
                position_type: PositionType::Absolute,
                display: Display::None,
                border: UiRect::all(px(3)),
                border_radius: BorderRadius::all(px(6)),
                ..default()
            },
            Border(Tone::Copper),
            Surface(Tone::CopperWash),
            ZIndex(55),
            Pickable::IGNORE,
        ));
    }
    panel.spawn((
        Following,
        Node {
            position_type: PositionType::Absolute,
            display: Display::None,
            flex_direction: FlexDirection::Column,
            align_items: AlignItems::FlexStart,
            ..default()
        },
        ZIndex(70),
        Pickable::IGNORE,
        children![
            (ImageNode::default(), Node::default(), Pickable::IGNORE),
            (
                Node {
                    padding: UiRect::axes(px(6), px(1)),
                    border: UiRect::all(px(1)),
                    border_radius: BorderRadius::all(px(3)),
                    ..default()
                },
                Surface(Tone::Page),
                Border(Tone::Ink),
                Pickable::IGNORE,
                children![(FollowingName, theme::bold("", theme::SMALL, Tone::Ink))],
            ),
        ],
    ));
}

fn grain(keys: &ButtonInput<KeyCode>) -> Grain {
    if keys.any_pressed([KeyCode::ShiftLeft, KeyCode::ShiftRight]) {
        Grain::Fine
    } else {
        Grain::Coarse
    }
}

/// A click looks at a thing, and does nothing else.
fn on_click(
    click: On<Pointer<Click>>,
    spots: Query<&SpotControl>,
    seen: Option<Res<Seen>>,
    desk: Option<ResMut<Desk>>,
) {
    let (Ok(SpotControl(spot)), Some(seen), Some(mut desk)) = (spots.get(click.entity), seen, desk)
    else {
        return;
    };
    if click.button == PointerButton::Primary && seen.0.focus != sight_of(*spot) {
        desk.ask(Action::Look { at: sight_of(*spot), eye_mm: 0.0 });
    }
}

/// The wheel turns what it is over, a step for a notch.
fn on_wheel(
    mut scroll: On<Pointer<Scroll>>,
    spots: Query<&SpotControl>,
    keys: Res<ButtonInput<KeyCode>>,
    seen: Option<Res<Seen>>,
    desk: Option<ResMut<Desk>>,
    mut turns: MessageWriter<ChartTurn>,
    mut turned: Local<Turned>,
) {
    let (Ok(SpotControl(spot)), Some(seen), Some(mut desk)) =
        (spots.get(scroll.entity), seen, desk)
    else {
        return;
    };
    let turns_chart = *spot == Spot::KeptChart;
    if !turns_chart && turn(&seen.0, *spot, 1, Grain::Coarse).is_none() {
        return;
    }
    scroll.propagate(false);
    let steps = turned.on(scroll.entity, notches(&scroll));
    if steps == 0 {
        return;
    }
    if turns_chart {
        turns.write(ChartTurn::by(steps, grain(&keys)));
    } else {
        desk.turn(*spot, steps, grain(&keys));
    }
}

fn on_drag_start(
    drag: On<Pointer<DragStart>>,
    spots: Query<&SpotControl>,
    panels: Query<(&ComputedNode, &UiGlobalTransform), With<ScenePanel>>,
    grasp: Res<Grasp>,
    mut in_hand: ResMut<InHand>,
    seen: Option<Res<Seen>>,
) {
    let (Ok(SpotControl(spot)), Some(seen)) = (spots.get(drag.entity), seen) else { return };
    let Some(at) = in_scene(drag.pointer_location.position, &panels) else { return };
    in_hand.rest = 0.0;
    in_hand.at = at;
    in_hand.from = in_hand.at;
    in_hand.carried = None;
    let lies = grasp.reach().bounds(*spot);
    in_hand.grip = lies.map_or(Grip::Edges, |lies| grip_at(lies, at.x));
    in_hand.meant = carried_by(*spot).map(|carried| (carried, carried_after(&seen.0, *spot)));
}

/// Takes what a drag has gone far enough for.
fn pick_up(in_hand: &mut InHand, seen: &Seen, desk: &mut Desk) {
    let gone = in_hand.from.distance(in_hand.at);
    let Some((carried, _)) = in_hand.meant.take_if(|(_, after)| gone >= *after) else { return };
    in_hand.carried = Some(carried);
    if let Carried::Part(part) = carried
        && seen.0.hand != Some(part)
    {
        desk.ask(match part {
            RigPart::Filter if seen.0.run.is_some() => Action::TakeFilter { grip: in_hand.grip },
            _ => Action::Take { part },
        });
    }
}

fn on_drag(
    drag: On<Pointer<Drag>>,
    spots: Query<&SpotControl>,
    panels: Query<(&ComputedNode, &UiGlobalTransform), With<ScenePanel>>,
    (keys, time): (Res<ButtonInput<KeyCode>>, Res<Time<Real>>),
    mut in_hand: ResMut<InHand>,
    seen: Option<Res<Seen>>,
    desk: Option<ResMut<Desk>>,
    mut turns: MessageWriter<ChartTurn>,
) {
    let (Ok(SpotControl(spot)), Some(seen), Some(mut desk)) = (spots.get(drag.entity), seen, desk)
    else {
        return;
    };
    let Some(at) = in_scene(drag.pointer_location.position, &panels) else { return };
    let before = std::mem::replace(&mut in_hand.at, at);
    pick_up(&mut in_hand, &seen, &mut desk);
    if in_hand.carried.is_some() {
        return;
    }
    let slow = if grain(&keys) == Grain::Fine { follow::FINE } else { 1.0 };
    in_hand.rest += slow * follow::steps(&seen.0, *spot, in_hand.from, (before, at));
    if *spot == Spot::KeptChart {
        let steps = whole_steps(&mut in_hand);
        if steps != 0 {
            turns.write(ChartTurn::by(steps, grain(&keys)));
        }
    } else if time.elapsed_secs() - in_hand.taken_s >= FOLLOWED_S {
        follow_hand(&mut in_hand, *spot, &mut desk, time.elapsed_secs());
    }
}

/// The whole steps of a turning drag; what is less is kept.
fn whole_steps(in_hand: &mut InHand) -> i32 {
    let steps = in_hand.rest.trunc();
    in_hand.rest -= steps;
    steps as i32
}

/// Moves what is turned or slid to where the hand is.
fn follow_hand(in_hand: &mut InHand, spot: Spot, desk: &mut Desk, now_s: f32) {
    let steps = whole_steps(in_hand);
    if steps != 0 {
        in_hand.taken_s = now_s;
        desk.turn(spot, steps, Grain::Fine);
    }
}

fn on_drag_end(
    drag: On<Pointer<DragEnd>>,
    spots: Query<&SpotControl>,
    time: Res<Time<Real>>,
    mut in_hand: ResMut<InHand>,
    seen: Option<Res<Seen>>,
    desk: Option<ResMut<Desk>>,
    mut here: ResMut<SaidHere>,
) {
    let (Ok(SpotControl(spot)), Some(seen), Some(mut desk)) = (spots.get(drag.entity), seen, desk)
    else {
        return;
    };
    here.0 = Some(in_hand.at);
    in_hand.meant = None;
    let Some(carried) = in_hand.carried.take() else {
        follow_hand(&mut in_hand, *spot, &mut desk, time.elapsed_secs());
        return;
    };
    if let Carried::Part(part) = carried
        && seen.0.hand != Some(part)
    {
        // It would not come off: why is said where the hand is.
        return;
    }
    let at = in_hand.at;
    let target = targets(&seen.0, carried)
        .into_iter()
        .find_map(|(area, action)| area.holds(at.x, at.y).then_some(action));
    if let Some(action) = target.or_else(|| let_go(&seen.0, carried)) {
        desk.ask(action);
    }
}

/// Its name: a part is called as it is on the hand card.
const fn name(carried: Carried) -> &'static str {
    match carried {
        Carried::Part(part) => part_name(part),
        Carried::SamplerPlug => "sampler's plug",
        Carried::BlowerPlug => "blower's plug",
        Carried::TubeEnd => "end of the tube",
        Carried::PenCap => "pen's cap",
    }
}

/// The drawing of what is carried, and its height in scene units.
const fn drawn(carried: Carried) -> (&'static str, f32) {
    match carried {
        Carried::Part(part) => held_drawing(part),
        Carried::SamplerPlug => ("plug_sampler", 52.0),
        Carried::BlowerPlug => ("plug_blower", 52.0),
        Carried::TubeEnd => ("icon_hand", 30.0),
        Carried::PenCap => ("pen_cap", 18.0),
    }
}

/// Shows what is carried, at the pointer or where the hand is, and where it can go.
fn show(
    (in_hand, seen): (Res<InHand>, Res<Seen>),
    panels: Query<&ComputedNode, With<ScenePanel>>,
    mut following: Query<(&mut Node, &Children), (With<Following>, Without<Target>)>,
    mut pictures: Query<(&mut ImageNode, &mut Node), (Without<Following>, Without<Target>)>,
    mut outlines: Query<&mut Node, (With<Target>, Without<Following>)>,
    mut names: Query<&mut Text, With<FollowingName>>,
    mut images: ResMut<Assets<Image>>,
    mut shown: Local<Option<(Carried, u32)>>,
) {
    if !in_hand.is_changed() && !seen.is_changed() {
        return;
    }
    let held = seen.0.hand.map(Carried::Part);
    let dragged = in_hand.carried.filter(|carried| match carried {
        Carried::Part(_) => held == Some(*carried),
        _ => true,
    });
    let carried = dragged.or(held);
    let (Ok(panel), Ok((mut node, children))) = (panels.single(), following.single_mut()) else {
        return;
    };
    let mut wanted = node.clone();
    wanted.display = if carried.is_some() { Display::Flex } else { Display::None };
    let corner = match dragged {
        Some(_) => in_hand.at - Vec2::new(24.0, 16.0),
        None => Vec2::new(HAND.x, HAND.y),
    };
    lay(&mut wanted, Area { x: corner.x, y: corner.y, w: 1.0, h: 1.0 });
    (wanted.width, wanted.height) = (Val::Auto, Val::Auto);
    if dragged.is_none() {
        // Held up over the roof, so that the whole of it is seen; its name stands above it.
        wanted.top = Val::Auto;
        wanted.bottom = percent((1.0 - (HAND.y + HAND.h) / HEIGHT) * 100.0);
        wanted.flex_direction = FlexDirection::ColumnReverse;
    } else {
        wanted.bottom = Val::Auto;
        wanted.flex_direction = FlexDirection::Column;
    }
    node.set_if_neq(wanted);
    let width = panel.size().x.round() as u32;
    if let Some(carried) = carried
        && *shown != Some((carried, width))
        && let Some((mut picture, mut size)) =
            children.first().and_then(|&child| pictures.get_mut(child).ok())
    {
        *shown = Some((carried, width));
        let (drawing, height) = drawn(carried);
        if let Some((image, pixels)) = pictures::drawing(drawing, height * panel.size().x / WIDTH) {
            picture.image = images.add(image);
            let pixels = pixels * panel.inverse_scale_factor();
            (size.width, size.height) = (px(pixels.x), px(pixels.y));
        }
        if let Ok(mut text) = names.single_mut() {
            text.0 = name(carried).to_owned();
        }
    }
    // Places are shown as long as something is held, with the pointer or without.
    let areas = carried.map(|carried| targets(&seen.0, carried)).unwrap_or_default();
    let mut areas = areas.into_iter().map(|(area, _)| area);
    for mut node in &mut outlines {
        let mut wanted = node.clone();
        match areas.next() {
            Some(area) => {
                lay(&mut wanted, area);
                wanted.display = Display::Flex;
            }
            None => wanted.display = Display::None,
        }
        node.set_if_neq(wanted);
    }
}
