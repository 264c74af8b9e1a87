//! Positions of parts that are carried, hung or plugged in: how each is moved from where it was drawn.

use resvg::tiny_skia::Transform;
use sim_core::rig::parts::{BlowerPlug, PartPlace, RigPart};
use sim_core::session::view::View;

use super::super::canvas::Point;
use super::super::scene::{anchor, piece};

/// Where a point lands.
pub fn moved(by: Transform, (x, y): Point) -> Point {
    (by.sx * x + by.kx * y + by.tx, by.ky * x + by.sy * y + by.ty)
}

/// The position of the manometer, hung or standing.
pub fn manometer_at(view: &View) -> Transform {
    let eye = anchor("manometer", "eye");
    if view.mounting.place(RigPart::Manometer) == PartPlace::Hook {
        let hook = anchor("hook", "hook");
        // To the right its foot goes to the right: against the clock about its eye.
        let tilt = -view.manometer.tilt_deg as f32;
        return Transform::from_translate(hook.0 - eye.0, hook.1 - eye.1)
            .pre_concat(Transform::from_rotate_at(tilt, eye.0, eye.1));
    }
    let ground = anchor("shelter", "ground_manometer");
    let foot = piece(manometer_piece(view)).map_or(0.0, |piece| piece.y + piece.h);
    Transform::from_translate(ground.0 - eye.0, ground.1 - foot)
}

/// The drawing of the manometer: both kinds hang by the same eye.
pub const fn manometer_piece(view: &View) -> &'static str {
    match view.manometer.display {
        Some(_) => "electronic_manometer",
        None => "manometer",
    }
}

/// The position of the calibrator.
pub fn calibrator_at(view: &View) -> Transform {
    let base = anchor("calibrator", "base");
    let on_holder = view.mounting.place(RigPart::Adapter) == PartPlace::Holder;
    let to = match view.mounting.place(RigPart::Calibrator) {
        PartPlace::Adapter if on_holder => base,
        PartPlace::Adapter => {
            let (seat, ground) = (anchor("adapter", "seat"), anchor("shelter", "ground_adapter"));
            (base.0 + ground.0 - seat.0, base.1 + ground.1 - seat.1)
        }
        _ => anchor("shelter", "ground_calibrator"),
    };
    Transform::from_translate(to.0 - base.0, to.1 - base.1)
}

/// How the sampler's plug is moved from where it was drawn.
pub fn sampler_plug(view: &View) -> Transform {
    let home = anchor("plug_sampler", "prongs");
    let to = if view.power.sampler_cord_in {
        anchor("mains_outlet", "sampler_socket")
    } else {
        anchor("plug_sampler", "loose")
    };
    Transform::from_translate(to.0 - home.0, to.1 - home.1)
}

/// How the blower's plug is moved from where it was drawn.
pub fn blower_plug(view: &View) -> Transform {
    let home = anchor("plug_blower", "prongs");
    let to = match view.power.blower_plug {
        BlowerPlug::Controller => anchor("flow_controller", "socket"),
        BlowerPlug::LineOutlet => anchor("mains_outlet", "line_socket"),
        BlowerPlug::Loose => anchor("plug_blower", "loose"),
    };
    Transform::from_translate(to.0 - home.0, to.1 - home.1)
}
