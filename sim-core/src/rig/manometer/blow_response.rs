//! How the water in the manometer answers a gentle puff.

/// What blowing gently into the tube's free end does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BlowResponse {
    /// The water swings freely.
    Freely,
    /// It moves, but sluggishly: a valve is barely open, or the tube passes little.
    Sluggishly,
    /// It only twitches: air is shut in above the right leg.
    Twitch,
    /// Nothing gets through.
    Nothing,
}
