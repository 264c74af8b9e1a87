//! What a hand reaches at each point of the scene: the drawn shapes themselves, each with room for a
//! finger about it where it is small. No window in here.

use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock};

use hands::Spot;
use paint::scene::Area as PaintArea;
use paint::shapes::{KnownShapes, Mask};
use sim_core::rig::parts::Trip;
use sim_core::session::view::View;

use super::owners::{Owner, in_hand, is_there, owner, spot_of_part};
use super::places::{Area, HAND, HEIGHT, LOUPE, WIDTH, beside_the_off_tripper};

/// Least width of what is pointed at, scene units: 24 pixels of a window 1280 wide.
pub const LEAST_ACROSS: f32 = 31.0;

/// The scene in whole units.
const WIDE: i32 = WIDTH as i32;
const HIGH: i32 = HEIGHT as i32;

/// Every thing, in the order of its number in the cells.
static ALL: LazyLock<Vec<Spot>> = LazyLock::new(Spot::all);

/// What is taken hold of at each point of the scene.
#[derive(Debug, Default)]
pub struct Reach {
    /// For each cell of a unit, one more than the place of its thing in [`Spot::all`].
    cells: Vec<u8>,
    found: BTreeMap<Spot, Held>,
    known: KnownShapes,
    grown: BTreeMap<Spot, (Arc<Mask>, Vec<Near>)>,
    /// What all this was made from.
    made_from: Vec<Owned>,
}

/// A shape, and what it is to a hand.
#[derive(Debug, Clone)]
struct Owned {
    owner: Owner,
    mask: Arc<Mask>,
}

impl PartialEq for Owned {
    fn eq(&self, other: &Self) -> bool {
        self.owner == other.owner && Arc::ptr_eq(&self.mask, &other.mask)
    }
}

/// Where a thing is taken hold of.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Held {
    bounds: Area,
    heart: Area,
}

/// A cell near a thing, and the square of its distance.
type Near = (i32, i32, i32);

impl Reach {
    /// What is reached while the bench stands so.
    pub fn of(view: &View) -> Self {
        let mut reach = Self::default();
        reach.follow(view);
        reach
    }

    /// Follows the bench; whether anything lies otherwise than before.
    pub fn follow(&mut self, view: &View) -> bool {
        let shapes = self.owned(view);
        if shapes == self.made_from {
            return false;
        }
        let mut cells = drawn(&shapes);
        self.made_from = shapes;
        self.give_room(view, &mut cells);
        if cells == self.cells {
            return false;
        }
        self.cells = cells;
        self.found = found(&self.cells);
        true
    }

    /// The thing at a point of the scene.
    pub fn at(&self, x: f32, y: f32) -> Option<Spot> {
        spot_in(&self.cells, x.floor() as i32, y.floor() as i32)
    }

    /// The least rectangle about all that is reached of a thing.
    pub fn bounds(&self, spot: Spot) -> Option<Area> {
        self.found.get(&spot).map(|held| held.bounds)
    }

    /// A rectangle in the thickest part of a thing, the place to take hold of it.
    pub fn heart(&self, spot: Spot) -> Option<Area> {
        self.found.get(&spot).map(|held| held.heart)
    }

    /// Whether a cell belongs to a thing.
    pub fn holds(&self, spot: Spot, x: i32, y: i32) -> bool {
        spot_in(&self.cells, x, y) == Some(spot)
    }

    /// Every shape with what it is to a hand, from the back to the front.
    fn owned(&mut self, view: &View) -> Vec<Owned> {
        let whole = PaintArea { x: 0.0, y: 0.0, w: WIDTH, h: HEIGHT };
        let shapes = self.known.of(view, whole).into_iter();
        let mut owned: Vec<Owned> = shapes
            .map(|shape| Owned { owner: owner(view, shape.name, shape.which), mask: shape.mask })
            .collect();
        if let Some(beside) = beside_the_off_tripper(view) {
            let mask = self.known.boxed("beside the off tripper", corner(beside));
            owned.push(Owned { owner: Owner::Thing(Spot::Tripper(Trip::On)), mask });
        }
        // What is behind the loupe cannot be pointed at.
        let mask = self.known.boxed("loupe", corner(LOUPE));
        owned.push(Owned { owner: Owner::Nothing, mask });
        if let Some(part) = view.hand
            && let Some(spot) = spot_of_part(part)
        {
            let (name, height) = in_hand(part);
            let shape = self.known.alone(name, height, (HAND.x, HAND.y + HAND.h), whole);
            owned.push(Owned { owner: Owner::Thing(spot), mask: shape.mask });
        }
        owned
    }

    /// Gives each thing that is thinner than a finger the nearest room about it. What is small comes
    /// before what is broad; of two small ones the nearer has it.
    fn give_room(&mut self, view: &View, cells: &mut [u8]) {
        let drawn = masks(cells);
        // The square of the distance of the nearest small thing, and which it is.
        let mut nearest = vec![(i32::MAX, 0_u8); cells.len()];
        for &spot in ALL.iter().filter(|&&spot| is_there(view, spot)) {
            let Some(mask) = drawn.get(&spot) else {
                self.grown.remove(&spot);
                continue;
            };
            if self.grown.get(&spot).is_none_or(|(of, _)| **of != *mask) {
                self.grown.insert(spot, (Arc::new(mask.clone()), room_about(mask)));
            }
            for &(x, y, squared) in self.grown.get(&spot).map_or(&[][..], |(_, near)| near) {
                if let Some(cell) = nearest.get_mut((y * WIDE + x) as usize)
                    && squared < cell.0
                {
                    *cell = (squared, code(spot));
                }
            }
        }
        let small: Vec<bool> = std::iter::once(&None)
            .chain(&ALL.iter().copied().map(Some).collect::<Vec<_>>())
            .map(|spot| {
                let near = spot.and_then(|spot| self.grown.get(&spot));
                near.is_some_and(|(_, near)| !near.is_empty())
            })
            .collect();
        for (cell, (squared, code)) in cells.iter_mut().zip(nearest) {
            let broad = !small.get(usize::from(*cell)).copied().unwrap_or_default();
            if squared < i32::MAX && broad {
                *cell = code;
            }
        }
    }

    /// The shape of a thing as it is drawn, without the room about it.
    pub fn shape(&self, spot: Spot) -> Option<Arc<Mask>> {
        self.grown.get(&spot).map(|(mask, _)| Arc::clone(mask))
    }
}

/// An area in whole units.
const fn corner(area: Area) -> (i32, i32, i32, i32) {
    (area.x as i32, area.y as i32, area.w as i32, area.h as i32)
}

/// What lies topmost at each point, as it is drawn.
fn drawn(shapes: &[Owned]) -> Vec<u8> {
    let mut cells = vec![0_u8; (WIDE * HIGH) as usize];
    let mut own: BTreeMap<Spot, Arc<Mask>> = BTreeMap::new();
    for Owned { owner, mask } in shapes {
        let code = match owner {
            Owner::Thing(spot) => {
                own.entry(*spot).or_insert_with(|| Arc::clone(mask));
                code(*spot)
            }
            Owner::Nothing => 0,
            Owner::Clear => continue,
        };
        put(&mut cells, mask, code);
    }
    felt(&mut cells, &own);
    cells
}

/// A thing as it stands in a cell.
fn code(spot: Spot) -> u8 {
    ALL.iter().position(|&one| one == spot).map_or(0, |at| at as u8 + 1)
}

fn spot_in(cells: &[u8], x: i32, y: i32) -> Option<Spot> {
    if !(0..WIDE).contains(&x) || !(0..HIGH).contains(&y) {
        return None;
    }
    let code = *cells.get((y * WIDE + x) as usize)?;
    ALL.get(usize::from(code).checked_sub(1)?).copied()
}

/// Covers what lies under a shape.
fn put(cells: &mut [u8], mask: &Mask, owner: u8) {
    // Shapes lie inside the scene; what a box about a covered thing has outside is left out.
    for (y, row) in mask.rows().filter(|(y, _)| (0..HIGH).contains(y)) {
        let left = (-mask.x).max(0);
        let from = (y * WIDE + mask.x + left) as usize;
        let there = cells.get_mut(from..((y + 1) * WIDE) as usize).unwrap_or_default();
        for (cell, _) in
            there.iter_mut().zip(row.iter().skip(left as usize)).filter(|(_, inked)| **inked)
        {
            *cell = owner;
        }
    }
}

/// Fewer cells of a thing than this are not found.
const LEAST_SEEN: usize = 80;

/// What lies under something else is still felt for, about the middle of where it lies.
fn felt(cells: &mut [u8], own: &BTreeMap<Spot, Arc<Mask>>) {
    let mut seen = vec![0_usize; ALL.len() + 1];
    for cell in cells.iter() {
        if let Some(count) = seen.get_mut(usize::from(*cell)) {
            *count += 1;
        }
    }
    for (&spot, mask) in own {
        let hidden = seen.get(usize::from(code(spot))).is_some_and(|count| *count < LEAST_SEEN);
        if !hidden || mask.w == 0 {
            continue;
        }
        let (x, y) = (mask.x + mask.w / 2, mask.y + mask.h / 2);
        let side = LEAST_ACROSS as i32;
        let (left, top) = (x - side / 2, (y - side / 2).min(HIGH - side));
        put(cells, &Mask::full(left, top, side, side), code(spot));
    }
}

/// The cells of each thing.
fn masks(cells: &[u8]) -> BTreeMap<Spot, Mask> {
    let mut boxes: Vec<Option<(i32, i32, i32, i32)>> = vec![None; ALL.len() + 1];
    let places = || cells.iter().enumerate().filter(|(_, code)| **code > 0).map(place_of_cell);
    for (x, y, code) in places() {
        if let Some(found) = boxes.get_mut(usize::from(code)) {
            let (left, top, right, foot) = found.unwrap_or((x, y, x, y));
            *found = Some((left.min(x), top.min(y), right.max(x), foot.max(y)));
        }
    }
    let mut masks: Vec<Option<Mask>> = boxes
        .into_iter()
        .map(|found| {
            let (left, top, right, foot) = found?;
            Some(Mask::empty(left, top, right - left + 1, foot - top + 1))
        })
        .collect();
    for (x, y, code) in places() {
        if let Some(Some(mask)) = masks.get_mut(usize::from(code)) {
            mask.add(x, y);
        }
    }
    ALL.iter().zip(masks.into_iter().skip(1)).filter_map(|(&s, m)| Some((s, m?))).collect()
}

fn place_of_cell((at, code): (usize, &u8)) -> (i32, i32, u8) {
    ((at as i32) % WIDE, (at as i32) / WIDE, *code)
}

/// How far each cell of a shape lies from its edge, in thirds of a unit, by two sweeps over it.
fn depths(mask: &Mask) -> Vec<i32> {
    const STRAIGHT: i32 = 3;
    const ASLANT: i32 = 4;
    let (w, h) = (mask.w, mask.h);
    let mut depth = vec![0_i32; (w * h).max(0) as usize];
    let get = |depth: &[i32], x: i32, y: i32| {
        if (0..w).contains(&x) && (0..h).contains(&y) {
            depth.get((y * w + x) as usize).copied().unwrap_or_default()
        } else {
            0
        }
    };
    let ways = [(-1, 0, STRAIGHT), (0, -1, STRAIGHT), (-1, -1, ASLANT), (1, -1, ASLANT)];
    for back in [false, true] {
        for at in 0..w * h {
            let at = if back { w * h - 1 - at } else { at };
            let (x, y) = (at % w, at / w);
            if !mask.holds(mask.x + x, mask.y + y) {
                continue;
            }
            let sign = if back { -1 } else { 1 };
            let least = ways
                .iter()
                .map(|&(dx, dy, cost)| get(&depth, x + sign * dx, y + sign * dy) + cost)
                .min()
                .unwrap_or_default();
            if let Some(cell) = depth.get_mut(at as usize) {
                *cell = if back { least.min(*cell) } else { least };
            }
        }
    }
    depth
}

/// The cells near a thin shape that make it as wide as a finger; none near a broad one.
fn room_about(mask: &Mask) -> Vec<Near> {
    let thick = depths(mask).into_iter().max().unwrap_or_default() as f32 * 2.0 / 3.0 - 1.0;
    let reach = ((LEAST_ACROSS - thick) / 2.0).ceil() as i32;
    if reach < 1 {
        return Vec::new();
    }
    let wide = Mask::empty(mask.x - reach, mask.y - reach, mask.w + 2 * reach, mask.h + 2 * reach);
    let mut near = vec![i32::MAX; (wide.w * wide.h) as usize];
    for (x, y) in mask.cells() {
        let beside = [(1, 0), (-1, 0), (0, 1), (0, -1)];
        if beside.iter().all(|(dx, dy)| mask.holds(x + dx, y + dy)) {
            continue;
        }
        for dy in -reach..=reach {
            for dx in -reach..=reach {
                let squared = dx * dx + dy * dy;
                let at = (y + dy - wide.y) * wide.w + x + dx - wide.x;
                if squared <= reach * reach
                    && let Some(cell) = near.get_mut(at as usize)
                {
                    *cell = squared.min(*cell);
                }
            }
        }
    }
    let cells = near.into_iter().enumerate().filter(|(_, squared)| *squared < i32::MAX);
    cells
        .map(|(at, squared)| (wide.x + at as i32 % wide.w, wide.y + at as i32 / wide.w, squared))
        .filter(|&(x, y, _)| (0..WIDE).contains(&x) && (0..HIGH).contains(&y) && !mask.holds(x, y))
        .collect()
}

/// Bounds and heart of each thing.
fn found(cells: &[u8]) -> BTreeMap<Spot, Held> {
    let area = |x: i32, y: i32, w: i32, h: i32| Area {
        x: x as f32,
        y: y as f32,
        w: w as f32,
        h: h as f32,
    };
    masks(cells)
        .into_iter()
        .map(|(spot, mask)| {
            let deepest = depths(&mask).into_iter().enumerate().max_by_key(|&(at, d)| (d, at));
            let (at, deep) = deepest.unwrap_or_default();
            let (x, y) = (mask.x + at as i32 % mask.w, mask.y + at as i32 / mask.w);
            // Even, so that a thing that trembles does not make its control tremble.
            let half = (deep / 5).clamp(6, 60) & !1;
            let heart = area(x - half, y - half, 2 * half + 1, 2 * half + 1);
            (spot, Held { bounds: area(mask.x, mask.y, mask.w, mask.h), heart })
        })
        .collect()
}
