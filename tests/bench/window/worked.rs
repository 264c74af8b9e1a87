//! How a bench without a screen is worked: by keys, by the pointer, and by a screen reader.

use bevy::a11y::ActionRequest;
use bevy::input::ButtonState;
use bevy::input::keyboard::{Key, KeyCode, KeyboardInput};
use bevy::input::mouse::{MouseButton, MouseButtonInput, MouseScrollUnit, MouseWheel};
use bevy::input::touch::TouchPhase;
use bevy::prelude::*;
use bevy::window::{CursorMoved, WindowEvent};
use hands::Spot;

use super::harness::Bench;

/// So far from the edge of what cuts it a control has to lie to be clicked, logical pixels.
const EDGE: f32 = 6.0;

impl Bench {
    /// Presses and lets go a key.
    pub fn press(&mut self, logical_key: Key, key_code: KeyCode) {
        for state in [ButtonState::Pressed, ButtonState::Released] {
            self.send_key(&logical_key, key_code, state);
            self.app.update();
        }
        self.rest(3);
    }

    /// Presses and lets go several keys in one frame.
    pub fn press_at_once(&mut self, keys: &[(Key, KeyCode)]) {
        for (key, code) in keys {
            for state in [ButtonState::Pressed, ButtonState::Released] {
                self.send_key(key, *code, state);
            }
        }
        self.rest(4);
    }

    fn send_key(&mut self, logical_key: &Key, key_code: KeyCode, state: ButtonState) {
        let text = match logical_key {
            Key::Character(typed) => Some(typed.clone()),
            Key::Space => Some(" ".into()),
            _ => None,
        };
        let input = KeyboardInput {
            key_code,
            logical_key: logical_key.clone(),
            state,
            text,
            repeat: false,
            window: self.window(),
        };
        self.app.world_mut().write_message(input);
    }

    /// Types a text, a key for each letter.
    pub fn type_text(&mut self, text: &str) {
        for letter in text.chars() {
            let mut one = String::new();
            one.push(letter);
            self.press(Key::Character(one.as_str().into()), KeyCode::F35);
        }
    }

    /// Goes on with Tab until the thing has the focus.
    pub fn tab_to(&mut self, spot: Spot) {
        for _ in 0..120 {
            if self.at_hand() == Some(spot) {
                return;
            }
            self.press(Key::Tab, KeyCode::Tab);
        }
        panic!("Tab never comes to {}", spot.name());
    }

    /// Goes on with Tab until something of that name has the focus.
    pub fn tab_to_label(&mut self, label: &str) {
        for _ in 0..140 {
            if self.label_of_focus().as_deref() == Some(label) {
                return;
            }
            self.press(Key::Tab, KeyCode::Tab);
        }
        panic!("Tab never comes to {label}");
    }

    /// Asks for something as a screen reader does.
    pub fn ask_as_reader(&mut self, target: Entity, action: accesskit::Action) {
        self.send_request(target, action, None);
        self.rest(3);
    }

    /// The same with what belongs to it, before a frame has passed.
    pub fn send_request(
        &mut self,
        target: Entity,
        action: accesskit::Action,
        data: Option<accesskit::ActionData>,
    ) {
        let request = accesskit::ActionRequest {
            action,
            target_tree: accesskit::TreeId::ROOT,
            target_node: accesskit::NodeId(target.to_bits()),
            data,
        };
        self.app.world_mut().write_message(ActionRequest(request));
    }

    /// Turns the wheel where the pointer is, by lines to the side and up.
    pub fn wheel(&mut self, x: f32, y: f32) {
        let wheel = MouseWheel {
            unit: MouseScrollUnit::Line,
            x,
            y,
            window: self.window(),
            phase: TouchPhase::Moved,
        };
        self.app.world_mut().write_message(WindowEvent::MouseWheel(wheel));
        self.rest(3);
    }

    /// Moves the pointer.
    pub fn point(&mut self, at: Vec2) {
        let moved = CursorMoved { window: self.window(), position: at, delta: None };
        self.app.world_mut().write_message(WindowEvent::CursorMoved(moved));
        self.rest(2);
    }

    /// Presses or lets go the pointer's button.
    pub fn button(&mut self, state: ButtonState) {
        let button = MouseButtonInput { button: MouseButton::Left, state, window: self.window() };
        self.app.world_mut().write_message(WindowEvent::MouseButtonInput(button));
        self.rest(3);
    }

    /// Turns the wheel until a control lies where the pointer reaches it, as a person does.
    fn scroll_to(&mut self, label: &str) {
        for _ in 0..80 {
            let (at, Some(clip)) = self.place_and_clip_of(label) else { return };
            let lines = if at.y > clip.max.y - EDGE {
                -1.0
            } else if at.y < clip.min.y + EDGE {
                1.0
            } else {
                return;
            };
            self.point(Vec2::new(at.x, clip.center().y));
            self.wheel(0.0, lines);
            if self.place_of(label) == at {
                // It is scrolled as far as it goes.
                return;
            }
        }
        panic!("the wheel does not bring `{label}` into sight");
    }

    /// Clicks a control by its spoken label.
    pub fn click(&mut self, label: &str) {
        self.scroll_to(label);
        let at = self.place_of(label);
        self.point(at);
        self.button(ButtonState::Pressed);
        self.button(ButtonState::Released);
        // Two clicks in quick succession would be one double click.
        self.rest(3);
    }

    /// Drags from one place to another.
    pub fn drag(&mut self, from: Vec2, to: Vec2) {
        self.drag_along(&[from, to]);
    }

    /// Drags from place to place.
    pub fn drag_along(&mut self, places: &[Vec2]) {
        let Some(first) = places.first() else { return };
        self.point(*first);
        self.button(ButtonState::Pressed);
        for pair in places.windows(2) {
            for step in 1..=4 {
                self.point(pair[0].lerp(pair[1], step as f32 / 4.0));
            }
        }
        self.button(ButtonState::Released);
        self.rest(4);
    }
}
