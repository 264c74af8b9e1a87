//! Work order and certificates, typeset. A page longer than the loupe moves up as the eye goes down.

use resvg::tiny_skia::Pixmap;
use sim_core::scenario::run::ScheduledTime;
use sim_core::scenario::setup::{Certificate, CertificatePair, WorkOrder};
use sim_core::session::SitePapers;
use sim_core::session::action::Sight;
use sim_core::session::view::run::WeatherLine;

use super::{CENTRE, SHEET, Subject};
use crate::paint::canvas::{Align, Canvas, Line, Type};
use crate::paint::palette;
use crate::paint::text::{self, Style};
use crate::words;

/// Width of the type within the loupe.
const MEASURE: f32 = 180.0;
/// The part of the loupe's height in which a line of full measure is not cut.
const FROM: f32 = 42.0;
const TO: f32 = 238.0;
/// Lowering the eye so far moves a long page to its end, mm.
const EYE_TRAVEL_MM: f64 = 150.0;

/// One line of a page.
#[derive(Debug, Clone, PartialEq)]
enum Row {
    /// The heading.
    Heading(String),
    /// A line of text.
    Text(String),
    /// A name and its value.
    Pair(String, String),
    /// A quiet heading.
    Small(String),
    /// A rule across.
    Rule,
}

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject) {
    canvas.wash(palette::PAGE.color());
    let weather = subject.view.run.as_deref().map_or(&[][..], |run| &run.weather[..]);
    let rows = rows(subject.view.focus, subject.papers, weather);
    let size = subject.size(11.2, 1.6);
    let height = set(None, &rows, size, MEASURE, (0.0, 0.0));
    let room = TO - FROM;
    let share = (-subject.view.eye_mm / EYE_TRAVEL_MM).clamp(0.0, 1.0) as f32;
    let top =
        if height <= room { FROM + 0.5 * (room - height) } else { FROM - share * (height - room) };
    edge(canvas);
    set(Some((canvas, in_loupe)), &rows, size, MEASURE, (CENTRE.0 - 0.5 * MEASURE, top));
    for (more, y, way) in [(top < FROM, 29.0, -1.0), (top + height > TO, 253.0, 1.0)] {
        if more {
            let (x, ink) = (CENTRE.0, palette::INK_SOFT.color());
            canvas.polygon(&[(x - 6.0, y), (x + 6.0, y), (x, y + way * 7.0)], ink, None);
        }
    }
}

fn in_loupe(top: f32, foot: f32) -> f32 {
    ((top - FROM + 8.0).min(TO + 8.0 - foot) / 8.0).clamp(0.0, 1.0)
}

/// A whole page, `width_px` pixels wide and as long as it takes, for reading outside the loupe.
pub fn page(sight: Sight, papers: &SitePapers, width_px: u32, text_scale: f32) -> Pixmap {
    let margin = 24.0;
    let measure = 320.0;
    let width = measure + 2.0 * margin;
    let size = 15.0 * text_scale.clamp(0.5, 2.0);
    let rows = rows(sight, papers, &[]);
    let height = set(None, &rows, size, measure, (0.0, 0.0)) + 2.0 * margin;
    let px = width_px.clamp(16, 4096) as f32 / width;
    let mut canvas = Canvas::new(width_px.clamp(16, 4096), (height * px).ceil() as u32, px);
    canvas.wash(palette::PAGE.color());
    canvas.rect(
        (1.0, 1.0),
        (width - 2.0, height - 2.0),
        palette::PAGE.color(),
        Some((palette::INK.color(), Line::MEDIUM)),
    );
    set(Some((&mut canvas, |_, _| 1.0)), &rows, size, measure, (margin, margin));
    canvas.finish()
}

/// The sheet's margin line at the left, as on the field book.
fn edge(canvas: &mut Canvas) {
    let x = CENTRE.0 - 0.5 * MEASURE - 9.0;
    canvas.line((x, 0.0), (x, SHEET), palette::COPPER.faded(0.4), Line::FINE);
}

fn rows(sight: Sight, papers: &SitePapers, weather: &[WeatherLine]) -> Vec<Row> {
    match sight {
        Sight::WeatherSheet => weather_rows(weather),
        Sight::Certificate(number) => match papers.certificates.get(usize::from(number)) {
            Some(certificate) => certificate_rows(certificate),
            None => vec![Row::Text("There is no other paper in the box.".to_owned())],
        },
        _ => order_rows(papers.work_order, papers),
    }
}

fn order_rows(order: &WorkOrder, papers: &SitePapers) -> Vec<Row> {
    let pair = |name: &str, value: String| Row::Pair(name.to_owned(), value);
    let mut rows = vec![
        Row::Heading("Work order".to_owned()),
        pair("number", order.number.clone()),
        pair("date", papers.station.date.to_string()),
        pair("station", papers.station.name.clone()),
        pair("sampler", papers.station.sampler_serial.clone()),
        pair("elevation", format!("{:.0} m", papers.station.elevation_m)),
        Row::Rule,
    ];
    rows.extend(order.text.lines().map(|line| Row::Text(line.to_owned())));
    rows.extend([
        Row::Rule,
        pair("calibrator", order.calibrator_serial.clone()),
        pair("points", order.points.to_string()),
        pair(
            "flow to set",
            match order.target_flow_actual_m3_min {
                Some(design) => format!("{design} m³/min, as the run's air is"),
                None => format!("{} std m³/min", order.target_flow_std_m3_min),
            },
        ),
        Row::Small("expected for the run".to_owned()),
        pair("pressure", format!("{} mmHg", order.run_pressure_mmhg)),
        pair("temperature", format!("{} °C", order.run_temperature_c)),
    ]);
    if let Some(run) = &order.run {
        let at = |name: &str, moment: ScheduledTime| {
            let date = papers.station.date.later(i64::from(moment.day));
            let day: String = words::weekday(date.weekday()).chars().take(3).collect();
            pair(name, format!("{day} {date} {}", minutes(&moment.at.to_string())))
        };
        rows.push(Row::Small("24-hour run".to_owned()));
        rows.extend([at("on", run.on), at("off", run.off), at("come back", run.back)]);
        if let Some(next) = run.next {
            rows.push(Row::Small("next run, to be armed for".to_owned()));
            rows.extend([at("on", next.on), at("off", next.off)]);
        }
        for filter in &run.filters {
            rows.push(pair("filter", format!("{}, {:.4} g", filter.number, filter.mass_g)));
        }
    }
    if let Some(last) = &order.last_line {
        rows.extend([
            Row::Small(format!("last calibration, {}", last.date)),
            pair("slope", signed(last.slope, 3)),
            pair("intercept", signed(last.intercept, 3)),
        ]);
    }
    rows
}

/// The sheet on which the station's logger prints the weather, hour by hour.
fn weather_rows(weather: &[WeatherLine]) -> Vec<Row> {
    let mut rows = vec![Row::Heading("Weather".to_owned())];
    if weather.is_empty() {
        rows.push(Row::Text("Nothing is printed yet.".to_owned()));
    }
    rows.push(Row::Pair("time".to_owned(), "mmHg      \u{b0}C".to_owned()));
    let mut day = None;
    for line in weather {
        if day != Some(line.date) {
            day = Some(line.date);
            rows.push(Row::Small(line.date.to_string()));
        }
        let read = format!("{:.1}    {:>5.1}", line.pressure_mmhg, line.temperature_c);
        rows.push(Row::Pair(minutes(&line.time.to_string()).to_owned(), read));
    }
    rows
}

/// A time of day without its seconds.
fn minutes(time: &str) -> &str {
    time.rsplit_once(':').map_or(time, |(minutes, _)| minutes)
}

fn certificate_rows(paper: &Certificate) -> Vec<Row> {
    let mut rows = vec![
        Row::Heading(capitalised(&paper.heading)),
        Row::Small("orifice calibrator".to_owned()),
        Row::Pair("serial".to_owned(), paper.serial.clone()),
        Row::Pair("date".to_owned(), paper.date.to_string()),
        Row::Rule,
    ];
    let pairs = [("standard conditions", &paper.standard), ("actual conditions", &paper.actual)];
    let printed = if paper.actual_first { [pairs[1], pairs[0]] } else { pairs };
    for (conditions, pair) in printed {
        rows.push(Row::Small(conditions.to_owned()));
        rows.extend(line_rows(pair));
    }
    rows.push(Row::Rule);
    rows.push(Row::Pair("correlation r".to_owned(), format!("{:.5}", paper.correlation)));
    rows
}

fn line_rows(pair: &CertificatePair) -> [Row; 2] {
    [
        Row::Pair("slope m".to_owned(), signed(pair.slope, 5)),
        Row::Pair("intercept b".to_owned(), signed(pair.intercept, 5)),
    ]
}

/// A number with so many decimals and a true minus sign.
fn signed(value: f64, decimals: usize) -> String {
    let size = format!("{:.decimals$}", value.abs());
    if value < 0.0 { format!("−{size}") } else { size }
}

fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// How much of a line at a height is shown: in the loupe its rim cuts no line, but fades it.
type Shown = fn(f32, f32) -> f32;

/// Sets the rows from `at` downwards, on a canvas if there is one, and returns their height.
fn set(
    mut canvas: Option<(&mut Canvas, Shown)>,
    rows: &[Row],
    size: f32,
    measure: f32,
    at: (f32, f32),
) -> f32 {
    let (x, mut y) = at;
    let mut put = |text: &str, align: Align, style: Style, size: f32, hue: palette::Hue, y: f32| {
        let Some((canvas, shown)) = &mut canvas else { return };
        let x = if align == Align::End { x + measure } else { x };
        let color = hue.faded(shown(y - 0.75 * size, y + 0.25 * size));
        canvas.text((x, y), text, Type::new(style, size, hue).align(align).color(color));
    };
    let mut rules = Vec::new();
    for row in rows {
        match row {
            Row::Heading(words) => {
                y += 1.1 * size;
                put(words, Align::Start, Style::SemiBold, 1.4 * size, palette::INK, y);
                y += 0.5 * size;
            }
            Row::Text(words) => {
                for line in text::wrapped(Style::Regular, size, words, measure) {
                    y += 1.3 * size;
                    put(&line, Align::Start, Style::Regular, size, palette::INK, y);
                }
                y += 0.15 * size;
            }
            Row::Pair(name, value) => {
                y += 1.28 * size;
                put(name, Align::Start, Style::Italic, size, palette::INK_SOFT, y);
                let room = measure - text::width(Style::Italic, size, name) - size;
                let lines = text::wrapped(Style::SemiBold, size, value, room);
                for (index, line) in lines.iter().enumerate() {
                    y += if index == 0 { 0.0 } else { 1.2 * size };
                    put(line, Align::End, Style::SemiBold, size, palette::INK, y);
                }
            }
            Row::Small(words) => {
                y += 1.5 * size;
                put(words, Align::Start, Style::Italic, 0.95 * size, palette::COPPER, y);
            }
            Row::Rule => {
                y += 0.6 * size;
                rules.push(y);
            }
        }
    }
    if let Some((canvas, shown)) = canvas {
        for rule in rules {
            let color = palette::INK_SOFT.faded(shown(rule, rule));
            canvas.line((x, rule), (x + measure, rule), color, Line::FINE);
        }
    }
    y + 0.4 * size - at.1
}
