//! Where in a session its lesson began.

use crate::time::Tick;

/// Where the trainee took over from the careful operator.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LessonBegan {
    /// When.
    pub tick: Tick,
    /// How many actions were done before.
    pub events: usize,
}
