//! The bench itself: what it shows, and what is done through it.

#[cfg(feature = "paint")]
mod paint;
#[cfg(all(feature = "window", target_os = "linux"))]
mod real;
#[cfg(feature = "window")]
mod window;
