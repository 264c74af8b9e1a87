//! The bench in a window: the station, the hands, the loupe, the field book and the watch.
//!
//! [`hands`] is what hands can do, without any window; everything else draws it and hands it on.
//! The bench gets a [`View`](sim_core::session::view::View) and gives
//! [`Action`](sim_core::session::action::Action)s: it never sees what is true.

pub mod hands;
