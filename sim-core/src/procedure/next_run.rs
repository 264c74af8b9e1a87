//! Phase K, the next run set up: filter, timer, chart and pen, as they are when the book is signed.
//!
//! These rules apply only if a next run is ordered and the run before it was made; a run that was not
//! made has a rule of its own ([`super::load::RUN_MADE`]), and so has the lid
//! ([`super::restore::LID_CLOSED`]).

use super::evidence::{Evidence, loose_nuts, place, same_serial};
use super::load::{chart_off, hours_off, not_in_charge, pen_not_ready, when};
use super::outcome::Outcome;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::field_book::Field;
use crate::rig::parts::{FilterSide, PartPlace, RigPart, Seat};
use crate::session::ground_truth::{GroundTruth, RunGroundTruth};

/// Whether the sampler should have been set up for a next run when the book was signed.
pub(super) fn was_to_be_armed(evidence: &Evidence<'_>) -> bool {
    let ordered = evidence.setup.work_order.next_run().is_some();
    ordered && evidence.run_was_made() && !evidence.fled_from_thunder()
}

/// The outcome at the end, if a next run was to be set up.
fn at_end(
    evidence: &Evidence<'_>,
    wrong: impl Fn(&GroundTruth, &RunGroundTruth) -> Option<String>,
) -> Outcome {
    let run = evidence.end.run.as_ref().filter(|_| was_to_be_armed(evidence));
    Outcome::over(run, |run| Some(Slip::at(evidence.end_tick, wrong(evidence.end, run)?)))
}

/// A fresh, sound filter lies centred under a tight hold-down frame, rough side up.
///
/// It decides if there is none, or none that is sound. Broken by an empty holder, or a nut that turns
/// freely; kept by a filter from the folder, clamped.
pub static NEXT_FILTER: ProcedureRule = ProcedureRule {
    id: "next-filter",
    title: "Fit a fresh filter for the next run",
    why: "When the timer switches on, the sampler draws air through whatever is on the holder.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Recover,
    repair: Repair::None,
    test: |evidence| match at_end(evidence, unfit) {
        Outcome::Kept => at_end(evidence, ill_fitted).mild(),
        wrong => wrong,
    },
};

/// Why nothing that is weighed comes of the next run.
fn unfit(facts: &GroundTruth, run: &RunGroundTruth) -> Option<String> {
    let on = |part| place(facts, part) == PartPlace::Holder;
    let Some(sheet) = run.next_sheet.filter(|_| on(RigPart::Filter)) else {
        return Some("there was no fresh filter on the holder for the next run".to_owned());
    };
    [
        (sheet.holes_mm2 > 0.0, "the filter for the next run had holes"),
        (sheet.wetness > 1.1, "the filter for the next run was wet"),
        (!on(RigPart::Frame), "there was no hold-down frame on the filter for the next run"),
    ]
    .into_iter()
    .find_map(|(wrong, text)| when(wrong, text))
}

/// How the filter for the next run lies wrong. As in the run before, it costs marks and decides nothing.
fn ill_fitted(facts: &GroundTruth, run: &RunGroundTruth) -> Option<String> {
    let sheet = run.next_sheet?;
    let loose = loose_nuts(facts);
    if sheet.up == FilterSide::Smooth {
        Some("the filter for the next run was fitted smooth side up".to_owned())
    } else if sheet.seat == Seat::Shifted {
        Some("the filter for the next run was off centre, with one margin bare".to_owned())
    } else {
        (loose > 0).then(|| format!("nuts that were not hand-tight for the next run: {loose}"))
    }
}

/// The number of the filter that is fitted for the next run is written.
///
/// Broken by a blank, or by the number of the exposed filter; kept whether in capitals or not.
pub static NEXT_NUMBER: ProcedureRule = ProcedureRule {
    id: "next-filter-written",
    title: "Write the number of the next filter",
    why: "Whoever recovers the filter must know which one it is.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Recover,
    repair: Repair::None,
    test: |evidence| {
        let filters = evidence.setup.work_order.run.as_ref().map(|run| &run.filters);
        let sheet = evidence.end.run.as_ref().and_then(|run| run.next_sheet);
        let fitted = sheet.filter(|_| was_to_be_armed(evidence)).and_then(|sheet| {
            filters?.get(usize::from(sheet.number).checked_sub(1)?).map(|entry| &entry.number)
        });
        Outcome::over(fitted, |number| {
            let text = match evidence.book.text(Field::NextFilterNumber) {
                None => "the number of the next filter is missing".to_owned(),
                Some(written) if !same_serial(written, number) => {
                    format!("wrote next filter {written}, but {number} was fitted")
                }
                Some(_) => return None,
            };
            Some(Slip::at(evidence.end_tick, text))
        })
    },
};

/// Trippers, dial and switch are set for the next run, and the sampler has power.
///
/// Within 30 min, including the day. Broken by the trippers of the run that is over, or by a dial that
/// stopped during a power cut or while the cord was unplugged; kept by setting both, the dial by the
/// watch.
pub static NEXT_TIMER: ProcedureRule = ProcedureRule {
    id: "next-timer",
    title: "Set timer and dial for the next run, and leave the timer in charge",
    why: "A run at the wrong time, or no run at all, is discovered only when it is too late.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::read("40 CFR Part 50, App. B, 7.7.2"),
    phase: WorkPhase::Recover,
    repair: Repair::None,
    test: |evidence| {
        let Some(next) = evidence.setup.work_order.next_run() else { return Outcome::NotReached };
        at_end(evidence, |facts, run| {
            let off = hours_off(evidence, [next.on, next.off], run);
            off.or_else(|| not_in_charge(facts, run)).map(|text| format!("next run: {text}"))
        })
    },
};

/// A fresh chart is on at the right hour, the pen is uncapped and down, and the recorder's door is
/// shut.
///
/// Broken by the chart of the end reading, or a pen with its cap on; kept by a fresh chart.
pub static NEXT_CHART: ProcedureRule = ProcedureRule {
    id: "next-chart",
    title: "Fresh chart at the right hour for the next run, pen down, door shut",
    why: "Nobody will come by to lower the pen before the timer switches on.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Recover,
    repair: Repair::None,
    test: |evidence| {
        at_end(evidence, |facts, run| {
            let door = || when(run.recorder_open, "the recorder's door was left open");
            let wrong = chart_off(run).or_else(|| pen_not_ready(facts)).or_else(door);
            wrong.map(|text| format!("next run: {text}"))
        })
    },
};
