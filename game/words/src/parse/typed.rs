//! What is written in a field for what was said.

use sim_core::field_book::{Field, number_as_written};

use super::sentence::unquoted;

/// What is written in a field for what was said: the text itself, without the unit that is printed
/// beside the field.
pub(crate) fn as_typed(field: Field, text: &str) -> String {
    let units: &[&str] = match field {
        Field::Temperature | Field::RunTemperature | Field::CheckTemperature => {
            &["degrees celsius", "degrees c", "degrees", "deg c", "°c", "°", "c"]
        }
        Field::Pressure | Field::RunPressure | Field::CheckPressure => &["mmhg", "mm hg", "mm"],
        Field::MeterBefore | Field::MeterAfter | Field::RunMinutes | Field::PartMinutes(_) => {
            &["minutes", "minute", "min"]
        }
        Field::Volume => &["std m3", "m3", "m³"],
        Field::Concentration => &["ug/std m3", "ug/m3", "µg/m³", "µg/m3"],
        Field::Up(_) | Field::Down(_) | Field::CheckUp(_) | Field::CheckDown(_) => {
            &["inches", "inch", "in"]
        }
        Field::CheckDifference
        | Field::HistoryPoint
        | Field::SecondFilterChange
        | Field::ThirdFilterChange => &["percent", "%"],
        Field::FiltersHeld => &["filters", "filter"],
        Field::DeltaH(_) => &["inches of water", "inches", "inh2o", "in"],
        Field::Chart(_)
        | Field::SetPoint
        | Field::StartChart
        | Field::SecondFilterChart
        | Field::ThirdFilterChart
        | Field::EndChart
        | Field::MeanChart
        | Field::PartChart(_)
        | Field::CheckChart(_) => &["divisions", "division"],
        Field::PointFlow(_)
        | Field::TargetFlow
        | Field::RunFlow
        | Field::CheckFlow
        | Field::CheckLineFlow => &["std m3/min", "m3/min", "m³/min"],
        _ => &[],
    };
    let bare = units.iter().find_map(|unit| {
        let at = text.len().checked_sub(unit.len())?;
        let (number, end) = (text.get(..at)?, text.get(at..)?);
        let is_number = number_as_written(number).is_ok();
        (is_number && end.to_lowercase() == *unit).then(|| number.trim().to_owned())
    });
    bare.unwrap_or_else(|| unquoted(text).to_owned())
}
