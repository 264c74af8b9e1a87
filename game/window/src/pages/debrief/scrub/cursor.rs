//! The session that is gone through again, and the moment of it that is shown.

use bevy::prelude::*;
use content::review::SessionReview;
use paint::strip::ShowTruth;
use sim_core::session::view::View;
use sim_core::time::{TICKS_PER_SECOND, Tick};

use crate::scene::pictures::Source;

/// A session that is gone through again.
#[derive(Resource)]
pub struct Scrubbed {
    pub(super) scrub: SessionReview,
    pub(super) truth: ShowTruth,
}

impl Scrubbed {
    /// At its first mark, with the truth hidden.
    pub const fn new(scrub: SessionReview) -> Self {
        Self { scrub, truth: ShowTruth::Hidden }
    }

    /// The moment that is shown, and the ways from it.
    pub const fn scrub(&self) -> &SessionReview {
        &self.scrub
    }
}

impl Source for Scrubbed {
    fn view(&self) -> &View {
        &self.scrub.glimpse().view
    }
}

/// Asks for another moment, or for what was true in it.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScrubRequest {
    /// To this tick.
    At(Tick),
    /// On by so many ticks, or back.
    By(i64),
    /// On to the next mark.
    Next,
    /// Back to the mark before.
    Previous,
    /// Show what was true, or hide it.
    Truth,
}

impl ScrubRequest {
    /// On by so many seconds, or back.
    pub const fn by_seconds(seconds: i64) -> Self {
        Self::By(seconds * TICKS_PER_SECOND as i64)
    }
}
