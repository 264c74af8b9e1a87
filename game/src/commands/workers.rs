//! Threads that share the work of a command.

use rayon::{ThreadPool, ThreadPoolBuilder};
use sessions::FrontEndError;

/// So many threads, 0 for as many as there are processors.
///
/// # Errors
///
/// When the system does not start them.
pub fn workers(count: usize) -> Result<ThreadPool, FrontEndError> {
    ThreadPoolBuilder::new().num_threads(count).build().map_err(|error| {
        FrontEndError::Wrong(format!(
            "the system did not start the threads for the work ({error}): close other programs and \
             try again"
        ))
    })
}
