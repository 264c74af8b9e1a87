//! What is seen of a question, as far as it can be said without the answer: where something stands
//! against the marks of a scale, not what it reads.

use sim_core::drill::{
    AgainstScale, Asked, DrillKind, DrillSheet, LineSheet, PointSheet, Question,
};
use sim_core::rig::parts::Leg;
use sim_core::rig::recorder::RecorderKind;
use sim_core::session::action::{BarometerReference, Sight};

use super::asked::leg_name;
use crate::prose::sentences;
use crate::say::look;

/// What is seen.
pub fn seen(question: &Question) -> String {
    match question.kind() {
        DrillKind::Leg | DrillKind::Difference => legs(question),
        DrillKind::Pen => pen(question),
        DrillKind::Barometer => barometer(question),
        DrillKind::Thermometer => thermometer(question),
        DrillKind::WaterAtRest | DrillKind::PenAtRest => looks(question),
        DrillKind::ChartMean => whole(question, &[Sight::Recorder]),
        DrillKind::ElapsedTime => meter(question),
        DrillKind::Certificate => certificates(question),
        DrillKind::Station => whole(question, &STATION),
        DrillKind::PointSums | DrillKind::Line => match question.sheet() {
            Some(DrillSheet::Point(sheet)) => point(sheet),
            Some(DrillSheet::Line(sheet)) => line(sheet),
            None => String::new(),
        },
    }
}

/// What a sharp eye reads of it; nothing unless it was asked for.
pub fn reading(question: &Question) -> Option<String> {
    let views = question.read_in_words()?;
    let papers = question.papers();
    let said = views.iter().map(|view| look(view, view.focus, &papers));
    Some(said.collect::<Vec<_>>().join("\n"))
}

/// What is looked at, one after another, on a walk around the station.
const STATION: [Sight; 8] = [
    Sight::Holder,
    Sight::Calibrator,
    Sight::Tube,
    Sight::Manometer,
    Sight::Recorder,
    Sight::Thermometer,
    Sight::Plugs,
    Sight::Blower,
];

/// Things as they are said on the bench.
fn whole(question: &Question, sights: &[Sight]) -> String {
    let papers = question.papers();
    let Some(first) = question.looks().first() else { return String::new() };
    let said = sights.iter().map(|&sight| look(&first.view, sight, &papers));
    said.collect::<Vec<_>>().join("\n")
}

/// The legs, against their scale.
fn legs(question: &Question) -> String {
    let (bottoms, rims) = (question.against_scale(), question.rims_against_scale());
    let mut lines = Vec::new();
    for (look, (bottom, rim)) in question.looks().iter().zip(bottoms.iter().zip(&rims)) {
        let leg = if look.view.focus == Sight::RightLeg { Leg::Right } else { Leg::Left };
        lines.push(sentences(&[
            format!("{} leg: the marks are a tenth of an inch apart", leg_name(leg)),
            format!(
                "the nearest number at or under the bottom of the meniscus is {}",
                inches(bottom)
            ),
            format!("counted upwards from it, the bottom is {}", stands(bottom, "mark")),
            format!("the upper rim: {} {}", inches(rim), beyond(rim, "mark")),
            eye(look.view.eye_mm),
        ]));
    }
    lines.join("\n")
}

/// The number of the manometer's scale from which is counted.
fn inches(seen: &AgainstScale) -> String {
    match seen.number {
        number if number > 0.5 => format!("{number:.0} above zero"),
        number if number < -0.5 => format!("{:.0} below zero", number.abs()),
        _ => "zero".to_owned(),
    }
}

/// Where the eye is.
fn eye(eye_mm: f64) -> String {
    match eye_mm.round() as i64 {
        0 => "your eye is level with it".to_owned(),
        height if height > 0 => format!("your eye is {height} mm above it"),
        height => format!("your eye is {} mm below it", height.unsigned_abs()),
    }
}

/// Where something stands after a number.
fn stands(seen: &AgainstScale, mark: &str) -> String {
    match (seen.marks_past, seen.midway) {
        (0, false) => "on the number itself".to_owned(),
        (0, true) => format!("midway between the number and the 1st {mark}"),
        (marks, false) => format!("on the {} {mark}", ordinal(marks)),
        (marks, true) => {
            format!("midway between the {} and the {} {mark}", ordinal(marks), ordinal(marks + 1))
        }
    }
}

/// The same, as it follows a number.
fn beyond(seen: &AgainstScale, mark: &str) -> String {
    match (seen.marks_past, seen.midway) {
        (0, false) => "exactly".to_owned(),
        _ => format!("is under it, and it is {} after that", stands(seen, mark)),
    }
}

fn ordinal(number: u32) -> String {
    let ending = match number {
        1 => "st",
        2 => "nd",
        3 => "rd",
        _ => "th",
    };
    format!("{number}{ending}")
}

/// The pen, against the circles of its chart.
fn pen(question: &Question) -> String {
    let (Some(seen), Some(look)) =
        (question.against_scale().first().copied(), question.looks().first())
    else {
        return String::new();
    };
    let recorder = &look.view.recorder;
    let ruled = match recorder.scale {
        RecorderKind::SquareRoot => "a square-root chart: its circles lie wider apart farther out",
        RecorderKind::Linear | RecorderKind::MassFlow => "an evenly ruled chart",
    };
    sentences(&[
        format!(
            "it is {ruled}, printed to {:.0}, with a circle for each division",
            recorder.printed_to
        ),
        format!("the nearest number at or under the pen's tip is {:.0}", seen.number),
        format!("counted outwards from it, the tip is {}", stands(&seen, "circle")),
    ])
}

fn barometer(question: &Question) -> String {
    let (Some(seen), Some(look)) =
        (question.against_scale().first().copied(), question.looks().first())
    else {
        return String::new();
    };
    let set_to = match look.view.barometer.set_to {
        Some(BarometerReference::SeaLevel) => "sea level",
        _ => "station pressure",
    };
    sentences(&[
        "the dial has a mark for each mmHg".to_owned(),
        format!("the nearest number at or under the pointer is {:.0}", seen.number),
        format!("counted onwards from it, the pointer is {}", stands(&seen, "mark")),
        format!("the index is set to {set_to}"),
    ])
}

fn thermometer(question: &Question) -> String {
    let Some(seen) = question.against_scale().first().copied() else { return String::new() };
    let number = if seen.number < 0.0 {
        format!("minus {:.0}", seen.number.abs())
    } else {
        format!("{:.0}", seen.number)
    };
    sentences(&[
        "the marks are half a degree apart".to_owned(),
        format!("the nearest number at or under the end of the column is {number}"),
        format!("counted upwards from it, the column ends {}", stands(&seen, "mark")),
    ])
}

/// Looks that follow each other.
fn looks(question: &Question) -> String {
    let what = match question.asked() {
        Asked::PenAtRest => "the pen",
        _ => "the bottom of the meniscus",
    };
    let (unit, decimals) = match question.kind() {
        DrillKind::PenAtRest => ("divisions", 1),
        _ => ("in from zero", 2),
    };
    let mut lines = vec![format!("Looks at {what}, one after another:")];
    for (look, seen) in question.looks().iter().zip(question.against_scale()) {
        let half = if seen.midway { 0.5 } else { 0.0 };
        let counted = seen.number + (f64::from(seen.marks_past) + half) * seen.mark;
        lines.push(format!("  after {:.1} s  {counted:+.decimals$} {unit}", look.at_s));
    }
    lines.join("\n")
}

/// The drums of the meter.
fn meter(question: &Question) -> String {
    match drums(question).split_last() {
        Some((last, before)) => {
            let before: Vec<String> = before.iter().map(ToString::to_string).collect();
            format!(
                "The drums of the meter show {}; the last drum, which is set apart from the others, shows {last}.",
                before.join(" ")
            )
        }
        None => String::new(),
    }
}

/// The figures on the drums of the meter, the tenths last.
pub fn drums(question: &Question) -> Vec<u8> {
    let run = question.looks().first().and_then(|look| look.view.run.as_deref());
    let tenths = run.map_or(0.0, |run| (run.timer.meter_min * 10.0).round()) as u64;
    let figures = format!("{tenths:06}");
    figures.bytes().map(|figure| figure - b'0').collect()
}

/// Every certificate in the box.
fn certificates(question: &Question) -> String {
    let papers = question.papers();
    let said =
        question.looks().iter().map(|look| crate::say::look(&look.view, look.view.focus, &papers));
    said.collect::<Vec<_>>().join("\n\n")
}

/// The readings of a point.
fn point(sheet: &PointSheet) -> String {
    let PointSheet { pressure_mmhg, temperature_c, rise_in, fall_in, chart, standard, actual } =
        sheet;
    format!(
        "Station pressure {pressure_mmhg:.1} mmHg, temperature {temperature_c:.1} degrees Celsius\n\
         Left leg {rise_in:.2} in above zero, right leg {fall_in:.2} in below zero, chart {chart:.1} divisions\n\
         Certificate, standard conditions: slope {:.5}, intercept {:.5}\n\
         Certificate, actual conditions: slope {:.5}, intercept {:.5}",
        standard.slope, standard.intercept, actual.slope, actual.intercept
    )
}

/// The points of a line.
fn line(sheet: &LineSheet) -> String {
    let mut lines =
        vec!["  point  Qstd, m3/min  corrected chart  from the line, m3/min".to_owned()];
    for (at, point) in sheet.points.iter().enumerate() {
        lines.push(format!(
            "  {:>5}  {:>12.3}  {:>15.2}  {:>+21.3}",
            at + 1,
            point.flow_std_m3_min,
            point.chart_term,
            point.residual_m3_min
        ));
    }
    let line = &sheet.line;
    lines.push(format!(
        "Corrected chart reading = {:.3} x Qstd {:+.3}, r = {:.5}",
        line.slope, line.intercept, line.r
    ));
    lines.join("\n")
}
