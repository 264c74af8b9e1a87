//! The instruments that are read, what each showed to a perfect reader, and what it would have shown
//! without faults.

use serde::Serialize;

use crate::field_book::Field;
use crate::rig::manometer::electronic::ManometerKind;
use crate::rig::manometer::meniscus::parallax_in;
use crate::session::action::Sight;
use crate::session::ground_truth::GroundTruth;

/// An instrument that is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Instrument {
    /// The leg that went up.
    LegUp,
    /// The leg that went down.
    LegDown,
    /// The pen.
    Pen,
    /// The barometer.
    Barometer,
    /// The thermometer.
    Thermometer,
    /// The elapsed-time meter of the timer.
    ElapsedTimeMeter,
    /// The display of an electronic manometer.
    Display,
}

impl Instrument {
    /// The instrument whose reading belongs into a field, with this kind of manometer: the display of
    /// an electronic one shows the whole pressure difference, and there are no legs.
    pub(crate) const fn with(manometer: ManometerKind, field: Field) -> Option<Self> {
        match (manometer, field, Self::of(field)) {
            (ManometerKind::Electronic, Field::DeltaH(_), _) => Some(Self::Display),
            (ManometerKind::Electronic, _, Some(Self::LegUp | Self::LegDown)) => None,
            (_, _, found) => found,
        }
    }

    /// The instrument whose reading belongs into a field; `None` for fields that are not read.
    pub const fn of(field: Field) -> Option<Self> {
        Some(match field {
            Field::Up(_) | Field::CheckUp(_) => Self::LegUp,
            Field::Down(_) | Field::CheckDown(_) => Self::LegDown,
            Field::Chart(_)
            | Field::CheckChart(_)
            | Field::StartChart
            | Field::SecondFilterChart
            | Field::ThirdFilterChart
            | Field::EndChart => Self::Pen,
            Field::Pressure | Field::CheckPressure => Self::Barometer,
            Field::Temperature | Field::CheckTemperature => Self::Thermometer,
            Field::MeterBefore | Field::MeterAfter => Self::ElapsedTimeMeter,
            _ => return None,
        })
    }

    /// One division of its scale, in its unit.
    pub const fn division(self) -> f64 {
        match self {
            Self::LegUp | Self::LegDown => 0.1,
            // What a reading of it may be off costs as with a division this wide (CHOSEN: its last digit
            // is never quite still).
            Self::Display => 0.05,
            Self::Pen | Self::Barometer | Self::Thermometer | Self::ElapsedTimeMeter => 1.0,
        }
    }

    /// The unit of its scale.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::LegUp | Self::LegDown | Self::Display => "in",
            Self::Pen => "divisions",
            Self::Barometer => "mmHg",
            Self::Thermometer => "°C",
            Self::ElapsedTimeMeter => "min",
        }
    }

    /// The sights that show it.
    pub(crate) const fn sights(self) -> &'static [Sight] {
        match self {
            Self::LegUp => &[Sight::LeftLeg, Sight::Manometer],
            Self::LegDown => &[Sight::RightLeg, Sight::Manometer],
            Self::Pen => &[Sight::Pen, Sight::Recorder],
            Self::Barometer => &[Sight::Barometer],
            Self::Thermometer => &[Sight::Thermometer],
            Self::ElapsedTimeMeter => &[Sight::Timer],
            Self::Display => &[Sight::Display, Sight::Manometer],
        }
    }

    /// What a perfect reader sees. Legs are read from zero, both as positive numbers.
    pub(crate) const fn seen(self, facts: &GroundTruth) -> f64 {
        match self {
            Self::LegUp => facts.menisci_in[0].abs(),
            Self::LegDown => facts.menisci_in[1].abs(),
            Self::Pen => facts.pen,
            Self::Barometer => facts.barometer_mmhg,
            Self::Thermometer => facts.thermometer_c,
            Self::ElapsedTimeMeter => meter_min(facts),
            Self::Display => (facts.menisci_in[0] - facts.menisci_in[1]).abs(),
        }
    }

    /// What it would show without faults.
    pub(crate) const fn undisturbed(self, facts: &GroundTruth) -> f64 {
        match self {
            Self::LegUp => facts.undisturbed_menisci_in[0].abs(),
            Self::LegDown => facts.undisturbed_menisci_in[1].abs(),
            Self::Pen => facts.undisturbed_pen,
            Self::Barometer => facts.pressure_mmhg,
            Self::Thermometer => facts.temperature_c,
            Self::ElapsedTimeMeter => meter_min(facts),
            Self::Display => {
                (facts.undisturbed_menisci_in[0] - facts.undisturbed_menisci_in[1]).abs()
            }
        }
    }

    /// A written value for comparison: the sign of a leg is a matter of habit.
    pub(crate) const fn as_compared(self, written: f64) -> f64 {
        match self {
            Self::LegUp | Self::LegDown | Self::Display => written.abs(),
            _ => written,
        }
    }

    /// How far an eye above the level of what is read shifts the value that it sees. On the leg that
    /// went down, a shift upwards makes the reading smaller.
    pub(crate) fn parallax(self, eye_mm: f64) -> f64 {
        match self {
            Self::LegUp => parallax_in(eye_mm),
            Self::LegDown => -parallax_in(eye_mm),
            _ => 0.0,
        }
    }

    /// How far what it shows moves within a second. While the water moves, nobody can read it more
    /// precisely than that.
    pub(crate) const fn moves(self, facts: &GroundTruth) -> f64 {
        match self {
            Self::LegUp | Self::LegDown => facts.water_speed_in_s.abs(),
            Self::Display => match facts.display {
                Some(display) => display.unsettled_in,
                None => 0.0,
            },
            _ => 0.0,
        }
    }
}

/// The elapsed-time meter, min; zero where no run is ordered and there is none.
const fn meter_min(facts: &GroundTruth) -> f64 {
    match &facts.run {
        Some(run) => run.meter_min,
        None => 0.0,
    }
}
