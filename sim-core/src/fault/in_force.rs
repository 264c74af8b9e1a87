//! What each fault does to the rig, the weather and the mains when it begins, and how one that
//! comes and goes is taken away again.

use super::Fault;
use crate::rig::Rig;
use crate::rig::manometer::ScaleSlide;
use crate::rig::parts::{BarometerReference, Exposure, FilterSide, Leg, Trip, WasherSeat};
use crate::rig::recorder::Ink;
use crate::rig::station::Station;

/// Puts a fault in force. Faults of the papers are in the papers from the start: a scenario prints
/// them there.
pub(crate) fn put_in_force(fault: &Fault, rig: &mut Rig, station: &mut Station, seed: u64) {
    match *fault {
        Fault::ManometerValveLeaks { .. }
        | Fault::ManometerValveBarelyOpens { .. }
        | Fault::ManometerValveShut { .. }
        | Fault::ManometerBubble { .. }
        | Fault::ManometerOutOfPlumb { .. }
        | Fault::ManometerWrongFluid { .. }
        | Fault::ManometerScaleStuck
        | Fault::ManometerUnequalBores { .. } => manometer(fault, rig),
        Fault::TubeKinked => rig.tube.kink(),
        Fault::TubeCracked { ratio } => rig.tube.crack(ratio),
        Fault::TubeLoose { ratio } => rig.tube.loosen(ratio),
        Fault::TubeWet { height_in } => rig.tube.wet(height_in),
        Fault::OrificeNicked { area_pct } => {
            rig.parameters.calibrator.orifice_cda_m2 *= 1.0 + area_pct / 100.0;
        }
        Fault::OrificeFouled { area_pct } => {
            rig.parameters.calibrator.orifice_cda_m2 *= 1.0 - area_pct / 100.0;
        }
        Fault::KnobSlips { per_min } => rig.parameters.calibrator.slips_per_min = per_min,
        Fault::CalibratorGasketMissing { .. }
        | Fault::HolderGasketMissing { .. }
        | Fault::NutLoose { .. }
        | Fault::WasherBelow { .. }
        | Fault::PlateWarped { .. } => mounting(fault, rig),
        Fault::WornBrushes { added_ohm } => {
            rig.parameters.blower.motor.brush_ohm_added = added_ohm;
        }
        Fault::BearingDrag { factor } => rig.parameters.blower.motor.friction_factor = factor,
        Fault::ControllerDrifts { k_h } => rig.parameters.flow_controller.sensor_drift_k_h = k_h,
        Fault::ControllerProbeFouled { share } => rig.parameters.flow_controller.fouling = share,
        Fault::ControllerSaturates { lost_v } => rig.parameters.flow_controller.lost_v = lost_v,
        Fault::PenSticks { .. }
        | Fault::PenZeroOff { .. }
        | Fault::PenDry
        | Fault::RecorderLineLeaks { .. }
        | Fault::ExitOrificeBlocked { .. }
        | Fault::ChartOfAnotherRange { .. }
        | Fault::ChartClockSlow { .. } => recorder(fault, rig),
        Fault::FilterTorn { .. }
        | Fault::FilterPinholes { .. }
        | Fault::FilterUpsideDown
        | Fault::FilterOffCentre
        | Fault::FilterWet { .. }
        | Fault::TripperLoose { .. }
        | Fault::TimerGains { .. }
        | Fault::TimerWrongDay => run(fault, rig),
        Fault::FilterClogs { factor } => station.raise_dust(factor, DUST_EVENT_H),
        Fault::PowerCut { minutes } => station.cut_power(minutes),
        Fault::WanderingVoltage { .. }
        | Fault::LowVoltage { .. }
        | Fault::Gusts { .. }
        | Fault::FastWeather { .. }
        | Fault::BarometerAtSeaLevel
        | Fault::BarometerOff { .. }
        | Fault::ThermometerInSun { .. } => surroundings(fault, rig, station, seed),
        Fault::CertificateExpired
        | Fault::CertificateOfAnother
        | Fault::CertificateActualFirst
        | Fault::CertificateFarFromLast
        | Fault::CertificateDigitsExchanged => {}
    }
    rig.flow_was_disturbed();
}

/// How long a dust event lasts, h (CHOSEN).
const DUST_EVENT_H: f64 = 4.0;

/// Faults of filter and timer.
fn run(fault: &Fault, rig: &mut Rig) {
    let (next, clock) = (&mut rig.next_sheet, rig.timer.clock.as_mut());
    match *fault {
        Fault::FilterTorn { area_mm2 } | Fault::FilterPinholes { area_mm2 } => {
            next.holes_mm2 = area_mm2;
        }
        Fault::FilterUpsideDown => next.up = FilterSide::Smooth,
        Fault::FilterWet { factor } => next.wetness = factor,
        Fault::FilterOffCentre => rig.frame_shifts = true,
        Fault::TripperLoose { by_h } => {
            if let Some(clock) = clock {
                clock.loose = Some((Trip::Off, by_h));
            }
        }
        Fault::TimerGains { pct } => {
            if let Some(clock) = clock {
                clock.gain_pct = pct;
            }
        }
        Fault::TimerWrongDay => {
            if let Some(clock) = clock {
                clock.ahead_h += 24.0;
            }
        }
        _ => {}
    }
}

/// Takes away again a fault that comes and goes. Any other stays.
pub(crate) fn withdraw(fault: &Fault, rig: &mut Rig, station: &mut Station) {
    let sound = &rig.parameters;
    match *fault {
        Fault::ManometerScaleStuck => rig.manometer.parameters.scale = ScaleSlide::Free,
        Fault::KnobSlips { .. } => rig.parameters.calibrator.slips_per_min = 0.0,
        Fault::WornBrushes { .. } => rig.parameters.blower.motor.brush_ohm_added = 0.0,
        Fault::BearingDrag { .. } => rig.parameters.blower.motor.friction_factor = 1.0,
        Fault::WanderingVoltage { .. } => station.calm_mains(),
        Fault::LowVoltage { .. } => station.lower_mains(0.0),
        Fault::Gusts { .. } => station.calm_gusts(),
        Fault::FastWeather { .. } => station.set_front(0.0),
        Fault::PenSticks { .. } => {
            rig.recorder.parameters.backlash_inh2o = sound.recorder.backlash_inh2o;
        }
        Fault::PenDry => rig.recorder.parameters.ink = Ink::Wet,
        Fault::RecorderLineLeaks { .. } => rig.recorder.parameters.line_leak_ratio = 0.0,
        _ => {}
    }
    rig.flow_was_disturbed();
}

fn manometer(fault: &Fault, rig: &mut Rig) {
    let parameters = &mut rig.manometer.parameters;
    let mut passes = |leg, share| {
        let [left, right] = &mut parameters.valve_passes;
        *match leg {
            Leg::Left => left,
            Leg::Right => right,
        } = share;
    };
    match *fault {
        Fault::ManometerValveBarelyOpens { leg, passes: share } => passes(leg, share),
        Fault::ManometerValveShut { leg } => passes(leg, 0.0),
        Fault::ManometerValveLeaks { leg: Leg::Left, ratio } => parameters.left_leak_ratio = ratio,
        Fault::ManometerValveLeaks { leg: Leg::Right, ratio } => {
            parameters.right_leak_ratio = ratio;
        }
        Fault::ManometerBubble { length_mm } => parameters.bubble_mm = length_mm,
        Fault::ManometerOutOfPlumb { tilt_deg } => rig.parameters.hook_tilt_deg = tilt_deg,
        Fault::ManometerWrongFluid { relative_density } => {
            parameters.relative_density = relative_density;
        }
        Fault::ManometerScaleStuck => parameters.scale = ScaleSlide::Stuck,
        Fault::ManometerUnequalBores { wider_mm } => parameters.left_bore_mm += wider_mm,
        _ => {}
    }
}

fn mounting(fault: &Fault, rig: &mut Rig) {
    let mounting = &mut rig.mounting;
    match *fault {
        Fault::CalibratorGasketMissing { leak_mm2 } => {
            mounting.calibrator_gasket = false;
            mounting.parameters.calibrator_gasket_leak_mm2 = leak_mm2;
        }
        Fault::HolderGasketMissing { leak_mm2 } => {
            mounting.holder_gasket = false;
            mounting.parameters.holder_gasket_leak_mm2 = leak_mm2;
        }
        Fault::NutLoose { nut, leak_mm2 } => mounting.working_loose = Some((nut, leak_mm2)),
        Fault::WasherBelow { nut, leak_mm2 } => {
            if let Some(seat) = mounting.washers.get_mut(nut.index()) {
                *seat = WasherSeat::Below;
            }
            mounting.parameters.washer_below_leak_mm2 = leak_mm2;
        }
        Fault::PlateWarped { leak_mm2 } => mounting.warped_leak_mm2 = leak_mm2,
        _ => {}
    }
}

fn recorder(fault: &Fault, rig: &mut Rig) {
    let parameters = &mut rig.recorder.parameters;
    match *fault {
        Fault::PenSticks { play_inh2o } => parameters.backlash_inh2o = play_inh2o,
        Fault::PenZeroOff { divisions } => rig.recorder.turn_zero(divisions),
        Fault::PenDry => parameters.ink = Ink::Dry,
        Fault::RecorderLineLeaks { ratio } => parameters.line_leak_ratio = ratio,
        Fault::ExitOrificeBlocked { area_pct } => {
            rig.parameters.flow_path.exit_cda_m2 *= 1.0 - area_pct / 100.0;
        }
        Fault::ChartOfAnotherRange { pct } => parameters.printed_more_pct = pct,
        Fault::ChartClockSlow { pct } => parameters.clock_loss_pct = pct,
        _ => {}
    }
}

fn surroundings(fault: &Fault, rig: &mut Rig, station: &mut Station, seed: u64) {
    match *fault {
        Fault::WanderingVoltage { sd_v } => station.set_mains_wander(seed, sd_v),
        Fault::LowVoltage { by_v } => station.lower_mains(by_v),
        Fault::Gusts { sd_pa } => station.set_gusts(seed, sd_pa),
        Fault::FastWeather { k_h } => station.set_front(k_h),
        Fault::BarometerAtSeaLevel => rig.barometer.set(BarometerReference::SeaLevel),
        Fault::BarometerOff { mmhg } => rig.barometer.offset_mmhg += mmhg,
        Fault::ThermometerInSun { by_k } => {
            rig.parameters.sun_k = by_k;
            rig.thermometer.place(Exposure::Sun);
        }
        _ => {}
    }
}
