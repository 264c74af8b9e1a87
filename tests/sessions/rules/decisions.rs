//! A decision is what was decided, and never what its reason sounds like.

use sim_core::field_book::{Decision, Field};
use sim_core::marking::{Marks, mark};

use super::script::Script;

const ACCEPTED: Decision = Decision::CalibrationAccepted { line_moved: false };

/// The marks of a script in which one decision is made for a reason.
fn decided(script: &Script, decision: Decision, reason: &str) -> Marks {
    let mut script = script.clone();
    script.decides(decision, reason);
    let (signed, refused) = script.had();
    assert_eq!(refused, [""; 0], "{reason}");
    mark(&signed.evidence())
}

/// The marks for one decision must be the same for every reason; they are returned.
#[track_caller]
fn whatever_the_reason(script: &Script, decision: Decision, reasons: &[&str]) -> Marks {
    let plain = decided(script, decision, "everything was looked at");
    for reason in reasons {
        let marks = decided(script, decision, reason);
        assert_eq!(marks, plain, "{reason}");
    }
    plain
}

/// A reason in which the opposite word occurs must not turn a decision round: a line was refused by
/// saying of a point that it was rejected, and accepted by calling it unacceptable.
#[test]
fn an_accepted_line_stays_accepted_whatever_words_its_reason_uses() {
    let reasons = ["point 3 rejected and retaken", "nothing to refuse", "not bad, no point void"];
    let marks = whatever_the_reason(&Script::careful(), ACCEPTED, &reasons);
    assert!(marks.passed && marks.findings.is_empty(), "{:#?}", marks.findings);
}

/// The same for a refusal, which without grounds is wrong and must not pass for an acceptance.
#[test]
fn a_refused_line_stays_refused_whatever_words_its_reason_uses() {
    let mut script = Script::careful();
    let set_point = [Some(Field::TargetFlow), Some(Field::SetPoint)];
    script.without(|deed| set_point.contains(&deed.field()));
    let reasons = ["unacceptable", "it cannot be accepted", "accepted last time, good until now"];
    let marks = whatever_the_reason(&script, Decision::CalibrationRefused, &reasons);
    assert!(!marks.passed);
    assert!(marks.findings.iter().any(|finding| finding.rule == "decision-sound"));
}

/// The same for a flow check: "did not pass" was taken for a pass.
#[test]
fn a_flow_check_fails_or_passes_by_its_decision() {
    let script = Script::careful_check();
    let reasons = ["the first reading did not pass for want of a tap", "no failure, no doubt"];
    let passed = whatever_the_reason(&script, Decision::CheckPassed, &reasons);
    assert!(passed.passed && passed.findings.is_empty(), "{:#?}", passed.findings);
    let failed = Decision::CheckFailed { calibrate_again: false, not_valid_since: None };
    let reasons = ["did not pass", "it would have passed last month"];
    let failed = whatever_the_reason(&script, failed, &reasons);
    assert!(failed.findings.iter().any(|finding| finding.rule == "check-judged"));
}

/// The same for a sample: "avoid" was taken for "void".
#[test]
fn a_sample_is_valid_or_not_by_its_decision() {
    let script = Script::careful_run();
    let reasons = ["nothing to avoid", "not a thing is invalid about it"];
    let valid = whatever_the_reason(&script, Decision::SampleValid, &reasons);
    assert!(valid.passed && valid.findings.is_empty(), "{:#?}", valid.findings);
    let reasons = ["a valid day it was not", "a valid sample"];
    let void = whatever_the_reason(&script, Decision::SampleNotValid, &reasons);
    assert!(void.findings.iter().any(|finding| finding.rule == "validity-judged"));
}
