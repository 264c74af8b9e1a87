//! The rest of a work order with a 24-hour run: the hours, the sample taken in, its volume, the
//! signature. Pen, chart and meter are read from the pixels of the loupe.

use sim_core::calibration::{
    AirConditions, FilterMasses, RunPart, RunVolume, concentration, run_volume,
};
use sim_core::field_book::Field;
use sim_core::session::view::run::RunStanding;

use super::hands::{Hands, seen};
use super::job::{self, NUTS, session, wait};
use super::run_job::{Checked, meter, number, rounded, run, tapped, written_curve};
use super::{glass, screen::pause};

/// Does what is left of the job once the site is left: of a session that was broken off there.
pub fn rest(hands: &mut dyn Hands) {
    let session = session(hands);
    let number = |field| session.book().number(field).expect("it is written");
    let air = AirConditions::as_read(number(Field::CheckPressure), number(Field::CheckTemperature));
    let checked = Checked { flow: number(Field::CheckFlow), air: air.expect("real air") };
    let over = checked.over(written_curve(&session), number(Field::StartChart));
    come_back(hands, over);
}

/// The hours of the run, the sample taken in, its volume, the signature.
pub(super) fn come_back(hands: &mut dyn Hands, flow_over_line: f64) {
    away(hands);
    let minutes = recover(hands);
    let mean = read_chart(hands);
    volume(hands, (mean, minutes), flow_over_line);
    close(hands);
    job::put_name(hands);
}

/// The hours are seen to go by for a while, stopped, asked about, and skipped.
fn away(hands: &mut dyn Hands) {
    hands.screen().wait_for("the hours to go by", |told| seen(told, "stop the hours").is_some());
    pause(4000);
    hands.press("stop the hours");
    hands.screen().wait_for("the hours to stop", |told| seen(told, "let them go on").is_some());
    hands.press("what is seen now");
    hands.screen().wait_for("what is seen", |told| {
        seen(told, "seen at a glance").is_some_and(|one| one.value.contains("the blower"))
    });
    hands.screen().keep_picture("nobody at the site");
    hands.press("on to the return");
    hands.screen().wait_for("the return", |told| {
        seen(told, "nobody is at the site").is_none()
            && seen(told, "day").is_some_and(|one| one.value.starts_with("Thursday"))
    });
    pause(1000);
    assert_eq!(run(hands).standing, RunStanding::Back);
}

/// Meter, chart, end reading, filter; the minutes of the run.
fn recover(hands: &mut dyn Hands) -> f64 {
    hands.press("run");
    let after = meter(hands);
    hands.write("Meter after the run, min", &format!("{after:.1}"));
    hands.act("weather sheet", "read the weather sheet");
    hands.act("recorder's door", "open the door");
    hands.act("pen", "lift the pen off the paper");
    hands.act("chart", "take the chart of the run off and keep it");
    hands.act("pen", "lower the pen onto the paper");
    hands.act("timer", "switch the timer on");
    wait(hands, "5 min");
    let end = tapped(hands);
    hands.write(
        "Chart reading at the end, divisions",
        &format!("{:.1}", rounded(end * 2.0, 0) / 2.0),
    );
    hands.act("timer", "switch the timer off");
    hands.act("sampler's cord", "pull the plug out of the mains outlet");
    wait(hands, "1 min");
    wait(hands, "1 min");
    hands.act("lid of the shelter", "open the lid");
    for nut in NUTS {
        hands.act(nut, "unscrew it");
    }
    hands.carry(&job::FRAME_OFF);
    hands.act("filter", "look at it closely");
    hands.act("filter", "take the filter by its edges");
    hands.act("filter", "fold it with the smooth side out");
    hands.act("carrying case", "put the filter into its envelope");
    hands.write("Custody", "to the laboratory with me, 14 May, 08:30");
    after - number(hands, Field::MeterBefore)
}

/// The chart read in the middle of each hour: the mean.
fn read_chart(hands: &mut dyn Hands) -> f64 {
    hands.act("chart of the run", "look at the whole chart");
    pause(800);
    hands.screen().keep_picture("the chart of the run");
    let trace = run(hands).kept_chart.expect("the chart is kept");
    let mut sum = 0.0;
    for hour in 0..24_u32 {
        hands.turn("chart of the run", 1);
        let middle = f64::from(hour) + 0.5;
        let inked = |&&(at, pen): &&(f64, f64)| (at - middle).abs() < 0.06 && pen > 10.0;
        let near = trace.iter().find(inked).expect("the pen drew the run").1;
        sum += (glass::trace(hands.screen(), near) * 2.0).round() / 2.0;
    }
    hands.screen().keep_picture("the last hour of the run");
    sum / 24.0
}

/// The sums of the run, with a pencil.
fn volume(hands: &mut dyn Hands, (mean, minutes): (f64, f64), flow_over_line: f64) {
    let curve = written_curve(&session(hands));
    hands.press("volume");
    let run = run(hands);
    let of = |value: &dyn Fn(usize) -> f64| {
        let count = run.weather.len();
        (0..count).map(value).sum::<f64>() / count as f64
    };
    let pressure = rounded(of(&|n| run.weather[n].pressure_mmhg), 1);
    let degrees = rounded(of(&|n| run.weather[n].temperature_c), 1);
    let (mean, minutes) = (rounded(mean, 1), rounded(minutes, 1));
    let air = AirConditions::as_read(pressure, degrees).expect("real air");
    let parts = [RunPart { chart: mean, minutes }];
    let by_line = run_volume(curve, &parts, air).expect("a volume");
    // The order takes the flow of the run from the check.
    let flow = flow_over_line * by_line.mean_flow_std_m3_min;
    let sums = RunVolume::from_flow(flow, minutes, air).expect("a volume");
    let masses = run.masses.expect("the laboratory has weighed it");
    let masses = FilterMasses { before_g: masses.before_g, after_g: masses.after_g };
    let dust = concentration(masses, &sums).expect("a concentration").ug_std_m3;
    hands.write("Time of the run, min", &format!("{minutes:.1}"));
    hands.write("Mean chart reading, divisions", &format!("{mean:.1}"));
    hands.write("Mean pressure of the run, mmHg", &format!("{pressure:.1}"));
    hands.write("Mean temperature of the run, \u{b0}C", &format!("{degrees:.1}"));
    hands.write(
        "Mean flow of the run, std m\u{b3}/min",
        &format!("{:.3}", sums.mean_flow_std_m3_min),
    );
    hands.write("Volume, std m\u{b3}", &format!("{:.1}", sums.volume_std_m3));
    hands.write("Concentration, \u{b5}g/std m\u{b3}", &format!("{dust:.1}"));
    hands.write("Valid or not, and why", "valid");
    hands.screen().keep_picture("the volume");
}

/// The sampler as it was found, without a filter.
fn close(hands: &mut dyn Hands) {
    hands.act("pen", "lift the pen off the paper");
    hands.act("pen", "put the cap on the pen");
    hands.carry(&job::FRAME_ON);
    for nut in NUTS {
        hands.act(nut, "screw it down hand-tight");
    }
    hands.act("lid of the shelter", "close the lid");
    hands.act("sampler's cord", "put the plug into the mains outlet");
    hands.act("timer", "set the timer to auto");
    hands.act("recorder's door", "close the door");
}
