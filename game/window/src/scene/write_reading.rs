//! A reading is written where it belongs without leaving the instrument: `=`, or the button beside the
//! deeds, reads the thing at hand and goes to the field for its value. Enter there writes it, looks at what
//! the next value of the row is read from, and goes to its field; after the last one the hand is back at
//! the thing. Esc goes back at once.

use bevy::input::keyboard::Key;
use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use hands::{Spot, offers};
use sim_core::field_book::Field;
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;

use super::next_reading::{first_blank, next_in_row, read_at};
use crate::desk::{Book, Desk, GoTo, Seen};
use crate::scene::spot_reader::SpotControl;
use crate::scene::spots::AtHand;
use crate::ui::controls::AddRequest as _;
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;
use crate::ui::overlay::Overlay;
use crate::ui::screen::Screen;
use crate::ui::typing::Entered;

/// Frames after which the hand goes on, whether anything was written or not.
const PATIENCE: u8 = 20;

/// Asks for the thing at hand to be read, and its value to be written.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct WriteReading;

/// A reading that is being written.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Writing(Option<Reading>);

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Reading {
    /// What it is read from.
    from: Spot,
    /// Where it is written.
    field: Field,
    /// The control of that field, once it has the focus.
    at: Option<Entity>,
    /// Frames since Enter, and how many entries there were.
    entered: Option<(u8, usize)>,
}

impl Writing {
    /// Whether a control is the field into which a reading is being written.
    pub fn is_at(&self, control: Entity) -> bool {
        self.0.is_some_and(|reading| reading.at == Some(control))
    }
}

pub struct WriteReadingPlugin;

impl Plugin for WriteReadingPlugin {
    fn build(&self, app: &mut App) {
        let on_bench = || in_state(Screen::Bench).and_then(resource_exists::<Seen>);
        app.init_resource::<Writing>()
            .add_request::<WriteReading>()
            .add_observer(on_key.run_if(on_bench()))
            .add_observer(on_entered.run_if(resource_exists::<Book>))
            .add_systems(
                Update,
                (
                    begin.in_set(Frame::Obey).run_if(resource_exists::<Desk>),
                    (settle, go_on).chain().in_set(Frame::Show),
                )
                    .run_if(on_bench().and_then(resource_exists::<Book>)),
            );
    }
}

fn on_key(
    press: On<KeyPress>,
    (controls, writing): (Query<&SpotControl>, Res<Writing>),
    overlay: Res<Overlay>,
    mut requests: MessageWriter<WriteReading>,
    mut back: Back,
    at_hand: Res<AtHand>,
) {
    if overlay.0.is_some() {
        return;
    }
    match &press.key {
        Key::Character(typed) if typed == "=" && !press.typing && controls.contains(press.on) => {
            requests.write(WriteReading);
        }
        Key::Escape if press.typing => {
            back.to(writing.0.map_or(at_hand.0, |reading| reading.from));
        }
        _ => {}
    }
}

/// Where the focus is led back to.
#[derive(bevy::ecs::system::SystemParam)]
struct Back<'w, 's> {
    controls: Query<'w, 's, (Entity, &'static SpotControl)>,
    focus: ResMut<'w, InputFocus>,
    visible: ResMut<'w, InputFocusVisible>,
}

impl Back<'_, '_> {
    fn to(&mut self, spot: Spot) {
        if let Some((entity, _)) = self.controls.iter().find(|(_, control)| control.0 == spot) {
            self.focus.set(entity, FocusCause::Navigated);
            self.visible.0 = true;
        }
    }
}

/// What has to be done to read a thing, unless it is looked at already.
fn look_at(view: &View, spot: Spot) -> Option<Action> {
    let sight = read_at(spot)?;
    let looks = |action: &Action| matches!(action, Action::Look { at, .. } if *at == sight);
    if view.focus == sight {
        return None;
    }
    // A pen without paper offers no reading.
    let from = if sight == Sight::Pen { Spot::Pen } else { spot };
    offers(view, from).into_iter().map(|offer| offer.action).find(looks)
}

fn begin(
    mut requests: MessageReader<WriteReading>,
    (seen, book, at_hand): (Res<Seen>, Res<Book>, Res<AtHand>),
    (mut desk, mut go, mut writing): (ResMut<Desk>, ResMut<GoTo>, ResMut<Writing>),
) {
    if requests.read().count() == 0 {
        return;
    }
    let from = at_hand.0;
    let sight = read_at(from).unwrap_or(seen.0.focus);
    let Some(field) = first_blank(&book.0, &desk.papers.work_order, sight) else { return };
    if let Some(look) = look_at(&seen.0, from) {
        desk.ask(look);
    }
    *go = GoTo::Field(field);
    writing.0 = Some(Reading { from, field, at: None, entered: None });
}

fn on_entered(entered: On<Entered>, book: Res<Book>, mut writing: ResMut<Writing>) {
    if !writing.is_at(entered.0) {
        writing.0 = None;
    } else if let Some(reading) = &mut writing.0 {
        reading.entered = Some((0, book.0.entries().len()));
    }
}

/// Notes which control the field is, and forgets the reading when something else is gone to.
fn settle(
    (focus, go): (Res<InputFocus>, Res<GoTo>),
    controls: Query<(), With<SpotControl>>,
    mut writing: ResMut<Writing>,
) {
    let Some(reading) = writing.0 else { return };
    if !matches!(*go, GoTo::Nowhere) || reading.entered.is_some() {
        return;
    }
    match (reading.at, focus.get()) {
        (None, Some(entity)) if !controls.contains(entity) => {
            writing.0 = Some(Reading { at: Some(entity), ..reading });
        }
        (Some(at), now) if now != Some(at) => writing.0 = None,
        _ => {}
    }
}

/// On to the next reading of the row once a value stands in the book, or back to the thing.
fn go_on(
    (seen, book): (Res<Seen>, Res<Book>),
    (mut desk, mut go): (Option<ResMut<Desk>>, ResMut<GoTo>),
    mut writing: ResMut<Writing>,
    mut back: Back,
) {
    let Some(reading) = writing.0 else { return };
    let Some((frames, entries)) = reading.entered else { return };
    if book.0.entries().len() == entries && frames < PATIENCE {
        writing.0 = Some(Reading { entered: Some((frames + 1, entries)), ..reading });
        return;
    }
    let written = book.0.entries().len() > entries;
    let has_display = seen.0.manometer.display.is_some();
    let next = next_in_row(&book.0, reading.field, has_display).filter(|_| written);
    let (Some((field, spot)), Some(desk)) = (next, &mut desk) else {
        writing.0 = None;
        back.to(reading.from);
        return;
    };
    if let Some(look) = spot.and_then(|spot| look_at(&seen.0, spot)) {
        desk.ask(look);
    }
    *go = GoTo::Field(field);
    let from = spot.unwrap_or(reading.from);
    writing.0 = Some(Reading { from, field, at: None, entered: None });
}
