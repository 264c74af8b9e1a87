//! Who does what is advised comes to the end of the work.

use content::advice::Deed;
use sim_core::calibration::{AirConditions, Expression, RecorderScale};
use sim_core::field_book::{Decision, Field};
use sim_core::operator::{self, Observation, Operator, OperatorStep, by_name, rehearse};
use sim_core::procedure;
use sim_core::rig::manometer::electronic::Shown;
use sim_core::rig::parts::Leg;
use sim_core::session::Session;
use sim_core::session::action::{Action, Sight};
use sim_core::session::journal::NullSink;

use super::goal::Goal;
use super::history::History;
use super::next::Advice;
use super::{say, what_now, why};
use crate::own_sums::own_sums;
use crate::parse::parse;
use crate::request::Request;

const CLEAN: &str = include_str!("../../../../scenarios/01_first_calibration.ron");
const RUN: &str = include_str!("../../../../scenarios/27_from_set_point_to_volume.ron");
const CHECK: &str = include_str!("../../../../scenarios/28_between_two_calibrations.ron");

const ONE_FLOW: &str = include_str!("../../../../scenarios/41_one_flow_only.ron");
const THIN_AIR: &str = include_str!("../../../../scenarios/40_the_ranger_station.ron");
const SEASON: &str = include_str!("../../../../scenarios/38_a_line_for_the_season.ron");
const PLATES: &str = include_str!("../../../../scenarios/34_five_plates.ron");
const DISPLAY: &str = include_str!("../../../../scenarios/35_no_water_in_it.ron");

const ONE_ON: &str = include_str!("../../../../scenarios/31_one_in_one_on.ron");

/// What somebody writes into a field; readings are those of the view.
fn value(field: Field, session: &Session) -> String {
    let view = session.view().at_eye_resolution();
    let papers = session.papers();
    let paper = &papers.certificates[0];
    let run = || view.run.as_ref().expect("a run is ordered");
    let pen = || view.recorder.pen.expect("uncapped").to_string();
    let leg = |field| session.book().number(field).expect("a leg");
    let (left, right) = (view.manometer.left.meniscus_in, view.manometer.right.meniscus_in);
    let line = || {
        own_sums(session.book(), session.papers().work_order.averages)
            .expect("the points are taken")
    };
    match field {
        Field::CalibratorSerial => view.calibrator.serial.clone().expect("the plate is in focus"),
        Field::CertificateSerial => paper.serial.clone(),
        Field::CertificateDate => paper.date.to_string(),
        Field::CertificateSlope => paper.standard.slope.to_string(),
        Field::CertificateIntercept => paper.standard.intercept.to_string(),
        Field::Temperature | Field::CheckTemperature => view.thermometer.column_c.to_string(),
        Field::Pressure | Field::CheckPressure => view.barometer.pointer_mmhg.to_string(),
        Field::Decision => "accepted".to_owned(),
        Field::TargetFlow => format!("{:.3}", papers.work_order.target_flow_std_m3_min),
        Field::SetPoint => set_point(session),
        Field::FilterNumber | Field::NextFilterNumber => {
            run().filter.number.clone().expect("a number on its edge")
        }
        Field::CheckOutcome => "passed".to_owned(),
        Field::Validity => "valid".to_owned(),
        Field::Custody => "to the laboratory with the sampler".to_owned(),
        Field::MeterBefore | Field::MeterAfter => format!("{:.1}", run().timer.meter_min),
        Field::Chart(_)
        | Field::CheckChart(_)
        | Field::StartChart
        | Field::SecondFilterChart
        | Field::ThirdFilterChart
        | Field::EndChart => pen(),
        Field::Up(_) | Field::CheckUp(_) => format!("{:.2}", left.abs()),
        Field::Down(_) | Field::CheckDown(_) => format!("{:.2}", right.abs()),
        Field::DeltaH(_) if view.manometer.display.is_some() => {
            match view.manometer.display.map(|display| display.shows) {
                Some(Shown::Reading(reading_in)) => format!("{reading_in:.2}"),
                other => panic!("{other:?} instead of a reading"),
            }
        }
        Field::DeltaH(point) => {
            format!("{:.2}", leg(Field::Up(point)) + leg(Field::Down(point)))
        }
        Field::Slope => format!("{:.4}", line().slope),
        Field::Intercept => format!("{:.4}", line().intercept),
        Field::Correlation => format!("{:.4}", line().correlation),
        _ => "1".to_owned(),
    }
}

/// The chart reading for the ordered flow by the line in the book.
fn set_point(session: &Session) -> String {
    let papers = session.papers();
    let order = papers.work_order;
    let sums = own_sums(session.book(), session.papers().work_order.averages)
        .expect("the points are taken");
    let air =
        AirConditions::as_read(order.run_pressure_mmhg, order.run_temperature_c).expect("air");
    let term = sums.slope * order.target_flow_std_m3_min + sums.intercept;
    let plain = Expression::actual(RecorderScale::SquareRoot);
    let expression = order.averages.map_or(plain, |averages| averages.built_into(plain, air));
    format!("{:.1}", expression.chart_for(term, air).expect("a reading"))
}

/// What is advised in a session as it stands.
fn advised(session: &Session) -> Advice {
    let history = History::of(session.done());
    what_now(&session.view(), session.book(), &session.papers(), &history)
}

/// Does what is advised, and says it. The sentences ask for exactly what the advice gives.
fn follow(session: &mut Session, advice: &Advice) -> String {
    let (view, book) = (session.view(), session.book().clone());
    let sentences = say::sentences(&view, advice);
    let (mut done, mut values) = (Vec::new(), Vec::new());
    for deed in &advice.deeds {
        let action = match deed {
            Deed::Do(action) => action.clone(),
            Deed::Wait(seconds) => Action::Wait { seconds: *seconds },
            Deed::Write(field) => {
                let text = value(*field, session);
                values.push(text.clone());
                let reason = String::new();
                match field {
                    Field::Decision => {
                        let decision = Decision::CalibrationAccepted { line_moved: false };
                        Action::Decide { decision, reason }
                    }
                    Field::CheckOutcome => {
                        Action::Decide { decision: Decision::CheckPassed, reason }
                    }
                    Field::Validity => Action::Decide { decision: Decision::SampleValid, reason },
                    field => Action::Write { field: *field, text },
                }
            }
        };
        match &action {
            Action::Wait { seconds } => session.wait(*seconds).expect("time passes"),
            Action::LeaveSite => session.leave_site().expect("the site can be left"),
            action => session.act(action.clone()).unwrap_or_else(|error| {
                panic!("{sentences:?}: {error}");
            }),
        }
        done.push(action);
    }
    let mut said = sentences.join("; ");
    for text in &values {
        said = said.replacen("...", text, 1);
    }
    let asked: Vec<Action> = said
        .split("; ")
        .flat_map(|sentence| match parse(sentence, &view, &book) {
            Ok(Request::Do(actions)) => actions,
            Ok(Request::Wait(seconds)) => vec![Action::Wait { seconds }],
            other => panic!("{sentence}: {other:?}"),
        })
        .collect();
    assert_eq!(asked, done, "{said}");
    said
}

/// Does what is advised until the book is signed, and tells what was done.
fn followed(scenario: &str) -> (Session, Vec<String>) {
    followed_from(Session::begin(scenario, 1, Box::new(NullSink)).expect("a session"))
}

fn followed_from(mut session: Session) -> (Session, Vec<String>) {
    let mut last = Vec::new();
    while session.ended().is_none() && last.len() < 600 {
        let advice = advised(&session);
        let step = say::step(&session.view(), &advice);
        assert!(step.len() > 5 && step.ends_with('.'), "{advice:?}: {step}");
        assert!(advice.reason().is_some() && why(&advice).ends_with(')'), "{advice:?}");
        last.push(follow(&mut session, &advice));
        session.advance(100).expect("time passes");
    }
    let end = &last[last.len().saturating_sub(30)..];
    assert!(session.ended().is_some(), "{end:#?}");
    (session, last)
}

/// No finding but those of sums, whose gaps are filled with nonsense where they are not needed.
fn nothing_is_found(session: Session, last: &[String]) {
    let ended = sessions::mark_ended(session).expect("an end");
    let sums =
        [procedure::WorkPhase::Sums, procedure::WorkPhase::SetPoint, procedure::WorkPhase::Volume];
    let of_check = ["check-sums", "check-judged", "added-filters-sums"];
    let found = ended.marks.findings.iter();
    let found =
        found.filter(|found| !sums.contains(&found.phase) && !of_check.contains(&found.rule));
    let rules: Vec<_> = found.map(|finding| (finding.rule, &finding.evidence)).collect();
    assert!(rules.is_empty(), "{rules:#?}\n{last:#?}");
}

#[test]
fn who_follows_the_advice_gets_through() {
    let (session, last) = followed(CLEAN);
    let wanted = usize::from(session.papers().work_order.points);
    assert_eq!(session.book().points().len(), wanted);
    assert!(session.book().text(Field::SetPoint).is_some());
    nothing_is_found(session, &last);
}

#[test]
fn who_follows_the_advice_changes_plates() {
    let sound = PLATES
        .replace("(fault: NutLoose(nut: 3, leak_mm2: 18), onset: AtEvent(PlatePutIn(3))),", "");
    assert_ne!(sound, PLATES);
    let (session, last) = followed(&sound);
    assert_eq!(session.book().points().len(), 5);
    nothing_is_found(session, &last);
}

#[test]
fn who_follows_the_advice_reads_an_electronic_manometer() {
    let (session, last) = followed(DISPLAY);
    assert_eq!(session.book().points().len(), 7);
    assert!(last.iter().any(|said| said.contains("change the battery")), "{last:#?}");
    nothing_is_found(session, &last);
}

#[test]
fn who_follows_the_advice_makes_a_flow_check() {
    let (session, last) = followed(CHECK);
    assert_eq!(session.book().points().len(), 0);
    assert_eq!(session.book().text(Field::CheckOutcome), Some("passed"));
    nothing_is_found(session, &last);
}

#[test]
fn who_follows_the_advice_calibrates_at_one_flow() {
    let (session, last) = followed(ONE_FLOW);
    assert!(last.iter().any(|text| text.contains("trim")), "{last:#?}");
    nothing_is_found(session, &last);
}

#[test]
fn who_follows_the_advice_comes_back_with_a_sample() {
    let (session, last) = followed(RUN);
    assert_eq!(session.book().text(Field::CheckOutcome), Some("passed"));
    assert!(session.book().text(Field::Custody).is_some());
    nothing_is_found(session, &last);
}

#[test]
fn who_follows_the_advice_tests_the_controller() {
    let (session, last) = followed(THIN_AIR);
    assert!(session.book().text(Field::ThirdFilterChart).is_some());
    assert!(last.iter().any(|said| said == "add another filter"), "{last:#?}");
    nothing_is_found(session, &last);
}

#[test]
fn who_follows_the_advice_builds_the_averages_in() {
    let (session, last) = followed(SEASON);
    assert_eq!(session.book().text(Field::Expression), Some("I sqrt(P/Pa Ta/T)"));
    nothing_is_found(session, &last);
}

/// An operator who stops before signing.
struct Unsigned(Box<dyn Operator>);

impl Operator for Unsigned {
    fn next(&mut self, scene: &Observation<'_>) -> OperatorStep {
        match self.0.next(scene) {
            OperatorStep::Do(Action::Sign) => OperatorStep::Done,
            step => step,
        }
    }
}

#[test]
fn who_follows_the_advice_sets_up_the_next_run() {
    let mut session = Session::begin(ONE_ON, 1, Box::new(NullSink)).expect("a session");
    let not_set_up = by_name("leaves-next-run", 1).expect("an operator");
    assert!(rehearse(&mut session, &mut Unsigned(not_set_up)).is_err(), "nobody has signed");
    let (session, said) = followed_from(session);
    let ended = sessions::mark_ended(session).expect("an end");
    // A filter is taken by its edges and its number is what stands on it, as the advice says.
    let rules: Vec<_> = ended.marks.findings.iter().map(|finding| finding.rule).collect();
    assert_eq!(rules, [""; 0], "{said:#?}");
}

#[test]
fn advice_at_the_start_is_the_edge_and_then_the_papers() {
    let mut session = Session::begin(CLEAN, 1, Box::new(NullSink)).expect("a session");
    let now = |session: &Session| say::sentences(&session.view(), &advised(session));
    let site = ["look at the roof edge", "look at the sky", "look at the work order"];
    assert_eq!(now(&session), site);
    session.act(Action::Look { at: Sight::RoofEdge, eye_mm: 0.0 }).expect("a look");
    assert_eq!(now(&session), ["look at the calibrator", "write calibrator serial ..."]);
}

#[test]
fn who_watches_the_pen_already_is_told_to_watch_it_fall() {
    let mut session = Session::begin(CLEAN, 1, Box::new(NullSink)).expect("a session");
    let mut last = Vec::new();
    while advised(&session).goal != Goal::LeakChecked {
        let advice = advised(&session);
        last.push(follow(&mut session, &advice));
        session.advance(100).expect("time passes");
        assert!(last.len() < 100, "{last:#?}");
    }
    // The manometer is spared. The eyes are on the pen, the hand covers the openings, and the pen falls: nobody has listened.
    for leg in [Leg::Left, Leg::Right] {
        session.act(Action::TurnValve { leg, quarter_turns: -4 }).expect("the valve is shut");
    }
    session.act(Action::Look { at: Sight::Pen, eye_mm: 0.0 }).expect("a look");
    session.act(Action::BlockOpenings).expect("the openings are covered");
    session.wait(12.0).expect("time passes");
    assert!(session.view().recorder.pen.is_some_and(|pen| pen < 8.0), "the pen has fallen");
    let advice = advised(&session);
    assert_eq!(advice.deeds.first(), Some(&Deed::Do(Action::Listen)), "{advice:?}");
    let (session, last) = followed_from(session);
    nothing_is_found(session, &last);
}

#[test]
fn a_pen_that_does_not_fall_keeps_nobody_from_uncovering_the_openings() {
    let mut session = Session::begin(CLEAN, 1, Box::new(NullSink)).expect("a session");
    while advised(&session).goal != Goal::LeakChecked {
        let advice = advised(&session);
        follow(&mut session, &advice);
        session.advance(100).expect("time passes");
    }
    session.act(Action::BlockOpenings).expect("the openings are covered");
    session.act(Action::Listen).expect("somebody listens");
    session.wait(21.0).expect("time passes");
    let mut view = session.view();
    view.recorder.pen = Some(40.0);
    let history = History::of(session.done());
    let advice = what_now(&view, session.book(), &session.papers(), &history);
    assert_eq!(advice.deeds, [Deed::Do(Action::FreeOpenings)]);
}

/// The lessons that come with the program.
const LESSONS: [&str; 8] = [
    include_str!("../../../../scenarios/lessons/1_papers_in_the_lid.ron"),
    include_str!("../../../../scenarios/lessons/2_calibrator_on.ron"),
    include_str!("../../../../scenarios/lessons/3_hung_and_zeroed.ron"),
    include_str!("../../../../scenarios/lessons/4_warm_and_tight.ron"),
    include_str!("../../../../scenarios/lessons/5_seven_flows.ron"),
    include_str!("../../../../scenarios/lessons/6_from_points_to_line.ron"),
    include_str!("../../../../scenarios/lessons/7_away_until_morning.ron"),
    include_str!("../../../../scenarios/lessons/8_back_in_the_morning.ron"),
];

#[test]
fn who_follows_the_advice_gets_through_every_lesson_and_is_led_no_further() {
    for text in LESSONS {
        let session = operator::begin(text, 1, Box::new(NullSink)).expect("it begins");
        let phases = session.papers().terms.phases.expect("a lesson");
        let before = session.lesson_began().expect("it has begun").events;
        let (session, last) = followed_from(session);
        // Faults are found by eyes and ears, to which the advice only leads.
        let of_fault = ["gaskets-seated", "tube-clear", "certificate-current", "last-line"];
        let wanted = |action: &Action| !matches!(action, Action::Sign);
        assert!(session.done().skip(before).any(|(_, action)| wanted(action)), "{phases:?}");
        let ended = sessions::mark_ended(session).expect("an end");
        let sums = [procedure::WorkPhase::Sums, procedure::WorkPhase::SetPoint];
        let found = ended.marks.findings.iter().filter(|found| {
            !sums.contains(&found.phase)
                && found.phase != procedure::WorkPhase::Volume
                && found.rule != "added-filters-sums"
                && !of_fault.contains(&found.rule)
        });
        let rules: Vec<_> = found.map(|finding| (finding.rule, &finding.evidence)).collect();
        assert!(rules.is_empty(), "{phases:?}: {rules:#?}\n{last:#?}");
    }
}
