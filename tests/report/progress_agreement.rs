//! What `progress` says is the same to the last digit in words, JSON, page and paper, and it is what
//! the reports of the sessions themselves say.

use std::io::Write as _;
use std::path::Path;

use bench_tests::program::run;
use serde_json::Value;
use sim_core::operator;
use sim_core::session::Session;
use sim_core::session::clock::ClockEvent;
use sim_core::session::journal::{JournalSink, SinkError};

use super::forms::{Lines, between, each_between, rows_of_page, words};
use super::progress::{journals, scenarios};

/// A progress in every form.
struct Forms {
    object: Value,
    words: String,
    page: String,
    paper: Lines,
}

impl Forms {
    #[track_caller]
    fn of(folder: &Path) -> Self {
        let scenarios = scenarios();
        let arguments = ["progress", "journals", "--scenarios", &scenarios, "--out", "out"];
        let said = run(folder, &arguments);
        assert_eq!((said.status, said.error.as_str()), (0, ""));
        let json = run(folder, &["progress", "journals", "--scenarios", &scenarios, "--json"]);
        let read = |name: &str| std::fs::read_to_string(folder.join("out").join(name)).unwrap();
        // The object that is printed is the one in the file, to the last letter.
        assert_eq!(json.out, read("progress.json"));
        Self {
            object: serde_json::from_str(&json.out).unwrap(),
            words: said.out,
            page: read("progress.html"),
            paper: Lines::of(&folder.join("out/progress.pdf")),
        }
    }

    fn list(&self, key: &str) -> &Vec<Value> {
        self.object[key].as_array().unwrap()
    }

    /// Asserts that a row stands in a table of the page and of the paper.
    #[track_caller]
    fn have_row(&self, cells: &[&str]) {
        let page = rows_of_page(&self.page);
        assert!(page.iter().any(|row| row.all() == cells), "{cells:?} is not on the page");
        assert!(self.paper.have_row(cells), "{cells:?} is not on the paper");
    }

    #[track_caller]
    fn words_have(&self, line: &str) {
        let has = self.words.lines().any(|said| words(said) == line);
        assert!(has, "no line `{line}` in\n{}", self.words);
    }

    /// Asserts that a sentence stands on the paper, and on the page as the whole of an element.
    #[track_caller]
    fn are_told(&self, element: &str, sentence: &str) {
        let (open, close) = (format!("<{element}>"), format!("</{element}>"));
        let on_page = each_between(&self.page, &open, &close).iter().any(|told| told == sentence);
        assert!(on_page, "no {element} `{sentence}` on the page");
        assert!(self.paper.words().contains(sentence), "`{sentence}` is not on the paper");
    }
}

/// A text of an object.
#[track_caller]
fn text<'a>(object: &'a Value, key: &str) -> &'a str {
    object[key].as_str().unwrap_or_else(|| panic!("no text `{key}` in {object}"))
}

#[test]
fn sessions_and_their_marks_are_the_same_in_words_json_page_and_paper() {
    let folder = journals();
    let forms = Forms::of(folder.path());
    let sessions = forms.list("sessions");
    let passed = sessions.iter().filter(|one| one["passed"] == true).count();
    let left = forms.list("left_out").len();
    assert!(sessions.len() >= 3 && passed >= 1 && left > 1);
    let counted =
        format!("{} sessions, {passed} passed; {left} journals left out.", sessions.len());
    forms.are_told("p", &counted);
    forms.words_have(&counted);
    for (index, session) in sessions.iter().enumerate() {
        let number = (index + 1).to_string();
        let percents = session["parts"].as_array().unwrap().iter().map(|share| {
            share["percent"].as_f64().map_or_else(|| "–".to_owned(), |share| format!("{share:.0}"))
        });
        let percents: Vec<String> = percents.collect();
        let total = format!("{:.1}", session["total"].as_f64().unwrap());
        let result = if session["passed"] == true { "passed" } else { "not passed" };
        let scenario = text(session, "scenario");
        let cells: Vec<&str> = [number.as_str(), scenario]
            .into_iter()
            .chain(percents.iter().map(String::as_str))
            .chain([total.as_str(), result])
            .collect();
        forms.have_row(&cells);
        let title: String = scenario.chars().take(28).collect();
        let percents = percents.join(" ");
        forms.words_have(&words(&format!("{number} – {title} {percents} {total} {result}")));
        reports_agree(folder.path(), session);
    }
}

/// Marks of a session against those that its own report told.
#[track_caller]
fn reports_agree(folder: &Path, session: &Value) {
    let report = folder.join(text(session, "file")).with_file_name("marks.json");
    let report: Value = serde_json::from_str(&std::fs::read_to_string(report).unwrap()).unwrap();
    let number = |name: &str| report["marks"][name].as_f64().unwrap();
    // In percent of what could be given in this session.
    assert_eq!(session["total"].as_f64(), Some(100.0 * number("total") / number("of")));
    assert_eq!(session["passed"], report["marks"]["passed"]);
    assert_eq!(session["scenario"], report["scenario"]);
    assert_eq!(session["journal_head"], report["journal_head"]);
    let parts = report["marks"]["parts"].as_array().unwrap();
    let shares = session["parts"].as_array().unwrap();
    assert_eq!(shares.len(), parts.len());
    for (share, part) in shares.iter().zip(parts) {
        assert_eq!(share["part"], part["name"]);
        let (got, weight) = (part["got"].as_f64().unwrap(), part["weight"].as_f64().unwrap());
        let assessed = part["assessed"] == true && weight > 0.0;
        let percent = assessed.then(|| 100.0 * got / weight);
        assert_eq!(share["percent"].as_f64(), percent, "{session}");
    }
}

#[test]
fn reading_errors_are_the_same_in_words_json_page_and_paper() {
    let folder = journals();
    let forms = Forms::of(folder.path());
    for (index, session) in forms.list("sessions").iter().enumerate() {
        let number = (index + 1).to_string();
        let errors = session["readings"].as_array().unwrap();
        let error = |scale: &str| {
            let found = errors.iter().find(|one| one["scale"] == scale);
            found.map_or_else(
                || "–".to_owned(),
                |one| {
                    let [off, signed] =
                        ["mean_off", "mean_signed"].map(|key| one[key].as_f64().unwrap());
                    let signed = format!("{signed:+.2}").replace("+0.00", "0.00");
                    format!("{off:.2} ({})", signed.replace("-0.00", "0.00"))
                },
            )
        };
        let [legs, pen, air] = ["legs", "pen", "air"].map(error);
        forms.have_row(&[&number, &legs, &pen, &air]);
        forms.words_have(&format!("{number} {legs} {pen} {air}"));
    }
}

#[test]
fn rules_and_advice_are_the_same_in_words_json_page_and_paper() {
    let folder = journals();
    let forms = Forms::of(folder.path());
    let sessions = forms.list("sessions");
    let (count, last) = (sessions.len(), sessions.len().min(3));
    let rules = forms.list("rules");
    assert!(rules.len() > 2, "{}", rules.len());
    for rule in rules {
        let has = |one: &&Value| one["broken"].as_array().unwrap().contains(&rule["rule"]);
        let broken = sessions.iter().filter(has).count();
        let lately = sessions[count - last..].iter().filter(has).count();
        assert_eq!(rule["broken"], broken, "{rule}");
        assert_eq!(rule["lately"], lately, "{rule}");
        let stake = match text(rule, "severity") {
            "critical" => "critical safety",
            stake => stake,
        };
        let title = text(rule, "title");
        let keeps = if rule["keeps"] == true { "yes" } else { "no" };
        let (often, of_last) = (format!("{broken} of {count}"), format!("{lately} of {last}"));
        forms.have_row(&[title, stake, &often, &of_last, keeps]);
        let line =
            format!("{title} ({stake}): in {often} sessions, in {lately} of the last {last}");
        let in_words = forms.words.lines().any(|said| words(said) == line);
        assert_eq!(in_words, rule["keeps"] == true, "{line}");
    }
    let next = forms.list("next");
    assert!(next.len() > 1, "{}", next.len());
    for (index, advice) in next.iter().enumerate() {
        let (number, what, why) = (index + 1, text(advice, "what"), words(text(advice, "why")));
        forms.words_have(&format!("{number}. {what}"));
        forms.words_have(&format!("Why: {why}"));
        forms.are_told("p", &why);
        let scenario = &advice["scenario"];
        let title = format!("{number}. {what}");
        let titles = each_between(&forms.page, "<h3>", "</h3>");
        let told = if scenario.is_null() {
            title.clone()
        } else {
            format!("{title} {}", text(scenario, "title"))
        };
        assert!(titles.contains(&told), "{told}: {titles:?}");
        let Some(file) = scenario["file"].as_str() else { continue };
        forms.words_have(&format!("In: {} ({file})", text(scenario, "title")));
        forms.words_have(&words(text(scenario, "situation")));
        forms.are_told("dd", &words(text(scenario, "situation")));
        let paths = each_between(&forms.page, "<dd>", "</dd>");
        assert!(paths.iter().any(|path| path == file), "{file}: {paths:?}");
        let paper = forms.paper.words();
        let on_paper = between(&paper, &format!("{title} ["), "Situation").unwrap_or_default();
        assert!(unspaced(&on_paper).contains(&unspaced(file)), "{file}: {on_paper}");
    }
}

#[test]
fn what_is_left_out_is_the_same_in_words_json_page_and_paper() {
    let folder = journals();
    let forms = Forms::of(folder.path());
    for left in forms.list("left_out") {
        let told = format!("{}: {}", text(left, "file"), words(text(left, "why")));
        forms.words_have(&format!("Left out: {told}"));
        forms.are_told("li", &told);
    }
}

/// A journal in a file, for a session with a clock on the wall: only the window has one.
struct File(std::fs::File);

impl JournalSink for File {
    fn write_line(&mut self, line: &str) -> Result<(), SinkError> {
        writeln!(self.0, "{line}").map_err(|error| SinkError(error.to_string()))
    }
}

#[test]
fn when_a_session_was_begun_is_the_same_in_words_json_page_and_paper() {
    let folder = tempfile::tempdir().unwrap();
    let journals = folder.path().join("journals");
    std::fs::create_dir(&journals).unwrap();
    let scenario = bench_tests::repository().join("scenarios/01_first_calibration.ron");
    let text = std::fs::read_to_string(scenario).unwrap();
    // The one that no clock was told of stands first, whatever its name.
    for (name, begun) in [("a.journal", Some(1_767_225_599)), ("b.journal", None)] {
        let file = File(std::fs::File::create(journals.join(name)).unwrap());
        let mut session = Session::begin(&text, 1, Box::new(file)).unwrap();
        if let Some(begun) = begun {
            session.note_clock(ClockEvent::Begun, begun, "begun by a test").unwrap();
        }
        operator::rehearse(&mut session, operator::by_name("careful", 1).unwrap().as_mut())
            .unwrap();
    }
    let forms = Forms::of(folder.path());
    let sessions = forms.list("sessions");
    let begun = |session: &Value| session["begun_unix_s"].as_u64();
    assert_eq!(sessions.iter().map(begun).collect::<Vec<_>>(), [None, Some(1_767_225_599)]);
    for (number, begun) in [("1", "–"), ("2", "2025-12-31 23:59")] {
        let page = rows_of_page(&forms.page);
        let row = page.iter().find(|row| row.cell("begun, UTC") == Some(begun)).unwrap();
        assert_eq!(row.cell("session"), Some(number));
        assert!(forms.paper.have_row(&row.all()), "{:?} is not on the paper", row.all());
        let line = format!("{number} {begun} First calibration ");
        let said = forms.words.lines().any(|said| words(said).starts_with(&line));
        assert!(said, "{line}\n{}", forms.words);
    }
}

/// A long path is broken wherever the line ends.
fn unspaced(text: &str) -> String {
    text.split_whitespace().collect()
}
