//! The flow recorder and its chart.

pub mod chart;
mod flow_recorder;
mod line;

pub use flow_recorder::{
    CHART_DIVISIONS, FlowRecorder, Ink, RecorderInputs, RecorderKind, RecorderParameters,
};
pub use line::RecorderLine;
