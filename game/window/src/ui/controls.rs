//! Buttons, and how a control asks for something: it carries a message of the feature that answers,
//! and pressing it writes that message. No feature is known here.

use accesskit::{Role, Toggled};
use bevy::a11y::AccessibilityNode;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::picking::hover::Hovered;
use bevy::prelude::*;
use bevy::text::FontSource;
use bevy::ui_widgets::{Activate, Button};

use crate::ui::access::spoken;
use crate::ui::theme::{self, Pressable};
use crate::ui::tone::{Border, Tone};

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

/// Whether a choice is the one in force.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Chosen {
    /// It is.
    Yes,
    /// Another one is.
    No,
}

impl Chosen {
    /// Whether two values are the same.
    pub fn when<T: PartialEq>(one: T, other: T) -> Self {
        if one == other { Self::Yes } else { Self::No }
    }
}

/// A button that is one of several. The one in force is told by its heavy type and its mark, not by
/// colour alone. Its feature sets which it is; the button itself stays.
#[derive(Component, Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    words: String,
    chosen: Chosen,
}

impl Choice {
    /// Says whether it is the one in force.
    pub fn set(choice: &mut Mut<Self>, chosen: Chosen) {
        if choice.chosen != chosen {
            choice.chosen = chosen;
        }
    }
}

/// What stands on a button, where that changes with what the button will do. To readers it is the
/// button's name.
#[derive(Component, Debug, Clone, PartialEq, Eq)]
pub struct Caption(String);

impl Caption {
    /// Words on a button.
    pub fn new(words: impl Into<String>) -> Self {
        Self(words.into())
    }

    /// Puts other words onto the button.
    pub fn set(caption: &mut Mut<Self>, words: &str) {
        if caption.0 != words {
            words.clone_into(&mut caption.0);
        }
    }
}

pub struct ControlsPlugin;

impl Plugin for ControlsPlugin {
    fn build(&self, app: &mut App) {
        // Before readers are told and nodes are laid out.
        app.add_systems(
            PostUpdate,
            (show_choices, show_captions).before(bevy::ui::UiSystems::Prepare),
        );
    }
}

/// Shows which choices are in force, to the eye and to readers.
fn show_choices(
    mut choices: Query<
        (&Choice, &mut Pressable, &mut AccessibilityNode, &Children),
        Changed<Choice>,
    >,
    mut texts: Query<(&mut Text, &mut TextFont)>,
) {
    for (choice, mut tones, mut access, children) in &mut choices {
        let (words, font, rest, toggled) = match choice.chosen {
            Chosen::Yes => {
                (format!("\u{2022} {}", choice.words), theme::BOLD, Tone::Page, Toggled::True)
            }
            Chosen::No => {
                (choice.words.clone(), Handle::default(), Tone::PaperShade, Toggled::False)
            }
        };
        tones.rest = rest;
        if access.role() == Role::Tab {
            access.set_selected(choice.chosen == Chosen::Yes);
        } else {
            access.set_toggled(toggled);
        }
        for child in children {
            if let Ok((mut text, mut type_of)) = texts.get_mut(*child) {
                text.set_if_neq(Text::new(words.clone()));
                type_of.font = FontSource::Handle(font.clone());
            }
        }
    }
}

/// Shows what stands on buttons.
fn show_captions(
    mut buttons: Query<(&Caption, &mut AccessibilityNode, &Children), Changed<Caption>>,
    mut texts: Query<&mut Text>,
) {
    for (Caption(words), mut access, children) in &mut buttons {
        access.set_label(words.clone());
        for child in children {
            if let Ok(mut text) = texts.get_mut(*child) {
                text.set_if_neq(Text::new(words.clone()));
            }
        }
    }
}

/// A button that asks for something.
pub fn button<M: Message + Clone>(words: &str, message: M) -> impl Bundle {
    (face(words, message, Tone::PaperShade), children![theme::text(words, theme::BODY, Tone::Ink)])
}

/// A button that is one of several.
pub fn choice<M: Message + Clone>(
    words: &str,
    size: f32,
    message: M,
    chosen: Chosen,
) -> impl Bundle {
    choice_as(Role::RadioButton, words, size, message, chosen)
}

/// A choice that is something else to readers: a tab, or one that others do not exclude.
pub fn choice_as<M: Message + Clone>(
    role: Role,
    words: &str,
    size: f32,
    message: M,
    chosen: Chosen,
) -> impl Bundle {
    (
        face_as(role, words, message, Tone::PaperShade),
        Choice { words: words.to_owned(), chosen },
        children![theme::text(words, size, Tone::Ink)],
    )
}

/// A button without anything in it yet.
pub fn face<M: Message + Clone>(label: &str, message: M, rest: Tone) -> impl Bundle {
    face_as(Role::Button, label, message, rest)
}

fn face_as<M: Message + Clone>(role: Role, label: &str, message: M, rest: Tone) -> impl Bundle {
    (
        Button,
        spoken(role, label, ""),
        Request(message),
        TabIndex(0),
        Hovered::default(),
        Pressable { rest, over: Tone::Page },
        Node {
            padding: UiRect::axes(px(9), px(4)),
            border: UiRect::all(px(1.5)),
            border_radius: BorderRadius::all(px(4)),
            align_items: AlignItems::Center,
            column_gap: px(6),
            ..default()
        },
        Border(Tone::Ink),
        theme::ring(),
    )
}
