//! Names of the things on the roof, of where they can be, and of what they can be set to.

use serde::{Deserialize, Deserializer, Serialize};

use crate::digest::digest_names;
use crate::text::no_such_value;

/// A thing that is carried by hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename = "Part", rename_all = "snake_case")]
pub enum RigPart {
    /// The hold-down frame, which clamps the filter.
    Frame,
    /// The filter.
    Filter,
    /// The adapter plate, which takes the filter's place and carries the calibrator.
    Adapter,
    /// The orifice calibrator.
    Calibrator,
    /// The water manometer.
    Manometer,
}

impl RigPart {
    /// Every part, in a fixed order.
    pub const ALL: [Self; 5] =
        [Self::Frame, Self::Filter, Self::Adapter, Self::Calibrator, Self::Manometer];
}

impl RigPart {
    /// What people call it, without an article.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Frame => "hold-down frame",
            Self::Filter => "filter",
            Self::Adapter => "adapter plate",
            Self::Calibrator => "calibrator",
            Self::Manometer => "manometer",
        }
    }
}

/// Where a part is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename = "Place", rename_all = "snake_case")]
pub enum PartPlace {
    /// In the carrying case; the filter, in its envelope.
    Case,
    /// On the roof beside the stand.
    Ground,
    /// In the hand.
    Hand,
    /// On the filter holder.
    Holder,
    /// On the throat of the adapter plate.
    Adapter,
    /// On the manometer's hook at the shelter.
    Hook,
}

digest_names!(
    RigPart,
    PartPlace,
    Gasket,
    Leg,
    BlowerPlug,
    TimerSwitch,
    WasherSeat,
    OnOff,
    Exposure,
    BarometerReference,
    Grip,
    FilterSide,
    Seat,
    Trip,
    Nut,
    GaugeFluid,
    AirOpening,
    Stopper,
    LineCare
);

/// A gasket that can be missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Gasket {
    /// On the filter holder, under the hold-down frame or the adapter plate.
    Holder,
    /// Between the adapter plate and the calibrator.
    Calibrator,
}

/// One of the four nuts, numbered around the holder; 1 and 3 are opposite, and so are 2 and 4.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(into = "u8")]
pub struct Nut(u8);

impl Nut {
    /// The four nuts.
    pub const ALL: [Self; 4] = [Self(1), Self(2), Self(3), Self(4)];

    /// Its number, 1 to 4.
    pub const fn number(self) -> u8 {
        self.0
    }

    /// Its index in an array of four.
    pub const fn index(self) -> usize {
        self.0 as usize - 1
    }

    /// The nut at the opposite corner.
    pub const fn opposite(self) -> Self {
        Self((self.0 + 1) % 4 + 1)
    }
}

impl TryFrom<u8> for Nut {
    type Error = String;

    fn try_from(number: u8) -> Result<Self, String> {
        if (1..=4).contains(&number) {
            Ok(Self(number))
        } else {
            Err(format!("there is no nut {number}: the four nuts are 1, 2, 3 and 4"))
        }
    }
}

impl<'de> Deserialize<'de> for Nut {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        let number = u8::deserialize(reader)?;
        Self::try_from(number)
            .map_err(|_| no_such_value(&number.to_string(), "the number of a nut, from 1 to 4"))
    }
}

impl From<Nut> for u8 {
    fn from(nut: Nut) -> Self {
        nut.0
    }
}

/// A leg of the manometer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Leg {
    /// The leg that the tube pulls on: its water rises.
    Left,
    /// The leg open to the air: its water falls.
    Right,
}

/// Where the blower's plug is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BlowerPlug {
    /// In the flow controller's socket.
    Controller,
    /// In the switched mains outlet, directly on the mains.
    LineOutlet,
    /// Not plugged in.
    Loose,
}

/// The timer's switch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TimerSwitch {
    /// Always on.
    On,
    /// Always off.
    Off,
    /// Switched by the trippers.
    Auto,
}

/// Which side of the hold-down frame or adapter plate a washer is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WasherSeat {
    /// Between nut and frame, where it belongs.
    Above,
    /// Between frame and holder, where it causes a leak.
    Below,
}

/// On or off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OnOff {
    /// On.
    On,
    /// Off.
    Off,
}

/// Where the thermometer is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Exposure {
    /// In its shaded screen.
    Shade,
    /// In the sun.
    Sun,
}

/// What the barometer is set to show.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BarometerReference {
    /// The pressure at the station.
    Station,
    /// The pressure reduced to sea level, as forecasts give it.
    SeaLevel,
}

/// How the filter is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Grip {
    /// By two edges, with its face untouched.
    Edges,
    /// With a thumb on its face.
    Face,
}

/// Which side of the filter is up, or out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FilterSide {
    /// The rough side, which takes the dust.
    Rough,
    /// The smooth side.
    Smooth,
}

/// How the filter lies between holder and hold-down frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Seat {
    /// All four margins covered by the gasket.
    Centred,
    /// Shifted, so that air passes beside one edge.
    Shifted,
}

/// One of the timer's two trippers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Trip {
    /// The one that switches on.
    On,
    /// The one that switches off.
    Off,
}

/// What the manometer is filled with, as its label and the bottle say.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum GaugeFluid {
    /// Water. It freezes.
    Water,
    /// Antifreeze: propylene glycol in water, two parts to three. It is in the van.
    Antifreeze,
    /// A gauge oil blended to the density of water. A manometer comes filled with it; the van has
    /// none.
    GaugeOil,
}

impl GaugeFluid {
    /// Every fluid, in a fixed order.
    pub const ALL: [Self; 3] = [Self::Water, Self::Antifreeze, Self::GaugeOil];

    /// Its density divided by that of water, as printed on the bottle. A column of it, times this, is
    /// a column of water.
    ///
    /// Antifreeze 1.05 (CHOSEN: two parts of propylene glycol in three of water are 1.03 to 1.05
    /// between 20 degrees Celsius and -10, MEMORY); its change with temperature is taken as
    /// water's.
    pub const fn relative_density(self) -> f64 {
        match self {
            Self::Water | Self::GaugeOil => 1.0,
            Self::Antifreeze => 1.05,
        }
    }

    /// Whether it freezes in the winters of the bench. Such antifreeze stays liquid to -21 degrees
    /// Celsius (MEMORY) and is slush below, which still moves: it counts as liquid.
    pub const fn freezes(self) -> bool {
        matches!(self, Self::Water)
    }

    /// Whether a bottle of it is in the van.
    pub const fn is_in_van(self) -> bool {
        !matches!(self, Self::GaugeOil)
    }

    /// What people call it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Water => "water",
            Self::Antifreeze => "antifreeze",
            Self::GaugeOil => "gauge oil",
        }
    }
}

/// Where a hiss is heard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Hiss {
    /// Between the adapter plate and the calibrator.
    UnderCalibrator,
    /// Along the edge of the adapter plate or the hold-down frame.
    PlateEdge,
    /// At one nut (1 to 4).
    AtNut(u8),
}

/// An opening of the shelter through which the sampler breathes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AirOpening {
    /// The gap under the eaves of the lid.
    Inlet,
    /// The grill behind the exhaust orifice.
    Exhaust,
}

/// What can lie in an opening of the shelter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Stopper {
    /// A nest of wasps or birds.
    Nest,
    /// Snow that the wind has packed.
    Snow,
}

/// What can be done to the recorder's tubing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LineCare {
    /// Push it onto its fitting.
    PushOn,
    /// Smooth out a kink.
    Straighten,
    /// Shake the water out of it.
    Drain,
    /// Fit a new piece of tubing.
    Renew,
}
