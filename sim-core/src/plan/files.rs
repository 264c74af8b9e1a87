//! The files that a plan can name.

/// What is known of the files that a plan can name.
#[derive(Debug, Clone, Copy)]
pub enum FilesAtHand<'a> {
    /// Nothing: any file may be named.
    Unknown,
    /// Those that are at hand, each with what is wrong with it for a plan, if anything is.
    These(&'a [NamedFile]),
}

/// A file that is at hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NamedFile {
    /// Its name, as a plan gives it.
    pub name: String,
    /// Whether it can be used.
    pub state: FileState,
}

/// Whether a plan can use a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileState {
    /// It is a sound scenario with help.
    Practice,
    /// It is a sound scenario against the clock and without help.
    Timed,
    /// It has problems.
    Broken,
}
