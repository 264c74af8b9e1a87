//! A key that was pressed, said once to every feature that takes notice of keys.

use bevy::input::ButtonState;
use bevy::input::keyboard::{Key, KeyboardInput};
use bevy::input_focus::FocusedInput;
use bevy::prelude::*;
use bevy::text::EditableText;

/// A key that was pressed.
#[derive(Event, Debug, Clone)]
pub struct KeyPress {
    /// The key.
    pub key: Key,
    /// What has the focus; the window where nothing has.
    pub on: Entity,
    /// Whether Shift is held.
    pub shift: bool,
    /// Whether it is held down and comes again.
    pub repeat: bool,
    /// Whether something is being typed.
    pub typing: bool,
}

pub struct KeysPlugin;

impl Plugin for KeysPlugin {
    fn build(&self, app: &mut App) {
        app.add_observer(say);
    }
}

fn say(
    pressed: On<FocusedInput<KeyboardInput>>,
    fields: Query<(), With<EditableText>>,
    keys: Res<ButtonInput<KeyCode>>,
    mut commands: Commands,
) {
    let (on, input) = (pressed.focused_entity, &pressed.input);
    // Every ancestor of what has the focus hears the key too: once is enough.
    if on != pressed.original_event_target() || input.state != ButtonState::Pressed {
        return;
    }
    commands.trigger(KeyPress {
        key: input.logical_key.clone(),
        on,
        shift: keys.any_pressed([KeyCode::ShiftLeft, KeyCode::ShiftRight]),
        repeat: input.repeat,
        typing: fields.contains(on),
    });
}
