//! The last sessions, which show how a person works now.

use super::session::SessionSummary;

/// So many sessions count as recent.
pub const RECENT: usize = 3;

/// The last sessions.
pub fn recent(sessions: &[SessionSummary]) -> &[SessionSummary] {
    sessions.get(sessions.len().saturating_sub(RECENT)..).unwrap_or_default()
}
