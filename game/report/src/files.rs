//! The files of a session's report in a folder. The command line and the window write the same.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use sessions::{FrontEndError, MarkedSession};

use super::session::SessionReport;
use super::{html, pdf, readings_csv, text};

/// The files of a report.
pub const FILES: [&str; 5] =
    ["report.html", "report.pdf", "readings.csv", "marks.json", "debrief.txt"];

/// What becomes of an earlier report in the same folder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Earlier {
    /// It stays, and there is no new one.
    Kept,
    /// The new one takes its place.
    Replaced,
}

/// Makes the folder of a report.
///
/// # Errors
///
/// When it cannot be made, or an earlier report stands in it that is to be kept.
pub fn ready(folder: &Path, earlier_one: Earlier) -> Result<(), FrontEndError> {
    std::fs::create_dir_all(folder)
        .map_err(|error| FrontEndError::file("create", folder, &error))?;
    may_stand(FILES.map(|file| folder.join(file)), earlier_one, "report")
}

/// Whether files may be written where they would stand: what is there already may be replaced only on
/// asking, and a folder not at all. `what` names them together.
///
/// # Errors
///
/// When one of them may not, with what to do.
pub fn may_stand(
    paths: impl IntoIterator<Item = PathBuf>,
    earlier_one: Earlier,
    what: &str,
) -> Result<(), FrontEndError> {
    for path in paths.into_iter().filter(|path| path.exists()) {
        let reason = if path.is_dir() {
            "a folder of that name is there: name another folder, or move that one away".to_owned()
        } else if earlier_one == Earlier::Kept {
            format!("an earlier {what} is there: name another folder, or add --replace")
        } else {
            continue;
        };
        return Err(FrontEndError::File { doing: "create", path, reason });
    }
    Ok(())
}

/// Writes the report of a session into a folder that is there. `object` goes into `marks.json`.
///
/// # Errors
///
/// When a plot cannot be drawn, or a file not be written.
pub fn write(
    folder: &Path,
    report: &SessionReport<'_>,
    object: &Value,
) -> Result<(), FrontEndError> {
    // All of it is made before any of it is written.
    let document = report.document();
    let page = html::page(&document).map_err(FrontEndError::Wrong)?;
    let paper = pdf::file(&document).map_err(FrontEndError::Wrong)?;
    let mut text = Vec::new();
    text::write_debrief(&mut text, report.ended)?;
    let contents: [Vec<u8>; 5] = [
        page.into_bytes(),
        paper,
        readings_csv::table(report).into_bytes(),
        format!("{object:#}\n").into_bytes(),
        text,
    ];
    for (name, bytes) in FILES.iter().zip(contents) {
        let path = folder.join(name);
        std::fs::write(&path, bytes)
            .map_err(|error| FrontEndError::file("write", &path, &error))?;
    }
    Ok(())
}

/// The report of a session as one JSON object.
pub fn object(report: &SessionReport<'_>) -> Value {
    let MarkedSession { signed, head, marks, costs } = report.ended;
    json!({
        "operator": report.operator, "scenario": report.scenario, "program": sim_core::VERSION,
        "scenario_sha256": signed.source.sha256, "seed": signed.source.seed,
        "ended": signed.ended, "bench_seconds": signed.end_tick.seconds(), "journal_head": head,
        "marks": marks, "costs": costs, "compared": report.compared, "figures": report.figures,
    })
}
