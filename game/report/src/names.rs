//! The names of things in reports: parts of the marks, severities, verdicts, responses.

use sim_core::marking::{FaultVerdict, MarkPartName};
use sim_core::procedure::Severity;
use sim_core::session::action::Response;
use sim_core::time::{Tick, TimeOfDay};

/// The caution on every report.
pub const CAUTION: &str = "This is a training aid, not a procedure. The site's own rules, the \
instrument's instructions, local codes and licensed practice come first.";

/// A part of the marks.
pub const fn part_name(part: MarkPartName) -> &'static str {
    match part {
        MarkPartName::Safety => "safety",
        MarkPartName::Readings => "readings",
        MarkPartName::Fit => "fit",
        MarkPartName::Procedure => "procedure",
        MarkPartName::Judgement => "judgement",
        MarkPartName::Record => "record",
    }
}

/// What is at stake with a rule.
pub const fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Critical => "critical safety",
        Severity::Safety => "safety",
        Severity::Data => "data",
        Severity::Practice => "practice",
    }
}

/// What became of a fault or of a report.
pub const fn verdict(verdict: FaultVerdict) -> &'static str {
    match verdict {
        FaultVerdict::Found => "found",
        FaultVerdict::CauseOpen => "found, cause left open",
        FaultVerdict::WrongCause => "found, but taken for something else",
        FaultVerdict::NeverShowed => "could not be noticed",
        FaultVerdict::WrongResponse => "wrong response",
        FaultVerdict::OnlySaid => "reported as dealt with, but it was not",
        FaultVerdict::PutRightSilently => "repaired, not reported",
        FaultVerdict::Missed => "missed",
        FaultVerdict::FalseAlarm => "false alarm",
        FaultVerdict::Guessed => "a guess",
    }
}

/// How somebody responded to a fault.
pub const fn response(response: Response) -> &'static str {
    match response {
        Response::Repaired => "repaired on the roof",
        Response::Corrected => "corrected for in the calculations",
        Response::Rejected => "rejected",
        Response::Noted => "noted",
    }
}

/// When a fault was reported.
pub fn reported(tick: Option<Tick>, start: TimeOfDay) -> String {
    tick.map_or_else(
        || "not reported".to_owned(),
        |tick| format!("reported at {}", start.after(tick)),
    )
}
