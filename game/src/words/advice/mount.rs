//! Sampler dead, filter out, plate and calibrator on; manometer hung, zeroed and joined.

use sim_core::rig::parts::{BlowerPlug, Leg, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::{OnOff, Sight, WasherSeat};

use super::{Next, Scene, next};

/// Quarter turns at which a nut is tight.
const TIGHT_QUARTERS: u8 = 7;

/// The next step until the calibrator is on the plate.
pub(super) fn sampler(scene: &Scene<'_>) -> Option<Next> {
    let seen = &scene.view.mounting;
    let on_plate = seen.place(RigPart::Calibrator) == PartPlace::Adapter;
    let loose = seen.nuts.iter().any(|nut| nut.quarter_turns < TIGHT_QUARTERS);
    let below = seen.nuts.iter().any(|nut| nut.washer == WasherSeat::Below);
    let plate = seen.place(RigPart::Adapter) == PartPlace::Holder;
    if on_plate && plate && !loose && !below {
        return None;
    }
    dead(scene).or_else(|| strip(scene)).or_else(|| {
        if below {
            let step = "Put every washer above the plate, and tighten the nuts again.";
            let off = seen.nuts.iter().all(|nut| nut.quarter_turns == 0);
            let sentence = if off { "put washers above plate" } else { "loosen nuts" };
            return next("washers-above", step, sentence);
        }
        if loose {
            let step = "Tighten the four nuts, opposite corners in turn, all alike.";
            return next("nuts-snug", step, "tighten nuts");
        }
        calibrator(scene)
    })
}

/// The next step until nothing can start and nothing turns; also before hands go in again.
pub(super) fn dead(scene: &Scene<'_>) -> Option<Next> {
    let power = &scene.view.power;
    if power.blower_plug == BlowerPlug::LineOutlet && power.line_switch == OnOff::On {
        return next("dead-before-hands", "Switch the line outlet off.", "switch line off");
    }
    if power.timer_switch == TimerSwitch::On {
        return next("dead-before-hands", "Switch the timer off.", "set timer to off");
    }
    if power.sampler_cord_in {
        let step = "Pull the sampler's cord out of the mains and keep it with you.";
        return next("isolated", step, "unplug sampler");
    }
    if scene.runs() {
        return next("dead-before-hands", "Wait until the blower stands still.", "wait 30 s");
    }
    None
}

/// Lid, nuts, frame, filter, gasket, plate.
fn strip(scene: &Scene<'_>) -> Option<Next> {
    let seen = &scene.view.mounting;
    if !seen.lid_open {
        return next("dead-before-hands", "Open the lid of the shelter.", "open lid");
    }
    if seen.place(RigPart::Frame) == PartPlace::Holder {
        let step = "Loosen the four nuts and lift the filter frame off.";
        let held = seen.nuts.iter().any(|nut| nut.quarter_turns > 0);
        let sentence = if held { "loosen nuts" } else { "carry frame to ground" };
        return next("filter-out", step, sentence);
    }
    // A check alone is made above the filter that lies there.
    let stays = scene.papers.work_order.is_check_alone();
    if seen.place(RigPart::Filter) == PartPlace::Holder && !stays {
        let step = "Take the filter out and put it into its envelope.";
        return next("filter-out", step, "carry filter to case");
    }
    if seen.place(RigPart::Adapter) != PartPlace::Holder {
        if seen.holder_gasket == Some(false) {
            let step = "The holder has no gasket: fit the spare one, and report it.";
            return next("gaskets-seated", step, "fit holder gasket");
        }
        let step = "Look at the gasket on the holder, then put the adapter plate on.";
        return next("gaskets-seated", step, "carry adapter to holder");
    }
    None
}

fn calibrator(scene: &Scene<'_>) -> Option<Next> {
    let seen = &scene.view.mounting;
    let rule = "gaskets-seated";
    match (seen.place(RigPart::Calibrator), seen.calibrator_gasket) {
        (PartPlace::Case, _) => {
            let step = "Take the calibrator out of its case and look at the gasket under it.";
            next(rule, step, "take calibrator")
        }
        (_, Some(false)) => {
            let step = "There is no gasket under the calibrator: fit the spare one, and report it.";
            next(rule, step, "fit calibrator gasket")
        }
        _ => next(rule, "Put the calibrator on the adapter plate.", "carry calibrator to adapter"),
    }
}

/// The next step until the manometer is zeroed and its tube on the tap.
pub(super) fn manometer(scene: &Scene<'_>) -> Option<Next> {
    let (view, seen) = (&scene.view, &scene.view.manometer);
    if view.mounting.place(RigPart::Manometer) != PartPlace::Hook {
        return next("manometer-plumb", "Hang the manometer on its hook.", "hang manometer");
    }
    if seen.tilt_deg != 0.0 {
        let side = if seen.tilt_deg > 0.0 { "left" } else { "right" };
        let sentence = format!("swing manometer {side} {}", seen.tilt_deg.abs());
        return next("manometer-plumb", "Bring the manometer plumb.", sentence);
    }
    if [Leg::Left, Leg::Right].iter().any(|&leg| seen.leg(leg).valve_quarters < 4) {
        return next("valves-open", "Open both valves fully.", "open both valves");
    }
    if view.tube.kinked {
        return next("tube-clear", "Smooth the kink out of the tube.", "straighten tube");
    }
    if view.tube.on_tap {
        return None;
    }
    if view.tube.drops {
        return next("tube-clear", "Shake the water out of the tube.", "drain tube");
    }
    let at_legs = matches!(view.focus, Sight::LeftLeg | Sight::RightLeg);
    let step = "Blow gently into the tube and see both legs move; when they rest, read both against \
        zero, and slide the scale until both stand at zero.";
    if !at_legs {
        let sentence = if seen.moving { "read both legs" } else { "blow through" };
        return next("blow-through", step, sentence);
    }
    if seen.moving {
        return next("zero-seen", step, "wait 30 s");
    }
    let middle = (seen.left.meniscus_in + seen.right.meniscus_in) / 2.0;
    if middle.abs() >= 0.05 {
        let way = if middle > 0.0 { "up" } else { "down" };
        let by = (middle.abs() / 0.05).round() * 0.05;
        return next("manometer-zeroed", step, format!("slide scale {way} {by:.2}"));
    }
    next("zero-seen", "Both legs stand at zero: push the tube onto the tap.", "connect tube")
}
