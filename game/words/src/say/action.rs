//! An action as the sentence that asks for it: `parse` gives the same action back.

use sim_core::control_chart::ChartReading;
use sim_core::field_book::{Field, number_as_written};
use sim_core::rig::parts::{AirOpening, BlowerPlug, LineCare};
use sim_core::session::action::{
    Action, Decision, FaultReport, Sight, Struck, SuspectedCause, TickMark,
};

use crate::names::name;
use crate::parse::causes::cause_name;
use crate::parse::sights::SIGHTS;
use crate::parse::typed::as_typed;
use crate::parse::vocabulary::{
    ASKS, EXPOSURES, FAULT_PLACES, FIELDS, FLUIDS, GASKETS, GRIPS, LEGS, ON_OFF, PARTS, PLACES,
    PLUGS, REFERENCES, RESPONSES, SEATS, SIDES, TIMER, TRIPS, WEEKDAYS,
};

/// Says an action in the words that ask for it.
pub fn say_action(action: &Action) -> String {
    say_plain(action).map_or_else(|| say_filled(action), str::to_owned)
}

/// Actions with something to be filled in.
fn say_filled(action: &Action) -> String {
    match action {
        Action::Look { at, eye_mm } => look(*at, *eye_mm),
        Action::TurnNut { nut, quarter_turns } => {
            let (verb, count) = sense(f64::from(*quarter_turns), "tighten", "loosen");
            format!("{verb} nut {} by {count} quarter turns", nut.number())
        }
        Action::SetWasher { nut, seat } => {
            format!("put washer {} {} the plate", nut.number(), name(SEATS, seat))
        }
        Action::Take { part } => format!("take the {}", name(PARTS, part)),
        Action::Put { place } => format!("put it on the {}", name(PLACES, place)),
        Action::FitGasket { gasket } => format!("fit the {} gasket", name(GASKETS, gasket)),
        Action::TurnValve { leg, quarter_turns } => {
            let (verb, count) = sense(f64::from(*quarter_turns), "open", "shut");
            format!("{verb} the {} valve by {count} quarter turns", name(LEGS, leg))
        }
        Action::SlideScale { by_in } => {
            let (way, by) = sense(*by_in, "up", "down");
            format!("slide the scale {way} {by} in")
        }
        Action::SwingManometer { by_deg } => {
            let (way, by) = sense(*by_deg, "right", "left");
            format!("swing the manometer {way} {by} degrees")
        }
        Action::AddFluid { by_mm } => {
            let (verb, by) = sense(*by_mm, "add", "take out");
            format!("{verb} {by} mm of fluid")
        }
        Action::ChangeFluid { to } => format!("fill the manometer with {}", name(FLUIDS, to)),
        Action::PlugBlower { into: BlowerPlug::Loose } => "unplug the blower".to_owned(),
        Action::PlugBlower { into } => format!("plug the blower into the {}", name(PLUGS, into)),
        Action::SwitchLine { to } => format!("switch the mains outlet {}", name(ON_OFF, to)),
        Action::SwitchManometer { to } => format!("switch the manometer {}", name(ON_OFF, to)),
        Action::SwitchTimer { to } => format!("set the timer to {}", name(TIMER, to)),
        Action::TurnTrim { turns } => {
            let (way, by) = sense(*turns, "clockwise", "back");
            format!("turn the trim screw {way} {by} turns")
        }
        Action::TurnKnob { opening } => format!("turn the knob to {opening}"),
        Action::PutInPlate { plate } => {
            format!("put the plate with {} holes into the calibrator", plate.holes())
        }
        Action::TurnChart { minutes } => {
            let (way, by) = sense(*minutes, "forward", "back");
            format!("turn the chart {way} {by} min")
        }
        Action::SetPenZero { by } => {
            let (way, by) = sense(*by, "up", "down");
            format!("set the pen zero {way} {by} divisions")
        }
        Action::MarkChart { label } => format!("mark the chart \"{label}\""),
        Action::PlaceThermometer { at } => {
            format!("put the thermometer in the {}", name(EXPOSURES, at))
        }
        Action::SetBarometer { to } => format!("set the barometer to {}", name(REFERENCES, to)),
        Action::Write { field, text } => write(*field, text),
        Action::Strike { what: Struck::Point(number) } => {
            format!("strike point {}", number.number())
        }
        Action::Strike { what: Struck::Field(field) } => format!("strike {}", say_field(*field)),
        Action::Decide { decision, reason } => decide(*decision, reason),
        Action::Report(report) => say_report(report),
        Action::TakeFilter { grip } => format!("take the filter by its {}", name(GRIPS, grip)),
        Action::FoldFilter { out } => format!("fold the filter {} side out", name(SIDES, out)),
        Action::SetTripper { trip, weekday, hours } => {
            let (trip, day) = (name(TRIPS, trip), name(WEEKDAYS, weekday));
            format!("set the {trip} tripper to {day} at {}", clock(*hours))
        }
        Action::FastenTripper { trip } => format!("tighten the {} tripper", name(TRIPS, trip)),
        Action::SetDial { weekday, hours } => {
            format!("set the dial to {} at {}", name(WEEKDAYS, weekday), clock(*hours))
        }
        Action::MarkChecklist { item, to: TickMark::Ticked } => format!("tick {}", item.name()),
        Action::MarkChecklist { item, to: TickMark::Open } => format!("untick {}", item.name()),
        Action::AskHelp { topic } => format!("ask {}", name(ASKS, topic)),
        Action::Wait { seconds } => wait(*seconds),
        Action::Listen
        | Action::ReadInWords
        | Action::OpenLid
        | Action::CloseLid
        | Action::ConnectTube
        | Action::DisconnectTube
        | Action::StraightenTube
        | Action::DrainTube
        | Action::BlowThrough
        | Action::PlugSampler
        | Action::UnplugSampler
        | Action::BlockOpenings
        | Action::FreeOpenings
        | Action::OpenDoor
        | Action::CloseDoor
        | Action::UncapPen
        | Action::CapPen
        | Action::LowerPen
        | Action::LiftPen
        | Action::FitChart
        | Action::Tap
        | Action::HoldToLight
        | Action::TurnFilter
        | Action::CentreFilter
        | Action::AddFilter
        | Action::RemoveAddedFilter
        | Action::TakeChart
        | Action::TakeOutPlate
        | Action::ZeroManometer
        | Action::ChangeBattery
        | Action::LeaveSite
        | Action::LeaveRoof
        | Action::Sign
        | Action::ClearOpening { .. }
        | Action::TendRecorderLine { .. }
        | Action::ResetOutlet
        | Action::ChangeCord
        | Action::ChangeBrushes => String::new(),
    }
}

/// Actions that have nothing to be filled in.
const fn say_plain(action: &Action) -> Option<&'static str> {
    Some(match action {
        Action::TakeOutPlate => "take the plate out of the calibrator",
        Action::ZeroManometer => "press the zero key",
        Action::ChangeBattery => "change the battery",
        Action::Listen => "listen",
        Action::ReadInWords => "have it read out",
        Action::OpenLid => "open the lid",
        Action::CloseLid => "close the lid",
        Action::ConnectTube => "connect the tube",
        Action::DisconnectTube => "disconnect the tube",
        Action::StraightenTube => "straighten the tube",
        Action::DrainTube => "drain the tube",
        Action::BlowThrough => "blow through the tube",
        Action::PlugSampler => "plug in the sampler",
        Action::UnplugSampler => "unplug the sampler",
        Action::BlockOpenings => "cover the openings",
        Action::FreeOpenings => "uncover the openings",
        Action::OpenDoor => "open the recorder door",
        Action::CloseDoor => "close the recorder door",
        Action::UncapPen => "uncap the pen",
        Action::CapPen => "cap the pen",
        Action::LowerPen => "lower the pen",
        Action::LiftPen => "lift the pen",
        Action::FitChart => "fit a fresh chart",
        Action::Tap => "tap",
        Action::HoldToLight => "hold the filter to the light",
        Action::TurnFilter => "turn the filter over",
        Action::CentreFilter => "centre the filter",
        Action::AddFilter => "add another filter",
        Action::RemoveAddedFilter => "take the added filter off",
        Action::TakeChart => "take the chart off",
        Action::LeaveSite => "leave the site",
        Action::LeaveRoof => "leave the roof",
        Action::Sign => "sign",
        Action::ClearOpening { opening: AirOpening::Inlet } => "clear the inlet",
        Action::ClearOpening { opening: AirOpening::Exhaust } => "clear the exhaust",
        Action::TendRecorderLine { how: LineCare::PushOn } => {
            "push the recorder tubing onto its fitting"
        }
        Action::TendRecorderLine { how: LineCare::Straighten } => "straighten the recorder tubing",
        Action::TendRecorderLine { how: LineCare::Drain } => "drain the recorder tubing",
        Action::TendRecorderLine { how: LineCare::Renew } => "fit new recorder tubing",
        Action::ResetOutlet => "press the reset button",
        Action::ChangeCord => "change the cord",
        Action::ChangeBrushes => "change the brushes",
        _ => return None,
    })
}

/// A signed quantity as a direction and a size.
fn sense(value: f64, more: &'static str, less: &'static str) -> (&'static str, f64) {
    if value < 0.0 { (less, -value) } else { (more, value.abs()) }
}

/// Looking, with the height of the eye when it is off level.
fn look(at: Sight, eye_mm: f64) -> String {
    let what = match at {
        Sight::Certificate(index) => format!("certificate {}", u16::from(index) + 1),
        at => format!("the {}", name(SIGHTS, &at)),
    };
    if eye_mm == 0.0 {
        return format!("look at {what}");
    }
    let (way, height) = sense(eye_mm, "above", "below");
    format!("look at {what} from {height} mm {way}")
}

/// A decision, with its reason.
fn decide(decision: Decision, reason: &str) -> String {
    let stated = match decision {
        Decision::CalibrationAccepted { line_moved: false } => {
            "accept the calibration line".to_owned()
        }
        Decision::CalibrationAccepted { line_moved: true } => {
            "accept the moved calibration line".to_owned()
        }
        Decision::CalibrationRefused => "refuse the calibration line".to_owned(),
        Decision::CheckPassed => "call the check passed".to_owned(),
        Decision::CheckFailed { calibrate_again, not_valid_since } => {
            let again = if calibrate_again { ", calibrate again" } else { "" };
            let since =
                not_valid_since.map_or(String::new(), |date| format!(", not valid since {date}"));
            format!("call the check failed{again}{since}")
        }
        Decision::SampleValid => "call the sample valid".to_owned(),
        Decision::SampleNotValid => "call the sample not valid".to_owned(),
        Decision::HistoryRead { shows, calibrate_again, in_doubt_since } => {
            let shows = match shows {
                ChartReading::InControl => "in control",
                ChartReading::Drift => "a drift",
                ChartReading::Jump => "a jump",
                ChartReading::OutOfLimits => "out of limits",
            };
            let again = if calibrate_again { ", calibrate again" } else { "" };
            let since =
                in_doubt_since.map_or(String::new(), |date| format!(", in doubt since {date}"));
            format!("call the control chart {shows}{again}{since}")
        }
    };
    let moved = matches!(decision, Decision::CalibrationAccepted { line_moved: true });
    match reason {
        "" if moved || decision == Decision::CalibrationRefused => {
            format!("{stated} without a reason")
        }
        "" => stated,
        reason => format!("{stated} because \"{reason}\""),
    }
}

/// A report: what is suspected, what was seen, and what was done about it.
fn say_report(report: &FaultReport) -> String {
    let (place, response) = (name(FAULT_PLACES, &report.place), name(RESPONSES, &report.response));
    let cause = match &report.cause {
        SuspectedCause::Known(kind) => cause_name(*kind).to_owned(),
        SuspectedCause::NotKnownYet => format!("not known yet at the {place}"),
        SuspectedCause::SomethingElse(what) => format!("something else at the {place} \"{what}\""),
    };
    match report.seen.as_str() {
        "" => format!("report {cause}, {response}"),
        seen => format!("report {cause} \"{seen}\" {response}"),
    }
}

/// What is looked at, in words without an article.
pub fn sight_name(at: Sight) -> String {
    match at {
        Sight::Certificate(number) => format!("certificate {}", u32::from(number) + 1),
        at => name(SIGHTS, &at).to_owned(),
    }
}

/// Writing; text that could be taken otherwise stands in quotation marks.
fn write(field: Field, text: &str) -> String {
    let place = say_field(field);
    let one_word = !text.contains(char::is_whitespace) || number_as_written(text).is_ok();
    let plain = text.starts_with(|c: char| c.is_ascii_digit() || c == '-')
        && one_word
        && text.trim() == text
        && as_typed(field, text) == text;
    if plain { format!("write {place} {text}") } else { format!("write {place} \"{text}\"") }
}

/// A field of the book in the words in which it is asked for.
pub fn say_field(field: Field) -> String {
    match field {
        Field::Up(point) => format!("point {} up", point.number()),
        Field::Down(point) => format!("point {} down", point.number()),
        Field::DeltaH(point) => format!("point {} sum", point.number()),
        Field::Chart(point) => format!("point {} chart", point.number()),
        Field::PointFlow(point) => format!("point {} flow", point.number()),
        Field::ChartTerm(point) => format!("point {} corrected chart reading", point.number()),
        Field::PartChart(part) => format!("part {} chart", part.number()),
        Field::PartMinutes(part) => format!("part {} minutes", part.number()),
        Field::CheckUp(reading) => format!("check {} up", reading.number()),
        Field::CheckDown(reading) => format!("check {} down", reading.number()),
        Field::CheckChart(reading) => format!("check {} chart", reading.number()),
        field => name(FIELDS, &field).to_owned(),
    }
}

/// Waiting, in minutes where they are whole.
fn wait(seconds: f64) -> String {
    let minutes = seconds / 60.0;
    if minutes >= 1.0 && minutes.fract() == 0.0 && (minutes * 60.0).to_bits() == seconds.to_bits() {
        format!("wait {minutes} min")
    } else {
        format!("wait {seconds} s")
    }
}

/// An hour of the day, as a clock where whole minutes say it exactly.
fn clock(hours: f64) -> String {
    let minutes = (hours * 60.0).round();
    let (hour, minute) = ((minutes / 60.0).floor(), minutes.rem_euclid(60.0));
    let same = (hour + minute / 60.0).to_bits() == hours.to_bits();
    if same { format!("{hour:.0}:{minute:02.0}") } else { format!("{hours} h") }
}
