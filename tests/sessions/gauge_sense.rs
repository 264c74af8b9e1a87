//! The gauges behave as things on a roof do, whatever is done to them.

use proptest::prelude::*;
use sim_core::digest::{Digest, Digestible};
use sim_core::rig::manometer::tube::Tube;
use sim_core::rig::manometer::{
    BlowResponse, Manometer, ManometerInputs, ManometerParameters, ScaleSlide,
};
use sim_core::rig::parts::Leg;
use sim_core::rig::recorder::{FlowRecorder, RecorderInputs, RecorderParameters};
use sim_core::units::PA_PER_INH2O;

const AMBIENT_PA: f64 = 101_325.0;

fn open(parameters: ManometerParameters) -> Manometer {
    let mut manometer = Manometer::new(
        ManometerParameters { initial_valve_quarters: [4, 4], ..parameters },
        AMBIENT_PA,
    );
    manometer.hang(0.0);
    manometer
}

fn suction(inches: f64) -> ManometerInputs {
    ManometerInputs { suction_pa: inches * PA_PER_INH2O, ..ManometerInputs::still(AMBIENT_PA) }
}

fn column(manometer: &Manometer) -> f64 {
    let [left, right] = manometer.levels_in();
    left - right
}

fn settled(mut manometer: Manometer, inches: f64) -> Manometer {
    manometer.step(600.0, suction(inches));
    manometer
}

#[test]
fn suction_and_gusts_raise_the_left_leg() {
    let manometer = settled(open(ManometerParameters::default()), 4.0);
    let [left, right] = manometer.levels_in();
    assert!(left > 1.6 && right < -2.3, "{left} {right}");
    let mut gusty = open(ManometerParameters::default());
    gusty.step(600.0, ManometerInputs { gust_pa: 50.0, ..suction(0.0) });
    assert!((column(&gusty) - 50.0 / 248.642).abs() < 1e-3);
}

#[test]
fn a_scale_off_its_zero_shifts_both_legs_alike_and_cancels_in_their_sum() {
    let mut off = settled(open(ManometerParameters::default()), 4.0);
    let mut zeroed = off.clone();
    zeroed.slide_scale(-0.35);
    assert!(zeroed.zero_in().iter().all(|zero| zero.abs() < 1e-12));
    assert!((off.levels_in()[0] + 0.35 - zeroed.levels_in()[0]).abs() < 1e-12);
    assert!((column(&off) - column(&zeroed)).abs() < 1e-12);
    let [up, down] = zeroed.levels_in();
    let [expected_up, expected_down] = zeroed.undisturbed_in(4.0 * PA_PER_INH2O);
    assert!((up - expected_up).abs() < 1e-6 && (down - expected_down).abs() < 1e-6);
    off.parameters.scale = ScaleSlide::Stuck;
    off.slide_scale(-0.35);
    assert!((off.scale_in() - 0.35).abs() < 1e-12);
}

#[test]
fn unequal_limbs_leave_their_difference_of_capillary_rise() {
    let parameters =
        ManometerParameters { left_bore_mm: 7.0, right_bore_mm: 6.0, ..Default::default() };
    let manometer = settled(open(parameters), 0.0);
    assert!((column(&manometer) + 0.029).abs() < 0.001, "{}", column(&manometer));
    let loaded = settled(open(parameters), 6.0);
    let [left, right] = loaded.levels_in();
    assert!(left + 0.35 < -(right + 0.35), "the wider limb moves less: {left} {right}");
}

#[test]
fn a_lighter_fluid_travels_further_and_a_bubble_lifts_one_side() {
    let water = column(&settled(open(ManometerParameters::default()), 4.0));
    let light = ManometerParameters { relative_density: 0.8, ..Default::default() };
    assert!((column(&settled(open(light), 4.0)) / water - 1.25).abs() < 1e-9);
    let bubble = ManometerParameters { bubble_mm: 5.0, ..Default::default() };
    assert!((column(&settled(open(bubble), 4.0)) - water - 5.0 / 25.4).abs() < 1e-9);
}

#[test]
fn a_shut_left_valve_keeps_the_suction_of_its_moment() {
    let mut manometer = settled(open(ManometerParameters::default()), 4.0);
    let before = column(&manometer);
    manometer.turn_valve(Leg::Left, -4);
    manometer.step(600.0, suction(0.0));
    assert!((column(&manometer) - before).abs() < 1e-9);
    manometer.turn_valve(Leg::Left, 4);
    manometer.step(600.0, suction(0.0));
    assert!(column(&manometer).abs() < 1e-9);
}

#[test]
fn a_valve_barely_open_lags_and_comes_right() {
    let mut slow = open(ManometerParameters::default());
    slow.turn_valve(Leg::Left, -3);
    let mut quick = open(ManometerParameters::default());
    slow.step(2.0, suction(4.0));
    quick.step(600.0, suction(4.0));
    let share = column(&slow) / column(&quick);
    assert!(share > 0.5 && share < 0.7, "{share}");
    assert!(slow.is_moving());
    slow.step(600.0, suction(4.0));
    assert!((column(&slow) - column(&quick)).abs() < 1e-9);
    assert!(!slow.is_moving());
}

#[test]
fn a_leak_beside_the_right_valve_only_matters_when_the_valve_is_shut() {
    let leaking = ManometerParameters { right_leak_ratio: 0.3, ..Default::default() };
    let tight = column(&settled(open(ManometerParameters::default()), 4.0));
    let mut manometer = open(leaking);
    manometer.step(600.0, suction(4.0));
    assert!((column(&manometer) - tight).abs() < 1e-9);
    let mut shut = open(leaking);
    shut.turn_valve(Leg::Right, -4);
    shut.step(600.0, suction(4.0));
    assert!((column(&shut) - tight).abs() < 1e-9, "air comes in through the leak");
}

#[test]
fn breath_moves_free_water_and_twitches_shut_in_water() {
    let deepest = |manometer: &mut Manometer| {
        (0..60)
            .map(|_| {
                manometer.step(0.05, suction(0.0));
                manometer.levels_in()[0] - manometer.zero_in()[0]
            })
            .fold(f64::MAX, f64::min)
    };
    let mut free = open(ManometerParameters::default());
    assert_eq!(free.blow(1.0), BlowResponse::Freely);
    let travel = deepest(&mut free);
    assert!(travel < -1.0 && travel > -2.0, "{travel}");

    let mut shut = open(ManometerParameters::default());
    shut.turn_valve(Leg::Right, -4);
    assert_eq!(shut.blow(1.0), BlowResponse::Twitch);
    let travel = deepest(&mut shut);
    assert!(travel < -0.005 && travel > -0.1, "{travel}");

    shut.turn_valve(Leg::Left, -4);
    assert_eq!(shut.blow(1.0), BlowResponse::Nothing);
    let mut kinked = Tube::default();
    kinked.kink();
    assert_eq!(free.blow(kinked.puff_share()), BlowResponse::Sluggishly);
}

#[test]
fn the_water_stops_at_the_end_of_the_scale_and_comes_back() {
    let mut manometer = settled(open(ManometerParameters::default()), 60.0);
    assert!(manometer.is_at_stop() && !manometer.is_moving());
    assert!((manometer.levels_in()[0] - (8.0 - 0.35)).abs() < 1e-12);
    manometer.step(600.0, suction(2.0));
    assert!(!manometer.is_at_stop());
}

#[test]
fn an_eye_above_the_level_reads_low_and_the_rim_stands_above_the_edge() {
    let manometer = open(ManometerParameters::default());
    let level = manometer.seen(Leg::Left, 0.0);
    let above = manometer.seen(Leg::Left, 100.0);
    assert!((level.meniscus_in - above.meniscus_in - 100.0 * 6.0 / 350.0 / 25.4).abs() < 1e-12);
    let depth_in = level.rim_in - level.meniscus_in;
    assert!(depth_in > 0.07 && depth_in < 0.09, "{depth_in}");
}

#[test]
fn in_its_case_the_water_stays() {
    let mut manometer = open(ManometerParameters::default());
    manometer.step(1.0, suction(5.0));
    manometer.carry();
    manometer.step(10.0, suction(5.0));
    assert!(!manometer.is_hung() && column(&manometer).abs() < 1e-12);
}

#[test]
fn three_taps_leave_four_percent_of_the_pen_s_error() {
    let mut recorder = FlowRecorder::new(RecorderParameters::default());
    let inputs = RecorderInputs { exit_inh2o: 5.0, flow_std_m3_min: 0.0 };
    recorder.step(600.0, inputs);
    let pressure_error = |recorder: &FlowRecorder| {
        let (pen, rest) = (recorder.pen() / 36.0, recorder.pen_at_rest(inputs) / 36.0);
        pen * pen - rest * rest
    };
    let before = pressure_error(&recorder);
    assert!((before + 0.10).abs() < 1e-9);
    for _ in 0..3 {
        recorder.tap();
    }
    assert!((pressure_error(&recorder) / before - 0.042_875).abs() < 1e-9);
}

/// Any number at all, and often enough a sensible one.
fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![3 => -3000.0..3000.0, 1 => any::<f64>()]
}

proptest! {
    #[test]
    fn the_manometer_stays_finite_and_on_its_scale(
        steps in proptest::collection::vec(
            (wild(), wild(), 0.0..1.5_f64, any::<bool>(), -4..=4_i8, -30.0..30.0_f64),
            1..60,
        ),
        bubble_mm in wild(),
        left_bore_mm in 4.0..12.0_f64,
        relative_density in wild(),
        leak in prop_oneof![Just(0.0), 0.0..1.0_f64, any::<f64>()],
    ) {
        let mut manometer = open(ManometerParameters {
            bubble_mm, left_bore_mm, relative_density, right_leak_ratio: leak,
            left_leak_ratio: leak, ..Default::default()
        });
        for (suction_pa, gust_pa, dt_s, left, quarters, swing) in steps {
            let calm = ManometerInputs::still(AMBIENT_PA);
            manometer.step(dt_s, ManometerInputs { suction_pa, gust_pa, ..calm });
            manometer.turn_valve(if left { Leg::Left } else { Leg::Right }, quarters);
            manometer.swing(swing);
            manometer.blow(dt_s);
            let seen = manometer.seen(Leg::Left, 10.0 * swing);
            prop_assert!(seen.meniscus_in.is_finite() && seen.rim_in.is_finite());
            prop_assert!(manometer.speed_in_s().is_finite());
            // No meniscus stands above the end of its leg. Only where fluid went over may one fall
            // further than that below the mark, and never into the bend, at half the column.
            let deepest_in = if manometer.missing_m3() > 0.0 { 0.5 * 1.35 / 0.0254 } else { 8.0 };
            for level in manometer.levels_in() {
                let above_mark_in = level + manometer.scale_in();
                prop_assert!((-deepest_in - 1e-9..=8.0 + 1e-9).contains(&above_mark_in));
            }
            for value in manometer.zero_in().into_iter().chain(manometer.rest_in()) {
                prop_assert!(value.is_finite());
            }
        }
    }

    #[test]
    fn a_leak_never_raises_a_reading(
        inches in 0.0..12.0_f64,
        ratio in 0.0..3.0_f64,
        quarters in 1..=4_i8,
        crack in 0.0..2.0_f64,
        water_in in 0.0..3.0_f64,
    ) {
        let mut leaking = open(ManometerParameters {
            left_leak_ratio: ratio, ..Default::default()
        });
        let mut tight = open(ManometerParameters::default());
        for manometer in [&mut leaking, &mut tight] {
            manometer.turn_valve(Leg::Left, quarters - 4);
            manometer.step(600.0, suction(inches));
        }
        prop_assert!(column(&leaking) <= column(&tight) + 1e-9);

        let mut tube = Tube::default();
        tube.connect();
        tube.crack(crack);
        tube.wet(water_in);
        let brought = tube.step(1.0, inches * PA_PER_INH2O);
        prop_assert!((0.0..=inches * PA_PER_INH2O + 1e-9).contains(&brought));

        let inputs = RecorderInputs { exit_inh2o: inches, flow_std_m3_min: 0.0 };
        let recorder = FlowRecorder::new(RecorderParameters {
            line_leak_ratio: ratio, ..Default::default()
        });
        prop_assert!(recorder.pen_at_rest(inputs) <= recorder.undisturbed(inputs));
    }

    #[test]
    fn the_pen_s_error_never_exceeds_its_play(
        steps in proptest::collection::vec((0.5..6.0_f64, 0.05..1.0_f64, any::<bool>()), 1..80),
        backlash_inh2o in 0.0..0.6_f64,
    ) {
        let mut recorder = FlowRecorder::new(RecorderParameters { backlash_inh2o, ..Default::default() });
        // The bellows follow with their lag of 0.5 s; the pen hangs on the bellows.
        let mut bellows = 0.0;
        for (exit_inh2o, dt_s, tapped) in steps {
            recorder.step(dt_s, RecorderInputs { exit_inh2o, flow_std_m3_min: 0.0 });
            bellows = exit_inh2o + (bellows - exit_inh2o) * (-dt_s / 0.5_f64).exp();
            if tapped {
                recorder.tap();
            }
            let pen = recorder.pen() / 36.0;
            let pressure = pen * pen;
            let low = (bellows - backlash_inh2o).max(0.0);
            prop_assert!(pressure >= low - 1e-9 && pressure <= bellows + backlash_inh2o + 1e-9);
        }
    }

    #[test]
    fn the_recorder_takes_any_number(
        steps in proptest::collection::vec((wild(), wild(), any::<f64>()), 1..20),
        backlash_inh2o in any::<f64>(),
        line_leak_ratio in any::<f64>(),
    ) {
        let mut recorder = FlowRecorder::new(RecorderParameters {
            backlash_inh2o, line_leak_ratio, ..Default::default()
        });
        for (exit_inh2o, flow_std_m3_min, dt_s) in steps {
            recorder.step(dt_s, RecorderInputs { exit_inh2o, flow_std_m3_min });
            recorder.turn_zero(exit_inh2o);
            prop_assert!((0.0..=100.0).contains(&recorder.pen()));
        }
    }

    #[test]
    fn equal_histories_have_equal_digests_and_a_puff_changes_them(inches in 0.5..6.0_f64) {
        let digest = |manometer: &Manometer| {
            let mut digest = Digest::new();
            manometer.digest(&mut digest);
            digest.finish()
        };
        let mut first = open(ManometerParameters::default());
        let mut second = first.clone();
        first.step(0.05, suction(inches));
        second.step(0.05, suction(inches));
        prop_assert_eq!(digest(&first), digest(&second));
        second.blow(1.0);
        prop_assert_ne!(digest(&first), digest(&second));
    }
}
