//! A number is slid to: a strip among the keys to point at, from the least to the largest value that a
//! field can have. A press goes to where the pointer is; above or below the strip a drag moves a tenth as
//! far. What the strip covers is the same on every bench and tells nothing of what stands on this one.

use accesskit::{Action as Asked, Orientation, Role};
use bevy::a11y::{AccessibilityNode, ActionRequest};
use bevy::input_focus::InputFocus;
use bevy::picking::events::{Drag, Pointer, Press};
use bevy::prelude::*;
use bevy::text::EditableText;
use bevy::ui::UiGlobalTransform;
use sim_core::field_book::Field;

use super::entry::EntryField;
use crate::ui::access::spoken;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, Tone};
use crate::ui::typing::retype;

/// The strip, as readers are told.
pub const STRIP: &str = "slide to a number";
/// Farther than this from the middle of the strip a drag is fine, logical pixels.
const NEAR_PX: f32 = 24.0;
/// By how much a fine drag is finer.
const FINER: f64 = 10.0;
/// Width of the mark, logical pixels.
const MARK_PX: f32 = 3.0;

/// What a field's number lies between, and how finely it is written.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Span {
    least: f64,
    most: f64,
    step: f64,
    decimals: usize,
}

impl Span {
    const fn new(least: f64, most: f64, step: f64, decimals: usize) -> Self {
        Self { least, most, step, decimals }
    }

    /// What the field of a number spans; words have no span.
    const fn of(field: Field) -> Option<Self> {
        Some(match field {
            // A scale of a water manometer: to half of a tenth.
            Field::Up(_) | Field::Down(_) | Field::CheckUp(_) | Field::CheckDown(_) => {
                Self::new(0.0, 9.0, 0.05, 2)
            }
            Field::DeltaH(_) => Self::new(0.0, 18.0, 0.05, 2),
            // A chart is printed from 0 to 100 and read to half a division.
            Field::Chart(_)
            | Field::CheckChart(_)
            | Field::PartChart(_)
            | Field::StartChart
            | Field::EndChart
            | Field::SecondFilterChart
            | Field::ThirdFilterChart
            | Field::MeanChart => Self::new(0.0, 100.0, 0.5, 1),
            Field::SetPoint => Self::new(0.0, 100.0, 0.1, 1),
            Field::Temperature | Field::CheckTemperature | Field::RunTemperature => {
                Self::new(-30.0, 50.0, 0.5, 1)
            }
            Field::Pressure | Field::CheckPressure | Field::RunPressure => {
                Self::new(520.0, 800.0, 0.5, 1)
            }
            Field::TargetFlow | Field::PointFlow(_) | Field::CheckFlow | Field::CheckLineFlow => {
                Self::new(0.8, 2.0, 0.001, 3)
            }
            _ => return None,
        })
    }

    fn share(self, value: f64) -> f64 {
        ((value - self.least) / (self.most - self.least)).clamp(0.0, 1.0)
    }

    fn at(self, share: f64) -> f64 {
        self.least + share.clamp(0.0, 1.0) * (self.most - self.least)
    }

    /// A value as it is written.
    fn written(self, value: f64) -> String {
        let stepped = (value.clamp(self.least, self.most) / self.step).round() * self.step;
        let text = format!("{stepped:.*}", self.decimals);
        if text.trim_start_matches('-').chars().all(|sign| "0.".contains(sign)) {
            text.trim_start_matches('-').to_owned()
        } else {
            text
        }
    }
}

#[derive(Component)]
struct Strip;
#[derive(Component)]
struct Mark;
#[derive(Component)]
struct Ends(usize);

/// The value under the hand, finer than it is written.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Default)]
struct Held(Option<f64>);

pub struct PadSlidePlugin;

impl Plugin for PadSlidePlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Held>().add_observer(on_press).add_observer(on_drag).add_systems(
            Update,
            (answer, show).chain().in_set(Frame::Show).run_if(in_state(Screen::Bench)),
        );
    }
}

/// Puts the strip, hidden, onto the pad.
pub fn spawn(pad: &mut ChildSpawnerCommands) {
    let mut slider = spoken(Role::Slider, STRIP, "");
    slider.set_orientation(Orientation::Horizontal);
    slider.add_action(Asked::Increment);
    slider.add_action(Asked::Decrement);
    let node = Node {
        display: Display::None,
        width: percent(100),
        min_height: px(30),
        padding: UiRect::axes(px(6), px(4)),
        border: UiRect::all(px(1.5)),
        border_radius: BorderRadius::all(px(4)),
        justify_content: JustifyContent::SpaceBetween,
        align_items: AlignItems::Center,
        flex_shrink: 0.0,
        ..default()
    };
    pad.spawn((Strip, slider, node, Surface(Tone::Page), Border(Tone::Ink))).with_children(
        |strip| {
            strip.spawn((
                Mark,
                Node {
                    position_type: PositionType::Absolute,
                    width: px(MARK_PX),
                    height: percent(100),
                    ..default()
                },
                Surface(Tone::Copper),
                Pickable::IGNORE,
            ));
            for end in 0..3 {
                strip.spawn((Ends(end), theme::text("", theme::SMALL, Tone::InkSoft)));
            }
        },
    );
}

/// The field that has the focus, what it spans and what stands in it.
type Fields<'w, 's> = Query<'w, 's, (&'static EntryField, &'static mut EditableText)>;

fn typed(text: &EditableText) -> Option<f64> {
    text.value().to_string().trim().parse().ok()
}

fn write(text: &mut EditableText, span: Span, value: f64) {
    retype(text, &span.written(value));
}

fn on_press(
    press: On<Pointer<Press>>,
    strips: Query<(&ComputedNode, &UiGlobalTransform), With<Strip>>,
    focus: Res<InputFocus>,
    mut fields: Fields,
    mut held: ResMut<Held>,
) {
    let Ok((node, place)) = strips.get(press.entity) else { return };
    let Some((entry, mut text)) = focus.get().and_then(|field| fields.get_mut(field).ok()) else {
        return;
    };
    let Some(span) = Span::of(entry.0) else { return };
    let value = span.at(share(press.pointer_location.position, node, place));
    held.0 = Some(value);
    write(&mut text, span, value);
}

fn on_drag(
    mut drag: On<Pointer<Drag>>,
    strips: Query<(&ComputedNode, &UiGlobalTransform), With<Strip>>,
    focus: Res<InputFocus>,
    mut fields: Fields,
    mut held: ResMut<Held>,
) {
    let Ok((node, place)) = strips.get(drag.entity) else { return };
    drag.propagate(false);
    let Some((entry, mut text)) = focus.get().and_then(|field| fields.get_mut(field).ok()) else {
        return;
    };
    let (Some(span), Some(from)) = (Span::of(entry.0), held.0) else { return };
    let at = drag.pointer_location.position;
    let middle = place.translation.y * node.inverse_scale_factor();
    let value = if (at.y - middle).abs() < NEAR_PX {
        span.at(share(at, node, place))
    } else {
        let width = node.size().x * node.inverse_scale_factor();
        let gone = f64::from(drag.delta.x / width.max(1.0)) * (span.most - span.least);
        (from + gone / FINER).clamp(span.least, span.most)
    };
    held.0 = Some(value);
    write(&mut text, span, value);
}

/// How far along the strip a place is.
fn share(at: Vec2, node: &ComputedNode, place: &UiGlobalTransform) -> f64 {
    let width = node.size().x * node.inverse_scale_factor();
    let left = place.translation.x * node.inverse_scale_factor() - 0.5 * width;
    f64::from((at.x - left) / width.max(1.0))
}

/// A reader's step is one of those in which the number is written.
fn answer(
    mut asked: MessageReader<ActionRequest>,
    strips: Query<(), With<Strip>>,
    focus: Res<InputFocus>,
    mut fields: Fields,
) {
    for request in asked.read() {
        let strip = Entity::try_from_bits(request.target_node.0);
        let sign = match request.action {
            Asked::Increment => 1.0,
            Asked::Decrement => -1.0,
            _ => continue,
        };
        if !strip.is_some_and(|entity| strips.contains(entity)) {
            continue;
        }
        if let Some((entry, mut text)) = focus.get().and_then(|field| fields.get_mut(field).ok())
            && let Some(span) = Span::of(entry.0)
        {
            let value = typed(&text).unwrap_or(span.least) + sign * span.step;
            write(&mut text, span, value);
        }
    }
}

/// Shows the strip for a field with a number, with its ends and where the number is.
fn show(
    focus: Res<InputFocus>,
    fields: Query<(&EntryField, &EditableText), Without<Strip>>,
    mut strips: Query<(&mut Node, &mut AccessibilityNode), (With<Strip>, Without<Mark>)>,
    mut marks: Query<&mut Node, (With<Mark>, Without<Strip>)>,
    mut ends: Query<(&Ends, &mut Text)>,
) {
    let (Ok((mut node, mut access)), Ok(mut mark)) = (strips.single_mut(), marks.single_mut())
    else {
        return;
    };
    let field = focus.get().and_then(|field| fields.get(field).ok());
    let span = field.and_then(|(entry, _)| Span::of(entry.0));
    let display = if span.is_some() { Display::Flex } else { Display::None };
    if node.display != display {
        node.display = display;
    }
    let (Some(span), Some((_, text))) = (span, field) else { return };
    let number = typed(text);
    let left = percent(100.0 * span.share(number.unwrap_or(span.least)) as f32);
    if mark.left != left {
        mark.left = left;
    }
    let value = number.map_or_else(|| "blank".to_owned(), |number| span.written(number));
    if access.value() != Some(value.as_str()) {
        access.set_value(value);
    }
    let middle = "slide here; farther off, a tenth as fast".to_owned();
    let words = [span.written(span.least), middle, span.written(span.most)];
    for (Ends(end), mut text) in &mut ends {
        if let Some(words) = words.get(*end)
            && text.0 != *words
        {
            text.0.clone_from(words);
        }
    }
}

#[cfg(test)]
mod tests {
    use sim_core::field_book::{Field, PointNumber};

    use super::Span;

    #[test]
    fn a_number_is_written_to_its_step() {
        let n = PointNumber::all().next().expect("a first point");
        let leg = Span::of(Field::Up(n)).expect("a number");
        assert_eq!(leg.written(2.968), "2.95");
        assert_eq!(leg.written(99.0), "9.00");
        let air = Span::of(Field::Temperature).expect("a number");
        assert_eq!(air.written(-0.1), "0.0");
        assert_eq!(air.written(-12.3), "-12.5");
        assert_eq!(Span::of(Field::Remarks), None);
    }

    #[test]
    fn what_stands_at_a_share_has_that_share() {
        let span = Span::of(Field::Pressure).expect("a number");
        for share in [0.0, 0.25, 1.0] {
            assert!((span.share(span.at(share)) - share).abs() < 1e-12);
        }
        assert!((span.at(2.0) - span.most).abs() < 1e-12);
    }
}
