//! Every sentence of the help and every action.

use content::names::weekday;
use content::sample;
use sim_core::field_book::{Field, FieldBook, PointNumber};
use sim_core::rig::flow::plates::Plate;
use sim_core::rig::parts::{BlowerPlug, Leg, Nut, PartPlace, RigPart};
use sim_core::session::action::{
    Action, Decision, FaultKind, FaultReport, HelpTopic, OnOff, Response, Sight, SuspectedCause,
};
use sim_core::time::Tick;

use super::every_action::every_action;
use super::not_understood::NotUnderstood;
use super::read::parse;
use super::said::{examples, said};
use super::vocabulary::WEEKDAYS;
use crate::names::name;
use crate::request::Request;
use crate::say::say_action;
use crate::topic::Topic;

fn point(number: u8) -> PointNumber {
    PointNumber::try_from(number).expect("a point")
}

fn nut(number: u8) -> Nut {
    Nut::try_from(number).expect("a nut")
}

fn accept(reason: &str) -> Action {
    let decision = Decision::CalibrationAccepted { line_moved: false };
    Action::Decide { decision, reason: reason.to_owned() }
}

fn refuse(reason: &str) -> Action {
    Action::Decide { decision: Decision::CalibrationRefused, reason: reason.to_owned() }
}

fn report(kind: FaultKind, seen: &str, response: Response) -> Action {
    let (place, cause) = (kind.place(), SuspectedCause::Known(kind));
    Action::Report(FaultReport { place, cause, seen: seen.to_owned(), shown_by: vec![], response })
}

/// The name of an action's variant, as it is written.
fn variant(action: &Action) -> String {
    let json = serde_json::to_string(action).expect("an action is written");
    json.trim_matches(['{', '"']).split('"').next().unwrap_or_default().to_owned()
}

/// Every variant's name, from the list that the parser of journals gives for a wrong one.
fn every_variant() -> Vec<String> {
    let error = serde_json::from_str::<Action>("\"none such\"").expect_err("no action").to_string();
    error.split('`').skip(3).step_by(2).map(str::to_owned).collect()
}

#[test]
fn every_action_is_said_and_read_back() {
    for action in every_action() {
        let sentence = say_action(&action);
        let expected = match &action {
            Action::Wait { seconds } => Request::Wait(*seconds),
            action => Request::Do(vec![action.clone()]),
        };
        assert_eq!(said(&sentence), Ok(expected), "{sentence}");
    }
}

#[test]
fn no_action_is_left_out() {
    let names: Vec<String> = every_action().iter().map(variant).collect();
    let variants = every_variant();
    assert!(variants.len() > 40, "{variants:?}");
    for name in variants {
        assert!(names.contains(&name), "no test of {name}");
    }
}

#[test]
fn every_variant_has_a_sentence_in_the_help() {
    let mut reached = Vec::new();
    for sentence in examples() {
        match said_anywhere(sentence) {
            Ok(Request::Do(actions)) => reached.extend(actions.iter().map(variant)),
            Ok(Request::Wait(_)) => reached.push("wait".to_owned()),
            Ok(_) => {}
            Err(error) => panic!("{sentence}: {error}"),
        }
    }
    for name in every_variant() {
        assert!(reached.contains(&name), "the help has no sentence for {name}");
    }
}

/// Reads a sentence on a bench where nothing is done yet or, where that is in the way, on one where
/// all is done.
fn said_anywhere(sentence: &str) -> Result<Request, NotUnderstood> {
    let mut loose = sample::view();
    for nut in &mut loose.mounting.nuts {
        nut.feel = sim_core::session::view::NutFeel::Free;
        nut.quarter_turns = 1;
    }
    loose.manometer.left.valve_quarters = 2;
    loose.manometer.right.valve_quarters = 2;
    said(sentence).or_else(|_| parse(sentence, &loose, &FieldBook::default()))
}

#[test]
fn sentences_mean_what_they_say() {
    let turn = |leg, quarter_turns| Action::TurnValve { leg, quarter_turns };
    let look = |at| Action::Look { at, eye_mm: 0.0 };
    let plate = |holes| Plate::try_from(holes).expect("it is in the set");
    let write = |field, text: &str| Action::Write { field, text: text.to_owned() };
    let table: Vec<(&str, Vec<Action>)> = vec![
        ("open left valve", vec![turn(Leg::Left, 4)]),
        ("  OPEN   the  Left valve. ", vec![turn(Leg::Left, 4)]),
        ("open both valves", vec![turn(Leg::Left, 4), turn(Leg::Right, 3)]),
        ("shut right valve", vec![turn(Leg::Right, -1)]),
        ("open left valve half a turn", vec![turn(Leg::Left, 2)]),
        ("look at manometer", vec![Action::Look { at: Sight::Manometer, eye_mm: 0.0 }]),
        ("read left leg from 1 cm below", vec![Action::Look { at: Sight::LeftLeg, eye_mm: -10.0 }]),
        ("raise eye 5mm", vec![Action::Look { at: Sight::LeftLeg, eye_mm: 5.0 }]),
        ("turn knob to 40%", vec![Action::TurnKnob { opening: 0.4 }]),
        ("turn the knob to 7 %", vec![Action::TurnKnob { opening: 0.07 }]),
        ("turn the knob to 40 per cent", vec![Action::TurnKnob { opening: 0.4 }]),
        ("turn knob to 0,4", vec![Action::TurnKnob { opening: 0.4 }]),
        ("close knob a little", vec![Action::TurnKnob { opening: 0.57 }]),
        ("open the knob a bit", vec![Action::TurnKnob { opening: 0.67 }]),
        ("close knob by 90 %", vec![Action::TurnKnob { opening: 0.0 }]),
        ("turn the manometer on", vec![Action::SwitchManometer { to: OnOff::On }]),
        ("switch off the gauge", vec![Action::SwitchManometer { to: OnOff::Off }]),
        ("press the zero button", vec![Action::ZeroManometer]),
        ("put in a fresh battery", vec![Action::ChangeBattery]),
        ("read the display", vec![look(Sight::Display)]),
        ("take the plate out of the calibrator", vec![Action::TakeOutPlate]),
        ("take out the plate with 18 holes", vec![Action::TakeOutPlate]),
        ("remove the 18 hole plate from the calibrator", vec![Action::TakeOutPlate]),
        ("put in the plate with 13 holes", vec![Action::PutInPlate { plate: plate(13) }]),
        (
            "put the 10 hole plate into the calibrator",
            vec![Action::PutInPlate { plate: plate(10) }],
        ),
        ("insert plate 7", vec![Action::PutInPlate { plate: plate(7) }]),
        (
            "put the plate on the holder",
            vec![Action::Take { part: RigPart::Adapter }, Action::Put { place: PartPlace::Holder }],
        ),
        ("take the calibrator", vec![Action::Take { part: RigPart::Calibrator }]),
        ("put it on the adapter", vec![Action::Put { place: PartPlace::Adapter }]),
        (
            "carry calibrator to adapter",
            vec![
                Action::Take { part: RigPart::Calibrator },
                Action::Put { place: PartPlace::Adapter },
            ],
        ),
        ("tighten nut two", vec![Action::TurnNut { nut: nut(2), quarter_turns: 4 }]),
        ("loosen nut 1", vec![Action::TurnNut { nut: nut(1), quarter_turns: -8 }]),
        (
            "loosen the four nuts",
            [1, 3, 2, 4]
                .map(|number| Action::TurnNut { nut: nut(number), quarter_turns: -8 })
                .to_vec(),
        ),
        ("slide scale up 0.1", vec![Action::SlideScale { by_in: 0.1 }]),
        ("swing manometer left 2°", vec![Action::SwingManometer { by_deg: -2.0 }]),
        ("push the tube onto the tap", vec![Action::ConnectTube]),
        ("pull tube off the tap", vec![Action::DisconnectTube]),
        (
            "plug the motor into the mains",
            vec![Action::PlugBlower { into: BlowerPlug::LineOutlet }],
        ),
        ("start the blower", vec![Action::SwitchLine { to: OnOff::On }]),
        ("pull the sampler’s cord", vec![Action::UnplugSampler]),
        ("tap three times", vec![Action::Tap, Action::Tap, Action::Tap]),
        ("tap twice", vec![Action::Tap, Action::Tap]),
        ("tap it 3 times", vec![Action::Tap, Action::Tap, Action::Tap]),
        (
            "mount calibrator",
            vec![
                Action::Take { part: RigPart::Calibrator },
                Action::Put { place: PartPlace::Adapter },
            ],
        ),
        ("look at the adapter", vec![Action::Look { at: Sight::Holder, eye_mm: 0.0 }]),
        ("look at left valve", vec![Action::Look { at: Sight::Manometer, eye_mm: 0.0 }]),
        ("look at nut 1", vec![Action::Look { at: Sight::Holder, eye_mm: 0.0 }]),
        ("look at papers", vec![Action::Look { at: Sight::WorkOrder, eye_mm: 0.0 }]),
        ("write date 2026-03-17", vec![write(Field::CertificateDate, "2026-03-17")]),
        ("mark chart \"1\"", vec![Action::MarkChart { label: "1".to_owned() }]),
        (
            "mark the chart start of Point A",
            vec![Action::MarkChart { label: "start of Point A".to_owned() }],
        ),
        ("turn chart back 1/2 h", vec![Action::TurnChart { minutes: -30.0 }]),
        (
            "write point 3.1 3.0 56 ½",
            vec![
                write(Field::Up(point(1)), "3.1"),
                write(Field::Down(point(1)), "3.0"),
                write(Field::Chart(point(1)), "56 ½"),
            ],
        ),
        (
            "write point 12: 3.1 in, 3.0 in, 47",
            vec![
                write(Field::Up(point(12)), "3.1"),
                write(Field::Down(point(12)), "3.0"),
                write(Field::Chart(point(12)), "47"),
            ],
        ),
        ("write point 2 up 3.1 in", vec![write(Field::Up(point(2)), "3.1")]),
        ("write chart of point 2 47", vec![write(Field::Chart(point(2)), "47")]),
        ("write temperature 21.5 °C", vec![write(Field::Temperature, "21.5")]),
        ("write slope 32.1", vec![write(Field::Slope, "32.1")]),
        ("write certificate slope 2.0", vec![write(Field::CertificateSlope, "2.0")]),
        ("write serial 1234A", vec![write(Field::CalibratorSerial, "1234A")]),
        ("write remarks The wind, it blows.", vec![write(Field::Remarks, "The wind, it blows.")]),
        ("accept", vec![accept("")]),
        ("accept it", vec![accept("")]),
        ("accept the line", vec![accept("")]),
        ("accept calibration", vec![accept("")]),
        ("accept the calibration line", vec![accept("")]),
        ("accept the calibration line because it is straight", vec![accept("it is straight")]),
        ("refuse calibration because it leaks", vec![refuse("it leaks")]),
        ("refuse because it leaks", vec![refuse("it leaks")]),
        (
            "report manometer valve leaks repaired",
            vec![report(FaultKind::ManometerValveLeaks, "", Response::Repaired)],
        ),
        (
            "report flow controller drifts, and not used",
            vec![report(FaultKind::ControllerDrifts, "", Response::Rejected)],
        ),
        ("take the hold-down frame", vec![Action::Take { part: RigPart::Frame }]),
        ("take the filter frame", vec![Action::Take { part: RigPart::Frame }]),
        ("take the frame", vec![Action::Take { part: RigPart::Frame }]),
        ("look at the hold-down frame", vec![look(Sight::Holder)]),
        ("open the left limb valve", vec![turn(Leg::Left, 4)]),
        ("open the valve on the right leg", vec![turn(Leg::Right, 3)]),
        ("read both limbs", vec![look(Sight::LeftLeg), look(Sight::RightLeg)]),
        ("read the right limb", vec![look(Sight::RightLeg)]),
        ("push the tubing onto the pressure tap", vec![Action::ConnectTube]),
        ("pull the tube off the pressure tap", vec![Action::DisconnectTube]),
        ("look at the pressure tap", vec![look(Sight::Tube)]),
        ("look at the elapsed-time meter", vec![look(Sight::Timer)]),
        ("read the meter", vec![look(Sight::Timer)]),
        ("write elapsed-time meter before 1234.5", vec![write(Field::MeterBefore, "1234.5")]),
        ("write meter before 1234.5 min", vec![write(Field::MeterBefore, "1234.5")]),
        ("write meter after 2674", vec![write(Field::MeterAfter, "2674")]),
        ("write chain of custody van 2", vec![write(Field::Custody, "van 2")]),
        ("write custody van 2", vec![write(Field::Custody, "van 2")]),
        ("write check difference 2.1 %", vec![write(Field::CheckDifference, "2.1")]),
        ("write percent difference 2.1", vec![write(Field::CheckDifference, "2.1")]),
        ("write check line flow 1.2", vec![write(Field::CheckLineFlow, "1.2")]),
        ("write check calibration line flow 1.2", vec![write(Field::CheckLineFlow, "1.2")]),
        ("write point 2 chart term 46.8", vec![write(Field::ChartTerm(point(2)), "46.8")]),
        (
            "write point 2 corrected chart reading 46.8",
            vec![write(Field::ChartTerm(point(2)), "46.8")],
        ),
        ("write point 2 corrected chart 46.8", vec![write(Field::ChartTerm(point(2)), "46.8")]),
        ("ask for sums", vec![Action::AskHelp { topic: HelpTopic::Sums }]),
        ("ask for calculations", vec![Action::AskHelp { topic: HelpTopic::Sums }]),
        ("switch line off", vec![Action::SwitchLine { to: OnOff::Off }]),
        ("switch off the line outlet", vec![Action::SwitchLine { to: OnOff::Off }]),
        (
            "plug the blower into the switched mains outlet",
            vec![Action::PlugBlower { into: BlowerPlug::LineOutlet }],
        ),
        ("plug blower into line", vec![Action::PlugBlower { into: BlowerPlug::LineOutlet }]),
        ("switch the mains outlet on", vec![Action::SwitchLine { to: OnOff::On }]),
        ("sign the book", vec![Action::Sign]),
        ("leave roof", vec![Action::LeaveRoof]),
    ];
    for (sentence, actions) in table {
        assert_eq!(said(sentence), Ok(Request::Do(actions)), "{sentence}");
    }
    for (sentence, request) in [
        ("wait 5 min", Request::Wait(300.0)),
        ("wait 1 h 30 min", Request::Wait(5400.0)),
        ("wait 30s", Request::Wait(30.0)),
        ("wait a minute", Request::Wait(60.0)),
        ("help report", Request::Help(Some(Topic::Reporting))),
        ("help quit", Request::Help(Some(Topic::Asking))),
        ("wait for half an hour", Request::Wait(1800.0)),
        ("help", Request::Help(None)),
        ("help manometer", Request::Help(Some(Topic::Manometer))),
        ("show the field book", Request::Book),
        ("show the history of the sampler", Request::History),
        ("checklist", Request::Checklist),
        ("look at the checklist", Request::Checklist),
        ("procedure at a glance", Request::Checklist),
        ("help checklist", Request::Help(Some(Topic::Checklist))),
        ("look at the control chart", Request::History),
        ("again", Request::Again),
        ("Quit!", Request::Quit),
    ] {
        assert_eq!(said(sentence), Ok(request), "{sentence}");
    }
}

#[test]
fn nuts_are_tightened_crosswise_in_two_rounds() {
    let Ok(Request::Do(actions)) = said_anywhere("tighten nuts") else { panic!("no actions") };
    let turned: Vec<(u8, i8)> = actions
        .iter()
        .filter_map(|action| match action {
            Action::TurnNut { nut, quarter_turns } => Some((nut.number(), *quarter_turns)),
            _ => None,
        })
        .collect();
    let expected = [(1, 4), (3, 4), (2, 4), (4, 4), (1, 3), (3, 3), (2, 3), (4, 3)];
    assert_eq!(turned, expected);
}

#[test]
fn points_go_to_the_next_free_one() {
    let mut book = FieldBook::default();
    let after = |book: &FieldBook| parse("write point 3.1 3.0 47", &sample::view(), book);
    book.write(Tick(0), Field::Chart(point(3)), "47");
    let Ok(Request::Do(actions)) = after(&book) else { panic!("no actions") };
    assert_eq!(
        actions.first(),
        Some(&Action::Write { field: Field::Up(point(4)), text: "3.1".to_owned() })
    );
    book.write(Tick(0), Field::Chart(point(12)), "47");
    assert!(matches!(after(&book), Err(NotUnderstood::Cannot(_))), "{:?}", after(&book));
}

#[test]
fn a_day_is_typed_by_the_name_that_is_shown() {
    for day in 0..7 {
        assert_eq!(name(WEEKDAYS, &day), weekday(day));
    }
}
