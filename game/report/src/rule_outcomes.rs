//! The rules that were neither kept nor broken: the work never came to them, or the record lacks what
//! they are judged by.

use sim_core::procedure::{OutcomeKind, RULES, RuleJudged, WorkPhase};

/// How many rules had each outcome, and which were not reached or could not be judged, in sentences.
pub fn sentences(judged: &[RuleJudged]) -> Vec<String> {
    let count = |kind| judged.iter().filter(|one| one.outcome == kind).count();
    let assessed = judged.iter().filter(|one| one.outcome != OutcomeKind::NotAssessed).count();
    let counts = format!(
        "Of {} rules in force, {} were kept, {} broken, {} not reached, and {} could not be judged.",
        assessed,
        count(OutcomeKind::Kept),
        count(OutcomeKind::Broken),
        count(OutcomeKind::NotReached),
        count(OutcomeKind::CannotJudge),
    );
    let mut sentences = vec![counts];
    for (kind, what) in [
        (OutcomeKind::CannotJudge, "Could not be judged"),
        (OutcomeKind::NotReached, "Not reached"),
        (OutcomeKind::NotAssessed, "Not assessed, because it does not belong to the lesson"),
    ] {
        let names = names(judged, kind);
        if !names.is_empty() {
            sentences.push(format!("{what}: {}.", names.join("; ")));
        }
    }
    sentences
}

/// The titles of the rules with an outcome. A phase of which all rules have it is named as a whole.
fn names(judged: &[RuleJudged], kind: OutcomeKind) -> Vec<String> {
    let of_phase = |phase: WorkPhase| {
        RULES.iter().filter(move |rule| rule.phase == phase).filter_map(|rule| {
            judged.iter().find(|one| one.rule == rule.id).map(|one| (rule.title, one.outcome))
        })
    };
    let mut phases: Vec<WorkPhase> = RULES.iter().map(|rule| rule.phase).collect();
    phases.sort_unstable();
    phases.dedup();
    let mut names = Vec::new();
    for phase in phases {
        let all = of_phase(phase).count();
        let titles = of_phase(phase).filter(|(_, outcome)| *outcome == kind);
        let titles: Vec<String> = titles.map(|(title, _)| title.to_owned()).collect();
        if all > 1 && titles.len() == all {
            names.push(format!("all rules of {}", words(phase)));
        } else {
            names.extend(titles);
        }
    }
    names
}

/// A phase of the work, in words.
const fn words(phase: WorkPhase) -> &'static str {
    match phase {
        WorkPhase::Arrive => "the arrival",
        WorkPhase::Strip => "the mounting",
        WorkPhase::Manometer => "the manometer",
        WorkPhase::Power => "power and leak check",
        WorkPhase::Points => "the points",
        WorkPhase::Restore => "restoring the sampler",
        WorkPhase::Sums => "calculations and decision",
        WorkPhase::SetPoint => "the set point",
        WorkPhase::Check => "the flow check",
        WorkPhase::Load => "loading the sampler",
        WorkPhase::Recover => "recovering the sample",
        WorkPhase::Volume => "the volume",
    }
}

#[cfg(test)]
mod tests {
    use super::{OutcomeKind, RULES, RuleJudged, sentences};

    #[test]
    fn whole_phases_are_named_as_such_and_single_rules_by_their_titles() {
        let judged: Vec<RuleJudged> = RULES
            .iter()
            .map(|rule| RuleJudged {
                rule: rule.id,
                outcome: match rule.id {
                    "thunder" => OutcomeKind::NotReached,
                    "line" => OutcomeKind::CannotJudge,
                    id if id.starts_with("check-") || id.starts_with("history-") => {
                        OutcomeKind::NotReached
                    }
                    _ => OutcomeKind::Kept,
                },
                missing: None,
            })
            .collect();
        let kept = RULES.len() - 11;
        assert_eq!(
            sentences(&judged),
            [
                format!(
                    "Of {} rules in force, {kept} were kept, 0 broken, 10 not reached, and 1 could \
                     not be judged.",
                    RULES.len()
                ),
                "Could not be judged: Fit a least-squares line through your points.".to_owned(),
                "Not reached: No work within 30 minutes of thunder; all rules of the flow check."
                    .to_owned(),
            ]
        );
    }
}
