//! A fault left out gives back the bench without it.

use sim_core::marking::cost::Costs;
use sim_core::session::action::Action;
use sim_core::session::view::View;

use super::common::{costs_of, exactly, redone, redone_on, row, scenario, session_of};

/// Faults that nobody noticed, and the least that each costs, percent. A front is not among them: it
/// changes the air in which the truth itself is taken, by 0.07 % of volume.
const FAULTS: [(&str, f64); 29] = [
    ("ManometerValveLeaks(leg: left, ratio: 0.3)", 3.0),
    ("ManometerBubble(length_mm: 6)", 2.0),
    ("ManometerOutOfPlumb(tilt_deg: 9)", 1.0),
    ("ManometerWrongFluid(relative_density: 0.83)", 3.0),
    ("ManometerScaleStuck", 0.0),
    ("ManometerUnequalBores(wider_mm: 1)", 0.2),
    ("TubeCracked(ratio: 0.3)", 1.0),
    ("TubeWet(height_in: 0.5)", 1.0),
    ("OrificeNicked(area_pct: 5)", 1.0),
    ("OrificeFouled(area_pct: 5)", 1.0),
    ("CalibratorGasketMissing(leak_mm2: 20)", 5.0),
    ("HolderGasketMissing(leak_mm2: 20)", 5.0),
    ("PlateWarped(leak_mm2: 10)", 2.0),
    ("WornBrushes(added_ohm: 1)", 0.0),
    ("LowVoltage(by_v: 10)", 0.0),
    ("BearingDrag(factor: 2)", 0.0),
    ("PenSticks(play_inh2o: 0.4)", 0.05),
    ("PenZeroOff(divisions: 2)", 0.0),
    ("RecorderLineLeaks(ratio: 0.4)", 0.0),
    ("ExitOrificeBlocked(area_pct: 10)", 0.0),
    ("ChartClockSlow(pct: 5)", 0.0),
    ("BarometerAtSeaLevel", 0.0),
    ("BarometerOff(mmhg: 15)", 0.0),
    ("ThermometerInSun(by_k: 12)", 0.0),
    ("TubeLoose(ratio: 0.3)", 1.0),
    ("WasherBelow(nut: 3, leak_mm2: 20)", 5.0),
    ("ManometerValveBarelyOpens(leg: left, passes: 0.01)", 0.0),
    ("KnobSlips(per_min: -0.01)", 0.0),
    ("ChartOfAnotherRange(pct: 40)", 0.0),
];

#[test]
fn a_fault_left_out_gives_the_volume_of_a_bench_without_it() {
    // High enough that a barometer set to sea level can be told.
    let clean = scenario("01_first_calibration").replace("elevation_m: 6", "elevation_m: 120");
    let signed = session_of(&clean, "careful", 3);
    // Nobody looks out for anything: what would put a fault right is not done.
    let blind = |action: &Action, view: &View| match action {
        Action::SetPenZero { .. }
        | Action::SetBarometer { .. }
        | Action::PlaceThermometer { .. }
        | Action::StraightenTube
        | Action::DrainTube => Vec::new(),
        _ => vec![exactly(action, view)],
    };
    let share_of_truth = |costs: &Costs, volume_m3: f64| volume_m3 / costs.true_volume_m3.unwrap();
    let kept = costs_of(&redone(&signed, blind));
    let without = share_of_truth(&kept, kept.sums_redone_m3.unwrap());
    for (fault, least_pct) in FAULTS {
        let text =
            clean.replace("    terms:", &format!("    faults: [(fault: {fault})],\n    terms:"));
        let costs = costs_of(&redone_on(&text, &signed, blind));
        let name = fault.split('(').next().unwrap();
        let cost = row(&costs, name);
        let undone = cost.volume_m3.unwrap_or_else(|| panic!("{costs:#?}"));
        let off = 100.0 * (share_of_truth(&costs, undone) / without - 1.0);
        assert!(off.abs() < 0.01, "{fault}: {off:+.4} % left of {:?} %", cost.cost_pct);
        let told = cost.cost_pct.unwrap().abs();
        assert!(told >= least_pct, "{fault} costs {told} %, no less than {least_pct} % expected");
    }
}
