//! The paper that a PDF is made for.

use std::fmt;
use std::str::FromStr;

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PaperSize {
    /// US Letter, 8.5 by 11 in.
    #[default]
    Letter,
    /// A4, 210 by 297 mm.
    A4,
}

impl PaperSize {
    /// Every size, by the names that a person types.
    pub const NAMES: [(&'static str, Self); 2] = [("letter", Self::Letter), ("a4", Self::A4)];

    /// Width and height, points (1/72 in).
    pub const fn points(self) -> (f64, f64) {
        match self {
            Self::Letter => (612.0, 792.0),
            Self::A4 => (595.28, 841.89),
        }
    }
}

impl fmt::Display for PaperSize {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let named = Self::NAMES.iter().find(|(_, size)| size == self);
        out.write_str(named.map_or("", |(name, _)| name))
    }
}

/// No size of paper has that name.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("there is no paper size `{0}`: choose letter or a4")]
pub struct UnknownPaper(String);

impl FromStr for PaperSize {
    type Err = UnknownPaper;

    fn from_str(name: &str) -> Result<Self, UnknownPaper> {
        let known = Self::NAMES.into_iter().find(|(known, _)| known.eq_ignore_ascii_case(name));
        known.map(|(_, size)| size).ok_or_else(|| UnknownPaper(name.to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::PaperSize;

    #[test]
    fn every_size_is_known_by_its_name() {
        for (name, size) in PaperSize::NAMES {
            assert_eq!(name.parse(), Ok(size));
            assert_eq!(name.to_uppercase().parse(), Ok(size));
            assert_eq!(size.to_string(), name);
        }
        let unknown = "legal".parse::<PaperSize>().map_err(|error| error.to_string());
        assert_eq!(unknown, Err("there is no paper size `legal`: choose letter or a4".to_owned()));
    }
}
