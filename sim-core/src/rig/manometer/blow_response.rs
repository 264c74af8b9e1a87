//! How the water in the manometer responds to a gentle puff.

/// How the water responds to a gentle puff into the free end of the tubing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BlowResponse {
    /// The water swings freely.
    Freely,
    /// It moves sluggishly: a valve is barely open, or the tubing passes little air.
    Sluggishly,
    /// It only twitches: air is trapped above the right leg.
    Twitch,
    /// It does not move: no air gets through.
    Nothing,
}
