//! Whatever stands in a file, checking it comes to an end, and points into the file.

use proptest::prelude::*;
use sim_core::scenario::text_places::TextPlaces;

use super::{BASE, checked};

/// Checks a text; every problem must point to a line and column that are there.
fn points_into(text: &str) -> Result<(), TestCaseError> {
    let Err(problems) = checked(text) else { return Ok(()) };
    prop_assert!(!problems.is_empty());
    let lines: Vec<usize> = text.split('\n').map(|line| line.chars().count()).collect();
    for problem in problems {
        let length = lines.get(problem.line.wrapping_sub(1)).copied();
        prop_assert!(
            length.is_some_and(|length| (1..=length + 1).contains(&problem.column)),
            "{problem} points out of the text"
        );
        prop_assert!(!problem.what.is_empty() && !problem.mend.is_empty());
    }
    Ok(())
}

/// The base with the characters from one place to another replaced.
fn spliced(from: usize, length: usize, with: &str) -> String {
    let before: String = BASE.chars().take(from).collect();
    let after: String = BASE.chars().skip(from + length).collect();
    format!("{before}{with}{after}")
}

proptest! {
    #[test]
    fn any_text(text in "\\PC{0,200}") {
        points_into(&text)?;
        TextPlaces::of(&text);
    }

    #[test]
    fn anything_made_of_signs(text in r#"[()\[\]{}:,"'#rb/*\\ \n0-9a-f!-]{0,120}"#) {
        TextPlaces::of(&text);
        points_into(&format!("(format: 1, title: {text}"))?;
    }

    #[test]
    fn a_scenario_with_a_hole(from in 0..BASE.len(), length in 1..40_usize) {
        points_into(&spliced(from, length, ""))?;
    }

    #[test]
    fn a_scenario_with_something_put_in(
        from in 0..BASE.len(),
        length in 0..4_usize,
        with in r#"[()\[\],:"'0-9eE.µ-]{1,6}"#,
    ) {
        points_into(&spliced(from, length, &with))?;
    }
}

#[test]
fn the_place_of_an_entry_is_where_the_parser_sees_it() {
    // An unknown field is reported by the parser, a bad value by a rule: both must agree.
    let unknown = BASE.replace("points: 7", "pints: 7");
    let bad = BASE.replace("points: 7", "points: 4");
    let place =
        |text: &str| checked(text).expect_err("a problem").first().map(|p| (p.line, p.column));
    assert_eq!(place(&unknown), place(&bad));
}
