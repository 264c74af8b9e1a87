//! Nuts, gaskets, and the parts that are carried.

use super::{Group, Part, Place, Stage, Transform, View, WasherSeat, about, anchor, bring, number};
use crate::paint::ink;
use sim_core::rig::flow::mounting::SNUG_QUARTERS;

pub(super) fn set(stage: &mut Stage, view: &View) {
    parts(stage, view);
    gaskets(stage, view);
    for index in 0..4 {
        nut(stage, view, index);
    }
    calibrator(stage, view);
}

/// Frame, filter and adapter plate on the holder, on the roof or in the case.
fn parts(stage: &mut Stage, view: &View) {
    for (part, name, seat, holder, ground, in_case) in [
        (Part::Frame, "frame", "seat", "frame", "ground_frame", None),
        (Part::Filter, "filter", "centre", "filter", "ground_filter", Some("case_filter")),
        (Part::Adapter, "adapter", "seat", "adapter", "ground_adapter", Some("case_adapter")),
    ] {
        let seat = anchor(name, seat);
        match (view.mounting.place(part), in_case) {
            (Place::Holder, _) => {
                stage.moved(Group::Still, name, bring(seat, anchor("filter_holder", holder)));
            }
            (Place::Ground, _) | (Place::Case, None) => {
                let by = bring(seat, anchor("shelter", ground));
                stage.moved_at(Group::Still, name, by, 43.0);
            }
            (Place::Case, Some(name)) => stage.piece(Group::Still, name),
            _ => {}
        }
    }
}

fn gaskets(stage: &mut Stage, view: &View) {
    // A covered gasket is drawn: its edge cannot be told from the gap without it.
    if view.mounting.holder_gasket != Some(false) {
        stage.piece(Group::Still, "holder_gasket");
    }
    let adapter = view.mounting.place(Part::Adapter);
    if view.mounting.calibrator_gasket == Some(true) && adapter == Place::Holder {
        stage.piece(Group::Still, "calibrator_gasket");
    }
}

/// Bolt, washer and nut of one corner.
fn nut(stage: &mut Stage, view: &View, index: usize) {
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
    stage.moved(Group::Still, "bolt", placed);
    let below = seen.washer == WasherSeat::Below;
    let washer = if below && !off {
        bring(of("washer_above", "1"), of("washer_below", corner))
    } else {
        placed
    };
    let depth = if below { 32.5 } else { 35.0 };
    stage.moved_at(Group::Still, "washer", washer, depth);
    let loose = SNUG_QUARTERS.saturating_sub(seen.quarter_turns.max(1));
    let lift = number("filter_holder", "nut_lift_per_quarter_turn") * f32::from(loose);
    let name = match seen.quarter_turns % 4 {
        0 => "nut",
        2 => "nut_edge",
        _ => "nut_half",
    };
    stage.moved(Group::Still, name, placed.pre_translate(0.0, -lift));
}

/// The calibrator on the plate's throat, on the roof or in the case, with what moves on it.
fn calibrator(stage: &mut Stage, view: &View) {
    let by = match view.mounting.place(Part::Calibrator) {
        Place::Case => {
            stage.piece(Group::Still, "case_calibrator");
            return;
        }
        Place::Hand => return,
        _ => ink::calibrator_at(view),
    };
    // On the roof it stands in front of the case.
    let nearer = if view.mounting.place(Part::Calibrator) == Place::Ground { 9.0 } else { 0.0 };
    stage.moved_at(Group::Still, "calibrator", by, 38.0 + nearer);
    let group = Group::Calibrator;
    let closed = 1.0 - view.calibrator.knob.clamp(0.0, 1.0) as f32;
    let travel = number("calibrator_shutter", "travel");
    let shut_by = by.pre_translate(closed * travel, 0.0);
    stage.moved_at(group, "calibrator_shutter", shut_by, 39.0 + nearer);
    let (open, shut) =
        (number("calibrator", "knob_open_deg"), number("calibrator", "knob_closed_deg"));
    let turned = open + (shut - open) * closed;
    let turn = about(anchor("calibrator_knob", "axis"), turned);
    stage.moved_at(group, "calibrator_knob", by.pre_concat(turn), 40.0 + nearer);
    if view.calibrator.blocked {
        stage.moved_at(group, "calibrator_cover", by, 41.0 + nearer);
    }
}
