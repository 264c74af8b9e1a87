//! The clock on the wall of this machine.

use std::time::SystemTime;

/// Seconds since 1970-01-01 00:00 UTC; 0 if the machine's clock is set to an earlier date.
pub fn wall_clock_s() -> u64 {
    SystemTime::now()
        .duration_since(SystemTime::UNIX_EPOCH)
        .map(|since| since.as_secs())
        .unwrap_or_default()
}
