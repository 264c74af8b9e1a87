//! Counts the frames that were drawn and shows the count to other programs, for those who measure what a
//! frame costs.

use std::sync::Arc;

use bevy::prelude::*;
use sessions::Publisher;

/// Frames between two writings, once the first ones have passed.
const EVERY: u64 = 5;

/// Keeps the count.
pub struct FramesPlugin {
    /// Where.
    pub to: Arc<dyn Publisher>,
}

/// The count, and where it is shown.
#[derive(Resource)]
struct Frames {
    to: Arc<dyn Publisher>,
    count: u64,
}

impl Plugin for FramesPlugin {
    fn build(&self, app: &mut App) {
        app.insert_resource(Frames { to: Arc::clone(&self.to), count: 0 }).add_systems(Last, count);
    }
}

fn count(mut frames: ResMut<Frames>) {
    frames.count += 1;
    if frames.count < 2 * EVERY || frames.count.is_multiple_of(EVERY) {
        // A count that cannot be kept is missed by whoever asked for it.
        let _ = frames.to.publish(frames.count.to_string().as_bytes());
    }
}
