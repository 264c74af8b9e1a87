//! The sheets agree with the faults that they describe.

use super::{Arises, Fault, Noticed, Response, sheets};

/// Names of all faults, from what a reader of scenarios is told when there is no such fault.
fn known() -> Vec<&'static str> {
    let error = ron::from_str::<Fault>("None").unwrap_err();
    let ron::Error::NoSuchEnumVariant { expected, .. } = error.code else { panic!("{error}") };
    expected.to_vec()
}

#[test]
fn every_fault_has_one_sheet_and_every_sheet_its_fault() {
    let mut named: Vec<&str> = sheets().map(|sheet| sheet.name).collect();
    let mut known = known();
    named.sort_unstable();
    known.sort_unstable();
    assert_eq!(named, known);
    for sheet in sheets() {
        assert_eq!(sheet.usual.sheet(), sheet, "{} shows another fault", sheet.name);
        // The derived name is the variant's own: a scenario is read by it.
        let written = ron::to_string(&sheet.usual).unwrap();
        assert_eq!(written.split('(').next(), Some(sheet.name));
    }
}

#[test]
fn every_sheet_is_filled_in() {
    for sheet in sheets() {
        for (what, text) in [("cause", sheet.cause), ("sign", sheet.sign), ("check", sheet.check)] {
            assert!(text.len() > 20 && text.ends_with('.'), "{}: {what} {text:?}", sheet.name);
        }
        assert!(!sheet.title.is_empty() && !sheet.title.ends_with('.'), "{}", sheet.name);
        assert!(!sheet.right.is_empty(), "{} has no right response", sheet.name);
        let mut right: Vec<Response> = sheet.right.to_vec();
        right.sort_unstable();
        right.dedup();
        assert_eq!(right.len(), sheet.right.len(), "{} names a response twice", sheet.name);
        if let Noticed::Never(why) = sheet.noticed {
            assert!(why.len() > 20, "{}: {why}", sheet.name);
        }
        let size = sheet.usual.size();
        assert!(size.is_none_or(|size| size.in_range()), "{} is out of its range", sheet.name);
    }
}

#[test]
fn papers_are_as_they_are_from_the_start() {
    for sheet in sheets().filter(|sheet| sheet.name.starts_with("Certificate")) {
        assert_eq!(sheet.arises, Arises::FromTheStart, "{}", sheet.name);
    }
}
