//! What was typed into a field, whole: keys wait in the field until the frame is laid out, and whoever
//! reads the field before then settles them first.

use bevy::prelude::*;
use bevy::text::{EditableText, TextEdit, apply_text_edits};

/// Puts every key that waits into its field, before any command that comes after this one.
pub fn settle(commands: &mut Commands) {
    commands.run_system_cached(apply_text_edits);
}

/// Has a field show another text in place of what stands in it.
pub fn retype(field: &mut EditableText, text: &str) {
    field.queue_edit(TextEdit::SelectAll);
    field.queue_edit(if text.is_empty() {
        TextEdit::Delete
    } else {
        TextEdit::Insert(text.into())
    });
}

/// Enter was pressed in a field, or what stands for it among the keys to point at.
#[derive(Event, Debug, Clone, Copy)]
pub struct Entered(pub Entity);
