//! The history of the sampler: its control chart, what was read from it, and what it shows.

use content::document::{CellAlign, Table};
use sim_core::control_chart::{ACTION_SD, BASE_CHECKS, ChartPoint, ControlChart, WARNING_SD};
use sim_core::field_book::Field;
use sim_core::scenario::setup::{PastWork, SamplerHistory};

use super::super::document::Block;
use super::super::plots::{ControlChartPlot, Plot};
use super::super::session::SessionReport;

/// The section; nothing where the sampler has no history.
pub fn history(report: &SessionReport<'_>) -> Vec<Block> {
    let session = &report.ended.session;
    let order = &session.setup.work_order;
    let Some(history) = &order.history else { return Vec::new() };
    let today = session.setup.station.date;
    let point = |difference_pct| ChartPoint { date: today, difference_pct };
    let entered = session.book.number(Field::HistoryPoint);
    // The chart is in the terms of the certificates, with the bias of their laboratory.
    let truth = report
        .compared
        .check
        .as_ref()
        .and_then(|check| check.true_difference_pct)
        .map(|difference_pct| session.setup.without_laboratory_pct(difference_pct));
    let Some(drawn) = history.chart(entered.map(point)) else { return Vec::new() };
    let mut blocks = vec![Block::Heading("History of the sampler".to_owned())];
    let limits = drawn.limits();
    let [[warning_low, warning_high], [low, high]] = [limits.warning_pct(), limits.action_pct()];
    blocks.push(Block::Plot {
        plot: Plot::ControlChart(ControlChartPlot::of(history, &drawn, (today, truth))),
        caption: format!(
            "Control chart of the flow checks. Centre line {:+.1} % and standard deviation {:.2} % from \
             the first {BASE_CHECKS} checks; warning limits {WARNING_SD:.0} standard deviations from it \
             ({warning_low:+.1} and {warning_high:+.1} %), action limits {ACTION_SD:.0} ({low:+.1} and \
             {high:+.1} %) (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2).",
            limits.centre_pct, limits.sd_pct
        ),
        description: "Percent difference of each flow check against its date, with the centre line, the \
                      warning and action limits, and the calibrations and repairs."
            .to_owned(),
    });
    let read = session.book.text(Field::HistoryReading).unwrap_or("nothing");
    blocks.push(Block::Paragraph(
        format!("You wrote: {read}. {}", shown(history, truth.map(point))).into(),
    ));
    blocks.push(Block::Table(visits(history)));
    blocks
}

/// What the chart shows with today's true difference.
fn shown(history: &SamplerHistory, truth: Option<ChartPoint>) -> String {
    let Some(chart) = truth.and_then(|truth| history.chart(Some(truth))) else {
        return "No flow check was made that could be entered on the chart.".to_owned();
    };
    let signals: Vec<&str> = chart.signals().into_iter().map(|signal| signal.words()).collect();
    let why = if signals.is_empty() { "no signal stands".to_owned() } else { signals.join("; ") };
    let on = on_what_day(history, &chart);
    format!(
        "With the true value of today the chart shows: {}{on} ({why}).",
        chart.reading().words()
    )
}

/// Since when, if it jumped.
fn on_what_day(history: &SamplerHistory, chart: &ControlChart) -> String {
    let jumped = chart.reading() == sim_core::control_chart::ChartReading::Jump;
    let on = jumped.then(|| history.jumped_on(chart)).flatten();
    on.map_or_else(String::new, |date| format!(", flows in doubt since {date}"))
}

/// Calibrations, repairs and notes.
fn visits(history: &SamplerHistory) -> Table {
    let left = CellAlign::Left;
    let mut table = Table::new([("date", left), ("visit", left), ("what was done", left)]);
    for visit in history.visits() {
        let (kind, what) = match &visit.work {
            PastWork::FlowCheck { .. } => continue,
            PastWork::Calibration { slope, intercept } => {
                ("calibration", format!("slope {slope:.2}, intercept {intercept:.2}"))
            }
            PastWork::Repair { text } => ("repair", text.clone()),
            PastWork::Note { text } => ("note", text.clone()),
        };
        table.row([visit.date.to_string(), kind.to_owned(), what]);
    }
    table
}
