//! Lessons that cannot be held.

use super::{Case, report};

const HELP: &str = "        help: true,\n";

/// Texts that are refused.
pub const CASES: &[Case] = &[
    (
        "a lesson that ends before it begins",
        &[(HELP, "        phases: (from: Points, to: Manometer),\n")],
    ),
    (
        "a lesson on a run that nobody ordered",
        &[(HELP, "        phases: (from: SettingUp, to: Volume),\n")],
    ),
    (
        "a lesson whose help is switched off",
        &[(HELP, "        help: false,\n        phases: (from: Power, to: Power, help: Shown),\n")],
    ),
];

#[test]
fn a_lesson_needs_phases_that_are_ordered_and_help_that_is_allowed() {
    insta::assert_snapshot!(report(CASES), @r"
a lesson that ends before it begins
    38:32: the lesson ends with Manometer, before it begins with Points; write a phase that does not come before Points: Arrival, Mounting, Manometer, Power, Points, Calculations, Restoring
a lesson on a run that nobody ordered
    38:18: the work order asks for nothing in the phase SettingUp; take one of Arrival, Mounting, Manometer, Power, Points, Calculations, Restoring, or order what belongs to SettingUp
    38:35: the work order asks for nothing in the phase Volume; take one of Arrival, Mounting, Manometer, Power, Points, Calculations, Restoring, or order what belongs to Volume
a lesson whose help is switched off
    39:9: the lesson's help is Shown, but `help: false` allows none; leave `help` out, or write `help: Silent` in the lesson
");
}
