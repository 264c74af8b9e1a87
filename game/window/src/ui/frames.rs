//! Counts the frames that were drawn and keeps the count in a file, for those who measure what a
//! frame costs.

use std::path::PathBuf;

use bevy::prelude::*;

/// Frames between two writings, once the first ones have passed.
const EVERY: u64 = 5;

/// Keeps the count.
pub struct FramesPlugin {
    /// Where.
    pub file: PathBuf,
}

/// The count, and its file.
#[derive(Resource)]
struct Frames {
    file: PathBuf,
    count: u64,
}

impl Plugin for FramesPlugin {
    fn build(&self, app: &mut App) {
        app.insert_resource(Frames { file: self.file.clone(), count: 0 }).add_systems(Last, count);
    }
}

fn count(mut frames: ResMut<Frames>) {
    frames.count += 1;
    if frames.count < 2 * EVERY || frames.count.is_multiple_of(EVERY) {
        // A count that cannot be kept is missed by whoever asked for it.
        let _ = std::fs::write(&frames.file, frames.count.to_string());
    }
}
