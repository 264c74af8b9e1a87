//! What lies about the station: loupe, watch, hand card, field book, help, and a step shown on a copy.

pub mod field_book;
pub mod hand_card;
pub mod help;
pub mod lapse;
pub mod loupe;
pub mod showing;
pub mod watch;
