//! The station as it stands: every drawing and every moving part where the view puts it, in layers
//! from the back to the front.

mod carried;
mod gauges;
mod list;
mod surroundings;
mod whole;

pub(crate) use list::Content;
pub use list::{Layer, PlacedDrawing};
pub(crate) use whole::draw_one;
pub use whole::{bounds, boxed, draw, draw_named, names, placed_drawings};
