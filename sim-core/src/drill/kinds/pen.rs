//! The pen on the chart.

use super::super::bench::{self, Written};
use super::super::draw::Draw;
use super::super::drawn::{Counted, Drawn, Truth};
use super::super::error::DrawError;
use super::super::seen::{Asked, DrillLook};
use super::misread::misread;
use crate::rig::recorder::chart::ChartPaper;
use crate::rig::recorder::{FlowRecorder, RecorderInputs, RecorderKind, RecorderParameters};
use crate::session::Session;
use crate::session::action::Sight;
use crate::session::view::View;

/// Readings of a square-root chart: farther in, its circles crowd, and no flow of a calibration stands
/// there.
const SQUARE_ROOT: (f64, f64) = (40.0, 92.0);
/// Readings of an evenly graduated chart.
const EVEN: (f64, f64) = (12.0, 92.0);

/// The pen.
pub(super) fn draw(draw: &mut Draw) -> Result<Drawn, DrawError> {
    let (bench, _) = bench::begin(draw, &Written::default())?;
    let (recorder, paper) = drawn_chart(draw);
    let view = with_recorder(&bench, &recorder, &paper);
    let value = recorder.pen();
    let truth =
        Truth::Number { value, counted: Counted::Plainly, slips: misread(value, 1.0, 10.0) };
    Ok(Drawn::of(bench, Asked::Pen, vec![DrillLook { at_s: 0.0, view }], truth))
}

/// A recorder with its pen at rest, and the chart on which it drew some flows.
fn drawn_chart(draw: &mut Draw) -> (FlowRecorder, ChartPaper) {
    let kind = draw.one_of([
        RecorderKind::SquareRoot,
        RecorderKind::SquareRoot,
        RecorderKind::Linear,
        RecorderKind::MassFlow,
    ]);
    let mut recorder = FlowRecorder::new(RecorderParameters { kind, ..Default::default() });
    recorder.open_door();
    recorder.uncap();
    recorder.lower_pen();
    let mut paper = ChartPaper::new(draw.between(6.0, 18.0));
    let (low, high) = if kind == RecorderKind::SquareRoot { SQUARE_ROOT } else { EVEN };
    for _ in 0..1 + draw.below(3) {
        let inputs = inputs_for(&recorder, draw.between(low, high));
        let seconds = draw.between(100.0, 300.0);
        recorder.step(4.0, inputs);
        recorder.step(seconds, inputs);
        for _ in 0..3 {
            recorder.tap();
        }
        // The chart turns on while the pen rests.
        for _ in 0..(seconds / 10.0) as u32 {
            paper.advance(10.0, &recorder);
        }
    }
    (recorder, paper)
}

/// What drives a pen to a reading.
fn inputs_for(recorder: &FlowRecorder, divisions: f64) -> RecorderInputs {
    let parameters = &recorder.parameters;
    let root = divisions / parameters.square_root_divisions;
    let exit_inh2o = match parameters.kind {
        RecorderKind::SquareRoot => root * root,
        RecorderKind::Linear | RecorderKind::MassFlow => {
            divisions / parameters.linear_divisions_per_inh2o
        }
    };
    let flow_std_m3_min = divisions / parameters.mass_flow_divisions_per_m3_min;
    RecorderInputs { exit_inh2o, flow_std_m3_min }
}

/// The view of a bench with this recorder, the eyes on the pen.
fn with_recorder(bench: &Session, recorder: &FlowRecorder, paper: &ChartPaper) -> View {
    let mut view = bench.view();
    view.focus = Sight::Pen;
    let seen = &mut view.recorder;
    seen.door_open = recorder.is_door_open();
    seen.capped = recorder.is_capped();
    seen.on_paper = recorder.is_on_paper();
    seen.leaves_ink = Some(recorder.nib().is_some());
    seen.pen = Some(recorder.pen());
    seen.moving = false;
    seen.chart_hour = paper.hour();
    seen.printed_to = recorder.printed_to();
    seen.scale = recorder.parameters.kind;
    seen.trace = paper.trace().iter().map(|point| (point.hour, point.divisions)).collect();
    view
}
