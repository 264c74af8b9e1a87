//! What a screen reader is told of the things in the scene beyond their names, and what it asks of them.

use accesskit::{Action as Asked, Node as AccessNode, Role};
use bevy::a11y::{AccessibilityNode, ActionRequest};
use bevy::prelude::*;
use hands::{Grain, Spot, state_of, turn};
use sim_core::session::view::View;

use crate::desk::{Desk, Seen};
use crate::scene::kept_chart::ChartTurn;
use crate::ui::access::spoken;
use crate::ui::order::Frame;

/// The control of a thing.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
pub struct SpotControl(pub Spot);

/// Quarter turns of a valve that is fully open.
const OPEN_QUARTERS: f64 = 4.0;

pub struct SpotReaderPlugin;

impl Plugin for SpotReaderPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(
            Update,
            answer
                .in_set(Frame::Obey)
                .run_if(resource_exists::<Desk>.and_then(resource_exists::<Seen>)),
        );
    }
}

/// What a thing is to a reader: something to press, or something to turn.
const fn role(spot: Spot) -> Role {
    match spot {
        Spot::Knob | Spot::Scale => Role::Slider,
        Spot::Valve(_) | Spot::ZeroScrew | Spot::Dial | Spot::Tripper(_) | Spot::KeptChart => {
            Role::SpinButton
        }
        _ => Role::Button,
    }
}

/// The node of a thing before it was looked at.
pub fn node(spot: Spot) -> AccessibilityNode {
    let mut node = spoken(role(spot), spot.name(), "");
    node.add_action(Asked::Click);
    node
}

/// Says how a thing stands, and whether it can be turned now.
pub fn tell(node: &mut Mut<AccessibilityNode>, view: &View, spot: Spot) {
    let state = state_of(view, spot);
    if node.value() != Some(state.as_str()) {
        node.set_value(state);
    }
    let turns = spot == Spot::KeptChart || turn(view, spot, 1, Grain::Coarse).is_some();
    if turns != node.supports_action(Asked::Increment) {
        for asked in [Asked::Increment, Asked::Decrement] {
            if turns {
                node.add_action(asked);
            } else {
                node.remove_action(asked);
            }
        }
    }
    if let Some(setting) = setting(view, spot)
        && node.numeric_value() != Some(setting.now)
    {
        setting.put_into(node);
    }
}

/// How far something is turned or slid, as a hand knows it without reading a scale.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Setting {
    now: f64,
    least: f64,
    most: f64,
    step: f64,
}

impl Setting {
    fn put_into(self, node: &mut AccessNode) {
        node.set_numeric_value(self.now);
        node.set_min_numeric_value(self.least);
        node.set_max_numeric_value(self.most);
        node.set_numeric_value_step(self.step);
    }
}

fn setting(view: &View, spot: Spot) -> Option<Setting> {
    match spot {
        Spot::Knob => {
            let now = (view.calibrator.knob * 100.0).round();
            Some(Setting { now, least: 0.0, most: 100.0, step: 5.0 })
        }
        Spot::Valve(leg) => {
            let now = f64::from(view.manometer.leg(leg).valve_quarters);
            Some(Setting { now, least: 0.0, most: OPEN_QUARTERS, step: 2.0 })
        }
        Spot::Scale => {
            let now = (view.manometer.scale_in * 100.0).round() / 100.0;
            Some(Setting { now, least: -2.0, most: 2.0, step: 0.1 })
        }
        _ => None,
    }
}

/// Turns what a reader asks to be turned: a coarse step, as an arrow key does.
fn answer(
    mut asked: MessageReader<ActionRequest>,
    spots: Query<(&SpotControl, &AccessibilityNode)>,
    mut desk: ResMut<Desk>,
    mut turns: MessageWriter<ChartTurn>,
) {
    for request in asked.read() {
        let entity = Entity::try_from_bits(request.target_node.0);
        let Some((SpotControl(spot), node)) = entity.and_then(|entity| spots.get(entity).ok())
        else {
            continue;
        };
        let steps = match request.action {
            _ if node.is_hidden() => continue,
            Asked::Increment => 1,
            Asked::Decrement => -1,
            _ => continue,
        };
        if *spot == Spot::KeptChart {
            turns.write(ChartTurn::by(steps, Grain::Coarse));
        } else {
            desk.turn(*spot, steps, Grain::Coarse);
        }
    }
}
