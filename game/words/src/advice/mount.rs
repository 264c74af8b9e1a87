//! Sampler dead, filter out, plate and calibrator on; manometer hung, zeroed and joined.

use sim_core::rig::manometer::IceLook;
use sim_core::rig::parts::{BlowerPlug, Gasket, GaugeFluid, Leg, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::{Action, OnOff, Sight, WasherSeat};

use super::goal::Goal;
use super::next::{Advice, act, acts, wait};
use super::scene::Scene;
use crate::moves::{
    all_washers, carry, loosen_all, open_both, read_both_legs, tighten_all, top_up,
};

/// Quarter turns at which a nut is tight.
const TIGHT_QUARTERS: u8 = 7;
/// Below this, water may freeze while the work lasts, degrees Celsius.
const FROST_C: f64 = 1.0;
/// Level below the fill mark from which the manometer is topped up, mm.
const LOW_MM: f64 = 3.0;
/// Steps that an eye can tell apart in an inch of the scale: half tenths.
const HALF_TENTHS: f64 = 20.0;

/// The next step until the calibrator is on the plate.
pub(super) fn sampler(scene: &Scene<'_>) -> Option<Advice> {
    let (view, seen) = (&scene.view, &scene.view.mounting);
    let on_plate = seen.place(RigPart::Calibrator) == PartPlace::Adapter;
    let loose = seen.nuts.iter().any(|nut| nut.quarter_turns < TIGHT_QUARTERS);
    let below = seen.nuts.iter().any(|nut| nut.washer == WasherSeat::Below);
    let plate = seen.place(RigPart::Adapter) == PartPlace::Holder;
    if on_plate && plate && !loose && !below {
        return None;
    }
    dead(scene).or_else(|| prepare(scene)).or_else(|| {
        if below {
            let off = seen.nuts.iter().all(|nut| nut.quarter_turns == 0);
            let washers = all_washers(WasherSeat::Above);
            let actions = if off { washers } else { loosen_all(view) };
            return acts("washers-above", Goal::WashersAbove, actions);
        }
        if loose {
            return acts("nuts-snug", Goal::NutsTight, tighten_all(view));
        }
        calibrator(scene)
    })
}

/// The next step until nothing can start and nothing turns; also before hands go in again.
pub(super) fn dead(scene: &Scene<'_>) -> Option<Advice> {
    let power = &scene.view.power;
    let rule = "dead-before-hands";
    if power.blower_plug == BlowerPlug::LineOutlet && power.line_switch == OnOff::On {
        return act(rule, Goal::AsDone, Action::SwitchLine { to: OnOff::Off });
    }
    if power.timer_switch == TimerSwitch::On {
        return act(rule, Goal::AsDone, Action::SwitchTimer { to: TimerSwitch::Off });
    }
    if power.sampler_cord_in {
        return act("isolated", Goal::Isolated, Action::UnplugSampler);
    }
    if scene.runs() {
        return wait(rule, Goal::BlowerStopped, 30.0);
    }
    None
}

/// Taking the nuts off or, once they are off, the hold-down frame.
pub(super) fn frame_off(scene: &Scene<'_>) -> Vec<Action> {
    let held = scene.view.mounting.nuts.iter().any(|nut| nut.quarter_turns > 0);
    if held {
        loosen_all(&scene.view)
    } else {
        carry(&scene.view, RigPart::Frame, PartPlace::Ground)
    }
}

/// Lid, nuts, frame, filter, gasket, plate.
fn prepare(scene: &Scene<'_>) -> Option<Advice> {
    let (view, seen) = (&scene.view, &scene.view.mounting);
    if !seen.lid_open {
        return act("dead-before-hands", Goal::AsDone, Action::OpenLid);
    }
    if seen.place(RigPart::Frame) == PartPlace::Holder {
        return acts("filter-out", Goal::FrameOff, frame_off(scene));
    }
    // A check alone is made above the filter that lies there.
    let stays = scene.papers.work_order.is_check_alone();
    if seen.place(RigPart::Filter) == PartPlace::Holder && !stays {
        let away = carry(view, RigPart::Filter, PartPlace::Case);
        return acts("filter-out", Goal::FilterInEnvelope, away);
    }
    if seen.place(RigPart::Adapter) != PartPlace::Holder {
        if seen.holder_gasket == Some(false) {
            let fit = Action::FitGasket { gasket: Gasket::Holder };
            return act("gaskets-seated", Goal::HolderGasket, fit);
        }
        let on = carry(view, RigPart::Adapter, PartPlace::Holder);
        return acts("gaskets-seated", Goal::AdapterOnGasket, on);
    }
    None
}

fn calibrator(scene: &Scene<'_>) -> Option<Advice> {
    let seen = &scene.view.mounting;
    let rule = "gaskets-seated";
    match (seen.place(RigPart::Calibrator), seen.calibrator_gasket) {
        (PartPlace::Case, _) => {
            act(rule, Goal::CalibratorOut, Action::Take { part: RigPart::Calibrator })
        }
        (_, Some(false)) => {
            let fit = Action::FitGasket { gasket: Gasket::Calibrator };
            act(rule, Goal::CalibratorGasket, fit)
        }
        _ => {
            let on = carry(&scene.view, RigPart::Calibrator, PartPlace::Adapter);
            acts(rule, Goal::CalibratorOn, on)
        }
    }
}

/// The next step until the manometer is zeroed and its tube on the tap.
pub(super) fn manometer(scene: &Scene<'_>) -> Option<Advice> {
    let (view, seen) = (&scene.view, &scene.view.manometer);
    if let Some(step) = filling(scene) {
        return Some(step);
    }
    if view.mounting.place(RigPart::Manometer) != PartPlace::Hook {
        let hang = carry(view, RigPart::Manometer, PartPlace::Hook);
        return acts("manometer-plumb", Goal::AsDone, hang);
    }
    if let Some(display) = seen.display {
        return super::display::ready(scene, display);
    }
    if seen.tilt_deg != 0.0 {
        let swing = Action::SwingManometer { by_deg: -seen.tilt_deg };
        return act("manometer-plumb", Goal::Plumb, swing);
    }
    // For the leak check they stay shut.
    let spared = view.tube.on_tap && scene.runs() && !scene.history.leak_checked();
    let shut = [Leg::Left, Leg::Right].iter().any(|&leg| seen.leg(leg).valve_quarters < 4);
    if shut && !spared {
        return acts("valves-open", Goal::AsDone, open_both(view));
    }
    if view.tube.kinked {
        return act("tube-clear", Goal::AsDone, Action::StraightenTube);
    }
    if view.tube.on_tap && view.tube.drops {
        return act("tube-clear", Goal::AsDone, Action::DisconnectTube);
    }
    if view.tube.on_tap {
        return None;
    }
    if view.tube.drops {
        return act("tube-clear", Goal::AsDone, Action::DrainTube);
    }
    zero(scene)
}

/// Ice, dirt and frost before the manometer is hung; too little in it once it hangs.
fn filling(scene: &Scene<'_>) -> Option<Advice> {
    let (view, seen) = (&scene.view, &scene.view.manometer);
    let rule = "manometer-liquid";
    let frost = view.thermometer.column_c < FROST_C;
    let freezes = seen.fluid == GaugeFluid::Water;
    let bad = seen.ice != IceLook::None || seen.dirty;
    let hangs = view.mounting.place(RigPart::Manometer) == PartPlace::Hook;
    if freezes && (bad || frost && !view.tube.on_tap) {
        if hangs {
            let off = carry(view, RigPart::Manometer, PartPlace::Case);
            return acts(rule, Goal::AsDone, off);
        }
        let to = if frost { GaugeFluid::Antifreeze } else { GaugeFluid::Water };
        return act(rule, Goal::FilledAnew, Action::ChangeFluid { to });
    }
    if hangs && !view.tube.on_tap && seen.below_mark_mm > LOW_MM {
        let right_open = seen.leg(Leg::Right).valve_quarters > 0;
        let actions = if right_open { top_up(view) } else { open_both(view) };
        return acts("manometer-zeroed", Goal::ToppedUp, actions);
    }
    None
}

/// The water seen to move and to rest, and both legs at zero.
fn zero(scene: &Scene<'_>) -> Option<Advice> {
    let seen = &scene.view.manometer;
    if !scene.history.blown_through() {
        let mut actions = vec![Action::BlowThrough];
        actions.extend(read_both_legs());
        return acts("blow-through", Goal::Zeroed, actions);
    }
    if seen.moving {
        return wait("zero-seen", Goal::Zeroed, 30.0);
    }
    let at_legs = matches!(scene.view.focus, Sight::LeftLeg | Sight::RightLeg);
    if !scene.history.zero_seen() || !at_legs {
        return acts("zero-seen", Goal::Zeroed, read_both_legs());
    }
    let middle_in = (seen.left.meniscus_in + seen.right.meniscus_in) / 2.0;
    // Half of what an eye tells is left alone: it would be slid to and fro.
    if middle_in.abs() * HALF_TENTHS >= 1.0 {
        let slide = Action::SlideScale { by_in: (middle_in * HALF_TENTHS).round() / HALF_TENTHS };
        return act("manometer-zeroed", Goal::Zeroed, slide);
    }
    act("zero-seen", Goal::ZeroedAndJoined, Action::ConnectTube)
}
