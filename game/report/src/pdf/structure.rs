//! What the pieces on the sheets are, for those who have them read aloud: a screen reader goes from
//! head to head and from cell to cell by it.

use std::num::NonZeroU16;

use krilla::tagging::{
    Identifier, ListNumbering, TableHeaderScope, Tag, TagGroup, TagKind, TagTree,
};

/// What a piece is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Role {
    /// A head: of everything, of a section, of a part of a section.
    Head(Level, String),
    /// A finding, with all that belongs to it.
    Finding,
    /// A paragraph.
    Paragraph,
    /// Points, one under the other.
    List,
    /// One of them.
    Point,
    /// The dot before it.
    Dot,
    /// Its words.
    Body,
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
    /// A plot, with what is to be seen on it.
    Figure(String),
}

/// How far down a head stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Level {
    /// The title.
    Title,
    /// A section.
    Section,
    /// A part of a section.
    Part,
}

/// A piece, by its place among all of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Piece(usize);

/// Every piece of a document, each with the one that it is in.
#[derive(Debug, Clone, Default)]
pub struct Structure {
    pieces: Vec<(Role, Option<Piece>)>,
    open: Vec<Piece>,
}

impl Structure {
    /// Begins a piece inside the one that is open.
    pub fn begin(&mut self, role: Role) -> Piece {
        let piece = Piece(self.pieces.len());
        self.pieces.push((role, self.inside()));
        self.open.push(piece);
        piece
    }

    /// Ends the piece that was begun last.
    pub fn end(&mut self) {
        self.open.pop();
    }

    /// The piece that is open.
    pub fn inside(&self) -> Option<Piece> {
        self.open.last().copied()
    }

    /// Begins no reading yet: nothing of it is written.
    pub fn unwritten(self) -> Written {
        let marks = self.pieces.iter().map(|_| Vec::new()).collect();
        Written { pieces: self.pieces, marks }
    }
}

/// What of the file belongs to each piece.
pub struct Written {
    pieces: Vec<(Role, Option<Piece>)>,
    marks: Vec<Vec<Identifier>>,
}

impl Written {
    /// Says that something that was written belongs to a piece.
    pub fn mark(&mut self, Piece(index): Piece, written: Identifier) {
        if let Some(marks) = self.marks.get_mut(index) {
            marks.push(written);
        }
    }

    /// All of it as the file wants it.
    pub fn tree(self) -> TagTree {
        let mut tree = TagTree::new();
        let mut inside: Vec<Vec<TagGroup>> = self.pieces.iter().map(|_| Vec::new()).collect();
        let mut outermost = Vec::new();
        // From the last to the first: what is in a piece comes after it, and is whole before it.
        for (index, ((role, within), marks)) in
            self.pieces.into_iter().zip(self.marks).enumerate().rev()
        {
            let mut group = TagGroup::new(tag(role));
            for written in marks {
                group.push(written);
            }
            let parts = inside.get_mut(index).map(std::mem::take).unwrap_or_default();
            for part in parts.into_iter().rev() {
                group.push(part);
            }
            match within.and_then(|Piece(outer)| inside.get_mut(outer)) {
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

/// A role in the words of the file (ISO 32000-1, 14.8.4, from memory).
fn tag(role: Role) -> TagKind {
    match role {
        Role::Head(level, words) => {
            let level = match level {
                Level::Title => NonZeroU16::MIN,
                Level::Section => NonZeroU16::MIN.saturating_add(1),
                Level::Part => NonZeroU16::MIN.saturating_add(2),
            };
            Tag::Hn(level, Some(words)).into()
        }
        Role::Finding => Tag::Section.into(),
        Role::Paragraph => Tag::P.into(),
        Role::List => Tag::L(ListNumbering::Disc).into(),
        Role::Point => Tag::LI.into(),
        Role::Dot => Tag::Lbl.into(),
        Role::Body => Tag::LBody.into(),
        Role::Table => Tag::Table.into(),
        Role::Row => Tag::TR.into(),
        Role::ColumnHead => Tag::TH(TableHeaderScope::Column).into(),
        Role::RowHead => Tag::TH(TableHeaderScope::Row).into(),
        Role::Cell => Tag::TD.into(),
        Role::Figure(told) => Tag::Figure(Some(told)).into(),
    }
}
