//! The faults in force, the reports that concern none of them, and whether refusal is justified.

use super::evidence::{At, Evidence, same_serial};
use super::knowable::shown_before;
use crate::fault::{Fault, FaultKind, FaultPlace, Response};
use crate::field_book::Field;
use crate::session::action::{Action, FaultReport, Sight, SuspectedCause};
use crate::session::ground_truth::{EventRecord, GroundTruth};

/// Every fault that was in force at some time, once.
pub(crate) fn faults_in_force(evidence: &Evidence<'_>) -> Vec<Fault> {
    let mut faults: Vec<Fault> = Vec::new();
    let all = evidence.events.iter().flat_map(|moment| [&moment.before, &moment.after]);
    for fault in all.chain([evidence.end]).flat_map(|facts| &facts.faults) {
        if !faults.contains(fault) {
            faults.push(*fault);
        }
    }
    faults
}

/// Lowest over highest flow of a run below which it is not a false alarm to report the change.
const FALLEN: f64 = 0.93;
/// A dial that stopped while the cord was unplugged is off by more than this, min.
const DIAL_OFF_MIN: f64 = 5.0;

/// Whether something was wrong as a report says, although the scenario has no such fault: because of
/// what the trainee did, the state of the rig, or the weather. A report that does not name the cause may
/// mean anything that was wrong there.
pub(crate) fn wrong_by_other_means(
    evidence: &Evidence<'_>,
    report: &FaultReport,
    at: At<'_>,
) -> bool {
    match report.cause {
        SuspectedCause::Known(kind) => {
            let before = evidence.events.get(..=at.index).unwrap_or_default();
            is_so(evidence, kind, before)
        }
        // Without a cause it can only mean what is still wrong, and what no other report is about.
        SuspectedCause::NotKnownYet | SuspectedCause::SomethingElse(_) => {
            let now = std::slice::from_ref(at.event);
            let truth = at.facts();
            let thunder = report.place == FaultPlace::Weather && truth.thunder_since_s.is_some();
            let unzeroed = report.place == FaultPlace::Manometer
                && truth.zero_in.iter().any(|zero| zero.abs() > 0.05);
            let in_force = faults_in_force(evidence);
            let other = |kind: &FaultKind| in_force.iter().all(|fault| fault.kind() != *kind);
            thunder
                || unzeroed
                || FaultKind::of_place(report.place).filter(other).any(|k| is_so(evidence, k, now))
        }
    }
}

/// Whether things stood at one of some moments as this fault would have them, although it is not in
/// force.
fn is_so(evidence: &Evidence<'_>, kind: FaultKind, moments: &[EventRecord]) -> bool {
    let ever = |wrong: &dyn Fn(&GroundTruth) -> bool| {
        moments.iter().flat_map(|moment| [&moment.before, &moment.after]).any(wrong)
    };
    let setup = evidence.setup;
    match kind {
        FaultKind::TubeWet => ever(&|truth| truth.tube_water_in > 0.05),
        FaultKind::ManometerLowWater => ever(&|truth| truth.below_mark_mm > 3.0),
        FaultKind::ManometerFrozen => ever(&|truth| truth.ice > 0.0),
        FaultKind::ManometerOutOfPlumb => ever(&|truth| truth.tilt_deg.abs() > 1.0),
        FaultKind::HolderGasketMissing => ever(&|truth| !truth.holder_gasket),
        FaultKind::CalibratorGasketMissing => ever(&|truth| !truth.calibrator_gasket),
        FaultKind::WasherBelow => ever(&|truth| truth.washer_above.iter().any(|above| !above)),
        FaultKind::NutLoose => ever(&|truth| {
            let leaks_by_itself =
                truth.faults.iter().any(|fault| fault.place() == FaultPlace::Mounting);
            truth.powered && truth.leak_mm2 > 1.0 && !leaks_by_itself
        }),
        FaultKind::PenSticks | FaultKind::PenZeroOff => {
            ever(&|truth| truth.powered && (truth.pen_at_rest - truth.undisturbed_pen).abs() > 1.0)
        }
        FaultKind::BarometerAtSeaLevel => ever(&|truth| !truth.barometer_at_station),
        FaultKind::ThermometerInSun => ever(&|truth| !truth.thermometer_shaded),
        FaultKind::Gusts => setup.weather.gust_sd_pa >= 3.0,
        FaultKind::FastWeather => setup.weather.temperature_k_h.abs() >= 3.0,
        FaultKind::WanderingVoltage | FaultKind::WornBrushes => setup.weather.mains_sd_v >= 1.0,
        FaultKind::CertificateExpired => {
            setup.certificates.iter().any(|paper| !paper.is_current(setup.station.date))
        }
        FaultKind::CertificateOfAnother => {
            let serial = &setup.rig.calibrator_serial;
            setup.certificates.iter().any(|paper| !same_serial(&paper.serial, serial))
        }
        FaultKind::CertificateActualFirst => {
            setup.certificates.iter().any(|paper| paper.actual_first)
        }
        FaultKind::FilterClogs => evidence
            .end
            .run
            .as_ref()
            .and_then(|run| run.truth)
            .is_some_and(|truth| truth.lowest_std_m3_min < FALLEN * truth.highest_std_m3_min),
        FaultKind::TimerGains | FaultKind::TimerWrongDay => ever(&|truth| {
            truth.run.as_ref().is_some_and(|run| run.dial_ahead_min.abs() > DIAL_OFF_MIN)
        }),
        _ => false,
    }
}

/// Whether the box contains a certificate of this calibrator that is current and not a copy.
fn a_certificate_is_good(evidence: &Evidence<'_>) -> bool {
    good_certificates(evidence) > 0
}

/// How many certificates in the box can be used.
fn good_certificates(evidence: &Evidence<'_>) -> usize {
    let setup = evidence.setup;
    let good = setup.certificates.iter().filter(|paper| {
        same_serial(&paper.serial, &setup.rig.calibrator_serial)
            && paper.is_current(setup.station.date)
            && !paper.is_copy()
    });
    good.count()
}

/// Whether a fault was in force that rules out a calibration, and could be known when the trainee
/// decided: then refusing is right.
///
/// That is a fault for which rejecting is a right response and that cannot be repaired on the roof; a
/// bad certificate only if there is no good one in the box.
pub(crate) fn grounds_for_refusal(evidence: &Evidence<'_>) -> bool {
    grounds_besides(evidence, &[])
}

/// The same, without counting some of the faults.
pub(crate) fn grounds_besides(evidence: &Evidence<'_>, apart: &[Fault]) -> bool {
    let Some(at) = decided_at(evidence) else { return false };
    let no_paper = !a_certificate_is_good(evidence)
        && evidence
            .indexed_events()
            .take(at.index)
            .any(|at| matches!(at.event.action, Action::Look { at: Sight::Certificate(_), .. }));
    // A flow check is there to find what is wrong with the sampler: only a bad standard stops it.
    let alone = evidence.setup.work_order.is_check_alone();
    no_paper
        || faults_in_force(evidence).iter().any(|fault| {
            let (_, right) = fault.answer();
            !apart.contains(fault)
                && !a_better_paper_helps(fault)
                && !fault.belongs_to_run()
                && (!alone || of_the_standard(fault.place()))
                && right.contains(&Response::Rejected)
                && !(right.contains(&Response::Repaired) && cause_can_be_told(fault))
                && shown_before(evidence, fault, at)
        })
}

/// Whether the cause of a fault can be told on the roof: only then is its repair what is asked for.
const fn cause_can_be_told(fault: &Fault) -> bool {
    fault.sheet().cause_shows && fault.sheet().alike.is_empty()
}

/// Whether a place belongs to what measures the flow against which the sampler is held.
const fn of_the_standard(place: FaultPlace) -> bool {
    matches!(
        place,
        FaultPlace::Manometer
            | FaultPlace::Tube
            | FaultPlace::Calibrator
            | FaultPlace::Certificate
            | FaultPlace::Mounting
    )
}

/// The moment of the decision about the calibration, or the last one if none was made.
fn decided_at<'a>(evidence: &Evidence<'a>) -> Option<At<'a>> {
    let decided = evidence.decided(Field::Decision).map(|(at, _, _)| at);
    decided.or_else(|| evidence.indexed_events().next_back())
}

/// Whether a fault concerns a certificate and a good one in the box makes up for it. Nothing makes up
/// for two certificates that contradict each other.
fn a_better_paper_helps(fault: &Fault) -> bool {
    fault.place() == FaultPlace::Certificate && *fault != Fault::CertificateFarFromLast
}

/// The faults in force for which refusing is the only right response: no repair, correction or note
/// helps.
pub(crate) fn only_refusal_helps(evidence: &Evidence<'_>) -> Vec<Fault> {
    let only = |fault: &Fault| {
        let (_, right) = fault.answer();
        right.iter().all(|response| *response == Response::Rejected)
            && !a_better_paper_helps(fault)
            && !fault.belongs_to_run()
    };
    faults_in_force(evidence).into_iter().filter(only).collect()
}
