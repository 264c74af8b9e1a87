//! A plot as a front end gets it: at any width, without the library that draws it.

use std::fmt::Debug;
use std::sync::Arc;

/// A plot that can be laid out at any width, in units of a page in which text has 13.
pub trait ScalablePlot: Debug + Send + Sync {
    /// The height that suits the plot at a width.
    fn height_at(&self, width: u32) -> u32;

    /// The plot as SVG at a width and the height that suits it, in the colours of a page.
    ///
    /// # Errors
    ///
    /// When it cannot be drawn.
    fn svg_at(&self, width: u32) -> Result<String, String>;
}

/// Lines of a trainee's own plot, each given by slope and intercept.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct OwnLines {
    /// The one that is written in the field book.
    pub own: Option<(f64, f64)>,
    /// That of the last calibration.
    pub last: Option<(f64, f64)>,
}

/// A plot that several may hold.
pub type SharedPlot = Arc<dyn ScalablePlot>;
