//! Nuts, gaskets, and the parts that are carried.

use resvg::tiny_skia::Transform;
use sim_core::rig::flow::mounting::SNUG_QUARTERS;
use sim_core::rig::flow::plates::Plate;
use sim_core::rig::parts::{PartPlace, RigPart};
use sim_core::session::action::WasherSeat;
use sim_core::session::view::View;

use super::super::live_parts;
use super::super::scene::{anchor, number};
use super::list::{Layer, SceneList, about, bring};

/// By how much each sheet of a stack lies higher than the one below it.
const SHEET_HEIGHT: f32 = 2.6;

pub(super) fn set(list: &mut SceneList, view: &View) {
    parts(list, view);
    gaskets(list, view);
    for index in 0..4 {
        list.which = index;
        nut(list, view, index);
    }
    list.which = 0;
    calibrator(list, view);
    plate_box(list, view);
}

/// Frame, filter and adapter plate on the holder, on the roof or in the case.
fn parts(list: &mut SceneList, view: &View) {
    for (part, name, seat, holder, ground, in_case) in [
        (RigPart::Frame, "frame", "seat", "frame", "ground_frame", None),
        (RigPart::Filter, "filter", "centre", "filter", "ground_filter", Some("case_filter")),
        (RigPart::Adapter, "adapter", "seat", "adapter", "ground_adapter", Some("case_adapter")),
    ] {
        let seat = anchor(name, seat);
        match (view.mounting.place(part), in_case) {
            (PartPlace::Holder, _) => {
                let home = bring(seat, anchor("filter_holder", holder));
                list.moved(Layer::Still, name, home);
                let added = view.run.as_ref().map_or(0, |run| run.added_filters);
                for sheet in (1..=added).filter(|_| part == RigPart::Filter) {
                    let up = -SHEET_HEIGHT * f32::from(sheet);
                    list.moved(Layer::Still, name, home.post_translate(0.0, up));
                }
            }
            (PartPlace::Ground, _) | (PartPlace::Case, None) => {
                let by = bring(seat, anchor("shelter", ground));
                list.moved_at(Layer::Still, name, by, 43.0);
            }
            (PartPlace::Case, Some(name)) => list.piece(Layer::Still, name),
            _ => {}
        }
    }
}

fn gaskets(list: &mut SceneList, view: &View) {
    // A covered gasket is drawn: its edge looks like the gap without it.
    if view.mounting.holder_gasket != Some(false) {
        list.piece(Layer::Still, "holder_gasket");
    }
    let adapter = view.mounting.place(RigPart::Adapter);
    if view.mounting.calibrator_gasket == Some(true) && adapter == PartPlace::Holder {
        list.piece(Layer::Still, "calibrator_gasket");
    }
}

/// Bolt, washer and nut of one corner.
fn nut(list: &mut SceneList, view: &View, index: usize) {
    let Some(seen) = view.mounting.nuts.get(index) else { return };
    let corner = ["1", "2", "3", "4"].get(index).copied().unwrap_or("1");
    let of = |point: &str, corner: &str| anchor("filter_holder", &format!("{point}_{corner}"));
    let home = bring(of("nut", "1"), of("nut", corner));
    let seat = of("nut", corner);
    let scale = if index < 2 { 1.0 } else { number("filter_holder", "back_nut_scale") };
    let scaled = Transform::from_translate(seat.0, seat.1)
        .pre_scale(scale, scale)
        .pre_translate(-seat.0, -seat.1)
        .pre_concat(home);
    let off = seen.quarter_turns == 0;
    // Bolts at the left swing to the left, those at the right to the right.
    let outwards = if index == 0 || index == 3 { -1.0 } else { 1.0 };
    let swing = if off { outwards * number("bolt", "swung_deg") } else { 0.0 };
    let placed = scaled.pre_concat(about(anchor("bolt", "pivot"), swing));
    list.moved(Layer::Still, "bolt", placed);
    let below = seen.washer == WasherSeat::Below;
    let washer = if below && !off {
        bring(of("washer_above", "1"), of("washer_below", corner))
    } else {
        placed
    };
    let depth = if below { 32.5 } else { 35.0 };
    list.moved_at(Layer::Still, "washer", washer, depth);
    let loose = SNUG_QUARTERS.saturating_sub(seen.quarter_turns.max(1));
    let lift = number("filter_holder", "nut_lift_per_quarter_turn") * f32::from(loose);
    let name = match seen.quarter_turns % 4 {
        0 => "nut",
        2 => "nut_edge",
        _ => "nut_half",
    };
    list.moved(Layer::Still, name, placed.pre_translate(0.0, -lift));
}

/// The calibrator on the plate's throat, on the roof or in the case, with what moves on it.
fn calibrator(list: &mut SceneList, view: &View) {
    let by = match view.mounting.place(RigPart::Calibrator) {
        PartPlace::Case => {
            list.piece(Layer::Still, "case_calibrator");
            return;
        }
        PartPlace::Hand => return,
        _ => live_parts::calibrator_at(view),
    };
    // On the roof it is in front of the case.
    let nearer =
        if view.mounting.place(RigPart::Calibrator) == PartPlace::Ground { 9.0 } else { 0.0 };
    let layer = Layer::Calibrator;
    if view.calibrator.blocked {
        list.moved_at(layer, "calibrator_cover", by, 41.0 + nearer);
    }
    if view.calibrator.plates.is_some() {
        list.moved_at(Layer::Still, "calibrator_plates", by, 38.0 + nearer);
        list.live(layer, ("plate", 39.0 + nearer), by, live_parts::plate);
        return;
    }
    list.moved_at(Layer::Still, "calibrator", by, 38.0 + nearer);
    let closed = 1.0 - view.calibrator.knob.clamp(0.0, 1.0) as f32;
    let travel = number("calibrator_shutter", "travel");
    let shut_by = by.pre_translate(closed * travel, 0.0);
    list.moved_at(layer, "calibrator_shutter", shut_by, 39.0 + nearer);
    let (open, shut) =
        (number("calibrator", "knob_open_deg"), number("calibrator", "knob_closed_deg"));
    let turned = open + (shut - open) * closed;
    let turn = about(anchor("calibrator_knob", "axis"), turned);
    list.moved_at(layer, "calibrator_knob", by.pre_concat(turn), 40.0 + nearer);
}

/// The box of the plates, with those that are not in the calibrator.
fn plate_box(list: &mut SceneList, view: &View) {
    let Some(plates) = view.calibrator.plates else { return };
    list.piece(Layer::Still, "plate_box");
    let step = number("plate_box", "slot_step");
    for (slot, plate) in Plate::ALL.into_iter().enumerate() {
        if plates.inserted != Some(plate) {
            let by = Transform::from_translate(step * slot as f32, 0.0);
            list.moved(Layer::Still, "plate_on_edge", by);
        }
    }
}
