//! The plates of a calibrator with fixed plates: each has its number of holes, and the one that lies in
//! the calibrator decides the flow.

use serde::{Deserialize, Deserializer, Serialize};

use crate::digest::digest_names;
use crate::text::no_such_value;

/// Holes of the widest plate.
const MOST_HOLES: u8 = 18;

/// A plate, named by its number of holes.
///
/// The holes of all plates are equal (CHOSEN: 7.70 mm, which gives the plate with 18 holes the area of
/// the openings under a knob, 5.2e-4 m2 with a coefficient of 0.62), so that the open areas are as the
/// numbers of holes. The numbers 18, 13, 10, 7 and 5 are those of common sets (common practice).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(into = "u8")]
pub struct Plate(u8);

digest_names!(Plate);

impl Plate {
    /// The five plates of the set, the widest first.
    pub const ALL: [Self; 5] = [Self(MOST_HOLES), Self(13), Self(10), Self(7), Self(5)];

    /// The plate with most holes: it gives the highest flow.
    pub const WIDEST: Self = Self(MOST_HOLES);

    /// Its number of holes.
    pub const fn holes(self) -> u8 {
        self.0
    }

    /// Its open area divided by that of the widest plate.
    pub fn open_share(self) -> f64 {
        f64::from(self.0) / f64::from(MOST_HOLES)
    }

    /// The plate whose open area is nearest to this share of the widest one's.
    pub fn nearest(share: f64) -> Self {
        let off = |plate: &Self| (plate.open_share() - share).abs();
        Self::ALL
            .into_iter()
            .min_by(|one, other| off(one).total_cmp(&off(other)))
            .unwrap_or(Self::WIDEST)
    }
}

impl TryFrom<u8> for Plate {
    type Error = String;

    fn try_from(holes: u8) -> Result<Self, String> {
        Self::ALL.into_iter().find(|plate| plate.0 == holes).ok_or_else(|| {
            format!(
                "there is no plate with {holes} holes: the plates have 18, 13, 10, 7 and 5 holes"
            )
        })
    }
}

impl<'de> Deserialize<'de> for Plate {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        let holes = u8::deserialize(reader)?;
        Self::try_from(holes).map_err(|_| {
            no_such_value(&holes.to_string(), "the number of holes of a plate: 18, 13, 10, 7 or 5")
        })
    }
}

impl From<Plate> for u8 {
    fn from(plate: Plate) -> Self {
        plate.0
    }
}

#[cfg(test)]
mod tests {
    use super::Plate;

    #[test]
    fn plates_are_named_by_their_holes() {
        for plate in Plate::ALL {
            assert_eq!(Plate::try_from(plate.holes()), Ok(plate));
            assert_eq!(Plate::nearest(plate.open_share() + 0.02), plate);
        }
        assert!(Plate::try_from(12).unwrap_err().contains("18, 13, 10, 7 and 5"));
        assert!((Plate::WIDEST.open_share() - 1.0).abs() < 1e-12);
    }
}
