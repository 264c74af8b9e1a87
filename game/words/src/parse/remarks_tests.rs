//! Where a report is understood to belong.

use sim_core::session::action::{Action, FaultPlace};

use super::said::said;
use crate::request::Request;

#[test]
fn the_place_is_understood_from_the_whole_phrase() {
    use FaultPlace::*;
    for (sentence, place, what) in [
        ("report calibrator gasket missing, repaired", Mounting, "calibrator gasket missing"),
        ("report gasket missing, repaired", Mounting, "gasket missing"),
        ("report pen sticks, noted", Recorder, "pen sticks"),
        ("report nut 2 loose repaired", Mounting, "nut 2 loose"),
        ("report barometer set to sea level corrected", Barometer, "set to sea level"),
        ("report certificate expired rejected", Certificate, "expired"),
        ("report valve leaks rejected", Manometer, "valve leaks"),
        ("report the manometer valve leaks, rejected", Manometer, "valve leaks"),
        ("report filter holder gasket gone, repaired", Mounting, "filter holder gasket gone"),
        ("report tube: kinked, repaired", Tube, "kinked"),
        ("report missing gasket, repaired", Mounting, "missing gasket"),
        ("report leak under the calibrator, repaired", Mounting, "leak under the calibrator"),
        ("report gusts move the water, noted", Weather, "gusts move the water"),
        ("report that the pen zero is off, corrected", Recorder, "the pen zero is off"),
        ("report out of plumb, repaired", Manometer, "out of plumb"),
        ("report water in the tube, repaired", Tube, "water in the tube"),
        ("report orifice nicked, rejected", Calibrator, "orifice nicked"),
        ("report exhaust orifice half blocked, noted", Recorder, "exhaust orifice half blocked"),
        ("report hold-down frame bent, rejected", Mounting, "hold-down frame bent"),
        ("report elapsed-time meter stands still, noted", Timer, "elapsed-time meter stands still"),
        ("report left limb cracked, rejected", Manometer, "left limb cracked"),
        ("report tubing cracked, rejected", Tube, "cracked"),
    ] {
        let Ok(Request::Do(actions)) = said(sentence) else { panic!("{sentence}") };
        let [Action::Report(remark)] = actions.as_slice() else { panic!("{sentence}") };
        assert_eq!((remark.place, remark.what.as_str()), (place, what), "{sentence}");
    }
}

#[test]
fn a_report_without_a_place_or_an_answer_is_asked_for_it() {
    for (sentence, word) in [
        ("report something odd, noted", "where"),
        ("report tube, rejected", "what is wrong"),
        ("report tube cracked", "rejected or noted"),
        ("report", "rejected or noted"),
    ] {
        let error = said(sentence).expect_err(sentence).to_string();
        assert!(error.contains(word), "{sentence}: {error}");
    }
}
