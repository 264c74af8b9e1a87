//! What the list says about the last thing that was asked of it.

use accesskit::{Live, Role};
use bevy::a11y::AccessibilityNode;
use bevy::prelude::*;

use crate::ui::access::spoken;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// What is to be said.
#[derive(Resource, Debug, Clone, PartialEq, Eq, Default)]
pub enum StartNote {
    /// Nothing.
    #[default]
    Nothing,
    /// What was chosen is being opened.
    Opening,
    /// What went wrong.
    Trouble(String),
}

impl StartNote {
    fn words(&self) -> &str {
        match self {
            Self::Nothing => "",
            Self::Opening => "The session is being opened.",
            Self::Trouble(why) => why,
        }
    }
}

/// Where it is said.
#[derive(Component)]
pub(super) struct NoteText;

/// Puts the note onto the page; while there is nothing to say it takes no room.
pub(super) fn spawn(root: &mut ChildSpawnerCommands, note: &StartNote) {
    let (words, display) = (note.words(), display(note));
    let mut live = spoken(Role::Status, "", words);
    live.set_live(Live::Polite);
    root.spawn((NoteText, live, theme::bold(words.to_owned(), theme::BODY, Tone::Caution)))
        .entry::<Node>()
        .and_modify(move |mut node| node.display = display);
}

fn display(note: &StartNote) -> Display {
    if *note == StartNote::Nothing { Display::None } else { Display::Flex }
}

/// Says something else.
pub(super) fn say(
    note: Res<StartNote>,
    mut texts: Query<(&mut Text, &mut Node, &mut AccessibilityNode), With<NoteText>>,
) {
    if !note.is_changed() {
        return;
    }
    for (mut text, mut node, mut access) in &mut texts {
        note.words().clone_into(&mut text.0);
        access.set_value(note.words());
        node.display = display(&note);
    }
}
