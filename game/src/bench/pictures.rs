//! The drawn station under the controls: a picture for each group of things that change together,
//! painted anew only when what it shows has changed, at the screen's own scale.

use bevy::asset::RenderAssetUsages;
use bevy::prelude::*;
use bevy::render::render_resource::{Extent3d, TextureDimension, TextureFormat};
use bevy::window::RequestRedraw;
use resvg::tiny_skia::{IntRect, Pixmap, Transform};
use sim_core::session::view::View;

use super::debrief::Scrubbed;
use super::desk::Seen;
use super::places::{HEIGHT, WIDTH};
use super::scene::ScenePanel;
use super::settings::{Motion, Settings};
use super::theme;
use crate::paint::scene::{self, Area};
use crate::paint::stage::Group;
use crate::paint::{moving, still};

/// Steps in which the air's arrows go on, in a turn of their phase.
const AIR_STEPS: f64 = 4.0;

/// The picture of a group.
#[derive(Component)]
struct Picture {
    group: Group,
    shown: String,
}

pub struct PicturesPlugin;

impl Plugin for PicturesPlugin {
    fn build(&self, app: &mut App) {
        // Before the layout and before new pictures are handed to the screen: a picture, its place
        // and its size change in one frame, and no frame is drawn without it.
        app.add_systems(Startup, draw_sign).add_systems(
            Update,
            paint.run_if(resource_exists::<Seen>.or_else(resource_exists::<Scrubbed>)),
        );
    }
}

/// Puts an empty picture for every group into the scene's panel, from back to front.
pub fn spawn(panel: &mut ChildSpawnerCommands) {
    for group in std::iter::once(Group::Still).chain(Group::MOVING) {
        panel.spawn((
            Picture { group, shown: String::new() },
            ImageNode::default(),
            Node { position_type: PositionType::Absolute, ..default() },
            Pickable::IGNORE,
        ));
    }
}

/// A pixmap as the screen takes it.
pub fn image(pixmap: &Pixmap) -> Image {
    let straight: Vec<u8> = pixmap
        .pixels()
        .iter()
        .flat_map(|pixel| {
            let color = pixel.demultiply();
            [color.red(), color.green(), color.blue(), color.alpha()]
        })
        .collect();
    Image::new(
        Extent3d { width: pixmap.width(), height: pixmap.height(), depth_or_array_layers: 1 },
        TextureDimension::D2,
        straight,
        TextureFormat::Rgba8UnormSrgb,
        RenderAssetUsages::RENDER_WORLD,
    )
}

/// Draws the triangle that stands beside cautions, large enough for text at 200 %.
fn draw_sign(mut images: ResMut<Assets<Image>>) {
    let Some((sign, _)) = drawing("caution", 88.0) else { return };
    // Its id is a uuid, which can always be inserted.
    let _ = images.insert(theme::SIGN.id(), sign);
}

/// One drawing by itself, so many pixels high, and its width.
pub fn drawing(name: &str, height_px: f32) -> Option<(Image, Vec2)> {
    let piece = scene::piece(name)?;
    let tree = scene::drawing(piece)?;
    let scale = height_px / piece.h;
    let size = Vec2::new((piece.w * scale).ceil(), height_px.ceil());
    let mut pixmap = Pixmap::new(size.x as u32, size.y as u32)?;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixmap.as_mut());
    Some((image(&pixmap), size))
}

/// Paints what has changed: on the bench what is seen, in the debrief what was.
fn paint(
    seen: Option<Res<Seen>>,
    scrubbed: Option<Res<Scrubbed>>,
    settings: Res<Settings>,
    panels: Query<&ComputedNode, With<ScenePanel>>,
    mut pictures: Query<(&mut Picture, &mut ImageNode, &mut Node)>,
    mut images: ResMut<Assets<Image>>,
    mut redraw: MessageWriter<RequestRedraw>,
    mut last_scale: Local<f32>,
) {
    let view = seen.as_ref().map(|seen| &seen.0).or(scrubbed.as_ref().map(|was| was.view()));
    let (Ok(panel), Some(view)) = (panels.single(), view) else { return };
    let scale = panel.size().x / WIDTH;
    // A window that is being resized is painted once it has come to rest.
    let steady = (scale - *last_scale).abs() < 1e-4;
    *last_scale = scale;
    if !steady {
        redraw.write(RequestRedraw);
    }
    if !steady || scale < 0.05 {
        return;
    }
    let phase = phase(view, settings.motion);
    for (mut picture, mut node, mut place) in &mut pictures {
        let shows = format!("{scale} {}", shows(picture.group, view, phase));
        if picture.shown == shows {
            continue;
        }
        picture.shown = shows;
        let (pixmap, x, y) = painted(picture.group, view, scale, phase);
        let (pixmap, left, top) = cropped(pixmap);
        let to_logical = panel.inverse_scale_factor();
        let size = Vec2::new(pixmap.width() as f32, pixmap.height() as f32) * to_logical;
        let corner = Vec2::new((x * scale).round() + left as f32, (y * scale).round() + top as f32)
            * to_logical;
        place.left = px(corner.x);
        place.top = px(corner.y);
        place.width = px(size.x);
        place.height = px(size.y);
        node.image = images.add(image(&pixmap));
    }
}

/// A picture without its empty margins, and how much was cut off at the left and at the top: what is
/// not there need not be drawn over the rest in every frame.
fn cropped(pixmap: Pixmap) -> (Pixmap, u32, u32) {
    let (width, height) = (pixmap.width(), pixmap.height());
    let (mut left, mut top, mut right, mut bottom) = (width, height, 0, 0);
    for (pixel, at) in pixmap.pixels().iter().zip(0_u32..) {
        if pixel.alpha() > 0 {
            let (x, y) = (at % width, at / width);
            (left, right) = (left.min(x), right.max(x + 1));
            (top, bottom) = (top.min(y), bottom.max(y + 1));
        }
    }
    let kept = right
        .checked_sub(left)
        .zip(bottom.checked_sub(top))
        .and_then(|(w, h)| IntRect::from_xywh(left as i32, top as i32, w, h))
        .and_then(|rect| pixmap.clone_rect(rect));
    match kept {
        Some(kept) => (kept, left, top),
        // Nothing is in it: one clear pixel stands for it.
        None => (Pixmap::new(1, 1).unwrap_or(pixmap), 0, 0),
    }
}

/// A group's picture and its corner in the scene.
fn painted(group: Group, view: &View, scale: f32, phase: f32) -> (Pixmap, f32, f32) {
    if group == Group::Still {
        let area = Area { x: 0.0, y: 0.0, w: WIDTH, h: HEIGHT };
        let picture = still::region(view, area, scale, |drawn| drawn == Group::Still, 0.0);
        return (picture, 0.0, 0.0);
    }
    let moving = moving::paint(group, view, scale, phase);
    (moving.picture, moving.x, moving.y)
}

/// The phase of what runs: it stands still with reduced motion, and while nothing runs.
fn phase(view: &View, motion: Motion) -> f32 {
    if motion == Motion::Reduced || view.blower.loudness < 0.02 {
        return 0.0;
    }
    // Twice a second round, so that the air is seen to go and the machine has time for the water.
    let turn = (view.tick.seconds() * 2.0).fract();
    ((turn * AIR_STEPS).floor() / AIR_STEPS) as f32
}

/// What a group's picture depends on, as coarse as a picture shows it.
fn shows(group: Group, view: &View, phase: f32) -> String {
    let places = &view.mounting.places;
    let hundredths = |value: f64| (value * 100.0).round();
    let legs = [&view.manometer.left, &view.manometer.right]
        .map(|leg| (leg.valve_quarters, hundredths(leg.meniscus_in)));
    let manometer = (hundredths(view.manometer.tilt_deg), hundredths(view.manometer.scale_in));
    match group {
        Group::Still => still::key(view),
        Group::Rotor => format!("{phase} {}", view.blower.loudness >= 0.02),
        Group::Air => {
            let air = (view.blower.loudness * 10.0).round();
            format!("{phase} {air} {places:?} {:?}", view.calibrator)
        }
        Group::Calibrator => {
            format!("{places:?} {:?} {:?}", view.calibrator, view.mounting.lid_open)
        }
        Group::Recorder => {
            let seen = &view.recorder;
            let pen = seen.pen.map(|pen| (pen * 10.0).round());
            let flags = (seen.door_open, seen.capped, seen.on_paper, seen.marks.len());
            format!("{flags:?} {pen:?} {}", hundredths(seen.chart_hour))
        }
        Group::Timer => {
            let dial = view.run.as_ref().map(|run| &run.timer);
            let dial = dial.map(|dial| ((dial.hours * 60.0).floor(), dial.on, dial.off));
            format!("{} {dial:?}", (view.time.hours() * 60.0).floor())
        }
        Group::Barometer => format!("{:?} {}", view.barometer.set_to, {
            (view.barometer.pointer_mmhg * 10.0).round()
        }),
        Group::Thermometer => {
            let column = (view.thermometer.column_c * 20.0).round();
            format!("{:?} {column}", view.thermometer.exposure)
        }
        Group::Manometer => format!("{places:?} {manometer:?} {legs:?} {}", view.manometer.bubble),
        Group::Cords => format!("{:?}", view.power),
        Group::Tube => format!("{places:?} {:?} {manometer:?}", view.tube),
    }
}
