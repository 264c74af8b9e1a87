//! The list of the drills, and a journal that is replayed.

use std::io::Write;
use std::path::Path;

use serde_json::json;
use sessions::{FrontEndError, Outcome, printable_path, read_drill_journal};
use sim_core::drill::{DrillKind, Standing, replay as judged_again};
use words::drill::{standard_words, summary};

use super::super::json::print_object;
use super::json;

/// Prints the drills, and when each skill is good enough.
pub(super) fn list(as_json: bool, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    if as_json {
        let drills: Vec<_> = DrillKind::ALL.into_iter().map(json::kind).collect();
        print_object(out, &json!({ "drills": drills }))?;
        return Ok(Outcome::Done);
    }
    for kind in DrillKind::ALL {
        writeln!(out, "{:<14} {}", kind.name(), kind.title())?;
        writeln!(out, "               {}", standard_words(kind))?;
    }
    Ok(Outcome::Done)
}

/// Replays a journal, and summarises what came of it.
pub(super) fn replay(
    path: &Path,
    as_json: bool,
    out: &mut dyn Write,
) -> Result<Outcome, FrontEndError> {
    let journal = read_drill_journal(path)?;
    let name = printable_path(path);
    let results = judged_again::replay(&journal)
        .map_err(|error| FrontEndError::Wrong(format!("{name}: {error}")))?;
    let kind = journal.kind;
    if as_json {
        print_object(out, &json::summary(kind, &results, None))?;
    } else {
        writeln!(
            out,
            "{} Seed {}. Every checksum and every result agrees.",
            titled(kind),
            journal.seed
        )?;
        if journal.cut_short {
            writeln!(out, "The last line of {name} was incomplete and has been left out.")?;
        }
        writeln!(out, "{}", summary(kind, &results))?;
    }
    Ok(outcome(kind.standard().standing(&results)))
}

/// The title of a drill, as a sentence.
pub(super) fn titled(kind: DrillKind) -> String {
    let title = kind.title();
    if title.ends_with('?') { title.to_owned() } else { format!("{title}.") }
}

/// Whether a skill is good enough.
pub(super) const fn outcome(standing: Standing) -> Outcome {
    if standing.good_enough { Outcome::Done } else { Outcome::Negative }
}
