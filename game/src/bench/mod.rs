//! The bench in a window: the station, the hands, the loupe, the field book and the watch.
//!
//! [`hands`] is what hands can do, without any window; everything else draws it and hands it on.
//! The bench gets a [`View`](sim_core::session::view::View) and gives
//! [`Action`](sim_core::session::action::Action)s: it never sees what is true.

// The engine's systems say what they need in their parameters; splitting them would only hide it.
#![cfg_attr(feature = "window", allow(clippy::too_many_arguments, clippy::type_complexity))]

pub mod hands;
pub mod places;

#[cfg(feature = "window")]
pub(crate) mod access;
#[cfg(feature = "window")]
pub mod app;
#[cfg(feature = "window")]
mod bench_page;
#[cfg(feature = "window")]
mod carry;
#[cfg(feature = "window")]
pub(crate) mod caution;
#[cfg(feature = "window")]
pub mod controls;
#[cfg(feature = "window")]
pub mod debrief;
#[cfg(feature = "window")]
pub mod desk;
#[cfg(feature = "window")]
pub mod frames;
#[cfg(feature = "window")]
pub mod hand_card;
#[cfg(feature = "window")]
pub mod help;
#[cfg(feature = "window")]
pub mod kept_chart;
#[cfg(feature = "window")]
pub(crate) mod keys;
#[cfg(feature = "window")]
pub mod lapse;
#[cfg(feature = "sound")]
mod loudspeaker;
#[cfg(feature = "window")]
pub mod loupe;
#[cfg(feature = "window")]
pub(crate) mod order;
#[cfg(feature = "window")]
pub mod overlay;
#[cfg(feature = "window")]
mod pace;
#[cfg(feature = "window")]
pub mod pan;
#[cfg(feature = "window")]
pub mod pictures;
#[cfg(feature = "window")]
mod redraw;
#[cfg(feature = "window")]
pub(crate) mod regions;
#[cfg(feature = "window")]
pub mod scene;
#[cfg(feature = "window")]
pub mod screen;
#[cfg(feature = "window")]
pub mod settings;
#[cfg(feature = "window")]
pub(crate) mod settings_sheet;
#[cfg(feature = "window")]
pub mod showing;
#[cfg(feature = "window")]
mod spot_keys;
#[cfg(feature = "window")]
pub mod spots;
#[cfg(feature = "window")]
pub mod start;
#[cfg(feature = "window")]
pub mod store;
#[cfg(feature = "window")]
pub mod theme;
#[cfg(feature = "window")]
mod threads;
#[cfg(feature = "window")]
pub mod told;
#[cfg(feature = "window")]
pub mod watch;
