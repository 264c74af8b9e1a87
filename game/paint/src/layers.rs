//! The station as it stands: every drawing and every moving part where the view puts it, in layers
//! from the back to the front.

mod carried;
mod gauges;
mod list;
mod surroundings;
mod whole;

pub use list::{Layer, PlacedDrawing};
pub use whole::{bounds, boxed, draw, placed_drawings};
