//! The work order of the scenario with a 24-hour run, from arrival to the end of its run. Pen, legs,
//! chart and meter are read from the pixels of the loupe.

use sim_core::calibration::{AirConditions, Curve, Expression, RecorderScale, TransferStandard};
use sim_core::field_book::Field;
use sim_core::session::Session;
use sim_core::session::action::Sight;
use sim_core::session::view::run::RunView;

use super::hands::{Carry, Hands};
use super::job::{self, NUTS, session, wait};
use super::{glass, run_back};

const TITLE: &str = "From set point to volume";
/// A filter that is weighed is taken by its edges.
const OLD_FILTER_OUT: Carry = Carry { take: "take the filter by its edges", ..job::FILTER_OUT };
const CALIBRATOR_DOWN: Carry = Carry {
    place: "roof beside the stand",
    put: "lay the calibrator on the roof",
    at: job::FRAME_OFF.at,
    ..job::CALIBRATOR_ON
};
const PLATE_DOWN: Carry = Carry {
    place: "roof beside the stand",
    put: "lay the adapter plate on the roof",
    at: job::FRAME_OFF.at,
    ..job::PLATE_ON
};
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
    hands.act("switched mains outlet", "switch the mains outlet off");
    hands.act("blower's plug", "plug it into the flow controller");
    job::sums(hands, air, &readings);
    job::decide(hands);
    let curve = written_curve(&session(hands));
    let set_point = number(hands, Field::SetPoint);
    let checked = check(hands, curve, set_point);
    put_away(hands);
    load(hands);
    hands.act("timer", "switch the timer on");
    wait(hands, "5 min");
    let start = trim(hands, set_point);
    hands.press("run");
    hands.write("Chart reading at the start, divisions", &format!("{start:.1}"));
    arm(hands);
    hands.act("roof edge and ladder", "leave the site until the run has ended");
    run_back::come_back(hands, checked.over(curve, start));
}

/// The line as it stands in the book.
pub(super) fn written_curve(session: &Session) -> Curve {
    let number = |field| session.book().number(field).expect("it is written");
    Curve::new(number(Field::Slope), number(Field::Intercept), expression()).expect("a curve")
}

const fn expression() -> Expression {
    Expression::actual(RecorderScale::SquareRoot)
}

pub(super) fn rounded(value: f64, decimals: i32) -> f64 {
    let whole = 10_f64.powi(decimals);
    (value * whole).round() / whole
}

/// A number that was written.
pub(super) fn number(hands: &mut dyn Hands, field: Field) -> f64 {
    session(hands).book().number(field).expect("it is written")
}

pub(super) fn run(hands: &mut dyn Hands) -> RunView {
    *session(hands).view().run.expect("a run is ordered")
}

/// What the flow check came to.
pub(super) struct Checked {
    pub(super) flow: f64,
    pub(super) air: AirConditions,
}

impl Checked {
    /// The flow of the check over that which the line tells for a pen.
    pub(super) fn over(&self, curve: Curve, pen: f64) -> f64 {
        self.flow / curve.flow_std_m3_min(pen, self.air).expect("a flow")
    }
}

/// The flow checked as the sampler will run: the first filter of the folder under the calibrator, the
/// blower on its controller.
fn check(hands: &mut dyn Hands, curve: Curve, set_point: f64) -> Checked {
    under_the_calibrator(hands);
    hands.act("timer", "switch the timer on");
    wait(hands, "5 min");
    let air = check_air(hands);
    trim(hands, set_point);
    let papers = session(hands);
    let papers = papers.papers();
    let pair = papers.certificates[0].standard;
    let standard = TransferStandard::new(pair.slope, pair.intercept).expect("a pair");
    let order = papers.work_order.flow_check.expect("a check is ordered");
    let (mut flow, mut told) = (0.0, 0.0);
    for number in 1..=order.readings {
        wait(hands, "10 s");
        wait(hands, "10 s");
        let chart = rounded(tapped(hands) * 2.0, 0) / 2.0;
        let up = job::read_leg(hands, Sight::LeftLeg, "left leg of the manometer");
        let down = job::read_leg(hands, Sight::RightLeg, "right leg of the manometer");
        hands.write(&format!("check {number}, up, in"), &format!("{up:.2}"));
        hands.write(&format!("check {number}, down, in"), &format!("{down:.2}"));
        hands.write(&format!("check {number}, chart, divisions"), &format!("{chart:.1}"));
        flow += standard.flow_std_m3_min(up + down, air).expect("a flow");
        told += curve.flow_std_m3_min(chart, air).expect("a flow");
    }
    let count = f64::from(order.readings);
    let (flow, told) = (rounded(flow / count, 3), rounded(told / count, 3));
    let difference = 100.0 * (told / flow - 1.0);
    assert!(difference.abs() <= order.within_pct, "nothing is wrong here: {difference} %");
    hands.write("Flow by the standard, std m\u{b3}/min", &format!("{flow:.3}"));
    hands.write("Flow by the line, std m\u{b3}/min", &format!("{told:.3}"));
    hands.write("Line against standard, %", &format!("{difference:+.1}"));
    hands.write("Passed or failed, and what follows", "passed");
    hands.screen().keep_picture("the flow check");
    hands.act("timer", "switch the timer off");
    hands.act("sampler's cord", "pull the plug out of the mains outlet");
    Checked { flow, air }
}

/// Calibrator and plate off, a fresh filter on the holder, plate and calibrator on again.
fn under_the_calibrator(hands: &mut dyn Hands) {
    wait(hands, "1 min");
    wait(hands, "1 min");
    hands.act("tube", "pull the tube off the pressure tap");
    hands.carry(&CALIBRATOR_DOWN);
    for nut in NUTS {
        hands.act(nut, "unscrew it");
    }
    hands.carry(&PLATE_DOWN);
    fresh_filter(hands);
    hands.carry(&job::PLATE_ON);
    for nut in NUTS {
        hands.act(nut, "screw it down hand-tight");
    }
    hands.carry(&job::CALIBRATOR_ON);
    hands.act("calibrator's knob", "turn it fully open");
    hands.act("tube", "push the tube onto the pressure tap");
    hands.act("sampler's cord", "put the plug into the mains outlet");
}

/// Temperature and pressure, as written on the page of the check.
fn check_air(hands: &mut dyn Hands) -> AirConditions {
    hands.press("check");
    hands.act("thermometer", "read the thermometer");
    let near = session(hands).view().thermometer.column_c;
    let degrees = rounded(glass::thermometer(hands.screen(), near) * 2.0, 0) / 2.0;
    hands.act("barometer", "read the barometer");
    let near = session(hands).view().barometer.pointer_mmhg;
    let mmhg = rounded(glass::barometer(hands.screen(), near) * 2.0, 0) / 2.0;
    hands.write("Air temperature at the check, \u{b0}C", &format!("{degrees:.1}"));
    hands.write("Station pressure at the check, mmHg", &format!("{mmhg:.1}"));
    AirConditions::as_read(mmhg, degrees).expect("real air")
}

/// The next filter of the folder, looked over, on the holder; its number.
fn fresh_filter(hands: &mut dyn Hands) -> String {
    hands.act("filter", "take a fresh filter by its edges");
    hands.act("filter", "hold it up to the light");
    hands.act("filter", "look at it closely");
    let number = run(hands).filter.number.expect("a number on its edge");
    hands.act("filter holder", "put the filter on the filter holder");
    number
}

/// What belongs to the calibration goes into its case.
fn put_away(hands: &mut dyn Hands) {
    wait(hands, "1 min");
    wait(hands, "1 min");
    hands.act("tube", "pull the tube off the pressure tap");
    for valve in ["left valve", "right valve"] {
        hands.act(valve, "close the valve");
    }
    hands.carry(&job::MANOMETER_DOWN);
    hands.carry(&job::CALIBRATOR_OFF);
    for nut in NUTS {
        hands.act(nut, "unscrew it");
    }
    hands.carry(&job::PLATE_OFF);
    hands.act("filter", "take the filter by its edges");
    hands.act("carrying case", "put the filter into its envelope");
}

/// A fresh filter under a tight frame.
fn load(hands: &mut dyn Hands) {
    let number = fresh_filter(hands);
    hands.press("run");
    hands.write("Filter, number on its edge", &number);
    hands.carry(&job::FRAME_ON);
    hands.act("filter", "look at it closely");
    for nut in NUTS {
        hands.act(nut, "screw it down hand-tight");
    }
    hands.act("lid of the shelter", "close the lid");
    hands.act("sampler's cord", "put the plug into the mains outlet");
}

/// The pen after some taps.
pub(super) fn tapped(hands: &mut dyn Hands) -> f64 {
    for _ in 0..4 {
        hands.act("flow recorder", "tap the case");
    }
    hands.act("pen", "read the pen");
    let near = session(hands).view().recorder.pen.expect("a pen on paper");
    glass::pen(hands.screen(), near)
}

/// The screw turned until the tapped pen stands at the set point, on a warm blower.
fn trim(hands: &mut dyn Hands, set_point: f64) -> f64 {
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
pub(super) fn meter(hands: &mut dyn Hands) -> f64 {
    hands.act("timer", "look at it closely");
    let stands = run(hands).timer.meter_min;
    glass::meter(hands.screen(), stands)
}

/// Dial, trippers, meter, a fresh chart, the door, and away.
fn arm(hands: &mut dyn Hands) {
    hands.act("timer", "switch the timer off");
    hands.act("timer's dial", "set the dial to the time on your watch");
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
            hands.act(thing, "move it forward by a day");
        }
    }
    let before = meter(hands);
    hands.write("Meter before the run, min", &format!("{before:.1}"));
    hands.act("timer", "set the timer to auto");
    hands.act("pen", "lift the pen off the paper");
    hands.act("chart", "fit a fresh chart set to the present time");
    hands.act("pen", "lower the pen onto the paper");
    hands.act("recorder's door", "close the door");
}
