//! A field of the book: what is typed is written as typed when the field is left or Enter is
//! pressed; a problem with it stands beside it, and what it struck out stays to be seen.

use accesskit::Role;
use bevy::input::ButtonState;
use bevy::input::keyboard::{Key, KeyboardInput};
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::input_focus::{FocusCause, FocusLost, FocusedInput, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use bevy::text::EditableText;
use bevy::ui_widgets::SelectAllOnFocus;
use sim_core::field_book::{Field, Struck, number_as_written};
use sim_core::session::action::Action;
use sim_core::session::apply::LONGEST_TEXT;

use super::labels::{is_number, label};
use crate::desk::{Book, Desk, GoTo};
use crate::scene::write_reading::Writing;
use crate::ui::access::{Unspoken, spoken};
use crate::ui::growing::grows;
use crate::ui::order::Frame;
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, Tone};
use crate::ui::typing::{Entered, retype, settle};

/// How something is struck out, on each page with fields.
pub const TO_STRIKE_OUT: &str =
    "To strike out an entry, clear its field. What was written stays legible.";

/// The page of the book that is open.
#[derive(Component)]
pub struct Leaf;

/// The field that an input writes into.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
pub struct EntryField(pub Field);

/// The note beside a field: what is wrong with it, and what was struck out.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
pub struct EntryNote(pub Field);

pub struct EntryPlugin;

impl Plugin for EntryPlugin {
    fn build(&self, app: &mut App) {
        app.add_observer(on_left)
            .add_observer(on_enter)
            .add_observer(on_entered)
            .add_observer(on_escape.run_if(resource_exists::<Book>))
            .add_observer(write)
            .add_systems(
                Update,
                (
                    clear_struck.run_if(resource_exists_and_changed::<Book>),
                    note.run_if(resource_exists_and_changed::<Book>.or_else(any_added)),
                    go_to,
                )
                    .in_set(Frame::Show),
            );
    }
}

fn any_added(added: Query<(), Added<EntryNote>>) -> bool {
    !added.is_empty()
}

/// A field with its label, unit and note, one line.
pub fn spawn(leaf: &mut ChildSpawnerCommands, book: &Book, field: Field) {
    let (name, unit) = label(field);
    leaf.spawn(Node {
        flex_direction: FlexDirection::Column,
        row_gap: px(2),
        flex_shrink: 0.0,
        ..default()
    })
    .with_children(|column| {
        column.spawn((theme::text(name, theme::SMALL, Tone::Ink), Unspoken));
        column
            .spawn(Node { column_gap: px(6), align_items: AlignItems::Center, ..default() })
            .with_children(|row| {
                row.spawn(Node { flex_grow: 1.0, flex_basis: px(0), ..default() }).with_children(
                    |cell| {
                        cell.spawn(input(book, field, &spoken_label(field)));
                    },
                );
                if !unit.is_empty() {
                    row.spawn((theme::italic(unit, theme::SMALL, Tone::InkSoft), Unspoken));
                }
            });
        column.spawn((EntryNote(field), theme::italic("", theme::SMALL, Tone::Caution)));
    });
}

/// Label with unit, for readers.
pub fn spoken_label(field: Field) -> String {
    let (name, unit) = label(field);
    let point = place_in_table(field);
    if unit.is_empty() { format!("{point}{name}") } else { format!("{point}{name}, {unit}") }
}

/// The row in which a field stands, if it stands in a table.
fn place_in_table(field: Field) -> String {
    match field {
        Field::Up(point)
        | Field::Down(point)
        | Field::DeltaH(point)
        | Field::Chart(point)
        | Field::PointFlow(point)
        | Field::ChartTerm(point) => format!("point {}, ", point.number()),
        Field::PartChart(part) | Field::PartMinutes(part) => format!("part {}, ", part.number()),
        Field::CheckUp(reading) | Field::CheckDown(reading) | Field::CheckChart(reading) => {
            format!("check {}, ", reading.number())
        }
        _ => String::new(),
    }
}

/// The input alone.
pub fn input(book: &Book, field: Field, name: &str) -> impl Bundle {
    let written = book.0.text(field).unwrap_or_default();
    (
        EntryField(field),
        EditableText { max_characters: Some(LONGEST_TEXT), ..EditableText::new(written) },
        SelectAllOnFocus,
        spoken(Role::TextInput, name, written),
        TabIndex(0),
        (theme::handwriting(), grows()),
        Node {
            width: percent(100),
            padding: UiRect::axes(px(3), px(3)),
            border: UiRect::all(px(1)),
            border_radius: BorderRadius::all(px(2)),
            ..default()
        },
        Border(Tone::Line),
        Surface(Tone::Page),
        theme::ring(),
    )
}

/// The field in which a step is written gets the focus.
fn go_to(
    mut go: ResMut<GoTo>,
    fields: Query<(Entity, &EntryField)>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
) {
    let GoTo::Field(field) = *go else { return };
    if let Some((entity, _)) = fields.iter().find(|(_, entry)| entry.0 == field) {
        focus.set(entity, FocusCause::Navigated);
        visible.0 = true;
        *go = GoTo::Nowhere;
    }
}

/// A field is left, or done with: what stands in it is written.
#[derive(Event, Debug, Clone, Copy)]
struct Done(Entity);

/// Keys that were pressed in the same frame come first.
fn done(field: Entity, commands: &mut Commands) {
    settle(commands);
    commands.trigger(Done(field));
}

fn on_left(lost: On<FocusLost>, fields: Query<(), With<EntryField>>, mut commands: Commands) {
    if fields.contains(lost.entity) {
        done(lost.entity, &mut commands);
    }
}

fn on_enter(
    pressed: On<FocusedInput<KeyboardInput>>,
    fields: Query<(), With<EntryField>>,
    mut commands: Commands,
) {
    let input = &pressed.input;
    let enter = input.logical_key == Key::Enter && input.state == ButtonState::Pressed;
    if enter && !input.repeat && fields.contains(pressed.focused_entity) {
        commands.trigger(Entered(pressed.focused_entity));
    }
}

/// Esc leaves a field as it was.
fn on_escape(
    pressed: On<FocusedInput<KeyboardInput>>,
    book: Res<Book>,
    mut fields: Query<(&EntryField, &mut EditableText)>,
) {
    let input = &pressed.input;
    let escape = input.logical_key == Key::Escape && input.state == ButtonState::Pressed;
    let Ok((EntryField(field), mut typed)) = fields.get_mut(pressed.focused_entity) else { return };
    if escape {
        retype(&mut typed, book.0.text(*field).unwrap_or_default());
    }
}

/// What is written with Enter is followed by the next blank of the page. A reading is followed by the next
/// one of its row, for which the scene cares.
fn on_entered(
    entered: On<Entered>,
    (writing, children): (Res<Writing>, Query<&Children>),
    leaves: Query<Entity, With<Leaf>>,
    fields: Query<&EditableText, With<EntryField>>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
    mut commands: Commands,
) {
    if !fields.contains(entered.0) {
        return;
    }
    let on_page = leaves.iter().flat_map(|leaf| children.iter_descendants_depth_first(leaf));
    let in_order: Vec<Entity> = on_page.filter(|entity| fields.contains(*entity)).collect();
    let is_blank = |entity: &Entity| {
        fields.get(*entity).is_ok_and(|text| text.value().to_string().trim().is_empty())
    };
    let at = in_order.iter().position(|entity| *entity == entered.0).unwrap_or(0);
    let mut after = in_order.iter().skip(at + 1).chain(in_order.iter().take(at));
    match after.find(|entity| is_blank(entity)) {
        // Whatever loses the focus is written.
        Some(&next) if !writing.is_at(entered.0) => {
            focus.set(next, FocusCause::Navigated);
            visible.0 = true;
        }
        _ => done(entered.0, &mut commands),
    }
}

/// Writes what stands in a field, if it is another text than the book has. Whoever empties a field
/// strikes out what was written there.
fn write(
    done: On<Done>,
    fields: Query<(&EntryField, &EditableText)>,
    (book, desk): (Res<Book>, Option<ResMut<Desk>>),
) {
    let (Ok((EntryField(field), typed)), Some(mut desk)) = (fields.get(done.0), desk) else {
        return;
    };
    let text = typed.value().to_string();
    if text.trim() == book.0.text(*field).unwrap_or_default() {
        return;
    }
    desk.ask(if text.trim().is_empty() {
        Action::Strike { what: Struck::Field(*field) }
    } else {
        Action::Write { field: *field, text }
    });
}

/// Writes texts into those of their fields in which nothing stands yet, on the open page and in the book.
pub fn fill_blanks(
    texts: &[(Field, String)],
    book: &Book,
    desk: &mut Desk,
    fields: &mut Query<(&EntryField, &mut EditableText)>,
) {
    for (field, text) in texts.iter().filter(|(field, _)| book.0.text(*field).is_none()) {
        for (_, mut shown) in fields.iter_mut().filter(|(entry, _)| entry.0 == *field) {
            retype(&mut shown, text);
        }
        desk.ask(Action::Write { field: *field, text: text.clone() });
    }
}

/// What was struck out is taken out of its field: it is legible in the note.
fn clear_struck(
    book: Res<Book>,
    mut fields: Query<(&EntryField, &mut EditableText)>,
    mut known: Local<usize>,
) {
    let entries = book.0.entries();
    let new = entries.get(*known..).unwrap_or_default();
    *known = entries.len();
    for entry in new.iter().filter(|entry| entry.strikes_out) {
        for (EntryField(field), mut typed) in &mut fields {
            if *field == entry.field && book.0.text(*field).is_none() {
                typed.clear();
            }
        }
    }
}

/// What is to be said about a field.
pub fn said_about(book: &Book, field: Field) -> String {
    let mut said = Vec::new();
    if let (true, Some(text)) = (field.is_decision(), book.0.text(field)) {
        // It is chosen in a form, which does not show what stands in the book.
        said.push(format!("written: {text}"));
    }
    if let (true, Some(text)) = (is_number(field), book.0.text(field))
        && let Err(problem) = number_as_written(text)
    {
        said.push(problem.to_string());
    }
    let mut earlier: Vec<&str> = book
        .0
        .entries()
        .iter()
        .filter(|entry| entry.field == field && !entry.text.trim().is_empty())
        .map(|entry| entry.text.trim())
        .collect();
    if book.0.text(field).is_some() {
        earlier.pop();
    }
    if !earlier.is_empty() {
        said.push(format!("struck out: {}", earlier.join(", ")));
    }
    let said = said.join("; ");
    if said.is_empty() || place_in_table(field).is_empty() {
        return said;
    }
    // The notes of a row stand one under another.
    format!("{}: {said}", label(field).0)
}

fn note(book: Res<Book>, mut notes: Query<(&EntryNote, &mut Text, Option<&mut Node>)>) {
    for (EntryNote(field), mut text, node) in &mut notes {
        let said = said_about(&book, *field);
        let display = if said.is_empty() { Display::None } else { Display::Flex };
        if text.0 != said {
            text.0 = said;
        }
        if let Some(mut node) = node
            && node.display != display
        {
            node.display = display;
        }
    }
}
