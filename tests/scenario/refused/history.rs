//! Histories of the sampler.

use super::{Case, report};

/// What turns the base into a scenario with a sound history: the job is a check of the last line.
const FROM: &str = "    certificates: [";
/// The last line as it follows from the rig.
const LINE: (&str, &str) = (", slope: 32.4, intercept: 1.2)", ")");

/// A section `history` with the check that belongs to it.
macro_rules! with {
    ($history:literal) => {
        concat!(
            "    flow_check: (readings: 3, within_pct: 7, line: Last),\n    history: (",
            $history,
            "),\n    certificates: ["
        )
    };
}

/// Texts that are refused.
pub const CASES: &[Case] = &[
    (
        "a history without a flow check",
        &[(
            FROM,
            "    history: (visits: [], checks: (first: \"2024-05-21\", every_days: 28)),\n    certificates: [",
        )],
    ),
    (
        "too few checks",
        &[(FROM, with!("visits: [], checks: (first: \"2025-11-04\", every_days: 28)"))],
    ),
    (
        "a check every year",
        &[(FROM, with!("visits: [], checks: (first: \"2014-05-21\", every_days: 300)"))],
    ),
    (
        "a visit from the future, and a number that cannot be",
        &[(
            FROM,
            with!(
                "visits: [Note(date: \"2026-04-14\", text: \"Today.\"), Calibration(date: \"2025-05-05\", slope: 3)], checks: (first: \"2024-05-21\", every_days: 28)"
            ),
        )],
    ),
    (
        "checks written out and drawn",
        &[(
            FROM,
            with!(
                "visits: [FlowCheck(date: \"2025-05-05\", difference_pct: 1)], checks: (first: \"2024-05-21\", every_days: 28)"
            ),
        )],
    ),
    (
        "a repair without words",
        &[(
            FROM,
            with!(
                "visits: [Repair(date: \"2025-05-05\", text: \" \")], checks: (first: \"2024-05-21\", every_days: 28)"
            ),
        )],
    ),
    (
        "a drift without a size, and a jump without a day",
        &[(
            FROM,
            with!(
                "visits: [], checks: (first: \"2024-05-21\", every_days: 28), drift_from: \"2026-02-01\", sizes: (jump_pct: Fixed(4))"
            ),
        )],
    ),
    (
        "a jump before the last calibration",
        &[
            LINE,
            (
                FROM,
                with!(
                    "visits: [], checks: (first: \"2024-05-21\", every_days: 28), jump_on: \"2026-01-13\", sizes: (jump_pct: Fixed(4))"
                ),
            ),
        ],
    ),
    (
        "a line that does not follow the drift",
        &[(
            FROM,
            with!(
                "visits: [], checks: (first: \"2024-05-21\", every_days: 28), drift_from: \"2026-02-01\", sizes: (drift_pct_month: Fixed(1))"
            ),
        )],
    ),
    (
        "a drift beyond all drifts",
        &[
            LINE,
            (
                FROM,
                with!(
                    "visits: [], checks: (first: \"2024-05-21\", every_days: 28), drift_from: \"2026-02-01\", sizes: (drift_pct_month: Normal(1, 1))"
                ),
            ),
        ],
    ),
];

#[test]
fn says_what_is_wrong_and_how_to_mend_it() {
    insta::assert_snapshot!(report(CASES), @r"
a history without a flow check
    31:5: there is no flow check of the last line to be entered on the control chart; order one, with `line: Last` in `flow_check`, or remove the history
too few checks
    32:5: there are 6 flow checks before the day of the session; give 12 to 60: the first 12 give the limits
a check every year
    32:57: a flow check every 300 days makes no sense; write 5 to 92; 28 to 31 are usual
a visit from the future, and a number that cannot be
    32:29: this visit is not before the day of the session; give an earlier date
    32:98: 3 is outside 10 to 80; write a value in this range
checks written out and drawn
    32:24: this flow check is written out, and others are drawn; write all of them, or leave this one out
a repair without words
    32:51: `text` is empty; write what the trainee is to read
a drift without a size, and a jump without a day
    32:74: there is no `drift_pct_month` to it; give `drift_pct_month` in `history.sizes`
    32:108: there is no `jump_on` to it; give `jump_on` in `history`
a jump before the last calibration
    32:74: this is not between the base period or the last calibration and today; give a date after the twelfth flow check and after the last calibration, and before the day of the session
a line that does not follow the drift
    20:41: this slope does not follow what happens to the sampler; leave it out: it then follows from the rig
a drift beyond all drifts
    32:108: drift_pct_month Normal(1, 1) reaches from -2 to 4, outside -2 to 2; make the spread narrower, or move its centre
");
}
