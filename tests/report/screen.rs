//! The page in a real browser: nothing on the console, nothing asked from outside, no sideways
//! scrolling on a telephone, and whole pages of US Letter or A4 when it is printed.

use std::path::Path;

use super::browser::Browser;
use super::desk::{Desk, SESSIONS, paper_text, tool, word_sides};

/// How far the widest thing reaches beyond the window, and the smallest size of text that is shown.
const OVERHANG: &str =
    "document.documentElement.scrollWidth - document.documentElement.clientWidth";
/// The words of the first things that reach beyond the window.
const CUT: &str = "[...document.querySelectorAll('main *, header *, footer *')].filter(e => { \
    const r = e.getBoundingClientRect(); return r.width > 0 && (r.right > document.documentElement.clientWidth + 0.5 || r.left < -0.5) \
    && getComputedStyle(e).position !== 'absolute' && !e.closest('thead'); }) \
    .slice(0, 3).map(e => e.outerHTML.slice(0, 120))";
/// The smallest text on the page, px as shown: in plots their scale counts.
const SMALLEST: &str = "Math.min(...[...document.querySelectorAll('p, td, th, li, dd, h2, figcaption, svg text')] \
    .filter(e => e.getClientRects().length > 0 && e.textContent.trim() !== '').map(e => { \
    const svg = e.closest('svg'); const size = parseFloat(getComputedStyle(e).fontSize); \
    return svg ? size * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : size; }))";

/// Asserts that a page is right at a width.
#[track_caller]
pub fn is_right(browser: &mut Browser, path: &Path, width: u32) {
    browser.open(path, width);
    let told = format!("{} at {width} px", path.display());
    assert_eq!(browser.console(), Vec::<String>::new(), "{told}: the console");
    let requests = browser.requests();
    assert!(requests.iter().any(|url| url.starts_with("file://")), "{told}: {requests:?}");
    let others: Vec<&String> = requests
        .iter()
        .filter(|url| !url.starts_with("data:") && !url.ends_with(".html"))
        .collect();
    assert!(others.is_empty(), "{told} asks for {others:?}");
    assert_eq!(browser.ask(OVERHANG), 0, "{told}: it scrolls sideways");
    assert_eq!(browser.ask(CUT), serde_json::json!([]), "{told}: cut off");
    let smallest = browser.ask(SMALLEST).as_f64().unwrap();
    assert!(smallest > 10.9, "{told}: text of {smallest} px");
    let plex = browser.ask("document.fonts.check('16px \"IBM Plex Sans\"') && [...document.fonts].every(f => f.status !== 'error')");
    assert_eq!(plex, true, "{told}: the type");
}

#[test]
fn every_page_is_right_on_a_telephone_and_on_a_screen() {
    let mut browser = Browser::start();
    for (scenario, operator) in SESSIONS {
        let desk = Desk::of(scenario, operator);
        for width in [360, 768, 1280] {
            is_right(&mut browser, &desk.path("report.html"), width);
        }
    }
}

#[test]
fn a_page_that_is_wrong_is_told() {
    // What the checks above look for is there to be found.
    let mut browser = Browser::start();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("wrong.html");
    let page = "<!DOCTYPE html><title>x</title><main><p style='width:900px'>wide</p>\
        <img src='http://127.0.0.1:9/x.png'></main><script>console.error('no')</script>";
    std::fs::write(&path, page).unwrap();
    browser.open(&path, 360);
    assert!(!browser.console().is_empty());
    assert!(browser.requests().iter().any(|url| url.starts_with("http://127.0.0.1")));
    assert!(browser.ask(OVERHANG).as_f64().unwrap() > 100.0);
    assert_eq!(browser.ask(CUT).as_array().unwrap().len(), 1);
}

#[test]
fn a_page_is_printed_on_the_paper_that_is_there() {
    let mut browser = Browser::start();
    let desk = Desk::of(SESSIONS[1].0, SESSIONS[1].1);
    browser.open(&desk.path("report.html"), 1000);
    for (paper, inches) in [("letter", (8.5, 11.0)), ("A4", (210.0 / 25.4, 297.0 / 25.4))] {
        let printed = desk.path("printed.pdf");
        browser.print(&printed, inches);
        let about = tool("pdfinfo", &[printed.to_str().unwrap()]);
        let size = about.lines().find(|line| line.starts_with("Page size")).unwrap();
        assert!(size.contains(&format!("({paper})")), "{size}");
        let text = paper_text(&printed);
        for words in ["Your results and the true values", "Read both legs", "Provenance", "m³/min"]
        {
            assert!(text.contains(words), "{words} is not on the printed page ({paper})");
        }
        // Nothing reaches into the margins: 15 mm are left at the sides.
        let most = 72.0 * inches.0 - 41.0;
        for (left, right) in word_sides(&printed) {
            assert!(left > 41.0 && right < most, "{paper}: a word from {left} to {right} pt");
        }
    }
}

#[test]
fn a_printed_page_reads_in_black_and_white() {
    let mut browser = Browser::start();
    let desk = Desk::of(SESSIONS[1].0, SESSIONS[1].1);
    browser.open(&desk.path("report.html"), 1000);
    let printed = desk.path("printed.pdf");
    browser.print(&printed, (8.5, 11.0));
    // In grey, without background: ink is black and paper is white.
    let shot = desk.path("printed");
    tool("pdftoppm", &["-gray", "-r", "40", printed.to_str().unwrap(), shot.to_str().unwrap()]);
    let sheets =
        std::fs::read_dir(shot.parent().unwrap()).unwrap().flatten().map(|entry| entry.path());
    let sheets: Vec<_> =
        sheets.filter(|path| path.extension().is_some_and(|kind| kind == "pgm")).collect();
    assert!(sheets.len() > 4, "{}", sheets.len());
    for sheet in sheets {
        let bytes = std::fs::read(&sheet).unwrap();
        // A grey map has three lines of head, then a byte for each pixel.
        let head = bytes.iter().enumerate().filter(|(_, byte)| **byte == b'\n').nth(2).unwrap().0;
        let pixels = &bytes[head + 1..];
        let white = pixels.iter().filter(|pixel| **pixel > 250).count();
        assert!(10 * white > 7 * pixels.len(), "{}: the paper is not white", sheet.display());
        assert!(pixels.iter().any(|pixel| *pixel < 60), "{}: nothing is black", sheet.display());
    }
}
