//! The tags of a PDF: what each part of its pages is. A screen reader goes from heading to heading and
//! from cell to cell by them.

use std::num::NonZeroU16;

use krilla::tagging::{
    Identifier, ListNumbering, TableHeaderScope, Tag, TagGroup, TagKind, TagTree,
};

/// What a part is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Role {
    /// A heading: of everything, of a section, of a part of a section.
    Heading(HeadingLevel, String),
    /// A finding, with all that belongs to it.
    Finding,
    /// A paragraph.
    Paragraph,
    /// A list.
    List,
    /// One of its items.
    ListItem,
    /// The bullet before an item.
    Bullet,
    /// The words of an item.
    ItemBody,
    /// A table.
    Table,
    /// A row of it.
    Row,
    /// The head of a column.
    ColumnHead,
    /// What names a row.
    RowHead,
    /// A cell.
    Cell,
    /// A plot, with its description.
    Figure(String),
}

/// The level of a heading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeadingLevel {
    /// The title.
    Title,
    /// A section.
    Section,
    /// A part of a section.
    Part,
}

/// A part, by its place among all of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TagId(usize);

/// Every part of a document, each with the part that contains it.
#[derive(Debug, Clone, Default)]
pub struct Tags {
    parts: Vec<(Role, Option<TagId>)>,
    open: Vec<TagId>,
}

impl Tags {
    /// Begins a part inside the one that is open.
    pub fn begin(&mut self, role: Role) -> TagId {
        let id = TagId(self.parts.len());
        self.parts.push((role, self.inside()));
        self.open.push(id);
        id
    }

    /// Ends the part that was begun last.
    pub fn end(&mut self) {
        self.open.pop();
    }

    /// The part that is open.
    pub fn inside(&self) -> Option<TagId> {
        self.open.last().copied()
    }

    /// The same parts, ready to be marked while the file is written.
    pub fn unwritten(self) -> WrittenTags {
        let marks = self.parts.iter().map(|_| Vec::new()).collect();
        WrittenTags { parts: self.parts, marks }
    }
}

/// What of the file belongs to each part.
pub struct WrittenTags {
    parts: Vec<(Role, Option<TagId>)>,
    marks: Vec<Vec<Identifier>>,
}

impl WrittenTags {
    /// Says that something that was written belongs to a part.
    pub fn mark(&mut self, TagId(index): TagId, written: Identifier) {
        if let Some(marks) = self.marks.get_mut(index) {
            marks.push(written);
        }
    }

    /// The tree of all parts, as the file needs it.
    pub fn tree(self) -> TagTree {
        let mut tree = TagTree::new();
        let mut inside: Vec<Vec<TagGroup>> = self.parts.iter().map(|_| Vec::new()).collect();
        let mut outermost = Vec::new();
        // From the last to the first: the contents of a part come after it, and so are complete before it.
        for (index, ((role, within), marks)) in
            self.parts.into_iter().zip(self.marks).enumerate().rev()
        {
            let mut group = TagGroup::new(tag(role));
            for written in marks {
                group.push(written);
            }
            let inner = inside.get_mut(index).map(std::mem::take).unwrap_or_default();
            for part in inner.into_iter().rev() {
                group.push(part);
            }
            match within.and_then(|TagId(outer)| inside.get_mut(outer)) {
                Some(outer) => outer.push(group),
                None => outermost.push(group),
            }
        }
        for group in outermost.into_iter().rev() {
            tree.push(group);
        }
        tree
    }
}

/// A role by its name in the file (ISO 32000-1, 14.8.4, from memory).
fn tag(role: Role) -> TagKind {
    match role {
        Role::Heading(level, words) => {
            let level = match level {
                HeadingLevel::Title => NonZeroU16::MIN,
                HeadingLevel::Section => NonZeroU16::MIN.saturating_add(1),
                HeadingLevel::Part => NonZeroU16::MIN.saturating_add(2),
            };
            Tag::Hn(level, Some(words)).into()
        }
        Role::Finding => Tag::Section.into(),
        Role::Paragraph => Tag::P.into(),
        Role::List => Tag::L(ListNumbering::Disc).into(),
        Role::ListItem => Tag::LI.into(),
        Role::Bullet => Tag::Lbl.into(),
        Role::ItemBody => Tag::LBody.into(),
        Role::Table => Tag::Table.into(),
        Role::Row => Tag::TR.into(),
        Role::ColumnHead => Tag::TH(TableHeaderScope::Column).into(),
        Role::RowHead => Tag::TH(TableHeaderScope::Row).into(),
        Role::Cell => Tag::TD.into(),
        Role::Figure(description) => Tag::Figure(Some(description)).into(),
    }
}
