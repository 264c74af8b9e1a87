//! What a front end asks of the reports: the report of a session, its files, and its moments in words.

use std::fmt::Debug;

use sessions::{FrontEndError, MarkedSession};
use sim_core::field_book::FieldBook;
use sim_core::session::SitePapers;
use sim_core::session::history::Snapshot;

use super::document::Document;
use super::plot::{OwnLines, SharedPlot};
use super::review::SessionReview;
use super::snapshot::NamedValue;
use super::units::Units;

/// A file of a report: its name, and what stands in it.
pub type ReportFile = (&'static str, Vec<u8>);

/// Lays out what is to be shown of a session that has ended, and plots of its field book.
pub trait ReportService: Debug + Send + Sync {
    /// The report of a session.
    fn document(&self, ended: &MarkedSession) -> Document;

    /// The files of the report, on the paper that is usual.
    ///
    /// # Errors
    ///
    /// When a plot cannot be drawn.
    fn files(&self, ended: &MarkedSession) -> Result<Vec<ReportFile>, FrontEndError>;

    /// What is marked at the moment under review, in words.
    fn marked(&self, review: &SessionReview, ended: &MarkedSession) -> Vec<String>;

    /// The last action up to the moment under review, in words; looking, listening and waiting do not
    /// count.
    fn last_action(&self, review: &SessionReview, ended: &MarkedSession) -> Option<String>;

    /// What was visible at a moment, no finer than a sharp eye sees it.
    fn visible(&self, snapshot: &Snapshot, units: Units) -> Vec<NamedValue>;

    /// What was true at a moment.
    fn ground_truth(&self, snapshot: &Snapshot, units: Units) -> Vec<NamedValue>;

    /// A trainee's own points (x, y) with their line and the last one, as far as there are any. `axes`
    /// names x and y with their units. `None` where no point is a number that can be shown.
    fn own_points_plot(
        &self,
        points: &[(f64, f64)],
        lines: OwnLines,
        axes: [&str; 2],
    ) -> Option<SharedPlot>;

    /// The control chart of the sampler's history, with what is entered on it for today. `None` where
    /// the sampler has no history.
    fn control_chart_plot(&self, papers: &SitePapers<'_>, book: &FieldBook) -> Option<SharedPlot>;
}
