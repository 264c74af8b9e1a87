//! Fields that are as high as what is typed into them: a long reason is read whole, and no number is
//! cut at its side.

use bevy::prelude::*;
use bevy::text::{EditableText, LineBreak, TextLayout, TextLayoutInfo};
use bevy::ui::UiSystems;
use bevy::window::RequestRedraw;

/// A field that grows by the lines that are typed into it.
#[derive(Component, Debug, Clone, Copy, Default)]
pub struct Grows;

pub struct GrowingPlugin;

impl Plugin for GrowingPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(PostUpdate, grow.after(UiSystems::PostLayout));
    }
}

/// What makes a field grow: a word that is longer than a line goes on in the next one.
pub fn grows() -> impl Bundle {
    (Grows, TextLayout { linebreak: LineBreak::WordOrCharacter, ..default() })
}

/// Gives a field the lines that it needs, in the next frame.
fn grow(
    mut fields: Query<(&mut EditableText, &TextLayoutInfo), (With<Grows>, Changed<TextLayoutInfo>)>,
    mut redraw: MessageWriter<RequestRedraw>,
) {
    for (mut field, laid) in &mut fields {
        let last = laid.glyphs.iter().map(|glyph| glyph.line_index).max().unwrap_or(0);
        let lines = Some(last as f32 + 1.0);
        if field.visible_lines != lines {
            field.visible_lines = lines;
            redraw.write(RequestRedraw);
        }
    }
}
