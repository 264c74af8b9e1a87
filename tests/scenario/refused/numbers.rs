//! Numbers, spreads and texts.

use super::{Case, report};

/// Texts that are refused.
pub const CASES: &[Case] = &[
    ("a pressure in pascals", &[("run_pressure_mmhg: 760", "run_pressure_mmhg: 101325")]),
    ("a spread in hectopascals", &[("Normal(761, 4)", "Normal(1014, 4)")]),
    ("a temperature in kelvins", &[("run_temperature_c: 14", "run_temperature_c: 287")]),
    ("a temperature in fahrenheit", &[("Normal(13, 2)", "Normal(68, 2)")]),
    (
        "two flows to be set",
        &[(
            "target_flow_std_m3_min: 1.13",
            "target_flow_std_m3_min: 1.13, target_flow_actual_m3_min: 1.13",
        )],
    ),
    ("a flow in cubic feet", &[("target_flow_std_m3_min: 1.13", "target_flow_std_m3_min: 40")]),
    ("an orifice in square millimetres", &[("Normal(5.4e-4, 5e-6)", "Fixed(540)")]),
    ("too few points", &[("points: 7", "points: 4")]),
    ("no number at all", &[("elevation_m: 6", "elevation_m: NaN")]),
    ("a number beyond all numbers", &[("elevation_m: 6", "elevation_m: 1e999")]),
    ("a spread that reaches too far", &[("Uniform(55, 75)", "Normal(90, 10)")]),
    ("a spread that runs downwards", &[("Uniform(55, 75)", "Uniform(75, 55)")]),
    ("a deviation below zero", &[("Normal(761, 4)", "Normal(761, -4)")]),
    ("a fault too large", &[("ratio: 0.2", "ratio: 20")]),
    (
        "a fault of no size",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: BarometerOff(mmhg: -0.5)),",
        )],
    ),
    ("an onset after the day", &[("AfterMinutes(10)", "AfterMinutes(1000)")]),
    ("an impossible pass mark", &[("pass_mark: 75", "pass_mark: 101")]),
    (
        "a part of no weight",
        &[
            ("procedure: 15, judgement: 15, record: 10", "procedure: 15, judgement: 25, record: 0"),
            ("pass_mark: 75", "pass_mark: 75, assessed: [record]"),
        ],
    ),
    ("a part named twice", &[("pass_mark: 75", "pass_mark: 75, assessed: [record, record]")]),
    ("no time to work", &[("time_limit_min: 90", "time_limit_min: 5")]),
    ("a last line from the future", &[("2026-01-13", "2026-04-14")]),
    (
        "an empty box",
        &[
            ("(serial: \"OC-318\", date: \"2025-11-04\"),", ""),
            (
                "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
                "(fault: CertificateOfAnother),",
            ),
        ],
    ),
    ("a pressure reduced to sea level", &[("elevation_m: 6", "elevation_m: 1600")]),
    (
        "an average pressure in hectopascals",
        &[("points: 7,", "points: 7, averages: (pressure_mmhg: 1013, temperature_c: 14),")],
    ),
    (
        "an average pressure of another place",
        &[("points: 7,", "points: 7, averages: (pressure_mmhg: 640, temperature_c: 14),")],
    ),
    (
        "an average temperature in fahrenheit",
        &[("points: 7,", "points: 7, averages: (pressure_mmhg: 760, temperature_c: 57),")],
    ),
    (
        "four filters on each other",
        &[(
            "    certificates: [",
            "    run: (on: (day: 1, at: \"00:00\"), off: (day: 2, at: \"00:00\"), back: (day: 2, at: \"08:00\"), filters: [(number: \"F-1\", mass_g: 4.1)], added_filters: (sheets: 3, within_pct: 0)),\n    certificates: [",
        )],
    ),
    ("an empty title", &[("\"Base\"", "\"  \"")]),
    (
        "a title without end",
        &[(
            "\"Base\"",
            "\"long long long long long long long long long long long long long long long long long long long long \"",
        )],
    ),
    ("a hidden character", &[("\"Calibrate.\"", "\"Cali\\u{1b}[31mbrate.\"")]),
    ("a text that turns round", &[("\"Saltmarsh Quay\"", "\"Saltmarsh \\u{202e}Quay\"")]),
    ("a serial that cannot be copied", &[("\"S-2071\"", "\"s 2071\"")]),
    ("water in frost", &[("Normal(13, 2)", "Normal(-6, 2)")]),
    (
        "ice in oil",
        &[
            ("recorder_kind: SquareRoot", "recorder_kind: SquareRoot, manometer_fluid: gauge_oil"),
            (
                "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
                "(fault: ManometerFrozen),",
            ),
        ],
    ),
];

#[test]
fn says_what_is_wrong_and_how_to_mend_it() {
    insta::assert_snapshot!(report(CASES), @r"
a pressure in pascals
    17:9: run_pressure_mmhg 101325 is outside 400 to 820; it looks like pascals: divide by 133.322
a spread in hectopascals
    23:9: pressure_mmhg 1014 is outside 400 to 820; it looks like hectopascals: divide by 1.33322
a temperature in kelvins
    18:9: run_temperature_c 287 is outside -30 to 50; it looks like kelvins: subtract 273.15
a temperature in fahrenheit
    24:9: temperature_c 68 is outside -30 to 50; it looks like degrees Fahrenheit: subtract 32 and divide by 1.8
two flows to be set
    16:39: the target flow is given twice; keep only the one at standard conditions, or this one for a size-selective inlet
a flow in cubic feet
    16:9: target_flow_std_m3_min 40 is outside 0.9 to 1.8; it looks like cubic feet per minute: multiply by 0.0283168
an orifice in square millimetres
    28:22: orifice_cda_m2 540 is outside 0.00035 to 0.0008; it looks like mm2: multiply by 1e-6
too few points
    19:9: points 4 is outside 5 to 12; write a value in this range
no number at all
    7:9: elevation_m NaN is outside -430 to 4000; write a value in this range, in m
a number beyond all numbers
    7:9: elevation_m inf is outside -430 to 4000; write a value in this range, in m
a spread that reaches too far
    25:9: humidity_pct Normal(90, 10) reaches from 60 to 120, outside 0 to 100; make the spread narrower, or move its centre
a spread that runs downwards
    25:9: humidity_pct: the lowest value 75 is above the highest value 55; write the lowest value first, then the highest
a deviation below zero
    23:9: pressure_mmhg: the standard deviation -4 is not zero or more; write the mean first, then a standard deviation of 0 or more
a fault too large
    35:29: ratio 20 of TubeCracked is outside 0.02 to 1; write a size in this range
a fault of no size
    35:30: mmhg -0.5 of BarometerOff is outside 1 to 20 (above or below zero); write a size in this range, in mmHg
an onset after the day
    35:42: onset 1000 is outside 0 to 480; write a value in this range, in min
an impossible pass mark
    41:9: pass_mark 101 is outside 0 to 100; write a value in this range
a part of no weight
    41:35: this part has no weight; give it a weight, or remove it here
a part named twice
    41:43: this part is named twice; keep one
no time to work
    35:42: TubeCracked begins after 10 min, but the time limit is 5 min; let it begin earlier, or raise the time limit
    42:9: time_limit_min 5 is outside 20 to 480; write a value in this range, in min
a last line from the future
    20:21: the last calibration line is dated 2026-04-14, but the session is on 2026-04-14; date it before the session, or leave `last_line` out
an empty box
    31:5: 0 certificates are in the box; list 1 to 4
a pressure reduced to sea level
    17:9: run_pressure_mmhg 760 does not fit an elevation of 1600 m; write the station pressure, not the pressure reduced to sea level: the standard atmosphere has 627 mmHg there
    23:9: pressure_mmhg 761 does not fit an elevation of 1600 m; write the station pressure, not the pressure reduced to sea level: the standard atmosphere has 627 mmHg there
an average pressure in hectopascals
    19:31: an average pressure of 1013 mmHg is outside 400 to 820; write the average station pressure in mmHg, not reduced to sea level
an average pressure of another place
    19:31: pressure_mmhg 640 does not fit an elevation of 6 m; write the station pressure, not the pressure reduced to sea level: the standard atmosphere has 759 mmHg there
an average temperature in fahrenheit
    19:51: an average temperature of 57 degrees Celsius is outside -30 to 50; write the average temperature of the season in degrees Celsius
four filters on each other
    31:152: 3 filters cannot be added to the first; write 1 or 2
    31:163: a limit of 0 percent makes no sense; write 1 to 10; 3 is usual
    43:9: a session with a run cannot have a time limit; leave the time limit out
an empty title
    3:5: `title` is empty; write what the trainee is to read
a title without end
    3:5: `title` has 100 characters, more than the 80 allowed; shorten it
a hidden character
    14:9: `text` contains a hidden character (\u{1b}); remove it; only line breaks are allowed
a text that turns round
    6:9: `name` contains a hidden character (\u{202e}); remove it; only line breaks are allowed
a serial that cannot be copied
    10:9: `s 2071` is not a serial number; write 2 to 20 capital letters, digits and hyphens, such as `C-402`
water in frost
    24:9: temperature_c Normal(-6, 2) reaches below freezing, and the water in the manometer may freeze; write `manometer_fluid: gauge_oil` or `antifreeze` into `instruments`, or `water` if the scenario is about frost
ice in oil
    35:9: ManometerFrozen cannot be there: what the manometer is filled with does not freeze; fill it with water, or leave the fault out
");
}
