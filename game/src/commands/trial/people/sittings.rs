//! The table of all sittings, written scenario by scenario so that it never lies in memory.

use std::fs::File;
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};

use report::names::part_name;
use report::trial::{PARTS, TrialEntry};
use sessions::FrontEndError;
use sim_core::trial::people::{PersonGroup, Seated, Sitting};

use crate::commands::trial::csv::line;

/// The table's name, and the one that it has until it is whole.
const NAME: &str = "people.csv";
const UNFINISHED: &str = "people.csv.unfinished";

/// The file to which sittings are added.
pub struct SittingsTable {
    file: Option<(PathBuf, BufWriter<File>)>,
}

impl SittingsTable {
    /// Keeps nothing.
    pub const fn nowhere() -> Self {
        Self { file: None }
    }

    /// Begins a table in a folder, which is created if it does not exist.
    ///
    /// # Errors
    ///
    /// When folder or file cannot be created or written.
    pub fn create(folder: &Path) -> Result<Self, FrontEndError> {
        std::fs::create_dir_all(folder)
            .map_err(|error| FrontEndError::file("create", folder, &error))?;
        let path = folder.join(UNFINISHED);
        let file =
            File::create(&path).map_err(|error| FrontEndError::file("create", &path, &error))?;
        let mut table = Self { file: Some((path, BufWriter::new(file))) };
        table.write(&header())?;
        Ok(table)
    }

    /// Adds both sittings of all people of a scenario.
    ///
    /// # Errors
    ///
    /// When the file cannot be written.
    pub fn add(&mut self, entry: &TrialEntry, people: &[Seated]) -> Result<(), FrontEndError> {
        if self.file.is_none() {
            return Ok(());
        }
        for seated in people {
            for (number, sitting) in (1..).zip(&seated.sittings) {
                self.write(&row(entry, seated, number, sitting))?;
            }
        }
        Ok(())
    }

    /// Gives the table its name.
    ///
    /// # Errors
    ///
    /// When the file cannot be written or renamed.
    pub fn finish(self) -> Result<(), FrontEndError> {
        let Some((path, mut file)) = self.file else { return Ok(()) };
        let fault = |error: std::io::Error| FrontEndError::file("write", &path, &error);
        file.flush().map_err(fault)?;
        std::fs::rename(&path, path.with_file_name(NAME)).map_err(fault)
    }

    fn write(&mut self, text: &str) -> Result<(), FrontEndError> {
        let Some((path, file)) = &mut self.file else { return Ok(()) };
        let written = file.write_all(text.as_bytes());
        written.map_err(|error| FrontEndError::file("write", path, &error))
    }
}

fn header() -> String {
    let first = [
        "scenario",
        "person",
        "group",
        "eye",
        "hand",
        "patience",
        "knowledge",
        "arithmetic",
        "unknown",
        "sitting",
        "seed",
        "passed",
        "total",
    ];
    let mut names: Vec<String> = first.map(str::to_owned).to_vec();
    names.extend(PARTS.map(|part| part_name(part).replace(' ', "_")));
    names.extend(["decided_by", "volume_error_pct", "rules"].map(str::to_owned));
    line(&names)
}

fn row(entry: &TrialEntry, seated: &Seated, number: u8, sitting: &Sitting) -> String {
    let person = &seated.person;
    let group = match person.group {
        PersonGroup::Trained => "trained",
        PersonGroup::Careless => "careless",
    };
    let latent = &person.latent;
    let abilities = [latent.eye, latent.hand, latent.patience, latent.knowledge, latent.arithmetic];
    let mut cells = vec![entry.file.clone(), person.number.to_string(), group.to_owned()];
    cells.extend(abilities.map(|ability| format!("{ability:.3}")));
    cells.push(person.unknown.join("; "));
    cells.extend([number.to_string(), sitting.seed.to_string(), sitting.passed().to_string()]);
    match &sitting.marked {
        Some(marked) => {
            cells.push(format!("{:.4}", marked.total));
            let got = |got: Option<f64>| got.map_or_else(String::new, |got| format!("{got:.4}"));
            cells.extend(marked.parts.map(|part| got(part.got)));
            cells.push(marked.gate.unwrap_or_default().to_owned());
            let error = marked.volume_error_pct;
            cells.push(error.map_or_else(String::new, |error| format!("{error:.4}")));
            cells.push(marked.items.iter().map(|item| item.letter()).collect());
        }
        None => cells.extend(vec![String::new(); PARTS.len() + 4]),
    }
    line(&cells)
}
