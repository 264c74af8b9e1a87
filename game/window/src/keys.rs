//! The keyboard's path: what every key does to what has the focus.

use bevy::input::ButtonState;
use bevy::input::keyboard::{Key, KeyboardInput};
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::input_focus::{FocusCause, FocusedInput, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use bevy::text::EditableText;
use bevy::ui_widgets::Activate;
use hands::{Grain, Spot, offers, sight_of};

use super::Screen;
use super::controls::{Ask, chart_hour};
use super::desk::{Desk, Seen};
use super::spots::{AtHand, SpotControl};

pub struct KeysPlugin;

impl Plugin for KeysPlugin {
    fn build(&self, app: &mut App) {
        app.add_observer(on_key).add_observer(on_spot_activated);
    }
}

/// Enter on a thing, or a screen reader's press, takes up its first offer.
fn on_spot_activated(
    activate: On<Activate>,
    spots: Query<&SpotControl>,
    seen: Option<Res<Seen>>,
    desk: Option<ResMut<Desk>>,
) {
    let (Ok(SpotControl(spot)), Some(seen), Some(mut desk)) =
        (spots.get(activate.entity), seen, desk)
    else {
        return;
    };
    if let Some(first) = offers(&seen.0, *spot).into_iter().next() {
        desk.ask(first.action);
    }
}

/// What was pressed, sorted by whom it goes to.
fn on_key(
    pressed: On<FocusedInput<KeyboardInput>>,
    (fields, spots): (Query<(), With<EditableText>>, Query<&SpotControl>),
    (keys, screen): (Res<ButtonInput<KeyCode>>, Res<State<Screen>>),
    at_hand: Res<AtHand>,
    desk: Option<ResMut<Desk>>,
    mut asks: MessageWriter<Ask>,
    mut commands: Commands,
) {
    let input = &pressed.input;
    // Every ancestor of what has the focus hears the key too: once is enough.
    if pressed.focused_entity != pressed.original_event_target()
        || input.state != ButtonState::Pressed
    {
        return;
    }
    let fine = keys.any_pressed([KeyCode::ShiftLeft, KeyCode::ShiftRight]);
    match &input.logical_key {
        Key::F1 => {
            asks.write(Ask::Help);
        }
        Key::F2 => {
            asks.write(Ask::Settings);
        }
        Key::F6 => commands.run_system_cached_with(next_region, fine),
        Key::Escape => {
            asks.write(Ask::Stop);
        }
        _ => {}
    }
    let Some(mut desk) = desk else { return };
    if *screen.get() != Screen::Bench || fields.contains(pressed.focused_entity) {
        return;
    }
    let spot = spots.get(pressed.focused_entity).map(|control| control.0);
    let grain = if fine { Grain::Fine } else { Grain::Coarse };
    let eye = if fine { 1.0 } else { 10.0 };
    match &input.logical_key {
        Key::PageUp => {
            asks.write(Ask::Eye(eye));
        }
        Key::PageDown => {
            asks.write(Ask::Eye(-eye));
        }
        Key::Character(typed) => match typed.chars().next() {
            Some(digit @ '1'..='9') => {
                let number = digit as usize - '1' as usize;
                {
                    asks.write(Ask::Offer(number));
                };
            }
            Some('l' | 'L') => desk.ask(sim_core::session::action::Action::Look {
                at: sight_of(spot.unwrap_or(at_hand.0)),
                eye_mm: 0.0,
            }),
            _ => {}
        },
        Key::Enter | Key::Space if spot.is_ok() && !input.repeat => {
            commands.trigger(Activate { entity: pressed.focused_entity });
        }
        key => {
            let steps = match key {
                Key::ArrowUp | Key::ArrowRight => 1,
                Key::ArrowDown | Key::ArrowLeft => -1,
                _ => return,
            };
            match spot {
                Ok(Spot::KeptChart) => {
                    asks.write(chart_hour(steps, grain));
                }
                Ok(spot) => desk.turn(spot, steps, grain),
                Err(_) => {}
            }
        }
    }
}

/// Moves the focus on from scene to field book to watch, or back.
fn next_region(
    In(back): In<bool>,
    mut focus: ResMut<InputFocus>,
    mut visible: ResMut<InputFocusVisible>,
    (children, tabs): (Query<&Children>, Query<&TabIndex>),
    regions: Query<(Entity, &Region)>,
    parents: Query<&ChildOf>,
    at_hand: Res<AtHand>,
    spots: Query<(Entity, &SpotControl)>,
) {
    let current = focus
        .get()
        .and_then(|entity| {
            std::iter::once(entity)
                .chain(parents.iter_ancestors(entity))
                .find_map(|entity| regions.get(entity).ok())
        })
        .map_or(Region::Watch, |(_, region)| *region);
    let next = match (current, back) {
        (Region::Scene, false) | (Region::Watch, true) => Region::Book,
        (Region::Book, false) | (Region::Scene, true) => Region::Watch,
        (Region::Watch, false) | (Region::Book, true) => Region::Scene,
    };
    let reachable = |entity: &Entity| tabs.get(*entity).is_ok_and(|tab| tab.0 >= 0);
    let target = if next == Region::Scene {
        // Back to the thing that was at hand.
        spots.iter().find(|(_, spot)| spot.0 == at_hand.0).map(|(entity, _)| entity)
    } else {
        regions.iter().find(|(_, region)| **region == next).and_then(|(entity, _)| {
            // The one that Tab comes to first; of equals the first in the window.
            let inside = children.iter_descendants_depth_first(entity).filter(reachable);
            inside.min_by_key(|entity| tabs.get(*entity).map_or(0, |tab| tab.0))
        })
    };
    if let Some(target) = target {
        focus.set(target, FocusCause::Navigated);
        visible.0 = true;
    }
}

/// A part of the window that F6 goes to.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
pub enum Region {
    /// The scene.
    Scene,
    /// The field book.
    Book,
    /// Watch and hand card.
    Watch,
}
