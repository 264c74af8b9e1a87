//! The loupe: what the eyes are on, magnified, from the height at which the eye is held. It has its place
//! over the sky; opened, it lies over the scene, as large as there is room. Either way it can be held
//! nearer.

mod hold;

use accesskit::Role;
use bevy::input::keyboard::Key;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::picking::events::{Drag, Pointer};
use bevy::prelude::*;
use hands::{Spot, is_away};
use paint::loupe::{Gaze, KeptChart, Lens, paint_through};
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;

use self::hold::{Caption, LoupeRequest, RimButton};
pub(super) use self::hold::{Glass, Hold};
use crate::desk::{Desk, Seen};
use crate::scene::kept_chart::ChartTurn;
use crate::scene::pictures;
use crate::scene::places::LOUPE;
use crate::scene::spot_reader::SpotControl;
use crate::scene::spots::{AtHand, lay};
use crate::ui::access::{Unspoken, spoken};
use crate::ui::controls::AddRequest as _;
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::settings::Settings;
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, Tone};

/// Farthest that the eye goes from the level of what is read, mm.
const EYE_LIMIT_MM: f64 = 150.0;
#[derive(Component)]
struct Picture;

/// What the glass shows, and where it is held.
#[derive(Default)]
struct Held {
    gaze: Option<Gaze>,
    shown: String,
    seconds: f64,
}
#[derive(Component)]
struct EyeText;

/// The hour of the run's chart that is under the glass; the whole chart until one is chosen.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Default)]
pub struct ChartHour(pub Option<f64>);

/// Raises or lowers the eye, mm.
#[derive(Message, Debug, Clone, Copy, PartialEq)]
pub struct EyeRequest(pub f64);

pub struct LoupePlugin;

impl Plugin for LoupePlugin {
    fn build(&self, app: &mut App) {
        let on_bench = || in_state(Screen::Bench).and_then(resource_exists::<Seen>);
        app.init_resource::<ChartHour>()
            .add_plugins(hold::HoldPlugin)
            .add_request::<EyeRequest>()
            .add_message::<ChartTurn>()
            .add_observer(on_key.run_if(on_bench()))
            .add_observer(on_drag)
            .add_systems(
                Update,
                ((move_eye, turn_chart).in_set(Frame::Obey), show.in_set(Frame::Show))
                    .run_if(on_bench()),
            );
    }
}

/// Holds the loupe over the scene.
pub fn spawn(panel: &mut ChildSpawnerCommands) {
    let mut node = Node {
        position_type: PositionType::Absolute,
        border_radius: BorderRadius::MAX,
        ..default()
    };
    lay(&mut node, LOUPE);
    panel.spawn((Glass, spoken(Role::Image, "loupe", ""), node, ZIndex(50))).with_children(
        |glass| {
            let whole = Node { width: percent(100), height: percent(100), ..default() };
            glass.spawn((Picture, pictures::unmeasured(), whole, Pickable::IGNORE));
            hold::buttons(glass);
        },
    );
    let mut caption = Node {
        position_type: PositionType::Absolute,
        justify_content: JustifyContent::Center,
        ..default()
    };
    hold::lay_caption(&mut caption, LOUPE);
    panel.spawn((Caption, caption, ZIndex(51), Pickable::IGNORE)).with_children(|row| {
        row.spawn((
            Node {
                padding: UiRect::axes(px(6), px(1)),
                border: UiRect::all(px(1)),
                border_radius: BorderRadius::all(px(3)),
                ..default()
            },
            Surface(Tone::Page),
            Border(Tone::Ink),
            Pickable::IGNORE,
        ))
        .with_children(|chip| {
            chip.spawn((EyeText, Unspoken, theme::italic("", theme::SMALL, Tone::Ink)));
        });
    });
}

/// Controls that are no things of the scene: there, the same keys turn over pages.
type Elsewhere = (With<TabIndex>, Without<SpotControl>, Without<RimButton>);

fn on_key(
    press: On<KeyPress>,
    elsewhere: Query<(), Elsewhere>,
    hold: Res<Hold>,
    mut requests: MessageWriter<EyeRequest>,
    mut holds: MessageWriter<LoupeRequest>,
) {
    if press.typing || elsewhere.contains(press.on) {
        return;
    }
    let by_mm = if press.shift { 1.0 } else { 10.0 };
    match press.key {
        Key::PageUp => {
            requests.write(EyeRequest(by_mm));
        }
        Key::PageDown => {
            requests.write(EyeRequest(-by_mm));
        }
        _ => {
            holds.write_batch(hold.asked_by(&press.key));
        }
    }
}

/// Raises or lowers the eye.
fn move_eye(mut requests: MessageReader<EyeRequest>, mut desk: ResMut<Desk>, seen: Res<Seen>) {
    let by: f64 = requests.read().map(|request| request.0).sum();
    if by.abs() > 0.0 {
        look(&mut desk, &seen, by);
    }
}

/// Brings another hour of the run's chart under the glass; before the first and after the last it is
/// the whole chart.
fn turn_chart(
    mut turns: MessageReader<ChartTurn>,
    mut hour: ResMut<ChartHour>,
    mut desk: ResMut<Desk>,
    (seen, at_hand): (Res<Seen>, Res<AtHand>),
) {
    if at_hand.0 != Spot::KeptChart {
        hour.set_if_neq(ChartHour(None));
        turns.clear();
        return;
    }
    for ChartTurn(by) in turns.read() {
        if seen.0.focus != Sight::Recorder {
            desk.ask(Action::Look { at: Sight::Recorder, eye_mm: 0.0 });
        }
        let next = match hour.0 {
            Some(hour) => hour + by,
            None if *by > 0.0 => 0.5,
            None => 23.5,
        };
        hour.0 = (0.0..=24.0).contains(&next).then_some(next);
    }
}

fn look(desk: &mut Desk, seen: &Seen, by_mm: f64) {
    let eye_mm = (seen.0.eye_mm + by_mm).clamp(-EYE_LIMIT_MM, EYE_LIMIT_MM);
    desk.ask(Action::Look { at: seen.0.focus, eye_mm });
}

fn on_drag(
    drag: On<Pointer<Drag>>,
    glass: Query<(), With<Glass>>,
    desk: Option<ResMut<Desk>>,
    seen: Option<Res<Seen>>,
) {
    if let (true, Some(mut desk), Some(seen)) = (glass.contains(drag.entity), desk, seen) {
        look(&mut desk, &seen, -f64::from(drag.delta.y) * 0.5);
    }
}

/// Shows what the eyes are on.
fn show(
    (seen, desk, settings): (Res<Seen>, Res<Desk>, Res<Settings>),
    (at_hand, hour, hold): (Res<AtHand>, Res<ChartHour>, Res<Hold>),
    glass: Query<&ComputedNode, With<Glass>>,
    mut pictures: Query<(Ref<Picture>, &mut ImageNode, &mut Node)>,
    mut captions: Query<&mut Text, With<EyeText>>,
    mut images: ResMut<Assets<Image>>,
    mut held: Local<Held>,
) {
    let (Ok(node), Ok((picture, mut image, mut place))) = (glass.single(), pictures.single_mut())
    else {
        return;
    };
    // Nobody's eyes are at the site while nobody is.
    let height = if is_away(&seen.0) { String::new() } else { eye_words(seen.0.eye_mm) };
    let height = format!("{height}{}", hold.words());
    if let Ok(mut caption) = captions.single_mut()
        && caption.0 != height
    {
        caption.0 = height;
    }
    // Whole pixels, the same both ways: a picture that were stretched by one would blur its marks.
    let size = node.size().min_element().round() as u32;
    if size < 16 {
        return;
    }
    let now = seen.0.tick.seconds();
    let gaze = held.gaze.map_or_else(
        || Gaze::on(&seen.0),
        |gaze| gaze.followed(&seen.0, (now - held.seconds).max(0.0)),
    );
    let chart =
        (at_hand.0 == Spot::KeptChart).then(|| hour.0.map_or(KeptChart::Whole, KeptChart::Hour));
    let gaze = gaze.holding(chart);
    held.seconds = now;
    let (percent, contrast) = (settings.text_percent, settings.contrast);
    let shows = format!("{size} {hold:?} {percent} {contrast:?} {gaze:?} {}", shows(&seen.0));
    held.gaze = Some(gaze);
    if shows == held.shown && !picture.is_added() {
        return;
    }
    held.shown = shows;
    let papers = desk.papers.as_words();
    let side = px(size as f32 * node.inverse_scale_factor());
    if (place.width, place.height) != (side, side) {
        (place.width, place.height) = (side, side);
    }
    let lens = Lens { size_px: size, text_scale: settings.text_scale(), zoom: hold.zoom() };
    let painted = paint_through(lens, gaze, &seen.0, &papers);
    pictures::put(&mut image, &mut images, pictures::image_in(&painted, contrast));
}

/// What the glass shows depends on.
fn shows(view: &View) -> String {
    let eyes = (view.focus, view.eye_mm);
    if is_away(view) {
        return format!("{eyes:?} away {}", (view.time.hours() * 60.0).floor());
    }
    match view.focus {
        Sight::Timer | Sight::Filter if view.run.is_some() => {
            let run = view.run.as_deref().map(|run| {
                let sheets = [run.fresh_filters, run.added_filters];
                (&run.timer, &run.filter, sheets)
            });
            let run = run.map(|(dial, filter, sheets)| {
                // A dial turns by a pixel of the glass in some minutes.
                let turned = (dial.hours * 60.0).round();
                (
                    turned,
                    dial.weekday,
                    dial.on,
                    dial.off,
                    (dial.meter_min * 10.0).floor(),
                    filter,
                    sheets,
                )
            });
            format!("{eyes:?} {:?} {run:?} {:?}", view.mounting.places, view.power.timer_switch)
        }
        Sight::WeatherSheet => {
            let lines = view.run.as_ref().map(|run| run.weather.len());
            format!("{eyes:?} {lines:?}")
        }
        Sight::LeftLeg | Sight::RightLeg | Sight::Manometer | Sight::Display => {
            format!("{eyes:?} {:?} {:?}", view.manometer, view.mounting.places)
        }
        Sight::Pen | Sight::Recorder => {
            let seen = &view.recorder;
            let flags = (seen.door_open, seen.capped, seen.on_paper, seen.marks.len());
            // A chart turns by a pixel of the glass in some ten seconds.
            let turned = (seen.chart_hour * 400.0).round();
            let kept = view.run.as_ref().is_some_and(|run| run.kept_chart.is_some());
            format!("{eyes:?} {flags:?} {:?} {turned} {kept}", seen.pen)
        }
        Sight::Barometer => format!("{eyes:?} {:?}", view.barometer),
        Sight::Thermometer => {
            // Far less than a pixel of the glass.
            let column = (view.thermometer.column_c * 200.0).round();
            format!("{eyes:?} {column} {:?}", view.thermometer.exposure)
        }
        Sight::Tube => format!("{eyes:?} {:?} {:?}", view.tube, view.mounting.places),
        Sight::WorkOrder | Sight::Certificate(_) => format!("{eyes:?}"),
        // Everything else is a part of the station: what hands have changed, and once a second while
        // the blower runs.
        _ => {
            let hands = (&view.mounting, view.power, &view.calibrator, view.tube.on_tap);
            let runs = (view.blower.loudness >= 0.02).then(|| view.tick.whole_seconds());
            format!("{eyes:?} {hands:?} {runs:?}")
        }
    }
}

/// The eye's height in words, as a person would feel it.
pub(super) fn eye_words(eye_mm: f64) -> String {
    if eye_mm.abs() < 0.5 {
        "eye at level".to_owned()
    } else if eye_mm > 0.0 {
        format!("eye {eye_mm:.0} mm above level")
    } else {
        format!("eye {:.0} mm below level", -eye_mm)
    }
}
