//! Plots of a session: drawn once, set as SVG for a page or a window and as vectors for paper.

pub(super) mod axes;
mod line;
mod look;
mod residuals;
mod time_line;
mod traces;
mod waterfall;

use plotters::coord::Shift;
use plotters::prelude::*;

pub use line::LinePlot;
pub use look::{FAMILY, Look, Palette};
pub use residuals::ResidualPlot;
pub use time_line::TimeLinePlot;
pub use traces::{Read, TracePlot};
pub use waterfall::WaterfallPlot;

use super::progress::plots::{DivisionsPlot, MarksPlot};

/// Why a plot could not be drawn.
pub type DrawError = Box<dyn std::error::Error>;

/// A plot and all that it shows.
#[derive(Debug, Clone, PartialEq)]
pub enum Plot {
    /// Chart term against flow: points and lines, own and true.
    Line(LinePlot),
    /// How far the points lie off the own line.
    Residuals(ResidualPlot),
    /// Phases, waits, readings and findings.
    TimeLine(TimeLinePlot),
    /// What an instrument showed, and when it was read.
    Trace(TracePlot),
    /// From the own volume to the true one.
    Waterfall(WaterfallPlot),
    /// Marks by part over a person's sessions.
    Marks(MarksPlot),
    /// Reading errors over a person's sessions.
    Divisions(DivisionsPlot),
}

impl Plot {
    /// The height that suits the plot at a width, in units of a page in which text has 13.
    pub fn height(&self, width: u32) -> u32 {
        match self {
            Self::Line(_) => (width * 3 / 5).clamp(300, 420),
            Self::Residuals(_) => 240,
            Self::TimeLine(plot) => plot.height(width),
            Self::Trace(_) => 220,
            Self::Waterfall(plot) => plot.height(width),
            Self::Marks(_) => {
                if width < 480 {
                    390
                } else {
                    300
                }
            }
            Self::Divisions(_) => 260,
        }
    }

    /// The plot as SVG, `look.width` by `look.height` and sharp at every size.
    ///
    /// # Errors
    ///
    /// When it cannot be drawn.
    pub fn svg(&self, look: &Look) -> Result<String, String> {
        let mut svg = String::new();
        {
            let root = SVGBackend::with_string(&mut svg, look.fine()).into_drawing_area();
            self.draw(&root, look).map_err(|error| error.to_string())?;
            root.present().map_err(|error| error.to_string())?;
        }
        // Drawn finely, shown at the size that was asked for.
        let (fine_width, fine_height) = look.fine();
        Ok(svg.replacen(
            &format!("width=\"{fine_width}\" height=\"{fine_height}\""),
            &format!("width=\"{}\" height=\"{}\"", look.width, look.height),
            1,
        ))
    }

    /// Draws the plot.
    ///
    /// # Errors
    ///
    /// When the backend fails.
    pub fn draw<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        look: &Look,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        root.fill(&look.palette.paper)?;
        match self {
            Self::Line(plot) => plot.draw(root, look),
            Self::Residuals(plot) => plot.draw(root, look),
            Self::TimeLine(plot) => plot.draw(root, look),
            Self::Trace(plot) => plot.draw(root, look),
            Self::Waterfall(plot) => plot.draw(root, look),
            Self::Marks(plot) => plot.draw(root, look),
            Self::Divisions(plot) => plot.draw(root, look),
        }
    }
}
