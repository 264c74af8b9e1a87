//! The bench in a window: the station, the hands, the loupe, the field book and the watch.
//!
//! [`hands`] is what hands can do, without any window; everything else draws it and hands it on.
//! The bench gets a [`View`](sim_core::session::view::View) and gives
//! [`Action`](sim_core::session::action::Action)s: it never sees what is true.

// The engine's systems say what they need in their parameters; splitting them would only hide it.
#![allow(clippy::too_many_arguments, clippy::type_complexity)]

pub mod places;

pub(crate) mod access;
pub mod app;
mod carry;
pub mod controls;
pub mod debrief;
pub mod desk;
mod door;
pub mod field_book;
pub mod frames;
mod hand_card;
mod help;
pub(crate) mod keys;
mod lapse;
#[cfg(feature = "sound")]
mod loudspeaker;
pub mod loupe;
pub mod overlay;
mod pace;
pub mod pan;
mod pictures;
mod redraw;
pub mod scene;
pub mod settings;
mod settings_sheet;
pub mod showing;
#[cfg(any(test, feature = "sound"))]
pub mod sound;
pub mod spots;
pub mod start;
pub mod store;
pub mod theme;
mod threads;
pub mod told;
mod watch;

pub use door::run;

/// What fills the window.
#[derive(bevy::prelude::States, Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Screen {
    /// The list of scenarios.
    #[default]
    Start,
    /// The bench.
    Bench,
    /// After signing.
    Debrief,
}
