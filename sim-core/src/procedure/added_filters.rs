//! Phase I, the test of the flow controller: more clean filters are laid on the first, and the flow must
//! not change (40 CFR Part 50 App. B, 9.3.11).
//!
//! The pen shows the change. It stands a little higher where the controller holds the flow, because the
//! motor that works harder heats the air at the exhaust, and it falls where the controller is at its end.

use super::evidence::{At, Evidence, loose_nuts, place};
use super::flow_check::own_air;
use super::load::{at_leaving, when};
use super::outcome::{Outcome, beyond};
use super::own_sums::own_curve;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::field_book::Field;
use crate::rig::parts::{BlowerPlug, PartPlace, RigPart};
use crate::scenario::setup::AddedFiltersOrder;
use crate::session::ground_truth::GroundTruth;
use crate::units::for_text;

/// Running time before a reading, s (READ for setting the controller, 40 CFR Part 50 App. B, 8.7).
const WARM_S: f64 = 300.0;
/// Time for which the flow has been steady before a reading, s (CHOSEN: the controller settles in 12).
const STEADY_S: f64 = 15.0;
/// How far the setting of the trim screw may be from the one at the start reading, m3/min (CHOSEN: less
/// than an eye can tell).
const TRIMMED_M3_MIN: f64 = 1e-4;
/// How far a written change of the flow may be from what the readings give, percent (CHOSEN: half a
/// division of the pen, and either the calibration line or the proportion of the readings).
const CHANGE_OFF_PCT: f64 = 1.1;
/// How near to its limit a change makes either answer right, percent (CHOSEN).
const NEAR_PCT: f64 = 1.0;

/// Where the pen with each added filter is written, and the change of the flow.
const CHARTS: [Field; 2] = [Field::SecondFilterChart, Field::ThirdFilterChart];
const CHANGES: [Field; 2] = [Field::SecondFilterChange, Field::ThirdFilterChange];

/// The test that should have been made: it belongs to a run.
fn ordered(evidence: &Evidence<'_>) -> Option<AddedFiltersOrder> {
    evidence.setup.work_order.added_filters().filter(|_| evidence.run_was_made())
}

/// A reading with added filters.
pub(crate) struct AddedReading<'a> {
    /// Where the pen is written.
    pub chart: Field,
    /// Where the change of the flow is written.
    pub change: Field,
    /// How many filters lie on the first.
    pub sheets: u8,
    /// When the pen was read, if it was.
    pub at: Option<At<'a>>,
}

impl AddedReading<'_> {
    /// "the second filter".
    const fn words(&self) -> &'static str {
        if self.sheets == 1 { "the second filter" } else { "the third filter" }
    }
}

/// The readings that are ordered.
pub(crate) fn readings<'a>(
    evidence: &Evidence<'a>,
    order: AddedFiltersOrder,
) -> Vec<AddedReading<'a>> {
    (1..=order.sheets)
        .zip(CHARTS.into_iter().zip(CHANGES))
        .map(|(sheets, (chart, change))| {
            let at = evidence.read(chart);
            AddedReading { chart, change, sheets, at }
        })
        .collect()
}

/// By how much more flow the trainee's line gives for one pen than for another, percent.
fn change_pct(evidence: &Evidence<'_>, start: f64, now: f64) -> Option<f64> {
    let air = own_air(evidence)?;
    let curve = own_curve(evidence)?.in_air(air);
    let flow = |chart| curve.flow_std_m3_min(chart, air).ok();
    Some(100.0 * (flow(now)? / flow(start)? - 1.0))
}

/// The change that follows from the trainee's readings.
pub(crate) fn own_change_pct(evidence: &Evidence<'_>, chart: Field) -> Option<f64> {
    let number = |field| evidence.book.number(field);
    change_pct(evidence, number(Field::StartChart)?, number(chart)?)
}

/// The fewest and the most filters with which the flow is held, by a pen without friction: both are the
/// same unless a change is near its limit.
pub(crate) fn truly_held(evidence: &Evidence<'_>, order: AddedFiltersOrder) -> Option<[u8; 2]> {
    let start = evidence.read(Field::StartChart)?.facts().pen_at_rest;
    let changes: Option<Vec<f64>> = readings(evidence, order)
        .iter()
        .map(|reading| change_pct(evidence, start, reading.at?.facts().pen_at_rest))
        .collect();
    let changes = changes?;
    let within =
        |limit: f64| 1 + changes.iter().take_while(|change| change.abs() <= limit).count() as u8;
    Some([within(order.within_pct - NEAR_PCT), within(order.within_pct + NEAR_PCT)])
}

/// How the holder at a reading differs from one with so many clean filters on the first, on the
/// controller.
fn otherwise(facts: &GroundTruth, sheets: u8) -> Option<String> {
    let lies = |part| place(facts, part) == PartPlace::Holder;
    let added = facts.run.as_ref().map_or(0, |run| run.added_filters);
    if added != sheets || !lies(RigPart::Filter) {
        let there = u8::from(lies(RigPart::Filter)) + added;
        Some(format!("{there} of {} filters on the holder", sheets + 1))
    } else if !lies(RigPart::Frame) {
        Some("the hold-down frame off".to_owned())
    } else {
        when(facts.blower_plug != BlowerPlug::Controller, "the blower not on its controller")
    }
}

/// The pen is read with each of the ordered filters.
///
/// A reading is one with all of its filters under the hold-down frame and the blower on its controller.
/// Broken by leaving one out, or by reading it with one filter too few; kept by all of them.
pub static ADDED_MADE: ProcedureRule = ProcedureRule {
    id: "added-filters-made",
    title: "Test the controller with as many added filters as ordered",
    why: "A filter that loads resists more and more: a controller at its end loses the flow in the night.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::read("40 CFR Part 50, App. B, 9.3.11"),
    phase: WorkPhase::Load,
    repair: Repair::None,
    test: |evidence| {
        let Some(order) = ordered(evidence) else { return Outcome::NotReached };
        Outcome::over(readings(evidence, order), |reading| {
            let words = reading.words();
            let Some(at) = reading.at.filter(|_| evidence.book.number(reading.chart).is_some())
            else {
                let text = format!("the pen was not read with {words}");
                return Some(Slip::at(evidence.end_tick, text));
            };
            let wrong = otherwise(at.facts(), reading.sheets)?;
            Some(Slip::at(at.tick(), format!("the pen for {words} was read with {wrong}")))
        })
    },
};

/// The pen is read on a warm blower with the setting of the run, and nothing leaks.
///
/// Broken by reading a minute after the start, or with loose nuts; kept by five minutes.
pub static ADDED_AS_IT_RUNS: ProcedureRule = ProcedureRule {
    id: "added-filters-as-it-runs",
    title: "Read the pen with added filters on a warm, tight sampler",
    why: "A cold blower, a leak or another setting of the screw moves the pen as well.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 8.7 and 9.3.11"),
    phase: WorkPhase::Load,
    repair: Repair::None,
    test: |evidence| {
        let Some(order) = ordered(evidence) else { return Outcome::NotReached };
        let set = |facts: &GroundTruth| facts.run.as_ref().map(|run| run.set_std_m3_min);
        let trimmed = evidence.read(Field::StartChart).and_then(|at| set(at.facts()));
        let read: Vec<_> = readings(evidence, order)
            .into_iter()
            .filter_map(|reading| Some((reading.words(), reading.at?)))
            .collect();
        Outcome::over(read, |(words, at)| {
            let facts = at.facts();
            let moved = trimmed
                .zip(set(facts))
                .is_some_and(|(one, other)| (one - other).abs() > TRIMMED_M3_MIN);
            let wrong = if facts.running_s < WARM_S {
                "a cold blower"
            } else if facts.steady_s < STEADY_S {
                "a flow that had not settled"
            } else if loose_nuts(facts) > 0 {
                "nuts that were not tight"
            } else if moved {
                "the trim screw turned since the start reading"
            } else {
                return None;
            };
            Some(Slip::at(at.tick(), format!("the pen for {words} was read with {wrong}")))
        })
    },
};

/// The changes of the flow follow from the trainee's readings.
///
/// Within 1.1 percent of what the calibration line gives. Broken by a wrong sign; kept by the proportion
/// of the chart readings.
pub static ADDED_SUMS: ProcedureRule = ProcedureRule {
    id: "added-filters-sums",
    title: "Calculate by how many percent the flow changed with each added filter",
    why: "The change is what is compared with the limit.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Load,
    repair: Repair::None,
    test: |evidence| {
        let Some(order) = ordered(evidence) else { return Outcome::NotReached };
        let own: Vec<_> = readings(evidence, order)
            .into_iter()
            .filter_map(|reading| Some((own_change_pct(evidence, reading.chart)?, reading)))
            .collect();
        Outcome::over(own, |(own, reading)| {
            let written = evidence.book.number(reading.change);
            if written.is_some_and(|written| !beyond((written - own).abs(), CHANGE_OFF_PCT)) {
                return None;
            }
            let tick = evidence.written(reading.change).map_or(evidence.end_tick, |at| at.tick());
            let wrote = written.map_or_else(|| "nothing".to_owned(), |number| number.to_string());
            let (words, own) = (reading.change.label(), for_text(own, 1));
            let text = format!("{words}: wrote {wrote}, but your readings give {own:+.1} %");
            Some(Slip::at(tick, text))
        })
    },
};

/// The number of filters with which the flow is held is right.
///
/// Near the limit either number is right. Broken by writing that two are held where the pen fell by a
/// tenth; kept by writing one.
pub static ADDED_JUDGED: ProcedureRule = ProcedureRule {
    id: "added-filters-judged",
    title: "Write with how many filters the controller holds the flow",
    why: "A controller that cannot hold the flow against a second filter has no reserve for a dusty day.",
    severity: Severity::Data,
    decides: Decides::Always,
    // That added filters must not change the flow is read; how many there must be, from memory.
    source: RuleSource::read("40 CFR Part 50, App. B, 9.3.11"),
    phase: WorkPhase::Load,
    repair: Repair::None,
    test: |evidence| {
        let Some(order) = ordered(evidence) else { return Outcome::NotReached };
        let Some([fewest, most]) = truly_held(evidence, order) else {
            return Outcome::NotReached;
        };
        let Some(at) = evidence.written(Field::FiltersHeld) else {
            return Outcome::without(evidence, Field::FiltersHeld);
        };
        let Some(written) = evidence.book.number(Field::FiltersHeld) else {
            return Outcome::without(evidence, Field::FiltersHeld);
        };
        let right = f64::from(fewest)..=f64::from(most);
        let whole = written.fract().abs() < 1e-9;
        let text = format!(
            "wrote that the flow is held with {written} filters, but within {} % it is held with {most}",
            order.within_pct
        );
        Outcome::at(at.tick(), (!whole || !right.contains(&written)).then_some(text))
    },
};

/// The added filters are off again before the run.
///
/// Broken by leaving with one still on the holder; kept by taking both off.
pub static ADDED_OFF: ProcedureRule = ProcedureRule {
    id: "added-filters-off",
    title: "Take the added filters off before the run",
    why: "The topmost filter takes the dust, and only the weighed one goes to the laboratory.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        if ordered(evidence).is_none() {
            return Outcome::NotReached;
        }
        at_leaving(evidence, |_, run| {
            let count = run.added_filters;
            let text = match count {
                1 => "left with an added filter on that of the run".to_owned(),
                _ => format!("left with {count} added filters on that of the run"),
            };
            (count > 0).then_some(text)
        })
    },
};
