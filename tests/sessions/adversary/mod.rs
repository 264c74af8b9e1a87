//! The careful session of every scenario, spoilt in one place at a time. Whatever is spoilt must be
//! noticed: by a finding or by lower marks, unless the list says why not.

mod allowed;
mod play;
mod variants;

use std::collections::BTreeMap;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use allowed::ALLOWED;
use play::{Verdict, careful, play};
use variants::{Twist, Variant, variants};

/// The seed of every session.
const SEED: u64 = 1;
/// So many variants are had at a time.
const HANDS: usize = 2;
/// Of the deeds of a scenario that orders a run, one in so many is repeated: each such session takes
/// ten times as long as another.
const RUN_EVERY: usize = 6;

/// The variable that names the scenarios, by the beginning of their names, if only some are to be had; then
/// what the careful operator does in them is printed.
const ONLY: &str = "STEADY_DRAW_SPOIL_ONLY";

/// The scenarios, by name.
fn scenarios() -> Vec<(String, String)> {
    let folder = std::fs::read_dir(bench_tests::repository().join("scenarios")).unwrap();
    let mut all: Vec<(String, String)> = folder
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "ron"))
        .map(|path| {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            (name, std::fs::read_to_string(path).unwrap())
        })
        .collect();
    all.sort();
    all
}

/// Says what the careful operator does, one deed a line.
#[allow(clippy::print_stdout, reason = "it is asked for by whoever looks for a hole")]
fn tell(name: &str, steps: &[variants::Step]) {
    for (place, (tick, action)) in steps.iter().enumerate() {
        println!("{name}: deed {}, {:.1} s: {action:?}", place + 1, tick.0 as f64 / 20.0);
    }
}

/// What came of all variants.
#[derive(Default)]
struct Outcome {
    /// How many there were of each kind.
    had: BTreeMap<Twist, usize>,
    /// Those that nobody noticed and no entry of the list covers.
    holes: Vec<String>,
    /// How often each entry of the list was needed.
    needed: Vec<usize>,
}

/// Has every variant of a scenario.
fn spoil(name: &str, text: &str, outcome: &Mutex<Outcome>) {
    let steps = careful(text, SEED);
    let sound = Verdict::of(&play(text, SEED, &steps));
    if std::env::var_os(ONLY).is_some() {
        tell(name, &steps);
    }
    assert!(sound.passed, "{name}: the careful session as a list of deeds is not passed");
    let runs = text.contains("\n    run: (");
    let repeated = |number: usize, variant: &Variant| {
        variant.twist == Twist::Repeated && runs && !number.is_multiple_of(RUN_EVERY)
    };
    for (number, variant) in variants(&steps).into_iter().enumerate() {
        if repeated(number, &variant) {
            continue;
        }
        let noticed = Verdict::of(&play(text, SEED, &variant.steps)).is_worse_than(&sound);
        let mut outcome = outcome.lock().unwrap();
        *outcome.had.entry(variant.twist).or_default() += 1;
        if noticed {
            continue;
        }
        match ALLOWED.iter().position(|allowed| allowed.covers(name, &variant)) {
            Some(entry) => outcome.needed[entry] += 1,
            None => {
                let Variant { twist, place, deed, .. } = variant;
                outcome.holes.push(format!("{name}: deed {place}: {twist:?} {deed:?}"));
            }
        }
    }
}

#[test]
fn whatever_is_spoilt_is_noticed_or_listed_with_its_reason() {
    let mut all = scenarios();
    let only = std::env::var(ONLY).ok();
    all.retain(|(name, _)| only.as_ref().is_none_or(|only| name.starts_with(only)));
    let outcome = Mutex::new(Outcome { needed: vec![0; ALLOWED.len()], ..Outcome::default() });
    let next = AtomicUsize::new(0);
    std::thread::scope(|scope| {
        for _ in 0..HANDS {
            scope.spawn(|| {
                while let Some((name, text)) = all.get(next.fetch_add(1, Ordering::Relaxed)) {
                    spoil(name, text, &outcome);
                }
            });
        }
    });
    let outcome = outcome.into_inner().unwrap();
    assert!(outcome.holes.is_empty(), "{}", outcome.holes.join("\n"));
    if only.is_some() {
        return;
    }
    for (allowed, needed) in ALLOWED.iter().zip(&outcome.needed) {
        assert!(*needed > 0, "no variant needs the entry {:?}: {}", allowed.twist, allowed.why);
    }
    let total: usize = outcome.had.values().sum();
    assert!(total > 12_000, "{total}: {:?}", outcome.had);
}
