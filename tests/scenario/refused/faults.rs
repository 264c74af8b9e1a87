//! Faults beside each other, and the terms.

use super::{Case, report};

/// Texts that are refused.
pub const CASES: &[Case] = &[
    (
        "a fault listed twice",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)), (fault: TubeCracked(ratio: 0.3)),",
        )],
    ),
    (
        "faults that contradict each other",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: OrificeNicked(area_pct: 3)), (fault: OrificeFouled(area_pct: 3)),",
        )],
    ),
    (
        "a gasket that vanishes",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: HolderGasketMissing(leak_mm2: 20), onset: AfterMinutes(10)),",
        )],
    ),
    (
        "a fault printed on paper that comes and goes",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: CertificateExpired, onset: Intermittent(on_min: 2, off_min: 3)),",
        )],
    ),
    (
        "a crack that comes and goes",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: TubeCracked(ratio: 0.2), onset: Intermittent(on_min: 2, off_min: 3)),",
        )],
    ),
    (
        "spells of no length",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: PenDry, onset: Intermittent(on_min: 0, off_min: 500)),",
        )],
    ),
    (
        "a point that nobody takes",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: TubeKinked, onset: AtEvent(PointWritten(7))),",
        )],
    ),
    (
        "a knob turned no times",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: TubeKinked, onset: AtEvent(KnobTurned(0))),",
        )],
    ),
    (
        "a hook that bends when the manometer hangs on it",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: ManometerOutOfPlumb(tilt_deg: 5), onset: AtEvent(ManometerHung)),",
        )],
    ),
    (
        "a fault after the time is over",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: TubeKinked, onset: AfterMinutes(90)),",
        )],
    ),
    (
        "a fault when everybody is gone",
        &[
            (
                "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
                "(fault: TubeKinked, onset: AfterMinutes(470)),",
            ),
            ("        time_limit_min: 90,\n", ""),
        ],
    ),
    (
        "a fault that waits for a run where there is none",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: TubeKinked, onset: AfterRunHours(2)),",
        )],
    ),
    (
        "a nut that is loose on arrival",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: NutLoose(nut: 2, leak_mm2: 15)),",
        )],
    ),
    (
        "an event that nobody knows",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: TubeKinked, onset: AtEvent(PointWriten(3))),",
        )],
    ),
    (
        "a fault that cannot show",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: BarometerAtSeaLevel),",
        )],
    ),
    (
        "a habit that nobody has",
        &[("    station: (", "    about: [\"hurried+one-legs\"],\n    station: (")],
    ),
    (
        "a habit named twice",
        &[(
            "    station: (",
            "    about: [\"one-leg+hurried\", \"hurried+one-leg\"],\n    station: (",
        )],
    ),
    (
        "a habit joined with itself",
        &[("    station: (", "    about: [\"one-leg+hurried+one-leg\"],\n    station: (")],
    ),
    ("carefulness as a habit", &[("    station: (", "    about: [\"careful\"],\n    station: (")]),
    ("weights that add to too much", &[("record: 10", "record: 15")]),
    ("weights with one left out", &[("safety: 15, ", ""), ("record: 10", "record: 5")]),
    ("a rule that does not exist", &[("\"tube-clear\"", "\"tube-claer\"")]),
    (
        "a run before the work is done, without a filter",
        &[(
            "    certificates: [",
            "    run: (on: (day: 0, at: \"09:00\"), off: (day: 1, at: \"09:00\"), back: (day: 1, at: \"10:00\"), filters: []),\n    certificates: [",
        )],
    ),
    (
        "a next run before the return, and no filter for it",
        &[(
            "    certificates: [",
            "    run: (on: (day: 1, at: \"00:00\"), off: (day: 2, at: \"00:00\"), back: (day: 2, at: \"08:00\"), next: (on: (day: 2, at: \"08:30\"), off: (day: 3, at: \"08:30\")), filters: [(number: \"F-1\", mass_g: 4.1)]),\n    certificates: [",
        )],
    ),
    (
        "a next run on no day of the dial, longer than two days",
        &[(
            "    certificates: [",
            "    run: (on: (day: 1, at: \"00:00\"), off: (day: 2, at: \"00:00\"), back: (day: 2, at: \"08:00\"), next: (on: (day: 4, at: \"00:00\"), off: (day: 7, at: \"00:00\")), filters: [(number: \"F-1\", mass_g: 4.1), (number: \"F-2\", mass_g: 4.1)]),\n    certificates: [",
        )],
    ),
    (
        "a power cut without a run",
        &[(
            "(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),",
            "(fault: PowerCut(minutes: 30), onset: AfterRunHours(3)),",
        )],
    ),
    (
        "a check that checks nothing, for a run that is not ordered",
        &[(
            "    certificates: [",
            "    flow_check: (readings: 0, within_pct: 30, flow_of_run: Check),\n    certificates: [",
        )],
    ),
    ("a rule switched off twice", &[("\"tube-clear\"", "\"tube-clear\", \"tube-clear\"")]),
];

#[test]
fn says_what_is_wrong_and_how_to_mend_it() {
    insta::assert_snapshot!(report(CASES), @r"
a fault listed twice
    35:68: the fault TubeCracked is listed twice; keep one of them, with the size you want
faults that contradict each other
    35:46: OrificeNicked and OrificeFouled contradict each other; keep one of them
a gasket that vanishes
    35:52: HolderGasketMissing cannot arise during the work; write `onset: Start`, or leave the onset out
a fault printed on paper that comes and goes
    35:9: the fault CertificateExpired is listed, but the certificate on top, dated 2025-11-04, is not older than a year; change `date` of the first certificate, or remove the fault
    35:37: CertificateExpired cannot arise during the work; write `onset: Start`, or leave the onset out
a crack that comes and goes
    35:42: TubeCracked does not disappear by itself; let it begin once: `Start`, `AfterMinutes(m)`, `AfterRunningMinutes(m)`, `AtEvent(e)`
spells of no length
    35:45: on_min 0 is outside 0.1 to 120; write a value in this range, in min
    35:56: off_min 500 is outside 0.1 to 120; write a value in this range, in min
a point that nobody takes
    35:29: 7 is not between 1 and 6: 7 points are ordered; let it begin while at least one point is still to be read
a knob turned no times
    35:29: 0 is not between 1 and 6: 7 points are ordered; let it begin while at least one point is still to be read
a hook that bends when the manometer hangs on it
    35:51: ManometerOutOfPlumb takes effect when the manometer is hung, so it may begin too late; let it begin at the start
a fault after the time is over
    35:29: TubeKinked begins after 90 min, but the time limit is 90 min; let it begin earlier, or raise the time limit
a fault when everybody is gone
    35:29: TubeKinked begins after 470 min, when the work is usually finished; let it begin within two hours
a fault that waits for a run where there is none
    35:29: TubeKinked would begin during a run, but there is none; choose another onset, for example `AfterMinutes(10)`, or add a section `run`
a nut that is loose on arrival
    35:9: the work itself would undo NutLoose if it were there from the start; let it begin later, for example `AfterRunningMinutes(6)`
an event that nobody knows
    35:44: `PointWriten` is unknown here; write `PointWritten` (reading stopped here: check again afterwards)
a fault that cannot show
    35:9: BarometerAtSeaLevel cannot be noticed at 6 m; move the station to 100 m or higher
a habit that nobody has
    5:13: there is no habit `one-legs`; write `one-leg`
a habit named twice
    5:32: the habit `hurried+one-leg` is named twice; keep one
a habit joined with itself
    5:13: `one-leg+hurried+one-leg` names the habit `one-leg` twice; keep one
carefulness as a habit
    5:13: `careful` is not a bad habit; remove it: the careful operator must pass every scenario anyway
weights that add to too much
    40:9: the weights add up to 105, not 100; take 5 away; a weight that is left out has its default
weights with one left out
    40:9: the weights add up to 95, not 100; add 5; a weight that is left out has its default
a rule that does not exist
    39:21: there is no rule `tube-claer` to switch off; write `tube-clear`
a run before the work is done, without a filter
    31:11: the run begins before calibration and loading can be finished; let it begin at least 3 hours after the start of the session, for example at midnight
    31:95: the folder contains no filter, or more than three; list 1 to 3 filters
    43:9: a session with a run cannot have a time limit; leave the time limit out
a next run before the return, and no filter for it
    31:102: the next run begins before the sampler can be set up for it; let it begin at least an hour after `back`, for example at the following midnight
    31:158: the folder contains 1 of the 2 filters that are needed; list one for the run, one for the next run, and one for a check of the trainee's calibration line
    43:9: a session with a run cannot have a time limit; leave the time limit out
a next run on no day of the dial, longer than two days
    31:129: the next run does not last 1 to 48 hours; change `on` or `off`; 24 hours is usual
    31:129: day 7 is too far ahead; write 0 to 6
    43:9: a session with a run cannot have a time limit; leave the time limit out
a power cut without a run
    35:9: PowerCut has no effect, because there is no run; add a section `run`, or remove the fault
a check that checks nothing, for a run that is not ordered
    31:18: a flow check cannot have 0 readings; order 1 to 12; 3 to 8 are usual
    31:31: a limit of 30 percent makes no sense; write 1 to 20; 5 to 10 are usual
    31:47: there is no run whose flow could be taken from the check; leave it out, or add a section `run`
a rule switched off twice
    39:35: the rule `tube-clear` is switched off twice; keep one
");
}
