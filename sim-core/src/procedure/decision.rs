//! Phase G, the decision that the line and the faults require.

use super::evidence::{Ending, Evidence, TraineeDecision};
use super::faults::{grounds_besides, grounds_for_refusal, only_refusal_helps};
use super::knowable::{first_shown, shown_before};
use super::occasions::measured;
use super::outcome::{Outcome, beyond};
use super::own_sums::{OwnSums, own_flow_error_pct, own_slope_and_intercept};
use super::reports::{About, CauseNamed, false_alarms, reports_held};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use super::sums::{no_line, tick_of};
use crate::calibration::{
    INTERCEPT_MOVED, LARGEST_OFF_LINE_M3_MIN, LEAST_CORRELATION, SLOPE_MOVED,
};
use crate::fault::Fault;
use crate::field_book::{Decision, Field};
use crate::session::action::{Action, FaultPlace, Response};
use crate::units::for_text;

/// Error of the sampled volume beyond which a calibration must not be accepted, percent (CHOSEN).
const SPOILED_PCT: f64 = 4.0;
/// Error of the sampled volume below which a calibration is sound, percent (CHOSEN).
const SOUND_PCT: f64 = 2.0;

/// After the motor's brushes were changed, the sampler is calibrated again.
///
/// Broken by accepting a line whose points were read before the brushes were changed; kept by reading
/// all points afterwards, or by refusing the line.
pub static CALIBRATED_AFTER_BRUSHES: ProcedureRule = ProcedureRule {
    id: "calibrated-after-brushes",
    title: "Calibrate again after the motor's brushes were changed",
    why: "A motor with new brushes runs at another speed, and its line is another.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::memory("40 CFR Part 50, App. B, 9.3.1"),
    phase: WorkPhase::Sums,
    repair: Repair::RightDecision,
    test: |evidence| {
        let mut events = evidence.indexed_events();
        let changed = events.rfind(|at| at.event.action == Action::ChangeBrushes);
        let Some(changed) = changed else { return Outcome::NotReached };
        let points = evidence.points();
        let before = points.iter().any(|point| point.first.index < changed.index);
        let accepted = evidence
            .decided(Field::Decision)
            .filter(|(_, decision, _)| matches!(decision, Decision::CalibrationAccepted { .. }));
        match accepted {
            Some((at, _, _)) if before => Outcome::broken(Slip::at(
                at.tick(),
                "accepted a line with points that were read before the brushes were changed",
            )),
            _ => Outcome::Kept,
        }
    },
};

/// A line with r below 0.990 is not accepted.
///
/// Broken by accepting r = 0.985; kept by refusing it, or by r = 0.995.
pub static CORRELATION: ProcedureRule = ProcedureRule {
    id: "correlation",
    title: "Refuse a line with r below 0.990",
    why: "Points that scatter so much were not read at rest.",
    severity: Severity::Data,
    decides: Decides::Always,
    // The limit is that of calibration forms in sampling manuals, from memory; 40 CFR Part 50,
    // App. B, sets none (read).
    source: RuleSource::memory("common practice; 40 CFR Part 50, App. B, sets no limit"),
    phase: WorkPhase::Sums,
    repair: Repair::RightDecision,
    test: |evidence| {
        of_the_line(evidence, |own| {
            let r = own.line.map(|line| line.r)?;
            (r.is_nan() || r < LEAST_CORRELATION).then(|| {
                format!("accepted with r = {r:.4}, but at least {LEAST_CORRELATION} is needed")
            })
        })
    },
};

/// A line with a point more than 0.04 m3/min away is not accepted.
///
/// Broken by accepting a point that is 0.06 away; kept by taking it again, or by refusing.
pub static RESIDUALS: ProcedureRule = ProcedureRule {
    id: "residuals",
    title: "No point more than 0.04 m³/min from the line",
    why: "One bad point tilts the whole line.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::MANUALS,
    phase: WorkPhase::Sums,
    repair: Repair::RightDecision,
    test: |evidence| {
        of_the_line(evidence, |own| {
            let off = own.farthest_off_m3_min()?;
            beyond(off, LARGEST_OFF_LINE_M3_MIN).then(|| {
                format!(
                    "accepted with a point {off:.3} m³/min from the line, but at most \
                     {LARGEST_OFF_LINE_M3_MIN} m³/min is allowed"
                )
            })
        })
    },
};

/// The outcome of a rule that some lines must not be accepted: broken by accepting one of them, kept
/// by refusing it or by accepting a good line. A good line that is refused never came to it.
fn of_the_line(evidence: &Evidence<'_>, wrong: impl Fn(&OwnSums) -> Option<String>) -> Outcome {
    let own = OwnSums::of(evidence);
    if own.line.is_none() && evidence.verdict() == TraineeDecision::Accepted {
        return no_line(evidence);
    }
    match (evidence.verdict(), wrong(&own)) {
        (TraineeDecision::Accepted, wrong) => {
            Outcome::at(tick_of(evidence, Field::Decision), wrong)
        }
        (TraineeDecision::Refused, Some(_)) => Outcome::Kept,
        (TraineeDecision::Refused, None) => Outcome::NotReached,
        (TraineeDecision::Missing, _) => undecided(evidence),
    }
}

/// The outcome where nobody decided: something was measured, and what became of it is not known.
fn undecided(evidence: &Evidence<'_>) -> Outcome {
    match measured(evidence) {
        true => Outcome::without(evidence, Field::Decision),
        false => Outcome::NotReached,
    }
}

/// A line that has moved from the last one is refused or explained.
///
/// A change of more than 3 in the intercept or 5 percent in the slope needs an explanation. Broken by
/// accepting an intercept of 8.7 after 1.3 with `nothing was found wrong` in the record; kept by
/// refusing, by reporting what was really wrong, or by a decision that says that the line has moved and
/// why it may be used all the same.
pub static LAST_LINE: ProcedureRule = ProcedureRule {
    id: "last-line",
    title: "Compare the line with the last one",
    why: "A leak shows in the intercept and nowhere else.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Sums,
    repair: Repair::RightDecision,
    test: |evidence| {
        let Some((slope, intercept)) = evidence.last_line() else { return Outcome::NotReached };
        of_the_line(evidence, |own| {
            let line = own.line?;
            let moved = line.intercept - intercept;
            let turned = line.slope / slope - 1.0;
            let quiet = moved.abs() <= INTERCEPT_MOVED && turned.abs() <= SLOPE_MOVED;
            let text = format!(
                "the slope changed by {:+.1} % and the intercept by {:+.1} since the last line, not \
                 explained in the field book",
                for_text(100.0 * turned, 1),
                for_text(moved, 1)
            );
            (!quiet && !speaks_of_the_line(evidence)).then_some(text)
        })
    },
};

/// Whether the record explains a line that has moved: in the decision, or by reporting something that
/// was really wrong.
fn speaks_of_the_line(evidence: &Evidence<'_>) -> bool {
    let reported = reports_held(evidence).iter().any(|one| match one.about {
        About::Fault(fault, CauseNamed::Right | CauseNamed::NotYet) => {
            shown_before(evidence, &fault, one.at)
        }
        About::OtherMeans => true,
        About::Fault(_, CauseNamed::Wrong) | About::Nothing => false,
    });
    let moved = Decision::CalibrationAccepted { line_moved: true };
    let explained = evidence
        .decided(Field::Decision)
        .is_some_and(|(_, decision, reason)| decision == moved && !reason.is_empty());
    reported || explained
}

/// The calibration is accepted or refused in writing, and a refusal gives the reason.
///
/// Broken by leaving it open, or by `refused` without a reason anywhere; kept by `accepted`, by
/// `refused: leak under the plate`, or by leaving before a thunderstorm.
pub static DECIDED: ProcedureRule = ProcedureRule {
    id: "decision-written",
    title: "Write the decision, and the reason for a refusal",
    why: "A line will be used even if nobody has taken responsibility for it.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Sums,
    repair: Repair::RightDecision,
    test: |evidence| {
        let decided = evidence.decided(Field::Decision);
        let explained = decided.is_some_and(|(_, _, reason)| !reason.is_empty())
            || evidence.remarks().next().is_some()
            || evidence.book.text(Field::Remarks).is_some();
        let reached = !evidence.points().is_empty() || decided.is_some();
        if !reached || evidence.fled_from_thunder() {
            return Outcome::NotReached;
        }
        let wrong = match evidence.verdict() {
            TraineeDecision::Accepted => return Outcome::Kept,
            TraineeDecision::Refused if explained => return Outcome::Kept,
            TraineeDecision::Refused => "refused without a reason",
            TraineeDecision::Missing => "the decision is missing",
        };
        Outcome::broken(Slip::at(tick_of(evidence, Field::Decision), wrong))
    },
};

/// The decision is right: no spoiled calibration accepted, no sound one refused.
///
/// Spoiled means that the volume of the next sample would be off by more than 4 percent, or that an
/// instrument has a fault for which refusal is the only right response, such as a leaking manometer,
/// and that somebody on the roof could have told it: that the volume is not worse is luck. Sound means less than 2 percent off, r and residuals
/// within their limits, and no fault in force for which refusal is a right response. Between the two,
/// both decisions are right, and so is refusing a calibration that a thunderstorm cut short. Broken by
/// accepting a line with a leak in it; kept by refusing it.
pub static DECISION_SOUND: ProcedureRule = ProcedureRule {
    id: "decision-sound",
    title: "Accept what is sound, refuse what is not",
    why: "A wrong line that is accepted spoils every sample until the next audit; a good one that is refused costs weeks.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Sums,
    repair: Repair::RightDecision,
    test: |evidence| {
        let slip =
            |text: String| Outcome::broken(Slip::at(tick_of(evidence, Field::Decision), text));
        let error = own_flow_error_pct(evidence);
        let line = own_slope_and_intercept(evidence);
        if evidence.verdict() == TraineeDecision::Accepted
            && evidence.fled_from_thunder()
            && evidence.written(Field::Slope).is_none()
        {
            return slip("accepted although thunder broke off the work before the line".to_owned());
        }
        match (evidence.verdict(), error) {
            (TraineeDecision::Missing, _) => undecided(evidence),
            (TraineeDecision::Accepted, Some(error)) if error.abs() > SPOILED_PCT => {
                slip(format!("accepted although volumes are off by {error:+.1} %"))
            }
            (TraineeDecision::Accepted, Some(error)) => {
                let unfit = only_refusal_helps(evidence).into_iter().find(|fault| {
                    error.abs() > SOUND_PCT || first_shown(evidence, fault).is_some()
                });
                let Some(fault) = unfit else { return Outcome::Kept };
                let what = fault.answer().0;
                slip(format!("accepted with {what}, and volumes are off by {error:+.1} %"))
            }
            (TraineeDecision::Accepted, None) if line.is_some() => slip(
                "accepted although the pen can never reach the chart reading that the line gives \
                 for the target flow"
                    .to_owned(),
            ),
            (TraineeDecision::Accepted, None) => {
                Outcome::without_one_of(evidence, &[Field::Slope, Field::Intercept])
            }
            (TraineeDecision::Refused, _) if evidence.fled_from_thunder() => Outcome::NotReached,
            (TraineeDecision::Refused, Some(error))
                if error.abs() < SOUND_PCT && is_sound(evidence) =>
            {
                let error = for_text(error, 1);
                slip(format!("refused although volumes are right ({error:+.1} %)"))
            }
            (TraineeDecision::Refused, Some(_)) => Outcome::Kept,
            (TraineeDecision::Refused, None) if grounds_for_refusal(evidence) => Outcome::Kept,
            // There is no line of which anybody could say whether it was sound.
            (TraineeDecision::Refused, None) => Outcome::NotReached,
        }
    },
};

/// Whether the trainee's line is within its limits and no fault in force justifies a refusal. One that
/// the trainee reported as noted, corrected or repaired, and went on with, does not.
fn is_sound(evidence: &Evidence<'_>) -> bool {
    let own = OwnSums::of(evidence);
    let straight = own.line.is_some_and(|line| line.r >= LEAST_CORRELATION);
    let near = own.farthest_off_m3_min().is_some_and(|off| off <= LARGEST_OFF_LINE_M3_MIN);
    let worked_with: Vec<Fault> = reports_held(evidence)
        .into_iter()
        .filter(|one| one.report.response != Response::Rejected)
        .filter_map(|one| match one.about {
            About::Fault(fault, _) => Some(fault),
            About::OtherMeans | About::Nothing => None,
        })
        .collect();
    straight && near && !grounds_besides(evidence, &worked_with)
}

/// Only real faults are reported.
///
/// A report about something that was in order is a false alarm. Broken by reporting the calibrator,
/// the barometer and the blower of a sound station; three places make it a habit that decides. Kept by
/// reporting what a check has confirmed.
pub static FALSE_ALARMS: ProcedureRule = ProcedureRule {
    id: "false-alarms",
    title: "Report what is wrong, and only that",
    why: "Each false alarm takes a good instrument out of service, and nobody listens to the third.",
    severity: Severity::Practice,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Sums,
    repair: Repair::None,
    test: |evidence| {
        let looked = |action: &Action| matches!(action, Action::Look { .. } | Action::Report(_));
        if !evidence.events.iter().any(|moment| looked(&moment.action)) {
            return Outcome::NotReached;
        }
        let alarms = false_alarms(evidence);
        let habit = alarms.len() >= 3;
        Outcome::reached(alarms.into_iter().map(|one| {
            let text = format!(
                "report of “{}” at the {}, where nothing of the kind was wrong",
                one.report.cause.words(),
                one.report.place.words()
            );
            let slip = Slip::at(one.at.tick(), text);
            if habit { slip } else { slip.mild() }
        }))
    },
};

/// What was reported and what was decided agree.
///
/// An instrument of the calibration that was reported as not used cannot have made a calibration that
/// is accepted. Broken by rejecting the manometer and accepting its line; kept by refusing it, or by
/// reporting the instrument as corrected or noted.
pub static AGREES_WITH_REPORTS: ProcedureRule = ProcedureRule {
    id: "agrees-with-reports",
    title: "Decide as you reported",
    why: "A record that rejects an instrument and accepts what it measured cannot be used either way.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Sums,
    repair: Repair::RightDecision,
    test: |evidence| {
        let reports = reports_held(evidence);
        match (evidence.verdict(), reports.is_empty()) {
            (_, true) => return Outcome::NotReached,
            (TraineeDecision::Missing, _) => return undecided(evidence),
            (TraineeDecision::Refused, _) => return Outcome::Kept,
            (TraineeDecision::Accepted, _) => {}
        }
        let decided = evidence.decided(Field::Decision).map_or(usize::MAX, |(at, _, _)| at.index);
        let rejected = reports.into_iter().find(|one| {
            one.report.response == Response::Rejected
                && one.at.index < decided
                && matches!(
                    one.report.place,
                    FaultPlace::Manometer
                        | FaultPlace::Tube
                        | FaultPlace::Calibrator
                        | FaultPlace::Mounting
                )
        });
        Outcome::reached(rejected.map(|one| {
            let place = one.report.place.words();
            let text = format!("the {place} was rejected, but its calibration was accepted");
            Slip::at(tick_of(evidence, Field::Decision), text)
        }))
    },
};

/// The session ends with a signature, or the roof is left for a good reason.
///
/// Broken by running out of time, or by leaving for no reason; kept by signing, by leaving before a
/// thunderstorm, or by leaving with a refusal that the faults in force justify.
pub static SIGNED: ProcedureRule = ProcedureRule {
    id: "book-signed",
    title: "Sign the field book",
    why: "An unsigned record cannot be attributed to anyone.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Sums,
    repair: Repair::None,
    test: |evidence| {
        let text = match evidence.ended {
            Ending::Signed => return Outcome::Kept,
            Ending::TimeOut => "the time ran out before the field book was signed",
            Ending::LeftRoof if evidence.ended_in_thunder() || grounds_for_refusal(evidence) => {
                return Outcome::NotReached;
            }
            Ending::LeftRoof => "the roof was left without a reason",
            Ending::Broken => "an error of the program ended the session",
        };
        Outcome::broken(Slip::at(evidence.end_tick, text))
    },
};
