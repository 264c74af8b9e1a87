//! Drawn rigs: sound scenarios, no two alike, and fair.
//!
//! A few seeds are tried here; `STEADY_DRAW_DRAWN_SEEDS` asks for more. `STEADY_DRAW_WRITE_PAIRS=FILE`
//! looks for the pairs of faults that hold, and writes them as lines of their table.

use std::collections::BTreeSet;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use bench_tests::program::{run, run_on};
use serde_json::Value;
use sim_core::fault::FaultKind;
use sim_core::generator::{DrawnJob, Level, OrderKind, PAIRS, TROUBLES, draw, of_job};
use sim_core::procedure::RULES;
use sim_core::scenario::{KnownRules, check};
use sim_core::trial::DrawnTally;

/// Asks for more seeds.
const SEEDS: &str = "STEADY_DRAW_DRAWN_SEEDS";

/// Asks for the lines of the table of pairs, in the file of this name.
const WRITE_PAIRS: &str = "STEADY_DRAW_WRITE_PAIRS";

fn seeds(usual: u64) -> u64 {
    std::env::var(SEEDS).ok().and_then(|seeds| seeds.parse().ok()).unwrap_or(usual)
}

/// Does something with each of these on two threads, and gives what is said against any of them.
fn against<T: Sync>(all: &[T], each: impl Fn(&T) -> Option<String> + Sync) -> Vec<String> {
    let (next, said) = (AtomicUsize::new(0), Mutex::new(Vec::new()));
    let work = || {
        while let Some(one) = all.get(next.fetch_add(1, Ordering::Relaxed)) {
            if let Some(words) = each(one) {
                said.lock().unwrap().push(words);
            }
        }
    };
    std::thread::scope(|scope| {
        scope.spawn(work);
        scope.spawn(work);
    });
    let mut said = said.into_inner().unwrap();
    said.sort();
    said
}

/// What is wrong with rigs on this order with these faults: careful work that does not pass, a fault that
/// is not noticed, a habit that passes.
fn wrong(order: OrderKind, kinds: &[FaultKind], seeds: std::ops::Range<u64>) -> Option<String> {
    let mut tally = DrawnTally::default();
    for seed in seeds {
        let rig = of_job(DrawnJob::with(Level::Three, seed, order, kinds));
        if let Err(error) = tally.add_rig(&rig, 3, seed) {
            return Some(format!("{order:?} {kinds:?}, seed {seed}: {error}"));
        }
    }
    let careful = tally.rigs == tally.careful_passed;
    let found = tally.faults.values().all(|fault| fault.count == fault.of);
    let habits = tally.habits.values().all(|habit| habit.count == 0);
    (!careful || !found || !habits).then(|| {
        let faults: Vec<_> = tally.faults.values().map(|f| f.count).collect();
        let habits: Vec<_> = tally.habits.values().map(|h| h.count).collect();
        format!(
            "{order:?} {kinds:?}: of {} careful passed {}, noticed {faults:?}, habits passed {habits:?}",
            tally.rigs, tally.careful_passed
        )
    })
}

#[test]
fn each_fault_is_found_on_each_order_on_which_it_is_drawn_and_its_habit_overlooks_it() {
    let all: Vec<(OrderKind, FaultKind)> = TROUBLES
        .iter()
        .flat_map(|trouble| trouble.orders.iter().map(move |order| (*order, trouble.kind)))
        .collect();
    let said = against(&all, |(order, kind)| wrong(*order, &[*kind], 1..1 + seeds(3)));
    assert!(said.is_empty(), "{}", said.join("\n"));
}

#[test]
fn of_each_pair_both_are_found_and_each_habit_overlooks_its_own() {
    if let Some(path) = std::env::var_os(WRITE_PAIRS) {
        std::fs::write(path, pairs_that_hold(seeds(60)).join("\n")).unwrap();
    }
    assert!(PAIRS.len() > 100, "{} pairs", PAIRS.len());
    let all = all_pairs();
    assert!(PAIRS.iter().all(|pair| all.contains(pair)), "only faults of the table are drawn");
    let said = against(PAIRS, |(one, other)| {
        wrong(OrderKind::Calibration, &[*one, *other], 1..1 + seeds(2))
    });
    assert!(said.is_empty(), "{}", said.join("\n"));
    for (index, (one, other)) in PAIRS.iter().enumerate() {
        let again = PAIRS.iter().skip(index + 1);
        assert!(
            one != other && !again.clone().any(|pair| pair == &(*one, *other)),
            "{one:?} {other:?}"
        );
        assert!(!again.clone().any(|pair| pair == &(*other, *one)), "{one:?} {other:?}");
    }
}

/// Every two faults that may be drawn for a calibration.
fn all_pairs() -> Vec<(FaultKind, FaultKind)> {
    let of_calibration: Vec<FaultKind> = TROUBLES
        .iter()
        .filter(|trouble| trouble.orders.contains(&OrderKind::Calibration))
        .map(|trouble| trouble.kind)
        .collect();
    let pairs = of_calibration.iter().enumerate().flat_map(|(index, one)| {
        of_calibration.iter().skip(index + 1).map(move |other| (*one, *other))
    });
    pairs.collect()
}

/// The lines of the table for every pair that holds.
fn pairs_that_hold(seeds: u64) -> Vec<String> {
    against(&all_pairs(), |(one, other)| {
        let wrong = wrong(OrderKind::Calibration, &[*one, *other], 1..1 + seeds);
        wrong.is_none().then(|| format!("    ({one:?}, {other:?}),"))
    })
}

#[test]
fn every_drawn_rig_is_a_sound_scenario_and_says_before_the_work_only_how_hard_it_is() {
    let rules: Vec<&str> = RULES.iter().map(|rule| rule.id).collect();
    for level in Level::ALL {
        let mut titles = BTreeSet::new();
        let mut most = 0;
        for seed in 0..400 {
            let rig = draw(level, seed);
            let scenario = check(&rig.text, KnownRules::These(&rules)).unwrap_or_else(|problems| {
                panic!("level {level:?}, seed {seed}: {problems:?}\n{}", rig.text)
            });
            most = most.max(scenario.faults.len());
            titles.insert((scenario.title.clone(), scenario.situation.clone()));
            assert_eq!(scenario.title, rig.title);
            let written: Vec<_> =
                scenario.faults.iter().map(|entry| (entry.fault, entry.onset)).collect();
            assert_eq!(written, rig.job.faults, "level {level:?}, seed {seed}");
            assert_eq!(draw(level, seed), rig, "the same level and seed draw the same rig");
        }
        assert_eq!(titles.len(), 1, "{titles:?}");
        assert_eq!(most, level.most_faults(), "{level:?}");
    }
}

#[test]
fn no_two_of_a_thousand_drawn_rigs_are_alike() {
    for level in Level::ALL {
        // The seed in the first line is no difference.
        let texts: BTreeSet<String> = (0..1000)
            .map(|seed| draw(level, seed).text.lines().skip(1).collect::<Vec<_>>().join("\n"))
            .collect();
        assert_eq!(texts.len(), 1000, "{level:?}");
        // Nor is a work order's number or a serial number alone.
        let rigs: BTreeSet<String> = (0..1000)
            .map(|seed| {
                let text = draw(level, seed).text;
                let told = ["elevation_m", "pressure_mmhg: N", "temperature_c: N", "name", "date"];
                let lines = text.lines().filter(|line| told.iter().any(|told| line.contains(told)));
                lines.collect::<Vec<_>>().join("\n")
            })
            .collect();
        assert_eq!(rigs.len(), 1000, "{level:?}");
    }
}

#[test]
fn drawn_rigs_are_fair() {
    let levels = Level::ALL;
    let pieces: Vec<(Level, u64)> = levels
        .iter()
        .flat_map(|level| (5000..5000 + seeds(60)).map(|seed| (*level, seed)))
        .collect();
    let all: Mutex<DrawnTally> = Mutex::default();
    let said = against(&pieces, |(level, seed)| {
        let mut tally = DrawnTally::default();
        let error = tally.add(*level, *seed).err();
        all.lock().unwrap().merge(&tally);
        error.map(|error| format!("level {level:?}, seed {seed}: {error}"))
    });
    assert!(said.is_empty(), "{}", said.join("\n"));
    let tally = all.into_inner().unwrap();
    assert!(tally.is_proven(), "{tally:#?}");
    let [none, one, two] = tally.by_faults;
    assert!(none > 10 && one > 40 && two > 10, "{tally:?}");
}

#[test]
fn a_drawn_rig_is_worked_kept_and_replayed_to_the_same_bits() {
    let desk = tempfile::tempdir().unwrap();
    let drawn =
        ["rehearse", "--drawn", "3", "--seed", "7", "--keep", "rig.ron", "--json", "--out", "a"];
    let said = run(desk.path(), &drawn);
    assert_eq!((said.status, said.error.as_str()), (0, ""), "{}", said.out);
    let of_rig: Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!(run(desk.path(), &["check", "rig.ron"]).status, 0);
    let kept = run(desk.path(), &["rehearse", "rig.ron", "--seed", "7", "--json", "--out", "b"]);
    let of_kept: Value = serde_json::from_str(&kept.out).unwrap();
    assert_eq!(of_rig, of_kept);
    let journal = |folder: &str| {
        std::fs::read_to_string(desk.path().join(folder).join("session.journal")).unwrap()
    };
    assert_eq!(journal("a"), journal("b"));
    let replayed = run(desk.path(), &["replay", "a/session.journal"]);
    assert_eq!(replayed.status, 0);
    let again = run(desk.path(), &["rehearse", "--drawn", "3", "--keep", "rig.ron"]);
    assert_eq!(again.status, 2, "a kept rig is never overwritten");
    assert!(again.error.contains("choose another name"), "{}", again.error);
    let words = run_on(desk.path(), &["drive", "--drawn", "1", "--words"], b"quit\n");
    assert!(words.out.contains("Level 1 of 3"), "{}", words.out);
    for wrong in [
        &["rehearse", "--drawn", "4"][..],
        &["rehearse", "--drawn", "1", "rig.ron"],
        &["rehearse", "rig.ron", "--keep", "other.ron"],
        &["rehearse"],
        &["trial", "--drawn", "1,9"],
        &["trial", "rig.ron", "--drawn", "1"],
    ] {
        assert_eq!(run(desk.path(), wrong).status, 2, "{wrong:?}");
    }
    let trial = run(desk.path(), &["trial", "--drawn", "1,2", "--runs", "4", "--json"]);
    let figures: Value = serde_json::from_str(&trial.out).unwrap();
    assert_eq!((trial.status, &figures["drawn"]["rigs"]), (0, &8.into()), "{}", trial.out);
}
