//! The whole work order of the scenario with a 24-hour run, from arrival to the signed volume. Pen, legs,
//! chart and meter are read from the pixels of the loupe.

use sim_core::calibration::{
    Conditions, Curve, Expression, FilterMasses, Recorder, RunPart, concentration, run_volume,
};
use sim_core::session::view::run::{RunStanding, RunView};

use super::hands::{Carry, Hands, seen};
use super::job::{self, NUTS, session, wait};
use super::{glass, screen::pause};

const TITLE: &str = "From set point to volume";
/// A filter that is weighed is taken by its edges.
const OLD_FILTER_OUT: Carry = Carry { take: "take the filter by its edges", ..job::FILTER_OUT };
const SAMPLE_IN: Carry = Carry { take: "take a fresh filter by its edges", ..job::FILTER_IN };
/// How far the pen may stand off the set point, divisions.
const NEAR: f64 = 0.3;
/// Divisions that the pen moves in a quarter turn of the screw, about.
const DIVISIONS_A_QUARTER: f64 = 0.43;

/// Does the whole job.
pub fn whole(hands: &mut dyn Hands) {
    hands.begin(TITLE);
    job::arrive(hands);
    job::open(hands);
    hands.carry(&job::FRAME_OFF);
    hands.carry(&OLD_FILTER_OUT);
    job::mount(hands);
    job::hang(hands);
    job::power(hands);
    let air = job::conditions(hands);
    let readings: Vec<_> =
        job::CLOSING.iter().zip(1_u8..).map(|(&by, n)| job::point(hands, n, by)).collect();
    hands.act("line outlet", "switch the line outlet off");
    hands.act("blower's plug", "plug it into the flow controller");
    let line = job::sums(hands, air, &readings);
    job::decide(hands);
    let curve = Curve::new(rounded(line.slope, 3), rounded(line.intercept, 3), expression());
    let curve = curve.expect("a curve");
    let set_point = number(hands, "set point");
    put_away(hands);
    load(hands);
    let start = trim(hands, set_point);
    hands.press("run");
    hands.write("Chart reading at the start, divisions", &format!("{start:.1}"));
    arm(hands);
    away(hands);
    let minutes = recover(hands);
    let mean = read_chart(hands);
    volume(hands, curve, mean, minutes);
    close(hands);
    job::put_name(hands);
}

const fn expression() -> Expression {
    Expression::actual(Recorder::SquareRoot)
}

fn rounded(value: f64, decimals: i32) -> f64 {
    let whole = 10_f64.powi(decimals);
    (value * whole).round() / whole
}

/// A number that was written, by the name of its page.
fn number(hands: &mut dyn Hands, page: &str) -> f64 {
    use sim_core::field_book::Field;
    let field = match page {
        "set point" => Field::SetPoint,
        _ => Field::MeterBefore,
    };
    session(hands).book().number(field).expect("it is written")
}

fn run(hands: &mut dyn Hands) -> RunView {
    *session(hands).view().run.expect("a run is ordered")
}

/// What belongs to the calibration goes into its case.
fn put_away(hands: &mut dyn Hands) {
    wait(hands, "1 min");
    wait(hands, "1 min");
    hands.act("tube", "pull the tube off the tap");
    for valve in ["left valve", "right valve"] {
        hands.act(valve, "shut the valve");
    }
    hands.carry(&job::MANOMETER_DOWN);
    hands.carry(&job::CALIBRATOR_OFF);
    for nut in NUTS {
        hands.act(nut, "turn it off");
    }
    hands.carry(&job::PLATE_OFF);
}

/// A fresh filter, looked over, under a tight frame.
fn load(hands: &mut dyn Hands) {
    hands.act("filter", "take a fresh filter by its edges");
    hands.act("filter", "hold it against the light");
    hands.act("filter", "look closely");
    let filter = run(hands).filter;
    hands.press("run");
    let name = filter.number.expect("a number on its edge");
    hands.write("Filter, number on its edge", &name);
    hands.act("filter holder", SAMPLE_IN.put);
    hands.carry(&job::FRAME_ON);
    hands.act("filter", "look closely");
    for nut in NUTS {
        hands.act(nut, "turn it down hand-tight");
    }
    hands.act("lid of the shelter", "close the lid");
    hands.act("sampler's cord", "put the plug into the mains outlet");
}

/// The pen after some taps.
fn tapped(hands: &mut dyn Hands) -> f64 {
    for _ in 0..4 {
        hands.act("flow recorder", "tap the case");
    }
    hands.act("pen", "read the pen");
    let near = session(hands).view().recorder.pen.expect("a pen on paper");
    glass::pen(hands.screen(), near)
}

/// The screw turned until the tapped pen stands at the set point, on a warm blower.
fn trim(hands: &mut dyn Hands, set_point: f64) -> f64 {
    hands.act("timer", "switch the timer on");
    wait(hands, "5 min");
    let mut read = tapped(hands);
    for _ in 0..8 {
        let quarters = ((set_point - read) / DIVISIONS_A_QUARTER).round() as i32;
        if quarters == 0 || (set_point - read).abs() < NEAR {
            break;
        }
        hands.turn("flow controller", quarters);
        wait(hands, "1 min");
        read = tapped(hands);
    }
    assert!((read - set_point).abs() < 0.6, "the pen stands at {read}, {set_point} is wanted");
    rounded(read * 2.0, 0) / 2.0
}

/// The meter of the timer, as the loupe shows it.
fn meter(hands: &mut dyn Hands) -> f64 {
    hands.act("timer", "look closely");
    let stands = run(hands).timer.meter_min;
    glass::meter(hands.screen(), stands)
}

/// Dial, trippers, meter, a fresh chart, the door, and away.
fn arm(hands: &mut dyn Hands) {
    hands.act("timer", "switch the timer off");
    hands.act("timer's dial", "set the dial to your watch");
    let view = session(hands).view();
    let order = session(hands).papers().work_order.run.clone().expect("a run");
    for (thing, at) in [("on tripper", order.on), ("off tripper", order.off)] {
        let wanted = (view.date.weekday() + at.day) % 7;
        for _ in 0..7 {
            let dial = run(hands).timer;
            let stands = if thing == "on tripper" { dial.on } else { dial.off };
            if stands.weekday == Some(wanted) {
                break;
            }
            hands.act(thing, "move it a day on");
        }
    }
    let before = meter(hands);
    hands.write("Meter before the run, min", &format!("{before:.1}"));
    hands.act("timer", "set the timer to auto");
    hands.act("pen", "lift the pen off the paper");
    hands.act("chart", "fit a fresh chart at the present hour");
    hands.act("pen", "lower the pen onto the paper");
    hands.act("recorder's door", "close the door");
}

/// The site is left, seen for a while as the hours go by, and come back to.
fn away(hands: &mut dyn Hands) {
    hands.act("roof edge and ladder", "leave the site to the run, until it is over");
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
        hands.act(nut, "turn it off");
    }
    hands.carry(&job::FRAME_OFF);
    hands.act("filter", "look closely");
    hands.act("filter", "take the filter by its edges");
    hands.act("filter", "fold it, smooth side out");
    hands.act("carrying case", "put the filter into its envelope");
    hands.write("Custody", "to the laboratory with me, 14 May, 08:30");
    after - number(hands, "run")
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
fn volume(hands: &mut dyn Hands, curve: Curve, mean: f64, minutes: f64) {
    hands.press("volume");
    let run = run(hands);
    let of = |value: &dyn Fn(usize) -> f64| {
        let count = run.weather.len();
        (0..count).map(value).sum::<f64>() / count as f64
    };
    let pressure = rounded(of(&|n| run.weather[n].pressure_mmhg), 1);
    let degrees = rounded(of(&|n| run.weather[n].temperature_c), 1);
    let (mean, minutes) = (rounded(mean, 1), rounded(minutes, 1));
    let air = Conditions::as_read(pressure, degrees).expect("real air");
    let parts = [RunPart { chart: mean, minutes }];
    let sums = run_volume(curve, &parts, air).expect("a volume");
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
        hands.act(nut, "turn it down hand-tight");
    }
    hands.act("lid of the shelter", "close the lid");
    hands.act("sampler's cord", "put the plug into the mains outlet");
    hands.act("timer", "set the timer to auto");
    hands.act("recorder's door", "close the door");
}
