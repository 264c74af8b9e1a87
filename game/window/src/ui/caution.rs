//! A caution with its triangle.

use bevy::prelude::*;

use crate::ui::in_units::InUnits;
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, Tone};

/// A caution with its triangle.
pub fn caution(parent: &mut ChildSpawnerCommands, words: &str) {
    row(parent, theme::text(words, theme::BODY, Tone::Ink));
}

/// A caution with values in it.
pub fn caution_in_units(parent: &mut ChildSpawnerCommands, words: &str) {
    row(parent, (theme::text("", theme::BODY, Tone::Ink), InUnits(words.to_owned())));
}

fn row(parent: &mut ChildSpawnerCommands, words: impl Bundle) {
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
            Surface(Tone::CautionWash),
            Border(Tone::Caution),
        ))
        .with_children(|row| {
            row.spawn(theme::sign());
            row.spawn(words);
        });
}
