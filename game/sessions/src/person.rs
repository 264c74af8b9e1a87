//! The name by which a person's sessions are kept apart, where several people share a bench. Nothing else
//! about a person is kept.

use std::fmt;
use std::path::{Path, PathBuf};

use crate::clock::wall_clock_s;
use crate::error::FrontEndError;
use crate::folders::data_folder;

/// The longest name, characters (CHOSEN).
const LONGEST: usize = 40;

/// A name that a person chose. It is no path: its folder is made from it, by its letters alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PersonName(String);

/// Why a text is not taken as a name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum PersonNameError {
    /// There is nothing in it, or it does not begin with a letter.
    #[error("a name begins with a letter: choose one such as Ann or Ann B")]
    NoLetter,
    /// It is too long.
    #[error("a name has at most {LONGEST} characters: choose a shorter one")]
    TooLong,
    /// It has a character that names here do not have.
    #[error(
        "a name has letters, digits, single spaces, hyphens and apostrophes: leave out anything else"
    )]
    Character,
}

impl PersonName {
    /// The name in a text, spaces around it left out.
    ///
    /// # Errors
    ///
    /// When it is empty, too long, or has a character that could be taken for part of a path.
    pub fn read(text: &str) -> Result<Self, PersonNameError> {
        let name = text.trim();
        if name.chars().count() > LONGEST {
            return Err(PersonNameError::TooLong);
        }
        if !name.starts_with(char::is_alphabetic) {
            return Err(PersonNameError::NoLetter);
        }
        let fits = |c: char| c.is_alphanumeric() || matches!(c, ' ' | '-' | '\'');
        if !name.chars().all(fits) || name.contains("  ") {
            return Err(PersonNameError::Character);
        }
        Ok(Self(name.to_owned()))
    }

    /// The name of the person's folder: the same for `Ann B` and `ann b`, because some systems do not tell
    /// capitals apart. With what stands before it, it is no name that a system keeps for itself.
    pub fn folder_name(&self) -> String {
        let letters = self.0.to_lowercase().replace([' ', '\''], "_");
        format!("person-{letters}")
    }

    /// The folder in which the person's journals are kept on this machine.
    ///
    /// # Errors
    ///
    /// When this machine has no usual folder for data.
    pub fn folder(&self) -> Result<PathBuf, FrontEndError> {
        let data = data_folder().ok_or_else(|| {
            FrontEndError::Wrong(
                "this machine has no usual folder for data: leave the name out, and give folders yourself"
                    .to_owned(),
            )
        })?;
        Ok(data.join("people").join(self.folder_name()))
    }

    /// A path for a new journal of the person, named after the scenario and the second. Its folder is made.
    ///
    /// # Errors
    ///
    /// When the folder cannot be made, or there is no usual one.
    pub fn new_journal(&self, scenario: &Path) -> Result<PathBuf, FrontEndError> {
        let folder = self.folder()?;
        std::fs::create_dir_all(&folder)
            .map_err(|error| FrontEndError::file("create", &folder, &error))?;
        let name = scenario.file_stem().unwrap_or_default().to_string_lossy();
        let second = wall_clock_s();
        // Two sessions that begin in the same second get two names.
        let paths =
            (0..20).map(|attempt| folder.join(format!("{name}-{second}-{attempt}.journal")));
        let free = paths.into_iter().find(|path| !path.exists());
        free.ok_or_else(|| {
            FrontEndError::Wrong("too many sessions begin in this second: try again".to_owned())
        })
    }
}

impl fmt::Display for PersonName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::str::FromStr for PersonName {
    type Err = PersonNameError;

    fn from_str(text: &str) -> Result<Self, PersonNameError> {
        Self::read(text)
    }
}

#[cfg(test)]
mod tests {
    use super::{PersonName, PersonNameError};

    #[test]
    fn a_name_is_a_name_and_its_folder_is_made_of_its_letters() {
        for (text, folder) in [
            ("Ann", "person-ann"),
            ("  ann B ", "person-ann_b"),
            ("Zoë O'Neil-2", "person-zoë_o_neil-2"),
            ("CON", "person-con"),
        ] {
            assert_eq!(
                PersonName::read(text).map(|name| name.folder_name()),
                Ok(folder.to_owned())
            );
        }
    }

    #[test]
    fn what_could_lead_elsewhere_is_no_name() {
        use PersonNameError::{Character, NoLetter, TooLong};
        for (text, error) in [
            ("", NoLetter),
            ("..", NoLetter),
            ("/etc", NoLetter),
            ("1", NoLetter),
            ("a/b", Character),
            ("a\\b", Character),
            ("a..b", Character),
            ("a:b", Character),
            ("a\u{1b}[2J", Character),
            ("a\u{202e}b", Character),
            ("a  b", Character),
            ("a\0", Character),
        ] {
            assert_eq!(PersonName::read(text), Err(error), "{text:?}");
        }
        assert_eq!(PersonName::read(&"a".repeat(41)), Err(TooLong));
    }
}
