//! The bench itself: what it shows, and what is done through it.

#[cfg(feature = "paint")]
mod paint;
#[cfg(feature = "window")]
mod window;
