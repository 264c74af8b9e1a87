//! What the session came to, as long as the page is open.

use bevy::prelude::*;
use content::document::Document;
use sessions::{MarkedSession, MarksGot};

/// What the session came to.
#[derive(Resource)]
pub struct Outcome(pub Result<Told, String>);

/// A session with its marks, and its report.
pub struct Told {
    /// The session with its truth and its marks.
    pub ended: MarkedSession,
    /// Its report.
    pub document: Document,
    /// What was got in earlier sessions of the same scenario, the latest first.
    pub earlier: Vec<MarksGot>,
}
