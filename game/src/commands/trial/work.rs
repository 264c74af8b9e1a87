//! Running the sessions on several processors, with a bar that shows how long it will still take.

use std::io::IsTerminal;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Mutex, PoisonError};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use rayon::iter::{IntoParallelRefIterator, ParallelIterator};
use sessions::FrontEndError;
use sim_core::trial::{Tally, TrialBlock, block, rehearsal};

use super::blocks::Store;
use super::plan::{Job, Plan};

use crate::commands::threads;

/// What was done.
#[derive(Debug)]
pub struct Done {
    /// For each scenario, for each of its operators.
    pub tallies: Vec<Vec<Tally>>,
    /// Sessions run now.
    pub fresh: u64,
    /// Sessions known from an earlier trial.
    pub known: u64,
    /// How many were run at the same time.
    pub jobs: usize,
}

/// Runs every session in the plan that is not known yet; `jobs` at the same time, left out for as many as
/// there are processors.
///
/// # Errors
///
/// When no threads can be started, a scenario does not begin with some seed, or the store cannot be
/// written.
pub fn work(plan: &Plan, store: &Store, jobs: Option<u16>) -> Result<Done, FrontEndError> {
    let pool = threads::start(jobs)?;
    let pieces = plan.jobs();
    let bar = bar(pieces.iter().map(|job| job.seeds.end - job.seeds.start).sum());
    let empty = plan.scenarios.iter().map(|entry| {
        let tally = Tally::new(entry.faults.len());
        vec![tally; entry.operators.len()]
    });
    let tallies: Mutex<Vec<Vec<Tally>>> = Mutex::new(empty.collect());
    let fresh = AtomicU64::new(0);
    let known = AtomicU64::new(0);
    let result = pool.install(|| {
        pieces.par_iter().try_for_each(|job| -> Result<(), FrontEndError> {
            let (block, count) = match stored(plan, store, job)? {
                Some(block) => (block, &known),
                None => (run_now(plan, store, job)?, &fresh),
            };
            count.fetch_add(block.tally.sessions, Ordering::Relaxed);
            bar.inc(block.tally.sessions);
            let mut tallies = tallies.lock().unwrap_or_else(PoisonError::into_inner);
            let tally = tallies.get_mut(job.scenario).and_then(|all| all.get_mut(job.operator));
            if let Some(tally) = tally {
                tally.merge(&block.tally);
            }
            Ok(())
        })
    });
    bar.finish_and_clear();
    result?;
    Ok(Done {
        tallies: tallies.into_inner().unwrap_or_else(PoisonError::into_inner),
        fresh: fresh.into_inner(),
        known: known.into_inner(),
        jobs: pool.current_num_threads(),
    })
}

/// The block as it is known, if the first of its sessions still comes to the same result.
fn stored(plan: &Plan, store: &Store, job: &Job) -> Result<Option<TrialBlock>, FrontEndError> {
    let Some((entry, operator)) = of(plan, job) else { return Ok(None) };
    let Some(block) = store.known(&entry.sha256, operator, &job.seeds, entry.faults.len()) else {
        return Ok(None);
    };
    let again = rehearsal(&entry.text, operator, job.seeds.start).map_err(|e| wrong(&e))?;
    Ok((again.witness() == block.witness).then(|| block.clone()))
}

/// Runs the block now and stores it.
fn run_now(plan: &Plan, store: &Store, job: &Job) -> Result<TrialBlock, FrontEndError> {
    let Some((entry, operator)) = of(plan, job) else {
        return Err(FrontEndError::Wrong(
            "a job is not in the plan: please report this fault".to_owned(),
        ));
    };
    let block =
        block(&entry.text, &entry.faults, operator, job.seeds.clone()).map_err(|e| wrong(&e))?;
    store.add(&entry.sha256, operator, job.seeds.start, &block)?;
    Ok(block)
}

/// Scenario and operator of a job.
fn of<'a>(plan: &'a Plan, job: &Job) -> Option<(&'a report::trial::TrialEntry, &'a str)> {
    let entry = plan.scenarios.get(job.scenario)?;
    Some((entry, entry.operators.get(job.operator)?.as_str()))
}

fn wrong(error: &sim_core::trial::TrialError) -> FrontEndError {
    FrontEndError::Wrong(error.to_string())
}

/// The bar, shown only if the standard error is a terminal.
pub(super) fn bar(sessions: u64) -> ProgressBar {
    let target = if std::io::stderr().is_terminal() {
        ProgressDrawTarget::stderr()
    } else {
        ProgressDrawTarget::hidden()
    };
    let bar = ProgressBar::with_draw_target(Some(sessions), target);
    let style = "{bar:40} {pos} of {len} sessions, {per_sec}, {eta} left";
    if let Ok(style) = ProgressStyle::with_template(style) {
        bar.set_style(style);
    }
    bar
}
