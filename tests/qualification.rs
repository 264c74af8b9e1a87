//! The qualification page: what a sceptical trainer reads first. It is written from the rows of the
//! reference tests and held to be current.

use std::fmt::Write as _;

use bench_tests::Row;

use crate::reference::groups;

/// Set to anything, this variable makes the test write the page instead of comparing it.
const WRITE: &str = "STEADY_DRAW_WRITE_QUALIFICATION";

const PREFACE: &str = "\
# What this bench is held against

Written by the tests: do not edit this page. After a change of a law or of its figures, write it anew with

```sh
STEADY_DRAW_WRITE_QUALIFICATION=1 cargo test -p bench-tests --no-default-features qualification
```

The sums of the method, and the laws of the simulated rig by which air flows, water stands and the pen is driven, are
compared with figures that were not made by this program; the laws that are not stand in the next section. Each row names the law, the source of the figures, how sure they are, how many were compared, the largest deviation
allowed, and the largest one found. The tests fail when a row exceeds what it allows, and when this page is out of date.

How sure the figures are:

| mark | what it means |
|---|---|
| published | read in the named source, which prints the figure |
| computed | worked out from published equations, or from the rig's own equations, with a tool independent of this program; no publication prints the figure |
| from memory | known to the trade, not read again |
| common practice, no source | a fact of the trade that nobody states in a document known to us |

A row whose source is *the rig's equations* proves that the program solves those equations rightly. It does not prove that
a real sampler obeys them. *relative* deviations are fractions of the figure itself, so that 0.003 is 0.3 %.

## What is not qualified

* No instrument of any maker was measured. Blower, recorder, warm-up, leaks and the anemometer in the flow controller are
  plausible choices that make the bench behave as the trade expects; a scenario can set other values.
* Least certain is how fast a loading filter gains resistance: by a factor of several, with the size of the dust.
* The moist-air formula is stated for 15 to 27 degrees Celsius and 600 to 1100 hPa. Outside it is an extrapolation, within
  70 parts in a million of an independent equation of state between 0 and 45 degrees.
* The calibrator's orifice has one constant effective area. A plate of ISO 5167-2 drifts with the Reynolds number: the
  model lies 0.4 to 1.0 % below it. A real calibrator has no straight pipe before its plate either, so that the standard
  is a stand-in, good to 1 or 2 % in level; a certificate's slope and intercept take that up.
* All electrical power ends in the sampled air, less 3 W for each kelvin that the casing gives off (chosen). How fast the
  windings give their heat (240 s) is chosen as well, and the air behind the blower is taken to be mixed and at most 100 K
  warmer than outside: where the inlet is covered, that limit counts and the balance of energy does not.
* The method has a bias that the bench shows and does not correct: a line made at full voltage, used behind the controller,
  reads 2.1 % low in flow at 1.13 m3/min, 1.2 % at 1.30. The debrief names it.
* What size of particle gets in, and how wind at the inlet changes that (the velocity at which it captures), are not
  modelled: samplers of this kind read up to 30 % low, and samplers of different shape lie up to 20 % apart (Journal of the
  Air Pollution Control Association 34 (1984) 144, abstract). Nor is dust that settles on an idle filter (40 CFR Part 50,
  Appendix B, 6.7; the same journal 26 (1976) 881, abstract).
* These are laws of the rig with no figure from outside; their constants are chosen, and tests of this program alone say that
  they are solved as they are written: the lag of the thermometer and what the sun adds, the lag of the recorder's own
  pressure, clocks (the timer's dial, trippers and meter, the turning of the chart), and how thunder comes near.
* Weather, mains and wind are drawn at random with plausible spreads; they follow no record of any place. Nor do the hours
  of a run: the day's wave, the tide of the air, the front, gusts and their damping, dust, and a cut of the power.
* The rim of a meniscus is drawn by a straight line over the bore: in bores wider than 8 mm it stands up to 0.25 mm high.
* While the blower warms up the chart passes a shallow minimum near 7 minutes, 0.08 divisions below its end: time constants
  that were chosen, nothing that a real motor is known to do.
* How much a held flow wanders (0.3 %, by eddies at the controller's probe) and the mains (0.1 to 0.3 V) is chosen.
* How finely an eye reads, how far a tap frees the pen, and how fast a valve lets air through are chosen, not measured.
* The bias of a laboratory is drawn with a standard deviation of 0.8 % of the flow. That is chosen; a transfer standard is
  asked for 2 %. The spread of careful volumes below follows from it and from the scatter of readings.
* The rules and marks follow 40 CFR Part 50, Appendix B, and common practice, and each finding names its source. No outside
  figure stands behind the marks; the next section says what they are held to. The bench is a training aid and qualifies
  nobody by itself.

## What the marks are held to

These are tests of this program alone:

* Each rule is broken by one session that breaks nothing else, and kept by one that a stricter rule would find fault with
  (`tests/sessions/rules/`). What a decision or report is worth does not depend on its wording.
* In the careful session of every scenario, deeds are left out, repeated and moved, entries are left blank and written too
  early, decisions are contradicted, and faults are reported that nothing has shown. Each such variant costs something, or
  is listed with the reason why it may cost nothing (`tests/sessions/adversary/`).
* The careful operator passes every scenario, and everybody with a habit that a scenario is about does not
  (`tests/sessions/proof.rs`).
* With any two faults of the catalogue on one bench the careful operator passes and finds both, or the pair is listed as one
  that hides itself, with the reason (`tests/faults/pairs.rs`).
* On a sound bench the careful operator reports nothing (`tests/faults/mod.rs`, ten sessions).
* The statistics of examinations are compared with those of general-purpose libraries, below.
";

/// The whole page.
fn page() -> String {
    let mut page = PREFACE.to_owned();
    let groups = groups();
    let figures: usize = groups.iter().flat_map(|group| &group.rows).map(|row| row.figures).sum();
    let rows: usize = groups.iter().map(|group| group.rows.len()).sum();
    let _ = writeln!(page, "\n## What was compared\n\n{rows} rows, {figures} figures.");
    for group in groups {
        let _ = writeln!(page, "\n### {}\n", group.title);
        page.push_str("| law or sum | figures | in | allowed | worst found | mark | source |\n");
        page.push_str("|---|--:|---|--:|--:|---|---|\n");
        for row in &group.rows {
            page.push_str(&line(row));
        }
    }
    page
}

/// A row of the page.
fn line(row: &Row) -> String {
    let Row { law, source, mark, figures, measure, tolerance, worst } = row;
    let unit = if *measure == "1" { "–" } else { measure };
    let (allowed, found) = (two_digits(*tolerance), two_digits(*worst));
    // The mark stands in a column of its own.
    let source = source.strip_prefix("computed ").unwrap_or(source);
    format!("| {law} | {figures} | {unit} | {allowed} | {found} | {mark} | {source} |\n")
}

/// A number rounded to two digits: enough to judge by, and the same on every machine.
fn two_digits(value: f64) -> String {
    if value <= 0.0 {
        return "0".to_owned();
    }
    let scientific = format!("{value:.1e}");
    let rounded: f64 = scientific.parse().unwrap_or(value);
    if rounded < 1e-3 { scientific.replace(".0e", "e") } else { rounded.to_string() }
}

#[test]
fn the_page_is_current() {
    let path = bench_tests::tests_folder().join("QUALIFICATION.md");
    let current = page();
    if std::env::var_os(WRITE).is_some() {
        std::fs::write(&path, current).unwrap();
        return;
    }
    let written = std::fs::read_to_string(&path).unwrap_or_default();
    let differing = current.lines().zip(written.lines().chain(std::iter::repeat("")));
    let first = differing.enumerate().find(|(_, (now, then))| now != then);
    assert!(
        written == current,
        "tests/QUALIFICATION.md is out of date, first at line {}: write it anew with\n  {WRITE}=1 \
         cargo test -p bench-tests --no-default-features qualification",
        first.map_or_else(|| current.lines().count() + 1, |(index, _)| index + 1)
    );
}

#[test]
fn numbers_have_two_digits() {
    for (value, shown) in [
        (0.0, "0"),
        (1e-9, "1e-9"),
        (4.37e-5, "4.4e-5"),
        (0.003, "0.003"),
        (0.0104, "0.01"),
        (0.25, "0.25"),
        (12.6, "13"),
    ] {
        assert_eq!(two_digits(value), shown);
    }
}

#[test]
fn no_law_stands_there_twice_with_one_source() {
    let mut seen = Vec::new();
    for row in groups().iter().flat_map(|group| &group.rows) {
        let key = (row.law, row.source);
        assert!(!seen.contains(&key), "{key:?} stands there twice");
        seen.push(key);
    }
}
