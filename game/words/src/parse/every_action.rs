//! One action of each variant, for the tests.

use sim_core::control_chart::ChartReading;
use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::flow::plates::Plate;
use sim_core::rig::parts::{
    AirOpening, BlowerPlug, FilterSide, Gasket, GaugeFluid, Grip, Leg, LineCare, Nut, PartPlace,
    RigPart, TimerSwitch, Trip,
};
use sim_core::session::action::{
    Action, BarometerReference, ChecklistItem, Decision, Exposure, FaultKind, FaultPlace,
    FaultReport, HelpTopic, OnOff, Response, Sight, Struck, SuspectedCause, TickMark, WasherSeat,
};
use sim_core::time::Date;

/// One action of each variant and of each value within it.
pub(super) fn every_action() -> Vec<Action> {
    let mut all = vec![
        Action::Listen,
        Action::ReadInWords,
        Action::OpenLid,
        Action::CloseLid,
        Action::ConnectTube,
        Action::DisconnectTube,
        Action::StraightenTube,
        Action::DrainTube,
        Action::BlowThrough,
        Action::PlugSampler,
        Action::UnplugSampler,
        Action::BlockOpenings,
        Action::FreeOpenings,
        Action::OpenDoor,
        Action::CloseDoor,
        Action::UncapPen,
        Action::CapPen,
        Action::LowerPen,
        Action::LiftPen,
        Action::FitChart,
        Action::Tap,
        Action::LeaveRoof,
        Action::Sign,
        Action::HoldToLight,
        Action::TurnFilter,
        Action::CentreFilter,
        Action::AddFilter,
        Action::RemoveAddedFilter,
        Action::TakeChart,
        Action::LeaveSite,
        Action::TakeOutPlate,
        Action::ZeroManometer,
        Action::ChangeBattery,
        Action::ResetOutlet,
        Action::ChangeCord,
        Action::ChangeBrushes,
    ];
    let marks = [TickMark::Ticked, TickMark::Open];
    all.extend(
        ChecklistItem::ALL
            .into_iter()
            .flat_map(|item| marks.map(|to| Action::MarkChecklist { item, to })),
    );
    let openings = [AirOpening::Inlet, AirOpening::Exhaust];
    all.extend(openings.map(|opening| Action::ClearOpening { opening }));
    let cares = [LineCare::PushOn, LineCare::Straighten, LineCare::Drain, LineCare::Renew];
    all.extend(cares.map(|how| Action::TendRecorderLine { how }));
    all.extend(every_report(""));
    all.extend(every_decision(""));
    all.extend(
        every_field().into_iter().map(|field| Action::Strike { what: Struck::Field(field) }),
    );
    all.extend(PointNumber::all().map(|point| Action::Strike { what: Struck::Point(point) }));
    all.extend([Grip::Edges, Grip::Face].map(|grip| Action::TakeFilter { grip }));
    all.extend([FilterSide::Rough, FilterSide::Smooth].map(|out| Action::FoldFilter { out }));
    for trip in [Trip::On, Trip::Off] {
        all.push(Action::FastenTripper { trip });
        for (weekday, hours) in (0..7).zip([0.0, 24.0, 8.25, 1.0 / 3.0, 7.1, 12.0, 23.999]) {
            all.push(Action::SetTripper { trip, weekday, hours });
            all.push(Action::SetDial { weekday, hours });
        }
    }
    for number in [-2.0, -0.1, 0.0, 1e-7, 0.30000000000000004, 1.0 / 3.0, 1.75] {
        all.extend([
            Action::Look { at: Sight::LeftLeg, eye_mm: number * 40.0 },
            Action::Look { at: Sight::Certificate(1), eye_mm: number * 40.0 },
            Action::SlideScale { by_in: number },
            Action::SwingManometer { by_deg: number },
            Action::AddFluid { by_mm: number },
            Action::TurnTrim { turns: number },
            Action::TurnChart { minutes: number * 100.0 },
            Action::SetPenZero { by: number },
        ]);
    }
    all.extend(GaugeFluid::ALL.map(|to| Action::ChangeFluid { to }));
    all.extend(Plate::ALL.map(|plate| Action::PutInPlate { plate }));
    for opening in [0.0, 0.07, 0.235, 1.0 / 3.0, 1.0] {
        all.push(Action::TurnKnob { opening });
    }
    for quarter_turns in [i8::MIN, -12, -4, -1, 0, 1, 4, 12, i8::MAX] {
        all.extend(Nut::ALL.map(|nut| Action::TurnNut { nut, quarter_turns }));
        all.extend([Leg::Left, Leg::Right].map(|leg| Action::TurnValve { leg, quarter_turns }));
    }
    let sights = [
        Sight::Station,
        Sight::WorkOrder,
        Sight::Certificate(0),
        Sight::Certificate(255),
        Sight::Sky,
        Sight::RoofEdge,
        Sight::Barometer,
        Sight::Thermometer,
        Sight::Holder,
        Sight::Filter,
        Sight::Calibrator,
        Sight::Tube,
        Sight::Manometer,
        Sight::LeftLeg,
        Sight::RightLeg,
        Sight::Recorder,
        Sight::Pen,
        Sight::Controller,
        Sight::Timer,
        Sight::Plugs,
        Sight::Blower,
        Sight::Watch,
        Sight::WeatherSheet,
        Sight::Display,
    ];
    all.extend(sights.map(|at| Action::Look { at, eye_mm: 0.0 }));
    for seat in [WasherSeat::Above, WasherSeat::Below] {
        all.extend(Nut::ALL.map(|nut| Action::SetWasher { nut, seat }));
    }
    all.extend(RigPart::ALL.map(|part| Action::Take { part }));
    let places = [
        PartPlace::Case,
        PartPlace::Ground,
        PartPlace::Hand,
        PartPlace::Holder,
        PartPlace::Adapter,
        PartPlace::Hook,
    ];
    all.extend(places.map(|place| Action::Put { place }));
    all.extend([Gasket::Holder, Gasket::Calibrator].map(|gasket| Action::FitGasket { gasket }));
    let plugs = [BlowerPlug::Controller, BlowerPlug::LineOutlet, BlowerPlug::Loose];
    all.extend(plugs.map(|into| Action::PlugBlower { into }));
    all.extend([OnOff::On, OnOff::Off].map(|to| Action::SwitchLine { to }));
    all.extend([OnOff::On, OnOff::Off].map(|to| Action::SwitchManometer { to }));
    let settings = [TimerSwitch::On, TimerSwitch::Off, TimerSwitch::Auto];
    all.extend(settings.map(|to| Action::SwitchTimer { to }));
    all.extend([Exposure::Shade, Exposure::Sun].map(|at| Action::PlaceThermometer { at }));
    let references = [BarometerReference::Station, BarometerReference::SeaLevel];
    all.extend(references.map(|to| Action::SetBarometer { to }));
    let topics =
        [HelpTopic::WhatNow, HelpTopic::Why, HelpTopic::ShowMe, HelpTopic::Sums, HelpTopic::Plot];
    all.extend(topics.map(|topic| Action::AskHelp { topic }));
    all.extend([0.0, 0.05, 90.0, 300.0, 61.3, 7200.0].map(|seconds| Action::Wait { seconds }));
    for text in texts() {
        all.push(Action::MarkChart { label: text.to_owned() });
        all.extend(
            every_field()
                .into_iter()
                .filter(|field| !field.is_decision())
                .map(|field| Action::Write { field, text: text.into() }),
        );
        all.extend(every_report(text));
        all.extend(every_decision(text));
    }
    all
}

/// Texts that a sentence could swallow.
fn texts() -> [&'static str; 16] {
    [
        "3.1",
        "-0.0123",
        "56 1/2",
        "2026-03-17",
        "",
        " ",
        "the valve leaks",
        "valve leaks,",
        "\"",
        "\"quoted\"",
        "21.5 C",
        "coefficient 3",
        "number 4711",
        "noted",
        "ß ½ 漢字 é",
        "7 please",
    ]
}

fn every_field() -> Vec<Field> {
    let mut fields = vec![
        Field::CalibratorSerial,
        Field::CertificateSerial,
        Field::CertificateDate,
        Field::CertificateSlope,
        Field::CertificateIntercept,
        Field::Temperature,
        Field::Pressure,
        Field::Expression,
        Field::Slope,
        Field::Intercept,
        Field::Correlation,
        Field::Decision,
        Field::TargetFlow,
        Field::SetPoint,
        Field::Remarks,
    ];
    fields.extend(Field::RUN);
    fields.push(Field::NextFilterNumber);
    fields.extend(Field::CHECK);
    fields.extend(Field::HISTORY);
    fields.extend(Field::ADDED_FILTERS);
    for point in PointNumber::all() {
        fields.extend([
            Field::Up(point),
            Field::Down(point),
            Field::DeltaH(point),
            Field::Chart(point),
            Field::PointFlow(point),
            Field::ChartTerm(point),
            Field::PartChart(point),
            Field::PartMinutes(point),
            Field::CheckUp(point),
            Field::CheckDown(point),
            Field::CheckChart(point),
        ]);
    }
    fields
}

fn every_report(words: &str) -> Vec<Action> {
    let responses = [Response::Repaired, Response::Corrected, Response::Rejected, Response::Noted];
    let each = |(place, cause): (FaultPlace, SuspectedCause)| {
        responses.map(|response| {
            let (cause, seen, shown_by) = (cause.clone(), words.to_owned(), Vec::new());
            Action::Report(FaultReport { place, cause, seen, shown_by, response })
        })
    };
    let known = FaultKind::ALL.iter().map(|kind| (kind.place(), SuspectedCause::Known(*kind)));
    let unknown = FaultPlace::ALL.map(|place| (place, SuspectedCause::NotKnownYet));
    let else_ = FaultPlace::ALL
        .map(|place| (place, SuspectedCause::SomethingElse("a nest in the exhaust".to_owned())));
    known.chain(unknown).chain(else_).flat_map(each).collect()
}

const fn history(
    shows: ChartReading,
    calibrate_again: bool,
    in_doubt_since: Option<Date>,
) -> Decision {
    Decision::HistoryRead { shows, calibrate_again, in_doubt_since }
}

fn every_decision(reason: &str) -> Vec<Action> {
    let since = Date::new(2026, 3, 2).ok();
    [
        Decision::CalibrationAccepted { line_moved: false },
        Decision::CalibrationAccepted { line_moved: true },
        Decision::CalibrationRefused,
        Decision::CheckPassed,
        Decision::CheckFailed { calibrate_again: false, not_valid_since: None },
        Decision::CheckFailed { calibrate_again: true, not_valid_since: None },
        Decision::CheckFailed { calibrate_again: true, not_valid_since: since },
        Decision::CheckFailed { calibrate_again: false, not_valid_since: since },
        Decision::SampleValid,
        Decision::SampleNotValid,
        history(ChartReading::InControl, false, None),
        history(ChartReading::Drift, true, None),
        history(ChartReading::Jump, true, since),
        history(ChartReading::Jump, false, since),
        history(ChartReading::OutOfLimits, false, None),
        history(ChartReading::OutOfLimits, true, None),
    ]
    .map(|decision| Action::Decide { decision, reason: reason.to_owned() })
    .into()
}
