//! What every part of the window stands on: type and colours, controls, sheets, keys, settings, and what
//! is told to screen readers.

pub mod access;
pub mod announce;
pub mod background;
pub mod bars;
pub mod caution;
pub mod controls;
pub mod frames;
pub mod growing;
pub mod in_units;
pub mod keys;
pub mod marks_known;
pub mod order;
pub mod overlay;
pub mod page_keys;
pub mod pan;
pub mod room;
pub mod screen;
pub mod services;
pub mod settings;
pub mod settings_sheet;
pub mod store;
pub mod text_size;
pub mod theme;
pub mod threads;
pub mod told;
pub mod tone;
pub mod typing;
