//! What lies about the station: loupe, watch, hand card, field book, help, and a step shown on a copy.

pub mod field_book;
pub mod hand_card;
pub mod heard;
pub mod help;
pub mod lapse;
pub mod loupe;
pub mod loupe_reader;
pub mod plot;
pub mod showing;
pub mod watch;
