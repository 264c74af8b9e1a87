//! The drawings of the station, with their places and named points, as `assets/scene.ron` gives them.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use resvg::usvg::Tree;
use serde::Deserialize;

use super::canvas::Point;
use super::text;

/// The whole scene.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scene {
    /// Width, scene units.
    pub width: f32,
    /// Height, scene units.
    pub height: f32,
    /// What may be shown beyond it.
    pub bleed: Area,
    /// Every drawing.
    pub pieces: Vec<Piece>,
}

/// An upright rectangle of the scene.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Area {
    /// Left edge.
    pub x: f32,
    /// Top edge.
    pub y: f32,
    /// Width.
    pub w: f32,
    /// Height.
    pub h: f32,
}

/// A drawing.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Piece {
    /// Its name.
    pub name: String,
    /// Its file in `assets/`.
    pub file: String,
    /// Left edge of its box.
    pub x: f32,
    /// Top edge of its box.
    pub y: f32,
    /// Width of its box.
    pub w: f32,
    /// Height of its box.
    pub h: f32,
    /// What lies over what: higher is nearer.
    pub z: f32,
    /// Named points.
    pub anchors: BTreeMap<String, Point>,
    /// Named numbers.
    pub numbers: BTreeMap<String, f32>,
}

impl Piece {
    /// Its box.
    pub const fn area(&self) -> Area {
        Area { x: self.x, y: self.y, w: self.w, h: self.h }
    }
}

/// The scene, read once.
pub fn scene() -> &'static Scene {
    static SCENE: OnceLock<Scene> = OnceLock::new();
    SCENE.get_or_init(|| {
        ron::from_str(include_str!("../../../assets/scene.ron"))
            .expect("the scene is part of the program and was read in its tests")
    })
}

/// A drawing by name.
pub fn piece(name: &str) -> Option<&'static Piece> {
    scene().pieces.iter().find(|piece| piece.name == name)
}

/// A named point of a drawing; the scene's corner where there is none.
pub fn anchor(name: &str, point: &str) -> Point {
    let found = piece(name).and_then(|piece| piece.anchors.get(point)).copied();
    debug_assert!(found.is_some(), "{name} has no point {point}");
    found.unwrap_or_default()
}

/// A named number of a drawing; zero where there is none.
pub fn number(name: &str, of: &str) -> f32 {
    let found = piece(name).and_then(|piece| piece.numbers.get(of)).copied();
    debug_assert!(found.is_some(), "{name} has no number {of}");
    found.unwrap_or_default()
}

/// A drawing, read once and kept.
pub fn drawing(piece: &Piece) -> Option<Arc<Tree>> {
    static KEPT: Mutex<BTreeMap<String, Arc<Tree>>> = Mutex::new(BTreeMap::new());
    let mut kept = KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(tree) = kept.get(&piece.file) {
        return Some(Arc::clone(tree));
    }
    let (_, svg) = FILES.iter().find(|(file, _)| *file == piece.file)?;
    let tree = Arc::new(Tree::from_str(svg, text::options()).ok()?);
    kept.insert(piece.file.clone(), Arc::clone(&tree));
    Some(tree)
}

macro_rules! files {
    ($($file:literal,)*) => {
        /// Every drawing's file, embedded.
        const FILES: &[(&str, &str)] =
            &[$(($file, include_str!(concat!("../../../assets/", $file)))),*];
    };
}

files! {
    "adapter.svg",
    "backdrop.svg",
    "barometer.svg",
    "barometer_glass.svg",
    "barometer_index.svg",
    "barometer_pointer.svg",
    "blower.svg",
    "blower_rotor_a.svg",
    "blower_rotor_b.svg",
    "blower_rotor_c.svg",
    "bolt.svg",
    "calibrator.svg",
    "calibrator_cover.svg",
    "calibrator_gasket.svg",
    "calibrator_knob.svg",
    "calibrator_plates.svg",
    "calibrator_shutter.svg",
    "carrying_case.svg",
    "case_adapter.svg",
    "case_calibrator.svg",
    "case_electronic.svg",
    "case_filter.svg",
    "case_folder.svg",
    "case_front.svg",
    "case_manometer.svg",
    "caution.svg",
    "certificate.svg",
    "chart.svg",
    "chart_even.svg",
    "chart_hub.svg",
    "electronic_manometer.svg",
    "filter.svg",
    "filter_face.svg",
    "filter_holder.svg",
    "flow_controller.svg",
    "flow_controller_lamp.svg",
    "frame.svg",
    "holder_gasket.svg",
    "hook.svg",
    "icon_ear.svg",
    "icon_eye.svg",
    "icon_hand.svg",
    "icon_help.svg",
    "icon_tap.svg",
    "kept_chart.svg",
    "lid_closed.svg",
    "lid_open.svg",
    "line_switch.svg",
    "logger.svg",
    "logger_sheet.svg",
    "loupe.svg",
    "mains_outlet.svg",
    "manometer.svg",
    "manometer_glass.svg",
    "manometer_scale.svg",
    "nut.svg",
    "nut_edge.svg",
    "nut_half.svg",
    "pen_arm.svg",
    "pen_cap.svg",
    "plate_box.svg",
    "plate_on_edge.svg",
    "plug_blower.svg",
    "plug_sampler.svg",
    "plumb_bob.svg",
    "recorder.svg",
    "recorder_door_closed.svg",
    "recorder_door_open.svg",
    "roof_edge.svg",
    "service_post.svg",
    "shelter.svg",
    "storm.svg",
    "sun.svg",
    "thermometer.svg",
    "thermometer_screen.svg",
    "timer.svg",
    "timer_dial.svg",
    "timer_meter.svg",
    "timer_switch.svg",
    "timer_tripper_off.svg",
    "timer_tripper_on.svg",
    "trim_screw.svg",
    "valve.svg",
    "valve_edge.svg",
    "washer.svg",
    "watch.svg",
    "work_order.svg",
}

#[cfg(test)]
mod tests {
    use super::{drawing, scene};
    use crate::palette::{self, PaletteColor};
    use std::collections::BTreeMap;

    #[test]
    fn every_piece_of_the_scene_can_be_drawn() {
        assert!(scene().pieces.len() > 50);
        for piece in &scene().pieces {
            let tree = drawing(piece).unwrap_or_else(|| panic!("{} cannot be read", piece.file));
            let size = tree.size();
            let (dw, dh) = (size.width() - piece.w, size.height() - piece.h);
            assert!(dw.abs() < 0.01 && dh.abs() < 0.01, "{} has another size", piece.file);
        }
    }

    #[test]
    fn the_palette_is_that_of_the_drawings() {
        let named: BTreeMap<String, String> = ron::Options::default()
            .from_str::<ron::Value>(include_str!("../../../assets/palette.ron"))
            .ok()
            .and_then(|value| match value {
                ron::Value::Map(map) => Some(map),
                _ => None,
            })
            .expect("the palette is a list of names")
            .into_iter()
            .filter_map(|(name, rgb)| match (name, rgb) {
                (ron::Value::String(name), ron::Value::String(rgb)) => Some((name, rgb)),
                _ => None,
            })
            .collect();
        let ours: BTreeMap<String, String> = palette::ALL
            .iter()
            .map(|(name, PaletteColor { red, green, blue })| {
                ((*name).to_owned(), format!("#{red:02x}{green:02x}{blue:02x}"))
            })
            .collect();
        assert_eq!(named, ours);
    }
}
