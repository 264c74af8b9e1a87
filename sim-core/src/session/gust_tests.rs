//! The effect of gusts on an unattended run.
//!
//! For a day at 1.2 m3/min on the controller and seeds 1 to 3, the strongest usual gusts (1.5 Pa)
//! change the volume by 0.000002 % and the mean of the pen by 0.00002 divisions; the strongest
//! gusts of the fault (60 Pa) change them by 0.0001 % and 0.005 divisions. If the mains voltage is
//! too low to hold the flow, the strongest gusts cost some thousandths of a percent of the volume,
//! and shift the pen within its backlash by 0.1 divisions.

use super::ground_truth::SampleTruth;
use super::unattended_tests::{drawn_in_three_hours, run, text, three_hours, truth};
use super::*;

/// A scenario's weather with gusts of this standard deviation, Pa.
fn gusts(sd_pa: f64) -> (&'static str, String) {
    (
        "    weather: (\n        pressure_mmhg",
        format!("    weather: (\n        gust_sd_pa: Fixed({sd_pa}),\n        pressure_mmhg"),
    )
}

fn day(sd_pa: f64, seed: u64) -> SampleTruth {
    let (from, to) = gusts(sd_pa);
    truth(&run(&text(&[(from, &to)]), seed, Pace::Coarse))
}

/// How far one value is from the other, percent.
fn off_pct(one: f64, other: f64) -> f64 {
    100.0 * (one / other - 1.0)
}

#[test]
fn a_day_of_gusts_moves_a_held_flow_next_to_nothing() {
    for seed in 1..=3 {
        let calm = day(0.0, seed);
        // Standard deviation, Pa, and the most that volume (percent) and pen (divisions) may move.
        for (sd_pa, most_pct, most_pen) in [(1.5, 1e-5, 1e-4), (60.0, 1e-3, 0.01)] {
            let windy = day(sd_pa, seed);
            let volume_pct = off_pct(windy.volume_std_m3, calm.volume_std_m3);
            let pen = windy.mean_pen - calm.mean_pen;
            assert!(volume_pct.abs() < most_pct, "{sd_pa} Pa, seed {seed}: {volume_pct} %");
            assert!(pen.abs() < most_pen, "{sd_pa} Pa, seed {seed}: {pen} divisions");
            // The effect is small, but not zero.
            assert!(pen.abs() > 0.0 && volume_pct.abs() > 0.0, "{sd_pa} Pa, seed {seed}");
        }
    }
}

#[test]
fn a_minute_at_a_time_draws_what_ticks_draw_in_the_worst_of_gusts() {
    let (from, to) = gusts(60.0);
    let windy = three_hours(&[(from, &to)]);
    let [coarse, fine] = [Pace::Coarse, Pace::Fine].map(|pace| drawn_in_three_hours(&windy, pace));
    let calm = drawn_in_three_hours(&three_hours(&[]), Pace::Coarse);
    let off = coarse.volume_std_m3 / fine.volume_std_m3 - 1.0;
    assert!(off.abs() < 1e-4, "{off}: {coarse:?} {fine:?}");
    // If the mains voltage is too low to hold the flow, the flow varies with the wind, but its mean
    // hardly does.
    let highest_pct = off_pct(fine.highest_std_m3_min, calm.highest_std_m3_min);
    assert!((0.1..2.0).contains(&highest_pct), "{highest_pct} %");
    let volume_pct = off_pct(fine.volume_std_m3, calm.volume_std_m3);
    assert!((0.001..0.02).contains(&volume_pct.abs()), "{volume_pct} %");
    assert!((fine.mean_pen - calm.mean_pen).abs() < 0.15, "{fine:?} {calm:?}");
}
