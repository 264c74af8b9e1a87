//! What the fields are called.

use sim_core::field_book::Field;

/// What a field is called, and its unit as on the instrument.
pub const fn label(field: Field) -> (&'static str, &'static str) {
    match field {
        Field::CalibratorSerial => ("Calibrator, number on its plate", ""),
        Field::CertificateSerial => ("Certificate used, serial number", ""),
        Field::CertificateDate => ("Certificate used, date", "year-month-day"),
        Field::CertificateSlope => ("Slope m", ""),
        Field::CertificateIntercept => ("Intercept b", ""),
        Field::Temperature => ("Air temperature", "\u{b0}C"),
        Field::Pressure => ("Station pressure", "mmHg"),
        Field::Up(_) => ("up", "in"),
        Field::Down(_) => ("down", "in"),
        Field::DeltaH(_) => ("\u{394}H", "inH2O"),
        Field::Chart(_) => ("chart", "divisions"),
        Field::PointFlow(_) => ("flow", "std m\u{b3}/min"),
        Field::ChartTerm(_) => ("corrected chart reading", ""),
        Field::Expression => ("Expression used", "in words or symbols"),
        Field::Slope => ("Slope of the calibration line", ""),
        Field::Intercept => ("Intercept of the calibration line", ""),
        Field::Correlation => ("Correlation r", ""),
        Field::Decision => ("Decision", ""),
        Field::TargetFlow => ("Target flow", "std m\u{b3}/min"),
        Field::SetPoint => ("Chart reading to hold", "divisions"),
        Field::CheckTemperature => ("Air temperature at the check", "\u{b0}C"),
        Field::CheckPressure => ("Station pressure at the check", "mmHg"),
        Field::CheckUp(_) => ("up", "in"),
        Field::CheckDown(_) => ("down", "in"),
        Field::CheckChart(_) => ("chart", "divisions"),
        Field::CheckFlow => ("Flow from the standard", "std m\u{b3}/min"),
        Field::CheckLineFlow => ("Flow from the calibration line", "std m\u{b3}/min"),
        Field::CheckDifference => ("Percent difference", "%"),
        Field::CheckOutcome => ("Passed or failed, and what follows", ""),
        Field::FilterNumber => ("Filter, number on its edge", ""),
        Field::MeterBefore => ("Elapsed-time meter before the run", "min"),
        Field::StartChart => ("Chart reading at the start", "divisions"),
        Field::SecondFilterChart => ("Chart reading with the second filter", "divisions"),
        Field::ThirdFilterChart => ("Chart reading with the third filter", "divisions"),
        Field::SecondFilterChange => ("Change of the flow with the second filter", "%"),
        Field::ThirdFilterChange => ("Change of the flow with the third filter", "%"),
        Field::FiltersHeld => ("Filters with which the flow is held", ""),
        Field::EndChart => ("Chart reading at the end", "divisions"),
        Field::MeterAfter => ("Elapsed-time meter after the run", "min"),
        Field::RunMinutes => ("Time of the run", "min"),
        Field::MeanChart => ("Mean chart reading", "divisions"),
        Field::PartChart(_) => ("mean chart reading", "divisions"),
        Field::PartMinutes(_) => ("time", "min"),
        Field::RunPressure => ("Mean pressure of the run", "mmHg"),
        Field::RunTemperature => ("Mean temperature of the run", "\u{b0}C"),
        Field::RunFlow => ("Mean flow of the run", "std m\u{b3}/min"),
        Field::Volume => ("Volume", "std m\u{b3}"),
        Field::Concentration => ("Concentration", "\u{b5}g/std m\u{b3}"),
        Field::Validity => ("Valid or not, and why", ""),
        Field::Custody => ("Chain of custody", ""),
        Field::NextFilterNumber => ("Next filter, number on its edge", ""),
        Field::HistoryPoint => ("Today's check on the control chart", "%"),
        Field::HistoryReading => ("What the control chart shows, and what follows", ""),
        Field::Remarks => ("Remarks", ""),
    }
}

/// Whether a field takes a number.
pub const fn is_number(field: Field) -> bool {
    !field.is_words()
}
