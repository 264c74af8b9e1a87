//! Faults of an electronic manometer.

use super::declared::{Declared, Site};
use super::remedy::{PutRight, Remedy};
use super::report::FaultPlace;
use super::report::Response::{Corrected, Noted, Rejected, Repaired};
use super::sheet::{Arises, Sheet};
use super::size::Size;

/// The age that the label says if the calibration has expired, days (CHOSEN: a few months over a year).
const EXPIRED_DAYS: f64 = 490.0;

pub(super) struct DisplayBatteryLow {
    pub(super) minutes: f64,
}

impl Declared for DisplayBatteryLow {
    const USUAL: Self = Self { minutes: 24.0 };
    const SHEET: Sheet = Sheet {
        title: "a low battery in the electronic manometer",
        right: &[Repaired, Rejected],
        in_short: "the battery of the electronic manometer has so many minutes left",
        cause: "The battery was not changed in time.",
        sign: "The low-battery sign is on. Readings sink as the battery runs down, and in the end the \
               display goes dark.",
        check: "Look at the display; with a fresh battery the sign is gone and the reading is back.",
        put_right: PutRight::BatteryChanged,
        remedy: Remedy::FreshBattery,
        ..Sheet::of(FaultPlace::Manometer)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("minutes", self.minutes, 2.0..=29.0, "min")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.electronic.drain_battery_to(self.minutes / 60.0);
    }
}

pub(super) struct DisplayZeroDrifts {
    pub(super) in_h: f64,
}

impl Declared for DisplayZeroDrifts {
    const USUAL: Self = Self { in_h: 1.5 };
    const SHEET: Sheet = Sheet {
        arises: Arises::ComesAndGoes,
        title: "a drifting zero of the electronic manometer",
        right: &[Corrected, Rejected],
        in_short: "the zero of the electronic manometer drifts: inches of water an hour",
        cause: "The sensor is damp or worn, and its zero wanders while it is on.",
        sign: "With the tube off, the display no longer shows zero a few minutes after it was zeroed.",
        check: "Pull the tube off before each point and look. Zeroed again each time, its readings are \
                right.",
        ..Sheet::of(FaultPlace::Manometer)
    };

    fn size(&self) -> Option<Size> {
        Size::either_sign("in_h", self.in_h, 1.2..=3.0, "inH2O an hour")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.electronic.parameters.drift_in_h = self.in_h;
    }

    fn end(&self, site: &mut Site<'_>) {
        site.rig.electronic.parameters.drift_in_h = 0.0;
    }
}

pub(super) struct DisplayCalibrationExpired {
    pub(super) span_pct: f64,
}

impl Declared for DisplayCalibrationExpired {
    const USUAL: Self = Self { span_pct: 3.0 };
    const SHEET: Sheet = Sheet {
        arises: Arises::FromTheStart,
        title: "an electronic manometer out of calibration",
        right: &[Rejected, Noted],
        in_short: "the electronic manometer was calibrated more than a year ago: error of its span",
        cause: "The yearly calibration was missed, and the span of the sensor has wandered.",
        sign: "The label on its back gives a date more than a year ago.",
        check: "Read the date on the label. How far its readings are off cannot be told on the roof.",
        ..Sheet::of(FaultPlace::Manometer)
    };

    fn size(&self) -> Option<Size> {
        Size::either_sign("span_pct", self.span_pct, 1.0..=8.0, "percent")
    }

    fn begin(&self, site: &mut Site<'_>) {
        let parameters = &mut site.rig.electronic.parameters;
        parameters.label_days = EXPIRED_DAYS;
        parameters.span_pct += self.span_pct;
    }
}
