//! What cannot be read as a scenario.

use super::{Case, report};

/// Texts that are refused.
pub const CASES: &[Case] = &[
    ("a misspelt field", &[("pressure_mmhg: Normal(761, 4)", "presure_mmhg: Normal(761, 4)")]),
    ("a field that does not exist", &[("help: true", "cheese: true")]),
    ("a missing field", &[("        start: \"08:30\",\n", "")]),
    ("a field written twice", &[("points: 7,", "points: 7, points: 8,")]),
    ("an unknown fault", &[("TubeCracked(ratio: 0.2)", "TubeCraked(ratio: 0.2)")]),
    ("a spread without its kind", &[("Normal(761, 4)", "761")]),
    ("a text for a number", &[("elevation_m: 6", "elevation_m: \"6\"")]),
    ("a fraction for a whole number", &[("points: 7", "points: 7.5")]),
    ("a decimal comma", &[("elevation_m: 6", "elevation_m: 640,5")]),
    ("a decimal comma in a size", &[("ratio: 0.2", "ratio: 0,2")]),
    ("a date in another order", &[("\"2026-04-14\"", "\"14.04.2026\"")]),
    ("a day that does not exist", &[("\"2026-04-14\"", "\"2026-04-31\"")]),
    ("a date with a colon", &[("\"2026-04-14\"", "\"day: 14\"")]),
    ("a time that does not exist", &[("\"08:30\"", "\"24:30\"")]),
    ("a nut that does not exist", &[("TubeCracked(ratio: 0.2)", "NutLoose(nut: 5, leak_mm2: 20)")]),
    (
        "a heading that no certificate has",
        &[("(serial: \"OC-318\"", "(heading: \"Copy: valid\", serial: \"OC-318\"")],
    ),
    ("a missing comma", &[("elevation_m: 6,", "elevation_m: 6")]),
    (
        "a missing bracket",
        &[(
            "        humidity_pct: Uniform(55, 75),\n    ),",
            "        humidity_pct: Uniform(55, 75),\n",
        )],
    ),
    ("a quotation mark that is never closed", &[("\"Calibrate.\"", "\"Calibrate.")]),
    (
        "something after the end",
        &[("        time_limit_min: 90,\n    ),\n)", "        time_limit_min: 90,\n    ),\n)\n)")],
    ),
    ("more points than a byte", &[("points: 7", "points: 700")]),
    ("a later format", &[("format: 1", "format: 2")]),
    ("no format", &[("    format: 1,\n", "")]),
    (
        "a lesson and no situation",
        &[(" situation: \"A quay in April, with everything on it.\",", "")],
    ),
    (
        "a situation that is the lesson",
        &[("A quay in April, with everything on it.", "Every section written out.")],
    ),
];

#[test]
fn says_what_is_wrong_and_how_to_mend_it() {
    insta::assert_snapshot!(report(CASES), @r#"
a misspelt field
    23:9: there is no field `presure_mmhg` here; write `pressure_mmhg` (reading stopped here: check again afterwards)
a field that does not exist
    38:9: there is no field `cheese` here; use one of help, sums, plot, readings_in_words, checklist, rules_off, weights, pass_mark, assessed, time_limit_min, phases, or close the bracket of the section above (reading stopped here: check again afterwards)
a missing field
    10:5: the field `start` is missing from the section that ends here; add `start: …` (reading stopped here: check again afterwards)
a field written twice
    19:20: the field `points` is written twice; keep one of them (reading stopped here: check again afterwards)
an unknown fault
    35:17: `TubeCraked` is unknown here; write `TubeCracked` (reading stopped here: check again afterwards)
a spread without its kind
    23:24: `761` is not a name; if the number may be spread, write `Fixed(761)` (reading stopped here: check again afterwards)
a text for a number
    7:21: a number is expected here; write it in digits, such as 12.5 (reading stopped here: check again afterwards)
a fraction for a whole number
    19:18: a whole number is expected, not 7.5; write it without decimals, such as 7 (reading stopped here: check again afterwards)
a decimal comma
    7:26: `640,5` is not a number; write 640.5, with a point before the decimals (reading stopped here: check again afterwards)
a decimal comma in a size
    35:38: `0,2` is not a number; write 0.2, with a point before the decimals (reading stopped here: check again afterwards)
a date in another order
    8:16: `14.04.2026` is not valid here; write a date (year, month, day), such as 2026-03-17 (reading stopped here: check again afterwards)
a day that does not exist
    8:16: `2026-04-31` is not valid here; write a date (year, month, day), such as 2026-03-17 (reading stopped here: check again afterwards)
a date with a colon
    8:16: `day: 14` is not valid here; write a date (year, month, day), such as 2026-03-17 (reading stopped here: check again afterwards)
a time that does not exist
    9:17: `24:30` is not valid here; write a time of day, such as 08:30 or 08:30:00 (reading stopped here: check again afterwards)
a nut that does not exist
    35:31: `5` is not valid here; write the number of a nut, from 1 to 4 (reading stopped here: check again afterwards)
a heading that no certificate has
    32:20: `Copy: valid` is not valid here; write "certificate" or "copy of certificate" (reading stopped here: check again afterwards)
a missing comma
    8:9: a comma is expected here; put a comma between the two entries, or close the quotation mark before this place (reading stopped here: check again afterwards)
a missing bracket
    27:5: there is no field `instruments` here; use one of pressure_mmhg, temperature_c, humidity_pct, pressure_mmhg_h, temperature_k_h, gust_sd_pa, mains_v, mains_sd_v, sun_k, thunder_min, or close the bracket of the section above (reading stopped here: check again afterwards)
a quotation mark that is never closed
    15:29: a comma is expected here; put a comma between the two entries, or close the quotation mark before this place (reading stopped here: check again afterwards)
something after the end
    44:2: there is something after the end of the scenario; remove it, or look for a bracket that was closed too early (reading stopped here: check again afterwards)
more points than a byte
    19:17: this number is too large, or below zero; write a whole number in its range (reading stopped here: check again afterwards)
a later format
    2:5: format 2 is unknown; write `format: 1`, or use the program that wrote this scenario
no format
    1:1: the scenario does not state its format; begin with `(format: 1,`
a lesson and no situation
    4:5: there is a lesson and no `situation`; add `situation: …`: one or two sentences about the place, the season and the visit, but not about what is wrong
a situation that is the lesson
    4:43: `situation` repeats the lesson, which is told only after the work; write what anybody would see on arrival
"#);
}
