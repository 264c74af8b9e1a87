//! The way from the trainee's volume to the true one, step by step.

use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, VPos};
use sim_core::marking::cost::Costs;

use super::super::cost_words::cubic_metres;
use super::super::number_format::signed_percent;
use super::super::text_layout::{self, Typeface};
use super::axes::SMALL;
use super::bar_scale::{BarScale, bar_with_edge};
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// Height of a line of words.
const LINE: f64 = 16.0;
/// Height of a bar.
const BAR: f64 = 13.0;
/// Room below a bar.
const GAP: f64 = 7.0;
/// Room for the scale.
const SCALE: f64 = 46.0;
/// Room above the first step.
const TOP: f64 = 8.0;
/// Room on each side.
const SIDE: f64 = 16.0;

/// Distances between the marks of the scale, m3.
const STEPS: [f64; 12] = [0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0];

/// Steps from the trainee's volume to the true one.
#[derive(Debug, Clone, PartialEq)]
pub struct WaterfallPlot {
    bars: Vec<Bar>,
}

/// One step.
#[derive(Debug, Clone, PartialEq)]
struct Bar {
    words: String,
    from_m3: f64,
    to_m3: f64,
    of_the_method: bool,
}

impl WaterfallPlot {
    /// The waterfall; `None` where there is none.
    pub fn of(costs: &Costs) -> Option<Self> {
        let steps = costs.waterfall.iter().map(|step| Bar {
            words: format!("{}: {} %", step.title, signed_percent(step.change_pct)),
            from_m3: step.from_m3,
            to_m3: step.to_m3,
            of_the_method: step.id == "remainder",
        });
        let mut bars: Vec<Bar> = steps.collect();
        if let Some(first) = bars.first_mut() {
            first.words =
                format!("your line {}; {}", cubic_metres(costs.own_volume_m3), first.words);
        }
        if let Some(last) = bars.last_mut() {
            last.words = format!("{}; true {}", last.words, cubic_metres(costs.true_volume_m3));
        }
        (!bars.is_empty()).then_some(Self { bars })
    }

    /// The height that the plot needs at a width.
    pub fn height(&self, width: u32) -> u32 {
        let words: f64 = self.bars.iter().map(|bar| LINE * bar.lines(width).len() as f64).sum();
        (TOP + words + (BAR + GAP) * self.bars.len() as f64 + SCALE).ceil() as u32
    }

    pub(super) fn draw<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        style: &PlotStyle,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let ends = self.bars.iter().flat_map(|bar| [bar.from_m3, bar.to_m3]);
        let (least, most) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), end| {
            (least.min(end), most.max(end))
        });
        // An empty span still needs a scale.
        let room = (0.04 * (most - least)).max(0.5);
        let (least, most) = (least - room, most + room);
        let span = f64::from(style.width) - 2.0 * SIDE;
        let x = |volume: f64| SIDE + span * (volume - least) / (most - least);
        let at = |x: f64, y: f64| (style.shift(x), style.shift(y));
        let bottom = f64::from(style.height) - SCALE;
        let of_volumes = BarScale {
            span: (least, most),
            marks: (&STEPS, if style.is_narrow() { 4.0 } else { 8.0 }),
            top: 2.0,
            side: SIDE,
            caption: ("volume of the run at 298 K and 760 mmHg, m³", 24.0),
        };
        let write = |volume: f64, step: f64| {
            let decimals = usize::from(step < 1.0);
            format!("{volume:.decimals$}")
        };
        of_volumes.draw(root, style, &x, bottom, &write)?;
        let palette = style.palette;
        let mut y = TOP;
        for bar in &self.bars {
            for line in bar.lines(style.width) {
                let font = style.text_at(SMALL, HPos::Left, VPos::Center);
                root.draw(&Text::new(line, at(SIDE, y + 0.5 * LINE), font))?;
                y += LINE;
            }
            let colour = if bar.of_the_method { palette.truth } else { palette.own };
            let (from, to) = (x(bar.from_m3), x(bar.to_m3));
            bar_with_edge(root, style, (from, to), (y, BAR), colour)?;
            y += BAR + GAP;
        }
        Ok(())
    }
}

impl Bar {
    /// Its words in lines that fit.
    fn lines(&self, width: u32) -> Vec<String> {
        text_layout::wrapped(Typeface::Regular, SMALL, &self.words, f64::from(width) - 2.0 * SIDE)
    }
}
