//! A caution with its triangle.

use bevy::prelude::*;

use crate::ui::theme::{self, Theme};

/// A caution with its triangle.
pub fn caution(parent: &mut ChildSpawnerCommands, theme: &Theme, words: &str) {
    parent
        .spawn((
            Node {
                column_gap: px(10),
                padding: UiRect::axes(px(12), px(8)),
                border: UiRect::all(px(2)),
                border_radius: BorderRadius::all(px(5)),
                align_items: AlignItems::Center,
                flex_shrink: 0.0,
                ..default()
            },
            BackgroundColor(theme.caution_wash),
            BorderColor::all(theme.caution),
        ))
        .with_children(|row| {
            row.spawn(theme::sign());
            row.spawn(theme::text(words, theme::BODY, theme.ink));
        });
}
