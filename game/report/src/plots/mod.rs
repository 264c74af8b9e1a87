//! Plots: drawn once, set as SVG for a page or a window and as vectors for paper.

pub(super) mod axes;
mod bar_scale;
mod both_sittings;
mod calibration_line;
mod control_chart;
mod decision_curve;
pub(super) mod draw_error;
mod information;
mod mark_histogram;
mod one_scale;
mod own_points;
mod plot;
mod residuals;
pub(super) mod style;
mod time_line;
mod traces;
mod waterfall;

pub use both_sittings::BothSittingsPlot;
pub use calibration_line::CalibrationLinePlot;
pub use control_chart::ControlChartPlot;
pub use decision_curve::DecisionCurvePlot;
pub use draw_error::DrawError;
pub use information::InformationPlot;
pub use mark_histogram::MarkHistogramPlot;
pub use one_scale::OneScalePlot;
pub use own_points::OwnPointsPlot;
pub use plot::Plot;
pub use residuals::ResidualPlot;
pub use style::{FAMILY, PlotColors, PlotStyle};
pub use time_line::TimeLinePlot;
pub use traces::{TraceOf, TracePlot};
pub use waterfall::WaterfallPlot;
