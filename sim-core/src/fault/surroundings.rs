//! Faults of barometer and thermometer, and trouble with the weather.

use super::declared::{Declared, Site};
use super::remedy::{AllowedFor, PutRight, Remedy};
use super::report::FaultPlace;
use super::report::Response::{Corrected, Noted, Rejected, Repaired};
use super::sheet::{Arises, Noticed, Sheet};
use super::size::Size;
use crate::rig::parts::{BarometerReference, Exposure};

pub(super) struct BarometerAtSeaLevel;

impl Declared for BarometerAtSeaLevel {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        arises: Arises::FromTheStart,
        title: "a barometer set to sea level",
        right: &[Repaired, Corrected],
        in_short: "the barometer is set to sea level; needs a station at 100 m or higher",
        cause: "The barometer was set to show the pressure at sea level, as weather forecasts give it.",
        sign: "Its index mark says so, and above 100 m it reads higher than the air at that elevation \
               can be.",
        check: "Look at the index mark, and compare the reading with the standard atmosphere at the \
                station's elevation.",
        put_right: PutRight::BarometerAtStation,
        allowed_for: AllowedFor::InPressure,
        remedy: Remedy::StationPressure,
        contradicts: &["BarometerOff"],
        ..Sheet::of(FaultPlace::Barometer)
    };

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.barometer.set(BarometerReference::SeaLevel);
    }
}

pub(super) struct BarometerOff {
    pub(super) mmhg: f64,
}

impl Declared for BarometerOff {
    const USUAL: Self = Self { mmhg: 6.0 };
    const SHEET: Sheet = Sheet {
        title: "a barometer that reads wrong",
        right: &[Corrected, Rejected, Noted],
        in_short: "the barometer reads high by this much (below zero: low)",
        cause: "The capsule has aged, or a knock has moved the pointer.",
        sign: "None by itself: the weather moves the pressure by more than this. An error of 6 mmHg \
               changes a flow by 0.4 %.",
        check: "Compare it with a second barometer, which nobody carries up to a roof.",
        noticed: Noticed::Never(
            "the only other figure at hand is the standard atmosphere, and the weather moves the \
             pressure by up to 25 mmHg about it",
        ),
        allowed_for: AllowedFor::InPressure,
        ..Sheet::of(FaultPlace::Barometer)
    };

    fn size(&self) -> Option<Size> {
        Size::either_sign("mmhg", self.mmhg, 1.0..=20.0, "mmHg")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.barometer.offset_mmhg += self.mmhg;
    }
}

pub(super) struct ThermometerInSun {
    pub(super) by_k: f64,
}

impl Declared for ThermometerInSun {
    const USUAL: Self = Self { by_k: 6.0 };
    const SHEET: Sheet = Sheet {
        title: "a thermometer in the sun",
        right: &[Repaired],
        in_short: "the thermometer was left in the sun and reads high by this much",
        cause: "The thermometer was left where the sun shines on it.",
        sign: "It is in the sun, and its reading falls once it is moved into the shade.",
        check: "Move it into the shaded screen and wait until the reading is steady.",
        put_right: PutRight::ThermometerShaded,
        remedy: Remedy::ShadeTemperature,
        ..Sheet::of(FaultPlace::Thermometer)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("by_k", self.by_k, 1.0..=20.0, "K")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.parameters.sun_k = self.by_k;
        site.rig.thermometer.place(Exposure::Sun);
    }
}

pub(super) struct Gusts {
    pub(super) sd_pa: f64,
}

impl Declared for Gusts {
    const USUAL: Self = Self { sd_pa: 20.0 };
    const SHEET: Sheet = Sheet {
        arises: Arises::ComesAndGoes,
        title: "gusts at the open leg",
        right: &[Noted, Corrected],
        in_short: "gusts press on the open leg: standard deviation",
        cause: "Wind blowing across the open end changes the pressure on the right leg.",
        sign: "You feel the wind, and the column swings while the pen is steady.",
        check: "Shelter the open end, or read the middle of the swing several times.",
        ..Sheet::of(FaultPlace::Weather)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("sd_pa", self.sd_pa, 5.0..=60.0, "Pa")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.station.set_gusts(site.seed, self.sd_pa);
    }

    fn end(&self, site: &mut Site<'_>) {
        site.station.calm_gusts();
    }
}

pub(super) struct FastWeather {
    pub(super) k_h: f64,
}

impl Declared for FastWeather {
    const USUAL: Self = Self { k_h: -10.0 };
    const SHEET: Sheet = Sheet {
        arises: Arises::ComesAndGoes,
        title: "fast-changing weather",
        right: &[Noted, Corrected],
        in_short: "a front passes: change of the temperature; the pressure changes the other way",
        cause: "A front passes: the air cools or warms within the hour, and the pressure moves the \
                other way by 0.4 mmHg for each kelvin.",
        sign: "The thermometer in the shade reads differently after the points than before them.",
        check: "Read thermometer and barometer again after the last point, and calculate with the \
                middle of the two readings.",
        ..Sheet::of(FaultPlace::Weather)
    };

    fn size(&self) -> Option<Size> {
        Size::either_sign("k_h", self.k_h, 6.0..=20.0, "K/h")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.station.set_front(self.k_h);
    }

    fn end(&self, site: &mut Site<'_>) {
        site.station.set_front(0.0);
    }
}
