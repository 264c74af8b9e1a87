//! The catalogue of the faults, `scenarios/FAULTS.md`: written from the sheets in the core and from
//! what was read on the bench.

use std::fmt::Write as _;

use sim_core::fault::{Arises, Noticed, Response, Sheet, Signs, sheets};

use super::Read;
use super::probe::Seen;

const PREFACE: &str = "\
# Faults

Written by the tests: do not edit this page. After a change of a fault, write it anew with

```sh
STEADY_DRAW_WRITE_FAULTS=1 cargo test -p bench-tests --no-default-features --test all faults
```

Everything that a scenario can put wrong, with its physical cause, its signs, the check that makes sure of it and the
responses that are right. How to write a fault into a scenario stands in the README of the scenarios. The sizes are the
bench's own choice: from what can just be noticed to what ends the work.

Responses: *repaired* on the roof; *corrected*, allowed for in reading and sums; *rejected*, the instrument is not used and
the calibration refused or made with another; *noted*, written down and nothing else.
";

const READ: &str = "
## What can be read of each

For every fault in its usual size: what a careful operator looks at, as read at the resolution of a sharp eye in a session on a
sound rig and in the same session with the fault (seed 1 of a rig at 400 m on a plain day; faults of filter, timer and\nrun on the same rig where a run of a day at 1.30 m3/min is ordered). *Steps* is the difference in units that
can be read; below 1, or marked so, the fault cannot be noticed at that size. *Careful* is how many of 10 sessions (seeds 1 to 10) ended
with the scripted careful operator having reported something at the fault's place with a response that is right.

| fault | what is looked at | sound | faulty | unit | finest step | steps | careful |
|---|---|--:|--:|---|--:|--:|--:|
";

/// The whole page.
pub fn page(reads: &[Read]) -> String {
    let mut page = PREFACE.to_owned();
    let mut place = None;
    for sheet in sheets() {
        if place != Some(sheet.place) {
            place = Some(sheet.place);
            let _ = writeln!(page, "\n## {}", capital(sheet.place.words()));
        }
        page.push_str(&about(sheet));
    }
    page.push_str(READ);
    for read in reads {
        page.push_str(&row(read));
    }
    page
}

/// What is known about one fault.
fn about(sheet: &Sheet) -> String {
    let Sheet { name, title, cause, sign, check, right, usual, arises, noticed, .. } = sheet;
    let right: Vec<&str> = right.iter().map(|response| response_words(*response)).collect();
    let size = usual.size().map_or("there or not".to_owned(), |size| {
        let sign = if size.signs == Signs::Either { "±" } else { "" };
        let unit = if size.unit.is_empty() { "" } else { " " };
        format!("`{}` {sign}{} to {}{unit}{}", size.field, size.smallest, size.largest, size.unit)
    });
    let begins = match arises {
        Arises::FromTheStart => "from the start only",
        Arises::DuringRun => "during a run only, while nobody is there",
        Arises::DuringWork => "while the work goes on only",
        Arises::AtAnyTime => "at any time, and stays",
        Arises::ComesAndGoes => "at any time, and may come and go",
    };
    let mut text = format!("\n### `{name}`: {title}\n\n");
    for (what, said) in [("Cause", cause), ("Sign", sign), ("Check", check)] {
        let _ = writeln!(text, "* {what}: {said}");
    }
    let _ = writeln!(text, "* Right: {}.", right.join(", "));
    let written = ron::to_string(usual).unwrap();
    let _ = writeln!(text, "* Size: {size}; usual `{}`. Begins {begins}.", spaced(&written));
    if let Noticed::Never(why) = noticed {
        let _ = writeln!(text, "* **Cannot be noticed at its usual size**: {why}.");
    }
    text
}

/// A row of the table.
fn row(read: &Read) -> String {
    let Read { sheet, probe, sound, faulty, steps, careful } = read;
    let unit = if probe.unit.is_empty() { "–" } else { probe.unit };
    let number = matches!(sound, Seen::Number(_));
    let finest = if number { format!("{}", probe.readable) } else { "–".to_owned() };
    let steps = match (number, sheet.noticed) {
        (_, Noticed::Never(_)) => "cannot be noticed".to_owned(),
        (true, _) => format!("{steps:.0}"),
        (false, _) => "another look".to_owned(),
    };
    format!(
        "| `{}` | {} | {} | {} | {unit} | {finest} | {steps} | {careful} of {} |\n",
        sheet.name,
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
fn spaced(written: &str) -> String {
    written.replace(':', ": ").replace(',', ", ")
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
