//! Plots of a trial as SVG.

use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use sim_core::trial::RuleFigures;

use super::figures::{Figures, OperatorFigures, ScenarioFigures};

const INK: RGBColor = RGBColor(0x22, 0x2f, 0x3e);
const RUST: RGBColor = RGBColor(0xb3, 0x4a, 0x20);
const WATER: RGBColor = RGBColor(0x2f, 0x6f, 0x78);
const PAPER: RGBColor = RGBColor(0xfb, 0xf8, 0xf0);
/// Colours of the six parts of the marks, neighbours well apart in lightness.
const PARTS: [RGBColor; 6] = [
    INK,
    RGBColor(0x8f, 0xb8, 0xbd),
    RGBColor(0x2f, 0x6f, 0x78),
    RGBColor(0xe0, 0xb0, 0x8c),
    RGBColor(0xb3, 0x4a, 0x20),
    RGBColor(0xcf, 0xc7, 0xb3),
];

/// Width of a plot with one row for each operator, pixels of its own coordinates.
const WIDTH: u32 = 860;
/// Left edge of its scale.
const LEFT: i32 = 432;
/// Pixels for each percent or mark.
const STEP: i32 = 4;
/// Height of a row.
const ROW: i32 = 22;
/// Where the first row begins.
const TOP: i32 = 36;

type Area<'a> = DrawingArea<SVGBackend<'a>, Shift>;
type Drawn = Result<(), Box<dyn std::error::Error>>;

/// Every operator in every scenario.
fn rows(figures: &Figures) -> Vec<(&ScenarioFigures, &OperatorFigures)> {
    let scenarios = figures.scenarios.iter();
    scenarios.flat_map(|one| one.operators.iter().map(move |operator| (one, operator))).collect()
}

fn drawn(size: (u32, u32), draw: impl FnOnce(&Area<'_>) -> Drawn) -> Result<String, String> {
    let mut svg = String::new();
    {
        let root = SVGBackend::with_string(&mut svg, size).into_drawing_area();
        root.fill(&PAPER).map_err(|error| error.to_string())?;
        draw(&root).map_err(|error| error.to_string())?;
        root.present().map_err(|error| error.to_string())?;
    }
    Ok(svg)
}

/// Pass rates with their intervals, a row for each operator in each scenario.
///
/// # Errors
///
/// When the plot cannot be drawn.
pub fn pass_rates(figures: &Figures) -> Result<String, String> {
    let rows = rows(figures);
    drawn(size(rows.len()), |root| {
        scale(root, rows.len(), "passed, %")?;
        for limit in [5, 99] {
            let ends = [(x(f64::from(limit)), TOP), (x(f64::from(limit)), bottom(rows.len()))];
            let dashes = (0..).map(|n| TOP + 8 * n).take_while(|&y| y < ends[1].1);
            for y in dashes {
                root.draw(&PathElement::new([(ends[0].0, y), (ends[0].0, y + 4)], RUST))?;
            }
        }
        for (index, (scenario, one)) in rows.iter().enumerate() {
            let y = label(root, index, scenario, one)?;
            let rate = one.pass_rate;
            let [low, at, high] = [rate.low, rate.share, rate.high].map(|share| x(100.0 * share));
            root.draw(&PathElement::new([(low, y), (high, y)], WATER.stroke_width(3)))?;
            root.draw(&Circle::new((at, y), 5, PAPER.filled()))?;
            let style = if one.operator == "careful" {
                WATER.filled()
            } else {
                ShapeStyle::from(&WATER).stroke_width(2)
            };
            root.draw(&Circle::new((at, y), 5, style))?;
        }
        Ok(())
    })
}

/// Mean marks of each part, laid end to end.
///
/// # Errors
///
/// When the plot cannot be drawn.
pub fn marks(figures: &Figures) -> Result<String, String> {
    let rows = rows(figures);
    drawn(size(rows.len()), |root| {
        scale(root, rows.len(), "marks")?;
        for (index, (scenario, one)) in rows.iter().enumerate() {
            let y = label(root, index, scenario, one)?;
            let mut from = 0.0;
            for (part, colour) in one.parts.iter().zip(PARTS) {
                let to = from + part.marks.mean;
                let corners = [(x(from), y - 7), (x(to), y + 7)];
                root.draw(&Rectangle::new(corners, colour.filled()))?;
                from = to;
            }
        }
        Ok(())
    })
}

fn size(rows: usize) -> (u32, u32) {
    (WIDTH, bottom(rows).unsigned_abs() + 8)
}

fn bottom(rows: usize) -> i32 {
    TOP + ROW * rows as i32
}

fn x(value: f64) -> i32 {
    LEFT + (value * f64::from(STEP)).round() as i32
}

/// The scale from 0 to 100 above the rows.
fn scale(root: &Area<'_>, rows: usize, title: &str) -> Drawn {
    let font = ("sans-serif", 14).into_font().color(&INK);
    let centre = font.pos(Pos::new(HPos::Center, VPos::Bottom));
    for value in [0, 20, 40, 60, 80, 100] {
        let at = x(f64::from(value));
        root.draw(&PathElement::new([(at, TOP), (at, bottom(rows))], INK.mix(0.18)))?;
        root.draw(&Text::new(value.to_string(), (at, TOP - 4), centre.clone()))?;
    }
    let left = centre.pos(Pos::new(HPos::Left, VPos::Bottom));
    root.draw(&Text::new(title.to_owned(), (8, TOP - 4), left))?;
    Ok(())
}

/// Names a row and gives its height.
fn label(
    root: &Area<'_>,
    index: usize,
    scenario: &ScenarioFigures,
    one: &OperatorFigures,
) -> Result<i32, Box<dyn std::error::Error>> {
    let y = TOP + ROW * index as i32 + ROW / 2;
    let font = ("sans-serif", 13).into_font().color(&INK);
    let first = scenario.operators.first().is_some_and(|first| first.operator == one.operator);
    if first {
        let left = font.clone().pos(Pos::new(HPos::Left, VPos::Center));
        let title: String = scenario.title.chars().take(30).collect();
        root.draw(&Text::new(title, (8, y), left))?;
        let top = y - ROW / 2;
        root.draw(&PathElement::new([(8, top), (x(100.0), top)], INK.mix(0.4)))?;
    }
    let right = font.pos(Pos::new(HPos::Right, VPos::Center));
    let name: String = one.operator.chars().take(36).collect();
    root.draw(&Text::new(name, (LEFT - 12, y), right))?;
    Ok(y)
}

/// Difficulty against discrimination, each rule by its number.
///
/// # Errors
///
/// When the plot cannot be drawn.
pub fn rules(rules: &[RuleFigures]) -> Result<String, String> {
    drawn((720, 480), |root| {
        let mut chart = ChartBuilder::on(root)
            .margin(12)
            .x_label_area_size(44)
            .y_label_area_size(52)
            .build_cartesian_2d(0.0..1.05, -1.0..1.0)?;
        let text = ("sans-serif", 15).into_font().color(&INK);
        chart
            .configure_mesh()
            .bold_line_style(INK.mix(0.18))
            .light_line_style(TRANSPARENT)
            .axis_style(INK)
            .label_style(text)
            .x_desc("difficulty (share of sessions that followed the rule)")
            .y_desc("discrimination")
            .draw()?;
        let at = |rule: &RuleFigures| Some((rule.difficulty, rule.discrimination?));
        let points: Vec<(f64, f64)> = rules.iter().filter_map(at).collect();
        chart.draw_series(points.iter().map(|&point| Circle::new(point, 3, RUST.filled())))?;
        let small = ("sans-serif", 12).into_font().color(&INK);
        let beside = small.pos(Pos::new(HPos::Left, VPos::Bottom));
        let numbers = labels(&points).into_iter();
        chart.draw_series(numbers.map(|(point, text)| Text::new(text, point, beside.clone())))?;
        Ok(())
    })
}

/// The numbers of the points, those of near neighbours in one text so that none covers another.
fn labels(points: &[(f64, f64)]) -> Vec<((f64, f64), String)> {
    let mut labels: Vec<((f64, f64), String)> = Vec::new();
    for (index, &(x, y)) in points.iter().enumerate() {
        let near = |at: &(f64, f64)| (at.0 - x).abs() < 0.03 && (at.1 - y).abs() < 0.045;
        match labels.iter_mut().find(|(at, _)| near(at)) {
            Some((_, text)) => text.push_str(&format!(", {}", index + 1)),
            None => labels.push(((x, y), format!(" {}", index + 1))),
        }
    }
    labels
}
