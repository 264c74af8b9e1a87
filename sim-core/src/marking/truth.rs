//! What an ended session reveals: its evidence, with the true response of the rig.

use std::cell::OnceCell;

use super::TrueResponse;
use crate::air::Ambient;
use crate::procedure::Evidence;
use crate::procedure::known_signs::KnownSigns;
use crate::rig::Rig;
use crate::rig::flow::calibrator::CalibratorPassage;
use crate::rig::flow::operating_point::calibrating;
use crate::rig::recorder::RecorderInputs;
use crate::session::ended_session::EndedSession;

/// Openings of the calibrator at which the response of the recorder is calculated; they cover every
/// flow that a calibration can reach.
const OPENINGS: [f64; 14] =
    [1.0, 0.85, 0.7, 0.6, 0.5, 0.44, 0.39, 0.35, 0.31, 0.28, 0.25, 0.22, 0.19, 0.16];

impl EndedSession {
    /// Everything that rules and marks look at.
    pub fn evidence(&self) -> Evidence<'_> {
        Evidence {
            setup: &self.setup,
            events: self.next_reading.as_ref().map_or(&self.events, |next| &next.events),
            book: self.next_reading.as_ref().map_or(&self.book, |next| &next.book),
            end: &self.end,
            end_tick: self.end_tick,
            ended: self.ended,
            true_response: true_response(&self.rig),
            lesson: self.lesson,
            signs: KnownSigns::of(Some(self)),
            taken: OnceCell::new(),
        }
    }
}

/// The true flow for each chart reading of this rig: true flow against the reading of a pen at rest,
/// with the calibrator mounted, no leak and the blower warm, in the air at the end of the session.
///
/// This is what a perfect reader of this rig would have found, so that trainees answer only for their
/// own work. The bias of the method (the air leaves the blower cooler when the controller drives it
/// slowly) is not an error of the trainee.
pub fn true_response(rig: &Rig) -> TrueResponse {
    true_response_in(rig, rig.ambient())
}

/// The same in other air.
pub(crate) fn true_response_in(rig: &Rig, ambient: &Ambient) -> TrueResponse {
    let openings = OPENINGS.map(|opening| Some(rig.parameters.calibrator.passage_at(opening)));
    // Without the calibrator the flow is higher than it lets through: the upper end of the response.
    TrueResponse::new(
        openings.into_iter().chain([None]).map(|inlet| response_at(rig, ambient, inlet)),
    )
}

/// Chart reading at rest and true flow with one thing at the inlet.
fn response_at(rig: &Rig, ambient: &Ambient, calibrator: Option<CalibratorPassage>) -> (f64, f64) {
    let flow = calibrating(&rig.parameters, *ambient, calibrator);
    (rig.recorder.pen_at_rest(RecorderInputs::from(&flow)), flow.flow_std_m3_min())
}
