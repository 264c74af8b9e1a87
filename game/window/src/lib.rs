//! The bench in a window: the station, the hands, the loupe, the field book and the watch.
//!
//! [`hands`] is what hands can do, without any window; everything else draws it and hands it on.
//! The bench gets a [`View`](sim_core::session::view::View) and gives
//! [`Action`](sim_core::session::action::Action)s: it never sees what is true.

// The engine's systems say what they need in their parameters; splitting them would only hide it.
#![allow(clippy::too_many_arguments, clippy::type_complexity)]

pub mod app;
pub mod desk;
mod door;
pub mod pages;
pub mod panels;
pub mod scene;
pub mod sound;
pub mod ui;

pub use app::{BenchPlugin, Describe};
pub use door::run;
