//! How everything looks: paper, ink, type and lines. No other file knows a colour or a size.

use bevy::asset::uuid_handle;
use bevy::input_focus::{InputFocus, InputFocusVisible};
use bevy::picking::hover::Hovered;
use bevy::prelude::*;
use bevy::text::{FontSize, FontSource, RemSize, TextCursorStyle};

use crate::ui::settings::{Contrast, Settings};

/// Type for headings and values.
pub const BOLD: Handle<Font> = uuid_handle!("0d6a4c0e-7a53-4b0f-9b43-6a3a0c1c5a01");
/// Type for remarks.
pub const ITALIC: Handle<Font> = uuid_handle!("0d6a4c0e-7a53-4b0f-9b43-6a3a0c1c5a02");

/// The triangle that stands beside cautions.
pub const SIGN: Handle<Image> = uuid_handle!("0d6a4c0e-7a53-4b0f-9b43-6a3a0c1c5a03");

/// Height of running text at 100 %, logical pixels.
const BODY_PX: f32 = 15.0;
/// Sizes of type, in heights of running text.
pub const SMALL: f32 = 0.87;
/// Running text.
pub const BODY: f32 = 1.0;
/// Headings.
pub const HEAD: f32 = 1.25;
/// The watch, titles.
pub const LARGE: f32 = 1.6;

/// Colours in force. The names are those of `assets/palette.ron`.
#[derive(Resource, Debug, Clone, Copy, PartialEq)]
pub struct Theme {
    pub paper: Color,
    pub paper_shade: Color,
    pub page: Color,
    pub line: Color,
    pub ink: Color,
    pub ink_soft: Color,
    pub copper: Color,
    /// Copper of small type, dark enough for it.
    pub copper_type: Color,
    pub caution: Color,
    pub caution_wash: Color,
    pub hand_ink: Color,
    pub sky: Color,
}

impl Theme {
    /// The colours for a contrast.
    pub fn of(contrast: Contrast) -> Self {
        let rgb = Color::srgb_u8;
        let usual = Self {
            paper: rgb(0xf5, 0xf0, 0xe3),
            paper_shade: rgb(0xe9, 0xe1, 0xcc),
            page: rgb(0xfc, 0xf9, 0xf1),
            line: rgb(0x9a, 0xa3, 0xa6),
            ink: rgb(0x22, 0x2d, 0x38),
            ink_soft: rgb(0x51, 0x5e, 0x69),
            copper: rgb(0xb1, 0x4e, 0x27),
            copper_type: rgb(0x98, 0x41, 0x1f),
            caution: rgb(0x96, 0x30, 0x1c),
            caution_wash: rgb(0xf1, 0xd9, 0xa0),
            hand_ink: rgb(0x27, 0x4b, 0x63),
            sky: rgb(0xdf, 0xe8, 0xe7),
        };
        match contrast {
            Contrast::Normal => usual,
            Contrast::High => Self {
                paper: Color::WHITE,
                paper_shade: rgb(0xee, 0xee, 0xee),
                page: Color::WHITE,
                line: rgb(0x33, 0x33, 0x33),
                ink: Color::BLACK,
                ink_soft: rgb(0x11, 0x18, 0x20),
                copper: rgb(0x8a, 0x2a, 0x00),
                copper_type: rgb(0x8a, 0x2a, 0x00),
                caution: rgb(0x78, 0x10, 0x00),
                hand_ink: rgb(0x00, 0x22, 0x40),
                ..usual
            },
        }
    }
}

/// Colours of a thing that can be pressed: at rest and under the pointer.
#[derive(Component, Debug, Clone, Copy)]
pub struct Pressable {
    /// At rest.
    pub rest: Color,
    /// Under the pointer.
    pub over: Color,
}

/// Shows a control as the one that is chosen.
#[derive(Component, Debug, Clone, Copy)]
pub struct Chosen;

pub struct ThemePlugin;

impl Plugin for ThemePlugin {
    fn build(&self, app: &mut App) {
        app.insert_resource(Theme::of(Contrast::Normal))
            .add_systems(Startup, load_fonts)
            .add_systems(PreUpdate, follow_settings.run_if(resource_changed::<Settings>))
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

fn follow_settings(
    settings: Res<Settings>,
    mut theme: ResMut<Theme>,
    mut rem: ResMut<RemSize>,
    mut clear: ResMut<ClearColor>,
) {
    theme.set_if_neq(Theme::of(settings.contrast));
    rem.0 = BODY_PX * settings.text_scale();
    clear.0 = theme.paper;
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
        let color = if focus.get() == Some(entity) { theme.copper } else { Color::NONE };
        if outline.color != color {
            outline.color = color;
        }
    }
}

type HoverChanged = Or<(Changed<Hovered>, Changed<Pressable>)>;

fn show_hover(mut buttons: Query<(&Hovered, &Pressable, &mut BackgroundColor), HoverChanged>) {
    for (hovered, colours, mut background) in &mut buttons {
        let color = if hovered.get() { colours.over } else { colours.rest };
        if background.0 != color {
            background.0 = color;
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
pub fn text(words: impl Into<String>, size: f32, color: Color) -> impl Bundle {
    (Text::new(words), font(Handle::default(), size), TextColor(color), Pickable::IGNORE)
}

/// Heavy text.
pub fn bold(words: impl Into<String>, size: f32, color: Color) -> impl Bundle {
    (Text::new(words), font(BOLD, size), TextColor(color), Pickable::IGNORE)
}

/// Slanting text, for remarks.
pub fn italic(words: impl Into<String>, size: f32, color: Color) -> impl Bundle {
    (Text::new(words), font(ITALIC, size), TextColor(color), Pickable::IGNORE)
}

/// The triangle beside a caution.
pub fn sign() -> impl Bundle {
    let node = Node { width: px(30), height: px(27), flex_shrink: 0.0, ..default() };
    (ImageNode::new(SIGN), node, Pickable::IGNORE)
}

/// Type of what is written by hand in the field book.
pub fn handwriting(theme: &Theme) -> impl Bundle {
    (
        font(Handle::default(), BODY),
        TextColor(theme.hand_ink),
        TextCursorStyle {
            color: theme.copper,
            selection_color: theme.caution_wash,
            unfocused_selection_color: Color::NONE,
            selected_text_color: None,
        },
    )
}

/// A sheet of paper with a line about it.
pub fn sheet(theme: &Theme, node: Node) -> impl Bundle {
    (
        Node { border: UiRect::all(px(2)), border_radius: BorderRadius::all(px(5)), ..node },
        BackgroundColor(theme.page),
        BorderColor::all(theme.ink),
    )
}
