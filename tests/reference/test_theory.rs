//! Statistics of examinations against general-purpose libraries (their versions stand beside each
//! figure in the table; `data/test_theory.py` makes it anew).

use std::collections::BTreeMap;

use bench_tests::{Mark, Row, Worst};
use sim_core::trial::pass_rate;
use sim_core::trial::statistics::agreement::DecisionTable;
use sim_core::trial::statistics::correlation::{fisher_interval, pearson, point_biserial};
use sim_core::trial::statistics::moments::{quantile, sorted, variance};
use sim_core::trial::statistics::reliability::{alpha, kr20};
use sim_core::trial::statistics::two_parameter::{TwoParameterFit, fit};

use super::{number, table};

const ITEMS: usize = 8;
const PASS_MARK: f64 = 75.0;

/// One invented person.
struct Person {
    items: [bool; ITEMS],
    parts: [f64; 6],
    second: [f64; 6],
}

impl Person {
    fn totals(&self) -> (f64, f64) {
        (self.parts.iter().sum(), self.second.iter().sum())
    }
}

fn people() -> Vec<Person> {
    let rows = table("test_theory_people.csv");
    let person = |row: &BTreeMap<String, String>| {
        let of = |what: &str, n: usize| number(row, &format!("{what}_{}", n + 1));
        Person {
            items: std::array::from_fn(|n| of("item", n) > 0.5),
            parts: std::array::from_fn(|n| of("part", n)),
            second: std::array::from_fn(|n| of("second", n)),
        }
    };
    rows.iter().map(person).collect()
}

/// The figures of the libraries by name.
fn figures() -> BTreeMap<String, f64> {
    let rows = table("test_theory_figures.csv");
    rows.iter().map(|row| (row["figure"].clone(), number(row, "value"))).collect()
}

fn fitted(people: &[Person]) -> TwoParameterFit {
    let answers: Vec<[Option<bool>; ITEMS]> =
        people.iter().map(|person| person.items.map(Some)).collect();
    let rows: Vec<&[Option<bool>]> = answers.iter().map(|row| &row[..]).collect();
    fit(&rows)
}

/// Alpha, KR-20 and kappa.
fn reliability(people: &[Person], figures: &BTreeMap<String, f64>) -> Worst {
    let mut worst = Worst::new();
    let parts: Vec<&[f64]> = people.iter().map(|person| &person.parts[..]).collect();
    worst.absolute(alpha(&parts).unwrap(), figures["alpha"]);
    let items: Vec<&[bool]> = people.iter().map(|person| &person.items[..]).collect();
    worst.absolute(kr20(&items).unwrap(), figures["kr20"]);
    let decisions = people.iter().map(Person::totals);
    let passed = decisions.map(|(first, second)| (first >= PASS_MARK, second >= PASS_MARK));
    worst.absolute(DecisionTable::of(passed).kappa().unwrap(), figures["kappa"]);
    worst
}

/// Point-biserial and parallel correlation with its interval.
fn correlation(people: &[Person], figures: &BTreeMap<String, f64>) -> Worst {
    let mut worst = Worst::new();
    for item in 0..ITEMS {
        let rows: Vec<(bool, f64)> = people
            .iter()
            .map(|person| (person.items[item], person.totals().0 - person.parts[3]))
            .collect();
        let named = format!("point_biserial_{}", item + 1);
        worst.absolute(point_biserial(&rows).unwrap(), figures[&named]);
    }
    let totals: Vec<(f64, f64)> = people.iter().map(Person::totals).collect();
    let r = pearson(&totals).unwrap();
    let [low, high] = fisher_interval(r, totals.len()).unwrap();
    worst.absolute(r, figures["correlation"]);
    worst.absolute(low, figures["correlation_low"]);
    worst.absolute(high, figures["correlation_high"]);
    worst
}

/// Percentiles and variance of the total.
fn distribution(people: &[Person], figures: &BTreeMap<String, f64>) -> Worst {
    let mut worst = Worst::new();
    let totals = sorted(&people.iter().map(|person| person.totals().0).collect::<Vec<f64>>());
    for percent in [5, 25, 50, 75, 95] {
        let found = quantile(&totals, f64::from(percent) / 100.0).unwrap();
        worst.relative(found, figures[&format!("percentile_{percent}")]);
    }
    worst.relative(variance(&totals), figures["variance"]);
    worst
}

/// Both ends of Wilson's interval.
fn wilson(figures: &BTreeMap<String, f64>) -> Worst {
    let mut worst = Worst::new();
    for (count, of) in [(0, 50), (3, 50), (50, 50), (412, 1000), (1, 31_000)] {
        let interval = pass_rate(count, of);
        worst.absolute(interval.low, figures[&format!("wilson_low_{count}_{of}")]);
        worst.absolute(interval.high, figures[&format!("wilson_high_{count}_{of}")]);
    }
    worst
}

/// Slope and location of every item.
fn two_parameter(people: &[Person], figures: &BTreeMap<String, f64>) -> Worst {
    let mut worst = Worst::new();
    for (item, number) in fitted(people).items.iter().zip(1..) {
        let item = item.unwrap();
        worst.absolute(item.slope, figures[&format!("slope_{number}")]);
        worst.absolute(item.location().unwrap(), figures[&format!("location_{number}")]);
    }
    worst
}

/// Rows of the qualification page.
pub fn rows() -> Vec<Row> {
    let (people, figures) = (people(), figures());
    let row = |worst: Worst, law, source, unit, bound| {
        worst.row(law, source, Mark::Computed, unit, bound)
    };
    vec![
        row(
            reliability(&people, &figures),
            "alpha, KR-20, kappa",
            "computed with pingouin 0.7.0 and statsmodels 0.15.0",
            "absolute",
            1e-9,
        ),
        row(
            correlation(&people, &figures),
            "point-biserial correlation; correlation with its interval",
            "computed with SciPy 1.17.1",
            "absolute",
            1e-9,
        ),
        row(
            distribution(&people, &figures),
            "percentiles and variance",
            "computed with NumPy 2.4.6",
            "relative",
            1e-12,
        ),
        row(
            wilson(&figures),
            "Wilson's interval of a share",
            "computed with statsmodels 0.15.0",
            "absolute",
            1e-9,
        ),
        row(
            two_parameter(&people, &figures),
            "two-parameter logistic model: slope and location",
            "computed with girth 0.8.0 (marginal maximum likelihood)",
            "absolute",
            0.02,
        ),
    ]
}

#[test]
fn every_figure_of_the_libraries() {
    bench_tests::assert_rows(&rows());
    let checked: usize = rows().iter().map(|row| row.figures).sum();
    assert_eq!(checked, figures().len(), "a figure of the table is not compared");
}

#[test]
fn people_of_more_items_kept_have_more_ability() {
    let people = people();
    let fitted = fitted(&people);
    let pairs: Vec<(f64, f64)> = people
        .iter()
        .zip(&fitted.abilities)
        .map(|(person, ability)| {
            (person.items.iter().filter(|&&kept| kept).count() as f64, *ability)
        })
        .collect();
    assert!(pearson(&pairs).unwrap() > 0.97);
}
