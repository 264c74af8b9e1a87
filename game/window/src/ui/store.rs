//! Where the window finds scenarios and keeps what is made: the one resource behind which files lie.

use std::ops::Deref;
use std::sync::Arc;

use bevy::prelude::*;
use sessions::Storage;

/// The storage that the window stands on.
#[derive(Resource, Debug, Clone)]
pub struct Store(pub Arc<dyn Storage>);

impl Deref for Store {
    type Target = dyn Storage;

    fn deref(&self) -> &Self::Target {
        self.0.as_ref()
    }
}
