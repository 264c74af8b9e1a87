//! Pictures: instruments and the station, drawn from what is visible. Needs no window.
//!
//! Everything here is a function of a [`View`](sim_core::session::view::View) and of the drawings in
//! `assets/`: the same view gives the same bytes.

pub mod canvas;
pub mod chart;
pub mod contrast;
mod digits;
pub mod drill;
pub mod layers;
mod live_parts;
pub mod loupe;
pub mod moving;
pub mod night;
pub mod palette;
pub mod scene;
pub mod shapes;
pub mod situation;
pub mod still;
pub mod strip;
pub mod text;
