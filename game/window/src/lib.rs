//! The bench in a window: the station, the hands, the loupe, the field book and the watch.
//!
//! [`hands`] is what hands can do, without any window; everything else draws it and hands it on.
//! The bench gets a [`View`](sim_core::session::view::View) and gives
//! [`Action`](sim_core::session::action::Action)s: it never sees what is true.

// The engine's systems say what they need in their parameters; splitting them would only hide it.
#![allow(clippy::too_many_arguments, clippy::type_complexity)]

mod access;
pub mod app;
mod bench_page;
mod carry;
mod caution;
pub mod controls;
pub mod debrief;
pub mod desk;
mod door;
pub mod field_book;
pub mod frames;
pub mod hand_card;
pub mod help;
pub mod kept_chart;
mod keys;
pub mod lapse;
#[cfg(feature = "sound")]
mod loudspeaker;
pub mod loupe;
mod order;
pub mod overlay;
mod pace;
pub mod pan;
pub mod pictures;
pub mod places;
mod redraw;
mod regions;
pub mod scene;
pub mod screen;
pub mod settings;
mod settings_sheet;
pub mod showing;
#[cfg(any(test, feature = "sound"))]
pub mod sound;
mod spot_keys;
pub mod spots;
pub mod start;
pub mod store;
pub mod theme;
mod threads;
pub mod told;
pub mod watch;

pub use door::run;
