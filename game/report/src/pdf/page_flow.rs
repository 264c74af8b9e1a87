//! Pages as they fill, from the top of the first to the bottom of the last.

use super::super::text_layout::{self, SetRun, Typeface};
use super::page::{BOTTOM, Font, Page, PageItem, PageSize, SIDE, TOP};
use super::tags::{Role, TagId, Tags};

/// Pages as far as they are filled.
pub struct PageFlow {
    pages: Vec<Page>,
    tags: Tags,
    size: PageSize,
    y: f64,
}

impl PageFlow {
    /// One empty page.
    pub fn new(size: PageSize) -> Self {
        Self { pages: vec![Page::default()], tags: Tags::default(), size, y: TOP }
    }

    /// The pages, and what each part of them is.
    pub fn finish(self) -> (Vec<Page>, Tags) {
        (self.pages, self.tags)
    }

    /// The size of every page.
    pub const fn size(&self) -> PageSize {
        self.size
    }

    /// Height that is left on the page.
    pub fn left(&self) -> f64 {
        self.size.height - BOTTOM - self.y
    }

    /// Where the next line begins.
    pub const fn y(&self) -> f64 {
        self.y
    }

    /// How many pages there are so far.
    pub fn count(&self) -> usize {
        self.pages.len()
    }

    /// Places something that is there for the eye alone.
    pub fn put(&mut self, item: PageItem) {
        self.put_as(item, None);
    }

    /// Places something that belongs to a tag.
    pub fn put_as(&mut self, item: PageItem, tag: Option<TagId>) {
        if let Some(page) = self.pages.last_mut() {
            page.items.push((item, tag));
        }
    }

    /// Lists a heading beside the pages.
    pub fn list_heading(&mut self, words: &str) {
        if let Some(page) = self.pages.last_mut() {
            page.headings.push((words.to_owned(), self.y));
        }
    }

    /// A tagged part, and all that is placed with it.
    pub fn tagged<T>(&mut self, role: Role, set: impl FnOnce(&mut Self) -> T) -> T {
        self.tags.begin(role);
        let result = set(self);
        self.tags.end();
        result
    }

    /// A tagged part that is filled later, line by line.
    pub fn empty_tag(&mut self, role: Role) -> TagId {
        let tag = self.tags.begin(role);
        self.tags.end();
        tag
    }

    /// Moves down.
    pub fn down(&mut self, height: f64) {
        self.y += height;
    }

    /// Begins a new page unless so much is left, or the page is empty.
    pub fn need(&mut self, height: f64) {
        if self.left() < height && self.y > TOP {
            self.pages.push(Page::default());
            self.y = TOP;
        }
    }

    /// Leaves room, but not at the top of a page.
    pub fn gap(&mut self, height: f64) {
        if self.y > TOP {
            self.y += height;
        }
    }

    /// Words in one font, in as many lines as they need.
    pub fn lines(&mut self, words: &str, font: Font, indent: f64) {
        self.runs(&[(font.typeface, words)], font, indent);
    }

    /// Runs of words in as many lines as they need.
    pub fn runs(&mut self, runs: &[(Typeface, &str)], font: Font, indent: f64) {
        for line in text_layout::lines(runs, font.size, self.size.breadth() - indent) {
            self.need(font.lead());
            self.set_line(line, font, indent);
            self.down(font.lead());
        }
    }

    /// Words in the present line.
    pub fn words(&mut self, words: String, font: Font, indent: f64) {
        self.set_line(vec![SetRun { typeface: font.typeface, x: 0.0, words }], font, indent);
    }

    fn set_line(&mut self, line: Vec<SetRun>, font: Font, indent: f64) {
        let baseline = self.y + font.rise();
        let tag = self.tags.inside();
        for SetRun { typeface, x, words } in line {
            let font = Font { typeface, ..font };
            self.put_as(PageItem::Words { x: SIDE + indent + x, baseline, font, words }, tag);
        }
    }
}
