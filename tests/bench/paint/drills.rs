//! Every drill that is read from a picture: what is right, against what the picture alone gives, over
//! 200 draws each.

use std::time::Instant;

use paint::drill::{chart, look_at, pictures};
use paint::loupe::{self, KeptChart};
use paint::still;
use sim_core::drill::{Answer, Asked, DrillKind, DrillLook, Question, StationPart};
use sim_core::rig::parts::{BlowerPlug, Leg};
use sim_core::session::SitePapers;
use sim_core::session::action::{Exposure, Sight, WasherSeat};
use sim_core::session::view::{NutFeel, View};

use super::picture::Picture;
use super::read;

/// Draws of each kind.
const DRAWS: u32 = 200;
/// The smallest loupe of a window.
const SIDE_PX: u32 = 209;
/// How far beside the middle of an hour a chart is read, hours, and how large its picture is then, as in a
/// window of 1920 pixels at scale 1 and 2: the circles of a chart lie near each other.
const BESIDE_H: [(f64, u32); 6] =
    [(0.0, 310), (0.07, 310), (-0.07, 310), (0.0, 620), (0.14, 620), (-0.14, 620)];
/// The seed of the draws.
const SEED: u64 = 31;

fn drawn(kind: DrillKind, number: u32) -> Question {
    Question::draw(kind, SEED, number).unwrap_or_else(|error| panic!("{kind} {number}: {error}"))
}

/// What is right.
fn truth(question: &Question) -> Answer {
    let given = match question.choices().first() {
        Some(first) => Answer::Choice((*first).to_owned()),
        None => Answer::Number(0.0),
    };
    question.judge(&given).unwrap().truth
}

fn number(question: &Question) -> f64 {
    match truth(question) {
        Answer::Number(number) => number,
        Answer::Choice(name) => panic!("{name} is no number"),
    }
}

fn picture(question: &Question, look: &DrillLook) -> Picture {
    Picture::new(look_at(question, look, SIDE_PX).data())
}

/// By how much a meniscus is seen too low from a height, in.
fn parallax_in(look: &DrillLook) -> f64 {
    -look.view.eye_mm * 6.0 / 350.0 / 25.4
}

/// A leg's reading by its picture, as a level eye has it.
fn leg_in(question: &Question, look: &DrillLook) -> f64 {
    let leg = if look.view.focus == Sight::LeftLeg { Leg::Left } else { Leg::Right };
    let near = look.view.manometer.leg(leg).meniscus_in;
    read::leg(&picture(question, look), look.view.focus, near) - parallax_in(look)
}

/// Goes through the draws of a kind and says how long it took and how far the worst reading was off.
fn all(kind: DrillKind, allowed: f64, off: impl Fn(&Question) -> f64) {
    let start = Instant::now();
    let mut worst = 0.0_f64;
    for at in 0..DRAWS {
        let one = off(&drawn(kind, at)).abs();
        assert!(one <= allowed, "{kind} {at}: the picture gives {one} else than what is right");
        worst = worst.max(one);
    }
    let took_s = start.elapsed().as_secs_f64();
    println!("{kind}: {DRAWS} draws in {took_s:.1} s, the worst reading off by {worst:.3}");
}

#[test]
fn a_leg_is_in_the_picture_what_is_right() {
    all(DrillKind::Leg, 0.01, |question| leg_in(question, &question.looks()[0]) - number(question));
}

#[test]
fn both_legs_are_in_their_pictures_what_is_right() {
    all(DrillKind::Difference, 0.02, |question| {
        let [left, right] = [0, 1].map(|at| leg_in(question, &question.looks()[at]));
        left - right - number(question)
    });
}

#[test]
fn the_pen_is_in_the_picture_what_is_right() {
    all(DrillKind::Pen, 0.4, |question| {
        read::pen(&picture(question, &question.looks()[0]), number(question)) - number(question)
    });
}

#[test]
fn the_barometer_is_in_the_picture_what_is_right() {
    all(DrillKind::Barometer, 0.25, |question| {
        let look = &question.looks()[0];
        let shown = look.view.barometer.pointer_mmhg;
        let seen = read::barometer(&picture(question, look), shown);
        // Set to sea level it shows another pressure, which the index in the picture says.
        seen - shown + if at_sea_level(look) { 0.0 } else { shown - number(question) }
    });
}

fn at_sea_level(look: &DrillLook) -> bool {
    use sim_core::session::action::BarometerReference;
    look.view.barometer.set_to == Some(BarometerReference::SeaLevel)
}

#[test]
fn the_thermometer_is_in_the_picture_what_is_right() {
    all(DrillKind::Thermometer, 0.25, |question| {
        let look = &question.looks()[0];
        read::thermometer(&picture(question, look), number(question)) - number(question)
    });
}

#[test]
fn the_meter_is_in_the_picture_what_is_right() {
    all(DrillKind::ElapsedTime, 0.01, |question| {
        read::meter(&picture(question, &question.looks()[0])) - number(question)
    });
}

#[test]
fn the_mean_of_a_chart_is_in_its_pictures_what_is_right() {
    all(DrillKind::ChartMean, 0.25, |question| {
        let look = &question.looks()[0];
        let run = look.view.run.as_deref().unwrap();
        let trace = run.kept_chart.as_deref().unwrap();
        let (mut readings, mut edges) = (Vec::new(), 0);
        for hour in 0..24_u32 {
            let middle = f64::from(hour) + 0.5;
            let drawn = |&&(at, pen): &&(f64, f64)| (at - middle).abs() < 0.06 && pen > 10.0;
            if let Some(drawn) = trace.iter().find(drawn) {
                // A pen that fell or rose within a quarter of an hour has drawn a line over the circles.
                let near = |&&(at, _): &&(f64, f64)| (at - middle).abs() < 0.25;
                let steep = |&(_, pen): &(f64, f64)| (pen - drawn.1).abs() > 3.0;
                let goes_on = |side: f64| {
                    let there = |&(at, pen): &(f64, f64)| {
                        (at - middle - side * 0.2).abs() < 0.05 && pen > 10.0
                    };
                    trace.iter().any(there)
                };
                let is_edge = !goes_on(-1.0) || !goes_on(1.0);
                if is_edge || trace.iter().filter(near).filter(|one| one.1 > 10.0).any(steep) {
                    edges += 1;
                    readings.push(drawn.1);
                    continue;
                }
                // Where an arc or a number blots the circles, whoever reads looks a few minutes beside it.
                let seen = BESIDE_H.into_iter().find_map(|(beside, side_px)| {
                    let inked = |&&(at, pen): &&(f64, f64)| {
                        (at - middle - beside).abs() < 0.06 && pen > 10.0
                    };
                    // Only which five it is, is taken from the view; an hour without a trace has none.
                    let &(_, near) = trace.iter().find(inked)?;
                    let held = KeptChart::Hour(middle + beside);
                    let pixels = chart(question, look, held, side_px);
                    read::counted_trace(&Picture::new(pixels.data()), near)
                });
                let number = question.number();
                readings.push(seen.unwrap_or_else(|| {
                    panic!("question {number}: the ruling cannot be counted about {drawn:?}")
                }));
            }
        }
        assert!(edges <= 2, "{edges} hours of a chart are not read from its pictures");
        readings.iter().sum::<f64>() / readings.len() as f64 - number(question)
    });
}

/// By the last three looks: what moves is read in different places, what rests in the same.
fn is_at_rest(question: &Question, still: f64, reads: impl Fn(&DrillLook) -> f64) -> bool {
    let looks = question.looks();
    let last: Vec<f64> = looks[looks.len() - 3..].iter().map(reads).collect();
    let (low, high) =
        last.iter().fold((f64::MAX, f64::MIN), |(low, high), one| (low.min(*one), high.max(*one)));
    high - low < still
}

fn rest_is_seen(kind: DrillKind, still: f64, reads: impl Fn(&Question, &DrillLook) -> f64) {
    let start = Instant::now();
    let mut resting = 0;
    for at in 0..DRAWS {
        let question = drawn(kind, at);
        let rests = truth(&question) == Answer::Choice("at-rest".to_owned());
        let seen = is_at_rest(&question, still, |look| reads(&question, look));
        assert_eq!(seen, rests, "{kind} {at}: the pictures show something else than what is right");
        resting += u32::from(rests);
    }
    println!("{kind}: {DRAWS} draws in {:.1} s", start.elapsed().as_secs_f64());
    assert!((60..140).contains(&resting), "{resting} of {DRAWS} are at rest");
}

#[test]
fn water_is_in_the_pictures_at_rest_where_it_is() {
    rest_is_seen(DrillKind::WaterAtRest, 0.06, |question, look| {
        let leg = if look.view.focus == Sight::LeftLeg { Leg::Left } else { Leg::Right };
        let near = look.view.manometer.leg(leg).meniscus_in;
        read::leg(&straight(question, look), look.view.focus, near)
    });
}

/// The picture with the loupe straight on what is read: it is read best there.
fn straight(question: &Question, look: &DrillLook) -> Picture {
    Picture::new(loupe::paint(&look.view, &question.papers(), SIDE_PX, 1.0).data())
}

#[test]
fn the_pen_is_in_the_pictures_at_rest_where_it_is() {
    rest_is_seen(DrillKind::PenAtRest, 0.7, |question, look| {
        read::pen(&straight(question, look), look.view.recorder.pen.unwrap())
    });
}

/// What is wrong with a certificate stands in its picture: with that put right, it is another picture.
#[test]
fn a_certificate_shows_its_flaw() {
    let start = Instant::now();
    for at in 0..DRAWS {
        let question = drawn(DrillKind::Certificate, at);
        let Asked::ValidCertificate { .. } = question.asked() else { panic!() };
        let Answer::Choice(right) = truth(&question) else { panic!() };
        let right = right.parse::<usize>().unwrap() - 1;
        let papers = question.papers();
        let good = papers.certificates[right].clone();
        let looks = question.looks();
        let painted = pictures(&question, SIDE_PX);
        for (index, look) in looks.iter().enumerate().filter(|(index, _)| *index != right) {
            let mut put_right = papers.certificates.to_vec();
            let paper = &mut put_right[index];
            paper.serial.clone_from(&good.serial);
            paper.date = good.date;
            paper.heading = good.heading;
            if paper.standard != good.standard && papers.certificates[index].is_copy() {
                paper.standard = good.standard;
            }
            let papers = SitePapers { certificates: &put_right, ..papers };
            let other = loupe::paint(&look.view, &papers, SIDE_PX, 1.0);
            assert!(other.data() != painted[index].pixels.data(), "question {at}, paper {index}");
        }
    }
    let took_s = start.elapsed().as_secs_f64();
    println!("certificate: {DRAWS} draws in {took_s:.1} s");
}

/// The view with one part as it should be.
fn put_right(view: &View, part: StationPart) -> View {
    let mut view = view.clone();
    match part {
        StationPart::Cord => view.power.sampler_cord_in = true,
        StationPart::BlowerPlug => view.power.blower_plug = BlowerPlug::LineOutlet,
        StationPart::Tube => {
            view.tube.on_tap = true;
            view.tube.kinked = false;
            view.tube.drops = false;
        }
        StationPart::Valve(Leg::Left) => view.manometer.left.valve_quarters = 4,
        StationPart::Valve(Leg::Right) => view.manometer.right.valve_quarters = 4,
        StationPart::Manometer => {
            if view.manometer.tilt_deg.abs() > 6.0 {
                view.manometer.tilt_deg = 0.0;
            }
            view.manometer.bubble = false;
        }
        StationPart::Openings => view.calibrator.blocked = false,
        StationPart::Recorder => {
            view.recorder.line_off = false;
            view.recorder.line_kinked = false;
            view.recorder.line_drops = false;
        }
        StationPart::Pen => {
            view.recorder.arm_bent = false;
            view.recorder.capped = false;
            view.recorder.pen = Some(view.recorder.pen.unwrap_or(40.0));
        }
        StationPart::Lid => view.mounting.inlet = None,
        StationPart::Blower => view.mounting.exhaust = None,
        StationPart::Thermometer => view.thermometer.exposure = Exposure::Shade,
        StationPart::Holder => {
            view.mounting.holder_gasket = view.mounting.holder_gasket.map(|_| true);
        }
        StationPart::Nut(nut) => {
            let nut = &mut view.mounting.nuts[nut.index()];
            nut.washer = WasherSeat::Above;
            if nut.quarter_turns < 6 {
                (nut.quarter_turns, nut.feel) = (8, NutFeel::Snug);
            }
        }
    }
    view
}

/// Of all parts exactly the one that is right to name looks otherwise than it should, and it does so in
/// the picture; where nothing is wrong, none does.
#[test]
fn the_part_that_is_wrong_looks_wrong_and_no_other_does() {
    let start = Instant::now();
    let scale = 0.5;
    for at in 0..DRAWS {
        let question = drawn(DrillKind::Station, at);
        let Answer::Choice(right) = truth(&question) else { panic!() };
        let view = &question.looks()[0].view;
        // With the holder bare, nothing is connected and no nut is on.
        let bare = view.mounting.holder_gasket.is_some();
        let needed = |part: &StationPart| {
            !bare || matches!(part, StationPart::Holder | StationPart::Lid | StationPart::Blower)
        };
        let mut wrong: Vec<String> = StationPart::all()
            .into_iter()
            .filter(needed)
            .filter(|part| {
                let mended = put_right(view, *part);
                let changed = mended != *view;
                let seen = changed
                    && still::whole(&mended, scale, 0.3).data()
                        != still::whole(view, scale, 0.3).data();
                assert_eq!(changed, seen, "question {at}: {part:?} is wrong, and is not drawn so");
                seen
            })
            .map(StationPart::name)
            .collect();
        if wrong.is_empty() {
            wrong.push("nothing".to_owned());
        }
        assert_eq!(wrong, [right], "question {at}");
    }
    let took_s = start.elapsed().as_secs_f64();
    println!("station: {DRAWS} draws in {took_s:.1} s");
}

/// A part has the name that it has on the bench.
#[test]
fn a_part_is_named_as_on_the_bench() {
    let names: Vec<String> = hands::Spot::all().into_iter().map(hands::Spot::name).collect();
    for part in StationPart::all() {
        assert!(names.contains(&part.name()), "{part:?} has another name on the bench");
    }
}
