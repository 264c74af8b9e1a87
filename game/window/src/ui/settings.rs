//! What a person has set: size of text, units, contrast, motion. Kept in the system's folder for such
//! things; a bench that cannot keep them says so and goes on.

use std::path::{Path, PathBuf};

use bevy::prelude::*;
use etcetera::BaseStrategy as _;
use serde::{Deserialize, Serialize};
use words::units::Units;

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
        }
    }
}

impl Settings {
    /// Size of text as a factor.
    pub fn text_scale(&self) -> f32 {
        f32::from(self.text_percent.clamp(100, 200)) / 100.0
    }
}

/// Where the settings are kept, and what went wrong with them, if anything did.
#[derive(Resource, Debug, Clone, Default)]
pub struct Kept {
    /// The file; `None` when the system names no folder.
    pub file: Option<PathBuf>,
    /// What is to be said about it.
    pub trouble: Option<String>,
}

/// The system's folder for settings of this program.
pub fn config_folder() -> Option<PathBuf> {
    Some(etcetera::choose_base_strategy().ok()?.config_dir().join("steady-draw"))
}

/// The system's folder for journals of this program.
pub fn data_folder() -> Option<PathBuf> {
    Some(etcetera::choose_base_strategy().ok()?.data_dir().join("steady-draw"))
}

/// Reads the settings; whatever is wrong with the file, there are settings to go on with.
pub fn read(folder: Option<&Path>) -> (Settings, Kept) {
    let Some(folder) = folder else {
        let trouble = "the system names no folder for settings: they last until the bench closes";
        return (Settings::default(), Kept { file: None, trouble: Some(trouble.to_owned()) });
    };
    let file = folder.join("settings.ron");
    let mut kept = Kept { file: Some(file.clone()), trouble: None };
    let text = match std::fs::read_to_string(&file) {
        Ok(text) => text,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
            return (Settings::default(), kept);
        }
        Err(error) => {
            kept.trouble = Some(format!("cannot read {}: {error}", file.display()));
            return (Settings::default(), kept);
        }
    };
    match ron::from_str::<Settings>(&text) {
        Ok(settings) if (100..=200).contains(&settings.text_percent) => (settings, kept),
        Ok(settings) => {
            let percent = settings.text_percent;
            kept.trouble = Some(format!(
                "{}: text at {percent} % is out of range, 100 to 200; the usual settings are in force",
                file.display()
            ));
            (Settings::default(), kept)
        }
        Err(error) => {
            kept.trouble =
                Some(format!("{}:{error}; the usual settings are in force", file.display()));
            (Settings::default(), kept)
        }
    }
}

/// Writes the settings; a home that cannot be written to is said, not fatal.
pub fn write(settings: &Settings, kept: &mut Kept) {
    let Some(file) = kept.file.clone() else { return };
    let text = ron::ser::to_string_pretty(settings, ron::ser::PrettyConfig::default());
    let folder = file.parent().unwrap_or(Path::new("."));
    let done = std::fs::create_dir_all(folder)
        .and_then(|()| std::fs::write(&file, text.unwrap_or_default()));
    kept.trouble = done.err().map(|error| {
        format!(
            "cannot write {}: {error}; the settings last until the bench closes",
            file.display()
        )
    });
}

#[cfg(test)]
mod tests {
    use super::{Contrast, Settings, Units, read, write};
    use words::units::PressureUnit;

    #[test]
    fn settings_come_back_as_written() {
        let folder = tempfile::tempdir().expect("a folder");
        let (_, mut kept) = read(Some(folder.path()));
        let units = Units { pressure: PressureUnit::InHg, ..Units::default() };
        let set =
            Settings { text_percent: 150, units, contrast: Contrast::High, ..Settings::default() };
        write(&set, &mut kept);
        assert_eq!(kept.trouble, None);
        assert_eq!(read(Some(folder.path())).0, set);
    }

    #[test]
    fn settings_written_before_there_were_units_are_still_read() {
        let folder = tempfile::tempdir().expect("a folder");
        std::fs::write(folder.path().join("settings.ron"), "(text_percent: 125)").expect("a file");
        let (settings, kept) = read(Some(folder.path()));
        assert_eq!((settings.text_percent, settings.units), (125, Units::default()));
        assert_eq!(kept.trouble, None);
    }

    #[test]
    fn a_broken_file_is_said_and_the_usual_settings_are_in_force() {
        let folder = tempfile::tempdir().expect("a folder");
        for broken in ["(text_percent: ", "(text_percent: 900)", "(colour: 3)", "\u{0}"] {
            std::fs::write(folder.path().join("settings.ron"), broken).expect("a file");
            let (settings, kept) = read(Some(folder.path()));
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
        let (_, mut kept) = read(Some(&blocked.join("below")));
        write(&Settings::default(), &mut kept);
        assert!(kept.trouble.expect("something is said").contains("cannot write"));
    }
}
