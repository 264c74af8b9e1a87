//! Every fault can be noticed, or says that it cannot; and the catalogue page says both.

mod bench;
mod page;
mod pairs;
mod probe;
mod probes;

use sim_core::fault::{Fault, Noticed};
use sim_core::marking::judgement::FaultVerdict;
use sim_core::marking::mark;
use sim_core::operator::{by_name, rehearse};
use sim_core::session::Session;
use sim_core::session::action::{Action, FaultReport, SuspectedCause};
use sim_core::session::journal::NullSink;

use bench::Bench;
use probe::{Probe, Seen, Telltale};
use probes::telltale;

/// Set to anything, this variable makes the test write the page instead of comparing it.
const WRITE: &str = "STEADY_DRAW_WRITE_FAULTS";
/// Seeds of the sessions of the careful operator.
const SEEDS: std::ops::RangeInclusive<u64> = 1..=10;
/// The seed of the bench that is read.
const SEED: u64 = 1;

/// What was read of a fault.
pub struct Read {
    fault: Fault,
    probe: Probe,
    sound: Seen,
    faulty: Seen,
    /// How far they are apart, in steps that can be read.
    steps: f64,
    /// Sessions in which the careful operator reported it and answered it rightly.
    careful: usize,
    /// What was reported instead, once.
    instead: Vec<String>,
}

/// Reads every fault, on as many threads as there are: no bench knows of another.
fn reads() -> Vec<Read> {
    let faults: Vec<Fault> = Fault::examples().collect();
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        let share = faults.len().div_ceil(threads);
        let work = |faults: &[Fault]| faults.iter().map(|fault| read(*fault)).collect();
        let parts: Vec<_> = faults
            .chunks(share)
            .map(|part| scope.spawn(move || -> Vec<Read> { work(part) }))
            .collect();
        parts.into_iter().flat_map(|part| part.join().unwrap()).collect()
    })
}

/// Faults whose trouble the careful operator reports, but often under another fault's name: its checks
/// of the manometer do not tell them apart yet.
const NAMED_OTHERWISE: [&str; 2] = ["ManometerValveBarelyOpens", "ManometerBubble"];

/// Reads one fault.
fn read(fault: Fault) -> Read {
    let Telltale { probe, says } = telltale(&fault);
    let sound = (probe.read)(&mut Bench::new(&bench::sound(&fault), SEED));
    let faulty = (probe.read)(&mut Bench::new(&bench::faulty(&fault), SEED));
    let steps = sound.steps_to(&faulty, probe.readable);
    let (mut careful, mut instead) = (0, Vec::new());
    for seed in SEEDS {
        match answer(&fault, says, seed) {
            Ok(()) => careful += 1,
            Err(said) => instead.extend(said),
        }
    }
    instead.sort_unstable();
    instead.dedup();
    Read { fault, probe, sound, faulty, steps, careful, instead }
}

/// Whether the careful operator reports a fault and answers it rightly; else what was reported.
///
/// The marks go by the place of a report, and another check may have something to say at the same
/// place. What counts here is a report of the fault itself: in its words, and with a right response.
fn answer(fault: &Fault, says: &str, seed: u64) -> Result<(), Vec<String>> {
    let text = bench::faulty(fault);
    let mut session = Session::begin(&text, seed, Box::new(NullSink)).unwrap();
    rehearse(&mut session, by_name("careful", seed).unwrap().as_mut()).unwrap();
    let ended = session.open().unwrap();
    let evidence = ended.evidence();
    let found = mark(&evidence)
        .faults
        .iter()
        .any(|judged| judged.fault == Some(*fault) && judged.verdict == FaultVerdict::Found);
    let reported = ended.events.iter().filter_map(|moment| match &moment.action {
        Action::Report(remark) => Some(remark),
        _ => None,
    });
    let here: Vec<_> = reported.filter(|remark| remark.place == fault.place()).collect();
    let itself = |report: &&FaultReport| {
        let cause = match &report.cause {
            SuspectedCause::Known(kind) => *kind == fault.kind() || report.seen.contains(says),
            SuspectedCause::NotKnownYet => report.seen.contains(says),
            SuspectedCause::SomethingElse(_) => false,
        };
        cause && fault.sheet().right.contains(&report.response)
    };
    match found && here.iter().any(itself) {
        true => Ok(()),
        false => Err(here.into_iter().map(|remark| remark.words()).collect()),
    }
}

#[test]
fn every_fault_can_be_noticed_or_says_that_it_cannot_and_the_page_is_current() {
    let reads = reads();
    let mut against = Vec::new();
    for read in &reads {
        let (name, steps, careful) = (read.fault.name(), read.steps, read.careful);
        let told = format!(
            "{name}: {:?} and {:?}, {careful} noticed, else {:?}",
            read.sound, read.faulty, read.instead
        );
        match read.fault.sheet().noticed {
            Noticed::Readably if steps < 0.999 => against.push(format!("no step apart: {told}")),
            Noticed::Readably if NAMED_OTHERWISE.contains(&name) => {
                if careful >= 9 {
                    against.push(format!("take off the list what is named now: {told}"));
                }
            }
            Noticed::Readably if careful < 9 => against.push(format!("not noticed: {told}")),
            Noticed::Never(_) if careful > 0 => against.push(format!("noticed: {told}")),
            Noticed::Readably | Noticed::Never(_) => {}
        }
    }
    let current = page::page(&reads);
    let path = bench_tests::repository().join("scenarios/FAULTS.md");
    if std::env::var_os(WRITE).is_some() {
        std::fs::write(&path, &current).unwrap();
    }
    assert!(against.is_empty(), "{}", against.join("\n"));
    let written = std::fs::read_to_string(&path).unwrap_or_default();
    let differing = current.lines().zip(written.lines().chain(std::iter::repeat("")));
    let first = differing.enumerate().find(|(_, (now, then))| now != then);
    assert!(
        written == current,
        "scenarios/FAULTS.md is out of date, first at line {}: write it anew with\n  {WRITE}=1 \
         cargo test -p bench-tests --no-default-features --test all faults",
        first.map_or_else(|| current.lines().count() + 1, |(index, _)| index + 1)
    );
}

#[test]
fn a_sound_bench_gives_the_careful_operator_nothing_to_report() {
    for seed in SEEDS {
        let mut session = Session::begin(bench::CLEAN, seed, Box::new(NullSink)).unwrap();
        rehearse(&mut session, by_name("careful", seed).unwrap().as_mut()).unwrap();
        let signed = session.open().unwrap();
        let marks = mark(&signed.evidence());
        let said: Vec<&str> = marks.faults.iter().map(|judged| judged.what.as_str()).collect();
        assert!(said.is_empty() && marks.passed, "seed {seed}: {said:?} {}", marks.total);
    }
}
