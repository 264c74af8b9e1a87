//! Every fault can be noticed, or says that it cannot; and the catalogue page says both.

mod bench;
mod page;
mod probe;
mod probes;
mod run_probes;

use sim_core::fault::{Noticed, Sheet, sheets};
use sim_core::marking::judgement::FaultVerdict;
use sim_core::marking::mark;
use sim_core::operator::{by_name, rehearse};
use sim_core::session::Session;
use sim_core::session::journal::NullSink;

use bench::Bench;
use probe::{Probe, Seen};
use probes::probe;

/// Set to anything, this variable makes the test write the page instead of comparing it.
const WRITE: &str = "STEADY_DRAW_WRITE_FAULTS";
/// Seeds of the sessions of the careful operator.
const SEEDS: std::ops::RangeInclusive<u64> = 1..=10;
/// The seed of the bench that is read.
const SEED: u64 = 1;

/// What was read of a fault.
pub struct Read {
    sheet: &'static Sheet,
    probe: Probe,
    sound: Seen,
    faulty: Seen,
    /// How far they are apart, in steps that can be read.
    steps: f64,
    /// Sessions in which the careful operator answered it rightly.
    careful: usize,
}

/// Reads every fault, on as many threads as there are: no bench knows of another.
fn reads() -> Vec<Read> {
    let sheets: Vec<&'static Sheet> = sheets().collect();
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        let share = sheets.len().div_ceil(threads);
        let work = |sheets: &'_ [&'static Sheet]| sheets.iter().map(|sheet| read(sheet)).collect();
        let parts: Vec<_> = sheets
            .chunks(share)
            .map(|part| scope.spawn(move || -> Vec<Read> { work(part) }))
            .collect();
        parts.into_iter().flat_map(|part| part.join().unwrap()).collect()
    })
}

/// Reads one fault.
fn read(sheet: &'static Sheet) -> Read {
    let probe = probe(&sheet.usual);
    let sound = (probe.read)(&mut Bench::new(&bench::sound(&sheet.usual), SEED));
    let faulty = (probe.read)(&mut Bench::new(&bench::faulty(&sheet.usual), SEED));
    let steps = sound.steps_to(&faulty, probe.readable);
    let careful = SEEDS.filter(|&seed| answered(sheet, seed)).count();
    Read { sheet, probe, sound, faulty, steps, careful }
}

/// Whether the careful operator reports a fault and answers it rightly.
fn answered(sheet: &Sheet, seed: u64) -> bool {
    let text = bench::faulty(&sheet.usual);
    let mut session = Session::begin(&text, seed, Box::new(NullSink)).unwrap();
    rehearse(&mut session, by_name("careful", seed).unwrap().as_mut()).unwrap();
    let signed = session.open().unwrap();
    let marks = mark(&signed.evidence());
    marks
        .faults
        .iter()
        .any(|judged| judged.fault == Some(sheet.usual) && judged.verdict == FaultVerdict::Found)
}

#[test]
fn every_fault_can_be_noticed_or_says_that_it_cannot_and_the_page_is_current() {
    let reads = reads();
    let mut against = Vec::new();
    for read in &reads {
        let (name, steps, careful) = (read.sheet.name, read.steps, read.careful);
        let told = format!("{name}: {:?} and {:?}, {careful} noticed", read.sound, read.faulty);
        match read.sheet.noticed {
            Noticed::Readably if steps < 0.999 => against.push(format!("no step apart: {told}")),
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
