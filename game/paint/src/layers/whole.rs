//! The whole station: put together from the back to the front, and drawn.

use std::cmp::Ordering;
use std::sync::{Arc, Mutex, PoisonError};

use resvg::tiny_skia::{Pixmap, PixmapPaint, Transform};
use resvg::usvg::Tree;
use sim_core::session::view::View;

use super::super::canvas::Canvas;
use super::super::live_parts;
use super::super::scene::{Area, drawing, piece};
use super::list::{Content, Layer, PlacedDrawing, SceneList};
use super::{carried, gauges, surroundings};

/// Every drawing of the station, from the back to the front.
pub fn placed_drawings(view: &View) -> Vec<PlacedDrawing> {
    let mut list = SceneList { placed: Vec::with_capacity(96), which: 0 };
    surroundings::set(&mut list, view);
    carried::set(&mut list, view);
    gauges::set(&mut list, view);
    list.placed.sort_by(|a, b| a.z.partial_cmp(&b.z).unwrap_or(Ordering::Equal));
    list.placed
}

/// Draws what lies in `area` of some layers. The canvas is in scene units.
pub fn draw(
    canvas: &mut Canvas,
    view: &View,
    phase: f32,
    area: Area,
    wanted: impl Fn(Layer) -> bool,
) {
    for one in placed_drawings(view).iter().filter(|one| wanted(one.layer)) {
        draw_one(canvas, view, one, (phase, area));
    }
}

/// Draws those that are wanted by their name, and by which of several alike they are.
pub fn draw_named(
    canvas: &mut Canvas,
    view: &View,
    area: Area,
    wanted: impl Fn(&'static str, usize) -> bool,
) {
    for one in placed_drawings(view).iter().filter(|one| wanted(one.name, one.which)) {
        draw_one(canvas, view, one, (0.0, area));
    }
}

/// The names of everything that is drawn, from the back to the front, and which of several alike each is.
pub fn names(view: &View) -> Vec<(&'static str, usize)> {
    placed_drawings(view).iter().map(|one| (one.name, one.which)).collect()
}

/// Draws one of them.
pub(crate) fn draw_one(
    canvas: &mut Canvas,
    view: &View,
    one: &PlacedDrawing,
    (phase, area): (f32, Area),
) {
    canvas.within(one.by, |canvas| match one.content {
        Content::Drawing(name) => place(canvas, name, one.by, area),
        Content::Live(ink) => ink(canvas, view, phase),
    });
}

/// The least upright area about another that was moved or turned.
pub fn boxed(by: Transform, area: Area) -> Area {
    let (right, foot) = (area.x + area.w, area.y + area.h);
    let corners = [(area.x, area.y), (right, area.y), (area.x, foot), (right, foot)];
    let moved = corners.map(|corner| live_parts::moved(by, corner));
    let (mut low, mut high) = ((f32::MAX, f32::MAX), (f32::MIN, f32::MIN));
    for (x, y) in moved {
        (low, high) = ((low.0.min(x), low.1.min(y)), (high.0.max(x), high.1.max(y)));
    }
    Area { x: low.0, y: low.1, w: high.0 - low.0, h: high.1 - low.1 }
}

/// Where the drawings of a layer lie; `None` while there are none.
pub fn bounds(view: &View, layer: Layer) -> Option<Area> {
    placed_drawings(view)
        .iter()
        .filter(|one| one.layer == layer)
        .filter_map(|one| match one.content {
            Content::Drawing(name) => Some(boxed(one.by, piece(name)?.area())),
            Content::Live(_) => None,
        })
        .reduce(|all, one| {
            let (x, y) = (all.x.min(one.x), all.y.min(one.y));
            let right = (all.x + all.w).max(one.x + one.w);
            let foot = (all.y + all.h).max(one.y + one.h);
            Area { x, y, w: right - x, h: foot - y }
        })
}

/// Draws one drawing, unless it lies outside the area.
fn place(canvas: &mut Canvas, name: &str, by: Transform, area: Area) {
    let Some(piece) = piece(name) else { return };
    let lies = boxed(by, piece.area());
    if lies.x > area.x + area.w
        || lies.x + lies.w < area.x
        || lies.y > area.y + area.h
        || lies.y + lies.h < area.y
    {
        return;
    }
    let Some(tree) = drawing(piece) else { return };
    let to_px = canvas.transform().pre_translate(piece.x, piece.y);
    if RULED.contains(&name) {
        return kept(canvas, name, &tree, to_px);
    }
    resvg::render(&tree, to_px, &mut canvas.pixmap_mut().as_mut());
}

/// The drawings that take longest by far, as they have most lines.
const RULED: [&str; 2] = ["chart", "chart_even"];

/// Draws a drawing from its picture of last time, if it lay the same way.
fn kept(canvas: &mut Canvas, name: &str, tree: &Tree, to_px: Transform) {
    type Laid = (String, Transform, u32, u32);
    static KEPT: Mutex<Vec<(Laid, Arc<Pixmap>)>> = Mutex::new(Vec::new());
    let (width, height) = (canvas.pixmap_mut().width(), canvas.pixmap_mut().height());
    let laid = (name.to_owned(), to_px, width, height);
    let store = || KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    let found = store().iter().find(|(of, _)| *of == laid).map(|(_, picture)| Arc::clone(picture));
    let Some(picture) = found.or_else(|| {
        let mut picture = Pixmap::new(width, height)?;
        resvg::render(tree, to_px, &mut picture.as_mut());
        let picture = Arc::new(picture);
        let mut store = store();
        store.truncate(3);
        store.insert(0, (laid, Arc::clone(&picture)));
        Some(picture)
    }) else {
        return;
    };
    let paint = PixmapPaint::default();
    let pixmap = canvas.pixmap_mut();
    pixmap.draw_pixmap(0, 0, picture.as_ref().as_ref(), &paint, Transform::identity(), None);
}
