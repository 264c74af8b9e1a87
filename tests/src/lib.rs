//! Helpers shared by the tests: reading tables of figures from outside, the rows of the
//! qualification page, and the program itself.

pub mod program;

use std::path::PathBuf;

/// How sure a figure from outside is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// Read in the named source.
    Published,
    /// Worked out from published equations with an independent tool; no publication prints it.
    Computed,
    /// Known to the trade, not re-read.
    FromMemory,
    /// A fact of the trade with no source.
    CommonPractice,
}

impl std::fmt::Display for Mark {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Published => "published",
            Self::Computed => "computed",
            Self::FromMemory => "from memory",
            Self::CommonPractice => "common practice, no source",
        })
    }
}

/// One row of the qualification page: a law or sum held against figures from outside.
#[derive(Debug, Clone)]
pub struct Row {
    /// The law or sum, and which quantity of it.
    pub law: &'static str,
    /// Where the figures come from: the source and its section, or the equations and the tool.
    pub source: &'static str,
    /// How sure they are.
    pub mark: Mark,
    /// How many figures were compared.
    pub figures: usize,
    /// What is compared: `relative`, or the unit of an absolute deviation.
    pub measure: &'static str,
    /// Largest deviation allowed.
    pub tolerance: f64,
    /// Largest deviation found.
    pub worst: f64,
}

/// Collects the largest deviation of one quantity.
#[derive(Debug, Clone, Default)]
pub struct Worst {
    figures: usize,
    worst: f64,
}

impl Worst {
    /// Nothing compared yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Compares relatively: |found - expected| / |expected|.
    pub fn relative(&mut self, found: f64, expected: f64) {
        self.absolute(found / expected, 1.0);
    }

    /// Compares absolutely: |found - expected|.
    pub fn absolute(&mut self, found: f64, expected: f64) {
        let deviation = (found - expected).abs();
        self.figures += 1;
        if deviation > self.worst || deviation.is_nan() {
            self.worst = if deviation.is_nan() { f64::INFINITY } else { deviation };
        }
    }

    /// The finished row.
    pub fn row(
        self,
        law: &'static str,
        source: &'static str,
        mark: Mark,
        measure: &'static str,
        tolerance: f64,
    ) -> Row {
        let Self { figures, worst } = self;
        Row { law, source, mark, figures, measure, tolerance, worst }
    }
}

/// Asserts that every row compared something and stayed within its tolerance.
///
/// # Panics
///
/// When one did not.
pub fn assert_rows(rows: &[Row]) {
    assert!(!rows.is_empty(), "no rows");
    for row in rows {
        assert!(row.figures > 0, "{}: nothing was compared", row.law);
        assert!(
            row.worst <= row.tolerance,
            "{}: worst deviation {:e} ({}) over {} figures, allowed {:e}",
            row.law,
            row.worst,
            row.measure,
            row.figures,
            row.tolerance
        );
    }
}

/// The folder of this package.
pub fn tests_folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// The folder of the repository.
pub fn repository() -> PathBuf {
    let mut folder = tests_folder();
    folder.pop();
    folder
}
