//! The kinds of drills.

use serde::{Deserialize, Serialize};

use crate::text::printable;

/// One skill that is practised by itself, a minute or two at a time.
///
/// The names are stable: journals, JSON and the command line use them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(into = "&'static str", try_from = "String")]
pub enum DrillKind {
    /// Read one leg of the water manometer.
    Leg,
    /// Read both legs and give the pressure: rise and fall together.
    Difference,
    /// Read the pen on the chart.
    Pen,
    /// Read the station pressure.
    Barometer,
    /// Read the air temperature.
    Thermometer,
    /// Read the mean of the chart of a run.
    ChartMean,
    /// Read the elapsed-time meter.
    ElapsedTime,
    /// Say whether the water is at rest.
    WaterAtRest,
    /// Say whether the pen is at rest.
    PenAtRest,
    /// Find the valid certificate among four.
    Certificate,
    /// Find what is loose, kinked or missing at the station.
    Station,
    /// Do the calculations of one point by hand.
    PointSums,
    /// Judge the points of a calibration line.
    Line,
}

/// What an error of a kind is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ErrorUnit {
    /// Inches on the manometer's scale.
    Inches,
    /// Chart divisions.
    Divisions,
    /// Millimetres of mercury.
    Mmhg,
    /// Degrees Celsius.
    Celsius,
    /// Minutes.
    Minutes,
    /// Percent of the right value.
    Percent,
    /// An answer is right or wrong; there is nothing in between.
    Choice,
}

impl ErrorUnit {
    /// Its sign, as it follows a number; empty for a choice.
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Inches => "in",
            Self::Divisions => "divisions",
            Self::Mmhg => "mmHg",
            Self::Celsius => "degrees Celsius",
            Self::Minutes => "min",
            Self::Percent => "%",
            Self::Choice => "",
        }
    }

    /// Decimals with which an error is told.
    pub const fn decimals(self) -> usize {
        match self {
            Self::Inches | Self::Divisions | Self::Percent => 2,
            Self::Mmhg | Self::Celsius | Self::Minutes => 1,
            Self::Choice => 0,
        }
    }
}

impl DrillKind {
    /// All of them, in the order in which the work meets them.
    pub const ALL: [Self; 13] = [
        Self::Certificate,
        Self::Barometer,
        Self::Thermometer,
        Self::Leg,
        Self::Difference,
        Self::WaterAtRest,
        Self::Pen,
        Self::PenAtRest,
        Self::Station,
        Self::PointSums,
        Self::Line,
        Self::ElapsedTime,
        Self::ChartMean,
    ];

    /// Its name in journals, in JSON and on the command line.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Leg => "leg",
            Self::Difference => "difference",
            Self::Pen => "pen",
            Self::Barometer => "barometer",
            Self::Thermometer => "thermometer",
            Self::ChartMean => "chart-mean",
            Self::ElapsedTime => "elapsed-time",
            Self::WaterAtRest => "water-at-rest",
            Self::PenAtRest => "pen-at-rest",
            Self::Certificate => "certificate",
            Self::Station => "station",
            Self::PointSums => "point-sums",
            Self::Line => "line",
        }
    }

    /// The kind of this name.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.name() == name)
    }

    /// Its title, for lists.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Leg => "One leg of the manometer",
            Self::Difference => "Both legs of the manometer",
            Self::Pen => "The pen on the chart",
            Self::Barometer => "The barometer",
            Self::Thermometer => "The thermometer",
            Self::ChartMean => "The mean of a run's chart",
            Self::ElapsedTime => "The elapsed-time meter",
            Self::WaterAtRest => "Is the water at rest?",
            Self::PenAtRest => "Is the pen at rest?",
            Self::Certificate => "Which certificate is valid?",
            Self::Station => "What is wrong at the station?",
            Self::PointSums => "The calculations of a point",
            Self::Line => "Judge a calibration line",
        }
    }

    /// What an error is counted in.
    pub const fn error_unit(self) -> ErrorUnit {
        match self {
            Self::Leg | Self::Difference => ErrorUnit::Inches,
            Self::Pen | Self::ChartMean => ErrorUnit::Divisions,
            Self::Barometer => ErrorUnit::Mmhg,
            Self::Thermometer => ErrorUnit::Celsius,
            Self::ElapsedTime => ErrorUnit::Minutes,
            Self::PointSums => ErrorUnit::Percent,
            Self::WaterAtRest
            | Self::PenAtRest
            | Self::Certificate
            | Self::Station
            | Self::Line => ErrorUnit::Choice,
        }
    }
}

impl std::fmt::Display for DrillKind {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.name())
    }
}

impl From<DrillKind> for &'static str {
    fn from(kind: DrillKind) -> Self {
        kind.name()
    }
}

/// There is no drill of that name.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("there is no drill called `{}`: choose one of {}", printable(.0), names())]
pub struct NoSuchDrill(pub String);

/// The names of all kinds.
fn names() -> String {
    DrillKind::ALL.map(DrillKind::name).join(", ")
}

impl TryFrom<String> for DrillKind {
    type Error = NoSuchDrill;

    fn try_from(name: String) -> Result<Self, Self::Error> {
        Self::named(&name).ok_or(NoSuchDrill(name))
    }
}

#[cfg(test)]
mod tests {
    use super::DrillKind;

    #[test]
    fn a_kind_is_found_by_the_name_that_a_journal_has() {
        for kind in DrillKind::ALL {
            assert_eq!(DrillKind::named(kind.name()), Some(kind));
            let written = ron::to_string(&kind).expect("a name");
            assert_eq!(written, format!("\"{}\"", kind.name()));
            assert_eq!(ron::from_str(&written), Ok(kind));
        }
        let error = DrillKind::try_from("legs".to_owned()).expect_err("there is none");
        assert!(error.to_string().contains("`legs`: choose one of certificate, "), "{error}");
    }
}
