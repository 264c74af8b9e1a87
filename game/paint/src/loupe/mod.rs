//! The loupe: a round, magnified, live picture of what the eyes are on.
//!
//! Each instrument draws itself in a file of its own, on a sheet of 280 units a side whose middle is
//! (140, 140). Nothing here writes a reading down: it is seen against its scale or not at all.

mod barometer;
mod beside;
mod calibrator;
mod display;
mod field_of_view;
mod filling;
mod filter;
mod gaze;
mod holder;
mod kept_chart;
mod leg;
mod manometer;
mod paper_rows;
mod papers;
mod pen;
mod picture;
mod plate;
mod scene_crop;
mod sky;
mod sticker;
mod thermometer;
pub mod timer;
mod tube;
mod typeset;

pub use field_of_view::SHEET;
pub use gaze::{Gaze, KeptChart};
pub use papers::page;
pub use picture::{Lens, paint, paint_from, paint_through};
