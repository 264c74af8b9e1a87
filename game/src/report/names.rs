//! The names of things in reports: parts of the marks, severities, verdicts, phases, fields.

use sim_core::field_book::Field;
use sim_core::marking::{FaultVerdict, PartName};
use sim_core::procedure::{Phase, Severity, Source};
use sim_core::session::action::Response;
use sim_core::session::ending::Ending;
use sim_core::time::{Tick, TimeOfDay};

/// The caution that stands on every report.
pub const CAUTION: &str = "This is a training aid, not a procedure. The site's own rules, the \
instrument's instructions, local codes and licensed practice come first.";

/// A part of the marks.
pub const fn part_name(part: PartName) -> &'static str {
    match part {
        PartName::Safety => "safety",
        PartName::Readings => "readings",
        PartName::Fit => "fit",
        PartName::Procedure => "procedure",
        PartName::Judgement => "judgement",
        PartName::Record => "record",
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

/// How a session ended.
pub const fn ending(ending: Ending) -> &'static str {
    match ending {
        Ending::Signed => "Signed",
        Ending::TimeOut => "Time ran out",
        Ending::LeftRoof => "The operator left the roof",
        Ending::Broken => "Stopped by an error of the program",
    }
}

/// What became of a fault or of a report.
pub const fn verdict(verdict: FaultVerdict) -> &'static str {
    match verdict {
        FaultVerdict::Found => "found",
        FaultVerdict::WrongResponse => "wrong response",
        FaultVerdict::OnlySaid => "reported as dealt with, but it was not",
        FaultVerdict::PutRightSilently => "repaired, not reported",
        FaultVerdict::Missed => "missed",
        FaultVerdict::FalseAlarm => "false alarm",
        FaultVerdict::Guessed => "reported before looking",
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

/// The citation of a rule's source.
pub fn source_words(source: Source) -> String {
    source.text.to_owned()
}

/// The name of a phase.
pub const fn phase_name(phase: Phase) -> &'static str {
    match phase {
        Phase::Arrive => "arrive",
        Phase::Strip => "prepare",
        Phase::Manometer => "manometer",
        Phase::Power => "power",
        Phase::Points => "points",
        Phase::Restore => "restore",
        Phase::Sums => "calculations",
        Phase::SetPoint => "set point",
        Phase::Check => "flow check",
        Phase::Load => "load",
        Phase::Recover => "recover",
        Phase::Volume => "volume",
    }
}

/// A field's name in words.
pub fn field_name(field: Field) -> String {
    let plain = match field {
        Field::CalibratorSerial => "calibrator serial",
        Field::CertificateSerial => "certificate serial",
        Field::CertificateDate => "certificate date",
        Field::CertificateSlope => "certificate slope",
        Field::CertificateIntercept => "certificate intercept",
        Field::Temperature => "temperature, C",
        Field::Pressure => "pressure, mmHg",
        Field::Expression => "expression",
        Field::Slope => "slope",
        Field::Intercept => "intercept",
        Field::Correlation => "correlation",
        Field::Decision => "decision",
        Field::TargetFlow => "target flow, m3/min",
        Field::SetPoint => "set point, chart",
        Field::CheckTemperature => "check temperature, C",
        Field::CheckPressure => "check pressure, mmHg",
        Field::CheckFlow => "check flow, m3/min",
        Field::CheckLineFlow => "check line flow, m3/min",
        Field::CheckDifference => "check difference, %",
        Field::CheckOutcome => "check outcome",
        Field::CheckUp(reading) => return format!("check {} up, in", reading.number()),
        Field::CheckDown(reading) => return format!("check {} down, in", reading.number()),
        Field::CheckChart(reading) => return format!("check {} chart", reading.number()),
        Field::FilterNumber => "filter number",
        Field::MeterBefore => "meter before, min",
        Field::StartChart => "start chart",
        Field::EndChart => "end chart",
        Field::MeterAfter => "meter after, min",
        Field::RunMinutes => "run minutes",
        Field::MeanChart => "mean chart",
        Field::RunPressure => "run pressure, mmHg",
        Field::RunTemperature => "run temperature, C",
        Field::RunFlow => "run flow, m3/min",
        Field::Volume => "volume, m3",
        Field::Concentration => "concentration, ug/m3",
        Field::Validity => "validity",
        Field::Custody => "custody",
        Field::NextFilterNumber => "next filter number",
        Field::PartChart(part) => return format!("part {} chart", part.number()),
        Field::PartMinutes(part) => return format!("part {} minutes", part.number()),
        Field::Remarks => "remarks",
        Field::Up(point) => return format!("point {} up, in", point.number()),
        Field::Down(point) => return format!("point {} down, in", point.number()),
        Field::DeltaH(point) => return format!("point {} dH, in", point.number()),
        Field::Chart(point) => return format!("point {} chart", point.number()),
        Field::PointFlow(point) => return format!("point {} flow", point.number()),
        Field::ChartTerm(point) => return format!("point {} term", point.number()),
    };
    plain.to_owned()
}
