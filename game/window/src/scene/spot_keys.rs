//! What keys do to the thing that has the focus.

use bevy::input::keyboard::Key;
use bevy::prelude::*;
use bevy::ui_widgets::Activate;
use hands::{Grain, Spot, sight_of};
use sim_core::session::action::Action;

use crate::desk::Desk;
use crate::scene::kept_chart::ChartTurn;
use crate::scene::spot_reader::SpotControl;
use crate::scene::spots::AtHand;
use crate::scene::take_up::TakeUp;
use crate::ui::keys::KeyPress;
use crate::ui::screen::Screen;

pub struct SpotKeysPlugin;

impl Plugin for SpotKeysPlugin {
    fn build(&self, app: &mut App) {
        app.add_observer(on_key.run_if(in_state(Screen::Bench).and_then(resource_exists::<Desk>)))
            .add_observer(on_activated);
    }
}

/// Enter on a thing, or a screen reader's press, takes up its first offer.
fn on_activated(
    activate: On<Activate>,
    spots: Query<&SpotControl>,
    mut take_ups: MessageWriter<TakeUp>,
) {
    if let Ok(SpotControl(spot)) = spots.get(activate.entity) {
        take_ups.write(TakeUp::first_of(*spot));
    }
}

fn on_key(
    press: On<KeyPress>,
    spots: Query<&SpotControl>,
    at_hand: Res<AtHand>,
    mut desk: ResMut<Desk>,
    mut turns: MessageWriter<ChartTurn>,
    mut commands: Commands,
) {
    if press.typing {
        return;
    }
    let spot = spots.get(press.on).map(|control| control.0);
    let grain = if press.shift { Grain::Fine } else { Grain::Coarse };
    match &press.key {
        Key::Character(typed) if typed.eq_ignore_ascii_case("l") => {
            let at = sight_of(spot.unwrap_or(at_hand.0));
            desk.ask(Action::Look { at, eye_mm: 0.0 });
        }
        Key::Enter | Key::Space if spot.is_ok() && !press.repeat => {
            commands.trigger(Activate { entity: press.on });
        }
        key => {
            let steps = match key {
                Key::ArrowUp | Key::ArrowRight => 1,
                Key::ArrowDown | Key::ArrowLeft => -1,
                _ => return,
            };
            match spot {
                Ok(Spot::KeptChart) => {
                    turns.write(ChartTurn::by(steps, grain));
                }
                Ok(spot) => desk.turn(spot, steps, grain),
                Err(_) => {}
            }
        }
    }
}
