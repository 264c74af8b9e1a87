//! The faults in force, the reports that concern none of them, and whether refusal is justified.

use super::evidence::{At, Evidence, same_serial};
use super::inspection::looked_before;
use crate::fault::{Fault, FaultPlace, Response};
use crate::session::action::FaultReport;
use crate::session::ground_truth::GroundTruth;

/// Every fault that was in force at some time, once.
pub(crate) fn faults_in_force(evidence: &Evidence<'_>) -> Vec<Fault> {
    let mut faults: Vec<Fault> = Vec::new();
    let all = evidence.moments.iter().flat_map(|moment| [&moment.before, &moment.after]);
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

/// The first report about each place where nothing was wrong.
pub(crate) fn false_alarms<'a>(evidence: &Evidence<'a>) -> Vec<(At<'a>, &'a FaultReport)> {
    let faults = faults_in_force(evidence);
    let mut alarms: Vec<(At<'a>, &'a FaultReport)> = Vec::new();
    for (at, remark) in evidence.remarks() {
        let known = alarms.iter().any(|(_, earlier)| earlier.place == remark.place);
        let real = faults.iter().any(|fault| fault.place() == remark.place)
            || wrong_by_other_means(evidence, remark.place, at);
        if !known && !real && looked_before(evidence, remark.place, at) {
            alarms.push((at, remark));
        }
    }
    alarms
}

/// Whether something was wrong at a place before a report, although the scenario has no fault there:
/// because of what the trainee did, the state of the rig, or the weather.
fn wrong_by_other_means(evidence: &Evidence<'_>, place: FaultPlace, at: At<'_>) -> bool {
    let ever = |wrong: &dyn Fn(&GroundTruth) -> bool| {
        let moments = evidence.moments.iter().take(at.index + 1);
        moments.flat_map(|moment| [&moment.before, &moment.after]).any(wrong)
    };
    match place {
        FaultPlace::Manometer => ever(&|facts| {
            facts.tilt_deg.abs() > 1.0 || facts.zero_in.iter().any(|zero| zero.abs() > 0.05)
        }),
        FaultPlace::Mounting => ever(&|facts| {
            facts.powered && facts.leak_mm2 > 1.0
                || !facts.holder_gasket
                || !facts.calibrator_gasket
                || facts.washer_above.iter().any(|above| !above)
        }),
        FaultPlace::Recorder => {
            ever(&|facts| facts.powered && (facts.pen_at_rest - facts.undisturbed_pen).abs() > 1.0)
        }
        FaultPlace::Barometer => ever(&|facts| !facts.barometer_at_station),
        FaultPlace::Thermometer => ever(&|facts| !facts.thermometer_shaded),
        FaultPlace::Weather => {
            evidence.setup.weather.gust_sd_pa >= 3.0
                || evidence.setup.weather.temperature_k_h.abs() >= 3.0
                || ever(&|facts| facts.thunder_since_s.is_some())
        }
        FaultPlace::Blower => evidence.setup.weather.mains_sd_v >= 1.0,
        FaultPlace::Certificate => {
            evidence.setup.certificates.len() > 1 && !every_certificate_is_good(evidence)
                || !a_certificate_is_good(evidence)
        }
        // Reporting a falling trace is not a false alarm, whatever made it fall.
        FaultPlace::Filter => evidence
            .end
            .run
            .as_ref()
            .and_then(|run| run.truth)
            .is_some_and(|truth| truth.lowest_std_m3_min < FALLEN * truth.highest_std_m3_min),
        FaultPlace::Timer => ever(&|facts| {
            facts.run.as_ref().is_some_and(|run| run.dial_ahead_min.abs() > DIAL_OFF_MIN)
        }),
        FaultPlace::Tube | FaultPlace::Calibrator | FaultPlace::FlowController => false,
    }
}

/// Whether the box contains a certificate of this calibrator that is current and not a copy.
fn a_certificate_is_good(evidence: &Evidence<'_>) -> bool {
    good_certificates(evidence) > 0
}

/// Whether all certificates in the box can be used.
fn every_certificate_is_good(evidence: &Evidence<'_>) -> bool {
    good_certificates(evidence) == evidence.setup.certificates.len()
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

/// Whether a fault was in force that rules out a calibration: then refusing is right.
///
/// That is a fault for which rejecting is a right response and that cannot be repaired on the roof; a
/// bad certificate only if there is no good one in the box.
pub(crate) fn grounds_for_refusal(evidence: &Evidence<'_>) -> bool {
    let no_paper = !a_certificate_is_good(evidence);
    no_paper
        || faults_in_force(evidence).iter().any(|fault| {
            let (_, right) = fault.answer();
            !a_better_paper_helps(fault)
                && !fault.belongs_to_run()
                && right.contains(&Response::Rejected)
                && !right.contains(&Response::Repaired)
        })
}

/// Whether a fault concerns a certificate and a good one in the box makes up for it. Nothing makes up
/// for two certificates that contradict each other.
fn a_better_paper_helps(fault: &Fault) -> bool {
    fault.place() == FaultPlace::Certificate && *fault != Fault::CertificateFarFromLast
}

/// A fault in force for which refusing is the only right response: no repair, correction or note helps.
pub(crate) fn only_refusal_helps(evidence: &Evidence<'_>) -> Option<&'static str> {
    let mut faults = faults_in_force(evidence).into_iter();
    faults.find_map(|fault| {
        let (name, right) = fault.answer();
        let only = right.iter().all(|response| *response == Response::Rejected);
        let calibrating = !a_better_paper_helps(&fault) && !fault.belongs_to_run();
        (only && calibrating).then_some(name)
    })
}
