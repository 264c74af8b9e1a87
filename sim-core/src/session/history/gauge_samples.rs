//! Traces taken while a session is replayed: the gauges as seen, and what was true.

use serde::Serialize;

use crate::fault::Fault;
use crate::rig::manometer::electronic::Shown;
use crate::rig::parts::{Leg, PartPlace, RigPart};
use crate::session::state::SessionState;
use crate::time::{TICKS_PER_SECOND, Tick};
use crate::units::PA_PER_INH2O;

/// Ticks from one sample to the next, at first: one second.
const TICKS_APART: u64 = TICKS_PER_SECOND;
/// The largest number of samples kept (CHOSEN: four and a half hours at one a second, two
/// megabytes).
const MOST_SAMPLES: usize = 16_384;

/// The gauges at one moment.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct GaugeSample {
    /// When.
    pub tick: Tick,
    /// What could be seen.
    pub seen: SeenGauges,
    /// What was true.
    pub truth: TrueGauges,
}

/// What could be seen on the gauges at one moment.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SeenGauges {
    /// Where the lowest edges of the menisci were seen on the scale from the height of the eye,
    /// left and right, inches, positive above zero; none while the manometer was not on its hook. Of an
    /// electronic manometer half of its reading, up and down; none while it shows no reading.
    pub legs_in: Option<[f64; 2]>,
    /// Where the pen's tip was, chart divisions; none while it was capped.
    pub pen: Option<f64>,
}

impl SeenGauges {
    /// The height from one meniscus to the other, inches.
    pub fn delta_h_in(&self) -> Option<f64> {
        self.legs_in.map(|[left, right]| left - right)
    }
}

/// What was true at one moment.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TrueGauges {
    /// Pressure across the calibrator's orifice, inches of water.
    pub orifice_inh2o: f64,
    /// Where the pen would rest at this flow without any fault, chart divisions.
    pub undisturbed_pen: f64,
    /// Flow at the sampler's inlet, standard m3/min.
    pub flow_std_m3_min: f64,
    /// The part of it that passes through the calibrator, standard m3/min.
    pub calibrator_flow_std_m3_min: f64,
    /// Effective leak area past the calibrator, mm2.
    pub leak_mm2: f64,
}

/// The faults in force from a moment on.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FaultsInForce {
    /// Since when.
    pub tick: Tick,
    /// All of them.
    pub faults: Vec<Fault>,
}

/// Samples in order of time, at most `apart` ticks apart unless a single step is longer.
#[derive(Debug)]
pub(super) struct GaugeSamples {
    kept: Vec<GaugeSample>,
    faults: Vec<FaultsInForce>,
    apart: u64,
}

impl GaugeSamples {
    pub fn begin(state: &SessionState) -> Self {
        let faults =
            vec![FaultsInForce { tick: state.tick, faults: state.faults.in_force.clone() }];
        Self { kept: vec![sample(state)], faults, apart: TICKS_APART }
    }

    /// Takes a sample of a state after a step, if one is due.
    pub fn look(&mut self, state: &SessionState) {
        let in_force = &state.faults.in_force;
        if self.faults.last().is_none_or(|last| last.faults != *in_force) {
            self.faults.push(FaultsInForce { tick: state.tick, faults: in_force.clone() });
        }
        match self.kept.last_mut() {
            // What is done in a tick belongs to that tick.
            Some(last) if last.tick == state.tick => *last = sample(state),
            Some(last) if state.tick.0 < last.tick.0 + self.apart => (),
            _ => self.kept.push(sample(state)),
        }
        if self.kept.len() >= MOST_SAMPLES {
            let kept = std::mem::take(&mut self.kept);
            self.kept = kept.into_iter().step_by(2).collect();
            self.apart *= 2;
        }
    }

    /// Takes the last sample.
    pub fn end(&mut self, state: &SessionState) {
        self.kept.retain(|sample| sample.tick < state.tick);
        self.kept.push(sample(state));
    }

    pub fn kept(&self) -> &[GaugeSample] {
        &self.kept
    }

    pub fn faults(&self) -> &[FaultsInForce] {
        &self.faults
    }
}

fn sample(state: &SessionState) -> GaugeSample {
    let rig = &state.rig;
    let hung = rig.mounting.place(RigPart::Manometer) == PartPlace::Hook;
    let leg = |leg| rig.manometer.seen(leg, state.eyes.eye_mm).meniscus_in;
    let shown_in = match rig.electronic.shown() {
        Shown::Reading(reading_in) => Some(reading_in),
        _ => None,
    };
    let flow = rig.flow();
    GaugeSample {
        tick: state.tick,
        seen: SeenGauges {
            legs_in: match rig.is_electronic() {
                false => hung.then(|| [leg(Leg::Left), leg(Leg::Right)]),
                true => shown_in.filter(|_| hung).map(|shown| [0.5 * shown, -0.5 * shown]),
            },
            pen: (!rig.recorder.is_capped()).then(|| rig.recorder.pen()),
        },
        truth: TrueGauges {
            orifice_inh2o: flow.orifice_drop_pa / PA_PER_INH2O,
            undisturbed_pen: rig.recorder.undisturbed(rig.recorder_inputs()),
            flow_std_m3_min: flow.flow_std_m3_min(),
            calibrator_flow_std_m3_min: flow.calibrator_flow_std_m3_min(),
            leak_mm2: rig.mounting.leak_mm2(),
        },
    }
}
