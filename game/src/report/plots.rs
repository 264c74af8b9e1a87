//! Plots of a session as SVG: the trainee's points and line against what was true.

use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use sim_core::field_book::{Field, PointNumber};
use sim_core::marking::truth::true_response;
use sim_core::session::signed::Signed;

/// Size of a plot, pixels of its own coordinates.
const SIZE: (u32, u32) = (720, 420);
/// Flows shown, m3/min.
const FLOWS: std::ops::Range<f64> = 0.9..1.9;
/// Limits of the flow that the method allows, m3/min (40 CFR Part 50 App. B 7.2, 8.8).
const LIMITS: [f64; 2] = [1.1, 1.7];

pub(super) const INK: RGBColor = RGBColor(0x22, 0x2f, 0x3e);
pub(super) const RUST: RGBColor = RGBColor(0xb3, 0x4a, 0x20);
pub(super) const WATER: RGBColor = RGBColor(0x2f, 0x6f, 0x78);
pub(super) const PAPER: RGBColor = RGBColor(0xfb, 0xf8, 0xf0);

/// A trainee's point: flow and chart reading as written.
type PointWritten = (f64, f64);

/// Chart reading against flow: points as written, own line, and the rig's true response.
///
/// # Errors
///
/// When the plot cannot be drawn.
pub fn calibration(signed: &Signed) -> Result<String, String> {
    let points = points(signed);
    let own = own_line(signed);
    let mut svg = String::new();
    {
        let root = SVGBackend::with_string(&mut svg, SIZE).into_drawing_area();
        draw_calibration(&root, signed, &points, own).map_err(|error| error.to_string())?;
        root.present().map_err(|error| error.to_string())?;
    }
    Ok(svg)
}

fn draw_calibration(
    root: &DrawingArea<SVGBackend<'_>, plotters::coord::Shift>,
    signed: &Signed,
    points: &[PointWritten],
    own: Option<OwnLine>,
) -> Result<(), Box<dyn std::error::Error>> {
    root.fill(&PAPER)?;
    let mut chart = ChartBuilder::on(root)
        .margin(12)
        .x_label_area_size(44)
        .y_label_area_size(52)
        .build_cartesian_2d(FLOWS, 25.0..65.0)?;
    let text = ("sans-serif", 15).into_font().color(&INK);
    chart
        .configure_mesh()
        .bold_line_style(INK.mix(0.18))
        .light_line_style(INK.mix(0.06))
        .axis_style(INK)
        .label_style(text.clone())
        .x_desc("flow at 298 K and 760 mmHg, m³/min")
        .y_desc("chart")
        .draw()?;
    for limit in LIMITS {
        let line = [(limit, 25.0), (limit, 65.0)];
        chart.draw_series(DashedLineSeries::new(line, 5, 5, INK.mix(0.6).into()))?;
    }
    let response = true_response(&signed.rig);
    let truth = (25..=65).filter_map(|chart| {
        let chart = f64::from(chart);
        response.flow_at_chart(chart).map(|flow| (flow, chart))
    });
    let truth: Vec<PointWritten> = truth.filter(|(flow, _)| FLOWS.contains(flow)).collect();
    let end = truth.last().copied();
    chart.draw_series(LineSeries::new(truth, WATER.stroke_width(3)))?;
    if let Some(own) = own {
        let ends = [FLOWS.start, FLOWS.end].map(|flow| (flow, own.chart_at(flow)));
        chart.draw_series(LineSeries::new(ends, RUST.stroke_width(2)))?;
    }
    chart.draw_series(points.iter().map(|&point| Circle::new(point, 5, RUST.filled())))?;
    if let Some((flow, reading)) = end {
        let style = text.pos(Pos::new(HPos::Right, VPos::Bottom)).color(&WATER);
        chart.draw_series([Text::new("true", (flow, reading), style)])?;
    }
    Ok(())
}

/// The trainee's line, with the root that turns a chart term into a chart reading.
#[derive(Debug, Clone, Copy)]
struct OwnLine {
    slope: f64,
    intercept: f64,
    root: f64,
}

impl OwnLine {
    fn chart_at(self, flow: f64) -> f64 {
        (self.slope * flow + self.intercept) / self.root
    }
}

/// The line as written, at the conditions as written.
fn own_line(signed: &Signed) -> Option<OwnLine> {
    let number = |field| signed.book.number(field);
    let ratio = number(Field::Pressure)? / 760.0 * 298.0 / (number(Field::Temperature)? + 273.15);
    let root = ratio.sqrt();
    let line = OwnLine { slope: number(Field::Slope)?, intercept: number(Field::Intercept)?, root };
    (root.is_finite() && root > 0.0).then_some(line)
}

/// The points as written, those with both numbers.
fn points(signed: &Signed) -> Vec<PointWritten> {
    let number = |field| signed.book.number(field);
    PointNumber::all()
        .filter_map(|point| Some((number(Field::PointFlow(point))?, number(Field::Chart(point))?)))
        .filter(|(flow, chart)| FLOWS.contains(flow) && (25.0..65.0).contains(chart))
        .collect()
}
