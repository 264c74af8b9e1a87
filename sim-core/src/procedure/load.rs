//! Phase I, setting up the run: trim screw, timer, chart; and that the run was made at all.
//!
//! All of it is judged at the moment when the site is left.

use super::evidence::{At, Evidence, TraineeDecision, loose_nuts, place};
use super::outcome::{Outcome, beyond};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::field_book::Field;
use crate::rig::parts::{BlowerPlug, PartPlace, RigPart, TimerSwitch};
use crate::scenario::run::ScheduledTime;
use crate::session::ground_truth::{GroundTruth, RunGroundTruth};
use crate::time::spoken;
use crate::units::for_text;

/// How far trippers and dial may be from the ordered times, min (READ, 40 CFR Part 50 App. B, 7.7.2).
const TIMER_OFF_MIN: f64 = 30.0;
/// How far the chart may be from the hour, min (CHOSEN: half of its finest division).
const HOUR_OFF_MIN: f64 = 10.0;
/// How far the pen may be from the set point when the controller is set, divisions (CHOSEN).
const SET_OFF: f64 = 1.0;
/// The most points of a trace that a chart may have when the site is left: what the pen draws while
/// the doors are being shut.
const LITTLE_INK: usize = 40;
/// How far a reading of the elapsed-time meter may be off, min.
pub(super) const METER_OFF_MIN: f64 = 0.6;
/// Running time before the controller is set, s (READ, 40 CFR Part 50 App. B, 8.7).
const WARM_S: f64 = 300.0;

/// The moment of leaving with what was true then, if the site was left for a run.
fn leaving<'a>(evidence: &Evidence<'a>) -> Option<(At<'a>, &'a GroundTruth, &'a RunGroundTruth)> {
    let at = evidence.leaving()?;
    Some((at, at.facts(), at.facts().run.as_ref()?))
}

/// The outcome at the moment of leaving; without a run the rule was not reached.
pub(super) fn at_leaving(
    evidence: &Evidence<'_>,
    wrong: impl Fn(&GroundTruth, &RunGroundTruth) -> Option<String>,
) -> Outcome {
    Outcome::over(leaving(evidence), |(at, facts, run)| {
        Some(Slip::at(at.tick(), wrong(facts, run)?))
    })
}

/// A text, if something was wrong.
pub(super) fn when(wrong: bool, text: &str) -> Option<String> {
    wrong.then(|| text.to_owned())
}

/// How trippers or dial differ from the ordered times, on and off.
pub(super) fn hours_off(
    evidence: &Evidence<'_>,
    ordered: [ScheduledTime; 2],
    run: &RunGroundTruth,
) -> Option<String> {
    let today = evidence.setup.station.date;
    let off_min = |(weekday, hours): (Option<u8>, f64), ordered: ScheduledTime| {
        let day = f64::from(today.later(i64::from(ordered.day)).weekday());
        let stands = weekday.map_or(day, f64::from) * 24.0 + hours;
        let off = stands - day * 24.0 - ordered.at.hours();
        60.0 * ((off + 84.0).rem_euclid(168.0) - 84.0)
    };
    let ([on, off], [on_ordered, off_ordered]) = (run.trippers, ordered);
    let wrong = [
        (off_min(on, on_ordered), "the on tripper was set", ["too early", "too late"]),
        (off_min(off, off_ordered), "the off tripper was set", ["too early", "too late"]),
        (run.dial_ahead_min, "the dial was", ["behind the watch", "ahead of the watch"]),
    ];
    let found = wrong.iter().find(|(minutes, ..)| beyond(minutes.abs(), TIMER_OFF_MIN));
    found
        .map(|(minutes, what, sides)| format!("{what} {}", by_minutes(*minutes, *sides)))
        .or_else(|| when(run.tripper_loose.contains(&true), "a tripper was loose"))
}

/// A difference in whole minutes and its side: "1 h 30 min too late".
fn by_minutes(minutes: f64, [before, after]: [&str; 2]) -> String {
    let side = if minutes < 0.0 { before } else { after };
    format!("{} {side}", spoken(minutes.abs().round() as u64 * 60))
}

/// Why the timer is not in charge, or has no power.
pub(super) fn not_in_charge(facts: &GroundTruth, run: &RunGroundTruth) -> Option<String> {
    if run.timer_switch != TimerSwitch::Auto {
        Some("the timer's switch was not on auto".to_owned())
    } else if facts.blower_plug != BlowerPlug::Controller {
        Some("the blower was not plugged into the controller".to_owned())
    } else {
        when(!facts.sampler_cord_in, "the sampler's cord was unplugged")
    }
}

/// Why the chart will not take the trace of a run.
pub(super) fn chart_off(run: &RunGroundTruth) -> Option<String> {
    if run.chart_ahead_min.abs() > HOUR_OFF_MIN {
        let sides = ["behind the time", "ahead of the time"];
        Some(format!("the chart was {}", by_minutes(run.chart_ahead_min, sides)))
    } else {
        when(run.chart_ink > LITTLE_INK, "the chart already had a trace on it")
    }
}

/// Why the pen will leave no trace.
pub(super) fn pen_not_ready(facts: &GroundTruth) -> Option<String> {
    match (facts.capped, facts.on_paper) {
        (false, true) => None,
        (true, _) => Some("the pen was capped".to_owned()),
        (false, false) => Some("the pen was off the paper".to_owned()),
    }
}

/// The ordered run is made, if the calibration was accepted.
///
/// Broken by signing after the set point; kept by leaving the site for the run, or by a refusal.
pub static RUN_MADE: ProcedureRule = ProcedureRule {
    id: "run-made",
    title: "Make the run that is ordered",
    why: "The calibration is made for the sample, and without the run there is no sample.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        let ordered = evidence.setup.work_order.run.is_some();
        let accepted = evidence.verdict() == TraineeDecision::Accepted;
        if evidence.run_was_made() {
            return Outcome::Kept;
        }
        if !ordered || !accepted || evidence.fled_from_thunder() {
            return Outcome::NotReached;
        }
        let text = "accepted, but the ordered run was not made";
        Outcome::broken(Slip::at(evidence.end_tick, text))
    },
};

/// The controller is set on a warm blower.
///
/// Broken by writing the start reading after a minute of running; kept by five minutes.
pub static SET_WARM: ProcedureRule = ProcedureRule {
    id: "set-on-warm-blower",
    title: "Set the controller on a warm blower",
    why: "A cold blower heats the air less, so the pen shows a different flow when it is warm.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 8.7"),
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        if !evidence.run_was_made() {
            return Outcome::NotReached;
        }
        let Some(at) = evidence.read(Field::StartChart) else {
            return Outcome::without(evidence, Field::StartChart);
        };
        let facts = at.facts();
        if facts.running_s >= WARM_S && facts.blower_plug == BlowerPlug::Controller {
            return Outcome::Kept;
        }
        let text = format!(
            "start reading after {} of running; {} on the controller is required",
            spoken(facts.running_s as u64),
            spoken(WARM_S as u64)
        );
        Outcome::broken(Slip::at(at.tick(), text))
    },
};

/// Why the filter of the run is not clamped tight on its holder.
pub(super) fn filter_not_clamped(facts: &GroundTruth) -> Option<String> {
    let lies = |part| place(facts, part) == PartPlace::Holder;
    if !lies(RigPart::Filter) {
        Some("no filter on the holder".to_owned())
    } else if !lies(RigPart::Frame) {
        Some("the hold-down frame off".to_owned())
    } else {
        when(loose_nuts(facts) > 0, "nuts that were not tight")
    }
}

/// The pen is at the set point when the controller is set, and its reading is written.
///
/// Within a division of the set point, with the filter of the run clamped, and as the pen showed. Broken
/// by leaving the screw as found, or by setting it with the hold-down frame off; kept by trimming and
/// writing the start reading.
pub static AT_SET_POINT: ProcedureRule = ProcedureRule {
    id: "trimmed-to-set-point",
    title: "Trim the controller to the set point and write the reading",
    why: "The set point gives its flow only if the pen is really there.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        let Some((at, ..)) = leaving(evidence) else { return Outcome::NotReached };
        let slip = |text: String| Outcome::broken(Slip::at(at.tick(), text));
        let number = |field| evidence.book.number(field);
        let Some(read) = evidence.reading(Field::StartChart) else {
            return slip("left without a start reading".to_owned());
        };
        let Some(start) = number(Field::StartChart) else {
            return Outcome::without(evidence, Field::StartChart);
        };
        // What is still so when the site is left is what other rules are about.
        let set =
            evidence.read(Field::StartChart).filter(|_| filter_not_clamped(at.facts()).is_none());
        if let Some(wrong) = set.and_then(|at| filter_not_clamped(at.facts())) {
            return slip(format!("the controller was set with {wrong}"));
        }
        let pen = read.seen;
        if beyond((start - pen).abs(), 1.0) {
            let pen = for_text(pen, 1);
            return slip(format!("wrote start reading {start}, but the pen was at {pen:.1}"));
        }
        match number(Field::SetPoint) {
            Some(wanted) if beyond((start - wanted).abs(), SET_OFF) => {
                slip(format!("the pen was set to {start}, but the set point is {wanted}"))
            }
            Some(_) => Outcome::Kept,
            None => Outcome::without(evidence, Field::SetPoint),
        }
    },
};

/// The trippers are at the ordered times on a dial that shows the right time.
///
/// Within 30 min, including the day, and held by their screws. Broken by a dial that stopped while the
/// cord was unplugged for an hour; kept by setting it to the watch.
pub static TIMER_AS_ORDERED: ProcedureRule = ProcedureRule {
    id: "timer-as-ordered",
    title: "Timer on and off at the ordered times",
    why: "A sample of another day than ordered cannot be compared with other stations.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 7.7.2"),
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        let Some(order) = &evidence.setup.work_order.run else { return Outcome::NotReached };
        at_leaving(evidence, |_, run| hours_off(evidence, [order.on, order.off], run))
    },
};

/// The timer is in charge, and has power.
///
/// Broken by leaving the switch on, or the cord unplugged; kept by auto, and the blower on its
/// controller.
pub static TIMER_IN_CHARGE: ProcedureRule = ProcedureRule {
    id: "timer-in-charge",
    title: "Timer on auto, cord plugged in, blower on the controller",
    why: "A run that the timer does not control begins at an unknown time, or never.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| at_leaving(evidence, not_in_charge),
};

/// A fresh chart is on, with the current hour under the pen.
///
/// Within 10 min, and with next to no trace on it. Broken by the chart of the calibration; kept by a
/// fresh one.
pub static CHART_AT_HOUR: ProcedureRule = ProcedureRule {
    id: "chart-at-hour",
    title: "Fresh chart at the right hour",
    why: "Traces on top of each other cannot be read, and neither can a trace at the wrong hour.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| at_leaving(evidence, |_, run| chart_off(run)),
};

/// The pen is uncapped and on the paper.
///
/// Broken by leaving it lifted after the chart was changed; kept by lowering it.
pub static PEN_READY: ProcedureRule = ProcedureRule {
    id: "pen-ready",
    title: "Pen uncapped and on the paper when you leave the site",
    why: "Without a trace nobody knows the flow of the day.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| at_leaving(evidence, |facts, _| pen_not_ready(facts)),
};

/// Lid and door are shut.
///
/// Broken by leaving one open; kept by both.
pub static DOORS_SHUT: ProcedureRule = ProcedureRule {
    id: "doors-shut",
    title: "Lid and recorder door shut when you leave the site",
    why: "Otherwise rain and wind get in, and without its lid the inlet does not work as designed.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        at_leaving(evidence, |facts, run| {
            let lid = when(facts.lid_open, "the lid was left open");
            lid.or_else(|| when(run.recorder_open, "the recorder's door was left open"))
        })
    },
};

/// The reading of the elapsed-time meter before the run is written.
///
/// As it is when the site is left. Broken by writing it before the blower was warmed up; kept by
/// writing it last.
pub static METER_BEFORE: ProcedureRule = ProcedureRule {
    id: "meter-before",
    title: "Write the elapsed-time meter before the run",
    why: "The minutes of the run are the difference of two readings.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        let written = evidence.book.number(Field::MeterBefore);
        at_leaving(evidence, |_, run| match written {
            Some(written) if (written - run.meter_min).abs() <= METER_OFF_MIN => None,
            Some(written) => {
                let meter = run.meter_min;
                Some(format!(
                    "wrote {written} min, but the elapsed-time meter showed {meter:.1} min"
                ))
            }
            None => {
                Some("the reading of the elapsed-time meter before the run is missing".to_owned())
            }
        })
    },
};
