//! What an operator puts right on the roof beside the calibration: a dead outlet, a nest or snow in an
//! opening, the recorder's tubing.

use super::memory::Memory;
use super::{Observation, Practice};
use crate::rig::parts::{AirOpening, LineCare, Stopper};
use crate::session::action::{Action, FaultKind, Response};

/// Looks around the shelter with the power off: the outlet, its cord, and the exhaust.
pub(super) fn around_the_shelter(observed: &Observation<'_>, memory: &mut Memory) {
    let view = observed.view;
    if view.power.outlet_tripped || view.power.cord_damaged {
        memory.thinks(
            "The button of the outlet stands out, and the sheath of the cord is cut: another cord is \
             laid before the button is pressed.",
        );
        memory.does(Action::ChangeCord);
        memory.does(Action::ResetOutlet);
        memory.reports(
            FaultKind::GroundFaultTrips,
            Response::Repaired,
            "the ground-fault protection had tripped over a damaged cord; cord changed, button reset",
        );
    }
    if memory.habits.blower_check == Practice::Skipped {
        return;
    }
    if let Some(by) = view.mounting.exhaust {
        let what = lies(by);
        memory.thinks(format!("{what} lies in the exhaust: the air could not leave freely."));
        memory.does(Action::ClearOpening { opening: AirOpening::Exhaust });
        memory.reports(
            FaultKind::ExhaustBlocked,
            Response::Repaired,
            &format!("{what} lay in the exhaust; cleared"),
        );
    }
}

/// Clears the gap under the lid. True if something lay there.
pub(super) fn inlet(observed: &Observation<'_>, memory: &mut Memory) -> bool {
    let kept = memory.habits.blower_check == Practice::Kept;
    let Some(by) = observed.view.mounting.inlet.filter(|_| kept) else { return false };
    let what = lies(by);
    memory.thinks(format!("{what} lies under the eaves of the lid: the air enters there."));
    memory.does(Action::ClearOpening { opening: AirOpening::Inlet });
    memory.reports(
        FaultKind::InletBlocked,
        Response::Repaired,
        &format!("{what} lay in the gap under the lid; cleared"),
    );
    true
}

const fn lies(by: Stopper) -> &'static str {
    match by {
        Stopper::Nest => "a nest",
        Stopper::Snow => "packed snow",
    }
}

/// Follows the recorder's tubing to its fitting, and looks at the arm of the pen.
pub(super) fn recorder(observed: &Observation<'_>, memory: &mut Memory) {
    let seen = &observed.view.recorder;
    let tended = [
        (
            seen.line_off,
            LineCare::PushOn,
            FaultKind::RecorderLineOff,
            "the recorder's tubing was off its fitting; pushed on",
        ),
        (
            seen.line_kinked,
            LineCare::Straighten,
            FaultKind::RecorderLineKinked,
            "the recorder's tubing was kinked; straightened",
        ),
        (
            seen.line_drops,
            LineCare::Drain,
            FaultKind::RecorderLineWet,
            "water stood in the recorder's tubing; shaken out",
        ),
    ];
    for (wrong, how, kind, what) in tended {
        if wrong {
            memory.thinks(
                "The recorder's tubing is not in order: the pen could not follow the flow.",
            );
            memory.does(Action::TendRecorderLine { how });
            memory.reports(kind, Response::Repaired, what);
        }
    }
    if seen.arm_bent {
        let why = "the arm of the pen is bent: the zero screw cannot make its readings right";
        // Where only the flow is checked, what is wrong with the sampler is what the check is to find.
        if observed.papers.work_order.is_check_alone() {
            memory.reports(FaultKind::PenArmBent, Response::Noted, why);
        } else {
            memory.rejects(FaultKind::PenArmBent, why);
        }
    }
}
