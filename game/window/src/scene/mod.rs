//! The station: its pictures, the things on it as controls, and hands that look, turn and carry.

pub mod carry;
pub mod follow;
pub mod kept_chart;
pub mod lit;
pub mod next_reading;
pub mod owners;
pub mod panel;
pub mod pictures;
pub mod places;
pub mod quick_keys;
pub mod reach;
pub mod redraw;
pub mod spot_keys;
pub mod spot_reader;
pub mod spots;
pub mod take_up;
pub mod wheel;
pub mod word;
pub mod write_reading;
