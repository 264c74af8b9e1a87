//! The station as it stands: every drawing and every moving part, where the view puts it, from the
//! back to the front.

use std::cmp::Ordering;
use std::sync::{Arc, Mutex, PoisonError};

use resvg::tiny_skia::{Pixmap, PixmapPaint, Transform};
use resvg::usvg::Tree;
use sim_core::rig::parts::{PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::{BarometerReference, Exposure, OnOff, WasherSeat};
use sim_core::session::view::View;
use sim_core::session::view::run::RunView;

use super::canvas::{Canvas, Point};
use super::ink;
use super::scene::{Area, anchor, drawing, number, piece};

mod carried;
mod gauges;

/// What changes together, and so is one picture of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// What only changes when somebody does something.
    Still,
    /// The blower's rotor.
    Rotor,
    /// Arrows of the air.
    Air,
    /// The calibrator's shutter, knob and cover.
    Calibrator,
    /// The chart with trace, pen and door.
    Recorder,
    /// The timer's dial.
    Timer,
    /// The barometer's pointer and index.
    Barometer,
    /// The thermometer with its column.
    Thermometer,
    /// The manometer's board.
    Manometer,
    /// The water in it.
    Water,
    /// What lies over the water: scale, valves, glass and plumb.
    ManometerFront,
    /// Cords and plugs.
    Cords,
    /// The tube.
    Tube,
}

impl Group {
    /// The groups that move, from back to front.
    pub const MOVING: [Self; 12] = [
        Self::Rotor,
        Self::Air,
        Self::Calibrator,
        Self::Recorder,
        Self::Timer,
        Self::Barometer,
        Self::Thermometer,
        Self::Manometer,
        Self::Water,
        Self::ManometerFront,
        Self::Cords,
        Self::Tube,
    ];
}

/// One thing on the stage.
#[derive(Debug, Clone, Copy)]
pub struct Act {
    z: f32,
    group: Group,
    by: Transform,
    what: What,
}

/// What is drawn.
#[derive(Debug, Clone, Copy)]
enum What {
    /// One of the drawings.
    Drawing(&'static str),
    /// Something inked from the view; the number is the phase of what runs, 0 to 1.
    Inked(fn(&mut Canvas, &View, f32)),
}

/// Everything on the stage, from the back to the front.
pub fn stage(view: &View) -> Vec<Act> {
    let mut stage = Stage { acts: Vec::with_capacity(96) };
    stage.surroundings(view);
    stage.power(view);
    carried::set(&mut stage, view);
    gauges::set(&mut stage, view);
    stage.acts.sort_by(|a, b| a.z.partial_cmp(&b.z).unwrap_or(Ordering::Equal));
    stage.acts
}

/// Draws what lies in `area` of some groups. The canvas is in scene units.
pub fn draw(
    canvas: &mut Canvas,
    view: &View,
    phase: f32,
    area: Area,
    wanted: impl Fn(Group) -> bool,
) {
    for act in stage(view).iter().filter(|act| wanted(act.group)) {
        canvas.within(act.by, |canvas| match act.what {
            What::Drawing(name) => place(canvas, name, act.by, area),
            What::Inked(ink) => ink(canvas, view, phase),
        });
    }
}

/// The least upright area about another that was moved or turned.
pub fn boxed(by: Transform, area: Area) -> Area {
    let (right, foot) = (area.x + area.w, area.y + area.h);
    let corners = [(area.x, area.y), (right, area.y), (area.x, foot), (right, foot)];
    let moved = corners.map(|corner| ink::moved(by, corner));
    let (mut low, mut high) = ((f32::MAX, f32::MAX), (f32::MIN, f32::MIN));
    for (x, y) in moved {
        (low, high) = ((low.0.min(x), low.1.min(y)), (high.0.max(x), high.1.max(y)));
    }
    Area { x: low.0, y: low.1, w: high.0 - low.0, h: high.1 - low.1 }
}

/// Where the drawings of a group lie; `None` while there are none.
pub fn bounds(view: &View, group: Group) -> Option<Area> {
    stage(view)
        .iter()
        .filter(|act| act.group == group)
        .filter_map(|act| match act.what {
            What::Drawing(name) => Some(boxed(act.by, piece(name)?.area())),
            What::Inked(_) => None,
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

/// The list while it is written.
struct Stage {
    acts: Vec<Act>,
}

impl Stage {
    /// A drawing where it was drawn.
    fn piece(&mut self, group: Group, name: &'static str) {
        self.moved(group, name, Transform::identity());
    }

    /// A drawing moved or turned.
    fn moved(&mut self, group: Group, name: &'static str, by: Transform) {
        let z = piece(name).map_or(0.0, |piece| piece.z);
        self.acts.push(Act { z, group, by, what: What::Drawing(name) });
    }

    /// A drawing moved or turned, at another depth than its own.
    fn moved_at(&mut self, group: Group, name: &'static str, by: Transform, z: f32) {
        self.acts.push(Act { z, group, by, what: What::Drawing(name) });
    }

    /// Something inked from the view.
    fn inked(&mut self, group: Group, z: f32, by: Transform, ink: fn(&mut Canvas, &View, f32)) {
        self.acts.push(Act { z, group, by, what: What::Inked(ink) });
    }

    fn surroundings(&mut self, view: &View) {
        let still = Group::Still;
        for name in [
            "backdrop",
            "roof_edge",
            "service_post",
            "thermometer_screen",
            "shelter",
            "blower",
            "hook",
            "filter_holder",
            "recorder",
            "flow_controller",
            "timer",
            "mains_outlet",
            "barometer",
            "work_order",
            "carrying_case",
            "case_front",
            "certificate",
        ] {
            self.piece(still, name);
        }
        if view.sky.sunny {
            self.piece(still, "sun");
        }
        if view.sky.thunder_since_s.is_some() {
            self.piece(still, "storm");
        }
        self.piece(still, if view.mounting.lid_open { "lid_open" } else { "lid_closed" });
        self.inked(Group::Rotor, 26.0, Transform::identity(), ink::rotor);
        self.inked(Group::Air, 42.5, Transform::identity(), ink::air);
    }

    /// What stands there where a run is ordered.
    fn run(&mut self, run: &RunView) {
        let still = Group::Still;
        self.piece(still, "timer_meter");
        self.piece(still, "logger");
        if !run.weather.is_empty() {
            self.piece(still, "logger_sheet");
        }
        if run.kept_chart.is_some() {
            self.piece(still, "kept_chart");
        }
        if run.fresh_filters > 0 {
            self.piece(still, "case_folder");
        }
    }

    fn power(&mut self, view: &View) {
        let power = &view.power;
        if power.controller_lamp {
            self.piece(Group::Still, "flow_controller_lamp");
        }
        let turned = (power.trim_turns * 360.0) as f32;
        self.moved(Group::Still, "trim_screw", about(anchor("trim_screw", "axis"), turned));
        let throw = number("mains_outlet", "switch_throw");
        let up = if power.line_switch == OnOff::On { -throw } else { throw };
        self.moved(Group::Still, "line_switch", Transform::from_translate(0.0, up));
        let throw = number("timer", "switch_throw");
        let up = match power.timer_switch {
            TimerSwitch::On => -throw,
            TimerSwitch::Auto => 0.0,
            TimerSwitch::Off => throw,
        };
        self.moved(Group::Still, "timer_switch", Transform::from_translate(0.0, up));
        // Where no run is ordered the dial goes right, and its trippers stand at midnight.
        let dial = view.run.as_deref().map(|run| &run.timer);
        let hours = dial.map_or_else(|| view.time.hours(), |dial| dial.hours);
        let trippers = dial.map_or((0.0, 0.0), |dial| (dial.on.hours, dial.off.hours));
        let per_hour = f64::from(number("timer_dial", "degrees_per_hour"));
        for (name, back) in [
            ("timer_dial", 0.0),
            ("timer_tripper_on", trippers.0),
            ("timer_tripper_off", trippers.1),
        ] {
            let turned = (per_hour * (hours - back)) as f32;
            self.moved(Group::Timer, name, about(anchor("timer_dial", "centre"), turned));
        }
        if let Some(run) = &view.run {
            self.run(run);
        }
        self.inked(Group::Cords, 58.0, Transform::identity(), ink::cords);
        self.moved(Group::Cords, "plug_sampler", ink::sampler_plug(view));
        self.moved(Group::Cords, "plug_blower", ink::blower_plug(view));
    }
}

/// A turn about a point, degrees clockwise.
fn about(point: Point, deg: f32) -> Transform {
    Transform::from_rotate_at(deg, point.0, point.1)
}

/// A shift that brings one point onto another.
fn bring(from: Point, to: Point) -> Transform {
    Transform::from_translate(to.0 - from.0, to.1 - from.1)
}
