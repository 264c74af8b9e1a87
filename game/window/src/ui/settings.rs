//! What a person has set: size of text, units, contrast, motion. Kept in the system's folder for such
//! things; a bench that cannot keep them says so and goes on.

use bevy::prelude::*;
use content::units::Units;
use serde::{Deserialize, Serialize};
use sessions::{KeptText, Storage};

/// The contrast of the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Contrast {
    /// Ink on paper.
    #[default]
    Normal,
    /// Black on white.
    High,
}

/// How much moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Motion {
    /// As on the roof.
    #[default]
    Full,
    /// Only what is read: water, pen, pointers.
    Reduced,
}

/// Whose ways the bench speaks of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Hints {
    /// Which keys do what.
    #[default]
    Keyboard,
    /// What clicking, dragging and the wheel do; a field that is gone to brings keys to point at.
    Pointer,
}

/// Whether sound is built in: where the system brings all that it needs, and elsewhere on request.
pub const HAS_SOUND: bool = cfg!(any(feature = "sound", windows, target_os = "macos"));

/// Everything that can be set.
#[derive(Resource, Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Settings {
    /// Size of text, percent (100 to 200).
    pub text_percent: u16,
    /// Units in which the program itself speaks; instruments and the book keep theirs.
    pub units: Units,
    /// Contrast.
    pub contrast: Contrast,
    /// Motion.
    pub motion: Motion,
    /// Hints for the keyboard or for the pointer.
    pub hints: Hints,
    /// Whether the bench is heard, where sound is built in.
    pub sound: bool,
    /// Whether what is looked at is read out in words, where the scenario allows it.
    pub readings_in_words: bool,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            text_percent: 100,
            units: Units::default(),
            contrast: Contrast::default(),
            motion: Motion::default(),
            hints: Hints::default(),
            sound: false,
            readings_in_words: false,
        }
    }
}

impl Settings {
    /// Size of text as a factor.
    pub fn text_scale(&self) -> f32 {
        f32::from(self.text_percent.clamp(100, 200)) / 100.0
    }
}

/// What went wrong with keeping the settings, if anything did.
#[derive(Resource, Debug, Clone, Default)]
pub struct Kept {
    /// What is to be said about it.
    pub trouble: Option<String>,
}

/// Reads the settings; whatever is wrong with them, there are settings to go on with.
pub fn read(storage: &dyn Storage) -> (Settings, Kept) {
    let usual = |trouble: Option<String>| (Settings::default(), Kept { trouble });
    let (name, text) = match storage.settings() {
        Ok(KeptText { name, text: Some(text) }) => (name, text),
        Ok(KeptText { text: None, .. }) => return usual(None),
        Err(error) => return usual(Some(format!("{error}: the usual settings are in force"))),
    };
    match ron::from_str::<Settings>(&text) {
        Ok(settings) if (100..=200).contains(&settings.text_percent) => (settings, Kept::default()),
        Ok(settings) => {
            let percent = settings.text_percent;
            usual(Some(format!(
                "{name}: text at {percent} % is out of range, 100 to 200; the usual settings are in force"
            )))
        }
        Err(error) => usual(Some(format!("{name}:{error}; the usual settings are in force"))),
    }
}

/// Keeps the settings; where that cannot be done it is said, and the work goes on.
pub fn write(settings: &Settings, storage: &dyn Storage, kept: &mut Kept) {
    let text = ron::ser::to_string_pretty(settings, ron::ser::PrettyConfig::default());
    kept.trouble = storage
        .keep_settings(&text.unwrap_or_default())
        .err()
        .map(|error| format!("{error}; the settings last until the bench closes"));
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::{Contrast, Settings, Units, read, write};
    use content::units::PressureUnit;
    use sessions::LocalStorage;

    /// Storage with settings in a folder.
    fn in_folder(folder: &Path) -> LocalStorage {
        LocalStorage { config: Some(folder.to_owned()), ..LocalStorage::default() }
    }

    #[test]
    fn settings_come_back_as_written() {
        let folder = tempfile::tempdir().expect("a folder");
        let storage = in_folder(folder.path());
        let (_, mut kept) = read(&storage);
        let units = Units { pressure: PressureUnit::InHg, ..Units::default() };
        let set =
            Settings { text_percent: 150, units, contrast: Contrast::High, ..Settings::default() };
        write(&set, &storage, &mut kept);
        assert_eq!(kept.trouble, None);
        assert_eq!(read(&storage).0, set);
    }

    #[test]
    fn settings_written_before_there_were_units_are_still_read() {
        let folder = tempfile::tempdir().expect("a folder");
        std::fs::write(folder.path().join("settings.ron"), "(text_percent: 125)").expect("a file");
        let (settings, kept) = read(&in_folder(folder.path()));
        assert_eq!((settings.text_percent, settings.units), (125, Units::default()));
        assert_eq!(kept.trouble, None);
    }

    #[test]
    fn a_broken_file_is_said_and_the_usual_settings_are_in_force() {
        let folder = tempfile::tempdir().expect("a folder");
        for broken in ["(text_percent: ", "(text_percent: 900)", "(colour: 3)", "\u{0}"] {
            std::fs::write(folder.path().join("settings.ron"), broken).expect("a file");
            let (settings, kept) = read(&in_folder(folder.path()));
            assert_eq!(settings, Settings::default());
            let said = kept.trouble.expect("something is said");
            assert!(said.contains("settings.ron"), "{said}");
        }
    }

    #[test]
    fn a_home_that_cannot_be_written_to_is_said() {
        let folder = tempfile::tempdir().expect("a folder");
        let blocked = folder.path().join("file");
        std::fs::write(&blocked, "x").expect("a file");
        let storage = in_folder(&blocked.join("below"));
        let (_, mut kept) = read(&storage);
        write(&Settings::default(), &storage, &mut kept);
        assert!(kept.trouble.expect("something is said").contains("cannot write"));
    }
}
