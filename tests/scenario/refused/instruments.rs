//! Kinds of instruments that do not go with the rest.

use super::{Case, report};

const FAULT: &str = "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),";
const KIND: &str = "        recorder_kind: SquareRoot,";

/// Texts that are refused.
pub const CASES: &[Case] = &[
    (
        "a knob that slips where there is none",
        &[
            (KIND, "        calibrator_kind: FixedPlates,"),
            ("points: 7", "points: 5"),
            (FAULT, "(fault: KnobSlips(per_min: 0.02)),"),
        ],
    ),
    (
        "a knob that is turned where there is none",
        &[
            (KIND, "        calibrator_kind: FixedPlates,"),
            ("points: 7", "points: 5"),
            (FAULT, "(fault: LowVoltage(by_v: 5), onset: AtEvent(KnobTurned(2))),"),
        ],
    ),
    ("more points than plates", &[(KIND, "        calibrator_kind: FixedPlates,"), (FAULT, "")]),
    (
        "a plate where there is a knob",
        &[(FAULT, "(fault: LowVoltage(by_v: 5), onset: AtEvent(PlatePutIn(2))),")],
    ),
    (
        "a bubble in a manometer without water",
        &[
            (KIND, "        manometer_kind: Electronic,"),
            (FAULT, "(fault: ManometerBubble(length_mm: 5)),"),
        ],
    ),
    ("a battery in a manometer with water", &[(FAULT, "(fault: DisplayBatteryLow(minutes: 20)),")]),
    (
        "a flow check with an electronic manometer",
        &[
            (KIND, "        manometer_kind: Electronic,"),
            (
                "    certificates: [",
                "    flow_check: (readings: 5, within_pct: 7),\n    certificates: [",
            ),
            (FAULT, ""),
        ],
    ),
];

#[test]
fn what_does_not_go_together_is_named() {
    let said = report(CASES);
    for words in [
        "a calibrator with fixed plates has no knob that could slip",
        "a calibrator with fixed plates has no knob to be turned; write `PlatePutIn(n)`",
        "7 points are ordered, but the set has 5 plates; order 5 points",
        "a calibrator with a knob takes no plates; write `KnobTurned(n)`",
        "ManometerBubble cannot be: the manometer is an electronic one",
        "DisplayBatteryLow cannot be: the manometer is one with water",
        "a flow check is read on the legs of a manometer with water",
    ] {
        assert!(said.contains(words), "{words} is not in\n{said}");
    }
}
