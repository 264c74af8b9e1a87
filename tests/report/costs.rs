//! What each slip cost, and the way to the true volume, are the same to the last digit in JSON, page,
//! paper and words; and whatever stands in a table or at a finding of the page stands on the paper.

use serde_json::Value;

use super::desk::{Desk, SESSIONS};
use super::forms::{Lines, between, each_between, rows_of_page, words};

/// A percentage as it is to be written, worked out here for itself.
fn signed(percent: f64) -> String {
    match format!("{percent:+.2}") {
        nothing if nothing == "+0.00" || nothing == "-0.00" => "0.00".to_owned(),
        text => text,
    }
}

/// A number with so many decimals, or a dash.
fn known(value: &Value, decimals: usize) -> String {
    value.as_f64().map_or_else(|| "–".to_owned(), |value| format!("{value:.decimals$}"))
}

/// A session in every form.
struct Forms {
    object: Value,
    page: String,
    paper: Lines,
    words: String,
}

impl Forms {
    #[track_caller]
    fn of(scenario: &str, operator: &str) -> Self {
        let desk = Desk::of(scenario, operator);
        let paper = Lines::of(&desk.path("report.pdf"));
        let (page, words) = (desk.text("report.html"), desk.text("debrief.txt"));
        Self { object: desk.object, page, paper, words }
    }

    /// Asserts that a row stands in a table of the page and of the paper.
    #[track_caller]
    fn have_row(&self, cells: &[&str]) {
        let cells: Vec<&str> = cells.iter().copied().filter(|cell| !cell.is_empty()).collect();
        let page = rows_of_page(&self.page);
        assert!(page.iter().any(|row| row.all() == cells), "{cells:?} is not on the page");
        assert!(self.paper.have_row(&cells), "{cells:?} is not on the paper");
    }

    #[track_caller]
    fn words_have(&self, line: &str) {
        let has = self.words.lines().any(|said| words(said) == line);
        assert!(has, "no line `{line}` in\n{}", self.words);
    }
}

#[test]
fn the_costs_are_the_same_in_json_page_paper_and_words() {
    let mut most = 0;
    for (scenario, operator) in SESSIONS {
        let forms = Forms::of(scenario, operator);
        let costs = forms.object["costs"]["each"].as_array().unwrap();
        most = most.max(costs.len());
        for cost in costs {
            let percent = cost["cost_pct"].as_f64().map_or_else(|| "–".to_owned(), signed);
            let fault = if cost["of"] == "fault" { "Fault: " } else { "" };
            let title = format!("{fault}{}", cost["title"].as_str().unwrap());
            forms.have_row(&[&title, &percent, cost["note"].as_str().unwrap()]);
            forms.words_have(&format!("{percent} % {title}"));
        }
    }
    assert!(most > 8, "{most}");
}

#[test]
fn the_volumes_and_the_way_to_the_true_one_are_the_same_in_json_page_paper_and_words() {
    let mut most = 0;
    for (scenario, operator) in SESSIONS {
        let forms = Forms::of(scenario, operator);
        let costs = &forms.object["costs"];
        let paper = forms.paper.words();
        for (key, name) in [
            ("own_volume_m3", "from your calibration line"),
            ("sums_redone_m3", "from your readings, recalculated"),
            ("all_repaired_m3", "from your readings, every slip corrected"),
            ("true_volume_m3", "actually sampled"),
        ] {
            let volume = known(&costs[key], 1);
            forms.have_row(&[name, &volume]);
            let unit = if volume == "–" { "" } else { " m³" };
            forms.words_have(&format!("{name} {volume}{unit}"));
        }
        let steps = costs["waterfall"].as_array().unwrap();
        most = most.max(steps.len());
        // The plot is there twice on the page: wide, and narrow for a telephone.
        let plots = "aria-label=\"A bar for each slip corrected";
        let plots: Vec<String> =
            each_between(&forms.page, plots, "</svg>").iter().map(|plot| words(plot)).collect();
        assert_eq!(plots.len(), if steps.is_empty() { 0 } else { 2 }, "{scenario}");
        for (index, step) in steps.iter().enumerate() {
            let (title, percent) =
                (step["title"].as_str().unwrap(), signed(step["change_pct"].as_f64().unwrap()));
            let mut bar = format!("{title}: {percent} %");
            if index == 0 {
                bar = format!("your line {} m³; {bar}", known(&costs["own_volume_m3"], 1));
            }
            if index + 1 == steps.len() {
                bar = format!("{bar}; true {} m³", known(&costs["true_volume_m3"], 1));
            }
            for plot in &plots {
                assert!(plot.contains(&bar), "`{bar}` is not in the plot: {plot}");
            }
            assert!(paper.contains(&bar), "{scenario}: `{bar}` is not on the paper");
            let to = known(&step["to_m3"], 1);
            forms.words_have(&format!("{percent} % {title} (to {to} m³)"));
        }
    }
    assert!(most > 4, "{most}");
}

#[test]
fn what_is_said_about_all_of_it_is_the_same_in_json_page_paper_and_words() {
    let mut told = 0;
    for (scenario, operator) in SESSIONS {
        let forms = Forms::of(scenario, operator);
        let costs = &forms.object["costs"];
        let (page, paper) = (words(&forms.page), forms.paper.words());
        let sentences = [
            ("together_pct", "All slips and faults together cost ", " %."),
            (
                "interaction_pct",
                "The sum of the single costs differs from this by ",
                " %, because slips",
            ),
            ("remaining_pct", "With every slip corrected, ", " % remains: your reading errors"),
        ];
        for (key, before, behind) in sentences {
            let Some(percent) = costs[key].as_f64() else { continue };
            told += 1;
            let sentence = match (key, signed(percent).as_str()) {
                ("interaction_pct", "0.00") => "The single costs add up to the same.".to_owned(),
                (_, percent) => format!("{before}{percent}{behind}"),
            };
            for (form, said) in [("page", &page), ("paper", &paper), ("words", &forms.words)] {
                assert!(said.contains(&sentence), "{scenario}: `{sentence}` in {form}");
            }
        }
        let Some(chart) = costs["run"]["chart"].as_f64() else { continue };
        told += 1;
        let minutes = known(&costs["run"]["minutes"], 0);
        let run = format!("a run of {minutes} min with the pen at {chart:.1} divisions (");
        for (form, said) in [("page", &page), ("paper", &paper), ("words", &forms.words)] {
            assert!(said.contains(&run), "{scenario}: `{run}` in {form}");
        }
    }
    assert!(told > 10, "{told}");
}

#[test]
fn the_flow_at_each_point_is_the_same_in_json_page_and_paper() {
    let mut told = 0;
    for (scenario, operator) in SESSIONS {
        let forms = Forms::of(scenario, operator);
        for point in forms.object["compared"]["points"].as_array().unwrap() {
            let flow = |key: &str| known(&point[key]["flow_std_m3_min"], 3);
            let off = match point["off_line_m3_min"].as_f64().map(|off| format!("{off:+.3}")) {
                None => "–".to_owned(),
                Some(nothing) if nothing == "+0.000" || nothing == "-0.000" => "0.000".to_owned(),
                Some(off) => off,
            };
            let number = point["number"].to_string();
            forms.have_row(&[&number, &flow("written"), &flow("redone"), &flow("truth"), &off]);
            told += 1;
        }
    }
    assert!(told > 15, "{told}");
}

#[test]
fn every_row_and_every_finding_of_the_page_stands_on_the_paper() {
    for (scenario, operator) in SESSIONS {
        let Forms { page, paper, .. } = Forms::of(scenario, operator);
        let rows = rows_of_page(&page);
        assert!(rows.len() > 40, "{scenario}: {}", rows.len());
        for row in rows {
            assert!(paper.have_row(&row.all()), "{scenario}: {:?} is not on the paper", row.all());
        }
        let (paper, main) = (paper.words(), between(&page, "<main>", "</main>").unwrap());
        // What is at stake stands in a frame on the page, and in brackets on the paper.
        let main = main.replace("<span class=\"tag\">", "[").replace("</span></h3>", "]</h3>");
        let parts = ["p", "li", "dd", "dt", "h2", "h3", "figcaption"];
        let whole = parts
            .iter()
            .flat_map(|part| each_between(&main, &format!("<{part}>"), &format!("</{part}>")));
        let classed = ["note", "caution", "result passed", "result notpassed"]
            .iter()
            .flat_map(|class| each_between(&main, &format!("<p class=\"{class}\">"), "</p>"));
        let sentences: Vec<String> = whole.chain(classed).collect();
        assert!(sentences.len() > 20, "{scenario}: {}", sentences.len());
        for sentence in sentences {
            assert!(paper.contains(&sentence), "{scenario}: `{sentence}` is not on the paper");
        }
    }
}
