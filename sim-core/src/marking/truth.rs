//! What a signed session lays open: its evidence, with the rig's true response.

use super::TrueResponse;
use crate::air::Ambient;
use crate::procedure::Evidence;
use crate::rig::Rig;
use crate::rig::blower::Warmth;
use crate::rig::calibrator::CalibratorPassage;
use crate::rig::flow_path::{Inlet, Machine};
use crate::rig::operating_point::{Conditions, steady};
use crate::rig::recorder::RecorderInputs;
use crate::session::signed::Signed;
use crate::units::PA_PER_INH2O;

/// Openings of the calibrator at which the recorder's response is worked out; they cover every
/// flow that a calibration can reach.
const OPENINGS: [f64; 14] =
    [1.0, 0.85, 0.7, 0.6, 0.5, 0.44, 0.39, 0.35, 0.31, 0.28, 0.25, 0.22, 0.19, 0.16];

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

/// What a chart reading truly means on this rig: true flow against the reading of a pen at rest,
/// with the calibrator on, nothing leaking and the blower warm, in the air of the session's end.
///
/// This is what a perfect reader of this rig would have found, so that a trainee answers for no
/// more than their own work. What the method itself leaves (the air leaves the blower cooler when
/// the controller drives it slowly) is no error of the trainee's.
pub fn true_response(rig: &Rig) -> TrueResponse {
    true_response_in(rig, rig.ambient())
}

/// The same in other air.
pub(crate) fn true_response_in(rig: &Rig, ambient: &Ambient) -> TrueResponse {
    let passage = rig.parameters.calibrator.orifice_cda_m2;
    let openings = OPENINGS.map(|opening| {
        Some(CalibratorPassage {
            orifice_cda_m2: passage,
            openings_cda_m2: rig.parameters.calibrator.openings_cda_m2 * opening,
        })
    });
    // Without the calibrator more flows than it lets through: the upper end of the response.
    TrueResponse::new(
        openings.into_iter().chain([None]).map(|inlet| response_at(rig, ambient, inlet)),
    )
}

/// Chart reading at rest and true flow with one thing at the inlet.
fn response_at(rig: &Rig, ambient: &Ambient, calibrator: Option<CalibratorPassage>) -> (f64, f64) {
    let parameters = &rig.parameters;
    let machine = Machine { blower: &parameters.blower, path: &parameters.flow_path };
    let conditions = Conditions {
        ambient: *ambient,
        inlet: Inlet { calibrator, filter_pa_s_m3: None, leak_cda_m2: 0.0 },
        volts: NOMINAL_V,
        warmth: Warmth::warm(&parameters.blower),
    };
    let flow = steady(machine, &conditions).flow;
    let inputs = RecorderInputs {
        exit_inh2o: flow.exit_pressure_pa / PA_PER_INH2O,
        flow_std_m3_min: flow.flow_std_m3_min(),
    };
    (rig.recorder.pen_at_rest(inputs), flow.flow_std_m3_min())
}
