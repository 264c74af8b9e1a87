//! The fields of the book in words.

use super::field::{Field, PointNumber};

impl Field {
    /// The field in words.
    pub fn label(self) -> String {
        let point =
            |name: &str, number: PointNumber| format!("{name} of point {}", number.number());
        let check = |name: &str, number: PointNumber| {
            format!("{name} of reading {} of the check", number.number())
        };
        match self {
            Field::CalibratorSerial => "serial number of the calibrator".to_owned(),
            Field::CertificateSerial => "serial number on the certificate".to_owned(),
            Field::CertificateDate => "date of the certificate".to_owned(),
            Field::CertificateSlope => "slope on the certificate".to_owned(),
            Field::CertificateIntercept => "intercept on the certificate".to_owned(),
            Field::Temperature => "temperature".to_owned(),
            Field::Pressure => "pressure".to_owned(),
            Field::Up(number) => point("leg up", number),
            Field::Down(number) => point("leg down", number),
            Field::DeltaH(number) => point("sum of both legs", number),
            Field::Chart(number) => point("chart reading", number),
            Field::PointFlow(number) => point("flow", number),
            Field::ChartTerm(number) => point("corrected chart reading", number),
            Field::Expression => "expression".to_owned(),
            Field::Slope => "slope".to_owned(),
            Field::Intercept => "intercept".to_owned(),
            Field::Correlation => "correlation coefficient".to_owned(),
            Field::Decision => "decision".to_owned(),
            Field::TargetFlow => "target flow".to_owned(),
            Field::SetPoint => "set point".to_owned(),
            Field::CheckTemperature => "temperature of the check".to_owned(),
            Field::CheckPressure => "pressure of the check".to_owned(),
            Field::CheckUp(number) => check("leg up", number),
            Field::CheckDown(number) => check("leg down", number),
            Field::CheckChart(number) => check("chart reading", number),
            Field::CheckFlow => "flow of the check by the standard".to_owned(),
            Field::CheckLineFlow => "flow of the check by the calibration line".to_owned(),
            Field::CheckDifference => "percent difference of the check".to_owned(),
            Field::CheckOutcome => "outcome of the check".to_owned(),
            Field::FilterNumber => "number of the filter".to_owned(),
            Field::MeterBefore => "elapsed-time meter before the run".to_owned(),
            Field::StartChart => "chart reading at the start".to_owned(),
            Field::SecondFilterChart => "chart reading with the second filter".to_owned(),
            Field::ThirdFilterChart => "chart reading with the third filter".to_owned(),
            Field::SecondFilterChange => "change of the flow with the second filter".to_owned(),
            Field::ThirdFilterChange => "change of the flow with the third filter".to_owned(),
            Field::FiltersHeld => "number of filters with which the flow is held".to_owned(),
            Field::EndChart => "chart reading at the end".to_owned(),
            Field::MeterAfter => "elapsed-time meter after the run".to_owned(),
            Field::RunMinutes => "minutes of the run".to_owned(),
            Field::MeanChart => "mean chart reading of the run".to_owned(),
            Field::PartChart(number) => format!("mean chart reading of part {}", number.number()),
            Field::PartMinutes(number) => format!("minutes of part {}", number.number()),
            Field::RunPressure => "mean pressure of the run".to_owned(),
            Field::RunTemperature => "mean temperature of the run".to_owned(),
            Field::RunFlow => "mean flow of the run".to_owned(),
            Field::Volume => "volume".to_owned(),
            Field::Concentration => "concentration".to_owned(),
            Field::Validity => "validity".to_owned(),
            Field::Custody => "chain of custody".to_owned(),
            Field::NextFilterNumber => "number of the next filter".to_owned(),
            Field::HistoryPoint => "point of today on the control chart".to_owned(),
            Field::HistoryReading => "reading of the control chart".to_owned(),
            Field::Remarks => "remarks".to_owned(),
        }
    }
}
