//! Phase K, recovery: elapsed-time meter, end reading, chart, filter, chain of custody.

use super::evidence::{At, Evidence};
use super::load::METER_OFF_MIN;
use super::outcome::{Outcome, beyond};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::field_book::Field;
use crate::session::ground_truth::RunGroundTruth;
use crate::time::spoken;
use crate::units::for_text;

/// Running time before the end reading, s (READ, 40 CFR Part 50 App. B, 8.11).
const WARM_S: f64 = 300.0;

/// The outcome at the end of a run that was made and to which the trainee came back.
fn at_end(evidence: &Evidence<'_>, wrong: impl Fn(&RunGroundTruth) -> Option<String>) -> Outcome {
    let run = evidence.end.run.as_ref().filter(|run| run.left);
    Outcome::over(run, |run| Some(Slip::at(evidence.end_tick, wrong(run)?)))
}

/// The first moment after the return from the run.
fn back<'a>(evidence: &Evidence<'a>) -> Option<At<'a>> {
    let is_back = |at: &At<'_>| at.facts().run.as_ref().is_some_and(|run| run.back);
    evidence.indexed_events().find(is_back)
}

/// The reading of the elapsed-time meter after the run is written before the blower runs again.
///
/// Broken by reading it after the five minutes for the end reading; kept by reading it first.
pub static METER_AFTER: ProcedureRule = ProcedureRule {
    id: "meter-after",
    title: "Write the elapsed-time meter after the run",
    why: "The running time for the end reading is not part of the sample.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Recover,
    repair: Repair::RedoRunSums,
    test: |evidence| {
        if !evidence.run_was_made() {
            return Outcome::NotReached;
        }
        let Some(at) = evidence.written(Field::MeterAfter) else {
            let text = "the reading of the elapsed-time meter after the run is missing";
            return Outcome::broken(Slip::at(evidence.end_tick, text));
        };
        let Some(written) = evidence.book.number(Field::MeterAfter) else {
            return Outcome::without(evidence, Field::MeterAfter);
        };
        let run = back(evidence).and_then(|at| at.facts().run.as_ref());
        Outcome::over(run.map(|run| run.meter_min), |meter| {
            let text = format!("wrote {written} min, but the run ended at {meter:.1} min");
            beyond((written - meter).abs(), METER_OFF_MIN).then(|| Slip::at(at.tick(), text))
        })
    },
};

/// The end reading is taken after five minutes of running.
///
/// Broken by reading a pen at its zero, or by writing it before the run; kept by switching on and
/// waiting.
pub static END_READING: ProcedureRule = ProcedureRule {
    id: "end-reading",
    title: "Take the end reading on a running, warm blower",
    why: "It shows whether the flow was still where it was set.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 8.11"),
    phase: WorkPhase::Recover,
    repair: Repair::None,
    test: |evidence| {
        if !evidence.run_was_made() {
            return Outcome::NotReached;
        }
        let slip = |tick, text: String| Outcome::broken(Slip::at(tick, text));
        let Some(at) = evidence.read(Field::EndChart) else {
            return slip(evidence.end_tick, "the end reading is missing".to_owned());
        };
        if back(evidence).is_none_or(|back| at.index < back.index) {
            let text = "the end reading was written before the run was over";
            return slip(at.tick(), text.to_owned());
        }
        let (facts, read) = (at.facts(), evidence.reading(Field::EndChart));
        if facts.running_s < WARM_S {
            return slip(
                at.tick(),
                format!(
                    "end reading after {} of running; {} is required",
                    spoken(facts.running_s as u64),
                    spoken(WARM_S as u64)
                ),
            );
        }
        match read.and_then(|read| Some((read.value?, read.seen))) {
            Some((written, pen)) if beyond((written - pen).abs(), 1.0) => {
                let pen = for_text(pen, 1);
                slip(at.tick(), format!("wrote end reading {written}, but the pen was at {pen:.1}"))
            }
            Some(_) => Outcome::Kept,
            None => Outcome::without(evidence, Field::EndChart),
        }
    },
};

/// The chart of the run is kept.
///
/// Broken by leaving it on the recorder; kept by taking it off.
pub static CHART_KEPT: ProcedureRule = ProcedureRule {
    id: "chart-kept",
    title: "Take the chart off and keep it",
    why: "The next run would write over it.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 8.14"),
    phase: WorkPhase::Recover,
    repair: Repair::None,
    test: |evidence| {
        at_end(evidence, |run| {
            (!run.chart_kept).then(|| "the chart of the run was left on the recorder".to_owned())
        })
    },
};

/// The filter is folded with its dirty side in, and is in its envelope.
///
/// Broken by leaving it flat or on the holder; kept by folding it and putting it away.
pub static FILTER_FOLDED: ProcedureRule = ProcedureRule {
    id: "filter-folded",
    title: "Fold the filter dirty side in and put it into its envelope",
    why: "Dust that rubs off on paper is never weighed.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 8.13"),
    phase: WorkPhase::Recover,
    repair: Repair::None,
    test: |evidence| {
        at_end(evidence, |run| match run.sheet.folded_out {
            None => Some("the filter was not folded".to_owned()),
            Some(out) if out == run.sheet.up => {
                Some("the filter was folded with its dirty side out".to_owned())
            }
            Some(_) => {
                (!run.sheet.in_envelope).then(|| "the filter is not in its envelope".to_owned())
            }
        })
    },
};

/// Filter number and chain of custody are written.
///
/// The number is that of the exposed filter. Broken by a blank, or the number of another filter; kept by
/// both entries.
pub static CUSTODY: ProcedureRule = ProcedureRule {
    id: "custody-written",
    title: "Write the filter number and the chain of custody",
    why: "A sample without a number cannot be identified, and without a chain of custody it proves nothing.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Recover,
    repair: Repair::None,
    test: |evidence| {
        let filters = evidence.setup.work_order.run.as_ref().map(|run| &run.filters);
        let text = |field| evidence.book.text(field);
        at_end(evidence, |run| {
            let index = usize::from(run.sheet.number).checked_sub(1)?;
            let number = &filters?.get(index)?.number;
            match (text(Field::FilterNumber), text(Field::Custody)) {
                (None, _) => Some("the filter number is missing".to_owned()),
                (_, None) => Some("the chain of custody is blank".to_owned()),
                (Some(written), _) if !super::evidence::same_serial(written, number) => {
                    Some(format!("wrote filter {written}, but {number} was run"))
                }
                _ => None,
            }
        })
    },
};
