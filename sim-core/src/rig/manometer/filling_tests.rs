//! Fluid that goes over into the tubing, and is filled up again.

use super::tube::Tube;
use super::{Manometer, ManometerInputs, ManometerParameters};
use crate::rig::parts::{GaugeFluid, Leg};

const AMBIENT_PA: f64 = 101_325.0;
/// The whole suction of a blower behind covered openings, Pa.
const WHOLE_PA: f64 = 19_000.0;

/// A manometer that hangs with its valves open by so many quarter turns, and its tubing on the tap.
fn hung(left: i8, right: i8) -> (Manometer, Tube) {
    let mut manometer = Manometer::new(ManometerParameters::default(), AMBIENT_PA);
    manometer.hang(0.0);
    manometer.turn_valve(Leg::Left, left);
    manometer.turn_valve(Leg::Right, right);
    let mut tube = Tube::default();
    tube.connect();
    (manometer, tube)
}

/// Lets a suction stand on the tap for so many seconds.
fn stands(manometer: &mut Manometer, tube: &mut Tube, suction_pa: f64, seconds: u32) {
    for _ in 0..20 * seconds {
        let suction_pa = tube.step(0.05, suction_pa);
        manometer.step(0.05, ManometerInputs { suction_pa, ..ManometerInputs::still(AMBIENT_PA) });
        tube.take_over(manometer.pour_over());
    }
}

fn sum_in(manometer: &Manometer) -> f64 {
    let [left, right] = manometer.levels_in();
    left - right
}

#[test]
fn what_leaves_the_legs_lies_in_the_tubing() {
    for seconds in [1, 3, 20] {
        let (mut manometer, mut tube) = hung(4, 4);
        stands(&mut manometer, &mut tube, WHOLE_PA, seconds);
        let (lost, found) = (manometer.missing_m3(), tube.water_m3());
        assert!(lost > 1e-6, "{lost} m3 after {seconds} s");
        assert!((found / lost - 1.0).abs() < 1e-9, "{lost} and {found} m3");
    }
}

#[test]
fn it_shortens_the_column_and_the_level_leaves_the_scale() {
    let (mut manometer, mut tube) = hung(4, 4);
    stands(&mut manometer, &mut tube, 1500.0, 60);
    let before = sum_in(&manometer);
    stands(&mut manometer, &mut tube, WHOLE_PA, 10);
    stands(&mut manometer, &mut tube, 1500.0, 60);
    assert!(sum_in(&manometer) < before - 1.0, "{before} and {}", sum_in(&manometer));
    let [left, right] = manometer.levels_in();
    assert!(0.5 * (left + right) < -8.0, "the level is off the scale: {left} {right}");
    // No more than stands above the bend goes over, however long it stands.
    let lost = manometer.missing_m3();
    stands(&mut manometer, &mut tube, WHOLE_PA, 600);
    assert!(manometer.missing_m3() >= lost && manometer.below_mark_mm() < 220.0);
}

#[test]
fn nothing_is_lost_with_a_valve_shut_or_by_what_a_flow_can_give() {
    for (left, right) in [(0, 4), (4, 0), (0, 0)] {
        let (mut manometer, mut tube) = hung(left, right);
        stands(&mut manometer, &mut tube, WHOLE_PA, 30);
        assert!(manometer.missing_m3().abs() <= 0.0 && tube.water_m3() <= 0.0, "{left} {right}");
    }
    let (mut manometer, mut tube) = hung(4, 4);
    // Nine inches of water, more than any calibrator gives.
    stands(&mut manometer, &mut tube, 2240.0, 60);
    assert!(manometer.missing_m3().abs() <= 0.0 && tube.water_m3() <= 0.0);
}

#[test]
fn refilled_drained_and_zeroed_it_reads_right_again() {
    let (mut manometer, mut tube) = hung(4, 4);
    stands(&mut manometer, &mut tube, 0.0, 60);
    let [left, right] = manometer.levels_in();
    manometer.slide_scale(0.5 * (left + right));
    stands(&mut manometer, &mut tube, 1500.0, 60);
    let before = manometer.levels_in();
    stands(&mut manometer, &mut tube, WHOLE_PA, 10);
    tube.disconnect();
    tube.drain();
    stands(&mut manometer, &mut tube, 0.0, 60);
    while manometer.below_mark_mm() > 0.5 {
        manometer.add_fluid(manometer.below_mark_mm().min(20.0).round().max(1.0));
    }
    let [left, right] = manometer.levels_in();
    manometer.slide_scale(0.5 * (left + right));
    tube.connect();
    stands(&mut manometer, &mut tube, 1500.0, 60);
    for (now, then) in manometer.levels_in().iter().zip(before) {
        assert!((now - then).abs() < 1e-6, "{now} and {then}");
    }
}

#[test]
fn antifreeze_stands_lower_by_its_density() {
    let (mut water, mut tube) = hung(4, 4);
    stands(&mut water, &mut tube, 1500.0, 90);
    let (mut other, mut tube) = hung(4, 4);
    other.change_fluid(GaugeFluid::Antifreeze);
    stands(&mut other, &mut tube, 1500.0, 90);
    let density = GaugeFluid::Antifreeze.relative_density();
    assert!((sum_in(&water) / sum_in(&other) / density - 1.0).abs() < 1e-6);
}

#[test]
fn ice_holds_the_column_and_slush_lets_it_creep() {
    let (mut manometer, mut tube) = hung(4, 4);
    manometer.freeze_through();
    stands(&mut manometer, &mut tube, 1500.0, 60);
    assert!(sum_in(&manometer).abs() < 1e-12 && !manometer.is_moving());
    manometer.stand(360.0, 10.0, super::ColdExposure::Open);
    assert!((manometer.ice() - 0.5).abs() < 1e-9);
    stands(&mut manometer, &mut tube, 1500.0, 6);
    let early = sum_in(&manometer);
    stands(&mut manometer, &mut tube, 1500.0, 60);
    assert!(early > 0.2 && early < 0.9 * sum_in(&manometer), "{early} {}", sum_in(&manometer));
    assert!((sum_in(&manometer) - 6.03).abs() < 0.02, "{}", sum_in(&manometer));
}

#[test]
fn dirt_holds_each_meniscus_back_until_the_water_is_changed() {
    let (mut manometer, mut tube) = hung(4, 4);
    manometer.soil(2.0);
    // A pressure that rises slowly leaves each meniscus short by what clings.
    for pa in 0..150 {
        stands(&mut manometer, &mut tube, 10.0 * f64::from(pa), 1);
    }
    stands(&mut manometer, &mut tube, 1500.0, 60);
    let held = sum_in(&manometer);
    assert!((held - (6.03 - 2.0 * 2.0 / 25.4)).abs() < 0.03, "{held}");
    manometer.change_fluid(GaugeFluid::Water);
    stands(&mut manometer, &mut tube, 1500.0, 120);
    assert!((sum_in(&manometer) - 6.03).abs() < 0.02, "{}", sum_in(&manometer));
}
