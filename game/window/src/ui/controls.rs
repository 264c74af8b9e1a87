//! Buttons, and how a control asks for something: it carries a message of the feature that answers,
//! and pressing it writes that message. No feature is known here.

use accesskit::Role;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::picking::hover::Hovered;
use bevy::prelude::*;
use bevy::ui_widgets::{Activate, Button};

use crate::ui::access::spoken;
use crate::ui::theme::{self, Pressable, Theme};

/// What a control asks for: this message is written when it is pressed.
#[derive(Component, Debug, Clone, Copy, PartialEq)]
pub struct Request<M: Message + Clone>(pub M);

/// Lets controls carry a message.
pub trait AddRequest {
    /// Adds the message, and has every [`Request`] of it written when its control is pressed.
    fn add_request<M: Message + Clone>(&mut self) -> &mut Self;
}

impl AddRequest for App {
    fn add_request<M: Message + Clone>(&mut self) -> &mut Self {
        self.add_message::<M>().add_observer(pass_on::<M>)
    }
}

fn pass_on<M: Message + Clone>(
    activate: On<Activate>,
    controls: Query<&Request<M>>,
    mut requests: MessageWriter<M>,
) {
    if let Ok(Request(message)) = controls.get(activate.entity) {
        requests.write(message.clone());
    }
}

/// A button that asks for something.
pub fn button<M: Message + Clone>(theme: &Theme, words: &str, message: M) -> impl Bundle {
    (
        face(theme, words, message, theme.paper_shade),
        children![theme::text(words, theme::BODY, theme.ink)],
    )
}

/// A button shown as the chosen one: told by its heavy type and its mark, not by colour alone.
pub fn chosen_button<M: Message + Clone>(theme: &Theme, words: &str, message: M) -> impl Bundle {
    (
        face(theme, words, message, theme.page),
        children![theme::bold(format!("\u{2022} {words}"), theme::BODY, theme.ink)],
    )
}

/// A button without anything in it yet.
pub fn face<M: Message + Clone>(
    theme: &Theme,
    label: &str,
    message: M,
    rest: Color,
) -> impl Bundle {
    (
        Button,
        spoken(Role::Button, label, ""),
        Request(message),
        TabIndex(0),
        Hovered::default(),
        Pressable { rest, over: theme.page },
        Node {
            padding: UiRect::axes(px(9), px(4)),
            border: UiRect::all(px(1.5)),
            border_radius: BorderRadius::all(px(4)),
            align_items: AlignItems::Center,
            column_gap: px(6),
            ..default()
        },
        BackgroundColor(rest),
        BorderColor::all(theme.ink),
        theme::ring(),
    )
}
