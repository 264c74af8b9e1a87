//! Pictures that people may look at: each is held to show something, and something of its own. They
//! are written only where `STEADY_DRAW_PICTURES` names a folder.

use std::collections::BTreeSet;
use std::path::PathBuf;

use sim_core::digest::sha256_hex;

/// Fewer colours than this are no drawing: ink, paper and their edges alone have more.
const FEWEST_COLOURS: usize = 40;

/// The pictures of one test.
pub struct LookedAt {
    folder: Option<PathBuf>,
    seen: BTreeSet<String>,
}

impl LookedAt {
    pub fn new() -> Self {
        let folder = std::env::var_os("STEADY_DRAW_PICTURES").map(PathBuf::from);
        Self { folder, seen: BTreeSet::new() }
    }

    /// Holds a picture to have many colours and to be like none before, and writes it.
    pub fn at(&mut self, name: &str, data: &[u8], png: impl FnOnce() -> Vec<u8>) {
        let colours: BTreeSet<&[u8]> = data.chunks_exact(4).collect();
        assert!(colours.len() >= FEWEST_COLOURS, "{name} has {} colours", colours.len());
        assert!(self.seen.insert(sha256_hex(data)), "{name} is a picture that was there before");
        if let Some(folder) = &self.folder {
            std::fs::write(folder.join(format!("{name}.png")), png()).unwrap();
        }
    }

    /// How many there were.
    pub fn count(&self) -> usize {
        self.seen.len()
    }
}
