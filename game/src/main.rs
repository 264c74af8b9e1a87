//! The command line. Only this file writes to the terminal.

use std::io::{self, Write};
use std::process::ExitCode;

use clap::Parser as _;
use sessions::{FrontEndError, Outcome, printable_lines};
use steady_draw::CommandLine;
use steady_draw::commands::json::print_error;
use steady_draw::output::Output;

fn main() -> ExitCode {
    let line = match CommandLine::try_parse() {
        Ok(line) => line,
        Err(other) if other.use_stderr() => return refused(&other),
        Err(help) => {
            let delivered = help.print().and_then(|()| io::stdout().flush());
            return ended(Ok(Outcome::Done), delivered);
        }
    };
    let mut out = Output::new(io::stdout().lock());
    let result = run(line, &mut out);
    let delivered = out.flush();
    ended(result, delivered)
}

fn run(line: CommandLine, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    match line.command {
        Some(command) => command.run(out),
        None => open_window(line, out),
    }
}

/// The exit status, and the message of an error. An answer that was not delivered is no success; "no"
/// stays "no" when the reader has heard enough and closes the output.
fn ended(result: Result<Outcome, FrontEndError>, delivered: io::Result<()>) -> ExitCode {
    let error = match (result, delivered.map_err(FrontEndError::from)) {
        (Ok(Outcome::Done), Ok(())) => return ExitCode::SUCCESS,
        (Ok(Outcome::Negative), Ok(()) | Err(FrontEndError::Closed)) => return ExitCode::from(1),
        (Err(error), _) | (Ok(_), Err(error)) => error,
    };
    if !matches!(error, FrontEndError::Closed) {
        // When nobody is left to read the message there is nobody to tell.
        let _ = writeln!(io::stderr(), "steady-draw: {error}");
    }
    ExitCode::from(2)
}

/// Says what is wrong with a command line, to programs as one object too.
fn refused(refusal: &clap::Error) -> ExitCode {
    let message = refusal.render().to_string();
    let words: Vec<_> = std::env::args_os().take_while(|word| word != "--").collect();
    if words.iter().any(|word| word == "--json") {
        let mut out = Output::new(io::stdout().lock());
        let problem = message.trim_end().trim_start_matches("error: ").to_owned();
        // If it does not arrive, the standard error has it too, and the status is the same.
        let _ = print_error(&mut out, &FrontEndError::Wrong(problem));
        let _ = out.flush();
    }
    // The words that were refused are repeated in it; printed by `clap` it has its colours.
    let safe = printable_lines(&message);
    let _ = if safe == message { refusal.print() } else { write!(io::stderr(), "{safe}") };
    ExitCode::from(2)
}

/// Opens the window, which was built in.
#[cfg(feature = "window")]
fn open_window(line: CommandLine, _out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    use std::sync::Arc;

    use report::PlainReports;
    use sessions::{LocalStorage, PublishedFile};
    use window::{BenchPlugin, Describe};
    use words::PlainSentences;

    let describe = line.describe.map(|file| Describe {
        frames: Arc::new(PublishedFile(file.with_extension("frames"))),
        told: Arc::new(PublishedFile(file)),
    });
    let bench = BenchPlugin {
        storage: Arc::new(LocalStorage::usual(line.scenario)),
        speech: Arc::new(PlainSentences),
        reports: Arc::new(PlainReports),
    };
    window::run(bench, describe)?;
    Ok(Outcome::Done)
}

/// Says what can be done without the window.
#[cfg(not(feature = "window"))]
fn open_window(line: CommandLine, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    use clap::CommandFactory as _;

    if let Some(path) = line.scenario {
        return Err(FrontEndError::Wrong(format!(
            "this program was built without the window: use `steady-draw drive {} --words`",
            path.display()
        )));
    }
    write!(out, "{}", CommandLine::command().render_help())?;
    Ok(Outcome::Done)
}
