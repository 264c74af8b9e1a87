//! What the slots of a pattern caught.

use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::flow::plates::Plate;
use sim_core::rig::parts::{
    BlowerPlug, FilterSide, Gasket, GaugeFluid, Grip, Leg, Nut, PartPlace, RigPart, TimerSwitch,
};
use sim_core::session::action::{
    BarometerReference, ChecklistItem, Exposure, FaultPlace, HelpTopic, OnOff, Response, Sight,
    WasherSeat,
};

use super::entries::Entries;
use super::sentence::unquoted;
use super::trouble::{Trouble, but};
use super::vocabulary::PointField;
use crate::topic::Topic;

macro_rules! values {
    ($($(#[$doc:meta])* $variant:ident / $getter:ident: $type:ty),+ $(,)?) => {
        /// A value that a slot caught.
        #[derive(Debug, Clone)]
        pub(crate) enum Value {
            $($(#[$doc])* $variant($type),)+
        }

        impl Caught {
            $(
                $(#[$doc])*
                pub fn $getter(&self) -> Result<$type, Trouble> {
                    self.values
                        .iter()
                        .find_map(|value| match value {
                            Value::$variant(value) => Some(value.clone()),
                            _ => None,
                        })
                        .ok_or(Trouble::Misfit)
                }
            )+
        }
    };
}

values! {
    /// A number or a measured quantity in the unit of its slot.
    Number / number: f64,
    /// Free text as typed, quotation marks and all.
    Text / text: String,
    /// Plus or minus one, from a direction.
    Sense / sense: f64,
    /// A leg.
    Leg / leg: Leg,
    /// A part.
    Part / part: RigPart,
    /// A place.
    Place / place: PartPlace,
    /// A gasket.
    Gasket / gasket: Gasket,
    /// A side of the plate.
    Seat / seat: WasherSeat,
    /// A sight.
    Sight / sight: Sight,
    /// On or off.
    OnOff / on_off: OnOff,
    /// A setting of the timer.
    Timer / timer: TimerSwitch,
    /// Where the blower's plug goes.
    Plug / plug: BlowerPlug,
    /// What the manometer is filled with.
    Fluid / fluid: GaugeFluid,
    /// Shade or sun.
    Exposure / exposure: Exposure,
    /// What the barometer shows.
    Reference / reference: BarometerReference,
    /// What is asked.
    Ask / ask: HelpTopic,
    /// Where a fault sits.
    FaultPlace / fault_place: FaultPlace,
    /// What was done about it.
    Response / response: Response,
    /// A field of the book.
    Field / field: Field,
    /// A field of a point.
    PointField / point_field: PointField,
    /// How the filter is held.
    Grip / grip: Grip,
    /// A side of the filter.
    Side / side: FilterSide,
    /// A day of the week, 0 (Monday) to 6.
    Weekday / weekday: u8,
    /// An item of the checklist.
    ChecklistItem / checklist_item: ChecklistItem,
    /// A topic of the help.
    Topic / topic: Topic,
    /// Entries of the field book.
    Entries / entries: Entries,
}

/// What a pattern caught, in order.
#[derive(Debug, Clone)]
pub(crate) struct Caught {
    /// The values.
    pub values: Vec<Value>,
}

impl Caught {
    /// Every text, in order.
    pub fn texts(&self) -> impl Iterator<Item = &str> {
        self.values.iter().filter_map(|value| match value {
            Value::Text(text) => Some(text.as_str()),
            _ => None,
        })
    }

    /// The first text without its quotation marks.
    pub fn said(&self) -> Result<String, Trouble> {
        self.text().map(|text| unquoted(&text).to_owned())
    }

    /// The number as a small whole one.
    fn whole(&self, what: &str) -> Result<u8, Trouble> {
        let number = self.number()?;
        let fits = number.fract() == 0.0 && (0.0..=255.0).contains(&number);
        if fits { Ok(number as u8) } else { but(format!("there is no {what} {number}")) }
    }

    /// The number as that of a nut.
    pub fn nut(&self) -> Result<Nut, Trouble> {
        Nut::try_from(self.whole("nut")?).or_else(but)
    }

    /// The number as the number of holes of a plate.
    pub fn plate(&self) -> Result<Plate, Trouble> {
        Plate::try_from(self.whole("plate")?).or_else(but)
    }

    /// The number as that of a point.
    pub fn point(&self) -> Result<PointNumber, Trouble> {
        PointNumber::try_from(self.whole("point")?).or_else(but)
    }

    /// The number as that of a certificate in the box, counted from 1.
    pub fn certificate(&self) -> Result<Sight, Trouble> {
        let number = self.number()?;
        let fits = number.fract() == 0.0 && (1.0..=256.0).contains(&number);
        if !fits {
            return but(format!("there is no certificate {number}: the first one is 1"));
        }
        Ok(Sight::Certificate((number - 1.0) as u8))
    }

    /// The last number as whole quarter turns, in the sense of `sense` (1 or -1).
    /// `most` is as far as one sentence can turn the thing.
    pub fn quarters(&self, sense: f64, most: u8) -> Result<i8, Trouble> {
        let number = self.values.iter().rev().find_map(|value| match value {
            Value::Number(number) => Some(*number),
            _ => None,
        });
        let number = sense * number.ok_or(Trouble::Misfit)?;
        if number.fract() != 0.0 {
            return but("turn by whole quarter turns, such as `by 2 quarter turns` or `by 1 turn`");
        }
        if !(-128.0..=127.0).contains(&number) {
            let quarters = number.abs();
            return but(format!("{quarters} quarter turns is too far: turn by {most} at most"));
        }
        Ok(number as i8)
    }
}
