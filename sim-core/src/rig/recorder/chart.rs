//! The recorder's round chart: its clock, the ink on it, and marks made by hand.

use std::sync::Arc;

use super::FlowRecorder;
use crate::digest::{Rolling, digest_fields};

/// Hours per revolution of the chart.
const HOURS_PER_TURN: f64 = 24.0;
/// A point is stored when the pen has moved this far, chart divisions (CHOSEN: half a line's
/// width).
const KEPT_DIVISIONS: f64 = 0.25;
/// A point is stored at least this often, hours: 20 s.
const KEPT_HOURS: f64 = 20.0 / 3600.0;
/// The most points that are stored; beyond it every second point is dropped.
const MOST_POINTS: usize = 8192;
/// The most marks that are stored.
const MOST_MARKS: usize = 200;
/// Longest label, characters.
const LONGEST_LABEL: usize = 60;

/// A point of the trace.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InkPoint {
    /// Hour of the chart, 0 to 24.
    pub hour: f64,
    /// Chart divisions.
    pub divisions: f64,
    /// Whether the pen was set down here or came from the previous point.
    pub stroke: Stroke,
}

/// How a point of the trace follows the previous one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stroke {
    /// The pen was set down here.
    Begins,
    /// The pen came from the previous point.
    Continues,
}

/// A mark made by hand beside the trace.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartMark {
    /// Hour of the chart, 0 to 24.
    pub hour: f64,
    /// Where the pen was, chart divisions.
    pub divisions: f64,
    /// What is written beside it.
    pub label: String,
}

digest_fields!(ChartMark { hour, divisions, label });

/// The chart on the recorder's hub. Copies share their ink until one of them receives more.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartPaper {
    hour: f64,
    writing: bool,
    since_kept_h: f64,
    trace: Arc<Vec<InkPoint>>,
    /// Stands for every point that was ever stored: a trace is long, and is digested often.
    stored: Rolling,
    marks: Arc<Vec<ChartMark>>,
}

digest_fields!(ChartPaper { hour, writing, since_kept_h, stored, marks } without { trace });

impl ChartPaper {
    /// A fresh chart with `hour` (0 to 24) under the pen.
    pub fn new(hour: f64) -> Self {
        Self {
            hour: wrapped(hour),
            writing: false,
            since_kept_h: 0.0,
            trace: Arc::default(),
            stored: Rolling::default(),
            marks: Arc::default(),
        }
    }

    /// Turns the chart by `dt_s` (s) and draws the ink of the recorder's pen.
    ///
    /// The clock turns the chart once in 24 h, slowed by the recorder's clock loss.
    pub fn advance(&mut self, dt_s: f64, recorder: &FlowRecorder) {
        let loss = recorder.parameters.clock_loss_pct;
        let rate = if loss.is_finite() { (1.0 - 0.01 * loss).max(0.0) } else { 1.0 };
        let turned_h = if dt_s.is_finite() { dt_s.max(0.0) / 3600.0 * rate } else { 0.0 };
        self.hour = wrapped(self.hour + turned_h);
        self.since_kept_h += turned_h;
        let Some(divisions) = recorder.nib() else {
            self.writing = false;
            return;
        };
        let stroke = if self.writing { Stroke::Continues } else { Stroke::Begins };
        let moved = self
            .trace
            .last()
            .is_none_or(|last| (last.divisions - divisions).abs() >= KEPT_DIVISIONS);
        if stroke == Stroke::Begins || moved || self.since_kept_h >= KEPT_HOURS {
            self.keep(InkPoint { hour: self.hour, divisions, stroke });
        }
        self.writing = true;
    }

    /// Hour of the chart under the pen, 0 to 24.
    pub const fn hour(&self) -> f64 {
        self.hour
    }

    /// Fits a fresh chart with `hour` (0 to 24) under the pen.
    pub fn fit(&mut self, hour: f64) {
        *self = Self::new(hour);
    }

    /// Turns the hub by this many minutes of the chart, positive forwards. The next ink begins a
    /// new stroke.
    pub fn turn(&mut self, minutes: f64) {
        if minutes.is_finite() {
            self.hour = wrapped(self.hour + minutes / 60.0);
            self.writing = false;
        }
    }

    /// Makes a mark beside the trace, at the pen.
    pub fn mark(&mut self, recorder: &FlowRecorder, label: &str) {
        if self.marks.len() < MOST_MARKS {
            let label = label.trim().chars().take(LONGEST_LABEL).collect();
            let mark = ChartMark { hour: self.hour, divisions: recorder.pen(), label };
            Arc::make_mut(&mut self.marks).push(mark);
        }
    }

    /// The trace, oldest point first.
    pub fn trace(&self) -> &[InkPoint] {
        &self.trace
    }

    /// The marks, oldest first.
    pub fn marks(&self) -> &[ChartMark] {
        &self.marks
    }

    fn keep(&mut self, point: InkPoint) {
        let begins = u64::from(point.stroke == Stroke::Begins);
        for bits in [point.hour.to_bits(), point.divisions.to_bits(), begins] {
            self.stored.add(bits);
        }
        let trace = Arc::make_mut(&mut self.trace);
        trace.push(point);
        if trace.len() > MOST_POINTS {
            *trace = thinned(trace);
        }
        self.since_kept_h = 0.0;
    }
}

/// Every second point. If a dropped point began a stroke, the next one begins it.
fn thinned(trace: &[InkPoint]) -> Vec<InkPoint> {
    let mut kept = Vec::with_capacity(MOST_POINTS);
    let mut begins = false;
    for (index, point) in trace.iter().enumerate() {
        begins |= point.stroke == Stroke::Begins;
        if index % 2 == 0 {
            let stroke = if begins { Stroke::Begins } else { Stroke::Continues };
            kept.push(InkPoint { stroke, ..*point });
            begins = false;
        }
    }
    kept
}

fn wrapped(hour: f64) -> f64 {
    let turns = (hour / HOURS_PER_TURN).floor();
    let left = hour - turns * HOURS_PER_TURN;
    if left.is_finite() { left } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::{ChartPaper, MOST_POINTS, Stroke};
    use crate::rig::recorder::{FlowRecorder, RecorderInputs, RecorderParameters};

    fn writing(clock_loss_pct: f64) -> FlowRecorder {
        let mut recorder =
            FlowRecorder::new(RecorderParameters { clock_loss_pct, ..Default::default() });
        recorder.uncap();
        recorder.lower_pen();
        recorder
    }

    #[test]
    fn the_chart_turns_once_in_24_hours_and_a_slow_clock_loses() {
        let mut paper = ChartPaper::new(9.5);
        paper.advance(86_400.0, &writing(0.0));
        assert!((paper.hour() - 9.5).abs() < 1e-9);
        paper.advance(36_000.0, &writing(5.0));
        assert!((paper.hour() - 19.0).abs() < 1e-9);
        paper.turn(-600.0);
        assert!((paper.hour() - 9.0).abs() < 1e-9);
    }

    #[test]
    fn ink_is_kept_when_it_moves_and_stays_bounded() {
        let mut recorder = writing(0.0);
        let mut paper = ChartPaper::new(0.0);
        for _ in 0..200 {
            paper.advance(0.05, &recorder);
        }
        assert_eq!(paper.trace().len(), 1);
        for n in 0..20_000_u32 {
            let exit_inh2o = if n % 2 == 0 { 5.0 } else { 2.0 };
            recorder.step(1.0, RecorderInputs { exit_inh2o, flow_std_m3_min: 0.0 });
            paper.advance(1.0, &recorder);
        }
        assert!(paper.trace().len() <= MOST_POINTS && paper.trace().len() > MOST_POINTS / 3);
    }

    #[test]
    fn a_lifted_pen_leaves_a_gap_and_marks_stand_at_the_pen() {
        let mut recorder = writing(0.0);
        let mut paper = ChartPaper::new(8.0);
        paper.advance(1.0, &recorder);
        recorder.lift_pen();
        paper.advance(60.0, &recorder);
        recorder.lower_pen();
        paper.advance(1.0, &recorder);
        let strokes: Vec<Stroke> = paper.trace().iter().map(|point| point.stroke).collect();
        assert_eq!(strokes, [Stroke::Begins, Stroke::Begins]);
        paper.mark(&recorder, "  1 ");
        assert_eq!(paper.marks()[0].label, "1");
        assert!((paper.marks()[0].hour - paper.hour()).abs() < 1e-12);
    }
}
