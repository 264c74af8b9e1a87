//! What a scripted operator thought at each of its decisions, in words and for other programs.

use std::io::{self, Write};

use serde_json::{Value, json};
use sessions::printable;
use sim_core::operator::Thought;
use sim_core::time::{Tick, TimeOfDay};

/// The thoughts of a session, each with the tick at which it came.
pub type Explained = Vec<(Tick, Thought)>;

/// Writes one line for each thought: the time of day on the bench, what the operator was working at, and
/// the thought. `start` is the time at the first tick.
///
/// # Errors
///
/// When the output cannot be written.
pub fn write(out: &mut dyn Write, explained: &Explained, start: TimeOfDay) -> io::Result<()> {
    writeln!(out, "What the operator saw, and why it went on")?;
    for (tick, Thought { phase, text }) in explained {
        writeln!(out, "  {}  {phase}: {}", start.after(*tick), printable(text))?;
    }
    writeln!(out)
}

/// The thoughts for other programs.
pub fn object(explained: &Explained) -> Value {
    let one = |(tick, Thought { phase, text }): &(Tick, Thought)| json!({ "tick": tick.0, "phase": phase, "thought": text });
    explained.iter().map(one).collect()
}
