//! `drill`: one skill at a time, question by question, in plain sentences and, for other programs, in
//! JSON.

mod json;
mod kept;
mod pictures;
mod said;
mod series;

use std::io::{BufRead, Write};
use std::path::PathBuf;

use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser as _};
use sessions::{FrontEndError, Outcome, wall_clock_s};
use sim_core::drill::DrillKind;

use series::{Clock, Form, Order};

/// Practises one skill: question after question, each answered and judged at once.
///
/// A question is drawn from the same instruments, papers and drawings as the bench. What can be seen is
/// said without the answer: where something stands against the marks of its scale. After each answer you
/// learn by how much it is off, which way, and from which slip it follows; at the end, whether the skill
/// is good enough. With --pictures each question is also drawn, as the bench draws it.
///
/// With --json, each line of output is one object: a question, what came of an answer, or the end. Each
/// line of input is {"answer":3.15}, {"answer":"tube"}, {"eye":{"eye_mm":0}},
/// {"set_barometer":{"to":"station"}}, "read_in_words" or "quit".
///
/// Exit status 0: the skill is good enough, or the list or the journal was printed. 1: it is not good
/// enough yet. 2: it could not be done, or the output could not be written.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  steady-draw drill --list\n  steady-draw drill leg --journal today.drill\n  steady-draw drill pen --count 20 --pictures pictures\n  steady-draw drill --replay today.drill"
)]
pub struct DrillArguments {
    /// The drill.
    #[arg(required_unless_present_any = ["list", "replay"], value_parser = kinds())]
    pub kind: Option<DrillKind>,
    /// List the drills, and when each skill is good enough.
    #[arg(long, conflicts_with_all = ["kind", "replay", "seed", "count", "journal", "pictures"])]
    pub list: bool,
    /// The seed: another seed draws other questions. Without one, a new one is taken each time.
    #[arg(long)]
    pub seed: Option<u64>,
    /// How many questions are asked.
    #[arg(long, default_value_t = 10, value_parser = clap::value_parser!(u32).range(1..=1000))]
    pub count: u32,
    /// Write the journal to this file, line by line. An existing file is never overwritten. Give it the
    /// ending .drill: summaries find it by that.
    #[arg(long, value_name = "FILE")]
    pub journal: Option<PathBuf>,
    /// Draw each question into this folder, which is created if it does not exist. Pictures of an
    /// earlier drill in it are replaced.
    #[arg(long, value_name = "DIR")]
    pub pictures: Option<PathBuf>,
    /// Replay a journal: verify every checksum, judge every answer once more, and summarise.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["kind", "seed", "count", "journal", "pictures"])]
    pub replay: Option<PathBuf>,
    /// Use JSON instead of plain sentences.
    #[arg(long)]
    pub json: bool,
}

/// The kinds, by their names.
fn kinds() -> impl clap::builder::TypedValueParser<Value = DrillKind> {
    PossibleValuesParser::new(DrillKind::ALL.map(DrillKind::name)).try_map(DrillKind::try_from)
}

/// Runs the command on the process's own input.
///
/// # Errors
///
/// When the journal or the pictures cannot be written, or a journal does not hold.
pub fn run(arguments: &DrillArguments, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    run_on(arguments, &mut std::io::stdin().lock(), &Clock::default(), out)
}

/// Runs the command on any input and by any clock.
///
/// # Errors
///
/// As [`run`].
fn run_on(
    arguments: &DrillArguments,
    input: &mut dyn BufRead,
    clock: &Clock,
    out: &mut dyn Write,
) -> Result<Outcome, FrontEndError> {
    if let Some(journal) = &arguments.replay {
        return kept::replay(journal, arguments.json, out);
    }
    let Some(kind) = arguments.kind else { return kept::list(arguments.json, out) };
    let form = if arguments.json { Form::Json } else { Form::Words };
    // Nobody has met the questions of a new second.
    let seed = arguments.seed.unwrap_or_else(wall_clock_s);
    let DrillArguments { count, journal, pictures, .. } = arguments;
    let (count, journal, pictures) = (*count, journal.clone(), pictures.clone());
    series::run(&Order { kind, seed, count, form, journal, pictures }, clock, input, out)
}
