//! What is accepted.

use sim_core::fault::{Event, Fault, Onset};
use sim_core::rig::parts::Leg;

use super::{BASE, KNOWN, checked, edited, listed, shipped, sound};

#[test]
fn the_scenarios_that_come_with_the_program_are_sound() {
    let shipped = shipped();
    assert!(shipped.len() >= 6, "{} scenarios", shipped.len());
    for (name, text) in shipped {
        let checked = sim_core::scenario::check(&text, KNOWN);
        assert!(checked.is_ok(), "{name}:\n{}", listed(&checked.expect_err("problems")));
    }
}

#[test]
fn a_scenario_may_leave_out_what_has_a_default() {
    let short = edited(&[
        (
            "    faults: [\n        (fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),\n    ],\n",
            "",
        ),
        (
            "    instruments: (\n        calibrator: (orifice_cda_m2: Normal(5.4e-4, 5e-6)),\n        recorder_kind: SquareRoot,\n    ),\n",
            "",
        ),
        ("        last_line: (date: \"2026-01-13\", slope: 32.4, intercept: 1.2),\n", ""),
    ]);
    let at = short.find("    terms").expect("the base has terms");
    let short = format!("{})", &short[..at]);
    let scenario = checked(&short).unwrap_or_else(|problems| panic!("{}", listed(&problems)));
    assert!(scenario.faults.is_empty());
    assert!(scenario.work_order.last_line.is_none());
    assert_eq!(scenario.terms, sim_core::scenario::setup::SessionTerms::default());
}

#[test]
fn what_may_be_left_out_needs_no_some_and_takes_one() {
    let plain = sound(&[]);
    let explicit = sound(&[
        ("time_limit_min: 90", "time_limit_min: Some(90)"),
        ("orifice_cda_m2: Normal(5.4e-4, 5e-6)", "orifice_cda_m2: Some(Normal(5.4e-4, 5e-6))"),
    ]);
    assert_eq!(plain, explicit);
    assert_eq!(plain.terms.time_limit_min, Some(90.0));
}

#[test]
fn comments_windows_line_ends_and_a_byte_order_mark_do_no_harm() {
    let text = format!("\u{feff}// a remark\r\n{}", BASE.replace('\n', "\r\n"));
    assert_eq!(checked(&text).expect("sound"), sound(&[]));
}

#[test]
fn a_fault_begins_at_the_start_unless_it_says_when() {
    let scenario = sound(&[(
        "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
        "(fault: ManometerValveLeaks(leg: right, ratio: 0.15)), (fault: TubeKinked, onset: AfterRunningMinutes(12.5)),",
    )]);
    let [first, second] = &scenario.faults[..] else { panic!("{:?}", scenario.faults) };
    assert_eq!(first.fault, Fault::ManometerValveLeaks { leg: Leg::Right, ratio: 0.15 });
    assert_eq!(first.onset, Onset::Start);
    assert_eq!(second.onset, Onset::AfterRunningMinutes(12.5));
}

#[test]
fn a_fault_may_begin_with_an_event_or_come_and_go() {
    let scenario = sound(&[(
        "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
        "(fault: TubeKinked, onset: AtEvent(PointWritten(3))), (fault: PenDry, onset: Intermittent(on_min: 2, off_min: 5)),",
    )]);
    let [first, second] = &scenario.faults[..] else { panic!("{:?}", scenario.faults) };
    assert_eq!(first.onset, Onset::AtEvent(Event::PointWritten(3)));
    assert_eq!(second.onset, Onset::Intermittent { on_min: 2.0, off_min: 5.0 });
}

#[test]
fn a_scenario_written_by_the_program_reads_back_the_same() {
    for (name, text) in shipped() {
        let scenario = checked(&text).expect("sound");
        let written = ron::ser::to_string_pretty(&scenario, ron::ser::PrettyConfig::default())
            .expect("a scenario can be written");
        assert_eq!(checked(&written).expect("sound"), scenario, "{name}");
    }
}

#[test]
fn a_certificate_of_a_year_ago_to_the_day_is_still_good() {
    sound(&[("date: \"2025-11-04\"", "date: \"2025-04-14\"")]);
}
