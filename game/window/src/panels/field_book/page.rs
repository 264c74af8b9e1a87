//! The pages of the field book, and what is on which.

use bevy::prelude::Message;
use sim_core::field_book::Field;
use sim_core::scenario::setup::WorkOrder;

/// A page of the field book.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Page {
    /// The work order.
    #[default]
    Order,
    /// The certificates, and what is copied from them.
    Certificate,
    /// Temperature and pressure.
    Air,
    /// The points.
    Points,
    /// The line.
    Line,
    /// The set point.
    SetPoint,
    /// The flow checked against the standard.
    Check,
    /// The sampler's history: its control chart.
    History,
    /// The 24-hour run: filter, meter, pen, custody.
    Run,
    /// Volume and concentration of the run.
    Volume,
    /// Remarks, reports, decision, signature.
    Remarks,
}

/// Asks for a page to be turned to.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct PageTurn(pub Page);

impl Page {
    /// Every page, in the order of the work.
    pub const ALL: [Self; 11] = [
        Self::Order,
        Self::Certificate,
        Self::Air,
        Self::Points,
        Self::Line,
        Self::SetPoint,
        Self::Check,
        Self::History,
        Self::Run,
        Self::Volume,
        Self::Remarks,
    ];

    /// Whether the work order asks for what is written on the page.
    pub const fn is_there(self, order: &WorkOrder) -> bool {
        match self {
            Self::Check => order.flow_check.is_some(),
            Self::History => order.history.is_some(),
            Self::Run | Self::Volume => order.run.is_some(),
            _ => true,
        }
    }

    /// The page that a field is on.
    pub const fn of(field: Field) -> Self {
        match field {
            Field::CalibratorSerial
            | Field::CertificateSerial
            | Field::CertificateDate
            | Field::CertificateSlope
            | Field::CertificateIntercept => Self::Certificate,
            Field::Temperature | Field::Pressure => Self::Air,
            Field::Up(_)
            | Field::Down(_)
            | Field::DeltaH(_)
            | Field::Chart(_)
            | Field::PointFlow(_)
            | Field::ChartTerm(_) => Self::Points,
            Field::Expression | Field::Slope | Field::Intercept | Field::Correlation => Self::Line,
            Field::TargetFlow | Field::SetPoint => Self::SetPoint,
            Field::CheckTemperature
            | Field::CheckPressure
            | Field::CheckUp(_)
            | Field::CheckDown(_)
            | Field::CheckChart(_)
            | Field::CheckFlow
            | Field::CheckLineFlow
            | Field::CheckDifference
            | Field::CheckOutcome => Self::Check,
            Field::HistoryPoint | Field::HistoryReading => Self::History,
            Field::FilterNumber
            | Field::MeterBefore
            | Field::StartChart
            | Field::SecondFilterChart
            | Field::ThirdFilterChart
            | Field::SecondFilterChange
            | Field::ThirdFilterChange
            | Field::FiltersHeld
            | Field::EndChart
            | Field::MeterAfter
            | Field::Custody
            | Field::NextFilterNumber => Self::Run,
            Field::RunMinutes
            | Field::MeanChart
            | Field::PartChart(_)
            | Field::PartMinutes(_)
            | Field::RunPressure
            | Field::RunTemperature
            | Field::RunFlow
            | Field::Volume
            | Field::Concentration
            | Field::Validity => Self::Volume,
            Field::Decision | Field::Remarks => Self::Remarks,
        }
    }

    /// Its name on the tab.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Order => "order",
            Self::Certificate => "certificate",
            Self::Air => "air",
            Self::Points => "points",
            Self::Line => "line",
            Self::SetPoint => "set point",
            Self::Check => "check",
            Self::History => "history",
            Self::Run => "run",
            Self::Volume => "volume",
            Self::Remarks => "remarks",
        }
    }
}
