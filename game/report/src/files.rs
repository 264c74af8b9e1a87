//! The files of a session's report in a folder. The command line and the window write the same.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use sim_core::marking::own_judgement::judged;

use super::debrief::write_debrief;
use super::paper::PaperSize;
use super::session::SessionReport;
use super::{html, pdf, readings_csv};
use sessions::{FrontEndError, MarkedSession, replace_files};

/// The files of a report.
pub const FILES: [&str; 5] =
    ["report.html", "report.pdf", "readings.csv", "marks.json", "debrief.txt"];

/// What happens to files that are already in the folder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ExistingFiles {
    /// They stay, and nothing new is written.
    Keep,
    /// The new files replace them.
    Replace,
}

/// Makes the folder of a report.
///
/// # Errors
///
/// When it cannot be made, or holds an earlier report that is to be kept.
pub fn prepare_folder(folder: &Path, existing: ExistingFiles) -> Result<(), FrontEndError> {
    std::fs::create_dir_all(folder)
        .map_err(|error| FrontEndError::file("create", folder, &error))?;
    check_free(FILES.map(|file| folder.join(file)), existing, "report")
}

/// Whether files may be written to these paths: existing ones are replaced only on request, and a
/// folder never. `what` names them together.
///
/// # Errors
///
/// When one of them may not be written, with what to do.
pub fn check_free(
    paths: impl IntoIterator<Item = PathBuf>,
    existing: ExistingFiles,
    what: &str,
) -> Result<(), FrontEndError> {
    for path in paths.into_iter().filter(|path| path.exists()) {
        let reason = if path.is_dir() {
            "there is a folder of that name: choose another folder, or move that one away"
                .to_owned()
        } else if existing == ExistingFiles::Keep {
            format!("there is an earlier {what}: choose another folder, or add --replace")
        } else {
            continue;
        };
        return Err(FrontEndError::File { doing: "create", path, reason });
    }
    Ok(())
}

/// Writes the report of a session into a folder that exists: all of its files, or none.
/// `object` goes into `marks.json`.
///
/// # Errors
///
/// When a plot cannot be drawn, or a file cannot be written.
pub fn write(
    folder: &Path,
    report: &SessionReport<'_>,
    object: &Value,
    paper: PaperSize,
) -> Result<(), FrontEndError> {
    let files: Vec<(PathBuf, Vec<u8>)> = contents(report, object, paper)?
        .into_iter()
        .map(|(name, bytes)| (folder.join(name), bytes))
        .collect();
    replace_files(&files)
}

/// What stands in the files of a report, each with its name.
///
/// # Errors
///
/// When a plot cannot be drawn.
pub fn contents(
    report: &SessionReport<'_>,
    object: &Value,
    paper: PaperSize,
) -> Result<Vec<(&'static str, Vec<u8>)>, FrontEndError> {
    let document = report.document();
    let page = html::page(&document).map_err(FrontEndError::Wrong)?;
    let sheets = pdf::file(&document, paper).map_err(FrontEndError::Wrong)?;
    let mut text = Vec::new();
    write_debrief(&mut text, report.ended)?;
    let contents: [Vec<u8>; 5] = [
        page.into_bytes(),
        sheets,
        readings_csv::table(report).into_bytes(),
        format!("{object:#}\n").into_bytes(),
        text,
    ];
    Ok(FILES.into_iter().zip(contents).collect())
}

/// The report of a session as one JSON object.
pub fn object(report: &SessionReport<'_>) -> Value {
    let MarkedSession { session, head, marks, costs } = report.ended;
    let mut object = json!({
        "operator": report.operator, "scenario": report.scenario, "program": sim_core::VERSION,
        "scenario_sha256": session.source.sha256, "seed": session.source.seed,
        "ended": session.ended, "bench_seconds": session.end_tick.seconds(), "journal_head": head,
        "marks": marks, "costs": costs, "compared": report.compared, "figures": report.figures,
        "own_judgement": session.judgement.as_ref().map(|own| judged(own, marks)),
    });
    if let Some(phases) = session.setup.terms.phases {
        object["lesson"] = json!({
            "from": phases.from, "to": phases.to, "help": phases.help,
            "began_bench_seconds": report.began().seconds(),
        });
    }
    object
}
