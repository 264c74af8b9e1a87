//! What was counted, kept in a file to which lines are only ever added.

use std::collections::BTreeMap;
use std::fs::{File, OpenOptions};
use std::io::{BufRead, BufReader, Write};
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use serde::{Deserialize, Serialize};
use sessions::FrontEndError;
use sim_core::trial::{Tally, TrialBlock};

/// The file's name.
const NAME: &str = "blocks.jsonl";
/// Longest line that is read, bytes: a line has a few kilobytes.
const LONGEST: usize = 1 << 20;

/// Results of earlier work, and the file to which new ones are added.
#[derive(Debug)]
pub struct Store {
    known: BTreeMap<Key, TrialBlock>,
    file: Option<(PathBuf, Mutex<File>)>,
}

/// What a block is of.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Key {
    scenario: String,
    operator: String,
    first: u64,
    sessions: u64,
}

impl Key {
    fn new(scenario: &str, operator: &str, seeds: &Range<u64>) -> Self {
        Self {
            scenario: scenario.to_owned(),
            operator: operator.to_owned(),
            first: seeds.start,
            sessions: seeds.end.saturating_sub(seeds.start),
        }
    }
}

/// A line of the file.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Line {
    /// Version of the program.
    program: String,
    /// SHA-256 of the scenario's text.
    scenario: String,
    /// The operator.
    operator: String,
    /// The first seed.
    first: u64,
    /// What its session came to.
    witness: String,
    /// What was counted.
    tally: Tally,
}

impl Store {
    /// Nothing known, nothing kept.
    pub const fn nowhere() -> Self {
        Self { known: BTreeMap::new(), file: None }
    }

    /// Opens the file in a folder, which is created if it does not exist, and reads it.
    ///
    /// A line that is broken, of another version of the program or impossible is ignored, and its
    /// sessions are run again.
    ///
    /// # Errors
    ///
    /// When the folder cannot be created, or the file cannot be opened or read.
    pub fn open(folder: &Path) -> Result<Self, FrontEndError> {
        std::fs::create_dir_all(folder)
            .map_err(|error| FrontEndError::file("create", folder, &error))?;
        let path = folder.join(NAME);
        let fault = |doing| {
            let path = path.clone();
            move |error: std::io::Error| FrontEndError::file(doing, &path, &error)
        };
        let mut file = OpenOptions::new()
            .create(true)
            .append(true)
            .read(true)
            .open(&path)
            .map_err(fault("open"))?;
        let (known, whole) = read(&file).map_err(fault("read"))?;
        if !whole {
            // The last line is incomplete: the next one must not be joined to it.
            file.write_all(b"\n").map_err(fault("write"))?;
        }
        Ok(Self { known, file: Some((path, Mutex::new(file))) })
    }

    /// What is known of these sessions. `faults` are counted in each block of this scenario.
    pub fn known(
        &self,
        scenario: &str,
        operator: &str,
        seeds: &Range<u64>,
        faults: usize,
    ) -> Option<&TrialBlock> {
        let key = Key::new(scenario, operator, seeds);
        self.known.get(&key).filter(|block| block.tally.is_of(key.sessions, faults))
    }

    /// Adds a block, as one line.
    ///
    /// # Errors
    ///
    /// When the file cannot be written.
    pub fn add(
        &self,
        scenario: &str,
        operator: &str,
        first: u64,
        block: &TrialBlock,
    ) -> Result<(), FrontEndError> {
        let Some((path, file)) = &self.file else { return Ok(()) };
        let line = Line {
            program: sim_core::VERSION.to_owned(),
            scenario: scenario.to_owned(),
            operator: operator.to_owned(),
            first,
            witness: block.witness.clone(),
            tally: block.tally.clone(),
        };
        let mut text = serde_json::to_string(&line).map_err(|error| {
            FrontEndError::Wrong(format!("a block cannot be written as JSON: {error}"))
        })?;
        text.push('\n');
        let mut file = file.lock().unwrap_or_else(PoisonError::into_inner);
        file.write_all(text.as_bytes()).map_err(|error| FrontEndError::file("write", path, &error))
    }
}

/// Reads every usable line, the last of its kind, and whether the file ends with a whole line.
fn read(file: &File) -> std::io::Result<(BTreeMap<Key, TrialBlock>, bool)> {
    let mut known = BTreeMap::new();
    let mut reader = BufReader::new(file);
    let mut bytes = Vec::new();
    let mut whole = true;
    while reader.read_until(b'\n', &mut bytes)? > 0 {
        whole = bytes.last() == Some(&b'\n');
        let line = (bytes.len() <= LONGEST).then(|| serde_json::from_slice::<Line>(&bytes));
        if let Some(Ok(line)) = line
            && line.program == sim_core::VERSION
        {
            let Line { scenario, operator, first, witness, tally, .. } = line;
            let key = Key { scenario, operator, first, sessions: tally.sessions };
            known.insert(key, TrialBlock { tally, witness });
        }
        bytes.clear();
    }
    Ok((known, whole))
}
