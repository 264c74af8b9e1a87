//! The outcomes that are neither kept nor broken: for every rule a session that never comes to it, and
//! for every entry what happens without it.

use super::{broken, cases, spoilt};
use crate::field_book::{Field, PointNumber};
use crate::procedure::evidence::Ending;
use crate::procedure::test_bench::{
    TestSession, careful, careful_added, careful_check, careful_history, careful_next, careful_run,
    point, writes,
};
use crate::procedure::{Outcome, OutcomeKind, RULES, judge, rule};
use crate::rig::parts::{PartPlace, RigPart};
use crate::scenario::setup::Setup;
use crate::session::action::Action;
use crate::session::ground_truth::GroundTruth;

/// A session in which nothing was done but leaving the roof before a thunderstorm.
fn nothing(setup: Setup) -> TestSession {
    let mut session = careful();
    session.setup = setup;
    session.events.retain(|moment| matches!(moment.action, Action::Sign));
    session.end = session.events[0].before.clone();
    session.end.run = None;
    session.end.longest_blocked_s = 0.0;
    session.ended = Ending::LeftRoof;
    session
}

/// The outcome of a rule in a session.
fn outcome(session: &TestSession, id: &str) -> Outcome {
    session.judged(|evidence| rule(id).unwrap().judge(evidence))
}

#[test]
fn every_rule_is_not_reached_where_the_work_never_comes_to_it() {
    for case in cases() {
        let mut session = nothing(spoilt(case).setup);
        // The thunder itself is what one rule is about.
        if case.rule != "thunder" {
            session.end.thunder_since_s = Some(20.0);
        }
        assert_eq!(outcome(&session, case.rule), Outcome::NotReached, "{}", case.rule);
    }
}

#[test]
fn the_controller_is_set_with_the_filter_clamped() {
    let set_with = |change: &dyn Fn(&mut GroundTruth)| {
        let mut session = careful_run();
        session.at(|action| writes(action, Field::StartChart), change);
        outcome(&session, "trimmed-to-set-point").kind()
    };
    assert_eq!(set_with(&|_| {}), OutcomeKind::Kept);
    assert_eq!(set_with(&|facts| facts.nut_turns[2] = 3), OutcomeKind::Broken);
    let off = |facts: &mut GroundTruth, part| facts.places[part as usize] = PartPlace::Ground;
    assert_eq!(set_with(&|facts| off(facts, RigPart::Frame)), OutcomeKind::Broken);
    assert_eq!(set_with(&|facts| off(facts, RigPart::Filter)), OutcomeKind::Broken);
}

#[test]
fn a_careful_session_keeps_each_rule_that_it_comes_to() {
    let kept = |id: &str| {
        [
            careful(),
            careful_check(),
            careful_history(),
            careful_run(),
            careful_next(),
            careful_added(),
        ]
        .iter()
        .any(|session| outcome(session, id) == Outcome::Kept)
    };
    // Without thunder, a design flow, a controlled flow alone or a report, on a chart on which the parts
    // of a run make no difference, with a knob for plates, water for a display and the brushes that
    // were there, the work never comes to these.
    let never = [
        "thunder",
        "design-flow",
        "agrees-with-reports",
        "run-split",
        "plate-leak-check",
        "display-current",
        "display-zeroed",
        "display-battery",
        "calibrated-after-brushes",
        "check-trimmed",
    ];
    for rule in RULES {
        assert_eq!(kept(rule.id), !never.contains(&rule.id), "{}", rule.id);
    }
}

/// Entries that may be blank, because they have another witness.
const MAY_BE_BLANK: [(Field, &str); 3] = [
    (Field::Expression, "the corrected chart readings show which expression was used"),
    (Field::RunFlow, "the volume over the minutes"),
    (Field::CalibratorSerial, "the plate itself; the record counts it as missing"),
];

#[test]
fn no_entry_can_be_left_out_or_made_unreadable_without_a_finding() {
    let sessions = [
        careful(),
        careful_check(),
        careful_history(),
        careful_run(),
        careful_next(),
        careful_added(),
    ];
    let mut silent = Vec::new();
    for session in &sessions {
        let fields = session.events.iter().filter_map(|moment| match &moment.action {
            Action::Write { field, .. } => Some(*field),
            Action::Decide { decision, .. } => Some(decision.field()),
            _ => None,
        });
        for field in fields {
            let mut blank = session.clone();
            blank.without(|action| writes(action, field));
            let mut illegible = session.clone();
            illegible.rewrite(field, "?");
            let may = MAY_BE_BLANK.iter().any(|(known, _)| *known == field);
            if broken(&blank).is_empty() != may {
                silent.push(format!("{field:?} blank"));
            }
            if !may && !field.is_words() && broken(&illegible).is_empty() {
                silent.push(format!("{field:?} illegible"));
            }
        }
    }
    assert!(silent.is_empty(), "{silent:#?}");
}

#[test]
fn a_blank_intercept_is_one_finding_that_names_the_rules_and_decides() {
    let mut session = careful();
    session.rewrite(Field::CertificateIntercept, "");
    session.judged(|evidence| {
        let judged = judge(evidence);
        let unjudged: Vec<&str> = judged
            .outcomes
            .iter()
            .filter(|one| one.outcome == OutcomeKind::CannotJudge)
            .map(|one| one.rule)
            .collect();
        assert!(unjudged.len() >= 8, "{unjudged:?}");
        assert!(unjudged.contains(&"correlation") && unjudged.contains(&"certificate-copied"));
        let [finding] = judged.findings.as_slice() else { panic!("{:#?}", judged.findings) };
        assert_eq!(finding.rule, "record-judgeable");
        assert!(finding.decisive);
        let text = &finding.evidence;
        assert!(text.starts_with("the intercept on the certificate is missing: these rules"));
        for id in unjudged {
            assert!(text.contains(rule(id).unwrap().title), "{id}: {text}");
        }
    });
}

#[test]
fn nothing_is_missing_from_a_record_that_was_rightly_broken_off() {
    let mut session = careful();
    session.rewrite(Field::CertificateIntercept, "");
    session.end.thunder_since_s = Some(30.0);
    session.ended = Ending::LeftRoof;
    assert_eq!(outcome(&session, "record-judgeable"), Outcome::Kept);
    assert_eq!(outcome(&session, "certificate-copied"), Outcome::NotReached);
}

#[test]
fn parts_of_a_run_without_minutes_silence_no_rule() {
    let mut session = careful_run();
    for part in PointNumber::all().take(2) {
        let chart = session.book_number(Field::MeanChart);
        session.write(Field::PartChart(part), &format!("{chart:.1}"));
        session.write(Field::PartMinutes(part), "0");
    }
    for id in ["mean-chart", "run-volume"] {
        assert!(matches!(outcome(&session, id), Outcome::CannotJudge(_)), "{id}");
    }
    assert_eq!(broken(&session), ["record-judgeable"]);
    let marks = session.judged(crate::marking::mark);
    assert!(marks.total.is_finite(), "{}", marks.total);
}

#[test]
fn a_check_without_the_pen_is_not_made() {
    let mut session = careful_check();
    session
        .without(|action| (1..=3).any(|number| writes(action, Field::CheckChart(point(number)))));
    assert_eq!(broken(&session), ["check-made", "record-judgeable"]);
    assert!(matches!(outcome(&session, "check-sums"), Outcome::CannotJudge(_)));
}

#[test]
fn an_end_reading_written_before_the_run_is_none() {
    let mut session = careful_run();
    let text = session.text_of(Field::EndChart);
    session.without(|action| writes(action, Field::EndChart));
    let field = Field::EndChart;
    session.insert_after(
        |action| writes(action, Field::StartChart),
        Action::Write { field, text: text.clone() },
    );
    session.at(|action| writes(action, field), |facts| facts.pen = text.parse().unwrap());
    assert_eq!(broken(&session), ["end-reading"]);
}
