//! The names of things that every front end says alike: fields of the book, sources.

use sim_core::field_book::Field;
use sim_core::procedure::RuleSource;

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
        Field::SecondFilterChart => "second filter chart",
        Field::ThirdFilterChart => "third filter chart",
        Field::SecondFilterChange => "second filter change, %",
        Field::ThirdFilterChange => "third filter change, %",
        Field::FiltersHeld => "filters held",
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
        Field::HistoryPoint => "control chart point, %",
        Field::HistoryReading => "control chart reading",
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

/// The citation of a rule's source. How well it is known stands beside the rule, in the code.
pub fn source_words(source: RuleSource) -> String {
    source.text.to_owned()
}
