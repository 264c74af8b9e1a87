//! What a signed session lays open: its evidence, with the rig's true response.

use super::TrueResponse;
use crate::procedure::Evidence;
use crate::rig::Rig;
use crate::rig::blower::Warmth;
use crate::rig::flow_path::{Inlet, Machine};
use crate::rig::operating_point::{Conditions, steady};
use crate::rig::recorder::RecorderInputs;
use crate::session::signed::Signed;
use crate::units::PA_PER_INH2O;

/// Voltages at which the sampler's flow is worked out with its filter, as shares of the nominal
/// line voltage: the controller's way of making less flow.
const VOLTAGES: [f64; 9] = [0.45, 0.5, 0.56, 0.63, 0.7, 0.78, 0.86, 0.93, 1.0];

/// Shares of the clean filter's resistance at full voltage: more flow than the filter lets through.
const RESISTANCES: [f64; 5] = [0.8, 0.6, 0.4, 0.2, 0.0];

/// Nominal line voltage, V.
const NOMINAL_V: f64 = 120.0;

impl Signed {
    /// Everything that rules and marks look at.
    pub fn evidence(&self) -> Evidence<'_> {
        Evidence {
            setup: &self.setup,
            moments: &self.moments,
            book: &self.book,
            end: &self.end,
            end_tick: self.end_tick,
            ended: self.ended,
            true_response: true_response(&self.rig),
        }
    }
}

/// What a chart reading truly means on this rig: flow against the reading of a pen at rest, in
/// sampling condition (filter fitted, nothing leaking, blower warm) in the air of the session's end.
pub fn true_response(rig: &Rig) -> TrueResponse {
    let resistance =
        rig.filter.resistance_pa_s_m3(&rig.parameters.filter, rig.ambient().temperature_k);
    let weaker = VOLTAGES.map(|share| (NOMINAL_V * share, resistance));
    let freer = RESISTANCES.map(|share| (NOMINAL_V, resistance * share));
    TrueResponse::new(
        weaker.into_iter().chain(freer).map(|(volts, filter)| sampled(rig, volts, filter)),
    )
}

/// Chart reading at rest and true flow at one voltage and filter resistance.
fn sampled(rig: &Rig, volts: f64, filter_pa_s_m3: f64) -> (f64, f64) {
    let parameters = &rig.parameters;
    let machine = Machine { blower: &parameters.blower, path: &parameters.flow_path };
    let conditions = Conditions {
        ambient: *rig.ambient(),
        inlet: Inlet { calibrator: None, filter_pa_s_m3: Some(filter_pa_s_m3), leak_cda_m2: 0.0 },
        volts,
        warmth: Warmth::warm(&parameters.blower),
    };
    let flow = steady(machine, &conditions).flow;
    let inputs = RecorderInputs {
        exit_inh2o: flow.exit_pressure_pa / PA_PER_INH2O,
        flow_std_m3_min: flow.flow_std_m3_min(),
    };
    (rig.recorder.pen_at_rest(inputs), flow.flow_std_m3_min())
}
