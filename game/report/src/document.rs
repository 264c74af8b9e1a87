//! A report before it is set: headings, paragraphs, tables, findings and plots in their order. HTML
//! and PDF are set from the same document, so that both say the same.

use sim_core::time::Tick;

use super::plots::Plot;

/// A whole report.
#[derive(Debug, Clone)]
pub struct Document {
    /// What it is a report of.
    pub title: String,
    /// What stands small at the foot of each page of paper.
    pub foot: String,
    /// Everything, in order.
    pub blocks: Vec<Block>,
}

/// One thing in a report.
#[derive(Debug, Clone)]
pub enum Block {
    /// The head of a section.
    Heading(String),
    /// The head of a part of a section.
    Subheading(String),
    /// A paragraph.
    Paragraph(Text),
    /// A paragraph in small type: a source, a note on a plot.
    Note(String),
    /// What must not be overlooked.
    Caution(String),
    /// The result in a sentence.
    Result(Outcome, String),
    /// Points, one under the other.
    List(Vec<Text>),
    /// A table.
    Table(Table),
    /// A finding with all that belongs to it.
    Finding(FindingBlock),
    /// A plot with what it shows.
    Plot {
        /// The plot.
        plot: Plot,
        /// What it shows, for those who see it and, with `told`, for those who do not.
        caption: String,
        /// What is to be seen on it, in a sentence.
        told: String,
    },
}

/// How a session came out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Passed.
    Passed,
    /// Not yet.
    NotYet,
}

/// A finding opened to its evidence.
#[derive(Debug, Clone)]
pub struct FindingBlock {
    /// Its number on the time line.
    pub number: String,
    /// Moment, point and rule.
    pub title: String,
    /// What is at stake.
    pub severity: String,
    /// When it was made, where it has a moment: a window can go there.
    pub moment: Option<Tick>,
    /// What shows it.
    pub evidence: String,
    /// Name and text of each further line: why, source, cost.
    pub lines: Vec<(&'static str, String)>,
}

/// Text with some of it set in bold.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Text(pub Vec<Span>);

/// A piece of text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Span {
    /// As the rest.
    Plain(String),
    /// In bold.
    Strong(String),
}

impl Span {
    /// Its words.
    pub fn words(&self) -> &str {
        match self {
            Self::Plain(words) | Self::Strong(words) => words,
        }
    }
}

impl Text {
    /// Some words in bold and some words behind them.
    pub fn strong_then(strong: impl Into<String>, plain: impl Into<String>) -> Self {
        Self(vec![Span::Strong(strong.into()), Span::Plain(plain.into())])
    }

    /// Its words, whatever they are set in.
    pub fn words(&self) -> String {
        self.0.iter().map(Span::words).collect()
    }
}

impl<T: Into<String>> From<T> for Text {
    fn from(words: T) -> Self {
        Self(vec![Span::Plain(words.into())])
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
    /// How its cells stand.
    pub stands: Stands,
}

/// How the cells of a column stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stands {
    /// Words, from the left.
    Left,
    /// Numbers, to the right, never broken.
    Right,
    /// Long strings without spaces, broken anywhere.
    Anyhow,
}

/// A row of a table.
#[derive(Debug, Clone)]
pub struct Row {
    /// Its cells.
    pub cells: Vec<String>,
    /// Whether it sums up those above it.
    pub weight: Weight,
}

/// How a row is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// As the others.
    Plain,
    /// As a sum.
    Sum,
}

impl Table {
    /// A table without rows.
    pub fn new<const N: usize>(columns: [(&str, Stands); N]) -> Self {
        let column = |(head, stands): (&str, Stands)| Column { head: head.to_owned(), stands };
        Self { columns: columns.into_iter().map(column).collect(), rows: Vec::new() }
    }

    /// Adds a row.
    pub fn row<const N: usize>(&mut self, cells: [String; N]) {
        self.add(cells.into(), Weight::Plain);
    }

    /// Adds a row that sums up.
    pub fn sum<const N: usize>(&mut self, cells: [String; N]) {
        self.add(cells.into(), Weight::Sum);
    }

    /// The table without a column in which nothing is known.
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

    fn add(&mut self, mut cells: Vec<String>, weight: Weight) {
        cells.resize(self.columns.len(), String::new());
        self.rows.push(Row { cells, weight });
    }
}
