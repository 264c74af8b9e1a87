//! The reports as a front end asks for them.

use std::sync::Arc;

use content::ReportService;
use content::document::Document;
use content::plot::{OwnLines, ScalablePlot, SharedPlot};
use content::report_service::ReportFile;
use content::review::SessionReview;
use content::snapshot::NamedValue;
use content::units::Units;
use sessions::{FrontEndError, MarkedSession};
use sim_core::field_book::FieldBook;
use sim_core::session::SitePapers;
use sim_core::session::history::Snapshot;

use super::paper::PaperSize;
use super::plots::{ControlChartPlot, OwnPointsPlot, Plot, PlotColors, PlotStyle};
use super::session::SessionReport;
use super::{files, moment_marks, snapshot};

/// The reports of this package, for a window or any other front end.
#[derive(Debug, Clone, Copy, Default)]
pub struct PlainReports;

impl ReportService for PlainReports {
    fn document(&self, ended: &MarkedSession) -> Document {
        SessionReport::of(ended, None).document().with_plots(shared)
    }

    fn files(&self, ended: &MarkedSession) -> Result<Vec<ReportFile>, FrontEndError> {
        let report = SessionReport::of(ended, None);
        files::contents(&report, &files::object(&report), PaperSize::default())
    }

    fn marked(&self, review: &SessionReview, ended: &MarkedSession) -> Vec<String> {
        moment_marks::marked(review, &ended.session, &ended.marks)
    }

    fn last_action(&self, review: &SessionReview, ended: &MarkedSession) -> Option<String> {
        snapshot::last_action(&ended.session.events, review.at(), review.start())
    }

    fn visible(&self, snapshot: &Snapshot, units: Units) -> Vec<NamedValue> {
        snapshot::visible(&snapshot.view, units)
    }

    fn ground_truth(&self, snapshot: &Snapshot, units: Units) -> Vec<NamedValue> {
        snapshot::ground_truth(&snapshot.truth, units)
    }

    fn own_points_plot(
        &self,
        points: &[(f64, f64)],
        lines: OwnLines,
        axes: [&str; 2],
    ) -> Option<SharedPlot> {
        let plot = OwnPointsPlot::new(points.iter().copied(), lines.own, axes)?;
        Some(shared(Plot::OwnPoints(plot.with_last(lines.last))))
    }

    fn control_chart_plot(&self, papers: &SitePapers<'_>, book: &FieldBook) -> Option<SharedPlot> {
        let (history, chart) = (papers.work_order.history.as_ref()?, papers.control_chart(book)?);
        let plot = ControlChartPlot::of(history, &chart, (papers.station.date, None));
        Some(shared(Plot::ControlChart(plot)))
    }
}

fn shared(plot: Plot) -> SharedPlot {
    Arc::new(plot)
}

impl ScalablePlot for Plot {
    fn height_at(&self, width: u32) -> u32 {
        self.height(width)
    }

    fn svg_at(&self, width: u32) -> Result<String, String> {
        self.svg(&PlotStyle::new(width, self.height(width), PlotColors::PAGE))
    }
}
