//! The rule on the habits that a scenario is about.

use super::{ScenarioFindings, ScenarioRule};
use crate::scenario::Scenario;
use crate::scenario::habits::{Habits, NAMES, OperatorNameError};
use crate::scenario::suggest::suggest;

/// Every habit exists.
pub(super) const KNOWN: ScenarioRule = ScenarioRule {
    id: "about-known",
    about: "Every habit in `about` belongs to a scripted operator, is a bad habit, and is named \
            once: a scenario is proven by the operators who do not pass it.",
    find: known,
};

fn known(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let names: Vec<&str> = NAMES.iter().map(|&(name, _)| name).collect();
    let mut seen: Vec<Habits> = Vec::new();
    for (index, about) in scenario.about.iter().enumerate() {
        let path = format!("about[{index}]");
        let habits = match Habits::by_name(about) {
            Ok(habits) => habits,
            Err(OperatorNameError::Unknown(_)) => {
                // Names that are joined are checked one by one.
                let wrong = about.split('+').map(str::trim).find(|name| !names.contains(name));
                let wrong = wrong.unwrap_or_default();
                let mend = suggest(wrong, &names);
                findings.add(path, format!("there is no habit `{wrong}`"), mend);
                continue;
            }
            Err(OperatorNameError::Repeated(habit)) => {
                findings.add(
                    path,
                    format!("`{about}` names the habit `{habit}` twice"),
                    "keep one",
                );
                continue;
            }
            Err(error @ OperatorNameError::TooLong { .. }) => {
                findings.add(path, error.to_string(), "name each habit once");
                continue;
            }
        };
        if habits == Habits::default() {
            findings.add(
                path,
                format!("`{about}` is not a bad habit"),
                "remove it: the careful operator must pass every scenario anyway",
            );
        } else if seen.contains(&habits) {
            findings.add(path, format!("the habit `{about}` is named twice"), "keep one");
        }
        seen.push(habits);
    }
}
