//! An advice in words: what is to be done, and the sentences that do it. Every text of the advice stands
//! here; why it is done is said by its rule.

use content::advice::Deed;
use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::parts::Trip;
use sim_core::session::action::Action;
use sim_core::session::view::View;

use super::goal::Goal;
use super::next::Advice;
use crate::names::name;
use crate::parse::vocabulary::{PARTS, TRIPS};
use crate::prose::sentence;
use crate::say::{say_action, say_actions, say_field};

/// What stands in a sentence where a value of the trainee's own goes.
const GAP: &str = "...";

/// What is to be done, in a sentence or two.
pub fn step(view: &View, advice: &Advice) -> String {
    let words = match advice.goal {
        Goal::AsDone => return sentence(&sentences(view, advice).join(", then ")),
        Goal::Enter(field) => entry(field),
        Goal::WithAverages(field) => with_averages(field),
        Goal::WithoutAverages(field) => without_averages(field),
        Goal::RightCertificate(in_box) => {
            return format!(
                "Compare the heading, serial number and date of every certificate in the box ({in_box}). \
             Write down the one that belongs to this calibrator, is in date and is not a copy."
            );
        }
        Goal::FlowForPoint(point) => {
            return format!(
                "Turn the knob for point {}: space the flows evenly down to the lowest.",
                point.number()
            );
        }
        Goal::DisplayRead(point) => {
            return format!(
                "Point {}: tap the recorder until the pen is at rest, read the display and the pen, and \
                 write both down.",
                point.number()
            );
        }
        Goal::DisplayZeroed => {
            "With the tube off the tap, let the display settle, and press the zero key until it shows zero."
        }
        Goal::PlateIn(plate) => {
            return format!(
                "Put in the plate with {} holes, with the power off, and check for leaks again.",
                plate.holes()
            );
        }
        Goal::PointRead(point) => {
            return format!(
                "Point {}: tap the recorder until the pen is at rest, read both legs at eye level and the \
             pen, and write all three down.",
                point.number()
            );
        }
        Goal::PointCompleted(field) => return completed(field),
        Goal::CheckRead(reading) => {
            return format!(
                "Reading {} of the flow check: tap the recorder until the pen is at rest, read the pen and \
             both legs, and write all three down.",
                reading.number()
            );
        }
        Goal::Off(part) => return format!("Take the {} off.", name(PARTS, &part)),
        Goal::Back(part) => return format!("Put the {} back on the holder.", name(PARTS, &part)),
        Goal::PutAway(part) => return format!("Put the {} away in its case.", name(PARTS, &part)),
        Goal::TripperSet(trip) => {
            return format!("Set the {} tripper to its day and hour.", trip_name(trip));
        }
        Goal::TripperTight(trip) => {
            return format!("The {} tripper slips: tighten its screw.", trip_name(trip));
        }
        Goal::RunOver => "You are away from the site: let the hours pass.",
        Goal::OffInThunder => "Thunder: stop the blower, then leave the roof.",
        Goal::AwayFromThunder => "Thunder: leave the roof at once.",
        Goal::KnowTheSite => {
            "Look where you stand: the roof edge, the ladder, the sky. Then read the work order."
        }
        Goal::CalibratorSerial => {
            "Read the serial number on the calibrator's plate and write it down."
        }
        Goal::CertificateCopied => {
            "Copy the slope and the intercept for standard conditions, digit by digit."
        }
        Goal::ThermometerShaded => "Put the thermometer in its shaded screen and let it settle.",
        Goal::ThermometerAtRest => "Let the thermometer settle.",
        Goal::StationPressure => {
            "Read the barometer. Check what its index is set to, and write the station pressure down."
        }
        Goal::Isolated => "Unplug the sampler and keep its plug with you.",
        Goal::BlowerStopped => "Wait until the blower has stopped.",
        Goal::FrameOff => "Loosen the four nuts and lift the hold-down frame off.",
        Goal::FilterInEnvelope => "Take the filter out and put it in its envelope.",
        Goal::HolderGasket => "The holder has no gasket: fit the spare one, and report it.",
        Goal::CalibratorGasket => {
            "There is no gasket under the calibrator: fit the spare one, and report it."
        }
        Goal::AdapterOnGasket => "Look at the gasket on the holder, then put the adapter plate on.",
        Goal::WashersAbove => "Put every washer above the plate, and tighten the nuts again.",
        Goal::NutsTight => {
            "Tighten the four nuts a little at a time, opposite corners in turn, all equally tight."
        }
        Goal::CalibratorOut => {
            "Take the calibrator out of its case and look at the gasket under it."
        }
        Goal::CalibratorOn => "Put the calibrator on the adapter plate.",
        Goal::Plumb => "Bring the manometer plumb.",
        Goal::FilledAnew => {
            "Fill the manometer anew in the van: with antifreeze in frost, and then multiply both legs \
             together by its relative density; otherwise with clean water."
        }
        Goal::ToppedUp => "Top the manometer up to its fill mark, and zero it again.",
        Goal::Zeroed => {
            "Blow gently into the tube and see the water move in both legs. When it is at rest, read \
             both legs, and slide the scale until both read zero."
        }
        Goal::ZeroedAndJoined => "Both legs read zero: push the tube onto the pressure tap.",
        Goal::Joined => "Push the tube onto the pressure tap.",
        Goal::BlowerOnLine => {
            "Plug the blower into the switched mains outlet, so that the flow controller does not regulate \
             it."
        }
        Goal::KnobOpenFirst => "Start with the knob fully open.",
        Goal::BlowerAtSpeed => "Start the blower and let it run up to speed.",
        Goal::PenRisen => "Let the pen rise.",
        Goal::LeakChecked => {
            "Check for leaks: shut the manometer's valves, cover the openings, listen around the holder, watch the pen fall to its \
             zero, and uncover the openings within 30 s."
        }
        Goal::Warm => "Let the blower run for five minutes before the first point.",
        Goal::ChartMarked => "Mark the chart beside the trace with the number of the point.",
        Goal::FlowSettled => "Let the flow settle for two minutes, and read nothing until then.",
        Goal::BlowerOffAfterPoints => "All points are taken: stop the blower.",
        Goal::AdapterOverFilter => "Put the adapter plate over the filter.",
        Goal::RoomForFilter => {
            "The flow is checked with a filter in place: pull the tube off and make room for the filter."
        }
        Goal::FreshFilter => "Take a fresh filter, by its edges.",
        Goal::FilterInspected => "Hold the filter up to the light and look for holes.",
        Goal::FilterOnHolder => "Lay the filter on the holder.",
        Goal::CheckedAsItRuns => {
            "The sampler is checked as it runs: plug the blower into the flow controller."
        }
        Goal::CheckFilterOut => "Take out the filter that was used for the flow check.",
        Goal::FilterRefused => "This filter cannot be used: put it back and take another.",
        Goal::RoughSideUp => "Turn the rough side of the filter up.",
        Goal::FilterCentred => "The filter lies off centre: centre it while the frame is off.",
        Goal::FrameOnFilter => "Lay the hold-down frame on the filter.",
        Goal::FilterAdded => {
            "Test the controller: lay another clean filter on the one on the holder."
        }
        Goal::AddedFilterOff => "Take the added filter off again.",
        Goal::BlowerOnController => "Plug the blower into the flow controller.",
        Goal::WarmOnController => "Let the blower run for five minutes on its flow controller.",
        Goal::PenTappedAndRead => "Tap the recorder until the pen is at rest, then read the pen.",
        Goal::ControllerAtRest => "Let the flow controller settle.",
        Goal::AtSetPoint => {
            "Turn the controller's trim screw until the tapped pen reads the set point."
        }
        Goal::AtOrderedFlow => {
            "Turn the controller's trim screw until the flow by the standard is the ordered one."
        }
        Goal::OffForTimer => "Stop the blower before you set the timer.",
        Goal::DialSet => "Set the timer's dial to the time on your watch.",
        Goal::DialPowered => "Plug the sampler in: without mains the dial does not turn.",
        Goal::TimerInCharge => "Set the timer to auto, so that it runs the blower.",
        Goal::FreshChart => "Fit a fresh chart, with the pen lifted.",
        Goal::PenOnPaper => "Set the pen on the paper.",
        Goal::SiteLeft => "Everything is ready: leave the site for the run.",
        Goal::ChartKept => "Take the chart off and keep it.",
        Goal::EndReading => {
            "Lower the pen, run the blower for five minutes, tap the recorder and read the pen."
        }
        Goal::SampleRecovered => {
            "Take the filter out by its edges, fold it with the dirty side in, and put it in its envelope."
        }
        Goal::Signed => "Everything is done: sign the field book.",
    };
    words.to_owned()
}

/// A value that goes into a field: how it is come by.
const fn entry(field: Field) -> &'static str {
    match field {
        Field::Temperature => "Read the thermometer in the shade and write the temperature down.",
        Field::CheckTemperature => "Read the thermometer again for the flow check.",
        Field::CheckPressure => "Read the barometer again for the flow check.",
        Field::DeltaH(_) => {
            "Add both legs of the point. A fluid other than water counts with its relative density."
        }
        Field::PointFlow(_) => {
            "Work out the flow of each point: (sqrt(dH P/760 298/T) - intercept)/slope."
        }
        Field::ChartTerm(_) => {
            "Work out the corrected chart reading of each point: I sqrt(P/760 298/T)."
        }
        Field::Expression => "Write down which expression the corrected chart reading uses.",
        Field::Slope | Field::Intercept | Field::Correlation => {
            "Fit the calibration line: the corrected chart readings over the flows."
        }
        Field::Decision => {
            "Compare the calibration line with the last one and with its limits, and accept or refuse it."
        }
        Field::TargetFlow => "Write down the flow that the work order asks for.",
        Field::SetPoint => {
            "Work out the chart reading for that flow, at the pressure and temperature of the run."
        }
        Field::CheckFlow => {
            "Work out the flow by the standard, the mean of the readings: \
             (sqrt(dH P/760 298/T) - intercept)/slope."
        }
        Field::CheckLineFlow => {
            "Work out the flow that the calibration line gives for the pen, the mean of the readings."
        }
        Field::CheckDifference => {
            "Work out by how many percent the flow from the calibration line, or the ordered flow where no \
             line is checked, is above the flow by the standard."
        }
        Field::CheckOutcome => {
            "Compare the difference with the limit on the work order. Within it the check has passed; \
             otherwise write what follows."
        }
        Field::HistoryPoint => {
            "Enter the percent difference of today's check on the sampler's control chart."
        }
        Field::HistoryReading => {
            "Read the control chart in the sampler's history: is the last point beyond an action limit, \
             are two of the last three beyond the same warning limit, or do six in a row rise or fall? \
             Write whether it is in control, or shows a drift, a jump or a point out of limits, and what \
             follows."
        }
        Field::FilterNumber | Field::NextFilterNumber => "Write down the number of the filter.",
        Field::MeterBefore => "Write down the reading of the elapsed-time meter.",
        Field::MeterAfter => "Read the elapsed-time meter before anything runs.",
        Field::StartChart => "Write down where the pen stands.",
        Field::SecondFilterChart => "Write down where the pen stands with the second filter.",
        Field::ThirdFilterChart => "Write down where the pen stands with the third filter.",
        Field::SecondFilterChange | Field::ThirdFilterChange => {
            "Work out by how many percent the flow from the calibration line changed since the start \
             reading."
        }
        Field::FiltersHeld => {
            "Compare the changes with the limit on the work order, and write with how many filters the \
             flow is held: 1, 2 or 3."
        }
        Field::EndChart => "Write down where the pen stands at the end of the run.",
        Field::Custody => "Write down who has the sample: the chain of custody.",
        Field::RunMinutes => "Subtract the meter reading before the run from the one after it.",
        Field::MeanChart => "Read the trace on the recorder hour by hour and take the mean.",
        Field::RunPressure => "Take the mean pressure of the run from the weather sheet.",
        Field::RunTemperature => "Take the mean temperature of the run from the weather sheet.",
        Field::RunFlow => {
            "Work out the mean flow of the run: (I sqrt(P/760 298/T) - intercept)/slope."
        }
        Field::Volume => "Work out the volume: the mean flow times the minutes.",
        Field::Concentration => {
            "Look at the filter for its masses and work out the concentration: (W2 - W1) 10^6 / V, in \
             grams and m3."
        }
        Field::Validity => {
            "Decide whether the sample is valid: 1380 to 1500 min, 1.1 to 1.7 m3/min, a sound filter."
        }
        Field::Pressure
        | Field::CalibratorSerial
        | Field::CertificateSerial
        | Field::CertificateDate
        | Field::CertificateSlope
        | Field::CertificateIntercept
        | Field::Up(_)
        | Field::Down(_)
        | Field::Chart(_)
        | Field::CheckUp(_)
        | Field::CheckDown(_)
        | Field::CheckChart(_)
        | Field::PartChart(_)
        | Field::PartMinutes(_)
        | Field::Remarks => "Write the value down.",
    }
}

/// The same where the averages Pa, Ta of the order are built into the line.
const fn with_averages(field: Field) -> &'static str {
    match field {
        Field::ChartTerm(_) => {
            "Work out the corrected chart reading of each point with the averages Pa, Ta of the order \
             built in: I sqrt(P/Pa Ta/T)."
        }
        Field::SetPoint => {
            "Work out the chart reading for that flow: slope times flow plus intercept. The averages are \
             built into the line, so that no pressure and temperature are needed."
        }
        Field::RunFlow => {
            "Work out the mean flow of the run: (I - intercept)/slope. The averages are built into the \
             line, so that no pressure and temperature are needed."
        }
        _ => entry(field),
    }
}

/// The same where the day is too far from the averages of the order.
const fn without_averages(field: Field) -> &'static str {
    match field {
        Field::ChartTerm(_) => {
            "The day is more than 60 mmHg or 15 degrees Celsius from the averages of the order: work \
             out the corrected chart reading of each point without them, I sqrt(P/760 298/T), and say \
             so in the remarks."
        }
        _ => entry(field),
    }
}

/// The one value that a point lacks.
fn completed(field: Field) -> String {
    let (point, what) = match field {
        Field::Up(point) => (point, "the leg that went up"),
        Field::Down(point) => (point, "the leg that went down"),
        Field::Chart(point) => (point, "the chart reading"),
        _ => return entry(field).to_owned(),
    };
    format!("Point {} lacks {what}: read it and write it down.", point.number())
}

fn trip_name(trip: Trip) -> &'static str {
    name(TRIPS, &trip)
}

/// The sentences that do it, as they are said to the program; `GAP` stands where a value of the
/// trainee's own goes.
pub fn sentences(view: &View, advice: &Advice) -> Vec<String> {
    let mut said = Vec::new();
    let mut rest = advice.deeds.as_slice();
    while let Some((first, behind)) = rest.split_first() {
        rest = match first {
            Deed::Do(_) => {
                let actions: Vec<Action> = actions(rest);
                said.extend(say_actions(view, &actions));
                rest.get(actions.len()..).unwrap_or_default()
            }
            Deed::Wait(seconds) => {
                said.push(say_action(&Action::Wait { seconds: *seconds }));
                behind
            }
            Deed::Write(Field::Up(point)) if whole_point(rest, *point) => {
                said.push(format!("write point {} {GAP} {GAP} {GAP}", point.number()));
                rest.get(3..).unwrap_or_default()
            }
            Deed::Write(field) => {
                said.push(format!("write {} {GAP}", say_field(*field)));
                behind
            }
        };
    }
    said
}

/// The actions with which deeds begin.
fn actions(deeds: &[Deed]) -> Vec<Action> {
    let actions = deeds.iter().map_while(|deed| match deed {
        Deed::Do(action) => Some(action.clone()),
        Deed::Wait(_) | Deed::Write(_) => None,
    });
    actions.collect()
}

/// Whether deeds begin with the three values of a point.
fn whole_point(deeds: &[Deed], point: PointNumber) -> bool {
    let whole = [Field::Up(point), Field::Down(point), Field::Chart(point)].map(Deed::Write);
    deeds.starts_with(&whole)
}
