//! Cards and file names tell a situation and never the lesson: no card names its fault, a rule that is
//! broken by its habits, or the habits that it is about.

use std::path::PathBuf;

use sim_core::fault::sheets;
use sim_core::procedure::RULES;
use sim_core::scenario::{KnownRules, Scenario, check};

/// Words of a fault's title that only tie the others together, or name what any card may name.
const NO_NEWS: [&str; 33] = [
    "a",
    "an",
    "the",
    "of",
    "in",
    "on",
    "at",
    "off",
    "its",
    "that",
    "to",
    "with",
    "is",
    "no",
    "not",
    "set",
    "under",
    "from",
    "another",
    "without",
    "far",
    "calibrator",
    "chart",
    "electronic",
    "manometer",
    "sampler",
    "last",
    "year",
    "printed",
    "first",
    "out",
    "fast",
    "weather",
];

/// What a trainee reads of a scenario before choosing it, in small letters: the name of its file, its
/// title, and its situation.
fn card(path: &std::path::Path, scenario: &Scenario) -> String {
    let file = path.file_stem().unwrap().to_string_lossy().replace('_', " ");
    let situation = scenario.situation.as_deref().unwrap_or_default();
    format!("{file}. {}. {situation}", scenario.title).to_lowercase()
}

/// The words of a text, each cut to the letters by which it is known in another form: `leaks` is
/// `leak`, and `transposed` is `transp`.
fn stems(text: &str) -> Vec<String> {
    let words = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words
        .map(|word| {
            let word = word.to_lowercase();
            let word = word.strip_suffix('s').filter(|bare| bare.len() > 2).unwrap_or(&word);
            word.chars().take(6).collect()
        })
        .collect()
}

/// The shipped scenarios, with the lessons where there are any.
fn shipped() -> Vec<(PathBuf, Scenario)> {
    let folder = bench_tests::repository().join("scenarios");
    let lessons = folder.join("lessons");
    let mut all = Vec::new();
    for folder in [folder, lessons].iter().filter(|folder| folder.is_dir()) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.extension().is_some_and(|ending| ending == "ron") {
                let text = std::fs::read_to_string(&path).unwrap();
                all.push((path, check(&text, KnownRules::Any).unwrap()));
            }
        }
    }
    all
}

/// Words of a fault that a card must not have.
fn telling(title: &str) -> Vec<String> {
    let words = title.split(|c: char| !c.is_alphanumeric());
    let words = words.filter(|word| !NO_NEWS.contains(&word.to_lowercase().as_str()));
    stems(&words.collect::<Vec<_>>().join(" "))
}

/// What a card names, in words for the message.
fn named(path: &std::path::Path, scenario: &Scenario) -> Vec<String> {
    let card = stems(&card(path, scenario));
    let has = |stem: &String| card.contains(stem);
    let mut named = Vec::new();
    for entry in &scenario.faults {
        // A lesson says which part of the work it is on, and so names its instruments.
        if scenario.terms.phases.is_some() {
            break;
        }
        let sheet = sheets().find(|sheet| sheet.name == entry.fault.name()).unwrap();
        named.extend(
            telling(sheet.title)
                .into_iter()
                .filter(has)
                .map(|word| format!("{}: {word}", sheet.title)),
        );
    }
    for habit in scenario.about.iter().flat_map(|habits| habits.split('+')) {
        if stems(habit).iter().all(has) {
            named.push(format!("the habit {habit}"));
        }
    }
    for rule in RULES.iter().filter(|rule| stems(rule.title).iter().all(has)) {
        named.push(format!("the rule {}", rule.id));
    }
    named
}

#[test]
fn no_card_names_its_fault_a_rule_or_a_habit() {
    let all = shipped();
    assert!(all.len() >= 41, "{}", all.len());
    let telling: Vec<String> = all
        .iter()
        .filter(|(_, scenario)| scenario.terms.help)
        .filter_map(|(path, scenario)| {
            let named = named(path, scenario);
            let file = path.file_name().unwrap().to_string_lossy().into_owned();
            (!named.is_empty()).then(|| format!("{file} names {}", named.join("; ")))
        })
        .collect();
    assert!(telling.is_empty(), "{telling:#?}");
}

#[test]
fn a_card_that_tells_is_found() {
    let (path, mut scenario) = shipped()
        .into_iter()
        .find(|(path, _)| path.ends_with("06_october_at_the_substation.ron"))
        .unwrap();
    for (title, tells) in [
        ("The pen that sticks", true),
        ("Sticking", true),
        ("Hurried", true),
        ("Settle the flow", false),
        ("October at the substation", false),
    ] {
        scenario.title = title.to_owned();
        assert_eq!(
            !named(&path, &scenario).is_empty(),
            tells,
            "{title}: {:?}",
            named(&path, &scenario)
        );
    }
    let old = PathBuf::from("03_missing_gasket.ron");
    let (_, gasket) =
        shipped().into_iter().find(|(path, _)| path.ends_with("03_a_new_blower.ron")).unwrap();
    assert!(!named(&old, &gasket).is_empty());
}

#[test]
fn every_lesson_is_kept_for_the_debrief() {
    for (path, scenario) in shipped() {
        assert!(!scenario.lesson.trim().is_empty(), "{}", path.display());
        let (situation, lesson) = (scenario.situation.unwrap_or_default(), scenario.lesson);
        assert!(!situation.contains(&lesson) && !scenario.title.contains(&lesson));
    }
}
