//! A plot of any kind: its height, and how it is drawn as SVG or by any other backend.

use plotters::coord::Shift;
use plotters::prelude::*;

use super::super::progress::calibration_plot::JudgementPlot;
use super::super::progress::plots::{DivisionsPlot, MarksPlot};
use super::both_sittings::BothSittingsPlot;
use super::calibration_line::CalibrationLinePlot;
use super::control_chart::ControlChartPlot;
use super::decision_curve::DecisionCurvePlot;
use super::draw_error::DrawError;
use super::information::InformationPlot;
use super::mark_histogram::MarkHistogramPlot;
use super::one_scale::OneScalePlot;
use super::own_points::OwnPointsPlot;
use super::residuals::ResidualPlot;
use super::style::PlotStyle;
use super::time_line::TimeLinePlot;
use super::traces::TracePlot;
use super::waterfall::WaterfallPlot;

/// A plot and all that it shows.
#[derive(Debug, Clone, PartialEq)]
pub enum Plot {
    /// Corrected chart reading against flow: the trainee's points and line, and the true ones.
    CalibrationLine(CalibrationLinePlot),
    /// The trainee's points and line alone.
    OwnPoints(OwnPointsPlot),
    /// How far the points lie from the trainee's line.
    Residuals(ResidualPlot),
    /// Phases, waits, readings and findings.
    TimeLine(TimeLinePlot),
    /// What an instrument showed, and when it was read.
    Trace(TracePlot),
    /// The trainee's volume and the true one on one scale.
    OneScale(OneScalePlot),
    /// From the trainee's volume to the true one.
    Waterfall(WaterfallPlot),
    /// Marks by part over a person's sessions.
    Marks(MarksPlot),
    /// Reading errors over a person's sessions.
    Divisions(DivisionsPlot),
    /// How sure a person was against how often they were right.
    Judgement(JudgementPlot),
    /// How the marks of people are distributed.
    MarkHistogram(MarkHistogramPlot),
    /// The marks of both sittings of each person.
    BothSittings(BothSittingsPlot),
    /// What the rules say about people of each ability.
    Information(InformationPlot),
    /// What every pass mark would do.
    DecisionCurve(DecisionCurvePlot),
    /// The flow checks of a sampler over time.
    ControlChart(ControlChartPlot),
}

impl Plot {
    /// The height that suits the plot at a width, in units of a page in which text has 13.
    pub fn height(&self, width: u32) -> u32 {
        match self {
            Self::CalibrationLine(_) | Self::OwnPoints(_) => (width * 3 / 5).clamp(300, 400),
            Self::Residuals(_) => 240,
            Self::TimeLine(plot) => plot.height(width),
            Self::Trace(_) => 220,
            Self::OneScale(plot) => plot.height(width),
            Self::Waterfall(plot) => plot.height(width),
            Self::Marks(_) => {
                if width < 480 {
                    390
                } else {
                    300
                }
            }
            Self::Divisions(_) | Self::Information(_) | Self::MarkHistogram(_) => 260,
            Self::BothSittings(_) => 360,
            Self::Judgement(_) => 320,
            Self::DecisionCurve(_) => 300,
            Self::ControlChart(_) => (width / 2).clamp(320, 380),
        }
    }

    /// The plot as SVG, `style.width` by `style.height` and sharp at every size.
    ///
    /// # Errors
    ///
    /// When it cannot be drawn.
    pub fn svg(&self, style: &PlotStyle) -> Result<String, String> {
        let mut svg = String::new();
        {
            let root = SVGBackend::with_string(&mut svg, style.fine()).into_drawing_area();
            self.draw(&root, style).map_err(|error| error.to_string())?;
            root.present().map_err(|error| error.to_string())?;
        }
        // Drawn in fine units, shown at the size that was asked for.
        let (fine_width, fine_height) = style.fine();
        Ok(svg.replacen(
            &format!("width=\"{fine_width}\" height=\"{fine_height}\""),
            &format!("width=\"{}\" height=\"{}\"", style.width, style.height),
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
        style: &PlotStyle,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        root.fill(&style.palette.paper)?;
        match self {
            Self::CalibrationLine(plot) => plot.draw(root, style),
            Self::OwnPoints(plot) => plot.draw(root, style),
            Self::Residuals(plot) => plot.draw(root, style),
            Self::TimeLine(plot) => plot.draw(root, style),
            Self::Trace(plot) => plot.draw(root, style),
            Self::OneScale(plot) => plot.draw(root, style),
            Self::Waterfall(plot) => plot.draw(root, style),
            Self::Marks(plot) => plot.draw(root, style),
            Self::Divisions(plot) => plot.draw(root, style),
            Self::Judgement(plot) => plot.draw(root, style),
            Self::MarkHistogram(plot) => plot.draw(root, style),
            Self::BothSittings(plot) => plot.draw(root, style),
            Self::Information(plot) => plot.draw(root, style),
            Self::DecisionCurve(plot) => plot.draw(root, style),
            Self::ControlChart(plot) => plot.draw(root, style),
        }
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::super::style::PlotColors;
    use super::*;

    const AXES: [&str; 2] = ["flow, std m³/min", "corrected chart reading, divisions"];
    const POINTS: [(f64, f64); 3] = [(1.15, 36.2), (1.42, 44.9), (1.66, 52.4)];

    fn svg(points: &[(f64, f64)], line: Option<(f64, f64)>) -> String {
        let plot = OwnPointsPlot::new(points.iter().copied(), line, AXES).unwrap();
        let plot = Plot::OwnPoints(plot);
        let style = PlotStyle::new(340, plot.height(340), PlotColors::PAGE);
        plot.svg(&style).unwrap()
    }

    #[test]
    fn points_and_line_are_drawn_with_the_names_of_their_axes() {
        let bare = svg(&POINTS, None);
        // A dot for each point, and one in the key.
        assert_eq!(bare.matches("<circle").count(), 4);
        assert!(bare.contains("your points") && !bare.contains("your line"));
        for name in AXES {
            assert!(bare.contains(name), "{name}");
        }
        let with_line = svg(&POINTS, Some((31.8, -0.4)));
        assert!(with_line.contains("your line"));
        assert!(with_line.matches("<polyline").count() > bare.matches("<polyline").count());
    }

    #[test]
    fn the_last_line_and_the_limits_are_drawn_and_named() {
        let plot = OwnPointsPlot::new(POINTS, Some((31.8, -0.4)), AXES).unwrap();
        let style = PlotStyle::new(600, 400, PlotColors::PAGE);
        let bare = Plot::OwnPoints(plot.clone()).svg(&style).unwrap();
        let with_last = Plot::OwnPoints(plot.with_last(Some((30.9, 0.2)))).svg(&style).unwrap();
        assert!(!bare.contains("last line") && with_last.contains("last line"));
        for words in ["range to be covered", "farthest that a point may lie from it"] {
            assert!(bare.contains(words), "{words}");
        }
        // Far from the range there is none to be shown.
        let far = svg(&[(4.0, 36.0), (5.0, 44.0)], None);
        assert!(!far.contains("range to be covered"));
    }

    #[test]
    fn what_is_no_number_to_be_shown_is_left_out() {
        let mut points = POINTS.to_vec();
        points.extend([(f64::NAN, 40.0), (1.3, f64::INFINITY), (1e300, 40.0)]);
        assert_eq!(svg(&points, Some((f64::NAN, 0.0))), svg(&POINTS, None));
        assert_eq!(OwnPointsPlot::new([(f64::NAN, 1.0)], Some((1.0, 0.0)), AXES), None);
    }

    #[test]
    fn one_point_alone_can_be_drawn() {
        assert!(svg(&POINTS[..1], Some((30.0, 0.0))).contains("<circle"));
    }
}
