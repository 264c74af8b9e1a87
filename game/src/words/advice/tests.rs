//! Who does what is advised comes to the end of the work.

use sim_core::calibration::{AirConditions, Expression, RecorderScale};
use sim_core::field_book::Field;
use sim_core::operator::{Observation, Operator, OperatorStep, by_name, rehearse};
use sim_core::procedure;
use sim_core::session::Session;
use sim_core::session::action::{Action, Sight};
use sim_core::session::journal::NullSink;

use super::what_now;
use crate::words::own_sums::own_sums;
use crate::words::script;

const CLEAN: &str = include_str!("../../../../scenarios/01_first_calibration.ron");
const RUN: &str = include_str!("../../../../scenarios/27_from_set_point_to_volume.ron");
const CHECK: &str = include_str!("../../../../scenarios/28_between_two_calibrations.ron");

const ONE_ON: &str = include_str!("../../../../scenarios/31_one_in_one_on.ron");

/// What somebody writes where the advice leaves a gap; readings are those of the view.
fn filled(sentence: &str, session: &Session) -> String {
    let view = session.view().at_eye_resolution();
    let papers = session.papers();
    let paper = &papers.certificates[0];
    let leg = |field| session.book().number(field).expect("a leg");
    let meter = || view.run.as_ref().map_or(0.0, |run| run.timer.meter_min);
    let value = |field: &str| match field {
        "serial" => view.calibrator.serial.clone().expect("the plate is in focus"),
        "certificate serial" => paper.serial.clone(),
        "certificate date" => paper.date.to_string(),
        "certificate slope" => paper.standard.slope.to_string(),
        "certificate intercept" => paper.standard.intercept.to_string(),
        "temperature" | "check temperature" => view.thermometer.column_c.to_string(),
        "pressure" | "check pressure" => view.barometer.pointer_mmhg.to_string(),
        "decision" => "accepted".to_owned(),
        "target flow" => format!("{:.3}", papers.work_order.target_flow_std_m3_min),
        "set point" => set_point(session),
        "filter number" => {
            let run = view.run.as_ref().expect("a run is ordered");
            run.filter.number.clone().expect("a number on its edge")
        }
        "check outcome" => "passed".to_owned(),
        "custody" => "to the laboratory with the sampler".to_owned(),
        "meter before" | "meter after" => format!("{:.1}", meter()),
        "start chart" | "end chart" => view.recorder.pen.expect("uncapped").to_string(),
        "slope" | "intercept" | "correlation" => {
            let sums = own_sums(session.book()).expect("the points are taken");
            let number = match field {
                "slope" => sums.slope,
                "intercept" => sums.intercept,
                _ => sums.correlation,
            };
            format!("{number:.4}")
        }
        field if field.starts_with("check ") && field.ends_with(" chart") => {
            view.recorder.pen.expect("uncapped").to_string()
        }
        field if field.starts_with("check ") && field.ends_with(" up") => {
            format!("{:.2}", view.manometer.left.meniscus_in)
        }
        field if field.starts_with("check ") && field.ends_with(" down") => {
            format!("{:.2}", -view.manometer.right.meniscus_in)
        }
        _ => "1".to_owned(),
    };
    if sentence.contains("... ... ...") {
        let (left, right) = (view.manometer.left.meniscus_in, view.manometer.right.meniscus_in);
        let chart = view.recorder.pen.expect("the pen is uncapped");
        return sentence
            .replace("... ... ...", &format!("{:.2} {:.2} {chart:.1}", left.abs(), right.abs()));
    }
    if let Some(point) = session.book().points().last()
        && sentence.contains("sum ...")
    {
        let sum = leg(Field::Up(*point)) + leg(Field::Down(*point));
        return sentence.replace("...", &format!("{sum:.2}"));
    }
    let field = sentence.trim_start_matches("write ").trim_end_matches(" ...");
    sentence.replace("...", &value(field))
}

/// The chart reading for the ordered flow by the line in the book.
fn set_point(session: &Session) -> String {
    let papers = session.papers();
    let order = papers.work_order;
    let sums = own_sums(session.book()).expect("the points are taken");
    let air =
        AirConditions::as_read(order.run_pressure_mmhg, order.run_temperature_c).expect("air");
    let term = sums.slope * order.target_flow_std_m3_min + sums.intercept;
    let expression = Expression::actual(RecorderScale::SquareRoot);
    format!("{:.1}", expression.chart_for(term, air).expect("a reading"))
}

/// Does what is advised until the book is signed, and tells what was done.
fn followed(scenario: &str) -> (Session, Vec<String>) {
    let mut session = Session::begin(scenario, 1, Box::new(NullSink)).expect("a session");
    let mut last = Vec::new();
    for _ in 0..600 {
        if session.ended().is_some() {
            break;
        }
        let advice = what_now(&session.view(), session.book(), &session.papers());
        assert!(!advice.step.is_empty() && advice.why.ends_with(')'), "{advice:?}");
        let sentence = filled(&advice.sentence, &session);
        last.push(sentence.clone());
        // A person looks at the pen under the hand, and reads the legs after tapping.
        let more = match sentence.as_str() {
            "listen" => vec!["read pen"],
            "tap three times" if advice.step.contains("read both legs") => vec!["read both legs"],
            _ => Vec::new(),
        };
        let before = advice.step.starts_with("Tap three times").then_some("tap three times");
        for line in before.into_iter().chain(std::iter::once(sentence.as_str())).chain(more) {
            let steps = script::steps(&session, line)
                .unwrap_or_else(|error| panic!("{line}: {error}\n{last:#?}"));
            for step in steps {
                step.take(&mut session)
                    .unwrap_or_else(|error| panic!("{line}: {error}\n{last:#?}"));
            }
        }
        session.advance(100).expect("time passes");
    }
    assert!(session.ended().is_some(), "{:#?}", &last[last.len() - 30..]);
    (session, last)
}

/// No finding but those of sums, whose gaps are filled with nonsense where they are not needed.
fn nothing_is_found(session: Session, last: &[String]) {
    let ended = crate::commands::session_files::end_of(session).expect("an end");
    let sums =
        [procedure::WorkPhase::Sums, procedure::WorkPhase::SetPoint, procedure::WorkPhase::Volume];
    let of_check = ["check-sums", "check-judged"];
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
fn who_follows_the_advice_makes_a_flow_check() {
    let (session, last) = followed(CHECK);
    assert_eq!(session.book().points().len(), 0);
    assert_eq!(session.book().text(Field::CheckOutcome), Some("passed"));
    nothing_is_found(session, &last);
}

#[test]
fn who_follows_the_advice_comes_back_with_a_sample() {
    let (session, last) = followed(RUN);
    assert_eq!(session.book().text(Field::CheckOutcome), Some("passed"));
    assert!(session.book().text(Field::Custody).is_some());
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
fn who_follows_the_advice_arms_the_next_run() {
    let mut session = Session::begin(ONE_ON, 1, Box::new(NullSink)).expect("a session");
    let unarmed = by_name("leaves-next-run", 1).expect("an operator");
    assert!(rehearse(&mut session, &mut Unsigned(unarmed)).is_err(), "nobody has signed");
    let mut said = Vec::new();
    while session.ended().is_none() && said.len() < 60 {
        let advice = what_now(&session.view(), session.book(), &session.papers());
        let number = session.view().run.and_then(|run| run.filter.number).unwrap_or_default();
        let sentence = advice.sentence.replace("...", &number);
        said.push(sentence.clone());
        for step in
            script::steps(&session, &sentence).unwrap_or_else(|why| panic!("{why} {said:#?}"))
        {
            step.take(&mut session).unwrap_or_else(|why| panic!("{why} {said:#?}"));
        }
        session.advance(100).expect("time passes");
    }
    assert!(session.ended().is_some(), "{said:#?}");
    let ended = crate::commands::session_files::end_of(session).expect("an end");
    // A filter is taken by its edges and its number is what stands on it, as the advice says.
    let rules: Vec<_> = ended.marks.findings.iter().map(|finding| finding.rule).collect();
    assert_eq!(rules, [""; 0], "{said:#?}");
}

#[test]
fn advice_at_the_start_is_the_edge_and_then_the_papers() {
    let mut session = Session::begin(CLEAN, 1, Box::new(NullSink)).expect("a session");
    let now = |session: &Session| what_now(&session.view(), session.book(), &session.papers());
    assert_eq!(now(&session).sentence, "look at roof edge");
    session.act(Action::Look { at: Sight::RoofEdge, eye_mm: 0.0 }).expect("a look");
    assert_eq!(now(&session).sentence, "look at calibrator");
}
