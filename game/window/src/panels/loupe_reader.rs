//! The loupe for those who do not see it: what is looked at, which way it moves, and the height of the eye,
//! which is raised and lowered like a slider. What a scale shows is not told here: see
//! [`Action::ReadInWords`](sim_core::session::action::Action::ReadInWords).

use accesskit::{Action as Asked, Role};
use bevy::a11y::{AccessibilityNode, ActionRequest};
use bevy::input::keyboard::Key;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::prelude::*;
use hands::is_away;
use sim_core::session::action::Sight;
use sim_core::session::view::View;

use crate::desk::Seen;
use crate::panels::loupe::{EyeRequest, Glass, Hold, eye_words};
use crate::ui::access::spoken;
use crate::ui::announce::TellingReaders;
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::theme;

/// Height by which a reader's step, or a page key, raises the eye, mm.
const STEP_MM: f64 = 10.0;
/// Height by which an arrow key raises the eye, mm.
const FINE_MM: f64 = 2.0;
/// Shortest time over which something is seen to move, s.
const MOVES_S: f64 = 0.5;
/// After everything else in the scene.
const LAST: i32 = 100;

pub struct LoupeReaderPlugin;

impl Plugin for LoupeReaderPlugin {
    fn build(&self, app: &mut App) {
        let on_bench = || in_state(Screen::Bench).and_then(resource_exists::<Seen>);
        app.add_observer(on_key.run_if(on_bench()))
            .add_systems(Update, (answer.in_set(Frame::Obey), work).run_if(on_bench()))
            // After the loupe is shown, which tells the height of the eye alone.
            .add_systems(PostUpdate, tell.before(TellingReaders).run_if(on_bench()));
    }
}

/// Makes the loupe a control.
fn work(added: Query<Entity, Added<Glass>>, mut commands: Commands) {
    for glass in &added {
        commands.entity(glass).insert(control());
    }
}

fn control() -> impl Bundle {
    let mut node = spoken(Role::Slider, "loupe", "");
    node.add_action(Asked::Increment);
    node.add_action(Asked::Decrement);
    node.set_min_numeric_value(-150.0);
    node.set_max_numeric_value(150.0);
    node.set_numeric_value_step(STEP_MM);
    (node, TabIndex(LAST), theme::ring())
}

fn answer(
    mut asked: MessageReader<ActionRequest>,
    voices: Query<&AccessibilityNode, With<Glass>>,
    mut requests: MessageWriter<EyeRequest>,
) {
    for request in asked.read() {
        let entity = Entity::try_from_bits(request.target_node.0);
        let Some(node) = entity.and_then(|entity| voices.get(entity).ok()) else { continue };
        match request.action {
            _ if node.is_hidden() => {}
            Asked::Increment => {
                requests.write(EyeRequest(STEP_MM));
            }
            Asked::Decrement => {
                requests.write(EyeRequest(-STEP_MM));
            }
            _ => {}
        }
    }
}

fn on_key(
    press: On<KeyPress>,
    voices: Query<(), With<Glass>>,
    mut requests: MessageWriter<EyeRequest>,
) {
    if !voices.contains(press.on) {
        return;
    }
    let (page, arrow) = if press.shift { (1.0, 1.0) } else { (STEP_MM, FINE_MM) };
    requests.write(EyeRequest(match press.key {
        Key::ArrowUp | Key::ArrowRight => arrow,
        Key::ArrowDown | Key::ArrowLeft => -arrow,
        Key::PageUp => page,
        Key::PageDown => -page,
        _ => return,
    }));
}

/// What was looked at a while ago: against it, it is seen to move.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Earlier {
    at: Sight,
    seconds: f64,
    value: f64,
    rises: Option<bool>,
}

/// Tells what is under the glass.
fn tell(
    (seen, hold): (Res<Seen>, Res<Hold>),
    mut voices: Query<(Ref<Glass>, &mut AccessibilityNode)>,
    mut earlier: Local<Option<Earlier>>,
) {
    let Ok((voice, mut node)) = voices.single_mut() else { return };
    if !seen.is_changed() && !hold.is_changed() && !voice.is_added() {
        return;
    }
    let view = &seen.0;
    if is_away(view) {
        *earlier = None;
        if node.value().is_some() {
            node.clear_value();
        }
        return;
    }
    *earlier = looked(view, *earlier);
    let mut said = vec![name(view.focus).to_owned()];
    let rises = earlier.and_then(|earlier| earlier.rises);
    said.extend(motion(view, rises).map(str::to_owned));
    if moves_with_eye(view.focus) {
        said.push(eye_words(view.eye_mm));
    }
    let words = format!("{}{}", said.join(", "), hold.words());
    if node.value() != Some(words.as_str()) {
        node.set_value(words);
        node.set_numeric_value(view.eye_mm);
    }
}

/// Where on its scale the thing that is looked at stands; it is only compared with itself.
fn value(view: &View) -> Option<f64> {
    match view.focus {
        Sight::LeftLeg => Some(view.manometer.left.meniscus_in),
        Sight::RightLeg => Some(view.manometer.right.meniscus_in),
        Sight::Pen => view.recorder.pen,
        Sight::Thermometer => Some(view.thermometer.column_c),
        _ => None,
    }
}

/// What is looked at now, compared with what was.
fn looked(view: &View, earlier: Option<Earlier>) -> Option<Earlier> {
    let (value, seconds) = (value(view)?, view.tick.seconds());
    let new = Earlier { at: view.focus, seconds, value, rises: None };
    let Some(last) = earlier.filter(|last| last.at == view.focus) else { return Some(new) };
    if seconds - last.seconds < MOVES_S {
        return Some(last);
    }
    let rises = ((value - last.value).abs() > 0.0).then_some(value > last.value);
    Some(Earlier { rises, ..new })
}

/// Whether it moves, and which way.
fn motion(view: &View, rises: Option<bool>) -> Option<&'static str> {
    let (moves, words) = match view.focus {
        Sight::LeftLeg | Sight::RightLeg => (
            view.manometer.moving,
            [
                "the water is moving",
                "the water is rising",
                "the water is falling",
                "the water is still",
            ],
        ),
        Sight::Pen => (
            view.recorder.moving,
            ["the pen is moving", "the pen is rising", "the pen is falling", "the pen is still"],
        ),
        Sight::Thermometer => (
            view.thermometer.moving,
            [
                "the column is moving",
                "the column is rising",
                "the column is falling",
                "the column is still",
            ],
        ),
        _ => return None,
    };
    let [moving, rising, falling, still] = words;
    Some(match (moves, rises) {
        (false, _) => still,
        (true, None) => moving,
        (true, Some(true)) => rising,
        (true, Some(false)) => falling,
    })
}

/// Whether the height of the eye shifts what is read.
const fn moves_with_eye(at: Sight) -> bool {
    matches!(at, Sight::LeftLeg | Sight::RightLeg)
}

/// What is looked at.
const fn name(at: Sight) -> &'static str {
    match at {
        Sight::Station => "the station",
        Sight::Sky => "the sky",
        Sight::RoofEdge => "the roof edge and the ladder",
        Sight::WorkOrder => "the work order",
        Sight::Certificate(_) => "a certificate",
        Sight::Watch => "the watch",
        Sight::WeatherSheet => "the weather sheet",
        Sight::Barometer => "the barometer",
        Sight::Thermometer => "the thermometer",
        Sight::Holder => "the filter holder",
        Sight::Filter => "the filter",
        Sight::Calibrator => "the calibrator",
        Sight::Tube => "the tube",
        Sight::Manometer => "the whole manometer",
        Sight::LeftLeg => "the left leg of the manometer",
        Sight::RightLeg => "the right leg of the manometer",
        Sight::Display => "the manometer's display",
        Sight::Recorder => "the recorder and its chart",
        Sight::Pen => "the pen",
        Sight::Controller => "the flow controller",
        Sight::Timer => "the timer",
        Sight::Plugs => "the plugs",
        Sight::Blower => "the blower",
    }
}
