//! The history of the sampler: today's flow check on its control chart, what the chart shows, and what
//! follows from it.
//!
//! The chart and its convention are those of [`crate::control_chart`]. The rules apply only if the
//! sampler has a history and its flow check was to be made.

use super::evidence::Evidence;
use super::flow_check::{nothing_to_calculate, ordered, own_check, true_difference_pct};
use super::outcome::{Outcome, beyond};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::control_chart::{ChartPoint, ChartReading, ControlChart};
use crate::field_book::{Decision, Field};
use crate::scenario::setup::SamplerHistory;
use crate::time::Date;
use crate::units::for_text;

/// How far today's point may be from the percent difference in the book, percent: a step of its last
/// digit, and what rounding leaves.
const POINT_OFF_PCT: f64 = 0.11;

/// Where the convention of the chart comes from.
const HANDBOOK: RuleSource =
    RuleSource::memory("NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2");

/// The history, if today's check belongs on its chart.
fn reached<'a>(evidence: &Evidence<'a>) -> Option<&'a SamplerHistory> {
    ordered(evidence).and(evidence.setup.work_order.history.as_ref())
}

/// The charts with today's point as the trainee's readings give it, and as it truly is.
fn charts(evidence: &Evidence<'_>, history: &SamplerHistory) -> Vec<ControlChart> {
    let own = own_check(evidence).map(|own| own.difference_pct());
    let date = evidence.setup.station.date;
    [own, true_difference_pct(evidence)]
        .into_iter()
        .flatten()
        .filter_map(|difference_pct| history.chart(Some(ChartPoint { date, difference_pct })))
        .collect()
}

/// What the trainee decided about the chart.
#[derive(Clone, Copy)]
struct Decided {
    shows: ChartReading,
    calibrate_again: bool,
    in_doubt_since: Option<Date>,
}

fn decided(evidence: &Evidence<'_>) -> Option<(crate::time::Tick, Decided)> {
    match evidence.decided(Field::HistoryReading)? {
        (at, Decision::HistoryRead { shows, calibrate_again, in_doubt_since }, _) => {
            Some((at.tick(), Decided { shows, calibrate_again, in_doubt_since }))
        }
        _ => None,
    }
}

/// Today's check is entered on the control chart as it stands in the book.
///
/// Within 0.1 percent. Broken by a chart that ends with the last visit; kept by the percent difference
/// of the check.
pub static HISTORY_KEPT: ProcedureRule = ProcedureRule {
    id: "history-kept",
    title: "Enter today's flow check on the control chart",
    why: "A chart on which a check is missing hides what the next one would have shown.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        if reached(evidence).is_none() {
            return Outcome::NotReached;
        }
        let book = evidence.book;
        let Some(entered) = book.number(Field::HistoryPoint) else {
            return match book.text(Field::HistoryPoint) {
                Some(_) => Outcome::without(evidence, Field::HistoryPoint),
                None => Outcome::broken(Slip::at(
                    evidence.end_tick,
                    "today's flow check was not entered on the control chart",
                )),
            };
        };
        let Some(difference) = book.number(Field::CheckDifference) else {
            return Outcome::without(evidence, Field::CheckDifference);
        };
        let tick = evidence.written(Field::HistoryPoint).map_or(evidence.end_tick, |at| at.tick());
        let wrong = beyond((entered - difference).abs(), POINT_OFF_PCT);
        Outcome::at(
            tick,
            wrong.then(|| {
                format!(
                    "entered {entered} % on the control chart, but the percent difference of the check \
                     is {difference} %"
                )
            }),
        )
    },
};

/// The control chart is read as it is: in control, or a drift, a jump, or one point out of limits.
///
/// With today's point as the trainee's readings give it, or as it truly is; where two readings are as
/// good, either is right. Broken by "in control" because the check of the day was passed; kept by
/// "drift" where the last checks lead away from the centre line.
pub static HISTORY_READ: ProcedureRule = ProcedureRule {
    id: "history-read",
    title: "Write what the control chart shows",
    why: "A sampler can be within the limit on every day and still not be what it was.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: HANDBOOK,
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        let Some(history) = reached(evidence) else { return Outcome::NotReached };
        if own_check(evidence).is_none() {
            return nothing_to_calculate(evidence);
        }
        let charts = charts(evidence, history);
        let Some(chart) = charts.first() else {
            return Outcome::CannotJudge("the percent difference makes no chart".to_owned());
        };
        let Some((tick, decided)) = decided(evidence) else {
            let text = "it was not written what the control chart shows";
            return Outcome::broken(Slip::at(evidence.end_tick, text));
        };
        let right = charts.iter().any(|chart| chart.supports(decided.shows));
        Outcome::at(tick, (!right).then(|| misread(decided.shows, chart)))
    },
};

/// What is said of a chart that was read wrong.
fn misread(read: ChartReading, chart: &ControlChart) -> String {
    let limits = chart.limits();
    let signals: Vec<&str> = chart.signals().into_iter().map(|signal| signal.words()).collect();
    let why = if signals.is_empty() { "no signal stands".to_owned() } else { signals.join("; ") };
    format!(
        "read as {}, but the control chart shows: {} ({why}; centre line {:+.1} %, standard deviation \
         {:.1} %)",
        read.words(),
        chart.reading().words(),
        for_text(limits.centre_pct, 1),
        for_text(limits.sd_pct, 1),
    )
}

/// What follows from the chart is written: a new calibration after a drift or a jump, and the day since
/// which the flows are in doubt after a jump.
///
/// The day is that of the repair, or any from the last check before the jump to the first after it.
/// Broken by a jump without a date; kept by "jump, calibrate again, in doubt since 2026-02-11". A point
/// out of limits may first be checked again.
pub static HISTORY_ACTED: ProcedureRule = ProcedureRule {
    id: "history-acted",
    title: "Write what follows from the control chart",
    why: "A chart is of use only if something is done about what it shows.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        let Some(history) = reached(evidence) else { return Outcome::NotReached };
        let Some((tick, decided)) = decided(evidence) else { return Outcome::NotReached };
        let charts = charts(evidence, history);
        if charts.is_empty() {
            return nothing_to_calculate(evidence);
        }
        Outcome::at(tick, not_acted(decided, history, &charts))
    },
};

/// What does not follow from what the trainee read, or was left out.
fn not_acted(
    decided: Decided,
    history: &SamplerHistory,
    charts: &[ControlChart],
) -> Option<String> {
    let Decided { shows, calibrate_again, in_doubt_since } = decided;
    let what = shows.words();
    match shows {
        ChartReading::InControl if calibrate_again || in_doubt_since.is_some() => {
            Some("in control, and yet the line or the flows are called into question".to_owned())
        }
        ChartReading::InControl | ChartReading::OutOfLimits => None,
        ChartReading::Drift | ChartReading::Jump if !calibrate_again => {
            Some(format!("{what}, but no new calibration is called for"))
        }
        ChartReading::Drift => None,
        ChartReading::Jump => {
            let spans: Vec<[Date; 2]> =
                charts.iter().filter_map(ControlChart::jumped_between).collect();
            let within = |date: Date| {
                let holds = |&[before, after]: &[Date; 2]| (before..=after).contains(&date);
                spans.iter().any(holds)
            };
            if spans.is_empty() || in_doubt_since.is_some_and(within) {
                return None;
            }
            let on = charts.first().and_then(|chart| history.jumped_on(chart));
            let since = on.map_or_else(String::new, |date| format!(" ({date})"));
            Some(format!(
                "jump, but the day since which the flows are in doubt{since} is not named"
            ))
        }
    }
}
