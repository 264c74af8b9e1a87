//! The one picture of a debrief: the trainee's volume and the true one on one scale, and the slips that
//! lie between them.

use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, VPos};
use sim_core::marking::cost::Costs;

use super::super::cost_words::cubic_metres;
use super::super::number_format::{NumberFormat, signed_percent};
use super::super::text_layout::{self, Typeface};
use super::axes::SMALL;
use super::bar_scale::{BarScale, bar_with_edge};
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// Slips that are shown one by one; smaller ones are shown together.
const MOST: usize = 4;
/// A slip below this is shown with the others, percent (CHOSEN: nobody sees a thinner bar).
const LEAST_PCT: f64 = 0.05;
/// Height of a line of words.
const LINE: f64 = 16.0;
/// Height of a bar.
const BAR: f64 = 12.0;
/// Room below a bar.
const GAP: f64 = 6.0;
/// Room for the two volumes above the bars.
const HEAD: f64 = 46.0;
/// Room for the scale.
const SCALE: f64 = 44.0;
/// Room on each side.
const SIDE: f64 = 18.0;

/// Distances between the marks of the scale, percent.
const STEPS: [f64; 13] =
    [0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0];

/// The trainee's volume and the true one, and what lies between.
#[derive(Debug, Clone, PartialEq)]
pub struct OneScalePlot {
    /// Words of the trainee's volume.
    own: String,
    /// Words of the true volume.
    truth: String,
    /// By how much the trainee's volume is off, percent of the true one.
    own_pct: f64,
    /// The limit that the trainee named, percent.
    claim_pct: Option<f64>,
    /// What lies between, the largest first.
    slips: Vec<Slip>,
}

/// One slip, or several together.
#[derive(Debug, Clone, PartialEq)]
struct Slip {
    title: String,
    /// What undoing it changes, percent of the true volume.
    change_pct: f64,
    of_the_method: bool,
}

impl OneScalePlot {
    /// The picture; `None` without two volumes. `claim_pct` is the limit that the trainee named.
    pub fn of(costs: &Costs, claim_pct: Option<f64>) -> Option<Self> {
        let (own, truth) = (costs.own_volume_m3?, costs.true_volume_m3?);
        let own_pct = 100.0 * (own / truth - 1.0);
        if !own_pct.is_finite() {
            return None;
        }
        let mut slips: Vec<Slip> = costs
            .waterfall
            .iter()
            .map(|step| Slip {
                title: step.title.clone(),
                change_pct: step.change_pct,
                of_the_method: step.id == "remainder",
            })
            .collect();
        // What the method leaves comes last, whatever its size: no slip made it.
        slips.sort_by(|one, other| {
            let size = |slip: &Slip| slip.change_pct.abs();
            (one.of_the_method.cmp(&other.of_the_method)).then(size(other).total_cmp(&size(one)))
        });
        Some(Self {
            own: format!("your volume {}", cubic_metres(Some(own))),
            truth: format!("true volume {}", cubic_metres(Some(truth))),
            own_pct,
            claim_pct,
            slips: together(slips),
        })
    }

    /// What is visible on it, in a sentence.
    pub fn description(&self) -> String {
        let slips: Vec<String> = self.slips.iter().map(Slip::words).collect();
        let between = match slips.is_empty() {
            true => String::new(),
            false => format!(" Between them: {}.", slips.join("; ")),
        };
        format!(
            "A scale with {} at {} %, and {} at zero.{between}",
            self.own,
            signed_percent(self.own_pct),
            self.truth
        )
    }

    /// The height that the plot needs at a width.
    pub fn height(&self, width: u32) -> u32 {
        let words: f64 = self.slips.iter().map(|slip| LINE * slip.lines(width).len() as f64).sum();
        (HEAD + words + (BAR + GAP) * self.slips.len() as f64 + SCALE).ceil() as u32
    }

    pub(super) fn draw<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        style: &PlotStyle,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let (least, most) = self.span();
        let width = f64::from(style.width) - 2.0 * SIDE;
        let x = |pct: f64| SIDE + width * (pct - least) / (most - least);
        let at = |x: f64, y: f64| (style.shift(x), style.shift(y));
        let bottom = f64::from(style.height) - SCALE;
        let palette = style.palette;
        if let Some(limit) = self.claim_pct {
            let corners = [at(x(-limit), HEAD - 6.0), at(x(limit), bottom)];
            root.draw(&Rectangle::new(corners, palette.wash.mix(0.55).filled()))?;
        }
        let of_percent = BarScale {
            span: (least, most),
            marks: (&STEPS, if style.is_narrow() { 5.0 } else { 9.0 }),
            top: HEAD - 6.0,
            side: SIDE,
            caption: ("distance from the true volume, %", 23.0),
        };
        let write = |pct: f64, step: f64| NumberFormat::Signed(usize::from(step < 1.0)).write(pct);
        of_percent.draw(root, style, &x, bottom, &write)?;
        self.head(root, style, &x, bottom)?;
        let (mut y, mut from) = (HEAD, self.own_pct);
        for slip in &self.slips {
            for line in slip.lines(style.width) {
                let font = style.text_at(SMALL, HPos::Left, VPos::Center);
                root.draw(&Text::new(line, at(SIDE, y + 0.5 * LINE), font))?;
                y += LINE;
            }
            let to = from + slip.change_pct;
            let colour = if slip.of_the_method { palette.truth } else { palette.own };
            bar_with_edge(root, style, (x(from), x(to)), (y, BAR), colour)?;
            (y, from) = (y + BAR + GAP, to);
        }
        Ok(())
    }

    /// The two volumes: words above, and a line down to the scale. A dot stands for the trainee's and a
    /// square for the true one.
    fn head<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        style: &PlotStyle,
        x: &dyn Fn(f64) -> f64,
        bottom: f64,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let at = |x: f64, y: f64| (style.shift(x), style.shift(y));
        let palette = style.palette;
        let own = format!("{} ({} %)", self.own, signed_percent(self.own_pct));
        for (words, pct, colour, y) in
            [(&own, self.own_pct, palette.own, 12.0), (&self.truth, 0.0, palette.truth, 30.0)]
        {
            let line = [at(x(pct), y), at(x(pct), bottom)];
            root.draw(&PathElement::new(line, style.line(colour, 1.5)))?;
            // Words stand on the side where there is room.
            let is_left = x(pct) < 0.5 * f64::from(style.width);
            let (anchor, off) = if is_left { (HPos::Left, 9.0) } else { (HPos::Right, -9.0) };
            let font = style.text_at(SMALL, anchor, VPos::Center);
            root.draw(&Text::new(words.clone(), at(x(pct) + off, y), font))?;
        }
        let own_at = at(x(self.own_pct), 12.0);
        root.draw(&Circle::new(own_at, style.px(4.5), palette.own.filled()))?;
        let corners = [at(x(0.0) - 4.0, 26.0), at(x(0.0) + 4.0, 34.0)];
        Ok(root.draw(&Rectangle::new(corners, palette.truth.filled()))?)
    }

    /// The span of the scale, percent: both volumes, every bar and the claim, with some room.
    fn span(&self) -> (f64, f64) {
        let mut ends = vec![0.0, self.own_pct];
        ends.extend(self.claim_pct.into_iter().flat_map(|limit| [-limit, limit]));
        let mut to = self.own_pct;
        for slip in &self.slips {
            to += slip.change_pct;
            ends.push(to);
        }
        let least = ends.iter().copied().fold(f64::INFINITY, f64::min);
        let most = ends.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let room = (0.06 * (most - least)).max(0.5);
        (least - room, most + room)
    }
}

impl Slip {
    fn words(&self) -> String {
        format!("{}: {} %", self.title, signed_percent(self.change_pct))
    }

    /// Its words in lines that fit.
    fn lines(&self, width: u32) -> Vec<String> {
        let room = f64::from(width) - 2.0 * SIDE;
        text_layout::wrapped(Typeface::Regular, SMALL, &self.words(), room)
    }
}

/// The largest slips by themselves and the rest together, before what the method leaves.
fn together(slips: Vec<Slip>) -> Vec<Slip> {
    let (method, made): (Vec<Slip>, Vec<Slip>) =
        slips.into_iter().partition(|slip| slip.of_the_method);
    let shown = made.iter().take(MOST).take_while(|slip| slip.change_pct.abs() >= LEAST_PCT);
    let shown = shown.count();
    let (mut slips, rest) = (made.clone(), made.get(shown..).unwrap_or_default());
    slips.truncate(shown);
    match rest {
        [] => {}
        [one] => slips.push(one.clone()),
        rest => slips.push(Slip {
            title: format!("{} smaller ones together", rest.len()),
            change_pct: rest.iter().map(|slip| slip.change_pct).sum(),
            of_the_method: false,
        }),
    }
    slips.extend(method);
    slips
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::super::Plot;
    use super::super::style::PlotColors;
    use super::*;

    fn slip(title: &str, change_pct: f64) -> Slip {
        let of_the_method = title == "remainder";
        Slip { title: title.to_owned(), change_pct, of_the_method }
    }

    fn plot(slips: Vec<Slip>, own_pct: f64, claim_pct: Option<f64>) -> OneScalePlot {
        let (own, truth) = ("your volume 1649.2 m³".to_owned(), "true volume 1600.0 m³".to_owned());
        OneScalePlot { own, truth, own_pct, claim_pct, slips: together(slips) }
    }

    fn svg(plot: &OneScalePlot, width: u32) -> String {
        let style = PlotStyle::new(width, plot.height(width), PlotColors::PAGE);
        Plot::OneScale(plot.clone()).svg(&style).unwrap()
    }

    #[test]
    fn both_volumes_and_every_slip_stand_on_it() {
        let plot = plot(vec![slip("zero", -4.0), slip("remainder", 0.9)], 3.1, Some(5.0));
        for width in [340, 700] {
            let svg = svg(&plot, width);
            for words in ["your volume 1649.2 m³ (+3.10 %)", "true volume", "zero: -4.00 %"] {
                assert!(svg.contains(words), "{words}");
            }
        }
        let without = OneScalePlot { claim_pct: None, ..plot.clone() };
        let count = |plot: &OneScalePlot| svg(plot, 700).matches("<rect").count();
        assert_eq!(count(&plot), count(&without) + 1, "the claim is a band");
        let said = plot.description();
        assert!(said.contains("+3.10 %") && said.contains("Between them: zero"), "{said}");
    }

    #[test]
    fn small_slips_are_shown_together_and_the_sum_stays() {
        let slips = [3.0, -2.0, 1.0, 0.8, 0.4, 0.2, 0.01].map(|pct| slip("slip", pct));
        let all: f64 = slips.iter().map(|slip| slip.change_pct).sum();
        let mut slips = slips.to_vec();
        slips.push(slip("remainder", 0.3));
        let shown = together(slips);
        assert_eq!(shown.len(), MOST + 2);
        assert_eq!(shown[MOST].title, "3 smaller ones together");
        assert_eq!(shown.last().unwrap().title, "remainder");
        let sum: f64 = shown.iter().map(|slip| slip.change_pct).sum();
        assert!((sum - all - 0.3).abs() < 1e-12);
    }

    #[test]
    fn a_volume_without_slips_can_be_drawn() {
        let svg = svg(&plot(Vec::new(), 0.0, None), 340);
        assert!(svg.contains("true volume"));
    }
}
