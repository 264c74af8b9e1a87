//! What a report is understood to mean.

use sim_core::session::action::{Action, FaultKind, FaultPlace, SuspectedCause};

use super::said::said;
use crate::request::Request;

#[test]
fn the_cause_is_understood_from_the_whole_phrase() {
    use FaultKind::*;
    for (sentence, kind) in [
        ("report calibrator gasket missing, repaired", CalibratorGasketMissing),
        ("report missing gasket under the calibrator, repaired", CalibratorGasketMissing),
        ("report pen sticks, noted", PenSticks),
        ("report nut 2 loose repaired", NutLoose),
        ("report barometer set to sea level corrected", BarometerAtSeaLevel),
        ("report certificate expired rejected", CertificateExpired),
        ("report valve leaks rejected", ManometerValveLeaks),
        ("report the manometer valve leaks, rejected", ManometerValveLeaks),
        ("report filter holder gasket gone, repaired", HolderGasketMissing),
        ("report tube: kinked, repaired", TubeKinked),
        ("report gusts move the water, noted", Gusts),
        ("report that the pen zero is off, corrected", PenZeroOff),
        ("report out of plumb, repaired", ManometerOutOfPlumb),
        ("report water in the tube, repaired", TubeWet),
        ("report orifice nicked, rejected", OrificeNicked),
        ("report exhaust orifice half blocked, noted", ExitOrificeBlocked),
        ("report tubing cracked, rejected", TubeCracked),
    ] {
        let Ok(Request::Do(actions)) = said(sentence) else { panic!("{sentence}") };
        let [Action::Report(report)] = actions.as_slice() else { panic!("{sentence}") };
        assert_eq!(report.cause, SuspectedCause::Known(kind), "{sentence}");
        assert_eq!(report.place, kind.place(), "{sentence}");
    }
}

#[test]
fn a_cause_that_is_not_known_is_said_so() {
    let said = |sentence: &str| {
        let Ok(Request::Do(actions)) = said(sentence) else { panic!("{sentence}") };
        let [Action::Report(report)] = actions.as_slice() else { panic!("{sentence}") };
        report.clone()
    };
    let unknown = said("report not known yet at the manometer \"the legs differ\", noted");
    assert_eq!(unknown.cause, SuspectedCause::NotKnownYet);
    assert_eq!((unknown.place, unknown.seen.as_str()), (FaultPlace::Manometer, "the legs differ"));
    let other = said("report something else at the blower \"a nest\" \"twigs\" noted");
    assert_eq!(other.cause, SuspectedCause::SomethingElse("a nest".to_owned()));
    assert_eq!((other.place, other.seen.as_str()), (FaultPlace::Blower, "twigs"));
}

#[test]
fn a_report_without_a_cause_a_place_or_an_answer_is_asked_for_it() {
    for (sentence, word) in [
        ("report something odd, noted", "where"),
        ("report tube, rejected", "tubing cracked"),
        ("report gasket missing, repaired", "holder gasket missing"),
        ("report hold-down frame bent, rejected", "plate warped"),
        ("report tube cracked", "rejected or noted"),
        ("report", "rejected or noted"),
    ] {
        let error = said(sentence).expect_err(sentence).to_string();
        assert!(error.contains(word), "{sentence}: {error}");
    }
}
