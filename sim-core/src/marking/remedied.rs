//! Whether a fault was really corrected or allowed for, whatever was reported about it. What counts is
//! the state at the time of the readings, not the action alone.

use crate::fault::{AllowedFor, Fault, PutRight};
use crate::field_book::Field;
use crate::procedure::evidence::{At, Evidence};
use crate::procedure::flow_check::readings;
use crate::rig::parts::{AirOpening, FilterSide, LineCare, Seat};
use crate::session::action::{Action, Response};
use crate::session::ground_truth::{GroundTruth, RunGroundTruth};

/// The fraction of a wrong zero of the pen that may remain after the screw was turned.
const LEFT_OF_ZERO: f64 = 0.5;

/// The fraction of a leak that may remain after the nut was tightened.
const LEFT_OF_LEAK: f64 = 0.5;

/// How far below the fill mark the manometer still counts as filled, mm.
const FILLED_MM: f64 = 4.0;

/// Whether what was reported as done about a fault was done. Only correcting and allowing for are
/// actions; if nothing was read, or no action could show, the report is believed.
pub(super) fn carried_out(evidence: &Evidence<'_>, fault: &Fault, said: Response) -> bool {
    let read = last_reading(evidence).is_some();
    match said {
        Response::Noted | Response::Rejected => true,
        // A fault that cannot be repaired is judged by the response.
        Response::Repaired if !fault.answer().1.contains(&said) => true,
        Response::Repaired => {
            let too_early = if fault.belongs_to_run() { !evidence.run_was_made() } else { !read };
            too_early || stands_right(evidence, fault).unwrap_or(true)
        }
        Response::Corrected => !read || allowed_for(evidence, fault),
    }
}

/// Whether a fault was allowed for in what was written; true if that cannot be known.
fn allowed_for(evidence: &Evidence<'_>, fault: &Fault) -> bool {
    match fault.sheet().allowed_for {
        AllowedFor::Unknown => true,
        AllowedFor::InChartReadings => remedied(evidence, fault) || charts_are_nearer(evidence),
        AllowedFor::InPressure => remedied(evidence, fault) || pressure_is_nearer(evidence),
    }
}

/// Whether most chart readings as written are nearer to a fault-free pen than the pen itself was.
fn charts_are_nearer(evidence: &Evidence<'_>) -> bool {
    let points = evidence.book.points();
    let nearer = points.iter().filter(|&&point| {
        let field = Field::Chart(point);
        let Some((at, written)) = evidence.read(field).zip(evidence.book.number(field)) else {
            return false;
        };
        let facts = at.facts();
        (written - facts.undisturbed_pen).abs() < (facts.pen_at_rest - facts.undisturbed_pen).abs()
    });
    2 * nearer.count() > points.len()
}

/// Whether the pressure as written is nearer to the true pressure than the barometer's pointer was.
fn pressure_is_nearer(evidence: &Evidence<'_>) -> bool {
    let field = Field::Pressure;
    evidence.read(field).zip(evidence.book.number(field)).is_some_and(|(at, written)| {
        let facts = at.facts();
        let off = |mmhg: f64| (mmhg - facts.pressure_mmhg).abs();
        off(written) < off(facts.barometer_mmhg)
    })
}

/// The last reading of a point or of a flow check.
pub(super) fn last_reading<'a>(evidence: &Evidence<'a>) -> Option<At<'a>> {
    let points = evidence.points().into_iter().map(|point| point.last);
    let checks = readings(evidence).into_iter().filter_map(|n| evidence.read(Field::CheckUp(n)));
    points.chain(checks).max_by_key(|at| at.index)
}

/// The first reading of a point or of a flow check.
fn first_reading<'a>(evidence: &Evidence<'a>) -> Option<At<'a>> {
    let checks = readings(evidence).into_iter().filter_map(|n| evidence.read(Field::CheckUp(n)));
    evidence.first_reading().into_iter().chain(checks).min_by_key(|at| at.index)
}

/// Whether a fault was corrected or avoided in time for the readings, whether reported or not.
pub(super) fn remedied(evidence: &Evidence<'_>, fault: &Fault) -> bool {
    stands_right(evidence, fault).unwrap_or(false)
}

/// The same; `None` if nothing known about a session can show it.
fn stands_right(evidence: &Evidence<'_>, fault: &Fault) -> Option<bool> {
    let last = last_reading(evidence);
    // What is done after the last reading comes too late for all of them.
    let in_time = last.map_or(evidence.events.len(), |at| at.index);
    // What is done before the fault is there does not put it right.
    let times = |wanted: &dyn Fn(&Action) -> bool| {
        let while_there = evidence.events.iter().take(in_time).filter(|moment| {
            moment.before.faults.contains(fault) || moment.after.faults.contains(fault)
        });
        while_there.filter(|moment| wanted(&moment.action)).count()
    };
    let ever =
        |wanted: &dyn Fn(&Action) -> bool| evidence.events.iter().any(|at| wanted(&at.action));
    let first = first_reading(evidence);
    let at_first = |right: &dyn Fn(&GroundTruth) -> bool| first.is_some_and(|at| right(at.facts()));
    let at_last = |right: &dyn Fn(&GroundTruth) -> bool| last.is_some_and(|at| right(at.facts()));
    let when_written = |field, right: &dyn Fn(&GroundTruth) -> bool| {
        evidence.read(field).is_some_and(|at| right(at.facts()))
    };
    let at_leaving = |right: &dyn Fn(&RunGroundTruth) -> bool| {
        let run = evidence.leaving().and_then(|at| at.facts().run.as_ref());
        run.is_some_and(right)
    };
    let size = fault.size().map_or(0.0, |size| size.value.abs());
    let right = match fault.sheet().put_right {
        PutRight::Unknown => return None,
        PutRight::ManometerPlumb => at_first(&|facts| facts.tilt_deg.abs() <= 1.0),
        PutRight::TubeStraightened => times(&|action| matches!(action, Action::StraightenTube)) > 0,
        PutRight::TubePushedOnAgain => times(&|action| matches!(action, Action::ConnectTube)) > 1,
        PutRight::TubeDrained => {
            let dries =
                |action: &Action| matches!(action, Action::DrainTube | Action::ChangeFluid { .. });
            times(&dries) > 0
        }
        PutRight::LeakClosed => at_last(&|facts| facts.leak_mm2 < LEFT_OF_LEAK * size),
        PutRight::WashersAbove => at_first(&|facts| facts.washer_above.iter().all(|above| *above)),
        PutRight::CalibratorGasketFitted => at_first(&|facts| facts.calibrator_gasket),
        PutRight::HolderGasketFitted => at_first(&|facts| facts.holder_gasket),
        PutRight::PenAtZero => {
            let turned = times(&|action| matches!(action, Action::SetPenZero { .. })) > 0;
            let off = |facts: &GroundTruth| (facts.pen_at_rest - facts.undisturbed_pen).abs();
            turned && at_last(&|facts| off(facts) <= LEFT_OF_ZERO * size)
        }
        PutRight::BarometerAtStation => {
            when_written(Field::Pressure, &|facts| facts.barometer_at_station)
        }
        PutRight::ThermometerShaded => {
            when_written(Field::Temperature, &|facts| facts.thermometer_shaded)
        }
        PutRight::AnotherFilterFitted => at_leaving(&|run| run.sheet.number > 1),
        PutRight::RoughSideUp => at_leaving(&|run| run.sheet.up == FilterSide::Rough),
        PutRight::FilterCentred => at_leaving(&|run| run.sheet.seat == Seat::Centred),
        PutRight::TrippersTight => at_leaving(&|run| !run.tripper_loose.contains(&true)),
        PutRight::DialSet => at_leaving(&|run| run.dial_ahead_min.abs() < 60.0),
        PutRight::ManometerThawed => at_first(&|facts| facts.ice <= 0.0),
        PutRight::ManometerFilled => at_first(&|facts| facts.below_mark_mm <= FILLED_MM),
        PutRight::ManometerFluidChanged => {
            times(&|action| matches!(action, Action::ChangeFluid { .. })) > 0
        }
        PutRight::RightCertificateUsed => right_certificate_used(evidence),
        PutRight::BatteryChanged => times(&|action| *action == Action::ChangeBattery) > 0,
        PutRight::ExhaustCleared => {
            let opening = AirOpening::Exhaust;
            times(&|action| *action == Action::ClearOpening { opening }) > 0
        }
        PutRight::InletCleared => {
            let opening = AirOpening::Inlet;
            ever(&|action| *action == Action::ClearOpening { opening })
        }
        PutRight::LineTended => {
            times(&|action| matches!(action, Action::TendRecorderLine { .. })) > 0
        }
        PutRight::LineRenewed => {
            let how = LineCare::Renew;
            times(&|action| *action == Action::TendRecorderLine { how }) > 0
        }
        PutRight::GasketRenewed => times(&|action| matches!(action, Action::FitGasket { .. })) > 0,
        PutRight::BrushesChanged => times(&|action| *action == Action::ChangeBrushes) > 0,
        PutRight::CordChanged => ever(&|action| *action == Action::ChangeCord),
    };
    Some(right)
}

/// Whether the right pair of the right certificate was copied as it is printed.
fn right_certificate_used(evidence: &Evidence<'_>) -> bool {
    use crate::procedure::certificate as rules;
    let kept = [
        &rules::CERTIFICATE_SERIAL,
        &rules::CERTIFICATE_CURRENT,
        &rules::CERTIFICATE_COPIED,
        &rules::STANDARD_PAIR,
    ];
    evidence.book.number(Field::CertificateSlope).is_some()
        && kept.iter().all(|rule| rule.findings(evidence).is_empty())
}
