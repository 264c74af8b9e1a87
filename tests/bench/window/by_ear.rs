//! The first scenario worked to a pass by a screen reader alone: by names, values and announcements, and
//! by nothing that a reader cannot ask for.

use sim_core::calibration::{
    AirConditions, Expression, FittedLine, RecorderScale, TransferStandard,
};
use window::panels::field_book::{SIGN, SIGN_AGAIN};

use super::harness::Bench;
use super::listener::Listener;

/// Coarse steps by which the knob is closed before each point, the first fully open.
pub(super) const CLOSING: [i32; 7] = [0, 6, 3, 2, 2, 1, 1];
/// Nuts, opposite corners in turn.
pub(super) const NUTS: [&str; 4] = ["nut 1", "nut 3", "nut 2", "nut 4"];
pub(super) const VALVES: [&str; 2] = ["left valve", "right valve"];

/// The number that follows some words: `3.15`, `47`, or `47 and a half`.
pub(super) fn number_after(text: &str, words: &str) -> Option<f64> {
    let rest = text.split(words).nth(1)?.trim_start();
    if rest.starts_with("zero") {
        return Some(0.0);
    }
    let minus = rest.strip_prefix("minus ").or_else(|| rest.strip_prefix('-'));
    let (sign, rest) = minus.map_or((1.0, rest), |rest| (-1.0, rest));
    let digits =
        rest.find(|sign: char| !sign.is_ascii_digit() && sign != '.').unwrap_or(rest.len());
    let (number, behind) = rest.split_at(digits);
    let half = if behind.starts_with(" and a half") { 0.5 } else { 0.0 };
    let number: f64 = number.trim_end_matches('.').parse().ok()?;
    Some(sign * (number + half))
}

/// What is announced when something is read.
pub(super) fn read(person: &mut Listener, thing: &str, offer: &str, words: &str) -> (f64, String) {
    person.announced();
    person.act(thing, offer);
    person.rest(3);
    let said = person.announced();
    let number = number_after(&said, words);
    (number.unwrap_or_else(|| panic!("no reading of the {thing} is announced: {said:?}")), said)
}

/// A leg once its water stands still, above zero.
pub(super) fn read_leg(person: &mut Listener, leg: &str) -> f64 {
    for _ in 0..12 {
        let words = "the bottom of the meniscus is at";
        let (at, said) = read(person, leg, "read it at eye level", words);
        if said.contains("at rest") {
            let side = said.split(words).nth(1).unwrap_or_default();
            let below = side.find(" below zero").is_some_and(|below| below < 8);
            return if below { -at } else { at };
        }
        person.wait("10 s");
    }
    panic!("the water never comes to rest");
}

pub(super) fn carry(person: &mut Listener, part: &str, take: &str, place: &str, put: &str) {
    person.act(part, take);
    person.act(place, put);
}

/// The papers, as they are read out: slope and intercept of the certificate, and the order's numbers.
pub(super) struct Papers {
    /// The whole order, as it is read out.
    pub(super) order: String,
    /// Slope and intercept of the certificate, at standard conditions.
    pub(super) standard: (f64, f64),
    target: f64,
    run: AirConditions,
}

pub(super) fn papers(person: &mut Listener) -> Papers {
    person.act("work order", "read the work order");
    person.click("order");
    let order = person.texts();
    let target = number_after(&order, "Flow to set:").expect("the order says the flow");
    let mmhg = number_after(&order, "station pressure").expect("a pressure");
    let celsius = number_after(&order, "air temperature").expect("a temperature");
    assert!(order.contains("Calibrator to use: serial number OC-318"), "{order}");
    person.act("sky", "look at the sky");
    person.act("roof edge and ladder", "look at the edge and the ladder");
    person.act("certificates", "read the top certificate");
    person.announced();
    person.act("calibrator", "look at its plate and the orifice");
    let plate = person.announced();
    assert!(plate.contains("OC-318"), "the number on its plate is not read out: {plate}");
    person.click("certificate");
    let paper = person.texts();
    let pair = paper.split("Standard conditions").nth(1).expect("a pair at standard conditions");
    let standard = (
        number_after(pair, "slope    ").expect("a slope"),
        number_after(pair, "intercept  ").expect("an intercept"),
    );
    assert!(paper.contains("Date of calibration 2025-11-04"), "{paper}");
    person.write("Calibrator, number on its plate", "OC-318");
    person.write("Certificate used, serial number", "OC-318");
    person.write("Certificate used, date, year-month-day", "2025-11-04");
    person.write("Slope m", &format!("{:.4}", standard.0));
    person.write("Intercept b", &format!("{:.4}", standard.1));
    let run = AirConditions::as_read(mmhg, celsius).expect("real air");
    Papers { order, standard, target, run }
}

/// The sampler dead, its lid open, its nuts off.
pub(super) fn open(person: &mut Listener) {
    person.act("timer", "switch the timer off");
    person.act("sampler's cord", "pull the plug out of the mains outlet");
    person.act("lid of the shelter", "open the lid");
    for nut in NUTS {
        person.act(nut, "unscrew it");
    }
}

/// Frame and filter off, plate and calibrator on.
pub(super) fn mount(person: &mut Listener, take_filter: &str) {
    let (frame, roof) = ("hold-down frame", "roof beside the stand");
    carry(person, frame, "take the hold-down frame", roof, "lay the hold-down frame on the roof");
    carry(person, "filter", take_filter, "carrying case", "put the filter into its envelope");
    person.act("filter holder", "look at it closely");
    plate_on(person);
}

/// Plate and calibrator on what lies on the holder.
pub(super) fn plate_on(person: &mut Listener) {
    let (plate, holder) = ("adapter plate", "filter holder");
    let put = "put the adapter plate on the filter holder";
    carry(person, plate, "take the adapter plate", holder, put);
    for nut in NUTS {
        person.act(nut, "screw it down hand-tight");
    }
    let put = "put the calibrator on the adapter plate";
    carry(person, "calibrator", "take the calibrator", plate, put);
}

pub(super) fn hang(person: &mut Listener) {
    carry(person, "manometer", "take the manometer", "manometer", "hang the manometer on its hook");
    for valve in VALVES {
        person.act(valve, "open the valve fully");
    }
    person.act("tube", "blow gently into it and watch the water");
    person.wait("10 s");
    for _ in 0..4 {
        let at = read_leg(person, "left leg of the manometer");
        if at.abs() < 0.03 {
            break;
        }
        // The slider goes by tenths, the offers by hundredths.
        let hundredths = (at * 100.0).round() as i32;
        if hundredths / 10 != 0 {
            person.turn("manometer's scale", hundredths / 10);
        }
        let words = if at > 0.0 {
            "slide it up by a hundredth of an inch"
        } else {
            "slide it down by a hundredth of an inch"
        };
        for _ in 0..(hundredths % 10).abs() {
            person.act("manometer's scale", words);
        }
    }
    person.act("tube", "push the tube onto the pressure tap");
}

pub(super) fn power(person: &mut Listener) {
    person.act("recorder's door", "open the door");
    person.act("chart", "fit a fresh chart set to the present time");
    person.act("pen", "take the cap off the pen");
    person.act("pen", "lower the pen onto the paper");
    person.act("flow recorder", "tap the case");
    person.act("blower's plug", "plug it into the switched mains outlet");
    person.act("switched mains outlet", "switch the mains outlet on");
    person.wait("10 s");
    for valve in VALVES {
        person.act(valve, "close the valve");
    }
    person.act("calibrator's openings", "cover the openings for the leak check");
    person.announced();
    person.act("calibrator's openings", "listen for a hiss");
    let heard = person.announced();
    assert!(heard.contains("You hear"), "what is heard is not announced: {heard:?}");
    person.act("pen", "read the pen");
    person.act("flow recorder", "tap the case");
    person.act("calibrator's openings", "uncover the openings");
    for valve in VALVES {
        person.act(valve, "open the valve fully");
    }
    person.wait("5 min");
}

pub(super) fn air(person: &mut Listener) -> AirConditions {
    person.click("air");
    let (celsius, _) = read(person, "thermometer", "read the thermometer", "column reads");
    let (mmhg, _) = read(person, "barometer", "read the barometer", "barometer reads");
    person.write("Air temperature, \u{b0}C", &format!("{celsius:.1}"));
    person.write("Station pressure, mmHg", &format!("{mmhg:.1}"));
    AirConditions::as_read(mmhg, celsius).expect("real air")
}

pub(super) fn point(person: &mut Listener, number: usize, closing: i32) -> (f64, f64) {
    if closing > 0 {
        person.turn("calibrator's knob", -closing);
    }
    for button in ["1 min", "1 min", "10 s"] {
        person.wait(button);
    }
    for _ in 0..4 {
        person.act("flow recorder", "tap the case");
    }
    let (chart, _) = read(person, "pen", "read the pen", "pen reads");
    person.act("pen", "mark the chart beside the trace");
    person.write(&format!("point {number}, chart, divisions"), &format!("{chart:.1}"));
    let mut sum = 0.0;
    for (leg, name) in [("left leg of the manometer", "up"), ("right leg of the manometer", "down")]
    {
        let at = read_leg(person, leg).abs();
        person.write(&format!("point {number}, {name}, in"), &format!("{at:.2}"));
        sum += at;
    }
    person.write(&format!("point {number}, \u{394}H, inH2O"), &format!("{sum:.2}"));
    (sum, chart)
}

fn restore(person: &mut Listener) {
    person.act("switched mains outlet", "switch the mains outlet off");
    person.act("blower's plug", "plug it into the flow controller");
    person.act("pen", "lift the pen off the paper");
    person.act("pen", "put the cap on the pen");
    person.act("tube", "pull the tube off the pressure tap");
    for valve in VALVES {
        person.act(valve, "close the valve");
    }
}

pub(super) fn sums(
    person: &mut Listener,
    papers: &Papers,
    air: AirConditions,
    readings: &[(f64, f64)],
) {
    let (slope, intercept) = papers.standard;
    let standard = TransferStandard::new(slope, intercept).expect("a pair");
    let expression = Expression::actual(RecorderScale::SquareRoot);
    let mut points = Vec::new();
    for (&(delta_h, chart), number) in readings.iter().zip(1..) {
        let flow = format!("{:.3}", standard.flow_std_m3_min(delta_h, air).expect("a flow"));
        let term = format!("{:.2}", expression.calibration_term(chart, air).expect("a term"));
        person.write(&format!("point {number}, flow, std m\u{b3}/min"), &flow);
        person.write(&format!("point {number}, corrected chart reading"), &term);
        points.push((flow.parse().expect("a number"), term.parse().expect("a number")));
    }
    let line = FittedLine::fit(&points).expect("a line");
    person.click("line");
    person.write("Expression used, in words or symbols", "square root");
    person.write("Slope of the calibration line", &format!("{:.3}", line.slope));
    person.write("Intercept of the calibration line", &format!("{:.3}", line.intercept));
    person.write("Correlation r", &format!("{:.5}", line.r));
    let chart = expression.chart_for(line.y_at(papers.target), papers.run).expect("a reading");
    person.click("set point");
    person.write("Target flow, std m\u{b3}/min", &format!("{:.3}", papers.target));
    person.write("Chart reading to hold, divisions", &format!("{chart:.1}"));
}

fn pack(person: &mut Listener) {
    person.wait("1 min");
    person.wait("1 min");
    let case = "carrying case";
    carry(person, "manometer", "take the manometer", case, "put the manometer into the case");
    carry(person, "calibrator", "take the calibrator", case, "put the calibrator into the case");
    for nut in NUTS {
        person.act(nut, "unscrew it");
    }
    carry(
        person,
        "adapter plate",
        "take the adapter plate",
        case,
        "put the adapter plate into the case",
    );
    carry(
        person,
        "filter",
        "take the filter",
        "filter holder",
        "put the filter on the filter holder",
    );
    let (frame, holder) = ("hold-down frame", "filter holder");
    carry(
        person,
        frame,
        "take the hold-down frame",
        holder,
        "put the hold-down frame on the filter holder",
    );
    for nut in NUTS {
        person.act(nut, "screw it down hand-tight");
    }
    person.act("lid of the shelter", "close the lid");
    person.act("sampler's cord", "put the plug into the mains outlet");
    person.act("timer", "set the timer to auto");
    person.act("recorder's door", "close the door");
}

/// The calibration is accepted.
pub(super) fn decide(person: &mut Listener) {
    person.click("remarks");
    person.click("accepted");
    person.click("write the decision");
}

/// Remarks, and the signature; the debrief says that it is a pass.
pub(super) fn sign(person: &mut Listener) {
    person.click("remarks");
    person.write("Remarks", "line as last time, nothing found");
    person.announced();
    person.click(SIGN);
    let said = person.announced();
    assert!(said.contains(SIGN_AGAIN), "that it is asked for once more is not announced: {said:?}");
    person.click(SIGN_AGAIN);
    for _ in 0..200 {
        if person.find(|one| one.name == "back to the scenarios").is_some() {
            break;
        }
        person.rest(1);
    }
    person.rest(5);
    let said = person.announced();
    assert!(said.contains("Passed"), "how it came out is not announced: {said:?}");
    let debrief = person.texts();
    assert!(debrief.lines().any(|line| line.starts_with("Passed")), "{debrief}");
}

/// Turns the readings in words on, on the sheet of the settings.
pub(super) fn ask_for_words(person: &mut Listener) {
    person.click("F2 settings");
    person.click("Readings in words: off");
    assert!(person.find(|one| one.name == "Readings in words: on").is_some(), "{}", person.text());
    person.click("close");
}

#[test]
fn the_first_scenario_is_worked_to_a_pass_by_a_screen_reader_alone() {
    let mut person = Listener::at(Bench::at_start((1280, 800), 100));
    person.click_what_begins("First calibration");
    person.rest(6);
    ask_for_words(&mut person);
    let papers = papers(&mut person);
    open(&mut person);
    mount(&mut person, "take the filter");
    hang(&mut person);
    power(&mut person);
    let air = air(&mut person);
    person.click("points");
    let readings: Vec<(f64, f64)> =
        CLOSING.iter().zip(1..).map(|(&by, number)| point(&mut person, number, by)).collect();
    restore(&mut person);
    sums(&mut person, &papers, air, &readings);
    pack(&mut person);
    decide(&mut person);
    sign(&mut person);
}
