//! What the roof sounds like, and playing it where sound is built in.

#[cfg(any(feature = "sound", windows, target_os = "macos"))]
pub mod loudspeaker;
pub mod voice;
