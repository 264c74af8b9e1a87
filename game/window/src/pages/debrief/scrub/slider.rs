//! The strip of the session, on which a moment is chosen: by keys, by the pointer, by a reader.

use accesskit::{Action as Asked, ActionData, Orientation, Role};
use bevy::a11y::{AccessibilityNode, ActionRequest};
use bevy::input::ButtonState;
use bevy::input::keyboard::{Key, KeyboardInput};
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::input_focus::{FocusCause, FocusedInput, InputFocus};
use bevy::picking::events::{Drag, Pointer, Press};
use bevy::prelude::*;
use bevy::ui::UiGlobalTransform;
use paint::strip::{StripLayout, TimelineStrip, paint};
use sim_core::time::Tick;

use super::super::outcome::Outcome;
use super::cursor::{ScrubRequest, Scrubbed};
use crate::scene::pictures;
use crate::ui::access::spoken;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::settings::Settings;
use crate::ui::theme;
use crate::ui::tone::{Surface, Tone};

/// What the keys do.
pub const KEYS: &str = "Keys on the timeline: Left and Right move 10 s (with Shift 1 s), Up and Down 1 min, \
    Page Up and Page Down 10 min. Home and End go to the start and to the end, N and P to the next and \
    previous mark. T shows the true values, and the space bar plays and pauses.";
/// What the marks mean.
pub const KEY_TO_MARKS: &str = "Strokes are readings, flags are reports, the square is the decision, and \
    triangles are findings (filled: serious). Hatching marks waits, dots what you wrote, and dashed \
    lines the true values.";

/// Width of the line at the moment that is shown, logical pixels.
const CURSOR_PX: f32 = 2.0;

/// The strip.
#[derive(Component)]
pub struct Slider;
#[derive(Component)]
struct StripPicture(String);
#[derive(Component)]
struct Cursor;

pub struct SliderPlugin;

impl Plugin for SliderPlugin {
    fn build(&self, app: &mut App) {
        app.add_observer(on_key).add_observer(on_press).add_observer(on_drag).add_systems(
            Update,
            (draw, show, answer)
                .in_set(Frame::Show)
                .run_if(in_state(Screen::Debrief).and_then(resource_exists::<Scrubbed>)),
        );
    }
}

/// Puts the strip onto a sheet.
pub fn spawn(sheet: &mut ChildSpawnerCommands) {
    let mut slider = spoken(Role::Slider, "time in the session", "");
    slider.set_orientation(Orientation::Horizontal);
    for asked in [Asked::Increment, Asked::Decrement, Asked::SetValue] {
        slider.add_action(asked);
    }
    sheet
        .spawn((
            Slider,
            slider,
            TabIndex(0),
            Node { width: percent(100), height: px(200), flex_shrink: 0.0, ..default() },
            Surface(Tone::Page),
            theme::ring(),
        ))
        .with_children(|strip| {
            strip.spawn((
                StripPicture(String::new()),
                ImageNode::default(),
                Node { position_type: PositionType::Absolute, ..default() },
                Pickable::IGNORE,
            ));
            strip.spawn((
                Cursor,
                Node {
                    position_type: PositionType::Absolute,
                    width: px(CURSOR_PX),
                    height: percent(100),
                    ..default()
                },
                Surface(Tone::Copper),
                Pickable::IGNORE,
            ));
        });
}

fn laid(node: &ComputedNode, settings: &Settings) -> StripLayout {
    let width = node.size().x * node.inverse_scale_factor();
    StripLayout { width, text_scale: settings.text_scale() }
}

/// Draws the strip anew when its size or what it shows has changed.
fn draw(
    (scrubbed, outcome, settings): (Res<Scrubbed>, Res<Outcome>, Res<Settings>),
    mut sliders: Query<(&ComputedNode, &mut Node), With<Slider>>,
    mut drawn: Query<(&mut StripPicture, &mut ImageNode, &mut Node), Without<Slider>>,
    mut images: ResMut<Assets<Image>>,
) {
    let (Ok((node, mut place)), Ok((mut picture, mut image, mut lies)), Ok(told)) =
        (sliders.single_mut(), drawn.single_mut(), &outcome.0)
    else {
        return;
    };
    let laid = laid(node, &settings);
    let truth = scrubbed.truth;
    let height = px(laid.height(truth));
    if place.height != height {
        place.height = height;
    }
    let contrast = settings.contrast;
    let shows = format!("{laid:?} {truth:?} {contrast:?} {}", node.inverse_scale_factor());
    if laid.width < 100.0 || picture.0 == shows {
        return;
    }
    picture.0 = shows;
    let scrub = scrubbed.scrub();
    let strip = TimelineStrip {
        line: scrub.line(),
        marks: &told.ended.marks,
        samples: scrub.track().samples(),
        start: scrub.start(),
        truth,
    };
    let painted = paint(&strip, laid, node.inverse_scale_factor().recip());
    let to_logical = node.inverse_scale_factor();
    lies.width = px(painted.width() as f32 * to_logical);
    lies.height = px(painted.height() as f32 * to_logical);
    image.image = images.add(pictures::image_in(&painted, contrast));
}

/// Puts the line where the moment is, and says it.
fn show(
    scrubbed: Res<Scrubbed>,
    settings: Res<Settings>,
    mut sliders: Query<(&ComputedNode, &mut AccessibilityNode), With<Slider>>,
    mut cursors: Query<&mut Node, With<Cursor>>,
) {
    let (Ok((node, mut access)), Ok(mut cursor)) = (sliders.single_mut(), cursors.single_mut())
    else {
        return;
    };
    let scrub = scrubbed.scrub();
    let x = laid(node, &settings).x(scrub.scale().share(scrub.at()));
    let left = px(x - 0.5 * CURSOR_PX);
    if cursor.left != left {
        cursor.left = left;
    }
    let words = scrub.words();
    if access.value() != Some(words.as_str()) || access.max_numeric_value().is_none() {
        access.set_value(words);
        access.set_numeric_value(scrub.at().seconds());
        access.set_min_numeric_value(0.0);
        access.set_max_numeric_value(scrub.track().end().seconds());
    }
}

/// Keys on the strip.
fn on_key(
    pressed: On<FocusedInput<KeyboardInput>>,
    sliders: Query<(), With<Slider>>,
    keys: Res<ButtonInput<KeyCode>>,
    scrubbed: Option<Res<Scrubbed>>,
    mut requests: MessageWriter<ScrubRequest>,
) {
    let input = &pressed.input;
    let (true, Some(scrubbed)) = (sliders.contains(pressed.focused_entity), scrubbed) else {
        return;
    };
    if pressed.focused_entity != pressed.original_event_target()
        || input.state != ButtonState::Pressed
    {
        return;
    }
    let fine = keys.any_pressed([KeyCode::ShiftLeft, KeyCode::ShiftRight]);
    let seconds = if fine { 1 } else { 10 };
    let moment = match &input.logical_key {
        Key::ArrowRight => ScrubRequest::by_seconds(seconds),
        Key::ArrowLeft => ScrubRequest::by_seconds(-seconds),
        Key::ArrowUp => ScrubRequest::by_seconds(60),
        Key::ArrowDown => ScrubRequest::by_seconds(-60),
        Key::PageUp => ScrubRequest::by_seconds(600),
        Key::PageDown => ScrubRequest::by_seconds(-600),
        Key::Home => ScrubRequest::At(Tick(0)),
        Key::End => ScrubRequest::At(scrubbed.scrub().track().end()),
        Key::Character(typed) => match typed.as_str() {
            "n" | "N" => ScrubRequest::Next,
            "p" | "P" => ScrubRequest::Previous,
            "t" | "T" => ScrubRequest::Truth,
            _ => return,
        },
        _ => return,
    };
    requests.write(moment);
}

/// The tick under the pointer.
fn pointed(
    at: Vec2,
    (node, place): (&ComputedNode, &UiGlobalTransform),
    settings: &Settings,
    scrubbed: &Scrubbed,
) -> Tick {
    let left = (place.translation.x - 0.5 * node.size().x) * node.inverse_scale_factor();
    scrubbed.scrub().scale().tick_at(laid(node, settings).share(at.x - left))
}

fn on_press(
    press: On<Pointer<Press>>,
    sliders: Query<(&ComputedNode, &UiGlobalTransform), With<Slider>>,
    (settings, scrubbed): (Res<Settings>, Option<Res<Scrubbed>>),
    mut focus: ResMut<InputFocus>,
    mut requests: MessageWriter<ScrubRequest>,
) {
    if let (Ok(strip), Some(scrubbed)) = (sliders.get(press.entity), scrubbed) {
        focus.set(press.entity, FocusCause::Pressed);
        let tick = pointed(press.pointer_location.position, strip, &settings, &scrubbed);
        requests.write(ScrubRequest::At(tick));
    }
}

fn on_drag(
    mut drag: On<Pointer<Drag>>,
    sliders: Query<(&ComputedNode, &UiGlobalTransform), With<Slider>>,
    (settings, scrubbed): (Res<Settings>, Option<Res<Scrubbed>>),
    mut requests: MessageWriter<ScrubRequest>,
) {
    if let (Ok(strip), Some(scrubbed)) = (sliders.get(drag.entity), scrubbed) {
        drag.propagate(false);
        let tick = pointed(drag.pointer_location.position, strip, &settings, &scrubbed);
        requests.write(ScrubRequest::At(tick));
    }
}

/// What a screen reader asks of a slider.
fn answer(
    mut asked: MessageReader<ActionRequest>,
    sliders: Query<(), With<Slider>>,
    mut requests: MessageWriter<ScrubRequest>,
) {
    for request in asked.read() {
        let entity = Entity::try_from_bits(request.target_node.0);
        if !entity.is_some_and(|entity| sliders.contains(entity)) {
            continue;
        }
        let moment = match (request.action, &request.data) {
            (Asked::Increment, _) => ScrubRequest::by_seconds(10),
            (Asked::Decrement, _) => ScrubRequest::by_seconds(-10),
            (Asked::SetValue, Some(ActionData::NumericValue(seconds))) => {
                ScrubRequest::At(Tick::from_seconds(seconds.max(0.0) as u64))
            }
            _ => continue,
        };
        requests.write(moment);
    }
}
