//! The command line. Only this file writes to the terminal.

use std::io::{BufWriter, Write};
use std::process::ExitCode;

use clap::Parser as _;
use sessions::{FrontEndError, Outcome};
use steady_draw::commands::CommandLine;

fn main() -> ExitCode {
    let line = match CommandLine::try_parse() {
        Ok(line) => line,
        Err(error) => {
            // When nobody is left to read the message there is nobody to tell.
            let _ = error.print();
            return ExitCode::from(if error.use_stderr() { 2 } else { 0 });
        }
    };
    let mut out = BufWriter::new(std::io::stdout().lock());
    let result = run(line, &mut out).and_then(|outcome| {
        out.flush()?;
        Ok(outcome)
    });
    match result {
        Ok(Outcome::Done) | Err(FrontEndError::Closed) => ExitCode::SUCCESS,
        Ok(Outcome::Negative) => ExitCode::from(1),
        Err(error) => {
            let _ = out.flush();
            let _ = writeln!(std::io::stderr(), "steady-draw: {error}");
            ExitCode::from(2)
        }
    }
}

fn run(line: CommandLine, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    match line.command {
        Some(command) => command.run(out),
        None => open_bench(line, out),
    }
}

/// Opens the bench, where it was built in.
#[cfg(feature = "window")]
fn open_bench(line: CommandLine, _out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    window::run(line.scenario, line.describe)?;
    Ok(Outcome::Done)
}

/// Says what can be done without a window.
#[cfg(not(feature = "window"))]
fn open_bench(line: CommandLine, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    use clap::CommandFactory as _;

    if let Some(path) = line.scenario {
        return Err(FrontEndError::Wrong(format!(
            "this program was built without its window: try `steady-draw drive {} --words`",
            path.display()
        )));
    }
    write!(out, "{}", CommandLine::command().render_help())?;
    Ok(Outcome::Done)
}
