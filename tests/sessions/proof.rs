//! The scenarios that come with the program are fair, and what is counted does not depend on how.

use proptest::prelude::*;
use sim_core::scenario::{KnownRules, Scenario, check};
use sim_core::trial::tally::{MarkSums, NoticeCount, RuleCount};
use sim_core::trial::{Tally, TrialVerdict, block, judge, rule_figures};

/// Seeds in the quick proof; the long one stands in the scenarios' README.
const SEEDS: std::ops::Range<u64> = 5001..5041;

fn scenarios() -> Vec<(String, String, Scenario)> {
    let folder = bench_tests::repository().join("scenarios");
    let files = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut found: Vec<_> = files
        .filter(|path| path.extension().is_some_and(|ending| ending == "ron"))
        .map(|path| {
            let text = std::fs::read_to_string(&path).unwrap();
            let scenario = check(&text, KnownRules::Any).unwrap();
            (path.file_name().unwrap().to_string_lossy().into_owned(), text, scenario)
        })
        .collect();
    found.sort_by(|one, other| one.0.cmp(&other.0));
    found
}

#[test]
fn every_scenario_is_proven() {
    let mut against = Vec::new();
    for (name, text, scenario) in scenarios() {
        let faults: Vec<_> = scenario.faults.iter().map(|entry| entry.fault).collect();
        let names: Vec<_> = faults.iter().map(|fault| fault.name()).collect();
        let sitting = std::iter::once("careful").chain(scenario.about.iter().map(String::as_str));
        let sat: Vec<(&str, Tally)> = sitting
            .map(|operator| (operator, block(&text, &faults, operator, SEEDS).unwrap().tally))
            .collect();
        let sat: Vec<(&str, &Tally)> = sat.iter().map(|(name, tally)| (*name, tally)).collect();
        assert!(!scenario.about.is_empty(), "{name} is about no habit");
        let judged = judge(&scenario.about, &names, &sat);
        if judged.verdict != TrialVerdict::Proven {
            against.push(format!("{name}: {}", judged.reasons.join("; ")));
        }
    }
    assert!(against.is_empty(), "{}", against.join("\n"));
}

#[test]
fn a_trial_in_pieces_counts_the_same() {
    let (_, text, scenario) = scenarios().remove(2);
    let faults: Vec<_> = scenario.faults.iter().map(|entry| entry.fault).collect();
    let operator = "hurried+skips-leak-check";
    let whole = block(&text, &faults, operator, 1..8).unwrap().tally;
    let mut pieces = block(&text, &faults, operator, 5..8).unwrap().tally;
    pieces.merge(&block(&text, &faults, operator, 1..5).unwrap().tally);
    assert_eq!(whole, pieces);
    assert!(whole.is_of(7, 1));
    assert_eq!((whole.sessions, whole.faults[0].in_force), (7, 7));
    assert!(whole.rules["two-minutes"].broken == 7, "{:?}", whole.rules);
}

fn sums() -> impl Strategy<Value = MarkSums> {
    (0..5_000_000_u64, 0..5_000_000_000_000_u64)
        .prop_map(|(sum, squares)| MarkSums { sum, squares })
}

fn tally() -> impl Strategy<Value = Tally> {
    let rule = prop::sample::select(vec!["warm-up", "both-legs", "thunder"]);
    let broken = (0..50_u64, 0..5_000_000_u64, sums());
    let rules = prop::collection::btree_map(rule, broken, 0..3);
    let seeds = prop::collection::btree_set(0..1000_u64, 0..9);
    let counts = (0..50_u64, 0..50_u64, 0..50_u64, 0..50_u64);
    let assessed = prop::array::uniform6(0..50_u64);
    (counts, prop::array::uniform6(sums()), assessed, rules, seeds).prop_map(
        |((passed, in_force, found, false_alarms), parts, assessed, rules, seeds)| {
            let mut tally = Tally {
                sessions: 50,
                passed,
                total: parts[0],
                parts,
                assessed,
                faults: vec![NoticeCount { in_force, found, ..NoticeCount::default() }],
                false_alarms,
                ..Tally::default()
            };
            for (rule, (broken, broken_rest, rests)) in rules {
                let count = RuleCount { reached: 50, broken, rests, broken_rest };
                tally.rules.insert(rule.to_owned(), count);
                tally.decided.insert(rule.to_owned(), broken);
            }
            // A tally keeps the lowest few seeds in order.
            tally.passed_seeds = seeds.into_iter().take(5).collect();
            tally
        },
    )
}

proptest! {
    #[test]
    fn the_order_of_merging_makes_no_difference(
        tallies in prop::collection::vec(tally(), 1..6),
        order in prop::collection::vec(0..1000_u32, 6),
        cut in 0..6_usize,
    ) {
        let merged = |tallies: &[Tally]| {
            let mut all = Tally::new(1);
            tallies.iter().for_each(|tally| all.merge(tally));
            all
        };
        let straight = merged(&tallies);
        let mut shuffled: Vec<_> = tallies.iter().cloned().zip(order).collect();
        shuffled.sort_by_key(|(_, key)| *key);
        let shuffled: Vec<Tally> = shuffled.into_iter().map(|(tally, _)| tally).collect();
        let (left, right) = shuffled.split_at(cut.min(shuffled.len()));
        let in_two = merged(&[merged(left), merged(right)]);
        prop_assert_eq!(&straight, &in_two);
        prop_assert_eq!(rule_figures(&tallies), rule_figures([&in_two]));
    }
}
