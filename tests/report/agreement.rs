//! The figures in JSON, HTML, PDF, CSV and words are the same to the last digit: they are taken out
//! of each and compared.

use serde_json::Value;

use super::desk::{Desk, SESSIONS};
use super::forms::{Lines, rows_of_page};

/// The cells of the line that begins with a name: what is parted by two spaces or more.
fn cells_of_line(text: &str, name: &str) -> Vec<String> {
    let line = text
        .lines()
        .map(str::trim)
        .find(|line| line.strip_prefix(name).is_some_and(|rest| rest.starts_with("  ")));
    let line = line.unwrap_or_else(|| panic!("no line `{name}` in\n{text}"));
    let rest = line.strip_prefix(name).unwrap();
    rest.split("  ").map(str::trim).filter(|cell| !cell.is_empty()).map(str::to_owned).collect()
}

/// The place of a column among the cells of a line.
fn place(column: &str) -> usize {
    ["as written", "recalculated", "true"].iter().position(|known| *known == column).unwrap_or(0)
}

fn figures(object: &Value) -> Vec<(String, String, String, String, f64)> {
    let text = |figure: &Value, key: &str| figure[key].as_str().unwrap().to_owned();
    let all = object["figures"].as_array().unwrap().iter();
    all.map(|one| {
        let value = one["value"].as_f64().unwrap();
        (text(one, "id"), text(one, "row"), text(one, "column"), text(one, "text"), value)
    })
    .collect()
}

#[test]
fn every_figure_is_the_same_in_json_page_paper_and_words() {
    for (scenario, operator) in SESSIONS {
        let desk = Desk::of(scenario, operator);
        let page = rows_of_page(&desk.text("report.html"));
        let (paper, words) = (desk.paper(), desk.text("debrief.txt"));
        let figures = figures(&desk.object);
        assert!(figures.len() >= 20, "{scenario}: {}", figures.len());
        for (id, row, column, text, value) in figures {
            let told = format!("{scenario}: {id}");
            assert_eq!(text.parse::<f64>().unwrap().to_bits(), value.to_bits(), "{told}");
            let on_page =
                page.iter().filter(|one| one.name == row).find_map(|one| one.cell(&column));
            assert_eq!(on_page, Some(text.as_str()), "{told} on the page");
            if id.starts_with("marks.") {
                marks_agree(&desk, (&id, &row, &text), &paper, &words);
                continue;
            }
            for (where_, said) in [("paper", &paper), ("words", &words)] {
                let cells = cells_of_line(said, &row);
                assert_eq!(cells.get(place(&column)), Some(&text), "{told} in {where_}: {cells:?}");
            }
        }
    }
}

/// The marks: in words they stand as `readings  25.0 of  25`.
#[track_caller]
fn marks_agree(desk: &Desk, (id, row, text): (&str, &str, &str), paper: &str, words: &str) {
    let on_paper = cells_of_line(paper, row);
    assert!(on_paper.iter().any(|cell| cell == text), "{id} on paper: {on_paper:?}");
    if row == "needed to pass" {
        assert!(words.contains(&format!("{text} needed")), "{id} in words");
        return;
    }
    let line = words.lines().find(|line| line.trim_start().starts_with(row)).unwrap();
    let numbers: Vec<&str> = line.split(&[' ', ','][..]).filter(|word| !word.is_empty()).collect();
    let at = if id.ends_with(".of") { 3 } else { 1 };
    assert_eq!(numbers.get(at), Some(&text), "{id} in words: {line}");
    let raw = match row {
        "total" => desk.object["marks"]["total"].as_f64(),
        _ => {
            let parts = desk.object["marks"]["parts"].as_array().unwrap();
            let part = parts.iter().find(|part| part["name"] == row).unwrap();
            part[if at == 3 { "weight" } else { "got" }].as_f64()
        }
    };
    if !(row == "total" && at == 3) {
        let decimals = text.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        assert_eq!(format!("{:.decimals$}", raw.unwrap()), text, "{id} against the raw mark");
    }
}

#[test]
fn every_reading_is_the_same_in_json_page_paper_table_and_words() {
    for (scenario, operator) in SESSIONS {
        let desk = Desk::of(scenario, operator);
        let table = desk.text("readings.csv");
        let mut table = csv::Reader::from_reader(table.as_bytes());
        let heads: Vec<String> = table.headers().unwrap().iter().map(str::to_owned).collect();
        assert_eq!(
            heads,
            ["time", "reading", "unit", "written", "visible", "fault-free", "error, divisions"]
        );
        let lines: Vec<Vec<String>> =
            table.records().map(|line| line.unwrap().iter().map(str::to_owned).collect()).collect();
        let readings = desk.object["marks"]["readings"].as_array().unwrap();
        assert_eq!(lines.len(), readings.len());
        assert!(lines.len() > 8, "{scenario}: {}", lines.len());
        let page = rows_of_page(&desk.text("report.html"));
        let words = desk.text("debrief.txt");
        let paper = Lines::of(&desk.path("report.pdf"));
        for (line, raw) in lines.iter().zip(readings) {
            let [time, name, unit, written, visible, fault_free, error] = line.as_slice() else {
                panic!("{line:?}")
            };
            for (key, text) in
                [("written", written), ("seen", visible), ("undisturbed", fault_free)]
            {
                assert_eq!(&format!("{:.2}", raw[key].as_f64().unwrap() + 0.0), text, "{line:?}");
            }
            assert_eq!(
                error.trim_start_matches(['+', '-']),
                format!("{:.2}", raw["off_divisions"].as_f64().unwrap())
            );
            assert_eq!(raw["unit"].as_str().unwrap(), unit);
            let row = page
                .iter()
                .find(|row| row.cell("time") == Some(time) && row.cell("reading") == Some(name));
            let row = row.unwrap_or_else(|| panic!("{line:?} is not on the page"));
            for (head, text) in heads.iter().zip(line) {
                assert_eq!(row.cell(head), Some(text.as_str()), "{line:?} on the page");
            }
            let cells = [time, name, written, visible, fault_free, unit, error].map(String::as_str);
            assert!(paper.have_row(&cells), "{line:?} on paper");
            let in_words = [written, visible, error].map(String::as_str);
            assert!(
                words.lines().any(|said| {
                    let rest = said.trim_start().strip_prefix(&format!("{time} {name}"));
                    let said: Vec<&str> = rest.unwrap_or_default().split_whitespace().collect();
                    said.ends_with(&in_words)
                }),
                "{line:?} in words"
            );
        }
    }
}
