//! The station as shapes: where each drawing has its ink, from the back to the front. A hand takes hold
//! of a thing by the shape that is drawn, so both come from the same drawings and cannot part.

mod mask;
mod parts;

use std::collections::BTreeMap;
use std::sync::Arc;

use resvg::tiny_skia::{Path, Transform};
use sim_core::session::view::View;

pub use mask::Mask;

use super::canvas::Canvas;
use super::layers::{self, Content, PlacedDrawing};
use super::live_parts;
use super::scene::{Area, drawing, piece};
use parts::PARTS;

/// A drawing or a part of one, as the shape that it has in the scene.
#[derive(Debug, Clone)]
pub struct Shape {
    /// The name of the drawing, of what the program draws, or of the part.
    pub name: &'static str,
    /// Which of several that are alike, from 0.
    pub which: usize,
    /// Where it is, a cell for each scene unit.
    pub mask: Arc<Mask>,
}

/// What a shape was made from: where its corners lay, and what the program drew from.
type Made = ([f32; 8], String);

/// A shape is made anew once a corner has moved so far, scene units: less is not felt, and what
/// trembles keeps its shape.
const FELT: f32 = 1.5;

/// Whether a shape that was made from one is as good as one made from the other.
fn as_good(from: &Made, now: &Made) -> bool {
    let near = |(a, b): (&f32, &f32)| (a - b).abs() <= FELT;
    from.1 == now.1 && from.0.iter().zip(&now.0).all(near)
}

/// Shapes that were made before, to be taken again while nothing about them has changed.
#[derive(Debug, Default)]
pub struct KnownShapes(BTreeMap<(&'static str, usize), (Made, Arc<Mask>)>);

impl KnownShapes {
    /// Everything that is drawn inside an area, from the back to the front.
    pub fn of(&mut self, view: &View, within: Area) -> Vec<Shape> {
        let live = made_from(view);
        let mut shapes = Vec::with_capacity(128);
        for one in &layers::placed_drawings(view) {
            let made = match one.content {
                Content::Drawing(name) => (corners(one.by, name), String::new()),
                Content::Live(_) => (corners(one.by, ""), live.clone()),
            };
            let mask = self.known((one.name, one.which), made, || inked(view, one, within));
            shapes.push(Shape { name: one.name, which: one.which, mask });
            for part in PARTS.iter().filter(|part| part.of == one.name) {
                let made = (corners(one.by, part.of), String::new());
                let whole = || shapes.last().map(|shape| Arc::clone(&shape.mask));
                let mask = self.known((part.name, one.which), made, || {
                    let path = (part.outline)();
                    let part_of = if part.inked { whole() } else { None };
                    path.and_then(|path| filled(&path, one.by, within))
                        .map(|mask| part_of.map_or(mask.clone(), |whole| mask.common(&whole)))
                });
                shapes.push(Shape { name: part.name, which: one.which, mask });
            }
        }
        shapes
    }

    /// The shape of one drawing by itself, so many scene units high, its lower left corner at a point.
    pub fn alone(
        &mut self,
        name: &'static str,
        height: f32,
        at: (f32, f32),
        within: Area,
    ) -> Shape {
        let mut by = Transform::identity();
        if let Some(piece) = piece(name) {
            let scale = height / piece.h;
            by = Transform::from_translate(at.0, at.1 - height)
                .pre_scale(scale, scale)
                .pre_translate(-piece.x, -piece.y);
        }
        let made = (corners(by, name), "alone".to_owned());
        let mask = self.known((name, usize::MAX), made, || drawn(name, by, within));
        Shape { name, which: 0, mask }
    }

    /// A rectangle with a name: left, top, width and height.
    pub fn boxed(&mut self, name: &'static str, (x, y, w, h): (i32, i32, i32, i32)) -> Arc<Mask> {
        let made = ([x as f32, y as f32, w as f32, h as f32, 0.0, 0.0, 0.0, 0.0], String::new());
        self.known((name, 0), made, || Some(Mask::full(x, y, w, h)))
    }

    /// A shape as it was, or made anew.
    fn known(
        &mut self,
        which: (&'static str, usize),
        made: Made,
        make: impl FnOnce() -> Option<Mask>,
    ) -> Arc<Mask> {
        if let Some((from, mask)) = self.0.get(&which)
            && as_good(from, &made)
        {
            return Arc::clone(mask);
        }
        let mask = Arc::new(make().unwrap_or_default());
        self.0.insert(which, (made, Arc::clone(&mask)));
        mask
    }
}

/// Where the corners of a drawing lie.
fn corners(by: Transform, name: &str) -> [f32; 8] {
    let area = piece(name).map_or(Area { x: 0.0, y: 0.0, w: 900.0, h: 900.0 }, |one| one.area());
    let (right, foot) = (area.x + area.w, area.y + area.h);
    let mut places = [0.0; 8];
    let corners = [(area.x, area.y), (right, area.y), (right, foot), (area.x, foot)];
    for (pair, corner) in places.chunks_exact_mut(2).zip(corners) {
        let (x, y) = live_parts::moved(by, corner);
        pair.copy_from_slice(&[x, y]);
    }
    places
}

/// What the program draws from, apart from what flows and shows a value.
fn made_from(view: &View) -> String {
    let seen = &view.recorder;
    let line = (seen.line_off, seen.line_kinked, seen.line_drops);
    let stopped = (view.mounting.inlet, view.mounting.exhaust, view.mounting.lid_open);
    let tilt = (view.manometer.tilt_deg * 10.0).round();
    format!(
        "{:?} {tilt} {:?} {:?} {line:?} {stopped:?} {:?}",
        view.mounting.places, view.tube, view.power, view.calibrator.plates
    )
}

/// The ink of one of the drawings.
fn inked(view: &View, one: &PlacedDrawing, within: Area) -> Option<Mask> {
    match one.content {
        Content::Drawing(name) => drawn(name, one.by, within),
        Content::Live(_) => {
            let mut canvas = Canvas::new(within.w as u32, within.h as u32, 1.0);
            let shift = Transform::from_translate(-within.x, -within.y);
            canvas.within(shift, |canvas| layers::draw_one(canvas, view, one, (0.0, within)));
            let corner = (within.x as i32, within.y as i32);
            Some(Mask::of(&canvas.finish(), corner))
        }
    }
}

/// The ink of a drawing that is moved or turned.
fn drawn(name: &str, by: Transform, within: Area) -> Option<Mask> {
    let piece = piece(name)?;
    let tree = drawing(piece)?;
    let area = common(layers::boxed(by, piece.area()), within)?;
    let mut canvas = Canvas::new(area.w as u32, area.h as u32, 1.0);
    let place =
        Transform::from_translate(-area.x, -area.y).pre_concat(by).pre_translate(piece.x, piece.y);
    resvg::render(&tree, place, &mut canvas.pixmap_mut().as_mut());
    Some(Mask::of(&canvas.finish(), (area.x as i32, area.y as i32)))
}

/// The inside of an outline that is moved or turned.
fn filled(path: &Path, by: Transform, within: Area) -> Option<Mask> {
    let bounds = path.bounds();
    let own = Area { x: bounds.x(), y: bounds.y(), w: bounds.width(), h: bounds.height() };
    let area = common(layers::boxed(by, own), within)?;
    let mut canvas = Canvas::new(area.w as u32, area.h as u32, 1.0);
    let place = Transform::from_translate(-area.x, -area.y).pre_concat(by);
    canvas.within(place, |canvas| canvas.fill(path, super::palette::INK.color()));
    Some(Mask::of(&canvas.finish(), (area.x as i32, area.y as i32)))
}

/// What two areas have in common, in whole units.
fn common(one: Area, other: Area) -> Option<Area> {
    let (left, top) = (one.x.max(other.x).floor(), one.y.max(other.y).floor());
    let right = (one.x + one.w).min(other.x + other.w).ceil();
    let foot = (one.y + one.h).min(other.y + other.h).ceil();
    (right > left && foot > top).then_some(Area { x: left, y: top, w: right - left, h: foot - top })
}
