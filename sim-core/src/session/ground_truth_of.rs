//! What is true in a state, as plain values for the rules and the marks.

use super::ground_truth::{DisplayTruth, GroundTruth};
use super::run_of;
use super::state::SessionState;
use crate::rig::manometer::electronic::{ElectronicManometer, Shown};
use crate::rig::manometer::valve::FULLY_OPEN;
use crate::rig::parts::Leg;
use crate::session::action::{BarometerReference, Exposure, OnOff, WasherSeat};
use crate::units::{PA_PER_INH2O, PA_PER_MMHG, ZERO_CELSIUS_K};

impl SessionState {
    /// What is true now.
    pub(super) fn ground_truth(&self) -> GroundTruth {
        let rig = &self.rig;
        let around = self.station.surroundings();
        let mounting = &rig.mounting;
        let manometer = &rig.manometer;
        let counters = rig.counters();
        let electronic = rig.is_electronic().then_some(&rig.electronic);
        let half_in = rig.flow().orifice_drop_pa / PA_PER_INH2O / 2.0;
        let relative = manometer.fluid().relative_density();
        GroundTruth {
            powered: rig.is_powered(),
            speed_ratio: rig.blower.speed_ratio(&rig.parameters.blower),
            sampler_cord_in: rig.power.sampler_cord_in,
            blower_plug: rig.power.blower_plug,
            line_on: rig.power.line_switch == OnOff::On,
            running_s: counters.running_s,
            winding_c: rig.blower.warmth.winding_k - ZERO_CELSIUS_K,
            longest_blocked_s: counters.longest_blocked_s,

            lid_open: mounting.lid_open,
            nut_turns: mounting.nuts,
            washer_above: mounting.washers.map(|seat| seat == WasherSeat::Above),
            places: mounting.places,
            holder_gasket: mounting.holder_gasket,
            calibrator_gasket: mounting.calibrator_gasket,
            leak_mm2: mounting.leak_mm2(),

            opening: rig.calibrator.open_share(rig.parameters.calibrator.kind),
            blocked: rig.calibrator.blocked,
            steady_s: counters.steady_s,
            flow_std_m3_min: rig.flow().flow_std_m3_min(),
            calibrator_flow_std_m3_min: rig.flow().calibrator_flow_std_m3_min(),

            tube_on_tap: rig.tube.is_on_tap(),
            valve_quarters: match electronic {
                None => [manometer.valve_quarters(Leg::Left), manometer.valve_quarters(Leg::Right)],
                Some(_) => [FULLY_OPEN; 2],
            },
            tilt_deg: if electronic.is_some() { 0.0 } else { manometer.tilt_deg() },
            zero_in: electronic.map_or_else(|| manometer.zero_in(), |seen| halves(seen.zero_in())),
            menisci_in: electronic
                .map_or_else(|| manometer.levels_in(), |seen| halves(read_in(seen))),
            undisturbed_menisci_in: [half_in / relative, -(half_in / relative)],
            water_speed_in_s: if electronic.is_some() { 0.0 } else { manometer.speed_in_s() },
            display: electronic.map(|seen| DisplayTruth {
                shows: seen.shown(),
                battery_low: seen.battery_is_low(),
                unsettled_in: seen.unsettled_in(),
                label_days: seen.parameters.label_days,
            }),
            orifice_inh2o: 2.0 * half_in,
            blown_through: rig.blown_through(),
            fluid: manometer.fluid(),
            below_mark_mm: manometer.below_mark_mm(),
            ice: manometer.ice(),
            tube_water_in: rig.tube.water_in(),

            capped: rig.recorder.is_capped(),
            on_paper: rig.recorder.is_on_paper(),
            pen: rig.recorder.pen(),
            pen_at_rest: rig.recorder.pen_at_rest(rig.recorder_inputs()),
            undisturbed_pen: rig.recorder.undisturbed(rig.recorder_inputs()),
            taps: counters.taps,

            pressure_mmhg: around.pressure_pa / PA_PER_MMHG,
            temperature_c: around.temperature_k - ZERO_CELSIUS_K,
            barometer_mmhg: rig.barometer_mmhg(),
            thermometer_c: rig.thermometer.column_c(),
            barometer_at_station: rig.barometer.set_to() == BarometerReference::Station,
            thermometer_shaded: rig.thermometer.exposure() == Exposure::Shade,
            thunder_since_s: self.station.thunder_since_s(),

            eye_mm: self.eyes.eye_mm,
            faults: self.faults.in_force.clone(),
            run: run_of::ground_truth(self),
        }
    }
}

/// A difference as two legs show it.
fn halves(difference_in: f64) -> [f64; 2] {
    [0.5 * difference_in, -0.5 * difference_in]
}

/// What can be read on a display, inches of water: nothing on a dark one, and its range where that is
/// exceeded.
fn read_in(display: &ElectronicManometer) -> f64 {
    match display.shown() {
        Shown::Reading(reading_in) => reading_in,
        Shown::OverRange => display.parameters.range_in,
        Shown::Nothing | Shown::SelfTest => 0.0,
    }
}
