//! The catalogue of the faults, `scenarios/FAULTS.md`: written from the sheets in the core and from
//! what was read on the bench.

use std::fmt::Write as _;

use sim_core::fault::{Arises, Fault, Noticed, Response, Sheet, Signs};

use super::Read;
use super::probe::Seen;

const PREFACE: &str = "\
# Faults

The tests write this page: do not edit it. After a change to a fault, write it again with

```sh
STEADY_DRAW_WRITE_FAULTS=1 cargo test -p bench-tests --no-default-features --test all faults
```

Here is everything that a scenario can put wrong. The README of the scenarios says how to write a fault into one. The sizes are
this bench's own choice: from what can just be noticed to what ends the work.

The responses: *repaired* on the roof; *corrected*, allowed for in readings and calculations; *rejected*, the instrument is not
used, and the calibration is refused or made with another one; *noted*, written down and nothing more.
";

const IN_SHORT: &str = "
## In short

Each fault in its usual size. Faults of the filter and the timer, and the power cut, need a run.

| fault | size | what it is |
|---|---|---|
";

const READ: &str = "
## What can be read of each fault

For each fault in its usual size, the table shows what a careful operator looks at: what a sharp eye reads of it in a session on
a sound rig, and in the same session with the fault. The rig stands at 400 m on a plain day (seed 1); for faults of filter, timer
and run, a run of a day at 1.30 m3/min is ordered. *Steps* is the difference in units that can be read. A fault with less than
one step, or marked so, cannot be noticed at that size. *Careful* is the number of sessions out of 10 (seeds 1 to 10) in which the
scripted careful operator reported the fault itself with a right response.

| fault | what is looked at | sound | faulty | unit | finest step | steps | careful |
|---|---|--:|--:|---|--:|--:|--:|
";

/// The whole page.
pub fn page(reads: &[Read]) -> String {
    let mut page = PREFACE.to_owned();
    page.push_str(IN_SHORT);
    for fault in Fault::examples() {
        let size = range(&fault).unwrap_or_else(|| "–".to_owned());
        let _ = writeln!(page, "| `{}` | {size} | {} |", written(&fault), fault.sheet().in_short);
    }
    let mut place = None;
    for fault in Fault::examples() {
        if place != Some(fault.place()) {
            place = Some(fault.place());
            let _ = writeln!(page, "\n## {}", capital(fault.place().words()));
        }
        page.push_str(&about(&fault));
    }
    page.push_str(READ);
    for read in reads {
        page.push_str(&row(read));
    }
    page
}

/// What is known about one fault.
fn about(fault: &Fault) -> String {
    let Sheet { name, title, cause, sign, check, right, arises, noticed, .. } = fault.sheet();
    let right: Vec<&str> = right.iter().map(|response| response_words(*response)).collect();
    let size = match (fault.size(), range(fault)) {
        (Some(size), Some(range)) => format!("`{}` {range}", size.field),
        _ => "present or not".to_owned(),
    };
    let begins = match arises {
        Arises::FromTheStart => "It is there from the start",
        Arises::DuringRun => "It begins during a run, while nobody is there",
        Arises::DuringWork => "It begins while the work goes on",
        Arises::AtAnyTime => "It begins at any time and stays",
        Arises::ComesAndGoes => "It begins at any time and may come and go",
    };
    let mut text = format!("\n### `{name}`: {title}\n\n");
    for (what, said) in [("Cause", cause), ("Sign", sign), ("Check", check)] {
        let _ = writeln!(text, "* {what}: {said}");
    }
    let _ = writeln!(text, "* Right: {}.", right.join(", "));
    let _ = writeln!(text, "* Size: {size}; usually `{}`. {begins}.", written(fault));
    if let Noticed::Never(why) = noticed {
        let _ = writeln!(text, "* **It cannot be noticed at its usual size**: {why}.");
    }
    text
}

/// A row of the table.
fn row(read: &Read) -> String {
    let Read { fault, probe, sound, faulty, steps, careful, .. } = read;
    let unit = if probe.unit.is_empty() { "–" } else { probe.unit };
    let number = matches!(sound, Seen::Number(_));
    let finest = if number { format!("{}", probe.readable) } else { "–".to_owned() };
    let steps = match (number, fault.sheet().noticed) {
        (_, Noticed::Never(_)) => "cannot be noticed".to_owned(),
        (true, _) => format!("{steps:.0}"),
        (false, _) => "another look".to_owned(),
    };
    format!(
        "| `{}` | {} | {} | {} | {unit} | {finest} | {steps} | {careful} of {} |\n",
        fault.name(),
        probe.quantity,
        value(sound, probe.readable),
        value(faulty, probe.readable),
        super::SEEDS.count(),
    )
}

/// What is seen, with the digits that can be read.
fn value(seen: &Seen, readable: f64) -> String {
    match seen {
        Seen::Word(word) => word.clone(),
        Seen::Number(number) => {
            let digits = [1.0, 0.1, 0.01, 0.001].iter().position(|step| readable >= *step * 0.999);
            let digits = digits.unwrap_or(4);
            // A reading of nothing is not less than nothing.
            format!("{:.digits$}", (number / readable).round() * readable + 0.0)
        }
    }
}

/// A fault as it is written by hand.
fn written(fault: &Fault) -> String {
    ron::to_string(fault).unwrap().replace(':', ": ").replace(',', ", ")
}

/// The range of a fault's size, with its unit.
fn range(fault: &Fault) -> Option<String> {
    let size = fault.size()?;
    let sign = if size.signs == Signs::Either { "±" } else { "" };
    let unit = if size.unit.is_empty() { "" } else { " " };
    Some(format!("{sign}{} to {}{unit}{}", size.smallest, size.largest, size.unit))
}

const fn response_words(response: Response) -> &'static str {
    match response {
        Response::Repaired => "repaired",
        Response::Corrected => "corrected",
        Response::Rejected => "rejected",
        Response::Noted => "noted",
    }
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
