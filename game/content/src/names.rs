//! The names that pictures and sentences share: phases of the work, days of the week, ways to end.

use sim_core::procedure::WorkPhase;
use sim_core::session::ending::Ending;

/// Days of the week as they are typed, Monday first.
const WEEKDAYS: [&str; 7] =
    ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];

/// A day of the week as it is typed, 0 for Monday.
pub fn weekday(day: u8) -> &'static str {
    WEEKDAYS.get(usize::from(day)).copied().unwrap_or("it")
}

/// The name of a phase.
pub const fn phase_name(phase: WorkPhase) -> &'static str {
    match phase {
        WorkPhase::Arrive => "arrive",
        WorkPhase::Strip => "prepare",
        WorkPhase::Manometer => "manometer",
        WorkPhase::Power => "power",
        WorkPhase::Points => "points",
        WorkPhase::Restore => "restore",
        WorkPhase::Sums => "calculations",
        WorkPhase::SetPoint => "set point",
        WorkPhase::Check => "flow check",
        WorkPhase::Load => "load",
        WorkPhase::Recover => "recover",
        WorkPhase::Volume => "volume",
    }
}

/// How a session ended.
pub const fn ending(ending: Ending) -> &'static str {
    match ending {
        Ending::Signed => "Signed",
        Ending::TimeOut => "Time ran out",
        Ending::LeftRoof => "The operator left the roof",
        Ending::Broken => "Stopped by an error of the program",
    }
}
