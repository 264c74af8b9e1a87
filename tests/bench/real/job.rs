//! The whole of the first scenario, from the list to the signature, by any hands. Instruments are
//! read from the pixels of the loupe; which inch, five or ten a mark stands for is taken from the
//! journal, as its number would be by a person.

use sim_core::calibration::{
    AirConditions, Expression, FittedLine, RecorderScale, TransferStandard,
};
use sim_core::scenario::setup::WorkOrder;
use sim_core::session::Session;
use sim_core::session::action::Sight;
use sim_core::session::journal::NullSink;
use sim_core::session::replay::replay;

use super::glass;
use super::hands::{Carry, Hands, seen};
use super::screen::pause;
use window::panels::field_book::{SIGN, SIGN_AGAIN};
use window::ui::told::Told;

/// Coarse steps by which the knob is closed before each point, the first fully open.
pub(super) const CLOSING: [i32; 7] = [0, 6, 3, 2, 2, 1, 1];
/// Nuts, opposite corners in turn.
pub(super) const NUTS: [&str; 4] = ["nut 1", "nut 3", "nut 2", "nut 4"];

/// Nuts in the order in which they are come by: taken off, none presses askew.
pub(super) const LOOSENED: [&str; 4] = ["nut 1", "nut 2", "nut 3", "nut 4"];

pub(super) const FRAME_OFF: Carry = Carry {
    part: "hold-down frame",
    take: "take the hold-down frame",
    place: "roof beside the stand",
    put: "lay the hold-down frame on the roof",
    at: (685.0, 734.0),
};
pub(super) const FILTER_OUT: Carry = Carry {
    part: "filter",
    take: "take the filter",
    place: "carrying case",
    put: "put the filter into its envelope",
    at: (117.0, 683.0),
};
pub(super) const PLATE_ON: Carry = Carry {
    part: "adapter plate",
    take: "take the adapter plate",
    place: "filter holder",
    put: "put the adapter plate on the filter holder",
    at: (418.0, 320.0),
};
pub(super) const CALIBRATOR_ON: Carry = Carry {
    part: "calibrator",
    take: "take the calibrator",
    place: "adapter plate",
    put: "put the calibrator on the adapter plate",
    at: (426.0, 210.0),
};
pub(super) const MANOMETER_UP: Carry = Carry {
    part: "manometer",
    take: "take the manometer",
    place: "manometer",
    put: "hang the manometer on its hook",
    at: (894.0, 205.0),
};
pub(super) const MANOMETER_DOWN: Carry = Carry {
    place: "carrying case",
    put: "put the manometer into the case",
    at: FILTER_OUT.at,
    ..MANOMETER_UP
};
pub(super) const CALIBRATOR_OFF: Carry = Carry {
    place: "carrying case",
    put: "put the calibrator into the case",
    at: FILTER_OUT.at,
    ..CALIBRATOR_ON
};
pub(super) const PLATE_OFF: Carry = Carry {
    place: "carrying case",
    put: "put the adapter plate into the case",
    at: FILTER_OUT.at,
    ..PLATE_ON
};
pub(super) const FILTER_IN: Carry = Carry {
    place: "filter holder",
    put: "put the filter on the filter holder",
    at: PLATE_ON.at,
    ..FILTER_OUT
};
pub(super) const FRAME_ON: Carry = Carry {
    place: "filter holder",
    put: "put the hold-down frame on the filter holder",
    at: PLATE_ON.at,
    ..FRAME_OFF
};

/// Does the whole job.
pub fn whole(hands: &mut dyn Hands) {
    hands.begin("First calibration");
    arrive(hands);
    strip(hands);
    hang(hands);
    power(hands);
    let air = conditions(hands);
    let readings: Vec<_> = CLOSING.iter().zip(1_u8..).map(|(&by, n)| point(hands, n, by)).collect();
    restore(hands);
    hands.calculate();
    set_point(hands, air, &readings);
    pack(hands);
    sign(hands);
}

/// The session as the journal has it: what can be known of the bench without looking again.
pub fn session(hands: &mut dyn Hands) -> Session {
    let text = std::fs::read_to_string(hands.screen().journal()).expect("the journal");
    replay(&text, Box::new(NullSink)).expect("it replays").session
}

/// Seconds of the day on the watch.
pub(super) fn watch(told: &[Told]) -> u32 {
    let time = seen(told, "time of day").map_or("", |one| one.value.as_str());
    time.split(':').fold(0, |sum, part| sum * 60 + part.parse::<u32>().expect("a time of day"))
}

/// Lets time pass, and waits until it has.
pub(super) fn wait(hands: &mut dyn Hands, button: &str) {
    let seconds = match button {
        "10 s" => 10,
        "1 min" => 60,
        _ => 300,
    };
    let until = watch(&hands.screen().told()) + seconds;
    hands.press(button);
    hands.screen().wait_for("time to pass", |told| watch(told) >= until);
    pause(300);
}

pub(super) fn arrive(hands: &mut dyn Hands) {
    hands.act("work order", "read the work order");
    hands.act("sky", "look at the sky");
    hands.act("roof edge and ladder", "look at the edge and the ladder");
    hands.act("certificates", "read the top certificate");
    hands.act("calibrator", "look at its plate and the orifice");
    let session = session(hands);
    let papers = session.papers();
    let (paper, order) = (papers.certificates[0].clone(), papers.work_order.clone());
    assert_eq!(paper.serial, order.calibrator_serial, "the top one is right in this scenario");
    hands.press("certificate");
    hands.write("Calibrator, number on its plate", &order.calibrator_serial);
    hands.press("copy it into the blanks");
    let copied = |told: &[Told]| {
        seen(told, "Certificate used, serial number").is_some_and(|one| one.value == paper.serial)
    };
    hands.screen().wait_for("the certificate to be copied", copied);
}

fn strip(hands: &mut dyn Hands) {
    open(hands);
    hands.carry(&FRAME_OFF);
    hands.carry(&FILTER_OUT);
    mount(hands);
}

/// The sampler dead, its lid open, its nuts off.
pub(super) fn open(hands: &mut dyn Hands) {
    hands.act("timer", "switch the timer off");
    hands.act("sampler's cord", "pull the plug out of the mains outlet");
    hands.act("lid of the shelter", "open the lid");
    for nut in LOOSENED {
        hands.act(nut, "unscrew it");
    }
}

/// Plate and calibrator on the bare holder.
pub(super) fn mount(hands: &mut dyn Hands) {
    hands.act("filter holder", "look at it closely");
    hands.carry(&PLATE_ON);
    for nut in NUTS {
        hands.act(nut, "screw it down hand-tight");
    }
    hands.carry(&CALIBRATOR_ON);
}

pub(super) fn hang(hands: &mut dyn Hands) {
    hands.carry(&MANOMETER_UP);
    for valve in ["left valve", "right valve"] {
        hands.act(valve, "open the valve fully");
    }
    hands.act("tube", "blow gently into it and watch the water");
    wait(hands, "10 s");
    hands.act("left leg of the manometer", "read it at eye level");
    // The scale is slid until the water stands at its zero.
    for _ in 0..24 {
        let near = session(hands).view().manometer.left.meniscus_in;
        let read = glass::leg(hands.screen(), Sight::LeftLeg, near);
        if read.abs() < 0.012 {
            break;
        }
        // As many tenths as there are, and then hundredths.
        let tenths = (read.abs() * 10.0).round() as usize;
        let (times, words) = match (read > 0.0, tenths) {
            (true, 1..) => (tenths, "slide the scale up by a tenth of an inch"),
            (false, 1..) => (tenths, "slide the scale down by a tenth of an inch"),
            (true, 0) => (hundredths(read), "slide it up by a hundredth of an inch"),
            (false, 0) => (hundredths(read), "slide it down by a hundredth of an inch"),
        };
        for _ in 0..times {
            hands.act("manometer's scale", words);
        }
        hands.act("left leg of the manometer", "read it at eye level");
    }
    hands.act("tube", "push the tube onto the pressure tap");
}

/// Steps of a hundredth of an inch, at least one.
fn hundredths(read: f64) -> usize {
    ((read.abs() * 100.0).round() as usize).max(1)
}

pub(super) fn power(hands: &mut dyn Hands) {
    hands.act("recorder's door", "open the door");
    hands.act("chart", "fit a fresh chart set to the present time");
    hands.act("pen", "take the cap off the pen");
    hands.act("pen", "lower the pen onto the paper");
    hands.act("flow recorder", "tap the case");
    hands.act("blower's plug", "plug it into the switched mains outlet");
    hands.act("switched mains outlet", "switch the mains outlet on");
    wait(hands, "10 s");
    // The whole suction would pull the water over.
    for valve in ["left valve", "right valve"] {
        hands.act(valve, "close the valve");
    }
    hands.act("calibrator's openings", "cover the openings for the leak check");
    hands.act("calibrator's openings", "listen for a hiss");
    hands.act("pen", "read the pen");
    hands.act("flow recorder", "tap the case");
    hands.act("calibrator's openings", "uncover the openings");
    for valve in ["left valve", "right valve"] {
        hands.act(valve, "open the valve fully");
    }
    wait(hands, "5 min");
}

/// The air, as written into the book.
pub(super) fn conditions(hands: &mut dyn Hands) -> AirConditions {
    hands.press("air");
    let mut read = [0.0; 2];
    let fields = ["Air temperature, \u{b0}C", "Station pressure, mmHg"].map(str::to_owned);
    hands.write_row("thermometer", &fields, &mut |hands, place| {
        let view = session(hands).view();
        read[place] = halves(match place {
            0 => glass::thermometer(hands.screen(), view.thermometer.column_c),
            _ => glass::barometer(hands.screen(), view.barometer.pointer_mmhg),
        });
        short(format!("{:.1}", read[place]))
    });
    let [degrees, mmhg] = read;
    AirConditions::as_read(mmhg, degrees).expect("real air")
}

/// A number without the zeros that end its decimals.
fn short(number: String) -> String {
    number.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// To the half of a division.
pub(super) fn halves(read: f64) -> f64 {
    (read * 2.0).round() / 2.0
}

/// A point: the sum of both legs and the pen, as written.
pub(super) fn point(hands: &mut dyn Hands, number: u8, closing: i32) -> (f64, f64) {
    if closing > 0 {
        hands.turn("calibrator's knob", -closing);
    }
    for _ in 0..2 {
        wait(hands, "1 min");
    }
    wait(hands, "10 s");
    for _ in 0..2 {
        hands.act("flow recorder", "tap the case");
    }
    let names = ["chart, divisions", "up, in", "down, in", "\u{394}H, inH2O"];
    let fields = names.map(|name| format!("point {number}, {name}"));
    // Pen, both legs, and their sum.
    let mut read = [0.0; 3];
    hands.write_row("flow recorder", &fields, &mut |hands, place| match place {
        0 => {
            let near = session(hands).view().recorder.pen.expect("a pen on paper");
            read[0] = halves(glass::pen(hands.screen(), near));
            short(format!("{:.1}", read[0]))
        }
        1 | 2 => {
            let sight = if place == 1 { Sight::LeftLeg } else { Sight::RightLeg };
            read[place] = leg_now(hands, sight);
            short(format!("{:.2}", read[place]))
        }
        _ => short(format!("{:.2}", read[1] + read[2])),
    });
    hands.act("pen", "mark the chart beside the trace");
    (read[1] + read[2], read[0])
}

/// A leg of the manometer, to the half of a tenth.
pub(super) fn read_leg(hands: &mut dyn Hands, sight: Sight, thing: &str) -> f64 {
    hands.act(thing, "read it at eye level");
    leg_now(hands, sight)
}

/// A leg that is under the loupe.
fn leg_now(hands: &mut dyn Hands, sight: Sight) -> f64 {
    let view = session(hands).view();
    let near = if sight == Sight::LeftLeg {
        view.manometer.left.meniscus_in
    } else {
        view.manometer.right.meniscus_in
    };
    (glass::leg(hands.screen(), sight, near).abs() * 20.0).round() / 20.0
}

/// The blower off and back on its controller.
fn restore(hands: &mut dyn Hands) {
    hands.act("switched mains outlet", "switch the mains outlet off");
    hands.act("blower's plug", "plug it into the flow controller");
    hands.act("pen", "lift the pen off the paper");
    hands.act("pen", "put the cap on the pen");
    hands.act("tube", "pull the tube off the pressure tap");
    for valve in ["left valve", "right valve"] {
        hands.act(valve, "close the valve");
    }
}

/// Line and set point, with a pencil.
pub(super) fn sums(hands: &mut dyn Hands, air: AirConditions, readings: &[(f64, f64)]) {
    let session = session(hands);
    let papers = session.papers();
    let (pair, order) = (papers.certificates[0].standard, papers.work_order.clone());
    let standard = TransferStandard::new(pair.slope, pair.intercept).expect("a pair");
    let expression = Expression::actual(RecorderScale::SquareRoot);
    let mut points = Vec::new();
    for (&(delta_h, chart), number) in readings.iter().zip(1_u8..) {
        let flow = standard.flow_std_m3_min(delta_h, air).expect("a flow");
        let term = expression.calibration_term(chart, air).expect("a term");
        let (flow, term) = (format!("{flow:.3}"), format!("{term:.2}"));
        hands.write(&format!("point {number}, flow, std m\u{b3}/min"), &flow);
        hands.write(&format!("point {number}, corrected chart reading"), &term);
        points.push((flow.parse().expect("a number"), term.parse().expect("a number")));
    }
    let line = FittedLine::fit(&points).expect("a line");
    hands.press("line");
    hands.write("Expression used, in words or symbols", "square root");
    hands.write("Slope of the calibration line", &format!("{:.3}", line.slope));
    hands.write("Intercept of the calibration line", &format!("{:.3}", line.intercept));
    hands.write("Correlation r", &format!("{:.5}", line.r));
    write_set_point(hands, &order, &line);
}

/// The chart reading for the target flow in the air of the run.
fn write_set_point(hands: &mut dyn Hands, order: &WorkOrder, line: &FittedLine) {
    let run =
        AirConditions::as_read(order.run_pressure_mmhg, order.run_temperature_c).expect("air");
    let target = order.target_flow_std_m3_min;
    let expression = Expression::actual(RecorderScale::SquareRoot);
    let chart = expression.chart_for(line.y_at(target), run).expect("a reading");
    hands.press("set point");
    hands.write("Target flow, std m\u{b3}/min", &short(format!("{target:.3}")));
    hands.write("Chart reading to hold, divisions", &format!("{chart:.1}"));
}

/// The set point from the line that was calculated for whoever asked.
fn set_point(hands: &mut dyn Hands, air: AirConditions, readings: &[(f64, f64)]) {
    let session = session(hands);
    let papers = session.papers();
    let (pair, order) = (papers.certificates[0].standard, papers.work_order.clone());
    let standard = TransferStandard::new(pair.slope, pair.intercept).expect("a pair");
    let expression = Expression::actual(RecorderScale::SquareRoot);
    let points: Vec<_> = readings
        .iter()
        .map(|&(delta_h, chart)| {
            let flow = standard.flow_std_m3_min(delta_h, air).expect("a flow");
            (flow, expression.calibration_term(chart, air).expect("a term"))
        })
        .collect();
    let line = FittedLine::fit(&points).expect("a line");
    hands.press("line");
    hands.write("Expression used, in words or symbols", "square root");
    write_set_point(hands, &order, &line);
}

/// Everything away, and the sampler as it was found; hands go in only when the rotor stands.
fn pack(hands: &mut dyn Hands) {
    wait(hands, "1 min");
    wait(hands, "1 min");
    hands.carry(&MANOMETER_DOWN);
    hands.carry(&CALIBRATOR_OFF);
    for nut in LOOSENED {
        hands.act(nut, "unscrew it");
    }
    hands.carry(&PLATE_OFF);
    hands.carry(&FILTER_IN);
    hands.carry(&FRAME_ON);
    for nut in NUTS {
        hands.act(nut, "screw it down hand-tight");
    }
    hands.act("lid of the shelter", "close the lid");
    hands.act("sampler's cord", "put the plug into the mains outlet");
    hands.act("timer", "set the timer to auto");
    hands.act("recorder's door", "close the door");
}

fn sign(hands: &mut dyn Hands) {
    decide(hands);
    put_name(hands);
}

/// The calibration is accepted.
pub(super) fn decide(hands: &mut dyn Hands) {
    hands.press("remarks");
    hands.press("accepted");
    hands.press("write the decision");
}

/// Remarks, and the signature.
pub(super) fn put_name(hands: &mut dyn Hands) {
    hands.press("remarks");
    hands.write("Remarks", "none");
    hands.press(SIGN);
    hands.press(SIGN_AGAIN);
    hands.screen().wait_for("the debrief", |told| seen(told, "back to the scenarios").is_some());
}
