//! What the roof sounds like, and playing it where sound is built in.

#[cfg(feature = "sound")]
pub mod loudspeaker;
pub mod voice;
