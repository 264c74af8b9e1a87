//! What the session came to, as long as the page is open.

use bevy::prelude::*;

use crate::commands::session_files::Ended;
use crate::report::document::Document;

/// What the session came to.
#[derive(Resource)]
pub struct Outcome(pub Result<Told, String>);

/// A session with its marks, and its report.
pub struct Told {
    /// The session with its truth and its marks.
    pub ended: Ended,
    /// Its report.
    pub document: Document,
}
