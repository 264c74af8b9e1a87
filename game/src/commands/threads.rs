//! The threads on which a command does its work.

use rayon::{ThreadPool, ThreadPoolBuilder};

use sessions::FrontEndError;

/// Starts the threads for so many jobs at the same time; left out, one for each processor.
///
/// # Errors
///
/// When the system does not let them start.
pub fn start(jobs: Option<u16>) -> Result<ThreadPool, FrontEndError> {
    let pool = ThreadPoolBuilder::new().num_threads(jobs.map_or(0, usize::from)).build();
    pool.map_err(|error| {
        let wanted = match jobs {
            Some(1) => "a thread".to_owned(),
            Some(jobs) => format!("{jobs} threads"),
            None => "a thread for each processor".to_owned(),
        };
        FrontEndError::Wrong(format!(
            "cannot start {wanted}: {error}; close other programs, or raise the system's limit on \
             threads and memory"
        ))
    })
}
