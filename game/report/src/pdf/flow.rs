//! Lays a document out on sheets, from the top of the first to the bottom of the last.

use super::ink::{ACCENT, BLACK, BOTTOM, BREADTH, Face, HEIGHT, Ink, Paper, SIDE, TOP};
use super::structure::{Level, Piece, Role, Structure};
use super::tables;
use crate::document::{Block, Document, FindingBlock, Outcome, Span, Text};
use crate::lettering;
use crate::plots::Plot;

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
pub fn laid_out(document: &Document) -> (Vec<Paper>, Structure) {
    let mut flow = Flow::new();
    flow.head(Level::Title, &document.title, Face::TITLE);
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
    (flow.papers, flow.structure)
}

/// The height of what has to follow a head on the same sheet.
fn least(block: &Block) -> f64 {
    match block {
        Block::Plot { plot, caption, .. } => 6.0 + plot_height(plot) + caption_height(caption),
        Block::Finding(finding) => 7.0 + finding_height(finding),
        Block::Table(table) => 3.0 + tables::least(table),
        _ => 40.0,
    }
}

/// The height of a plot on paper.
fn plot_height(plot: &Plot) -> f64 {
    BREADTH * f64::from(plot.height(PLOT_UNITS)) / f64::from(PLOT_UNITS)
}

/// The height of words in as many lines as they need.
fn words_height(face: Face, words: &str, most: f64) -> f64 {
    face.lead() * lettering::wrapped(face.style, face.size, words, most).len() as f64
}

/// The height of what is written below a plot.
fn caption_height(caption: &str) -> f64 {
    6.0 + words_height(Face::NOTE, caption, BREADTH)
}

/// The title of a finding and what is at stake.
fn title_and_tag(finding: &FindingBlock) -> (String, String) {
    let title = format!("{}  {} ", finding.number, finding.title);
    let tag = match finding.severity.as_str() {
        "" => String::new(),
        words => format!("[{words}]"),
    };
    (title, tag)
}

fn finding_height(finding: &FindingBlock) -> f64 {
    let inner = BREADTH - FINDING;
    let (title, tag) = title_and_tag(finding);
    let lines =
        finding.lines.iter().map(|(_, words)| words_height(Face::NOTE, words, inner - LABEL));
    words_height(Face::STRONG, &(title + &tag), inner)
        + words_height(Face::TEXT, &finding.evidence, inner)
        + lines.sum::<f64>()
}

/// Sheets as far as they are filled.
pub struct Flow {
    papers: Vec<Paper>,
    structure: Structure,
    y: f64,
}

impl Flow {
    fn new() -> Self {
        Self { papers: vec![Paper::default()], structure: Structure::default(), y: TOP }
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

    /// Puts something on the sheet that is there for the eye alone.
    pub fn put(&mut self, ink: Ink) {
        self.put_as(ink, None);
    }

    /// Puts something on the sheet that belongs to a piece.
    pub fn put_as(&mut self, ink: Ink, piece: Option<Piece>) {
        if let Some(paper) = self.papers.last_mut() {
            paper.inks.push((ink, piece));
        }
    }

    /// A piece, and all that is put on the sheet with it.
    pub fn piece<T>(&mut self, role: Role, set: impl FnOnce(&mut Self) -> T) -> T {
        self.structure.begin(role);
        let result = set(self);
        self.structure.end();
        result
    }

    /// A piece that is filled later, line by line.
    pub fn empty_piece(&mut self, role: Role) -> Piece {
        let piece = self.structure.begin(role);
        self.structure.end();
        piece
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
                self.head(Level::Part, words, Face::SUBHEADING);
            }
            Block::Paragraph(words) => {
                self.piece(Role::Paragraph, |flow| flow.rich(words, Face::TEXT, 0.0));
                self.gap(4.0);
            }
            Block::Note(words) => {
                self.paragraph(words, Face::NOTE, 0.0);
                self.gap(6.0);
            }
            Block::Caution(words) => self.caution(words),
            Block::Result(outcome, words) => {
                let sign = match outcome {
                    Outcome::Passed => "✓ ",
                    Outcome::NotYet => "",
                };
                self.paragraph(&format!("{sign}{words}"), Face::RESULT, 0.0);
                self.gap(6.0);
            }
            Block::List(points) => {
                self.piece(Role::List, |flow| {
                    for point in points {
                        flow.piece(Role::Point, |flow| flow.point(point));
                    }
                });
                self.gap(4.0);
            }
            Block::Table(table) => {
                self.gap(3.0);
                self.piece(Role::Table, |flow| tables::table(flow, table));
                self.gap(8.0);
            }
            Block::Finding(finding) => self.piece(Role::Finding, |flow| flow.finding(finding)),
            Block::Plot { plot, caption, told } => self.plot(plot, caption, told),
        }
    }

    fn heading(&mut self, words: &str) {
        self.gap(15.0);
        if let Some(paper) = self.papers.last_mut() {
            paper.heads.push((words.to_owned(), self.y));
        }
        self.head(Level::Section, words, Face::HEADING);
        let y = self.y + 1.0;
        self.put(Ink::Line { from: (SIDE, y), to: (SIDE + BREADTH, y), width: 1.2, colour: BLACK });
        self.down(7.0);
    }

    /// A head that stands for itself.
    fn head(&mut self, level: Level, words: &str, face: Face) {
        self.piece(Role::Head(level, words.to_owned()), |flow| flow.lines(words, face, 0.0));
    }

    /// Words that stand for themselves.
    fn paragraph(&mut self, words: &str, face: Face, indent: f64) {
        self.piece(Role::Paragraph, |flow| flow.lines(words, face, indent));
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
        let inside = self.structure.inside();
        self.put_as(Ink::Words { x: SIDE + indent, baseline, face, words }, inside);
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
        self.piece(Role::Dot, |flow| flow.words("•".to_owned(), Face::TEXT, 2.0));
        self.piece(Role::Body, |flow| flow.rich(point, Face::TEXT, BULLET));
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
        self.piece(Role::Paragraph, |flow| {
            for line in lines {
                flow.words(line, face, 9.0);
                flow.down(face.lead());
            }
        });
        self.down(8.0);
    }

    fn finding(&mut self, finding: &FindingBlock) {
        self.gap(7.0);
        self.need(finding_height(finding).min(Self::most()));
        let (top, sheet) = (self.y, self.papers.len());
        let (title, tag) = title_and_tag(finding);
        let role = Role::Head(Level::Part, format!("{title}{tag}").trim_end().to_owned());
        let head = Text(vec![Span::Strong(title), Span::Plain(tag)]);
        self.piece(role, |flow| flow.rich(&head, Face::TEXT, FINDING));
        self.paragraph(&finding.evidence, Face::TEXT, FINDING);
        for (name, words) in &finding.lines {
            self.need(Face::NOTE.lead());
            self.piece(Role::Paragraph, |flow| {
                flow.words((*name).to_owned(), Face::NOTE, FINDING);
                let face = Face { colour: BLACK, ..Face::NOTE };
                flow.lines(words, face, FINDING + LABEL);
            });
        }
        // Beside a finding that goes over to another sheet there is no line.
        if sheet == self.papers.len() {
            let (from, to) = ((SIDE + 2.0, top + 1.5), (SIDE + 2.0, self.y + 1.0));
            self.put(Ink::Line { from, to, width: 2.5, colour: ACCENT });
        }
    }

    fn plot(&mut self, plot: &Plot, caption: &str, told: &str) {
        let units = plot.height(PLOT_UNITS);
        let height = plot_height(plot);
        self.gap(6.0);
        self.need(height + caption_height(caption));
        let corner = (SIDE, self.y);
        let size = (PLOT_UNITS, units);
        let figure = self.empty_piece(Role::Figure(told.to_owned()));
        let plot = Box::new(plot.clone());
        self.put_as(Ink::Plot { corner, width: BREADTH, size, plot }, Some(figure));
        self.down(height + 3.0);
        self.paragraph(caption, Face::NOTE, 0.0);
        self.gap(6.0);
    }
}
