//! A shape as cells, one for each unit of the scene.

use resvg::tiny_skia::{Pixmap, PremultipliedColorU8};

/// Ink that covers less of a cell than this, of 255, is a shadow or a reflection.
const INKED: u8 = 90;

/// Which cells of a rectangle belong to a shape.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Mask {
    /// Left edge, scene units.
    pub x: i32,
    /// Upper edge.
    pub y: i32,
    /// Width.
    pub w: i32,
    /// Height.
    pub h: i32,
    cells: Vec<bool>,
}

impl Mask {
    /// An empty shape in a rectangle.
    pub fn empty(x: i32, y: i32, w: i32, h: i32) -> Self {
        let (w, h) = (w.max(0), h.max(0));
        Self { x, y, w, h, cells: vec![false; w as usize * h as usize] }
    }

    /// A whole rectangle.
    pub fn full(x: i32, y: i32, w: i32, h: i32) -> Self {
        let (w, h) = (w.max(0), h.max(0));
        Self { x, y, w, h, cells: vec![true; w as usize * h as usize] }
    }

    /// What is inked in a picture of a unit to a pixel, whose corner lies at a point; without its empty
    /// margins.
    pub fn of(picture: &Pixmap, corner: (i32, i32)) -> Self {
        let (width, inked) =
            (picture.width() as usize, |pixel: &PremultipliedColorU8| pixel.alpha() >= INKED);
        let (mut left, mut right, mut top, mut foot) = (width, 0, usize::MAX, 0);
        for (y, row) in picture.pixels().chunks_exact(width.max(1)).enumerate() {
            let (first, last) = (row.iter().position(inked), row.iter().rposition(inked));
            if let (Some(first), Some(last)) = (first, last) {
                (left, right) = (left.min(first), right.max(last + 1));
                (top, foot) = (top.min(y), y + 1);
            }
        }
        if right <= left {
            return Self::default();
        }
        let rows = picture.pixels().chunks_exact(width).skip(top).take(foot - top);
        let cells = rows.flat_map(|row| row.iter().skip(left).take(right - left).map(inked));
        Self {
            x: corner.0 + left as i32,
            y: corner.1 + top as i32,
            w: (right - left) as i32,
            h: (foot - top) as i32,
            cells: cells.collect(),
        }
    }

    /// Where the cell at a point is kept.
    fn index(&self, x: i32, y: i32) -> Option<usize> {
        let (across, down) = (x - self.x, y - self.y);
        let inside = (0..self.w).contains(&across) && (0..self.h).contains(&down);
        inside.then(|| (down * self.w + across) as usize)
    }

    /// Whether the cell at a point belongs to the shape.
    pub fn holds(&self, x: i32, y: i32) -> bool {
        self.index(x, y).and_then(|index| self.cells.get(index)).copied().unwrap_or_default()
    }

    /// Adds the cell at a point, if it lies in the rectangle.
    pub fn add(&mut self, x: i32, y: i32) {
        let index = self.index(x, y);
        if let Some(cell) = index.and_then(|index| self.cells.get_mut(index)) {
            *cell = true;
        }
    }

    /// Each row of the rectangle with its height, the cells from left to right.
    pub fn rows(&self) -> impl Iterator<Item = (i32, &[bool])> {
        (self.y..).zip(self.cells.chunks_exact(self.w.max(1) as usize))
    }

    /// Every cell of the shape.
    pub fn cells(&self) -> impl Iterator<Item = (i32, i32)> {
        let width = self.w.max(1) as usize;
        self.cells.iter().enumerate().filter(|(_, inside)| **inside).map(move |(index, _)| {
            (self.x + (index % width) as i32, self.y + (index / width) as i32)
        })
    }

    /// What lies in both shapes.
    #[must_use]
    pub fn common(&self, other: &Self) -> Self {
        let mut both = Self::empty(self.x, self.y, self.w, self.h);
        for (x, y) in self.cells().filter(|&(x, y)| other.holds(x, y)) {
            both.add(x, y);
        }
        both
    }
}
