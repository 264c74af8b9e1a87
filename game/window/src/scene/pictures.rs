//! The drawn station under the controls: a picture for each group of things that change together,
//! painted anew only when what it shows has changed, at the screen's own scale.

use bevy::asset::RenderAssetUsages;
use bevy::prelude::*;
use bevy::render::render_resource::{Extent3d, TextureDimension, TextureFormat};
use bevy::ui::widget::NodeImageMode;
use bevy::window::RequestRedraw;
use paint::layers::Layer;
use paint::scene::{self, Area};
use paint::{contrast, moving, still};
use resvg::tiny_skia::{IntRect, Pixmap, PremultipliedColorU8, Transform};
use sim_core::session::view::View;

use crate::desk::Seen;
use crate::scene::panel::ScenePanel;
use crate::scene::places::{HEIGHT, WIDTH};
use crate::ui::order::Frame;
use crate::ui::settings::{Contrast, Motion, Settings};
use crate::ui::theme;

/// Steps in which the air's arrows go on, in a turn of their phase.
const AIR_STEPS: f64 = 4.0;

/// The picture of a group.
#[derive(Component)]
pub struct Picture {
    group: Layer,
    shown: String,
    /// What was painted of that which runs, for its next turn.
    turns: Vec<(String, Painted)>,
}

/// What was painted, and its corner in the scene's panel, px.
#[derive(Clone)]
struct Painted {
    image: Image,
    corner: Vec2,
}

pub struct PicturesPlugin;

impl Plugin for PicturesPlugin {
    fn build(&self, app: &mut App) {
        // Before the layout and before new pictures are handed to the screen: a picture, its place
        // and its size change in one frame, and no frame is drawn without it.
        app.add_systems(Startup, draw_sign)
            .add_systems(Update, paint::<Seen>.in_set(Frame::Show).run_if(resource_exists::<Seen>));
    }
}

/// Where the view comes from that the station is drawn from.
pub trait Source: Resource {
    /// What can be seen, or could be at the moment that is shown.
    fn view(&self) -> &View;
}

impl Source for Seen {
    fn view(&self) -> &View {
        &self.0
    }
}

/// Puts an empty picture for every group into the scene's panel, from back to front.
pub fn spawn(panel: &mut ChildSpawnerCommands) {
    for group in std::iter::once(Layer::Still).chain(Layer::MOVING) {
        panel.spawn((
            Picture { group, shown: String::new(), turns: Vec::new() },
            unmeasured(),
            Node { position_type: PositionType::Absolute, ..default() },
            Pickable::IGNORE,
        ));
    }
}

/// The node of a picture whose place and size are given: what is painted on it is not measured.
pub fn unmeasured() -> ImageNode {
    ImageNode { image_mode: NodeImageMode::Stretch, ..default() }
}

/// Puts a picture onto its node: over the last one, where that was as large, so that nothing has to
/// be laid out anew.
pub fn put(node: &mut Mut<ImageNode>, images: &mut Assets<Image>, image: Image) {
    let id = node.image.id();
    let fits = images.get(id).is_some_and(|last| last.size() == image.size());
    // Its id was given out for the handle that the node holds.
    if fits && node.image.is_strong() {
        let _ = images.insert(id, image);
    } else {
        node.image = images.add(image);
    }
}

/// A pixmap as the screen takes it.
pub fn image(pixmap: &Pixmap) -> Image {
    image_in(pixmap, Contrast::Normal)
}

/// The same in the contrast that is set.
pub fn image_in(pixmap: &Pixmap, contrast: Contrast) -> Image {
    let mut straight = pixmap.data().to_vec();
    for (pixel, bytes) in pixmap.pixels().iter().zip(straight.chunks_exact_mut(4)) {
        if !matches!(pixel.alpha(), 0 | 255) {
            let color = pixel.demultiply();
            bytes.copy_from_slice(&[color.red(), color.green(), color.blue(), color.alpha()]);
        }
    }
    if contrast == Contrast::High {
        contrast::raise(&mut straight);
    }
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

/// Paints what has changed.
pub fn paint<S: Source>(
    source: Res<S>,
    settings: Res<Settings>,
    panels: Query<&ComputedNode, With<ScenePanel>>,
    mut pictures: Query<(&mut Picture, &mut ImageNode, &mut Node)>,
    mut images: ResMut<Assets<Image>>,
    mut redraw: MessageWriter<RequestRedraw>,
    mut last_scale: Local<f32>,
) {
    let (Ok(panel), view) = (panels.single(), source.view()) else { return };
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
        let contrast = settings.contrast;
        let shows = format!("{scale} {contrast:?} {}", shows(picture.group, view, phase));
        if picture.shown == shows {
            continue;
        }
        let known = picture.turns.iter().find(|(of, _)| *of == shows);
        let painted = known.map(|(_, painted)| painted.clone());
        let painted =
            painted.unwrap_or_else(|| painted_anew(picture.group, view, (scale, contrast), phase));
        keep_turn(&mut picture, &shows, &painted);
        picture.shown = shows;
        let to_logical = panel.inverse_scale_factor();
        let (corner, size) = (painted.corner * to_logical, painted.image.size_f32() * to_logical);
        let mut wanted = place.clone();
        (wanted.left, wanted.top) = (px(corner.x), px(corner.y));
        (wanted.width, wanted.height) = (px(size.x), px(size.y));
        place.set_if_neq(wanted);
        put(&mut node, &mut images, painted.image);
    }
}

/// Keeps the last pictures of what runs: it comes round to them again and again.
fn keep_turn(picture: &mut Picture, shows: &str, painted: &Painted) {
    let runs = matches!(picture.group, Layer::Rotor | Layer::Air);
    if runs && picture.turns.iter().all(|(of, _)| of != shows) {
        picture.turns.truncate(AIR_STEPS as usize - 1);
        picture.turns.insert(0, (shows.to_owned(), painted.clone()));
    }
}

/// A picture without its empty margins, and how much was cut off at the left and at the top: what is
/// not there need not be drawn over the rest in every frame.
fn cropped(pixmap: Pixmap) -> (Pixmap, u32, u32) {
    let (mut left, mut right) = (pixmap.width() as usize, 0);
    let (mut top, mut bottom) = (pixmap.height() as usize, 0);
    for (y, row) in pixmap.pixels().chunks_exact(left.max(1)).enumerate() {
        let inked = |pixel: &PremultipliedColorU8| pixel.alpha() > 0;
        if let (Some(first), Some(last)) = (row.iter().position(inked), row.iter().rposition(inked))
        {
            (left, right) = (left.min(first), right.max(last + 1));
            (top, bottom) = (top.min(y), y + 1);
        }
    }
    let kept = right
        .checked_sub(left)
        .zip(bottom.checked_sub(top))
        .and_then(|(w, h)| IntRect::from_xywh(left as i32, top as i32, w as u32, h as u32))
        .and_then(|rect| pixmap.clone_rect(rect));
    match kept {
        Some(kept) => (kept, left as u32, top as u32),
        // Nothing is in it: one clear pixel stands for it.
        None => (Pixmap::new(1, 1).unwrap_or(pixmap), 0, 0),
    }
}

/// A group's picture, and where it lies in the panel.
fn painted_anew(
    group: Layer,
    view: &View,
    (scale, contrast): (f32, Contrast),
    phase: f32,
) -> Painted {
    let image = |picture: &Pixmap| image_in(picture, contrast);
    if group == Layer::Still {
        let area = Area { x: 0.0, y: 0.0, w: WIDTH, h: HEIGHT };
        let picture = still::region(view, area, scale, |drawn| drawn == Layer::Still, 0.0);
        return Painted { image: image(&picture), corner: Vec2::ZERO };
    }
    let moving = moving::paint(group, view, scale, phase);
    let mut corner = Vec2::new((moving.x * scale).round(), (moving.y * scale).round());
    // Water changes its height all the time: its picture keeps its size, and so its place.
    if group == Layer::Water {
        return Painted { image: image(&moving.picture), corner };
    }
    let (picture, left, top) = cropped(moving.picture);
    corner += Vec2::new(left as f32, top as f32);
    Painted { image: image(&picture), corner }
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
fn shows(group: Layer, view: &View, phase: f32) -> String {
    let places = &view.mounting.places;
    let hundredths = |value: f64| (value * 100.0).round();
    let legs = [&view.manometer.left, &view.manometer.right];
    let (tilt, slid) = (hundredths(view.manometer.tilt_deg), hundredths(view.manometer.scale_in));
    match group {
        Layer::Still => still::key(view),
        Layer::Rotor => format!("{phase} {}", view.blower.loudness >= 0.02),
        Layer::Air => {
            let air = (view.blower.rush * 10.0).round();
            format!("{phase} {air} {places:?} {:?}", view.calibrator)
        }
        Layer::Calibrator => {
            format!("{places:?} {:?} {:?}", view.calibrator, view.mounting.lid_open)
        }
        Layer::Recorder => {
            let seen = &view.recorder;
            let pen = seen.pen.map(|pen| (pen * 10.0).round());
            let flags =
                (seen.door_open, seen.capped, seen.on_paper, seen.arm_bent, seen.marks.len());
            format!("{flags:?} {pen:?} {}", hundredths(seen.chart_hour))
        }
        Layer::Timer => {
            let dial = view.run.as_ref().map(|run| &run.timer);
            let dial = dial.map(|dial| ((dial.hours * 60.0).floor(), dial.on, dial.off));
            format!("{} {dial:?}", (view.time.hours() * 60.0).floor())
        }
        Layer::Barometer => format!("{:?} {}", view.barometer.set_to, {
            (view.barometer.pointer_mmhg * 10.0).round()
        }),
        Layer::Thermometer => {
            let column = (view.thermometer.column_c * 20.0).round();
            format!("{:?} {column}", view.thermometer.exposure)
        }
        Layer::Manometer => format!("{places:?} {tilt}"),
        Layer::Water => {
            let levels = legs.map(|leg| hundredths(leg.meniscus_in));
            let water = (view.manometer.bubble, view.manometer.ice, view.manometer.dirty);
            format!("{places:?} {tilt} {slid} {levels:?} {water:?}")
        }
        Layer::ManometerFront => {
            let valves = legs.map(|leg| leg.valve_quarters);
            format!("{places:?} {tilt} {slid} {valves:?}")
        }
        Layer::Cords => format!("{:?}", view.power),
        Layer::Tube => format!("{places:?} {tilt} {:?}", view.tube),
    }
}
