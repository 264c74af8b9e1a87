//! The view of a state: the one place where truth becomes what can be seen.

use super::action::Sight;
use super::state::SessionState;
use super::view::{
    BarometerView, BlowerView, CalibratorView, DisplayView, LegView, ManometerView, MountingView,
    NutFeel, NutView, OrificeEdge, PlatesView, PowerView, RecorderView, RunStanding, RunView,
    SkyView, ThermometerView, TubeView, View,
};
use crate::fault::Fault;
use crate::math::TAU;
use crate::rig::Rig;
use crate::rig::flow::calibrator::CalibratorKind;
use crate::rig::flow::mounting::{HARD_QUARTERS, SNUG_QUARTERS};
use crate::rig::manometer::IceLook;
use crate::rig::parts::{AirOpening, Gasket, GaugeFluid, Leg, Nut};
use crate::scenario::setup::Setup;
use crate::time::{Date, Tick, TimeOfDay};

/// Standard deviation of the wind pressure that is felt as constant gusts, Pa.
const STRONG_GUST_PA: f64 = 40.0;

/// Speed below which a shaft is seen to stand, rad/s: a turn in six seconds (CHOSEN).
const SEEN_RAD_S: f64 = 1.0;

/// Flow at which the air rushes as in use, standard m3/min: the upper end of the range of a sampler (CHOSEN).
const USUAL_STD_M3_MIN: f64 = 1.7;

/// What can be seen in a state. While nobody is at the site, that is what was seen last, with the
/// watch and the papers: neither the weather nor the run can be told from it.
pub(super) fn view(state: &SessionState, setup: &Setup, now: Tick, limit: Option<Tick>) -> View {
    let Some(seen) = state.last_seen.as_deref().filter(|_| state.is_away()) else {
        return at_site(state, setup, now, limit);
    };
    let (date, time) = date_and_time(setup, now);
    let run = seen.run.clone().map(|run| Box::new(RunView { standing: RunStanding::Away, ..*run }));
    View {
        tick: now,
        date,
        time,
        seconds_left: seconds_left(limit, now),
        focus: state.eyes.focus,
        eye_mm: state.eyes.eye_mm,
        run,
        ..seen.clone()
    }
}

/// Date and time at a tick.
fn date_and_time(setup: &Setup, now: Tick) -> (Date, TimeOfDay) {
    let date = setup.station.date.later(super::run_of::days_at(setup, now));
    (date, setup.station.start.after(now))
}

/// Seconds that the time limit leaves.
fn seconds_left(limit: Option<Tick>, now: Tick) -> Option<f64> {
    limit.map(|limit| limit.seconds_since(now))
}

/// What can be seen at the site.
pub(super) fn at_site(state: &SessionState, setup: &Setup, now: Tick, limit: Option<Tick>) -> View {
    let rig = &state.rig;
    let focus = state.eyes.focus;
    let (date, time) = date_and_time(setup, now);
    View {
        tick: now,
        date,
        time,
        seconds_left: seconds_left(limit, now),
        focus,
        eye_mm: state.eyes.eye_mm,
        hand: rig.mounting.hand(),
        sky: sky(state),
        mounting: mounting(rig),
        power: power(rig),
        blower: blower(state),
        calibrator: calibrator(state),
        tube: tube(state),
        manometer: manometer(state, setup),
        recorder: recorder(rig),
        barometer: BarometerView {
            pointer_mmhg: rig.barometer_mmhg(),
            set_to: (focus == Sight::Barometer).then(|| rig.barometer.set_to()),
            certified: (focus == Sight::Barometer)
                .then(|| certified(setup, rig.barometer.certified_days)),
        },
        thermometer: ThermometerView {
            column_c: rig.thermometer.column_c(),
            exposure: rig.thermometer.exposure(),
            moving: rig.thermometer.is_moving(),
            certified: (focus == Sight::Thermometer)
                .then(|| certified(setup, rig.thermometer.certified_days)),
        },
        run: super::run_of::view(state, setup).map(Box::new),
    }
}

/// The date on a sticker that was written so many days before the day of the session.
fn certified(setup: &Setup, days: f64) -> Date {
    setup.station.date.earlier(days.round() as i64)
}

fn sky(state: &SessionState) -> SkyView {
    let plan = state.station.plan();
    SkyView {
        sunny: plan.sun_k > 0.0,
        thunder_since_s: state.station.thunder_since_s(),
        wind: (state.station.felt_gust_sd_pa() / STRONG_GUST_PA).min(1.0),
    }
}

fn mounting(rig: &Rig) -> MountingView {
    let seen = &rig.mounting;
    let gasket = |gasket, there| seen.gasket_in_sight(gasket).then_some(there);
    let [a, b, c, d] = Nut::ALL;
    MountingView {
        lid_open: seen.lid_open,
        nuts: [nut(rig, a), nut(rig, b), nut(rig, c), nut(rig, d)],
        places: seen.places,
        holder_gasket: gasket(Gasket::Holder, seen.holder_gasket),
        calibrator_gasket: gasket(Gasket::Calibrator, seen.calibrator_gasket),
        flat_gasket: [Gasket::Holder, Gasket::Calibrator]
            .into_iter()
            .find(|&gasket| seen.is_flat(gasket) && seen.gasket_in_sight(gasket)),
        inlet: rig.shelter.stopper(AirOpening::Inlet),
        exhaust: rig.shelter.stopper(AirOpening::Exhaust),
    }
}

/// A nut as seen. One that has worked loose looks like the others until somebody tries it by hand.
fn nut(rig: &Rig, nut: Nut) -> NutView {
    let turns = rig.mounting.nut(nut);
    let feel = match turns {
        0 => NutFeel::Off,
        turns if turns >= HARD_QUARTERS => NutFeel::Hard,
        turns if turns >= SNUG_QUARTERS => NutFeel::Snug,
        _ => NutFeel::Free,
    };
    let washer = rig.mounting.washer(nut);
    NutView { feel, washer, quarter_turns: turns }
}

fn power(rig: &Rig) -> PowerView {
    PowerView {
        sampler_cord_in: rig.power.sampler_cord_in,
        blower_plug: rig.power.blower_plug,
        line_switch: rig.power.line_switch,
        timer_switch: rig.timer.switch,
        controller_lamp: rig.controller_live(),
        trim_turns: rig.flow_controller.turns,
        outlet_tripped: rig.ground_fault.is_tripped(),
        cord_damaged: rig.ground_fault.is_cord_damaged(),
    }
}

fn blower(state: &SessionState) -> BlowerView {
    let rig = &state.rig;
    let speed = rig.blower.speed_ratio(&rig.parameters.blower);
    let wanders = |fault: &Fault| matches!(fault, Fault::WanderingVoltage { .. });
    let sparks = rig.parameters.blower.motor.sparks();
    let wavering = rig.is_powered() && (sparks || state.faults.in_force.iter().any(wanders));
    BlowerView {
        // CHOSEN: the ear hears less of a drop than the sound's pressure shows.
        loudness: speed.min(1.0),
        rush: (10.0 * rig.flow().flow_std_m3_min() / USUAL_STD_M3_MIN).round().clamp(0.0, 10.0)
            / 10.0,
        turning: (state.eyes.focus == Sight::Blower).then_some(rig.blower.speed_rad_s > SEEN_RAD_S),
        pitch_hz: rig.blower.speed_rad_s / TAU,
        wavering,
        hiss: rig.hiss(),
        hot_smell: rig.blower.smells_hot(&rig.parameters.blower),
    }
}

fn calibrator(state: &SessionState) -> CalibratorView {
    let rig = &state.rig;
    let close = state.eyes.focus == Sight::Calibrator;
    let edge = state.faults.in_force.iter().find_map(|fault| match fault {
        Fault::OrificeNicked { .. } => Some(OrificeEdge::Nicked),
        Fault::OrificeFouled { .. } => Some(OrificeEdge::Dirty),
        _ => None,
    });
    CalibratorView {
        serial: close.then(|| rig.parameters.calibrator_serial.clone()),
        knob: rig.calibrator.opening,
        blocked: rig.calibrator.blocked,
        edge: close.then_some(edge.unwrap_or(OrificeEdge::Sharp)),
        plates: match rig.parameters.calibrator.kind {
            CalibratorKind::VariableOpening => None,
            CalibratorKind::FixedPlates => Some(PlatesView { inserted: rig.calibrator.plate }),
        },
    }
}

fn tube(state: &SessionState) -> TubeView {
    let tube = &state.rig.tube;
    let close = state.eyes.focus == Sight::Tube;
    TubeView {
        on_tap: tube.is_on_tap(),
        kinked: tube.is_kinked(),
        drops: tube.has_drops(),
        crack: close.then_some(tube.is_cracked()),
        loose: close.then_some(tube.is_loose()),
        ice: tube.is_frozen(),
    }
}

fn manometer(state: &SessionState, setup: &Setup) -> ManometerView {
    let (rig, eye_mm) = (&state.rig, state.eyes.eye_mm);
    if rig.is_electronic() {
        return display(state, setup);
    }
    let manometer = &rig.manometer;
    let leg = |leg: Leg| {
        let seen = manometer.seen(leg, eye_mm);
        LegView {
            valve_quarters: manometer.valve_quarters(leg),
            meniscus_in: seen.meniscus_in,
            rim_in: seen.rim_in,
        }
    };
    ManometerView {
        tilt_deg: manometer.tilt_deg(),
        left: leg(Leg::Left),
        right: leg(Leg::Right),
        scale_in: manometer.scale_in(),
        moving: manometer.is_moving(),
        bubble: manometer.has_bubble(),
        fluid: manometer.fluid(),
        below_mark_mm: manometer.below_mark_mm(),
        ice: manometer.ice_look(),
        dirty: manometer.is_dirty(),
        display: None,
    }
}

/// An electronic manometer: a display, and nothing that could be read of legs.
fn display(state: &SessionState, setup: &Setup) -> ManometerView {
    let electronic = &state.rig.electronic;
    let leg = LegView { valve_quarters: 0, meniscus_in: 0.0, rim_in: 0.0 };
    let close = state.eyes.focus == Sight::Manometer;
    ManometerView {
        tilt_deg: 0.0,
        left: leg,
        right: leg,
        scale_in: 0.0,
        moving: electronic.is_moving(),
        bubble: false,
        fluid: GaugeFluid::Water,
        below_mark_mm: 0.0,
        ice: IceLook::None,
        dirty: false,
        display: Some(DisplayView {
            shows: electronic.shown(),
            battery_low: electronic.battery_is_low(),
            calibrated: close.then(|| {
                setup.station.date.earlier(electronic.parameters.label_days.round() as i64)
            }),
        }),
    }
}

fn recorder(rig: &Rig) -> RecorderView {
    let recorder = &rig.recorder;
    let paper = &rig.chart;
    RecorderView {
        door_open: recorder.is_door_open(),
        capped: recorder.is_capped(),
        on_paper: recorder.is_on_paper(),
        leaves_ink: (recorder.is_on_paper() && !recorder.is_capped())
            .then(|| recorder.nib().is_some()),
        pen: (!recorder.is_capped()).then(|| recorder.pen()),
        moving: recorder.is_moving(),
        chart_hour: paper.hour(),
        printed_to: recorder.printed_to(),
        scale: recorder.parameters.kind,
        line_off: !recorder.line.is_on(),
        line_kinked: recorder.line.is_kinked(),
        line_drops: recorder.line.is_wet(),
        arm_bent: recorder.is_arm_bent(),
        marks: paper.marks().iter().map(|mark| (mark.hour, mark.label.clone())).collect(),
        trace: paper.trace().iter().map(|point| (point.hour, point.divisions)).collect(),
    }
}
