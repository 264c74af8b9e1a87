//! Colours by what they are for. What is drawn says its tone; which colour that is, one system decides,
//! and decides anew when another contrast is set. No other file knows a colour.

use bevy::prelude::*;
use bevy::text::TextCursorStyle;

use crate::ui::settings::{Contrast, Settings};

/// What a colour is for. The names are those of `assets/palette.ron`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Nothing is drawn.
    Clear,
    /// The window.
    Paper,
    /// Heads of pages, and controls at rest.
    PaperShade,
    /// Sheets.
    Page,
    /// Thin lines.
    Line,
    /// Type and lines.
    Ink,
    /// Type that matters less.
    InkSoft,
    /// What has the focus, and where something goes.
    Copper,
    /// Small type in copper, dark enough for it.
    CopperType,
    /// What the pointer is over in the scene.
    CopperWash,
    /// What is wrong.
    Caution,
    /// Behind cautions.
    CautionWash,
    /// What is written by hand.
    HandInk,
    /// The sky over the roof.
    Sky,
    /// Over the window while a sheet lies on it.
    Veil,
}

/// The tone of a text.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
#[require(TextColor)]
pub struct TextTone(pub Tone);

/// The tone of what lies behind.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
#[require(BackgroundColor)]
pub struct Surface(pub Tone);

/// The tone of a border.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
#[require(BorderColor)]
pub struct Border(pub Tone);

/// Something is typed here: its caret and what is selected have colours too.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq, Default)]
#[require(TextCursorStyle)]
pub struct Typed;

/// The colours in force.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq)]
pub struct Theme(Contrast);

impl Theme {
    /// The colours for a contrast.
    pub const fn of(contrast: Contrast) -> Self {
        Self(contrast)
    }

    /// The colour of a tone.
    pub fn color(self, tone: Tone) -> Color {
        let rgb = Color::srgb_u8;
        match tone {
            Tone::Clear => return Color::NONE,
            Tone::CopperWash => return self.color(Tone::Copper).with_alpha(0.12),
            Tone::Veil => return self.color(Tone::Ink).with_alpha(0.35),
            Tone::CautionWash => return rgb(0xf1, 0xd9, 0xa0),
            Tone::Sky => return rgb(0xdf, 0xe8, 0xe7),
            _ => {}
        }
        match self.0 {
            Contrast::Normal => usual(tone),
            Contrast::High => high(tone),
        }
    }
}

fn usual(tone: Tone) -> Color {
    let rgb = Color::srgb_u8;
    match tone {
        Tone::Paper => rgb(0xf5, 0xf0, 0xe3),
        Tone::PaperShade => rgb(0xe9, 0xe1, 0xcc),
        Tone::Page => rgb(0xfc, 0xf9, 0xf1),
        Tone::Line => rgb(0x9a, 0xa3, 0xa6),
        Tone::InkSoft => rgb(0x51, 0x5e, 0x69),
        Tone::Copper => rgb(0xb1, 0x4e, 0x27),
        Tone::CopperType => rgb(0x98, 0x41, 0x1f),
        Tone::Caution => rgb(0x96, 0x30, 0x1c),
        Tone::HandInk => rgb(0x27, 0x4b, 0x63),
        _ => rgb(0x22, 0x2d, 0x38),
    }
}

fn high(tone: Tone) -> Color {
    let rgb = Color::srgb_u8;
    match tone {
        Tone::Paper | Tone::Page => Color::WHITE,
        Tone::PaperShade => rgb(0xee, 0xee, 0xee),
        Tone::Line => rgb(0x33, 0x33, 0x33),
        Tone::InkSoft => rgb(0x11, 0x18, 0x20),
        Tone::Copper | Tone::CopperType => rgb(0x8a, 0x2a, 0x00),
        Tone::Caution => rgb(0x78, 0x10, 0x00),
        Tone::HandInk => rgb(0x00, 0x22, 0x40),
        _ => Color::BLACK,
    }
}

pub struct TonePlugin;

impl Plugin for TonePlugin {
    fn build(&self, app: &mut App) {
        app.insert_resource(Theme::of(Contrast::Normal)).add_systems(
            PostUpdate,
            (
                follow_settings.run_if(resource_changed::<Settings>),
                (color_texts, color_surfaces, color_borders, color_carets),
            )
                .chain(),
        );
    }
}

fn follow_settings(
    settings: Res<Settings>,
    mut theme: ResMut<Theme>,
    mut clear: ResMut<ClearColor>,
) {
    theme.set_if_neq(Theme::of(settings.contrast));
    clear.0 = theme.color(Tone::Paper);
}

fn color_texts(theme: Res<Theme>, mut texts: Query<(Ref<TextTone>, &mut TextColor)>) {
    for (tone, mut color) in &mut texts {
        if theme.is_changed() || tone.is_changed() {
            color.set_if_neq(TextColor(theme.color(tone.0)));
        }
    }
}

fn color_surfaces(theme: Res<Theme>, mut surfaces: Query<(Ref<Surface>, &mut BackgroundColor)>) {
    for (tone, mut color) in &mut surfaces {
        if theme.is_changed() || tone.is_changed() {
            color.set_if_neq(BackgroundColor(theme.color(tone.0)));
        }
    }
}

fn color_borders(theme: Res<Theme>, mut borders: Query<(Ref<Border>, &mut BorderColor)>) {
    for (tone, mut color) in &mut borders {
        if theme.is_changed() || tone.is_changed() {
            color.set_if_neq(BorderColor::all(theme.color(tone.0)));
        }
    }
}

fn color_carets(theme: Res<Theme>, mut fields: Query<(Ref<Typed>, &mut TextCursorStyle)>) {
    for (typed, mut style) in &mut fields {
        if theme.is_changed() || typed.is_added() {
            *style = TextCursorStyle {
                color: theme.color(Tone::Copper),
                selection_color: theme.color(Tone::CautionWash),
                unfocused_selection_color: Color::NONE,
                selected_text_color: None,
            };
        }
    }
}
