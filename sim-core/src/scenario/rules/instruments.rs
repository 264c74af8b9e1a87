//! Rules on kinds of instruments that go together with faults, onsets and the order.

use super::{ScenarioFindings, ScenarioRule};
use crate::fault::{Event, Fault, Onset};
use crate::rig::flow::calibrator::CalibratorKind;
use crate::rig::flow::plates::Plate;
use crate::rig::manometer::electronic::ManometerKind;
use crate::scenario::Scenario;

/// Faults, onsets and the number of points fit the kind of calibrator.
pub(super) const CALIBRATOR: ScenarioRule = ScenarioRule {
    id: "calibrator-kind-fits",
    about: "A calibrator with fixed plates has no knob that could slip or be turned, and no more than \
            five plates for as many points; a calibrator with a knob takes no plates.",
    find: calibrator,
};

fn calibrator(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let plates = scenario.instruments.calibrator_kind == CalibratorKind::FixedPlates;
    for (index, entry) in scenario.faults.iter().enumerate() {
        if plates && matches!(entry.fault, Fault::KnobSlips { .. }) {
            findings.add(
                format!("faults[{index}]"),
                "a calibrator with fixed plates has no knob that could slip",
                "remove the fault, or leave out `calibrator_kind`",
            );
        }
        let at = format!("faults[{index}].onset");
        match entry.onset {
            Onset::AtEvent(Event::KnobTurned(_)) if plates => findings.add(
                at,
                "a calibrator with fixed plates has no knob to be turned",
                "write `PlatePutIn(n)`, or leave out `calibrator_kind`",
            ),
            Onset::AtEvent(Event::PlatePutIn(_)) if !plates => findings.add(
                at,
                "a calibrator with a knob takes no plates",
                "write `KnobTurned(n)`, or `calibrator_kind: FixedPlates`",
            ),
            _ => {}
        }
    }
    let most = Plate::ALL.len();
    let points = scenario.work_order.points;
    if plates && usize::from(points) > most {
        findings.add(
            "work_order.points",
            format!("{points} points are ordered, but the set has {most} plates"),
            "order 5 points, one for each plate",
        );
    }
}

/// Faults and the order fit the kind of manometer.
pub(super) const MANOMETER: ScenarioRule = ScenarioRule {
    id: "manometer-kind-fits",
    about: "An electronic manometer has neither water nor valves nor scale that could be wrong, and a \
            manometer with water has neither display nor battery. A flow check is read on a manometer \
            with water.",
    find: manometer,
};

fn manometer(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let kind = scenario.instruments.manometer_kind;
    for (index, entry) in scenario.faults.iter().enumerate() {
        if entry.fault.manometer().is_some_and(|wanted| wanted != kind) {
            let (what, mend) = match kind {
                ManometerKind::Electronic => ("an electronic one", "leave out `manometer_kind`"),
                ManometerKind::WaterColumn => {
                    ("one with water", "write `manometer_kind: Electronic`")
                }
            };
            findings.add(
                format!("faults[{index}]"),
                format!("{} cannot be: the manometer is {what}", entry.fault.name()),
                format!("remove the fault, or {mend}"),
            );
        }
    }
    if kind == ManometerKind::Electronic && scenario.flow_check.is_some() {
        findings.add(
            "flow_check",
            "a flow check is read on the legs of a manometer with water",
            "remove the section, or leave out `manometer_kind`",
        );
    }
}
