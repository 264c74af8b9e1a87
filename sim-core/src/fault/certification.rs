//! Instruments whose own certification is out of date.

use super::declared::{Declared, Site};
use super::report::FaultPlace;
use super::report::Response::{Noted, Rejected};
use super::sheet::{Arises, Sheet};
use super::size::Size;

/// Days for which a certification holds: a year, even a leap year, as for the calibrator.
const YEAR_DAYS: f64 = 366.0;

/// An instrument of which nobody can say how right it is. It may be used if that is written down and it
/// is compared with a certified one afterwards, or the work waits.
const OVERDUE: Sheet = Sheet {
    arises: Arises::FromTheStart,
    right: &[Rejected, Noted],
    ..Sheet::of(FaultPlace::Barometer)
};

/// Days since an instrument was certified whose certification is past its year by so many.
const fn age_days(past: f64) -> f64 {
    YEAR_DAYS + past
}

fn past(days: f64) -> Option<Size> {
    Size::positive("days", days, 1.0..=700.0, "d")
}

pub(super) struct BarometerOutOfCertification {
    pub(super) days: f64,
}

impl Declared for BarometerOutOfCertification {
    const USUAL: Self = Self { days: 60.0 };
    const SHEET: Sheet = Sheet {
        title: "a barometer out of certification",
        in_short: "the barometer's certification is past its year by this much",
        cause: "The yearly comparison of the barometer was missed.",
        sign: "The sticker on its case bears a date of more than a year ago. Its reading may be right: \
               nobody can say.",
        check: "Read the sticker; compare the reading with a certified barometer before the data are \
                used.",
        ..OVERDUE
    };

    fn size(&self) -> Option<Size> {
        past(self.days)
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.barometer.certified_days = age_days(self.days);
    }
}

pub(super) struct ThermometerOutOfCertification {
    pub(super) days: f64,
}

impl Declared for ThermometerOutOfCertification {
    const USUAL: Self = Self { days: 60.0 };
    const SHEET: Sheet = Sheet {
        place: FaultPlace::Thermometer,
        title: "a thermometer out of certification",
        in_short: "the thermometer's certification is past its year by this much",
        cause: "The yearly comparison of the thermometer was missed.",
        sign: "The sticker on its stem bears a date of more than a year ago. Its reading may be right: \
               nobody can say.",
        check: "Read the sticker; compare the reading with a certified thermometer before the data are \
                used.",
        ..OVERDUE
    };

    fn size(&self) -> Option<Size> {
        past(self.days)
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.thermometer.certified_days = age_days(self.days);
    }
}
