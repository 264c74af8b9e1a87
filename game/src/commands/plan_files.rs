//! A lesson plan on disk, with the scenarios that it names.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use sessions::{FrontEndError, printable_path, read_text};
use sim_core::digest::sha256_hex;
use sim_core::plan::check::is_plan;
use sim_core::plan::{FileState, FilesAtHand, LessonPlan, NamedFile, check};
use sim_core::scenario::{self, KnownRules, ScenarioProblem};

use super::scenario_files::files_at;

/// Folders below that of the scenarios in which a plan's files may lie.
const BELOW: [&str; 1] = ["lessons"];
/// The plan that comes with the program, below the folder of the scenarios.
const SHIPPED: &str = "plans/first_look_to_sitting.ron";

/// A plan that has been read, with its scenarios.
#[derive(Debug)]
pub struct PlanAtHand {
    /// The plan.
    pub plan: LessonPlan,
    /// Its file.
    pub path: PathBuf,
    /// The scenarios that it names, by the names that it gives them.
    pub scenarios: BTreeMap<String, ScenarioAtHand>,
}

/// A scenario that a plan names.
#[derive(Debug, Clone)]
pub struct ScenarioAtHand {
    /// Its file.
    pub path: PathBuf,
    /// Its text.
    pub text: String,
    /// SHA-256 of its text.
    pub sha256: String,
    /// Its title.
    pub title: String,
}

impl PlanAtHand {
    /// Reads a plan from a file.
    ///
    /// # Errors
    ///
    /// When the file cannot be read, or every problem found in it.
    pub fn read(path: &Path) -> Result<Self, FrontEndError> {
        let text = read_text(path)?;
        let name = printable_path(path);
        checked(path, &text).map_err(|problems| {
            let lines: Vec<String> =
                problems.iter().map(|problem| format!("{name}:{problem}")).collect();
            FrontEndError::Wrong(lines.join("\n"))
        })
    }

    /// The plan that comes with the program, below the folder of its scenarios; `None` where there is
    /// none.
    ///
    /// # Errors
    ///
    /// As [`PlanAtHand::read`].
    pub fn shipped(scenarios: &Path) -> Result<Option<Self>, FrontEndError> {
        let path = scenarios.join(SHIPPED);
        // The folder of the scenarios may be given by way of others: it is named as it is.
        let path = std::fs::canonicalize(&path).unwrap_or(path);
        if path.is_file() { Self::read(&path).map(Some) } else { Ok(None) }
    }

    /// The text of a scenario that the plan names.
    pub fn text_of(&self, file: &str) -> Option<&str> {
        self.scenarios.get(file).map(|scenario| scenario.text.as_str())
    }

    /// The SHA-256 of a scenario that the plan names.
    pub fn sha256_of(&self, file: &str) -> Option<&str> {
        self.scenarios.get(file).map(|scenario| scenario.sha256.as_str())
    }
}

/// Checks the text of a plan that lies at a path, with the files around it.
///
/// # Errors
///
/// Every problem found.
pub fn checked(path: &Path, text: &str) -> Result<PlanAtHand, Vec<ScenarioProblem>> {
    let (named, scenarios) = around(path);
    let plan = check(text, FilesAtHand::These(&named))?;
    let is_named = |file: &String| plan.steps.iter().any(|step| step.step.file() == Some(file));
    let scenarios = scenarios.into_iter().filter(|(file, _)| is_named(file)).collect();
    Ok(PlanAtHand { plan, path: path.to_owned(), scenarios })
}

/// The scenarios around a plan: in its folder, in the folder above it, and in the folders below either that
/// hold lessons. A name that is there twice stands for the nearest file.
fn around(path: &Path) -> (Vec<NamedFile>, BTreeMap<String, ScenarioAtHand>) {
    let own = path.parent().map_or_else(|| PathBuf::from("."), Path::to_owned);
    let own = if own.as_os_str().is_empty() { PathBuf::from(".") } else { own };
    let above = own.join("..");
    let above =
        own.parent().filter(|above| !above.as_os_str().is_empty()).map_or(above, Path::to_owned);
    let (mut named, mut scenarios) = (Vec::<NamedFile>::new(), BTreeMap::new());
    for folder in [own, above] {
        let below = BELOW.iter().map(|name| (folder.join(name), format!("{name}/")));
        for (folder, prefix) in std::iter::once((folder.clone(), String::new())).chain(below) {
            for file in files_at(&folder).unwrap_or_default() {
                let Some(name) = file.file_name().and_then(|name| name.to_str()) else { continue };
                let name = format!("{prefix}{name}");
                if file == path || named.iter().any(|known| known.name == name) {
                    continue;
                }
                let Some((state, scenario)) = scenario_at(&file) else { continue };
                named.push(NamedFile { name: name.clone(), state });
                if let Some(scenario) = scenario {
                    scenarios.insert(name, scenario);
                }
            }
        }
    }
    (named, scenarios)
}

/// The scenario of a file; `None` where it cannot be read, or is a plan.
fn scenario_at(path: &Path) -> Option<(FileState, Option<ScenarioAtHand>)> {
    let text = read_text(path).ok()?;
    if is_plan(&text) {
        return None;
    }
    let Ok(scenario) = scenario::check(&text, KnownRules::Any) else {
        return Some((FileState::Broken, None));
    };
    let is_timed = scenario.terms.time_limit_min.is_some() && !scenario.terms.help;
    let state = if is_timed { FileState::Timed } else { FileState::Practice };
    let sha256 = sha256_hex(text.as_bytes());
    let title = scenario.title;
    Some((state, Some(ScenarioAtHand { path: path.to_owned(), text, sha256, title })))
}
