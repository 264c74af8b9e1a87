//! How the loupe is held: in its place over the sky or open over the scene, and how near.

use bevy::input::keyboard::Key;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::picking::events::{Pointer, Scroll};
use bevy::prelude::*;

use crate::desk::Seen;
use crate::scene::places::{Area, HEIGHT, LOUPE};
use crate::scene::spots::lay;
use crate::scene::wheel::{Turned, notches};
use crate::ui::controls::{AddRequest as _, face};
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::text_size::ByTextSize;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// How many times as large everything can be shown.
const ZOOMS: [f32; 4] = [1.0, 1.5, 2.0, 3.0];
/// Where the opened loupe lies: almost as large as the scene is high, the things that are worked most
/// beside it.
const OPEN: Area = Area { x: 4.0, y: 4.0, w: HEIGHT - 70.0, h: HEIGHT - 70.0 };
/// The buttons at the rim come after the things of the scene.
const AFTER_THINGS: i32 = 900;

/// The glass.
#[derive(Component)]
pub struct Glass;
/// What stands at its lower rim.
#[derive(Component)]
pub struct Caption;
/// A button at its rim, with the key that does the same.
#[derive(Component)]
pub struct RimButton;

/// How the loupe is held.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Hold {
    open: bool,
    nearer: usize,
}

/// Asks for the loupe to be held otherwise.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub enum LoupeRequest {
    /// Open it over the scene, or put it back into its place.
    Open,
    /// Hold it nearer.
    Nearer,
    /// Hold it farther away.
    Farther,
}

impl Hold {
    /// How many times as large everything is shown.
    pub fn zoom(self) -> f32 {
        ZOOMS.get(self.nearer).copied().unwrap_or(1.0)
    }

    /// What is said of it beside the height of the eye.
    pub fn words(self) -> String {
        if self.nearer > 0 { format!(", {} \u{d7}", self.zoom()) } else { String::new() }
    }

    /// What a key asks for.
    pub fn asked_by(self, key: &Key) -> Option<LoupeRequest> {
        match key {
            Key::Escape if self.open => Some(LoupeRequest::Open),
            Key::Character(typed) => match typed.as_str() {
                "z" | "Z" => Some(LoupeRequest::Open),
                "+" => Some(LoupeRequest::Nearer),
                "-" | "\u{2212}" => Some(LoupeRequest::Farther),
                _ => None,
            },
            _ => None,
        }
    }

    fn area(self) -> Area {
        if self.open { OPEN } else { LOUPE }
    }
}

pub struct HoldPlugin;

impl Plugin for HoldPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Hold>()
            .add_request::<LoupeRequest>()
            .add_observer(on_wheel)
            .add_systems(OnEnter(Screen::Bench), |mut hold: ResMut<Hold>| {
                // Left open in a session before this one.
                *hold = Hold::default();
            })
            .add_systems(
                Update,
                (obey.in_set(Frame::Obey), place.in_set(Frame::Lay))
                    .run_if(in_state(Screen::Bench).and_then(resource_exists::<Seen>)),
            );
    }
}

/// The buttons at the rim of the glass.
pub fn buttons(glass: &mut ChildSpawnerCommands) {
    let left = || Node { left: px(0), ..default() };
    let right = || Node { right: px(0), ..default() };
    let buttons = [
        ("Z", "loupe: open it or put it back", LoupeRequest::Open, left(), 0.0),
        ("+", "loupe: hold it nearer", LoupeRequest::Nearer, right(), 0.0),
        ("\u{2212}", "loupe: hold it farther away", LoupeRequest::Farther, right(), 1.0),
    ];
    for (key, name, request, corner, below) in buttons {
        let node = Node {
            position_type: PositionType::Absolute,
            border: UiRect::all(px(1.5)),
            border_radius: BorderRadius::all(px(4)),
            align_items: AlignItems::Center,
            justify_content: JustifyContent::Center,
            ..corner
        };
        let size = ByTextSize::new(move |node, scale| {
            let side = 14.0 + 12.0 * scale;
            (node.width, node.height) = (px(side), px(side));
            node.top = px(below * (side + 4.0));
        });
        glass
            .spawn((RimButton, face(name, request, Tone::Page)))
            .insert((node, size, TabIndex(AFTER_THINGS)))
            .with_child(theme::bold(key, theme::SMALL, Tone::CopperType));
    }
}

/// Puts what is said about the eye under the lower rim, in the middle of the glass.
pub fn lay_caption(node: &mut Node, glass: Area) {
    lay(node, Area { x: glass.x, y: glass.y + glass.h - 10.0, w: glass.w, h: 1.0 });
    node.height = Val::Auto;
}

/// Holds the loupe as it was asked for.
fn obey(mut requests: MessageReader<LoupeRequest>, mut hold: ResMut<Hold>) {
    for request in requests.read() {
        let now = *hold;
        hold.set_if_neq(match request {
            LoupeRequest::Open => Hold { open: !now.open, ..now },
            LoupeRequest::Nearer => Hold { nearer: (now.nearer + 1).min(ZOOMS.len() - 1), ..now },
            LoupeRequest::Farther => Hold { nearer: now.nearer.saturating_sub(1), ..now },
        });
    }
}

/// Lays the glass where it is held.
fn place(
    hold: Res<Hold>,
    mut glass: Query<&mut Node, (With<Glass>, Without<Caption>)>,
    mut captions: Query<&mut Node, (With<Caption>, Without<Glass>)>,
) {
    if !hold.is_changed() {
        return;
    }
    for mut node in &mut glass {
        lay(&mut node, hold.area());
    }
    for mut node in &mut captions {
        lay_caption(&mut node, hold.area());
    }
}

/// The wheel over the glass holds it nearer or farther away.
fn on_wheel(
    mut scroll: On<Pointer<Scroll>>,
    glass: Query<(), With<Glass>>,
    mut turned: Local<Turned>,
    mut requests: MessageWriter<LoupeRequest>,
) {
    if !glass.contains(scroll.entity) {
        return;
    }
    scroll.propagate(false);
    let steps = turned.on(scroll.entity, notches(&scroll));
    let request = if steps > 0 { LoupeRequest::Nearer } else { LoupeRequest::Farther };
    for _ in 0..steps.unsigned_abs().min(ZOOMS.len() as u32) {
        requests.write(request);
    }
}
