//! The signature, which ends the session: it is asked for twice, and the second time counts only as long as
//! the focus has stayed on it.

use bevy::input::keyboard::Key;
use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use sim_core::session::action::Action;

use crate::desk::{Desk, GoTo};
use crate::ui::controls::{AddRequest as _, Caption, Request, face};
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// On the button.
pub const SIGN: &str = "sign the field book";
/// On the button once it was pressed.
pub const SIGN_AGAIN: &str = "press again to sign: the session ends";

/// Asks for the book to be signed: once to say so, and once more to do it.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct SignRequest;

/// Whether the signature was asked for once.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Signing {
    #[default]
    NotAsked,
    Asked,
}

type SignButton = With<Request<SignRequest>>;

pub(super) struct SignaturePlugin;

impl Plugin for SignaturePlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Signing>()
            .add_request::<SignRequest>()
            .add_observer(on_key)
            .add_systems(
                Update,
                (
                    (put_pen_down, obey).chain().in_set(Frame::Obey),
                    (show, go_to).in_set(Frame::Show),
                )
                    .run_if(in_state(Screen::Bench).and_then(resource_exists::<Desk>)),
            );
    }
}

/// The button.
pub(super) fn spawn(leaf: &mut ChildSpawnerCommands) {
    leaf.spawn(Node { flex_shrink: 0.0, ..default() }).with_children(|row| {
        row.spawn((face(SIGN, SignRequest, Tone::CautionWash), Caption::new(SIGN)))
            .with_child(theme::bold(SIGN, theme::BODY, Tone::Ink));
    });
}

/// Whoever has gone elsewhere meanwhile has to ask anew.
fn put_pen_down(
    focus: Res<InputFocus>,
    buttons: Query<(), SignButton>,
    mut signing: ResMut<Signing>,
) {
    if !focus.get().is_some_and(|entity| buttons.contains(entity)) {
        signing.set_if_neq(Signing::NotAsked);
    }
}

fn on_key(press: On<KeyPress>, mut signing: ResMut<Signing>) {
    if press.key == Key::Escape {
        signing.set_if_neq(Signing::NotAsked);
    }
}

fn obey(
    mut requests: MessageReader<SignRequest>,
    mut signing: ResMut<Signing>,
    mut desk: ResMut<Desk>,
    buttons: Query<Entity, SignButton>,
    mut focus: ResMut<InputFocus>,
) {
    for SignRequest in requests.read() {
        match *signing {
            Signing::Asked => {
                desk.ask(Action::Sign);
                *signing = Signing::NotAsked;
            }
            Signing::NotAsked => {
                // A reader's press does not bring the focus along.
                if let Ok(button) = buttons.single() {
                    focus.set(button, FocusCause::Pressed);
                }
                *signing = Signing::Asked;
            }
        }
    }
}

fn show(signing: Res<Signing>, mut buttons: Query<&mut Caption, SignButton>) {
    for mut caption in &mut buttons {
        Caption::set(&mut caption, if *signing == Signing::Asked { SIGN_AGAIN } else { SIGN });
    }
}

/// Where a step is to sign, the focus goes to the button.
fn go_to(
    mut go: ResMut<GoTo>,
    buttons: Query<Entity, SignButton>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
) {
    if let (GoTo::Signature, Ok(button)) = (*go, buttons.single()) {
        focus.set(button, FocusCause::Navigated);
        visible.0 = true;
        *go = GoTo::Nowhere;
    }
}
