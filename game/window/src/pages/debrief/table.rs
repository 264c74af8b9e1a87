//! Rows of text in columns, for the debrief.

use accesskit::Role;
use bevy::prelude::*;

use super::section;
use crate::ui::access::spoken;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// A row of values whose columns are so many percent wide.
pub fn row(parent: &mut ChildSpawnerCommands, widths: &[f32], cells: &[&str]) {
    parent.spawn((line(), spoken(Role::Row, "", ""))).with_children(|row| {
        for (width, words) in widths.iter().zip(cells) {
            row.spawn((column(*width), spoken(Role::Cell, "", ""))).with_children(|cell| {
                cell.spawn(theme::text(*words, theme::BODY, Tone::Ink));
            });
        }
    });
}

/// The node of a row.
pub fn line() -> Node {
    Node { width: percent(100), align_items: AlignItems::Center, flex_shrink: 0.0, ..default() }
}

/// The node of a column so many percent wide.
pub fn column(width: f32) -> Node {
    Node {
        width: percent(width),
        padding: UiRect::right(px(12)),
        flex_shrink: 0.0,
        min_width: px(0),
        ..default()
    }
}

/// A sheet on which a part of the debrief stands, under its heading.
pub fn part(
    root: &mut ChildSpawnerCommands,
    heading: &str,
    fill: impl FnOnce(&mut ChildSpawnerCommands),
) {
    section::spawn(root, heading);
    let sheet = Node {
        flex_direction: FlexDirection::Column,
        padding: UiRect::axes(px(14), px(10)),
        row_gap: px(6),
        flex_shrink: 0.0,
        ..default()
    };
    root.spawn(theme::sheet(sheet)).with_children(fill);
}
