//! How everything looks: type, lines, sheets, and the ring about what has the focus. Colours are those
//! of [`Tone`].

use bevy::asset::uuid_handle;
use bevy::input_focus::{InputFocus, InputFocusVisible};
use bevy::picking::hover::Hovered;
use bevy::prelude::*;
use bevy::text::{FontSize, FontSource};

use crate::ui::text_size::ByTextSize;
use crate::ui::tone::{Border, Surface, TextTone, Theme, Tone, TonePlugin, Typed};

/// Type for headings and values.
pub const BOLD: Handle<Font> = uuid_handle!("0d6a4c0e-7a53-4b0f-9b43-6a3a0c1c5a01");
/// Type for remarks.
pub const ITALIC: Handle<Font> = uuid_handle!("0d6a4c0e-7a53-4b0f-9b43-6a3a0c1c5a02");

/// The triangle that stands beside cautions.
pub const SIGN: Handle<Image> = uuid_handle!("0d6a4c0e-7a53-4b0f-9b43-6a3a0c1c5a03");

/// Sizes of type, in heights of running text.
pub const SMALL: f32 = 0.87;
/// Running text.
pub const BODY: f32 = 1.0;
/// Headings.
pub const HEAD: f32 = 1.25;
/// The watch, titles.
pub const LARGE: f32 = 1.6;
/// The title of a screen.
pub const TITLE: f32 = 2.2;

/// Tones of a thing that can be pressed: at rest and under the pointer.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
#[require(BackgroundColor)]
pub struct Pressable {
    /// At rest.
    pub rest: Tone,
    /// Under the pointer.
    pub over: Tone,
}

pub struct ThemePlugin;

impl Plugin for ThemePlugin {
    fn build(&self, app: &mut App) {
        app.add_plugins(TonePlugin)
            .add_systems(Startup, load_fonts)
            .add_systems(PostUpdate, (show_focus, show_hover));
    }
}

fn load_fonts(mut fonts: ResMut<Assets<Font>>) {
    let files: [(AssetId<Font>, &[u8]); 3] = [
        (AssetId::default(), include_bytes!("../../../../assets/fonts/IBMPlexSans-Regular.ttf")),
        (BOLD.id(), include_bytes!("../../../../assets/fonts/IBMPlexSans-SemiBold.ttf")),
        (ITALIC.id(), include_bytes!("../../../../assets/fonts/IBMPlexSans-Italic.ttf")),
    ];
    for (id, bytes) in files {
        // The three ids are uuids, which can always be inserted.
        let _ = fonts.insert(id, Font::from_bytes(bytes.to_vec()));
    }
}

/// The ring about what has the focus.
fn show_focus(
    focus: Res<InputFocus>,
    visible: Res<InputFocusVisible>,
    theme: Res<Theme>,
    mut outlines: Query<(Entity, &mut Outline)>,
) {
    if !focus.is_changed() && !visible.is_changed() && !theme.is_changed() {
        return;
    }
    for (entity, mut outline) in &mut outlines {
        let tone = if focus.get() == Some(entity) { Tone::Copper } else { Tone::Clear };
        let color = theme.color(tone);
        if outline.color != color {
            outline.color = color;
        }
    }
}

fn show_hover(
    theme: Res<Theme>,
    mut buttons: Query<(Ref<Hovered>, Ref<Pressable>, &mut BackgroundColor)>,
) {
    for (hovered, tones, mut background) in &mut buttons {
        if hovered.is_changed() || tones.is_changed() || theme.is_changed() {
            let tone = if hovered.get() { tones.over } else { tones.rest };
            background.set_if_neq(BackgroundColor(theme.color(tone)));
        }
    }
}

/// The ring that every control carries, unseen until it has the focus.
pub fn ring() -> Outline {
    Outline::new(px(3), px(1), Color::NONE)
}

fn font(handle: Handle<Font>, size: f32) -> TextFont {
    TextFont { font: FontSource::Handle(handle), font_size: FontSize::Rem(size), ..default() }
}

/// Running text.
pub fn text(words: impl Into<String>, size: f32, tone: Tone) -> impl Bundle {
    (Text::new(words), font(Handle::default(), size), TextTone(tone), Pickable::IGNORE)
}

/// Heavy text.
pub fn bold(words: impl Into<String>, size: f32, tone: Tone) -> impl Bundle {
    (Text::new(words), font(BOLD, size), TextTone(tone), Pickable::IGNORE)
}

/// Slanting text, for remarks.
pub fn italic(words: impl Into<String>, size: f32, tone: Tone) -> impl Bundle {
    (Text::new(words), font(ITALIC, size), TextTone(tone), Pickable::IGNORE)
}

/// The triangle beside a caution.
pub fn sign() -> impl Bundle {
    let node = Node { flex_shrink: 0.0, ..default() };
    let size = ByTextSize::new(|node, scale| {
        (node.width, node.height) = (px(30.0 * scale), px(27.0 * scale));
    });
    (ImageNode::new(SIGN), node, size, Pickable::IGNORE)
}

/// Type of what is written by hand in the field book.
pub fn handwriting() -> impl Bundle {
    (font(Handle::default(), BODY), TextTone(Tone::HandInk), Typed)
}

/// A sheet of paper with a line about it.
pub fn sheet(node: Node) -> impl Bundle {
    (
        Node { border: UiRect::all(px(2)), border_radius: BorderRadius::all(px(5)), ..node },
        Surface(Tone::Page),
        Border(Tone::Ink),
    )
}
