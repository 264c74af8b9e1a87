//! Keys to point at, for those who work without a keyboard: under the book while a field has the
//! focus, when pointer hints are set. They type into the field and leave it the focus.

use accesskit::Role;
use bevy::input_focus::{AcquireFocus, InputFocus};
use bevy::picking::events::{Click, Pointer};
use bevy::picking::hover::Hovered;
use bevy::prelude::*;
use bevy::text::{EditableText, TextEdit};
use bevy::ui_widgets::Activate;

use super::pad_slide;
use crate::ui::access::spoken;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::settings::{Hints, Settings};
use crate::ui::theme::{self, Pressable};
use crate::ui::tone::{Border, Surface, Tone};
use crate::ui::typing::Entered;

/// What numbers, dates and serial numbers need.
const FIGURES: &str = "1234567890.-:/";
/// What words need besides.
const LETTERS: &str = "abcdefghijklmnopqrstuvwxyz,";

/// The keys together.
#[derive(Component)]
struct Pad;

/// The letters, which are shown on asking.
#[derive(Component)]
struct Letters;

/// One key.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
enum PadKey {
    /// Writes a sign.
    Sign(char),
    /// Takes the last sign back.
    Back,
    /// Writes, and goes on to the next reading or blank, as Enter does.
    Next,
    /// Lets the field be.
    Done,
    /// Shows or hides the letters.
    Words,
    /// Changes between small letters and capitals.
    Capitals,
}

/// A key of the pad was pressed, by the pointer or by a reader.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
struct PadPress(PadKey);

/// What the pad shows.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Shows {
    letters: bool,
    capitals: bool,
}

pub struct PadPlugin;

impl Plugin for PadPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Shows>()
            .add_message::<PadPress>()
            .add_observer(on_click)
            .add_observer(on_activated)
            .add_systems(
                Update,
                (obey.in_set(Frame::Obey), show.in_set(Frame::Show))
                    .run_if(in_state(Screen::Bench)),
            );
    }
}

/// Puts the pad, hidden, under the book.
pub fn spawn(book: &mut ChildSpawnerCommands) {
    let keys = |display| Node {
        display,
        flex_wrap: FlexWrap::Wrap,
        column_gap: px(3),
        row_gap: px(3),
        flex_shrink: 0.0,
        ..default()
    };
    book.spawn((
        Pad,
        spoken(Role::Group, "keys to point at", ""),
        Node {
            display: Display::None,
            flex_direction: FlexDirection::Column,
            row_gap: px(4),
            padding: UiRect::axes(px(8), px(6)),
            border: UiRect::top(px(2)),
            flex_shrink: 0.0,
            ..default()
        },
        Surface(Tone::PaperShade),
        Border(Tone::Ink),
    ))
    // A pressed key must not take the focus from the field.
    .observe(|mut acquire: On<AcquireFocus>| acquire.propagate(false))
    .with_children(|pad| {
        pad_slide::spawn(pad);
        pad.spawn((Letters, keys(Display::None))).with_children(|row| {
            for letter in LETTERS.chars() {
                key(row, PadKey::Sign(letter), &letter.to_string());
            }
            key(row, PadKey::Sign(' '), "space");
            key(row, PadKey::Capitals, "A/a");
        });
        pad.spawn(keys(Display::Flex)).with_children(|row| {
            for figure in FIGURES.chars() {
                key(row, PadKey::Sign(figure), &figure.to_string());
            }
            key(row, PadKey::Back, "take back");
            key(row, PadKey::Words, "letters");
            key(row, PadKey::Next, "next field");
            key(row, PadKey::Done, "done");
        });
    });
}

fn key(row: &mut ChildSpawnerCommands, key: PadKey, words: &str) {
    let label = match key {
        PadKey::Sign(sign) if sign != ' ' => format!("key {sign}"),
        _ => format!("key: {words}"),
    };
    row.spawn((
        key,
        spoken(Role::Button, label, ""),
        Hovered::default(),
        Pressable { rest: Tone::Page, over: Tone::CautionWash },
        Node {
            min_width: px(30),
            padding: UiRect::axes(px(7), px(4)),
            border: UiRect::all(px(1.5)),
            border_radius: BorderRadius::all(px(4)),
            justify_content: JustifyContent::Center,
            ..default()
        },
        Border(Tone::Ink),
    ))
    .with_children(|button| {
        button.spawn(theme::text(words, theme::BODY, Tone::Ink));
    });
}

fn on_click(click: On<Pointer<Click>>, keys: Query<&PadKey>, mut presses: MessageWriter<PadPress>) {
    if let Ok(key) = keys.get(click.entity) {
        presses.write(PadPress(*key));
    }
}

/// A reader's press is one like the pointer's.
fn on_activated(
    activate: On<Activate>,
    keys: Query<&PadKey>,
    mut presses: MessageWriter<PadPress>,
) {
    if let Ok(key) = keys.get(activate.entity) {
        presses.write(PadPress(*key));
    }
}

/// Types what was pressed.
fn obey(
    mut presses: MessageReader<PadPress>,
    mut fields: Query<&mut EditableText>,
    mut focus: ResMut<InputFocus>,
    mut shows: ResMut<Shows>,
    mut commands: Commands,
) {
    for PadPress(key) in presses.read() {
        press(*key, &mut fields, &mut focus, &mut shows, &mut commands);
    }
}

fn press(
    key: PadKey,
    fields: &mut Query<&mut EditableText>,
    focus: &mut InputFocus,
    shows: &mut Shows,
    commands: &mut Commands,
) {
    let mut edit = |edit: TextEdit| {
        if let Some(mut field) = focus.get().and_then(|entity| fields.get_mut(entity).ok()) {
            field.queue_edit(edit);
        }
    };
    match key {
        PadKey::Sign(sign) => {
            let sign = if shows.capitals { sign.to_ascii_uppercase() } else { sign };
            edit(TextEdit::Insert(sign.to_string().into()));
        }
        PadKey::Back => edit(TextEdit::Backspace),
        PadKey::Next => {
            if let Some(field) = focus.get() {
                commands.trigger(Entered(field));
            }
        }
        PadKey::Done => focus.clear(),
        PadKey::Words => shows.letters = !shows.letters,
        PadKey::Capitals => shows.capitals = !shows.capitals,
    }
}

/// Shows the pad while a field has the focus and pointer hints are set.
fn show(
    (focus, settings, shows): (Res<InputFocus>, Res<Settings>, Res<Shows>),
    fields: Query<(), With<EditableText>>,
    mut pads: Query<&mut Node, (With<Pad>, Without<Letters>)>,
    mut letters: Query<&mut Node, (With<Letters>, Without<Pad>)>,
    keys: Query<(&PadKey, &Children)>,
    mut texts: Query<&mut Text>,
) {
    let typing = focus.get().is_some_and(|entity| fields.contains(entity));
    set(&mut pads, settings.hints == Hints::Pointer && typing);
    set(&mut letters, shows.letters);
    if shows.is_changed() {
        for (key, children) in &keys {
            let PadKey::Sign(sign) = key else { continue };
            if !sign.is_ascii_alphabetic() {
                continue;
            }
            let sign = if shows.capitals { sign.to_ascii_uppercase() } else { *sign };
            if let Some(mut text) = children.first().and_then(|&text| texts.get_mut(text).ok()) {
                text.0 = sign.to_string();
            }
        }
    }
}

fn set<F: bevy::ecs::query::QueryFilter>(nodes: &mut Query<&mut Node, F>, shown: bool) {
    let display = if shown { Display::Flex } else { Display::None };
    for mut node in nodes {
        if node.display != display {
            node.display = display;
        }
    }
}
