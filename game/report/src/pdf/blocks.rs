//! The blocks of a document on pages: headings, paragraphs, lists, findings and plots.

use content::document::{FindingBlock, PassOrNot, RichText, TextRun};

use super::super::document::{Block, Document};
use super::super::plots::Plot;
use super::super::text_layout::{self, Typeface};
use super::page::{ACCENT, BLACK, Font, Page, PageItem, PageSize, SIDE};
use super::page_flow::PageFlow;
use super::tables;
use super::tags::{HeadingLevel, Role, Tags};

/// Units of a plot to a point: text of 13 units becomes 9 pt.
const PLOT_UNITS_PER_PT: f64 = 1.45;
/// Height of the heading of a section with the room about it.
const HEADING: f64 = 42.0;
/// The same of a part of a section.
const SUBHEADING: f64 = 22.0;
/// Indent of the items of a list.
const BULLET: f64 = 12.0;
/// Indent of a finding.
const FINDING: f64 = 11.0;
/// Indent of the words behind `Why`, `Source` and the like.
const LABEL: f64 = 46.0;
/// Between the frame of a caution and its words.
const CAUTION_PAD: f64 = 9.0;

/// Lays a document out on pages.
pub fn laid_out(document: &Document, size: PageSize) -> (Vec<Page>, Tags) {
    let mut flow = PageFlow::new(size);
    heading_lines(&mut flow, HeadingLevel::Title, &document.title, Font::TITLE);
    flow.gap(8.0);
    for (index, one) in document.blocks.iter().enumerate() {
        let next = document.blocks.get(index + 1).map_or(0.0, |next| least(next, size));
        match one {
            // A heading is never alone at the bottom of a page.
            Block::Heading(_) => need_below(&mut flow, HEADING, next),
            Block::Subheading(_) => need_below(&mut flow, SUBHEADING, next),
            _ => {}
        }
        block(&mut flow, one);
    }
    flow.finish()
}

/// The height of what has to follow a heading on the same page.
fn least(block: &Block, size: PageSize) -> f64 {
    match block {
        Block::Plot { plot, caption, .. } => {
            6.0 + plot_height(plot, size) + caption_height(caption, size)
        }
        Block::Finding(finding) => 7.0 + finding_height(finding, size),
        Block::Table(table) => 3.0 + tables::least(table, size),
        _ => 40.0,
    }
}

/// Begins a new page unless a heading and so much below it find room.
fn need_below(flow: &mut PageFlow, heading: f64, height: f64) {
    flow.need((heading + height).min(flow.size().depth()));
}

/// Width of a plot in its own units.
fn plot_units(size: PageSize) -> u32 {
    (PLOT_UNITS_PER_PT * size.breadth()).round() as u32
}

/// The height of a plot on the page.
fn plot_height(plot: &Plot, size: PageSize) -> f64 {
    let units = plot_units(size);
    size.breadth() * f64::from(plot.height(units)) / f64::from(units)
}

/// The height of words in as many lines as they need.
fn words_height(font: Font, words: &str, most: f64) -> f64 {
    font.lead() * text_layout::wrapped(font.typeface, font.size, words, most).len() as f64
}

/// The height of what is written below a plot.
fn caption_height(caption: &str, size: PageSize) -> f64 {
    6.0 + words_height(Font::NOTE, caption, size.breadth())
}

/// The title of a finding and what is at stake.
fn title_and_tag(finding: &FindingBlock) -> (String, String) {
    let title = format!("{}. {} ", finding.number, finding.title);
    let tag = match finding.severity.as_str() {
        "" => String::new(),
        words => format!("[{words}]"),
    };
    (title, tag)
}

fn finding_height(finding: &FindingBlock, size: PageSize) -> f64 {
    let inner = size.breadth() - FINDING;
    let (title, tag) = title_and_tag(finding);
    let runs = [(Typeface::SemiBold, title.as_str()), (Typeface::Regular, tag.as_str())];
    let title = text_layout::lines(&runs, Font::TEXT.size, inner).len() as f64;
    let lines =
        finding.lines.iter().map(|(_, words)| words_height(Font::NOTE, words, inner - LABEL));
    Font::TEXT.lead() * title
        + words_height(Font::TEXT, &finding.evidence, inner)
        + lines.sum::<f64>()
}

fn block(flow: &mut PageFlow, block: &Block) {
    match block {
        Block::Heading(words) => heading(flow, words),
        Block::Subheading(words) => {
            flow.gap(7.0);
            heading_lines(flow, HeadingLevel::Part, words, Font::SUBHEADING);
        }
        Block::Paragraph(words) => {
            flow.tagged(Role::Paragraph, |flow| rich(flow, words, 0.0));
            flow.gap(4.0);
        }
        Block::Note(words) => {
            paragraph(flow, words, Font::NOTE, 0.0);
            flow.gap(6.0);
        }
        Block::Caution(words) => caution(flow, words),
        Block::Result(outcome, words) => {
            let sign = match outcome {
                PassOrNot::Passed => "✓ ",
                PassOrNot::NotPassed => "",
            };
            paragraph(flow, &format!("{sign}{words}"), Font::RESULT, 0.0);
            flow.gap(6.0);
        }
        Block::List(items) => {
            flow.tagged(Role::List, |flow| {
                for item in items {
                    flow.tagged(Role::ListItem, |flow| list_item(flow, item));
                }
            });
            flow.gap(4.0);
        }
        Block::Table(table) => {
            flow.gap(3.0);
            flow.tagged(Role::Table, |flow| tables::table(flow, table));
            flow.gap(8.0);
        }
        Block::Finding(one) => flow.tagged(Role::Finding, |flow| finding(flow, one)),
        Block::Plot { plot, caption, description } => figure(flow, plot, caption, description),
    }
}

fn heading(flow: &mut PageFlow, words: &str) {
    flow.gap(15.0);
    flow.list_heading(words);
    heading_lines(flow, HeadingLevel::Section, words, Font::HEADING);
    let y = flow.y() + 1.0;
    let to = (SIDE + flow.size().breadth(), y);
    flow.put(PageItem::Rule { from: (SIDE, y), to, width: 1.2, colour: BLACK });
    flow.down(7.0);
}

/// The lines of a heading, as one tagged part.
fn heading_lines(flow: &mut PageFlow, level: HeadingLevel, words: &str, font: Font) {
    flow.tagged(Role::Heading(level, words.to_owned()), |flow| flow.lines(words, font, 0.0));
}

/// A paragraph in one font.
fn paragraph(flow: &mut PageFlow, words: &str, font: Font, indent: f64) {
    flow.tagged(Role::Paragraph, |flow| flow.lines(words, font, indent));
}

/// Words with some of them in bold.
fn rich(flow: &mut PageFlow, text: &RichText, indent: f64) {
    let mut runs: Vec<(Typeface, &str)> = Vec::with_capacity(text.0.len());
    for run in &text.0 {
        let typeface = match run {
            TextRun::Plain(_) => Typeface::Regular,
            TextRun::Strong(_) => Typeface::SemiBold,
        };
        runs.push((typeface, run.words()));
    }
    flow.runs(&runs, Font::TEXT, indent);
}

fn list_item(flow: &mut PageFlow, item: &RichText) {
    flow.need(Font::TEXT.lead());
    flow.tagged(Role::Bullet, |flow| flow.words("•".to_owned(), Font::TEXT, 2.0));
    flow.tagged(Role::ItemBody, |flow| rich(flow, item, BULLET));
}

fn caution(flow: &mut PageFlow, words: &str) {
    let (font, breadth) = (Font::TEXT, flow.size().breadth());
    let lines = text_layout::wrapped(font.typeface, font.size, words, breadth - 2.0 * CAUTION_PAD);
    let height = font.lead() * lines.len() as f64 + 8.0;
    flow.gap(4.0);
    flow.need(height);
    let corner = (SIDE, flow.y());
    flow.put(PageItem::Frame { corner, size: (breadth, height), colour: ACCENT });
    flow.down(4.0);
    flow.tagged(Role::Paragraph, |flow| {
        for line in lines {
            flow.words(line, font, CAUTION_PAD);
            flow.down(font.lead());
        }
    });
    flow.down(8.0);
}

fn finding(flow: &mut PageFlow, finding: &FindingBlock) {
    flow.gap(7.0);
    flow.need(finding_height(finding, flow.size()).min(flow.size().depth()));
    let (top, page) = (flow.y(), flow.count());
    let (title, tag) = title_and_tag(finding);
    let role = Role::Heading(HeadingLevel::Part, format!("{title}{tag}").trim_end().to_owned());
    let title = RichText(vec![TextRun::Strong(title), TextRun::Plain(tag)]);
    flow.tagged(role, |flow| rich(flow, &title, FINDING));
    paragraph(flow, &finding.evidence, Font::TEXT, FINDING);
    for (name, words) in &finding.lines {
        flow.need(Font::NOTE.lead());
        flow.tagged(Role::Paragraph, |flow| {
            flow.words((*name).to_owned(), Font::NOTE, FINDING);
            let font = Font { colour: BLACK, ..Font::NOTE };
            flow.lines(words, font, FINDING + LABEL);
        });
    }
    // Beside a finding that continues on another page there is no rule.
    if page == flow.count() {
        let (from, to) = ((SIDE + 2.0, top + 1.5), (SIDE + 2.0, flow.y() + 1.0));
        flow.put(PageItem::Rule { from, to, width: 2.5, colour: ACCENT });
    }
}

fn figure(flow: &mut PageFlow, plot: &Plot, caption: &str, description: &str) {
    let (page, units) = (flow.size(), plot_units(flow.size()));
    let height = plot_height(plot, page);
    flow.gap(6.0);
    flow.need(height + caption_height(caption, page));
    let corner = (SIDE, flow.y());
    let size = (units, plot.height(units));
    let tag = flow.empty_tag(Role::Figure(description.to_owned()));
    let plot = Box::new(plot.clone());
    flow.put_as(PageItem::Plot { corner, width: page.breadth(), size, plot }, Some(tag));
    flow.down(height + 3.0);
    paragraph(flow, caption, Font::NOTE, 0.0);
    flow.gap(6.0);
}
