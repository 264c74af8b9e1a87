//! The timeline of a session: a lane for each phase, waits lighter than work, the moments of
//! readings, and the numbers of the findings where they were made.

use content::names::phase_name;
use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use sim_core::procedure::Severity;

use super::super::bench_time_line::BenchTimeLine;
use super::super::text_layout::{self, Typeface};
use super::axes::{SMALL, frame};
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// Height of a lane.
const LANE: f64 = 22.0;
/// Height of a line of finding numbers.
const NUMBER_LINE: f64 = 17.0;
/// Room above the lanes.
const TOP: f64 = 30.0;
/// Room for the scale.
const SCALE: f64 = 44.0;
/// Room for the names of lanes.
const NAMES: f64 = 112.0;
/// Room at the right edge.
const RIGHT: f64 = 14.0;
/// Room between numbers of findings and the frame about them.
const FRAME: f64 = 3.0;
/// Numbers of findings nearer than this to the first of a group are written together.
const TOGETHER: f64 = 9.0;

/// A session laid out in time.
#[derive(Debug, Clone, PartialEq)]
pub struct TimeLinePlot {
    lanes: Vec<Lane>,
    readings_min: Vec<f64>,
    findings: Vec<(f64, Severity)>,
    away_min: Option<f64>,
    minutes: f64,
}

/// A phase.
#[derive(Debug, Clone, PartialEq)]
struct Lane {
    name: &'static str,
    work_min: Vec<(f64, f64)>,
    waits_min: Vec<(f64, f64)>,
}

/// Numbers of findings that are written together.
struct Group {
    at: f64,
    numbers: Vec<usize>,
    words: String,
    gravest: bool,
    line: usize,
}

impl TimeLinePlot {
    /// The plot of a timeline.
    pub fn of(line: &BenchTimeLine) -> Self {
        let at = |tick| line.minutes_at(tick);
        let lane = |phase| {
            let spans: Vec<_> = line.spans.iter().filter(|span| span.phase == phase).collect();
            let shared = |&(from, to): &(sim_core::time::Tick, sim_core::time::Tick)| {
                let of_span = spans.iter().map(move |span| (span.from.max(from), span.to.min(to)));
                of_span
                    .filter(|(from, to)| from < to)
                    .map(|(from, to)| (at(from), at(to)))
                    .collect::<Vec<_>>()
            };
            Lane {
                name: phase_name(phase),
                work_min: spans.iter().map(|span| (at(span.from), at(span.to))).collect(),
                waits_min: line.waits.iter().flat_map(shared).collect(),
            }
        };
        Self {
            lanes: line.phases().into_iter().map(|phase| lane(phase.phase)).collect(),
            readings_min: line.readings.iter().map(|&tick| at(tick)).collect(),
            findings: line.findings.iter().map(|&(tick, severity)| (at(tick), severity)).collect(),
            away_min: line.away.map(|(from, _)| at(from)),
            minutes: line.minutes(),
        }
    }

    /// The height that the plot needs at a width.
    pub fn height(&self, width: u32) -> u32 {
        let lines = self.groups(width).iter().map(|group| group.line + 1).max().unwrap_or(1);
        let lanes = LANE * (self.lanes.len() + 1) as f64;
        (TOP + lanes + NUMBER_LINE * lines as f64 + 6.0 + SCALE).ceil() as u32
    }

    /// The distance of a minute from the left.
    fn x(&self, width: u32, minutes: f64) -> f64 {
        let span = f64::from(width) - NAMES - RIGHT;
        NAMES + span * minutes / self.minutes.max(1.0)
    }

    /// The numbers of the findings, near ones together, so that none covers another.
    fn groups(&self, width: u32) -> Vec<Group> {
        let mut marks: Vec<(usize, f64, Severity)> = self
            .findings
            .iter()
            .enumerate()
            .map(|(index, &(minute, severity))| (index + 1, self.x(width, minute), severity))
            .collect();
        marks.sort_by(|one, other| one.1.total_cmp(&other.1));
        let mut groups: Vec<Group> = Vec::new();
        for (number, at, severity) in marks {
            let grave = matches!(severity, Severity::Critical | Severity::Safety);
            match groups.last_mut().filter(|group| at - group.at < TOGETHER) {
                Some(group) => {
                    group.numbers.push(number);
                    group.gravest |= grave;
                }
                None => groups.push(Group {
                    at,
                    numbers: vec![number],
                    words: String::new(),
                    gravest: grave,
                    line: 0,
                }),
            }
        }
        let mut ends: Vec<f64> = Vec::new();
        for group in &mut groups {
            group.words = ranges(&mut group.numbers);
            let half =
                0.5 * text_layout::width(Typeface::SemiBold, SMALL, &group.words) + FRAME + 1.5;
            // Long ones at the edges stay on the paper.
            let most = f64::from(width) - RIGHT - half;
            group.at = group.at.clamp((NAMES + half).min(most), most);
            let free = ends.iter().position(|&end| end <= group.at - half);
            group.line = free.unwrap_or(ends.len());
            match ends.get_mut(group.line) {
                Some(end) => *end = group.at + half,
                None => ends.push(group.at + half),
            }
        }
        groups
    }

    pub(super) fn draw<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        style: &PlotStyle,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let bottom = f64::from(style.height) - SCALE;
        let lanes_end = TOP + LANE * (self.lanes.len() + 1) as f64;
        self.scale(root, style, (lanes_end, bottom))?;
        let palette = style.palette;
        let at = |x: f64, y: f64| (style.shift(x), style.shift(y));
        for (index, lane) in self.lanes.iter().enumerate() {
            let y = TOP + LANE * (index as f64 + 0.5);
            self.name(root, style, lane.name, y)?;
            let bars = lane.work_min.iter().map(|span| (span, palette.truth));
            for (&(from, to), colour) in
                bars.chain(lane.waits_min.iter().map(|span| (span, palette.wash)))
            {
                let (left, right) = (self.x(style.width, from), self.x(style.width, to));
                let corners = [at(left, y - 7.0), at(right.max(left + 1.0), y + 7.0)];
                root.draw(&Rectangle::new(corners, colour.filled()))?;
                root.draw(&frame(corners, style.line(palette.ink, 0.5)))?;
            }
        }
        let y = TOP + LANE * (self.lanes.len() as f64 + 0.5);
        self.name(root, style, "readings", y)?;
        for &minute in &self.readings_min {
            let x = self.x(style.width, minute);
            root.draw(&PathElement::new(
                [at(x, y - 7.0), at(x, y + 7.0)],
                style.line(palette.own, 1.5),
            ))?;
        }
        let top = y + 0.5 * LANE;
        self.name(root, style, "findings", top + 0.5 * NUMBER_LINE + 2.0)?;
        if self.findings.is_empty() {
            let font = style.text_at(SMALL, HPos::Left, VPos::Center);
            root.draw(&Text::new(
                "none".to_owned(),
                at(NAMES, top + 0.5 * NUMBER_LINE + 2.0),
                font,
            ))?;
        }
        for group in self.groups(style.width) {
            let y = top + NUMBER_LINE * (group.line as f64 + 0.5) + 2.0;
            let colour = if group.gravest { palette.own } else { palette.ink };
            let font = style.bold(SMALL).color(&colour).pos(Pos::new(HPos::Center, VPos::Center));
            if group.gravest {
                // Colour alone would be lost in grey.
                let half =
                    0.5 * text_layout::width(Typeface::SemiBold, SMALL, &group.words) + FRAME;
                let corners = [at(group.at - half, y - 7.5), at(group.at + half, y + 7.5)];
                root.draw(&frame(corners, style.line(colour, 1.25)))?;
            }
            root.draw(&Text::new(group.words, at(group.at, y), font))?;
        }
        self.key(root, style)
    }

    fn name<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        style: &PlotStyle,
        name: &str,
        y: f64,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let font = style.text_at(SMALL, HPos::Right, VPos::Center);
        let place = (style.shift(NAMES - 8.0), style.shift(y));
        Ok(root.draw(&Text::new(name.to_owned(), place, font))?)
    }

    /// What work, wait and the time away look like.
    fn key<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        style: &PlotStyle,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let mut x = 14.0;
        let font = style.text_at(SMALL, HPos::Left, VPos::Center);
        for (words, colour) in [("work", style.palette.truth), ("wait", style.palette.wash)] {
            let corners =
                [(x, 9.0), (x + 18.0, 20.0)].map(|(x, y)| (style.shift(x), style.shift(y)));
            root.draw(&Rectangle::new(corners, colour.filled()))?;
            root.draw(&frame(corners, style.line(style.palette.ink, 0.5)))?;
            let place = (style.shift(x + 24.0), style.shift(14.5));
            root.draw(&Text::new(words.to_owned(), place, font.clone()))?;
            x += 78.0;
        }
        if self.away_min.is_some() {
            let ends = [7.0, 22.0].map(|y| (style.shift(x + 9.0), style.shift(y)));
            root.draw(&PathElement::new(ends, style.line(style.palette.ink, 2.0)))?;
            let place = (style.shift(x + 24.0), style.shift(14.5));
            root.draw(&Text::new("unattended run".to_owned(), place, font))?;
        }
        Ok(())
    }

    /// The scale of minutes below the lanes, and the time away.
    fn scale<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        style: &PlotStyle,
        (lanes_end, bottom): (f64, f64),
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let at = |x: f64, y: f64| (style.shift(x), style.shift(y));
        let most = if style.is_narrow() { 5.0 } else { 12.0 };
        let step = [1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0]
            .into_iter()
            .find(|step| self.minutes / step <= most);
        let step = step.unwrap_or(120.0);
        let marks =
            (0..).map(|index| f64::from(index) * step).take_while(|&minute| minute <= self.minutes);
        for minute in marks {
            let x = self.x(style.width, minute);
            root.draw(&PathElement::new([at(x, TOP), at(x, bottom + 4.0)], style.faint(0.16)))?;
            let font = style.text_at(SMALL, HPos::Center, VPos::Top);
            root.draw(&Text::new(format!("{minute:.0}"), at(x, bottom + 6.0), font))?;
        }
        if let Some(minute) = self.away_min {
            let x = self.x(style.width, minute);
            // Not through the numbers of the findings below.
            let ends = [at(x, TOP - 4.0), at(x, lanes_end)];
            root.draw(&PathElement::new(ends, style.line(style.palette.ink, 2.0)))?;
        }
        let axis = [at(NAMES, bottom), at(f64::from(style.width) - RIGHT, bottom)];
        root.draw(&PathElement::new(axis, style.line(style.palette.ink, 1.0)))?;
        let font = style.text_at(SMALL, HPos::Center, VPos::Top);
        let middle = 0.5 * (NAMES + f64::from(style.width) - RIGHT);
        Ok(root.draw(&Text::new(
            "minutes on the bench".to_owned(),
            at(middle, bottom + 24.0),
            font,
        ))?)
    }
}

/// `1, 3–5`.
fn ranges(numbers: &mut [usize]) -> String {
    numbers.sort_unstable();
    let mut ranges: Vec<(usize, usize)> = Vec::new();
    for &number in numbers.iter() {
        match ranges.last_mut().filter(|(_, last)| last + 1 == number) {
            Some((_, last)) => *last = number,
            None => ranges.push((number, number)),
        }
    }
    let words = |(first, last): (usize, usize)| match last - first {
        0 => first.to_string(),
        1 => format!("{first}, {last}"),
        _ => format!("{first}–{last}"),
    };
    ranges.into_iter().map(words).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::ranges;

    #[test]
    fn numbers_in_a_row_are_written_as_one() {
        assert_eq!(ranges(&mut [4, 1, 3, 5, 9, 10]), "1, 3–5, 9, 10");
    }
}
