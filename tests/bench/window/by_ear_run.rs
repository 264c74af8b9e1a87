//! The work order with a 24-hour run worked to a pass by a screen reader alone.

use sim_core::calibration::{
    AirConditions, Curve, Expression, FilterMasses, RecorderScale, RunPart, RunVolume,
    TransferStandard, concentration, run_volume,
};

use super::by_ear::{
    CLOSING, NUTS, Papers, VALVES, air, ask_for_words, carry, decide, hang, mount, number_after,
    open, papers, plate_on, point, power, read, read_leg, sign, sums,
};
use super::harness::Bench;
use super::listener::Listener;

/// How far the pen may stand off the set point, divisions.
const NEAR: f64 = 0.5;
/// Divisions that the pen moves in a quarter turn of the screw, about.
const DIVISIONS_A_QUARTER: f64 = 0.43;
/// Readings of the flow check that the order asks for.
const READINGS: u8 = 8;

fn rounded(value: f64, decimals: i32) -> f64 {
    let whole = 10_f64.powi(decimals);
    (value * whole).round() / whole
}

/// A number that was written.
fn written(person: &mut Listener, field: &str) -> f64 {
    person.value(field).parse().expect("a number")
}

/// The line as it was written.
fn curve(person: &mut Listener) -> Curve {
    person.click("line");
    let slope = written(person, "Slope of the calibration line");
    let intercept = written(person, "Intercept of the calibration line");
    Curve::new(slope, intercept, Expression::actual(RecorderScale::SquareRoot)).expect("a curve")
}

/// The next filter of the folder, looked over, on the holder; its number.
fn fresh_filter(person: &mut Listener) -> String {
    person.act("filter", "take a fresh filter by its edges");
    person.act("filter", "hold it up to the light");
    person.announced();
    person.act("filter", "look at it closely");
    let said = person.announced();
    assert!(said.contains("o hole was visible"), "{said}");
    let number = said.split("number on its edge is ").nth(1).expect("a number on its edge");
    let number = number.split(['.', ' ', '\n']).next().unwrap_or_default().to_owned();
    person.act("filter holder", "put the filter on the filter holder");
    number
}

/// Calibrator and plate off, a fresh filter on the holder, plate and calibrator on again.
fn under_the_calibrator(person: &mut Listener) {
    person.wait("1 min");
    person.wait("1 min");
    person.act("tube", "pull the tube off the pressure tap");
    let roof = "roof beside the stand";
    carry(person, "calibrator", "take the calibrator", roof, "lay the calibrator on the roof");
    for nut in NUTS {
        person.act(nut, "unscrew it");
    }
    let put = "lay the adapter plate on the roof";
    carry(person, "adapter plate", "take the adapter plate", roof, put);
    fresh_filter(person);
    plate_on(person);
    person.act("calibrator's knob", "turn it fully open");
    person.act("tube", "push the tube onto the pressure tap");
    person.act("sampler's cord", "put the plug into the mains outlet");
}

/// The pen after some taps.
fn tapped(person: &mut Listener) -> f64 {
    for _ in 0..4 {
        person.act("flow recorder", "tap the case");
    }
    read(person, "pen", "read the pen", "pen reads").0
}

/// The screw turned until the tapped pen stands at the set point, on a warm blower.
fn trim(person: &mut Listener, set_point: f64) -> f64 {
    let mut stands = tapped(person);
    for _ in 0..8 {
        let quarters = ((set_point - stands) / DIVISIONS_A_QUARTER).round() as i32;
        if quarters == 0 || (set_point - stands).abs() < NEAR {
            break;
        }
        person.turn("flow controller", quarters);
        person.wait("1 min");
        stands = tapped(person);
    }
    assert!((stands - set_point).abs() < 0.8, "it stands at {stands}, {set_point} is wanted");
    stands
}

/// The flow checked as the sampler will run. What it comes to: the flow, and the air.
fn check(
    person: &mut Listener,
    papers: &Papers,
    curve: Curve,
    set_point: f64,
) -> (f64, AirConditions) {
    under_the_calibrator(person);
    person.act("timer", "switch the timer on");
    person.wait("5 min");
    person.click("check");
    let (celsius, _) = read(person, "thermometer", "read the thermometer", "column reads");
    let (mmhg, _) = read(person, "barometer", "read the barometer", "barometer reads");
    person.write("Air temperature at the check, \u{b0}C", &format!("{celsius:.1}"));
    person.write("Station pressure at the check, mmHg", &format!("{mmhg:.1}"));
    let air = AirConditions::as_read(mmhg, celsius).expect("real air");
    trim(person, set_point);
    let standard = TransferStandard::new(papers.standard.0, papers.standard.1).expect("a pair");
    let (mut flow, mut told) = (0.0, 0.0);
    for number in 1..=READINGS {
        person.wait("10 s");
        person.wait("10 s");
        let chart = tapped(person);
        let up = read_leg(person, "left leg of the manometer").abs();
        let down = read_leg(person, "right leg of the manometer").abs();
        person.write(&format!("check {number}, up, in"), &format!("{up:.2}"));
        person.write(&format!("check {number}, down, in"), &format!("{down:.2}"));
        person.write(&format!("check {number}, chart, divisions"), &format!("{chart:.1}"));
        flow += standard.flow_std_m3_min(up + down, air).expect("a flow");
        told += curve.flow_std_m3_min(chart, air).expect("a flow");
    }
    let count = f64::from(READINGS);
    let (flow, told) = (rounded(flow / count, 3), rounded(told / count, 3));
    let difference = 100.0 * (told / flow - 1.0);
    assert!(difference.abs() <= 7.0, "nothing is wrong here: {difference} %");
    person.write("Flow from the standard, std m\u{b3}/min", &format!("{flow:.3}"));
    person.write("Flow from the calibration line, std m\u{b3}/min", &format!("{told:.3}"));
    person.write("Percent difference, %", &format!("{difference:+.1}"));
    person.click("passed");
    person.click("write the decision");
    person.act("timer", "switch the timer off");
    person.act("sampler's cord", "pull the plug out of the mains outlet");
    (flow, air)
}

/// What belongs to the calibration goes into its case.
fn put_away(person: &mut Listener) {
    person.wait("1 min");
    person.wait("1 min");
    person.act("tube", "pull the tube off the pressure tap");
    for valve in VALVES {
        person.act(valve, "close the valve");
    }
    let case = "carrying case";
    carry(person, "manometer", "take the manometer", case, "put the manometer into the case");
    carry(person, "calibrator", "take the calibrator", case, "put the calibrator into the case");
    for nut in NUTS {
        person.act(nut, "unscrew it");
    }
    let put = "put the adapter plate into the case";
    carry(person, "adapter plate", "take the adapter plate", case, put);
    person.act("filter", "take the filter by its edges");
    person.act(case, "put the filter into its envelope");
}

/// The hold-down frame on the holder, tight, and the lid closed.
fn frame_on(person: &mut Listener, looks: bool) {
    let (frame, holder) = ("hold-down frame", "filter holder");
    let put = "put the hold-down frame on the filter holder";
    carry(person, frame, "take the hold-down frame", holder, put);
    if looks {
        person.act("filter", "look at it closely");
    }
    for nut in NUTS {
        person.act(nut, "screw it down hand-tight");
    }
    person.act("lid of the shelter", "close the lid");
    person.act("sampler's cord", "put the plug into the mains outlet");
}

/// What is announced of the timer.
fn timer(person: &mut Listener) -> String {
    person.announced();
    person.act("timer", "look at it closely");
    person.rest(3);
    person.announced()
}

fn meter(person: &mut Listener) -> f64 {
    let said = timer(person);
    number_after(&said, "elapsed-time meter shows").expect("the meter is read out")
}

/// Dial, trippers, meter, a fresh chart, the door.
fn arm(person: &mut Listener, papers: &Papers) {
    person.act("timer", "switch the timer off");
    person.act("timer's dial", "set the dial to the time on your watch");
    for (thing, words) in [("on tripper", "Run: on "), ("off tripper", ", off ")] {
        let day = papers.order.split(words).nth(1).and_then(|rest| rest.split(' ').next());
        let day = day.expect("the order says the day");
        for _ in 0..8 {
            if timer(person)
                .to_lowercase()
                .contains(&format!("{thing} is at {}", day.to_lowercase()))
            {
                break;
            }
            person.act(thing, "move it forward by a day");
        }
    }
    let before = meter(person);
    person.write("Elapsed-time meter before the run, min", &format!("{before:.1}"));
    person.act("timer", "set the timer to auto");
    person.act("pen", "lift the pen off the paper");
    person.act("chart", "fit a fresh chart set to the present time");
    person.act("pen", "lower the pen onto the paper");
    person.act("recorder's door", "close the door");
}

/// Nobody at the site, until the return.
fn away(person: &mut Listener) {
    let (edge, leave) = ("roof edge and ladder", "leave the site until the run has ended");
    person.announced();
    person.act(edge, leave);
    let said = person.announced();
    assert!(said.contains("Press again to confirm"), "{said}");
    person.act(edge, leave);
    person.rest(20);
    person.click("what is visible now");
    let said = person.announced();
    assert!(said.contains("the blower"), "{said}");
    person.click("skip to the return");
    for _ in 0..20_000 {
        if person.find(|one| one.name == "nobody is at the site").is_none() {
            break;
        }
        person.rest(1);
    }
    let said = person.announced();
    assert!(said.contains("You are back at the site"), "{said}");
}

/// Meter, chart, weather, end reading, filter. Minutes of the run, its mean reading, the air.
fn recover(person: &mut Listener) -> (f64, f64, AirConditions) {
    person.click("run");
    let after = meter(person);
    let minutes = after - written(person, "Elapsed-time meter before the run, min");
    person.write("Elapsed-time meter after the run, min", &format!("{after:.1}"));
    person.announced();
    person.act("weather sheet", "read the weather sheet");
    let air = mean_air(&person.announced());
    person.act("recorder's door", "open the door");
    person.act("pen", "lift the pen off the paper");
    person.act("chart", "take the chart of the run off and keep it");
    person.act("pen", "lower the pen onto the paper");
    person.act("timer", "switch the timer on");
    person.wait("5 min");
    let end = tapped(person);
    person.write("Chart reading at the end, divisions", &format!("{end:.1}"));
    person.act("timer", "switch the timer off");
    person.act("sampler's cord", "pull the plug out of the mains outlet");
    person.wait("1 min");
    person.wait("1 min");
    person.act("lid of the shelter", "open the lid");
    for nut in NUTS {
        person.act(nut, "unscrew it");
    }
    let (frame, roof) = ("hold-down frame", "roof beside the stand");
    carry(person, frame, "take the hold-down frame", roof, "lay the hold-down frame on the roof");
    person.act("filter", "look at it closely");
    person.act("filter", "take the filter by its edges");
    person.act("filter", "fold it with the smooth side out");
    person.act("carrying case", "put the filter into its envelope");
    person.write("Chain of custody", "to the laboratory with me, 14 May, 08:30");
    person.announced();
    person.act("chart of the run", "look at the whole chart");
    let hours: Vec<f64> = (0..24)
        .map_while({
            let said = person.announced();
            move |hour| number_after(&said, &format!("{hour:02}:30  "))
        })
        .collect();
    assert_eq!(hours.len(), 24, "every hour of the chart is read out");
    (minutes, hours.iter().sum::<f64>() / 24.0, air)
}

/// The means of the sheet that the logger printed.
fn mean_air(said: &str) -> AirConditions {
    let lines = said.lines().filter_map(|line| {
        let mut numbers = line.split_whitespace().rev().map(str::parse::<f64>);
        let (celsius, mmhg) = (numbers.next()?.ok()?, numbers.next()?.ok()?);
        Some((mmhg, celsius))
    });
    let lines: Vec<(f64, f64)> = lines.collect();
    assert!(lines.len() >= 24, "{said}");
    let mean = |of: fn(&(f64, f64)) -> f64| lines.iter().map(of).sum::<f64>() / lines.len() as f64;
    AirConditions::as_read(rounded(mean(|line| line.0), 1), rounded(mean(|line| line.1), 1))
        .expect("real air")
}

/// The sums of the run.
fn volume(
    person: &mut Listener,
    curve: Curve,
    (minutes, mean, air): (f64, f64, AirConditions),
    over: f64,
) {
    person.click("volume");
    let told = person.texts();
    let told = told.split("The laboratory writes:").nth(1).expect("the laboratory has weighed it");
    let masses = FilterMasses {
        before_g: number_after(told, "before").expect("a mass"),
        after_g: number_after(told, "after").expect("a mass"),
    };
    let (minutes, mean) = (rounded(minutes, 1), rounded(mean, 1));
    let by_line = run_volume(curve, &[RunPart { chart: mean, minutes }], air).expect("a volume");
    let flow = over * by_line.mean_flow_std_m3_min;
    let sums = RunVolume::from_flow(flow, minutes, air).expect("a volume");
    let dust = concentration(masses, &sums).expect("a concentration").ug_std_m3;
    person.write("Time of the run, min", &format!("{minutes:.1}"));
    person.write("Mean chart reading, divisions", &format!("{mean:.1}"));
    person.write("Mean pressure of the run, mmHg", &format!("{:.1}", air.pressure().mmhg()));
    person.write("Mean temperature of the run, \u{b0}C", &format!("{:.1}", air.temperature().c()));
    let flow = format!("{:.3}", sums.mean_flow_std_m3_min);
    person.write("Mean flow of the run, std m\u{b3}/min", &flow);
    person.write("Volume, std m\u{b3}", &format!("{:.1}", sums.volume_std_m3));
    person.write("Concentration, \u{b5}g/std m\u{b3}", &format!("{dust:.1}"));
    person.click("valid");
    person.click("write the decision");
}

#[test]
fn a_whole_work_order_with_its_run_is_worked_to_a_pass_by_a_screen_reader_alone() {
    let mut listener = Listener::at(Bench::at_start((1280, 800), 100));
    let person = &mut listener;
    person.click_what_begins("From set point to volume");
    person.rest(6);
    ask_for_words(person);
    let papers = papers(person);
    open(person);
    mount(person, "take the filter by its edges");
    hang(person);
    power(person);
    let at_points = air(person);
    person.click("points");
    let readings: Vec<(f64, f64)> =
        CLOSING.iter().zip(1..).map(|(&by, number)| point(person, number, by)).collect();
    person.act("switched mains outlet", "switch the mains outlet off");
    person.act("blower's plug", "plug it into the flow controller");
    sums(person, &papers, at_points, &readings);
    person.click("set point");
    let set_point = written(person, "Chart reading to hold, divisions");
    decide(person);
    let curve = curve(person);
    let (flow, at_check) = check(person, &papers, curve, set_point);
    put_away(person);
    let number = fresh_filter(person);
    person.click("run");
    person.write("Filter, number on its edge", &number);
    frame_on(person, true);
    person.act("timer", "switch the timer on");
    person.wait("5 min");
    let start = trim(person, set_point);
    person.click("run");
    person.write("Chart reading at the start, divisions", &format!("{start:.1}"));
    arm(person, &papers);
    away(person);
    let run = recover(person);
    let over = flow / curve.flow_std_m3_min(start, at_check).expect("a flow");
    volume(person, curve, run, over);
    person.act("pen", "lift the pen off the paper");
    person.act("pen", "put the cap on the pen");
    frame_on(person, false);
    person.act("timer", "set the timer to auto");
    person.act("recorder's door", "close the door");
    sign(person);
}
