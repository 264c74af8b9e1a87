//! The field for the number of the rig.

use accesskit::Role;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::prelude::*;
use bevy::text::{EditableText, EditableTextFilter};
use bevy::ui_widgets::SelectAllOnFocus;

use crate::ui::access::spoken;
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, Tone};

/// The field for the number of the rig.
#[derive(Component)]
pub struct SeedField;

/// Puts the field into a row, with the number of a fresh rig in it.
pub fn spawn(row: &mut ChildSpawnerCommands, fresh: u64) {
    let fresh = fresh.to_string();
    row.spawn((
        SeedField,
        EditableText {
            max_characters: Some(9),
            visible_width: Some(9.0),
            ..EditableText::new(&fresh)
        },
        EditableTextFilter::new(|c| c.is_ascii_digit()),
        SelectAllOnFocus,
        spoken(Role::TextInput, "rig number: each number sets up a different rig", &fresh),
        // After the cards: most people take the rig that comes, and it is another one each time.
        TabIndex(1),
        theme::handwriting(),
        Node { padding: UiRect::axes(px(6), px(3)), border: UiRect::all(px(1.5)), ..default() },
        Border(Tone::InkSoft),
        Surface(Tone::Page),
        theme::ring(),
    ));
}
