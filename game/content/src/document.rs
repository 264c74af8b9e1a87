//! A report before it is set: headings, paragraphs, tables, findings and plots in their order. Page,
//! PDF and window are set from the same document, so that all say the same.
//!
//! A plot is whatever the setter can draw: the reports draw theirs with a library of their own, and a
//! front end gets each as a [`SharedPlot`].

use sim_core::time::Tick;

use super::plot::SharedPlot;

/// A whole report.
#[derive(Debug, Clone)]
pub struct Document<P = SharedPlot> {
    /// What it is a report of.
    pub title: String,
    /// The footer of each page of paper.
    pub footer: String,
    /// Everything, in order.
    pub blocks: Vec<Block<P>>,
}

/// One thing in a report.
#[derive(Debug, Clone)]
pub enum Block<P = SharedPlot> {
    /// The heading of a section.
    Heading(String),
    /// The heading of a part of a section.
    Subheading(String),
    /// A paragraph.
    Paragraph(RichText),
    /// A paragraph in small type: a source, a note on a plot.
    Note(String),
    /// What must not be overlooked.
    Caution(String),
    /// The result in a sentence.
    Result(PassOrNot, String),
    /// A list.
    List(Vec<RichText>),
    /// A table.
    Table(Table),
    /// A finding with all that belongs to it.
    Finding(FindingBlock),
    /// A plot with what it shows.
    Plot {
        /// The plot.
        plot: P,
        /// What it shows, in words below it.
        caption: String,
        /// What is visible on it, in a sentence for screen readers.
        description: String,
    },
}

/// Whether a session was passed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PassOrNot {
    /// Passed.
    Passed,
    /// Not passed.
    NotPassed,
}

/// A finding opened to its evidence.
#[derive(Debug, Clone)]
pub struct FindingBlock {
    /// Its number on the timeline.
    pub number: String,
    /// Time, point and rule.
    pub title: String,
    /// What is at stake.
    pub severity: String,
    /// When it was made, if at one time: a window can go there.
    pub moment: Option<Tick>,
    /// What shows it.
    pub evidence: String,
    /// Name and words of each further line: why, source, cost.
    pub lines: Vec<(&'static str, String)>,
}

/// Text with some of it set in bold.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RichText(pub Vec<TextRun>);

/// A piece of text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TextRun {
    /// In the weight of the text.
    Plain(String),
    /// In bold.
    Strong(String),
}

impl<P> Document<P> {
    /// The same document with each plot as another setter takes it.
    pub fn with_plots<Q>(self, plot_as: impl Fn(P) -> Q) -> Document<Q> {
        let Self { title, footer, blocks } = self;
        let blocks = blocks.into_iter().map(|block| block.with_plot(&plot_as)).collect();
        Document { title, footer, blocks }
    }
}

impl<P> Block<P> {
    fn with_plot<Q>(self, plot_as: impl Fn(P) -> Q) -> Block<Q> {
        match self {
            Self::Heading(words) => Block::Heading(words),
            Self::Subheading(words) => Block::Subheading(words),
            Self::Paragraph(words) => Block::Paragraph(words),
            Self::Note(words) => Block::Note(words),
            Self::Caution(words) => Block::Caution(words),
            Self::Result(outcome, words) => Block::Result(outcome, words),
            Self::List(points) => Block::List(points),
            Self::Table(table) => Block::Table(table),
            Self::Finding(finding) => Block::Finding(finding),
            Self::Plot { plot, caption, description } => {
                Block::Plot { plot: plot_as(plot), caption, description }
            }
        }
    }
}

impl TextRun {
    /// Its words.
    pub fn words(&self) -> &str {
        match self {
            Self::Plain(words) | Self::Strong(words) => words,
        }
    }
}

impl RichText {
    /// Words in bold followed by plain words.
    pub fn strong_then(strong: impl Into<String>, plain: impl Into<String>) -> Self {
        Self(vec![TextRun::Strong(strong.into()), TextRun::Plain(plain.into())])
    }

    /// Its words, whatever they are set in.
    pub fn words(&self) -> String {
        self.0.iter().map(TextRun::words).collect()
    }
}

impl<T: Into<String>> From<T> for RichText {
    fn from(words: T) -> Self {
        Self(vec![TextRun::Plain(words.into())])
    }
}

/// A table. Every row has as many cells as there are columns.
#[derive(Debug, Clone, Default)]
pub struct Table {
    /// The columns.
    pub columns: Vec<Column>,
    /// The rows.
    pub rows: Vec<Row>,
}

/// A column of a table.
#[derive(Debug, Clone)]
pub struct Column {
    /// Its head.
    pub head: String,
    /// How its cells are aligned.
    pub align: CellAlign,
}

/// How the cells of a column are aligned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CellAlign {
    /// Words, to the left.
    Left,
    /// Numbers, to the right, never broken.
    Right,
    /// Long strings without spaces, broken anywhere.
    BreakAnywhere,
}

/// A row of a table.
#[derive(Debug, Clone)]
pub struct Row {
    /// Its cells.
    pub cells: Vec<String>,
    /// Whether it is the total of those above it.
    pub kind: RowKind,
}

/// What a row is among the others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowKind {
    /// One of them.
    Plain,
    /// Their total.
    Total,
}

impl Table {
    /// A table without rows.
    pub fn new<const N: usize>(columns: [(&str, CellAlign); N]) -> Self {
        let column = |(head, align): (&str, CellAlign)| Column { head: head.to_owned(), align };
        Self { columns: columns.into_iter().map(column).collect(), rows: Vec::new() }
    }

    /// Adds a row.
    pub fn row<const N: usize>(&mut self, cells: [String; N]) {
        self.add(cells.into(), RowKind::Plain);
    }

    /// Adds the row of a total.
    pub fn total<const N: usize>(&mut self, cells: [String; N]) {
        self.add(cells.into(), RowKind::Total);
    }

    /// The table without a column in which every cell is unknown.
    #[must_use]
    pub fn without_unknown(mut self, index: usize, unknown: &str) -> Self {
        let is_unknown = |row: &Row| row.cells.get(index).is_none_or(|cell| cell == unknown);
        if index < self.columns.len() && self.rows.iter().all(is_unknown) {
            self.columns.remove(index);
            for row in &mut self.rows {
                row.cells.remove(index);
            }
        }
        self
    }

    fn add(&mut self, mut cells: Vec<String>, kind: RowKind) {
        cells.resize(self.columns.len(), String::new());
        self.rows.push(Row { cells, kind });
    }
}
