//! What forms in the book are made of: headings, labels, groups of choices, buttons, and lines for free
//! text, which are kept as drafts until they are sent, whichever page is turned to meanwhile.

use accesskit::Role;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::prelude::*;
use bevy::text::EditableText;

use crate::ui::access::{self, Unspoken, spoken};
use crate::ui::controls::{self, Chosen};
use crate::ui::growing::grows;
use crate::ui::overlay;
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, Tone};

/// Most characters of a line.
const LONGEST: usize = 300;

/// The line with this mark, where something in it has changed.
pub type Changed<'w, 's, Mark> =
    Query<'w, 's, &'static EditableText, (With<Mark>, bevy::prelude::Changed<EditableText>)>;

/// A line with a label for readers, and the draft that was typed into it before.
pub fn line(label: &str, draft: &str) -> impl Bundle {
    (
        EditableText { max_characters: Some(LONGEST), ..EditableText::new(draft) },
        spoken(Role::TextInput, label, draft),
        TabIndex(0),
        (theme::handwriting(), grows()),
        Node {
            width: percent(100),
            padding: UiRect::axes(px(4), px(3)),
            border: UiRect::all(px(1)),
            flex_shrink: 0.0,
            ..default()
        },
        Border(Tone::Line),
        Surface(Tone::Page),
        theme::ring(),
    )
}

/// Keeps what is typed as the draft.
pub fn keep<Mark: Component>(lines: &Changed<Mark>, mut draft: Mut<String>) {
    if let Ok(line) = lines.single() {
        draft.set_if_neq(line.value().to_string());
    }
}

/// The heading of a part of the page.
pub fn heading(leaf: &mut ChildSpawnerCommands, words: &str) {
    leaf.spawn((theme::bold(words, theme::BODY, Tone::Ink), access::heading(words, 3)));
}

/// What a line or a group of choices is for.
pub fn label(leaf: &mut ChildSpawnerCommands, words: &str) {
    leaf.spawn((theme::text(words, theme::SMALL, Tone::InkSoft), Unspoken));
}

/// A group of choices, to readers under a name, each choice with what it asks for.
pub fn choices<M: Message + Clone, W: AsRef<str>>(
    leaf: &mut ChildSpawnerCommands,
    name: &str,
    all: impl Iterator<Item = (M, W)>,
) {
    leaf.spawn(group(name)).with_children(|row| fill(row, all));
}

/// A group of which any number may be chosen.
pub fn checks<M: Message + Clone, W: AsRef<str>>(
    leaf: &mut ChildSpawnerCommands,
    name: &str,
    all: impl Iterator<Item = (M, W)>,
) {
    leaf.spawn((node(), spoken(Role::Group, name, ""))).with_children(|row| {
        for (request, words) in all {
            let (role, words) = (Role::CheckBox, words.as_ref());
            row.spawn(controls::choice_as(role, words, theme::SMALL, request, Chosen::No));
        }
    });
}

/// A group without its choices, of which one is chosen.
pub fn group(name: &str) -> impl Bundle {
    (node(), spoken(Role::RadioGroup, name, ""))
}

fn node() -> Node {
    Node { column_gap: px(4), row_gap: px(4), ..overlay::choices() }
}

/// Puts choices into a group.
pub fn fill<M: Message + Clone, W: AsRef<str>>(
    row: &mut ChildSpawnerCommands,
    all: impl Iterator<Item = (M, W)>,
) {
    for (request, words) in all {
        row.spawn(controls::choice(words.as_ref(), theme::SMALL, request, Chosen::No));
    }
}

/// A button by itself in a row.
pub fn button<M: Message + Clone>(leaf: &mut ChildSpawnerCommands, words: &str, request: M) {
    leaf.spawn(Node { flex_shrink: 0.0, ..default() }).with_children(|row| {
        row.spawn(controls::button(words, request));
    });
}
