//! Work beside the frames: what takes long goes on by itself, and the window is not held up.

use std::sync::Arc;

use bevy::prelude::*;
use bevy::tasks::futures::check_ready;
use bevy::tasks::{AsyncComputeTaskPool, Task, TaskPool};

/// Where work goes on beside the frames.
#[derive(Resource, Debug, Clone, Default)]
pub struct Background(Arc<()>);

/// A piece of work whose result is waited for. It is given up with this.
#[derive(Debug)]
pub struct Job<T> {
    task: Task<T>,
    _counted: Arc<()>,
}

impl Background {
    /// Begins a piece of work.
    pub fn begin<T: Send + 'static>(&self, work: impl FnOnce() -> T + Send + 'static) -> Job<T> {
        let pool = AsyncComputeTaskPool::get_or_init(TaskPool::default);
        Job { task: pool.spawn(async move { work() }), _counted: Arc::clone(&self.0) }
    }

    /// Whether a result is waited for.
    pub fn is_busy(&self) -> bool {
        Arc::strong_count(&self.0) > 1
    }
}

impl<T> Job<T> {
    /// The result, once it is there.
    pub fn result(&mut self) -> Option<T> {
        check_ready(&mut self.task)
    }
}
