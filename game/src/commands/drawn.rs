//! A drawn rig in place of a scenario's file, and keeping it as a file.

use std::io::Write as _;
use std::path::{Path, PathBuf};

use clap::Args;
use sessions::FrontEndError;
use sim_core::generator::{self, DrawnRig, Level};

/// A rig that nobody has seen, in place of a scenario.
#[derive(Debug, Clone, Default, Args)]
pub struct DrawnArguments {
    /// Draw a rig that you have never seen, of this level (1, 2 or 3), by the seed.
    #[arg(long, value_name = "LEVEL", value_parser = level, conflicts_with = "scenario")]
    pub drawn: Option<Level>,
    /// Keep the drawn rig as a scenario in this file. An existing file is never overwritten. The file tells
    /// what is wrong.
    #[arg(long, value_name = "FILE")]
    pub keep: Option<PathBuf>,
}

/// Reads a level.
pub fn level(text: &str) -> Result<Level, String> {
    text.parse().map_err(|error: generator::LevelError| error.to_string())
}

impl DrawnArguments {
    /// Draws the rig that is asked for, and keeps it if that is asked for.
    ///
    /// # Errors
    ///
    /// When a file is named without a rig to keep in it, or it exists or cannot be written.
    pub fn rig(&self, seed: u64) -> Result<Option<DrawnRig>, FrontEndError> {
        let Some(level) = self.drawn else {
            return match self.keep {
                Some(_) => Err(FrontEndError::Wrong(
                    "--keep keeps a drawn rig: add --drawn LEVEL, or leave --keep out".to_owned(),
                )),
                None => Ok(None),
            };
        };
        let rig = generator::draw(level, seed);
        if let Some(path) = &self.keep {
            keep(path, &rig.text)?;
        }
        Ok(Some(rig))
    }
}

/// Writes a scenario to a new file.
fn keep(path: &Path, text: &str) -> Result<(), FrontEndError> {
    let fault = |error: std::io::Error| match error.kind() {
        std::io::ErrorKind::AlreadyExists => FrontEndError::File {
            doing: "create",
            path: path.to_owned(),
            reason: "there is something of that name already: choose another name".to_owned(),
        },
        _ => FrontEndError::file("create", path, &error),
    };
    let mut file = std::fs::File::create_new(path).map_err(fault)?;
    file.write_all(text.as_bytes()).map_err(fault)
}

/// What a drawn rig is called where something is wrong with it.
pub fn name() -> &'static Path {
    Path::new("drawn rig")
}
