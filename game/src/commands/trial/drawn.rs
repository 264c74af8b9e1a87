//! Drawn rigs tried by the thousand: are they fair?

use std::io::Write;
use std::ops::Range;
use std::sync::{Mutex, PoisonError};
use std::time::Instant;

use rayon::iter::{IntoParallelRefIterator, ParallelIterator};
use serde_json::json;
use sessions::{FrontEndError, Outcome};
use sim_core::generator::Level;
use sim_core::trial::{Counted, DrawnTally, pass_rate};

use super::work::bar;
use crate::commands::json::print_object;
use crate::commands::threads;

/// Rigs that one thread takes at a time.
const PIECE: u64 = 20;

/// Tries the rigs of these levels and seeds.
///
/// # Errors
///
/// When no threads can be started, or the session of a rig cannot begin.
pub fn run(
    levels: &[Level],
    seeds: Range<u64>,
    jobs: Option<u16>,
    as_json: bool,
    out: &mut dyn Write,
) -> Result<Outcome, FrontEndError> {
    let began = Instant::now();
    let tally = tried(levels, &seeds, jobs)?;
    let outcome = if tally.is_proven() { Outcome::Done } else { Outcome::Negative };
    if as_json {
        let levels: Vec<u8> = levels.iter().map(|level| level.number()).collect();
        let object = json!({
            "program": sim_core::VERSION, "levels": levels, "first_seed": seeds.start,
            "runs": seeds.end - seeds.start, "proven": tally.is_proven(), "drawn": tally,
        });
        print_object(out, &object)?;
        return Ok(outcome);
    }
    write(out, levels, &seeds, &tally)?;
    let seconds = began.elapsed().as_secs_f64();
    let sessions = tally.rigs + tally.habits.values().map(|habit| habit.of).sum::<u64>();
    writeln!(
        out,
        "{sessions} sessions on {} rigs in {seconds:.0} s ({:.0} sessions per second).",
        tally.rigs,
        sessions as f64 / seconds.max(0.001)
    )?;
    Ok(outcome)
}

/// Tries the rigs on several processors. The result is the same for any number of them.
fn tried(
    levels: &[Level],
    seeds: &Range<u64>,
    jobs: Option<u16>,
) -> Result<DrawnTally, FrontEndError> {
    let pool = threads::start(jobs)?;
    let mut levels = levels.to_vec();
    levels.sort_unstable();
    levels.dedup();
    let pieces: Vec<(Level, Range<u64>)> = levels
        .iter()
        .flat_map(|&level| {
            let starts = seeds.clone().step_by(PIECE as usize);
            starts.map(move |first| (level, first..seeds.end.min(first + PIECE)))
        })
        .collect();
    let bar = bar(pieces.iter().map(|(_, seeds)| seeds.end - seeds.start).sum());
    let all: Mutex<DrawnTally> = Mutex::default();
    let result = pool.install(|| {
        pieces.par_iter().try_for_each(|(level, seeds)| -> Result<(), FrontEndError> {
            let mut tally = DrawnTally::default();
            for seed in seeds.clone() {
                tally.add(*level, seed).map_err(|error| {
                    FrontEndError::Wrong(format!("level {}, seed {seed}: {error}", level.number()))
                })?;
                bar.inc(1);
            }
            all.lock().unwrap_or_else(PoisonError::into_inner).merge(&tally);
            Ok(())
        })
    });
    bar.finish_and_clear();
    result?;
    Ok(all.into_inner().unwrap_or_else(PoisonError::into_inner))
}

fn write(
    out: &mut dyn Write,
    levels: &[Level],
    seeds: &Range<u64>,
    tally: &DrawnTally,
) -> std::io::Result<()> {
    let verdict = if tally.is_proven() { "PROVEN" } else { "NOT PROVEN" };
    let numbers: Vec<String> = levels.iter().map(|level| level.number().to_string()).collect();
    writeln!(
        out,
        "Drawn rigs of level {}, seeds {} to {}: {verdict}",
        numbers.join(", "),
        seeds.start,
        seeds.end.saturating_sub(1)
    )?;
    let [none, one, two] = tally.by_faults;
    writeln!(out, "  faults: none on {none} rigs, one on {one}, two on {two}")?;
    let careful = Counted { of: tally.rigs, count: tally.careful_passed };
    writeln!(out, "  {:<34} passed {}", "careful", share(careful))?;
    for (habit, counted) in &tally.habits {
        writeln!(out, "  {habit:<34} passed {}", share(*counted))?;
    }
    for (fault, counted) in &tally.faults {
        writeln!(out, "  {fault}: noticed by careful in {} of {}", counted.count, counted.of)?;
    }
    for (level, seed) in &tally.failed {
        writeln!(
            out,
            "  careful did not pass level {level}, seed {seed}: rehearse --drawn {level} --seed {seed} --explain"
        )?;
    }
    for (habit, level, seed) in &tally.overlooked {
        writeln!(
            out,
            "  {habit} passed level {level}, seed {seed}: rehearse --drawn {level} --seed {seed} --operator {habit}"
        )?;
    }
    Ok(())
}

/// A share with its interval.
fn share(counted: Counted) -> String {
    let rate = pass_rate(counted.count, counted.of);
    format!(
        "{:5.1} % ({:.1} to {:.1}) of {}",
        100.0 * rate.share,
        100.0 * rate.low,
        100.0 * rate.high,
        counted.of
    )
}
