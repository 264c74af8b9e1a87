//! The station: its pictures, the things on it as controls, and hands that look, turn and carry.

pub mod carry;
pub mod kept_chart;
pub mod panel;
pub mod pictures;
pub mod places;
pub mod redraw;
pub mod spot_keys;
pub mod spot_reader;
pub mod spots;
pub mod take_up;
pub mod wheel;
