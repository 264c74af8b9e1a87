//! Typical slips, from which a wrong answer follows.

use serde::{Deserialize, Serialize};

/// A typical slip, known by the answer to which it leads.
///
/// The names in journals and JSON are stable.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(into = "&'static str", try_from = "String")]
pub enum DrillSlip {
    /// The eye was not level with what was read.
    EyeHeight,
    /// The upper rim of the meniscus was read instead of its bottom.
    UpperRim,
    /// The neighbouring division was read.
    NeighbouringDivision,
    /// The divisions were counted from the wrong number.
    WrongNumber,
    /// The divisions were counted from the right number in the wrong direction.
    WrongDirection,
    /// The sign was left out, or put where there is none.
    Sign,
    /// One leg was read, and the other left out.
    OneLeg,
    /// One leg was read and doubled.
    OneLegDoubled,
    /// The fall was subtracted from the rise instead of added to it.
    LegsSubtracted,
    /// The pressure reduced to sea level was read.
    SeaLevel,
    /// Every mark was taken for a whole degree.
    HalfTakenForWhole,
    /// Only the first hour of the chart was read.
    FirstHour,
    /// Only the last hour of the chart was read.
    LastHour,
    /// The middle between the highest and the lowest reading was taken for the mean.
    MiddleOfExtremes,
    /// Hours without a trace were counted as zero.
    EmptyHours,
    /// The drum for tenths was read as a whole minute.
    TenthsAsMinutes,
    /// The tenths were left out.
    TenthsLeftOut,
    /// Two neighbouring digits were exchanged.
    DigitsExchanged,
    /// What still moved was taken for at rest.
    TooSoon,
    /// What was at rest was taken for moving.
    TooLate,
    /// A certificate of another calibrator.
    OtherCalibrator,
    /// A certificate that is older than a year.
    Expired,
    /// A certificate that is dated in the future.
    DatedAhead,
    /// A copy that does not agree with its original.
    FaultyCopy,
    /// Nothing is wrong, and something was named.
    FalseAlarm,
    /// Something is wrong, and nothing was named.
    Missed,
    /// Something is wrong, and another part was named.
    WrongPart,
    /// Degrees Celsius were used instead of kelvin.
    Celsius,
    /// The correction for pressure and temperature was left out.
    NoAirCorrection,
    /// The ratio of the pressures or of the temperatures was turned over.
    RatioInverted,
    /// The square root was left out.
    RootLeftOut,
    /// The intercept was left out.
    InterceptLeftOut,
    /// The intercept was added instead of subtracted.
    InterceptAdded,
    /// The pair of the certificate for actual conditions was used.
    ActualPair,
}

impl DrillSlip {
    /// All of them.
    pub const ALL: [Self; 34] = [
        Self::EyeHeight,
        Self::UpperRim,
        Self::NeighbouringDivision,
        Self::WrongNumber,
        Self::WrongDirection,
        Self::Sign,
        Self::OneLeg,
        Self::OneLegDoubled,
        Self::LegsSubtracted,
        Self::SeaLevel,
        Self::HalfTakenForWhole,
        Self::FirstHour,
        Self::LastHour,
        Self::MiddleOfExtremes,
        Self::EmptyHours,
        Self::TenthsAsMinutes,
        Self::TenthsLeftOut,
        Self::DigitsExchanged,
        Self::TooSoon,
        Self::TooLate,
        Self::OtherCalibrator,
        Self::Expired,
        Self::DatedAhead,
        Self::FaultyCopy,
        Self::FalseAlarm,
        Self::Missed,
        Self::WrongPart,
        Self::Celsius,
        Self::NoAirCorrection,
        Self::RatioInverted,
        Self::RootLeftOut,
        Self::InterceptLeftOut,
        Self::InterceptAdded,
        Self::ActualPair,
    ];

    /// Its name in journals and JSON.
    pub const fn name(self) -> &'static str {
        match self {
            Self::EyeHeight => "eye-height",
            Self::UpperRim => "upper-rim",
            Self::NeighbouringDivision => "neighbouring-division",
            Self::WrongNumber => "wrong-number",
            Self::WrongDirection => "wrong-direction",
            Self::Sign => "sign",
            Self::OneLeg => "one-leg",
            Self::OneLegDoubled => "one-leg-doubled",
            Self::LegsSubtracted => "legs-subtracted",
            Self::SeaLevel => "sea-level",
            Self::HalfTakenForWhole => "half-taken-for-whole",
            Self::FirstHour => "first-hour",
            Self::LastHour => "last-hour",
            Self::MiddleOfExtremes => "middle-of-extremes",
            Self::EmptyHours => "empty-hours",
            Self::TenthsAsMinutes => "tenths-as-minutes",
            Self::TenthsLeftOut => "tenths-left-out",
            Self::DigitsExchanged => "digits-exchanged",
            Self::TooSoon => "too-soon",
            Self::TooLate => "too-late",
            Self::OtherCalibrator => "other-calibrator",
            Self::Expired => "expired",
            Self::DatedAhead => "dated-ahead",
            Self::FaultyCopy => "faulty-copy",
            Self::FalseAlarm => "false-alarm",
            Self::Missed => "missed",
            Self::WrongPart => "wrong-part",
            Self::Celsius => "celsius",
            Self::NoAirCorrection => "no-air-correction",
            Self::RatioInverted => "ratio-inverted",
            Self::RootLeftOut => "root-left-out",
            Self::InterceptLeftOut => "intercept-left-out",
            Self::InterceptAdded => "intercept-added",
            Self::ActualPair => "actual-pair",
        }
    }

    /// What was probably done, as a sentence without its full stop, and what to do instead.
    pub const fn words(self) -> &'static str {
        match self {
            Self::EyeHeight => {
                "that is what an eye sees that is not level with it: bring your eye level first"
            }
            Self::UpperRim => {
                "that is the upper rim of the meniscus: read the bottom of the meniscus"
            }
            Self::NeighbouringDivision => "that is one division beside it: count the marks again",
            Self::WrongNumber => "you counted the divisions from the wrong number",
            Self::WrongDirection => {
                "you counted from the right number in the wrong direction: look where the numbers grow"
            }
            Self::Sign => "the sign is wrong: look on which side of zero it is",
            Self::OneLeg => "that is one leg alone: add the fall of the other",
            Self::OneLegDoubled => {
                "that is one leg doubled: the legs are not alike, so read both and add them"
            }
            Self::LegsSubtracted => {
                "you subtracted the legs: add the rise of one to the fall of the other"
            }
            Self::SeaLevel => {
                "that is the pressure reduced to sea level: set the index to station pressure first"
            }
            Self::HalfTakenForWhole => {
                "you took every mark for a whole degree: the marks are half a degree apart"
            }
            Self::FirstHour => "that is the first hour alone: the mean is over the whole trace",
            Self::LastHour => "that is the last hour alone: the mean is over the whole trace",
            Self::MiddleOfExtremes => {
                "that is the middle between the highest and the lowest reading: each hour counts alike"
            }
            Self::EmptyHours => {
                "you counted hours without a trace as zero: divide by the hours that have one"
            }
            Self::TenthsAsMinutes => {
                "you read the last drum as whole minutes: it shows tenths of a minute"
            }
            Self::TenthsLeftOut => "you left out the last drum: it shows tenths of a minute",
            Self::DigitsExchanged => "two neighbouring digits are exchanged",
            Self::TooSoon => "it still moved: wait until two looks some seconds apart agree",
            Self::TooLate => {
                "it was at rest: what remains is less than can be read, and waiting gains nothing"
            }
            Self::OtherCalibrator => {
                "that certificate is for another calibrator: compare the serial number with the plate"
            }
            Self::Expired => "that certificate is older than a year",
            Self::DatedAhead => "that certificate is dated in the future",
            Self::FaultyCopy => {
                "that is a copy, and it does not agree with the original: use the original"
            }
            Self::FalseAlarm => "nothing is wrong: a false alarm stops good work",
            Self::Missed => "you missed it",
            Self::WrongPart => "that is in order, and something else is not",
            Self::Celsius => {
                "you used degrees Celsius: add 273 first, because the ratio is one of kelvins"
            }
            Self::NoAirCorrection => "you left out the correction for pressure and temperature",
            Self::RatioInverted => {
                "you turned a ratio over: pressure goes over 760 mmHg, and 298 K over the temperature"
            }
            Self::RootLeftOut => "you left out the square root",
            Self::InterceptLeftOut => "you left out the intercept of the certificate",
            Self::InterceptAdded => "you added the intercept: subtract it before you divide",
            Self::ActualPair => {
                "you used the pair for actual conditions: use the one for standard conditions"
            }
        }
    }
}

impl From<DrillSlip> for &'static str {
    fn from(slip: DrillSlip) -> Self {
        slip.name()
    }
}

impl TryFrom<String> for DrillSlip {
    type Error = String;

    fn try_from(name: String) -> Result<Self, Self::Error> {
        let found = Self::ALL.into_iter().find(|slip| slip.name() == name);
        found.ok_or_else(|| format!("there is no slip called `{}`", crate::text::printable(&name)))
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::DrillSlip;

    #[test]
    fn a_slip_is_found_by_the_name_that_a_journal_has() {
        let mut names = BTreeSet::new();
        for slip in DrillSlip::ALL {
            let written = ron::to_string(&slip).expect("a name");
            assert_eq!(ron::from_str(&written), Ok(slip));
            assert!(names.insert(slip.name()), "{slip:?} has the name of another");
            assert!(!slip.words().ends_with('.'), "{slip:?}");
        }
        assert!(DrillSlip::try_from("none".to_owned()).is_err());
    }
}
