//! The pages, and those that are only fields one under another.

use bevy::prelude::*;
use sim_core::field_book::{Field, PointNumber};
use sim_core::scenario::setup::WorkOrder;
use sim_core::session::action::HelpTopic;

use super::{entry, plot, points};
use crate::controls::{Ask, button};
use crate::desk::{Book, Papers};
use crate::theme::{self, Theme};

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
    /// The 24-hour run: filter, meter, pen, custody.
    Run,
    /// Volume and concentration of the run.
    Volume,
    /// Remarks, reports, decision, signature.
    Remarks,
}

impl Page {
    /// Every page, in the order of the work.
    pub const ALL: [Self; 10] = [
        Self::Order,
        Self::Certificate,
        Self::Air,
        Self::Points,
        Self::Line,
        Self::SetPoint,
        Self::Check,
        Self::Run,
        Self::Volume,
        Self::Remarks,
    ];

    /// Whether the work order asks for what is written on the page.
    pub const fn is_there(self, order: &WorkOrder) -> bool {
        match self {
            Self::Check => order.flow_check.is_some(),
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
            Field::FilterNumber
            | Field::MeterBefore
            | Field::StartChart
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
            Self::Run => "run",
            Self::Volume => "volume",
            Self::Remarks => "remarks",
        }
    }
}

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
        Field::ChartTerm(_) => ("term", ""),
        Field::Expression => ("Chart term used", "in words or symbols"),
        Field::Slope => ("Slope of the line", ""),
        Field::Intercept => ("Intercept of the line", ""),
        Field::Correlation => ("Correlation r", ""),
        Field::Decision => ("Decision", ""),
        Field::TargetFlow => ("Target flow", "std m\u{b3}/min"),
        Field::SetPoint => ("Chart reading to hold", "divisions"),
        Field::CheckTemperature => ("Air temperature at the check", "\u{b0}C"),
        Field::CheckPressure => ("Station pressure at the check", "mmHg"),
        Field::CheckUp(_) => ("up", "in"),
        Field::CheckDown(_) => ("down", "in"),
        Field::CheckChart(_) => ("chart", "divisions"),
        Field::CheckFlow => ("Flow by the standard", "std m\u{b3}/min"),
        Field::CheckLineFlow => ("Flow by the line", "std m\u{b3}/min"),
        Field::CheckDifference => ("Line against standard", "%"),
        Field::CheckOutcome => ("Passed or failed, and what follows", ""),
        Field::FilterNumber => ("Filter, number on its edge", ""),
        Field::MeterBefore => ("Meter before the run", "min"),
        Field::StartChart => ("Chart reading at the start", "divisions"),
        Field::EndChart => ("Chart reading at the end", "divisions"),
        Field::MeterAfter => ("Meter after the run", "min"),
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
        Field::Custody => ("Custody", ""),
        Field::NextFilterNumber => ("Next filter, number on its edge", ""),
        Field::Remarks => ("Remarks", ""),
    }
}

/// Whether a field takes a number.
pub const fn is_number(field: Field) -> bool {
    !field.is_words()
}

/// A page of plain fields.
pub fn spawn(
    leaf: &mut ChildSpawnerCommands,
    theme: &Theme,
    page: Page,
    book: &Book,
    papers: &Papers,
) {
    let fields: &[Field] = match page {
        Page::Air => &[Field::Temperature, Field::Pressure],
        Page::Run => &[
            Field::FilterNumber,
            Field::StartChart,
            Field::MeterBefore,
            Field::MeterAfter,
            Field::EndChart,
            Field::Custody,
        ],
        Page::Line => &[Field::Expression, Field::Slope, Field::Intercept, Field::Correlation],
        _ => &[Field::TargetFlow, Field::SetPoint],
    };
    let next = page == Page::Run && papers.work_order.next_run().is_some();
    for field in fields.iter().copied().chain(next.then_some(Field::NextFilterNumber)) {
        entry::spawn(leaf, theme, book, field);
    }
    if page == Page::Line && papers.terms.plot {
        leaf.spawn(Node::default()).with_children(|row| {
            row.spawn(button(theme, "plot my points", Ask::Topic(HelpTopic::Plot)));
        });
        plot::spawn(leaf, theme);
    }
    let note = match page {
        Page::Air => "As read at the station, thermometer in the shade.",
        Page::Run => {
            "Before the site is left: number, pen and meter. Back again: meter first, then the \
            pen on a warm blower; custody says who has the sample, and from when on."
        }
        Page::Line => "chart term = slope x flow + intercept, from your own points.",
        _ => "At the conditions that are expected over the run: see the order.",
    };
    leaf.spawn(theme::italic(note, theme::SMALL, theme.ink_soft));
}

/// The page of the flow check: its air, its readings, and what they come to.
pub fn check(leaf: &mut ChildSpawnerCommands, theme: &Theme, book: &Book, papers: &Papers) {
    for field in [Field::CheckTemperature, Field::CheckPressure] {
        entry::spawn(leaf, theme, book, field);
    }
    let rows = papers.work_order.flow_check.map_or(0, |check| usize::from(check.readings));
    let columns: [fn(PointNumber) -> Field; 3] =
        [Field::CheckUp, Field::CheckDown, Field::CheckChart];
    points::table(leaf, theme, book, &columns, rows);
    for field in
        [Field::CheckFlow, Field::CheckLineFlow, Field::CheckDifference, Field::CheckOutcome]
    {
        entry::spawn(leaf, theme, book, field);
    }
    let note = "On the sampler as it runs: a filter in, the controller in the loop, warm.";
    leaf.spawn(theme::italic(note, theme::SMALL, theme.ink_soft));
}
