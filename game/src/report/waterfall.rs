//! The way from the trainee's volume to the true one, step by step, as SVG.

use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use sim_core::marking::cost::Costs;

use super::cost_words::signed;
use super::plots::{INK, PAPER, RUST, WATER};

/// Width of the plot, pixels of its own coordinates.
const WIDTH: u32 = 720;
/// Height of one bar with its words, pixels.
const ROW: u32 = 46;
/// Height of the axis, pixels.
const AXIS: u32 = 68;
/// Where a bar lies in its row, from 0 above to 1 below; its words stand over it.
const BAR: (f64, f64) = (0.46, 0.86);
/// Room on each side of the bars, as a share of what they span.
const ROOM: f64 = 0.08;

/// One bar.
struct Bar {
    words: String,
    from_m3: f64,
    to_m3: f64,
    colour: RGBColor,
}

/// The waterfall, or nothing where there is none.
///
/// # Errors
///
/// When the plot cannot be drawn.
pub fn waterfall(costs: &Costs) -> Result<Option<String>, String> {
    let bars = bars(costs);
    if bars.is_empty() {
        return Ok(None);
    }
    let mut svg = String::new();
    {
        let size = (WIDTH, AXIS + ROW * bars.len() as u32);
        let root = SVGBackend::with_string(&mut svg, size).into_drawing_area();
        draw(&root, &bars).map_err(|error| error.to_string())?;
        root.present().map_err(|error| error.to_string())?;
    }
    Ok(Some(svg))
}

fn draw(
    root: &DrawingArea<SVGBackend<'_>, plotters::coord::Shift>,
    bars: &[Bar],
) -> Result<(), Box<dyn std::error::Error>> {
    root.fill(&PAPER)?;
    let ends = bars.iter().flat_map(|bar| [bar.from_m3, bar.to_m3]);
    let (least, most) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), end| {
        (least.min(end), most.max(end))
    });
    // A span of nothing still wants an axis.
    let room = (ROOM * (most - least)).max(0.5);
    let rows = bars.len() as f64;
    let mut chart = ChartBuilder::on(root)
        .margin(12)
        .x_label_area_size(44)
        .build_cartesian_2d(least - room..most + room, rows..0.0)?;
    let text = ("sans-serif", 14).into_font().color(&INK);
    chart
        .configure_mesh()
        .disable_y_mesh()
        .disable_y_axis()
        .bold_line_style(INK.mix(0.18))
        .max_light_lines(0)
        .x_labels(7)
        .x_label_formatter(&|volume| format!("{volume:.0}"))
        .axis_style(INK)
        .label_style(text.clone())
        .x_desc("volume of the run at 298 K and 760 mmHg, m³")
        .draw()?;
    for (index, bar) in bars.iter().enumerate() {
        let row = index as f64;
        let corners = [(bar.from_m3, row + BAR.0), (bar.to_m3, row + BAR.1)];
        chart.draw_series([Rectangle::new(corners, bar.colour.filled())])?;
        // An edge keeps a step of nothing visible, and joins it to the next.
        let edge = [(bar.to_m3, row + BAR.0), (bar.to_m3, (row + 1.0 + BAR.0).min(rows))];
        chart.draw_series(LineSeries::new(edge, INK.mix(0.4)))?;
    }
    for (index, bar) in bars.iter().enumerate() {
        let style = text.clone().pos(Pos::new(HPos::Left, VPos::Bottom));
        let place = (least - 0.9 * room, index as f64 + BAR.0 - 0.04);
        chart.draw_series([Text::new(bar.words.clone(), place, style)])?;
    }
    Ok(())
}

/// A bar for each step, in the order of the work.
fn bars(costs: &Costs) -> Vec<Bar> {
    let steps = costs.waterfall.iter().map(|step| Bar {
        words: format!("{}: {} %", step.title, signed(step.change_pct)),
        from_m3: step.from_m3,
        to_m3: step.to_m3,
        colour: if step.id == "remainder" { WATER } else { RUST },
    });
    let mut bars: Vec<Bar> = steps.collect();
    if let (Some(first), Some(own)) = (bars.first_mut(), costs.own_volume_m3) {
        first.words = format!("own line {own:.0} m³; {}", first.words);
    }
    if let (Some(last), Some(truth)) = (bars.last_mut(), costs.true_volume_m3) {
        last.words = format!("{}; true {truth:.0} m³", last.words);
    }
    bars
}
