//! The history of the sampler in words: what was done to it, and its control chart, drawn with
//! characters.

use std::fmt::Write as _;

use sim_core::control_chart::{
    ACTION_SD, BASE_CHECKS, ChartLimits, ChartPoint, ControlChart, WARNING_SD,
};
use sim_core::field_book::FieldBook;
use sim_core::scenario::setup::{PastWork, SamplerHistory};
use sim_core::session::SitePapers;

use crate::printable::printable;

/// Columns of the chart that is drawn with characters, and how many standard deviations they reach on
/// either side of the centre line.
const COLUMNS: usize = 49;
const REACH_SD: f64 = 8.0;

/// The page of the history: visits, flow checks on the chart, and the limits.
pub fn history_page(papers: &SitePapers, book: &FieldBook) -> String {
    let Some(history) = &papers.work_order.history else {
        return "There is no record of this sampler's history.".to_owned();
    };
    let sampler = printable(&papers.station.sampler_serial);
    let mut text = format!("History of sampler {sampler}\n");
    let chart = papers.control_chart(book);
    let limits = chart.as_ref().map(ControlChart::limits);
    visits(history, limits, &mut text);
    let _ = match (chart.as_ref().and_then(|chart| chart.points().last()), limits) {
        (Some(last), Some(limits)) if last.date == papers.station.date => {
            writeln!(text, "{}  your check of today", check_row(*last, limits))
        }
        _ => writeln!(text, "  {}   ____ %  the check of today", papers.station.date),
    };
    if let Some(limits) = limits {
        text.push_str(&limits_told(limits));
    }
    if let Some(check) = papers.work_order.flow_check {
        let _ = writeln!(text, "A check is passed within ±{} % on its day.", check.within_pct);
    }
    text.push_str(
        "Enter today's check with `write control chart point`, and say what the chart shows: \
         `call the control chart in control`, `a drift`, `a jump` or `out of limits`, and what \
         follows.",
    );
    text
}

/// Every visit on a line of its own.
fn visits(history: &SamplerHistory, limits: Option<ChartLimits>, text: &mut String) {
    for visit in history.visits() {
        let date = visit.date;
        // Writing into a String cannot fail.
        let _ = match &visit.work {
            PastWork::FlowCheck { difference_pct } => {
                let point = ChartPoint { date, difference_pct: *difference_pct };
                match limits {
                    Some(limits) => writeln!(text, "{}", check_row(point, limits)),
                    None => writeln!(text, "  {date}  {difference_pct:>+5.1} %"),
                }
            }
            PastWork::Calibration { slope, intercept } => {
                writeln!(text, "  {date}  calibration: slope {slope:.2}, intercept {intercept:.2}")
            }
            PastWork::Repair { text: what } => {
                writeln!(text, "  {date}  repair: {}", printable(what))
            }
            PastWork::Note { text: what } => writeln!(text, "  {date}  note: {}", printable(what)),
        };
    }
}

/// A flow check, its number first and then its place on the chart.
fn check_row(point: ChartPoint, limits: ChartLimits) -> String {
    let date = point.date;
    format!("  {date}  {:>+5.1} %  {}", point.difference_pct, strip(point, limits))
}

/// A point between its limits: `!` action, `:` warning, `|` centre line, `o` the point, `<` and `>` a
/// point beyond the paper.
fn strip(point: ChartPoint, limits: ChartLimits) -> String {
    let column = |sds: f64| {
        let share = (sds + REACH_SD) / (2.0 * REACH_SD);
        (share * (COLUMNS - 1) as f64).round().clamp(0.0, (COLUMNS - 1) as f64) as usize
    };
    let mut row = [' '; COLUMNS];
    let mut mark = |sds: f64, with: char| {
        if let Some(place) = row.get_mut(column(sds)) {
            *place = with;
        }
    };
    for (sds, with) in [(ACTION_SD, '!'), (WARNING_SD, ':')] {
        mark(sds, with);
        mark(-sds, with);
    }
    mark(0.0, '|');
    let off = (point.difference_pct - limits.centre_pct) / limits.sd_pct;
    if off.is_finite() {
        mark(
            off,
            if off > REACH_SD {
                '>'
            } else if off < -REACH_SD {
                '<'
            } else {
                'o'
            },
        );
    }
    row.into_iter().collect::<String>().trim_end().to_owned()
}

/// The limits of the chart in a sentence or two.
pub fn limits_told(limits: ChartLimits) -> String {
    let [warning_low, warning_high] = limits.warning_pct();
    let [low, high] = limits.action_pct();
    format!(
        "Control chart: centre line (|) {:+.1} % and standard deviation {:.2} %, from the first \
         {BASE_CHECKS} checks.\nWarning limits (:) {warning_low:+.1} and {warning_high:+.1} %, action \
         limits (!) {low:+.1} and {high:+.1} %.\n",
        limits.centre_pct, limits.sd_pct
    )
}

/// The chart for those who hear it: the limits, and the checks that are held against them.
pub fn chart_told(chart: &ControlChart) -> String {
    let limits = chart.limits();
    let said: Vec<String> = chart.points().iter().map(|point| beside(*point, limits)).collect();
    let [[warning_low, warning_high], [low, high]] = [limits.warning_pct(), limits.action_pct()];
    format!(
        "Control chart, percent differences of the flow checks. Centre line {:+.1} %, warning limits \
         {warning_low:+.1} and {warning_high:+.1} %, action limits {low:+.1} and {high:+.1} %. {}.",
        limits.centre_pct,
        said.join("; ")
    )
}

/// A check with the limit that it is beyond.
fn beside(point: ChartPoint, limits: ChartLimits) -> String {
    let ChartPoint { date, difference_pct } = point;
    let beyond = |[low, high]: [f64; 2]| !(low..=high).contains(&difference_pct);
    let zone = if beyond(limits.action_pct()) {
        ", beyond the action limit"
    } else if beyond(limits.warning_pct()) {
        ", beyond the warning limit"
    } else {
        ""
    };
    format!("{date} {difference_pct:+.1} %{zone}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use sim_core::time::Date;

    #[test]
    fn a_point_is_drawn_between_its_limits() {
        let date = Date::new(2026, 6, 16).expect("a day");
        let limits = ChartLimits { centre_pct: -1.8, sd_pct: 0.5 };
        let drawn = |difference_pct| strip(ChartPoint { date, difference_pct }, limits);
        assert_eq!(drawn(-1.8), "               !  :     o     :  !");
        assert_eq!(drawn(-0.3), "               !  :     |     :  o");
        assert_eq!(drawn(-9.0), "<              !  :     |     :  !");
        assert_eq!(drawn(2.4), "               !  :     |     :  !              >");
        let told = [-1.8, -0.7, 2.4]
            .map(|difference_pct| beside(ChartPoint { date, difference_pct }, limits));
        assert_eq!(
            told,
            [
                "2026-06-16 -1.8 %",
                "2026-06-16 -0.7 %, beyond the warning limit",
                "2026-06-16 +2.4 %, beyond the action limit"
            ]
        );
    }
}
