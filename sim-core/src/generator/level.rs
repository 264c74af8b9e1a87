//! How hard a drawn rig is.

/// How hard a drawn rig is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// A calibration near sea level in mild weather, with at most one plain fault.
    One,
    /// Any site and order, with at most one fault.
    Two,
    /// Any site, order and instruments, with up to two faults.
    Three,
}

/// A level that does not exist.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("there is no level `{}`: write 1, 2 or 3", crate::text::printable(.0))]
pub struct LevelError(pub String);

impl Level {
    /// Every level, the easiest first.
    pub const ALL: [Self; 3] = [Self::One, Self::Two, Self::Three];

    /// Its number.
    pub const fn number(self) -> u8 {
        match self {
            Self::One => 1,
            Self::Two => 2,
            Self::Three => 3,
        }
    }

    /// How many faults there are at most.
    pub const fn most_faults(self) -> usize {
        match self {
            Self::One | Self::Two => 1,
            Self::Three => 2,
        }
    }
}

impl std::str::FromStr for Level {
    type Err = LevelError;

    fn from_str(text: &str) -> Result<Self, LevelError> {
        let known = Self::ALL.into_iter().find(|level| level.number().to_string() == text.trim());
        known.ok_or_else(|| LevelError(text.to_owned()))
    }
}

/// The title of a drawn rig, which tells nothing but the level.
pub(super) fn title(level: Level) -> String {
    format!("A rig you have never seen, level {}", level.number())
}

/// The situation of a drawn rig: only how hard it is.
pub(super) const fn situation(level: Level) -> &'static str {
    match level {
        Level::One => {
            "Level 1 of 3: a plain job on a site of which you know nothing yet. At most one thing is wrong with it."
        }
        Level::Two => {
            "Level 2 of 3: any site, any weather, any of several orders. At most one thing is wrong with it."
        }
        Level::Three => {
            "Level 3 of 3: any site, order and instruments. Nothing, one thing or two may be wrong with it."
        }
    }
}
