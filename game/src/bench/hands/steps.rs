//! What to do next, and why: help for those who ask. It looks at what can be seen and at what was
//! written, never at what is true.

use sim_core::field_book::{Field, FieldBook};
use sim_core::rig::parts::{BlowerPlug, Leg, Nut, Part, Place, TimerSwitch};
use sim_core::session::action::OnOff;
use sim_core::session::view::{NutFeel, View};

use super::Spot;

/// A step of the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Step {
    /// What to do.
    pub now: &'static str,
    /// Why it is done.
    pub why: &'static str,
    /// Where; `None` for the field book.
    pub at: Option<Spot>,
}

const fn step(at: Spot, now: &'static str, why: &'static str) -> Step {
    Step { now, why, at: Some(at) }
}

const fn page(now: &'static str, why: &'static str) -> Step {
    Step { now, why, at: None }
}

/// The next step of a calibration with so many points.
pub fn next_step(view: &View, book: &FieldBook, points: u8) -> Step {
    papers(book)
        .or_else(|| {
            if book.points().len() < usize::from(points) {
                strip(view).or_else(|| manometer(view)).or_else(|| power(view)).or(Some(POINT))
            } else {
                restore(view)
            }
        })
        .or_else(|| sums(book))
        .unwrap_or(SIGN)
}

const POINT: Step = step(
    Spot::Knob,
    "Take a point: set the knob (fully open first, a little closer each time), wait two minutes, \
     tap the recorder, mark the chart, read both legs and the pen, and write them down.",
    "Water and pen need time to settle, and a pen that was not tapped stands where it stuck.",
);
const SIGN: Step = page(
    "Write your remarks, look through the book once more, and sign it on the remarks page.",
    "What is not written was not done.",
);

fn papers(book: &FieldBook) -> Option<Step> {
    let missing = |field| book.text(field).is_none();
    let certificate = [
        Field::CalibratorSerial,
        Field::CertificateSerial,
        Field::CertificateDate,
        Field::CertificateSlope,
        Field::CertificateIntercept,
    ];
    if certificate.into_iter().any(missing) {
        return Some(step(
            Spot::Certificates,
            "Read the work order and the certificates, look at the calibrator's plate, and fill in \
             the certificate page: the pair at standard conditions of the certificate that has the \
             calibrator's own number and is not older than a year.",
            "Every flow that you work out stands on these two numbers.",
        ));
    }
    if [Field::Temperature, Field::Pressure].into_iter().any(missing) {
        return Some(step(
            Spot::Barometer,
            "Read the thermometer in the shade and the barometer at station pressure, and write \
             them on the air page.",
            "Flows are brought to standard conditions with them; pressure at sea level is not the \
             pressure here.",
        ));
    }
    None
}

fn strip(view: &View) -> Option<Step> {
    let at = |part, place| view.mounting.place(part) == place;
    if at(Part::Calibrator, Place::Adapter) {
        return None;
    }
    let off =
        |nut: &Nut| view.mounting.nuts.get(nut.index()).is_none_or(|n| n.feel == NutFeel::Off);
    let dead = "Hands go in only when the sampler is dead.";
    if view.power.timer_switch != TimerSwitch::Off {
        return Some(step(Spot::Timer, "Switch the timer off.", dead));
    }
    if view.power.sampler_cord_in {
        return Some(step(Spot::Cord, "Pull the sampler's plug out of the mains outlet.", dead));
    }
    if !view.mounting.lid_open {
        return Some(step(Spot::Lid, "Open the lid.", "The holder lies under it."));
    }
    if at(Part::Frame, Place::Holder) {
        return Some(match Nut::ALL.iter().find(|nut| !off(nut)) {
            Some(&nut) => step(
                Spot::Nut(nut),
                "Turn the four nuts off, opposite corners in turn.",
                "The frame must not be bent.",
            ),
            None => {
                step(Spot::Frame, "Take the frame off and lay it down.", "It holds the filter.")
            }
        });
    }
    if view.hand == Some(Part::Frame) {
        return Some(step(Spot::Ground, "Lay the frame on the roof.", "The hand holds one thing."));
    }
    if at(Part::Filter, Place::Holder) || view.hand == Some(Part::Filter) {
        return Some(step(
            Spot::Filter,
            "Take the filter out, by its edges, and put it into its envelope.",
            "The calibration is made without it, unless the work order says otherwise.",
        ));
    }
    if view.mounting.holder_gasket == Some(false) {
        return Some(step(
            Spot::Holder,
            "There is no gasket on the holder: fit one, and report it.",
            "Air that comes in beside the calibrator is not measured.",
        ));
    }
    if !at(Part::Adapter, Place::Holder) {
        return Some(step(
            Spot::Adapter,
            "Put the adapter plate on the holder.",
            "It takes the filter's place and carries the calibrator.",
        ));
    }
    if let Some(&nut) = Nut::ALL.iter().find(|nut| {
        !matches!(
            view.mounting.nuts.get(nut.index()).map(|nut| nut.feel),
            Some(NutFeel::Snug | NutFeel::Hard)
        )
    }) {
        return Some(step(
            Spot::Nut(nut),
            "Turn the four nuts down hand-tight, washers on top, opposite corners in turn.",
            "A plate that is not down evenly leaks.",
        ));
    }
    if view.mounting.calibrator_gasket == Some(false) {
        return Some(step(
            Spot::Holder,
            "There is no gasket for the calibrator: fit one, and report it.",
            "Air that comes in beside the calibrator is not measured.",
        ));
    }
    Some(step(
        Spot::Calibrator,
        "Put the calibrator on the adapter plate.",
        "All the air must go through it.",
    ))
}

fn manometer(view: &View) -> Option<Step> {
    let seen = &view.manometer;
    if view.mounting.place(Part::Manometer) != Place::Hook {
        return Some(step(
            Spot::Manometer,
            "Take the manometer out of the case and hang it on its hook.",
            "It reads the pressure across the calibrator.",
        ));
    }
    if seen.tilt_deg.abs() >= 0.25 {
        return Some(step(
            Spot::Manometer,
            "Swing the manometer until it hangs along the plumb line.",
            "Off plumb it reads too much.",
        ));
    }
    for (leg, open) in
        [(Leg::Left, seen.left.valve_quarters), (Leg::Right, seen.right.valve_quarters)]
    {
        if open < 4 {
            return Some(step(
                Spot::Valve(leg),
                "Open both valves fully.",
                "A valve that is shut holds the water where it stands.",
            ));
        }
    }
    if view.tube.on_tap {
        return None;
    }
    if seen.left.meniscus_in.abs() > 0.06 || seen.right.meniscus_in.abs() > 0.06 {
        return Some(step(
            Spot::Scale,
            "With the tube off, slide the scale until both legs stand at zero.",
            "Every reading is off by what the zero is off.",
        ));
    }
    Some(step(
        Spot::Tube,
        "Blow gently into the tube and see the water move; then push the tube onto the tap.",
        "Water that moves freely shows that nothing is blocked.",
    ))
}

fn power(view: &View) -> Option<Step> {
    let seen = &view.power;
    if seen.blower_plug != BlowerPlug::LineOutlet {
        return Some(step(
            Spot::BlowerPlug,
            "Take the blower's plug off the flow controller and put it into the line outlet.",
            "On its controller the motor holds the flow, whatever the knob does.",
        ));
    }
    if !view.recorder.door_open {
        return Some(step(Spot::Door, "Open the recorder's door.", "Pen and chart lie behind it."));
    }
    if view.recorder.capped || !view.recorder.on_paper {
        return Some(step(
            Spot::Pen,
            "Take the cap off the pen and lower it onto the paper.",
            "A capped pen shows nothing.",
        ));
    }
    if seen.line_switch == OnOff::Off {
        return Some(step(
            Spot::LineOutlet,
            "Switch the line outlet on, let the blower run for five minutes, and cover the \
             openings for a few seconds to listen for leaks.",
            "A cold blower still changes its speed.",
        ));
    }
    None
}

fn restore(view: &View) -> Option<Step> {
    let at = |part, place| view.mounting.place(part) == place;
    if view.power.line_switch == OnOff::On && view.power.blower_plug == BlowerPlug::LineOutlet {
        return Some(step(
            Spot::LineOutlet,
            "Switch the line outlet off.",
            "The points are taken.",
        ));
    }
    if view.power.blower_plug != BlowerPlug::Controller {
        return Some(step(
            Spot::BlowerPlug,
            "Put the blower's plug back on the flow controller.",
            "Otherwise the next run is made without control of the flow.",
        ));
    }
    if !view.recorder.capped && view.recorder.door_open {
        return Some(step(Spot::Pen, "Put the cap on the pen.", "It dries out."));
    }
    if view.tube.on_tap {
        return Some(step(Spot::Tube, "Pull the tube off the tap.", "It comes off first."));
    }
    if at(Part::Manometer, Place::Hook) {
        for (leg, open) in [
            (Leg::Left, view.manometer.left.valve_quarters),
            (Leg::Right, view.manometer.right.valve_quarters),
        ] {
            if open > 0 {
                return Some(step(Spot::Valve(leg), "Shut both valves.", "It is carried full."));
            }
        }
    }
    let packed = [
        (Part::Manometer, Spot::Manometer, "Put the manometer into the case."),
        (Part::Calibrator, Spot::Calibrator, "Put the calibrator into the case."),
        (Part::Adapter, Spot::Adapter, "Turn the nuts off and put the adapter plate away."),
    ];
    for (part, spot, now) in packed {
        if !at(part, Place::Case) {
            return Some(step(spot, now, "Nothing is left behind on a roof."));
        }
    }
    if !at(Part::Frame, Place::Holder) {
        return Some(step(
            Spot::Frame,
            "Put the frame back on the holder and turn its nuts down, washers on top.",
            "The sampler is left as it was found.",
        ));
    }
    if view.mounting.lid_open {
        return Some(step(Spot::Lid, "Close the lid.", "Rain."));
    }
    None
}

fn sums(book: &FieldBook) -> Option<Step> {
    let missing = |field| book.text(field).is_none();
    if [Field::Expression, Field::Slope, Field::Intercept, Field::Correlation]
        .into_iter()
        .any(missing)
    {
        return Some(page(
            "Work out the flow and the chart term of each point, fit the line, and write slope, \
             intercept and correlation on the line page.",
            "The line turns a chart reading into a flow.",
        ));
    }
    if [Field::TargetFlow, Field::SetPoint].into_iter().any(missing) {
        return Some(page(
            "Work out the chart reading for the target flow at the run's own conditions, and write \
             both on the set point page.",
            "It is what the next run is set to.",
        ));
    }
    if missing(Field::Decision) {
        return Some(page(
            "Judge the line: accept it, or refuse it and say why, on the remarks page.",
            "A leak shows in the intercept and not in the correlation.",
        ));
    }
    None
}
