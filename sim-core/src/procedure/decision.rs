//! Phase G, the decision: what the line and the faults demand.

use super::evidence::{Ending, Evidence, TraineeDecision};
use super::faults::{false_alarms, grounds_for_refusal, only_refusal_helps};
use super::inspection::looked_before;
use super::own_sums::{OwnSums, own_slope_and_intercept, set_point_flow_error_pct};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use super::sums::tick_of;
use crate::calibration::{LARGEST_OFF_LINE_M3_MIN, LEAST_CORRELATION};
use crate::field_book::Field;

/// Change of the intercept against the last line that wants an explanation, chart divisions.
const INTERCEPT_MOVED: f64 = 3.0;
/// Change of the slope against the last line that wants an explanation, as a share of it.
const SLOPE_MOVED: f64 = 0.05;
/// Error of the sampled volume beyond which a calibration must not be accepted, percent (chosen).
const SPOILED_PCT: f64 = 4.0;
/// Error of the sampled volume below which a calibration is sound, percent (chosen).
const SOUND_PCT: f64 = 2.0;

/// A line with r below 0.990 is not accepted.
///
/// Broken by accepting r = 0.985; kept by refusing it, or by r = 0.995.
pub static CORRELATION: ProcedureRule = ProcedureRule {
    id: "correlation",
    title: "Refuse a line with r below 0.990",
    why: "Points that scatter so were not taken at rest.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::memory(
        "calibration forms of the sampling manuals (from memory); 40 CFR 50 App. B sets no limit (read)",
    ),
    phase: WorkPhase::Sums,
    repair: Repair::RightDecision,
    test: |evidence| {
        let Some(line) = accepted(evidence).and_then(|own| own.line) else { return Vec::new() };
        if line.r >= LEAST_CORRELATION {
            return Vec::new();
        }
        let text = format!("accepted with r = {:.4}, {LEAST_CORRELATION} is the least", line.r);
        vec![Slip::at(tick_of(evidence, Field::Decision), text)]
    },
};

/// A line with a point more than 0.04 m3/min away is not accepted.
///
/// Broken by accepting a point 0.06 off; kept by taking it again, or by refusing.
pub static RESIDUALS: ProcedureRule = ProcedureRule {
    id: "residuals",
    title: "No point more than 0.04 m³/min off the line",
    why: "One bad point turns the whole line.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::memory("calibration forms of the sampling manuals (from memory)"),
    phase: WorkPhase::Sums,
    repair: Repair::RightDecision,
    test: |evidence| {
        let off = accepted(evidence).and_then(|own| own.farthest_off_m3_min());
        let Some(off) = off.filter(|off| *off > LARGEST_OFF_LINE_M3_MIN) else {
            return Vec::new();
        };
        let text = format!(
            "accepted with a point {off:.3} m³/min off the line, {LARGEST_OFF_LINE_M3_MIN} at most"
        );
        vec![Slip::at(tick_of(evidence, Field::Decision), text)]
    },
};

/// The own sums of an accepted calibration.
fn accepted(evidence: &Evidence<'_>) -> Option<OwnSums> {
    (evidence.verdict() == TraineeDecision::Accepted).then(|| OwnSums::of(evidence))
}

/// A line that moved against the last one is refused or explained.
///
/// More than 3 in the intercept or 5 percent in the slope, and accepted without a word on it. Broken
/// by intercept 8.7 after 1.3, accepted, with `nothing was found wrong` for the record; kept by
/// refusing, by reporting what was truly wrong, or by words that speak of the line or the last
/// calibration.
pub static LAST_LINE: ProcedureRule = ProcedureRule {
    id: "last-line",
    title: "Hold the line against the last one",
    why: "A leak shows in the intercept and nowhere else.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Sums,
    repair: Repair::RightDecision,
    test: |evidence| {
        let Some(last) = &evidence.setup.work_order.last_line else { return Vec::new() };
        let Some(line) = OwnSums::of(evidence).line else { return Vec::new() };
        let moved = line.intercept - last.intercept;
        let turned = line.slope / last.slope - 1.0;
        let quiet = moved.abs() <= INTERCEPT_MOVED && turned.abs() <= SLOPE_MOVED;
        if quiet || speaks_of_the_line(evidence) || evidence.verdict() == TraineeDecision::Refused {
            return Vec::new();
        }
        let text = format!(
            "slope {:+.1} % and intercept {moved:+.1} against the last line, without a word on it",
            100.0 * turned
        );
        vec![Slip::at(tick_of(evidence, Field::Decision), text)]
    },
};

/// Words that show that somebody held the line against the last one.
const OF_THE_LINE: [&str; 8] =
    ["line", "slope", "intercept", "last", "previous", "moved", "shift", "drift"];

/// Whether the record says a word on a line that moved: under remarks or beside the decision, or by
/// reporting something that was truly wrong.
fn speaks_of_the_line(evidence: &Evidence<'_>) -> bool {
    let alarms = false_alarms(evidence);
    let reported = evidence.remarks().any(|(at, remark)| {
        looked_before(evidence, remark.place, at)
            && alarms.iter().all(|(_, alarm)| alarm.place != remark.place)
    });
    reported
        || [Field::Remarks, Field::Decision].into_iter().any(|field| {
            let text = evidence.book.text(field).unwrap_or_default().to_lowercase();
            let mut words = text.split(|c: char| !c.is_alphabetic());
            words.any(|word| OF_THE_LINE.iter().any(|known| word.starts_with(known)))
        })
}

/// The calibration is accepted or refused in writing, and a refusal says why.
///
/// Broken by leaving it open, or by `refused` and not one word more anywhere; kept by `accepted`, by
/// `refused: leak under the plate`, or by leaving before a thunderstorm.
pub static DECIDED: ProcedureRule = ProcedureRule {
    id: "decision-written",
    title: "Write the decision, and why when it is a refusal",
    why: "A line that nobody stands for is used all the same.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Sums,
    repair: Repair::RightDecision,
    test: |evidence| {
        if evidence.points().is_empty() || evidence.fled_from_thunder() {
            return Vec::new();
        }
        let text = evidence.book.text(Field::Decision);
        let explained = text.is_some_and(|text| text.split_whitespace().count() > 1)
            || evidence.remarks().next().is_some()
            || evidence.book.text(Field::Remarks).is_some();
        let wrong = match (evidence.verdict(), text) {
            (TraineeDecision::Accepted, _) => return Vec::new(),
            (TraineeDecision::Refused, _) if explained => return Vec::new(),
            (TraineeDecision::Refused, _) => "refused without a reason",
            (TraineeDecision::Unclear, None) => "neither accepted nor refused",
            (TraineeDecision::Unclear, Some(_)) => "the decision says neither accepted nor refused",
        };
        vec![Slip::at(tick_of(evidence, Field::Decision), wrong)]
    },
};

/// The decision is right: no spoiled calibration accepted, no sound one refused.
///
/// Spoiled means that the volume of the next sample would be off by more than 4 percent, or by more
/// than 2 with an instrument in use that only refusal answers, such as a leaking manometer: that it
/// was not worse is luck. Sound means less than 2 percent off, r and residuals within bounds, and
/// nothing in force that may be answered by refusing. Between the two both are right, and so is
/// refusing what a thunderstorm cut short. Broken by accepting a line with a leak in it; kept by
/// refusing it.
pub static DECISION_SOUND: ProcedureRule = ProcedureRule {
    id: "decision-sound",
    title: "Accept what is sound, refuse what is not",
    why: "An accepted wrong line spoils every sample until the next audit; a refused good one costs weeks.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Sums,
    repair: Repair::RightDecision,
    test: |evidence| {
        let slip = |text: String| vec![Slip::at(tick_of(evidence, Field::Decision), text)];
        let error = set_point_flow_error_pct(evidence);
        match (evidence.verdict(), error) {
            (TraineeDecision::Accepted, Some(error)) if error.abs() > SPOILED_PCT => {
                slip(format!("accepted although volumes come out {error:+.1} % wrong"))
            }
            (TraineeDecision::Accepted, Some(error)) if error.abs() > SOUND_PCT => {
                let Some(fault) = only_refusal_helps(evidence) else { return Vec::new() };
                slip(format!("accepted with {fault}, and volumes come out {error:+.1} % wrong"))
            }
            (TraineeDecision::Accepted, None) if own_slope_and_intercept(evidence).is_some() => {
                slip(
                    "accepted although the line puts the target where the pen never goes"
                        .to_owned(),
                )
            }
            (TraineeDecision::Refused, _) if evidence.fled_from_thunder() => Vec::new(),
            (TraineeDecision::Refused, Some(error))
                if error.abs() < SOUND_PCT && is_sound(evidence) =>
            {
                slip(format!("refused although volumes come out right ({error:+.1} %)"))
            }
            _ => Vec::new(),
        }
    },
};

/// Whether the own line keeps its bounds and nothing in force asks for refusal.
fn is_sound(evidence: &Evidence<'_>) -> bool {
    let own = OwnSums::of(evidence);
    let straight = own.line.is_some_and(|line| line.r >= LEAST_CORRELATION);
    let near = own.farthest_off_m3_min().is_some_and(|off| off <= LARGEST_OFF_LINE_M3_MIN);
    straight && near && !grounds_for_refusal(evidence)
}

/// Faults are reported where there are some.
///
/// A remark on something that was in order is a false alarm. Broken by reporting the calibrator, the
/// barometer and the blower of a sound station; three places make it a habit that decides. Kept by
/// reporting what a check has confirmed.
pub static FALSE_ALARMS: ProcedureRule = ProcedureRule {
    id: "false-alarms",
    title: "Report what is wrong, and only that",
    why: "Each false alarm takes a good instrument out of service, and the third is no longer heard.",
    severity: Severity::Practice,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Sums,
    repair: Repair::None,
    test: |evidence| {
        let alarms = false_alarms(evidence);
        let habit = alarms.len() >= 3;
        alarms
            .into_iter()
            .map(|(at, remark)| {
                let text =
                    format!("reported at the {}, where nothing was wrong", remark.place.words());
                let slip = Slip::at(at.tick(), text);
                if habit { slip } else { slip.mild() }
            })
            .collect()
    },
};

/// The session ends with a signature, or on the roof's ladder with good reason.
///
/// Broken by running out of time, or by leaving for no reason; kept by signing, by leaving before a
/// thunderstorm, or by leaving with a refusal that the faults in force bear out.
pub static SIGNED: ProcedureRule = ProcedureRule {
    id: "book-signed",
    title: "Sign the field book",
    why: "An unsigned record is nobody's.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Sums,
    repair: Repair::None,
    test: |evidence| {
        let text = match evidence.ended {
            Ending::Signed => return Vec::new(),
            Ending::TimeOut => "the time was over before the book was signed",
            Ending::LeftRoof if evidence.ended_in_thunder() || grounds_for_refusal(evidence) => {
                return Vec::new();
            }
            Ending::LeftRoof => "the roof was left without need",
            Ending::Broken => "the session broke off by an error of the program",
        };
        vec![Slip::at(evidence.end_tick, text)]
    },
};
