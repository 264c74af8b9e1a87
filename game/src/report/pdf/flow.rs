//! Lays a document out on sheets, from the top of the first to the bottom of the last.

use super::ink::{ACCENT, BLACK, BOTTOM, BREADTH, Face, HEIGHT, Ink, Paper, SIDE, TOP};
use super::tables;
use crate::report::document::{Block, Document, FindingBlock, Outcome, Span, Text};
use crate::report::lettering;
use crate::report::plots::Plot;

/// Width of a plot in its own units: text of 13 becomes 9 pt.
const PLOT_UNITS: u32 = 730;
/// Height of the head of a section with the room about it.
const HEAD: f64 = 42.0;
/// The same of a part of a section.
const SUBHEAD: f64 = 22.0;
/// Indent of the points of a list.
const BULLET: f64 = 12.0;
/// Indent of a finding.
const FINDING: f64 = 11.0;
/// Indent of the words behind `Why`, `Source` and the like.
const LABEL: f64 = 46.0;

/// Lays out a document.
pub fn laid_out(document: &Document) -> Vec<Paper> {
    let mut flow = Flow::new();
    flow.lines(&document.title, Face::TITLE, 0.0);
    flow.gap(8.0);
    for (index, block) in document.blocks.iter().enumerate() {
        let next = document.blocks.get(index + 1).map_or(0.0, least);
        match block {
            // A head never stands alone at the bottom.
            Block::Heading(_) => flow.need_below(HEAD, next),
            Block::Subheading(_) => flow.need_below(SUBHEAD, next),
            _ => {}
        }
        flow.block(block);
    }
    flow.papers
}

/// The height of what has to follow a head on the same sheet.
fn least(block: &Block) -> f64 {
    match block {
        Block::Plot { plot, .. } => plot_height(plot) + 30.0,
        Block::Finding(_) => 90.0,
        Block::Table(_) => 100.0,
        _ => 40.0,
    }
}

/// The height of a plot on paper.
fn plot_height(plot: &Plot) -> f64 {
    BREADTH * f64::from(plot.height(PLOT_UNITS)) / f64::from(PLOT_UNITS)
}

/// Sheets as far as they are filled.
pub struct Flow {
    papers: Vec<Paper>,
    y: f64,
}

impl Flow {
    fn new() -> Self {
        Self { papers: vec![Paper::default()], y: TOP }
    }

    /// Height that is left on the sheet.
    pub fn left(&self) -> f64 {
        HEIGHT - BOTTOM - self.y
    }

    /// The most that a sheet holds.
    pub const fn most() -> f64 {
        HEIGHT - BOTTOM - TOP
    }

    /// Where the next line begins.
    pub const fn y(&self) -> f64 {
        self.y
    }

    /// Puts something on the sheet.
    pub fn put(&mut self, ink: Ink) {
        if let Some(paper) = self.papers.last_mut() {
            paper.inks.push(ink);
        }
    }

    /// Goes on below.
    pub fn down(&mut self, height: f64) {
        self.y += height;
    }

    /// Begins a new sheet unless so much is left, or the sheet is empty.
    pub fn need(&mut self, height: f64) {
        if self.left() < height && self.y > TOP {
            self.papers.push(Paper::default());
            self.y = TOP;
        }
    }

    /// Begins a new sheet unless a head and so much below it find room.
    fn need_below(&mut self, head: f64, height: f64) {
        self.need((head + height).min(Self::most()));
    }

    /// Leaves room, but not at the top of a sheet.
    fn gap(&mut self, height: f64) {
        if self.y > TOP {
            self.y += height;
        }
    }

    fn block(&mut self, block: &Block) {
        match block {
            Block::Heading(words) => self.heading(words),
            Block::Subheading(words) => {
                self.gap(7.0);
                self.lines(words, Face::SUBHEADING, 0.0);
            }
            Block::Paragraph(words) => {
                self.rich(words, Face::TEXT, 0.0);
                self.gap(4.0);
            }
            Block::Note(words) => {
                self.lines(words, Face::NOTE, 0.0);
                self.gap(6.0);
            }
            Block::Caution(words) => self.caution(words),
            Block::Result(outcome, words) => {
                let sign = match outcome {
                    Outcome::Passed => "✓ ",
                    Outcome::NotYet => "",
                };
                self.lines(&format!("{sign}{words}"), Face::RESULT, 0.0);
                self.gap(6.0);
            }
            Block::List(points) => {
                for point in points {
                    self.point(point);
                }
                self.gap(4.0);
            }
            Block::Table(table) => {
                self.gap(3.0);
                tables::table(self, table);
                self.gap(8.0);
            }
            Block::Finding(finding) => self.finding(finding),
            Block::Plot { plot, caption, .. } => self.plot(plot, caption),
        }
    }

    fn heading(&mut self, words: &str) {
        self.gap(15.0);
        if let Some(paper) = self.papers.last_mut() {
            paper.heads.push((words.to_owned(), self.y));
        }
        self.lines(words, Face::HEADING, 0.0);
        let y = self.y + 1.0;
        self.put(Ink::Line { from: (SIDE, y), to: (SIDE + BREADTH, y), width: 1.2, colour: BLACK });
        self.down(7.0);
    }

    /// Words in as many lines as they need.
    fn lines(&mut self, words: &str, face: Face, indent: f64) {
        for line in lettering::wrapped(face.style, face.size, words, BREADTH - indent) {
            self.need(face.lead());
            self.words(line, face, indent);
            self.down(face.lead());
        }
    }

    /// Words in the present line.
    fn words(&mut self, words: String, face: Face, indent: f64) {
        let baseline = self.y + face.rise();
        self.put(Ink::Words { x: SIDE + indent, baseline, face, words });
    }

    /// The same with some of it in bold.
    fn rich(&mut self, text: &Text, face: Face, indent: f64) {
        let mut x = indent;
        self.need(face.lead());
        for span in &text.0 {
            let face = match span {
                Span::Plain(_) => face,
                Span::Strong(_) => Face { style: Face::STRONG.style, ..face },
            };
            let width = |words: &str| lettering::width(face.style, face.size, words);
            let mut run = String::new();
            let mut begin = x;
            for word in span.words().split_inclusive(' ') {
                if x > indent && x + width(word.trim_end()) > BREADTH {
                    self.words(std::mem::take(&mut run), face, begin);
                    self.down(face.lead());
                    self.need(face.lead());
                    (x, begin) = (indent, indent);
                }
                x += width(word);
                run.push_str(word);
            }
            self.words(run, face, begin);
        }
        self.down(face.lead());
    }

    fn point(&mut self, point: &Text) {
        self.need(Face::TEXT.lead());
        self.words("•".to_owned(), Face::TEXT, 2.0);
        self.rich(point, Face::TEXT, BULLET);
    }

    fn caution(&mut self, words: &str) {
        let face = Face::TEXT;
        let lines = lettering::wrapped(face.style, face.size, words, BREADTH - 18.0);
        let height = face.lead() * lines.len() as f64 + 8.0;
        self.gap(4.0);
        self.need(height);
        let corner = (SIDE, self.y);
        self.put(Ink::Box { corner, size: (BREADTH, height), colour: ACCENT });
        self.down(4.0);
        for line in lines {
            self.words(line, face, 9.0);
            self.down(face.lead());
        }
        self.down(8.0);
    }

    fn finding(&mut self, finding: &FindingBlock) {
        let title = format!("{}  {}", finding.number, finding.title);
        let inner = BREADTH - FINDING;
        let count = |face: Face, words: &str, most: f64| {
            face.lead() * lettering::wrapped(face.style, face.size, words, most).len() as f64
        };
        let tag = match finding.severity.as_str() {
            "" => String::new(),
            words => format!("[{words}]"),
        };
        let tagged = format!("{title} {tag}");
        let lines: f64 =
            finding.lines.iter().map(|(_, words)| count(Face::NOTE, words, inner - LABEL)).sum();
        let height = count(Face::STRONG, &tagged, inner)
            + count(Face::TEXT, &finding.evidence, inner)
            + lines;
        self.gap(7.0);
        self.need(height.min(Self::most()));
        let (top, sheet) = (self.y, self.papers.len());
        let head = Text(vec![Span::Strong(format!("{title} ")), Span::Plain(tag)]);
        self.rich(&head, Face::TEXT, FINDING);
        self.lines(&finding.evidence, Face::TEXT, FINDING);
        for (name, words) in &finding.lines {
            self.need(Face::NOTE.lead());
            self.words((*name).to_owned(), Face::NOTE, FINDING);
            let face = Face { colour: BLACK, ..Face::NOTE };
            self.lines(words, face, FINDING + LABEL);
        }
        // Beside a finding that goes over to another sheet there is no line.
        if sheet == self.papers.len() {
            let (from, to) = ((SIDE + 2.0, top + 1.5), (SIDE + 2.0, self.y + 1.0));
            self.put(Ink::Line { from, to, width: 2.5, colour: ACCENT });
        }
    }

    fn plot(&mut self, plot: &Plot, caption: &str) {
        let units = plot.height(PLOT_UNITS);
        let height = plot_height(plot);
        let lines = lettering::wrapped(Face::NOTE.style, Face::NOTE.size, caption, BREADTH).len();
        self.gap(6.0);
        self.need(height + 6.0 + Face::NOTE.lead() * lines as f64);
        let corner = (SIDE, self.y);
        let size = (PLOT_UNITS, units);
        self.put(Ink::Plot { corner, width: BREADTH, size, plot: Box::new(plot.clone()) });
        self.down(height + 3.0);
        self.lines(caption, Face::NOTE, 0.0);
        self.gap(6.0);
    }
}
