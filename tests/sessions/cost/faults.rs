//! A fault left out gives back the bench without it.

use sim_core::fault::{Fault, FaultPlace};
use sim_core::marking::cost::Costs;
use sim_core::session::action::Action;
use sim_core::session::view::View;

use super::common::{costs_of, exactly, redone, redone_on, row, scenario, session_of};

/// Faults that nobody noticed in another size than the usual one, or that cost something: the least
/// that each costs, percent.
const SIZED: [(&str, f64); 18] = [
    ("ManometerValveLeaks(leg: left, ratio: 0.3)", 3.0),
    ("ManometerValveBarelyOpens(leg: left, passes: 0.01)", 0.0),
    ("ManometerBubble(length_mm: 6)", 2.0),
    ("ManometerOutOfPlumb(tilt_deg: 9)", 1.0),
    ("ManometerWrongFluid(relative_density: 0.83)", 3.0),
    ("ManometerUnequalBores(wider_mm: 1)", 0.2),
    ("TubeCracked(ratio: 0.3)", 1.0),
    ("TubeLoose(ratio: 0.3)", 1.0),
    ("TubeWet(height_in: 0.5)", 1.0),
    ("OrificeNicked(area_pct: 5)", 1.0),
    ("OrificeFouled(area_pct: 5)", 1.0),
    ("CalibratorGasketMissing(leak_mm2: 20)", 5.0),
    ("HolderGasketMissing(leak_mm2: 20)", 5.0),
    ("WasherBelow(nut: 3, leak_mm2: 20)", 5.0),
    ("PlateWarped(leak_mm2: 10)", 2.0),
    ("PenSticks(play_inh2o: 0.4)", 0.05),
    ("BarometerOff(mmhg: 15)", 0.0),
    ("ThermometerInSun(by_k: 12)", 0.0),
];

/// Faults that this test cannot cover, and why.
const NOT_HERE: [(&str, &str); 12] = [
    ("ManometerFrozen", "it thaws by itself in mild air, before the points or between them"),
    ("Gusts", "without them, every reading that they disturbed would have been different"),
    ("FastWeather", "it changes the air to which the truth itself refers"),
    ("WanderingVoltage", "without it, every flow that was read would have been different"),
    ("ManometerValveShut", "no line can be fitted to the readings that it leaves"),
    ("TubeKinked", "no line can be fitted to the readings that it leaves"),
    ("DisplayBatteryLow", "this bench has a manometer with water"),
    ("DisplayZeroDrifts", "this bench has a manometer with water"),
    ("DisplayCalibrationExpired", "this bench has a manometer with water"),
    ("RecorderLineOff", "no line can be fitted to the readings that it leaves"),
    ("GroundFaultTrips", "nothing runs, and nothing is read"),
    ("PenDry", "it leaves the readings as they are, and only the trace is missing"),
];

/// Every fault of a calibration, with the least that it costs, percent.
fn faults() -> Vec<(Fault, f64)> {
    let sized = SIZED.map(|(text, least)| (ron::from_str::<Fault>(text).unwrap(), least));
    let of_calibration = |fault: &Fault| {
        fault.place() != FaultPlace::Certificate
            && !fault.belongs_to_run()
            && NOT_HERE.iter().all(|(name, _)| *name != fault.name())
    };
    Fault::examples()
        .filter(of_calibration)
        .map(|usual| {
            let same = |(fault, _): &&(Fault, f64)| fault.name() == usual.name();
            sized.iter().find(same).copied().unwrap_or((usual, 0.0))
        })
        .collect()
}

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
        | Action::DrainTube
        | Action::ClearOpening { .. }
        | Action::TendRecorderLine { .. }
        | Action::FitGasket { .. } => Vec::new(),
        _ => vec![exactly(action, view)],
    };
    let share_of_truth = |costs: &Costs, volume_m3: f64| volume_m3 / costs.true_volume_m3.unwrap();
    let kept = costs_of(&redone(&signed, blind));
    let without = share_of_truth(&kept, kept.sums_redone_m3.unwrap());
    for (fault, least_pct) in faults() {
        let (written, onset) = (ron::to_string(&fault).unwrap(), fault.sheet().begins);
        let onset = ron::to_string(&onset).unwrap();
        let entry = format!("    faults: [(fault: {written}, onset: {onset})],\n    terms:");
        let text = clean.replace("    terms:", &entry);
        let costs = costs_of(&redone_on(&text, &signed, blind));
        let cost = row(&costs, fault.name());
        let undone = cost.volume_m3.unwrap_or_else(|| panic!("{costs:#?}"));
        let off = 100.0 * (share_of_truth(&costs, undone) / without - 1.0);
        assert!(off.abs() < 0.01, "{written}: {off:+.4} % left of {:?} %", cost.cost_pct);
        let told = cost.cost_pct.unwrap().abs();
        assert!(told >= least_pct, "{written} costs {told} %, no less than {least_pct} % expected");
    }
}
