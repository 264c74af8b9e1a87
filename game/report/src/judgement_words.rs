//! The trainee's own judgement beside what is true, in sentences that debrief and report share.

use content::names::phase_name;
use sim_core::marking::own_judgement::{ClaimJudged, OwnJudged};

use super::number_format::signed_percent;

/// What is said of a judgement.
pub fn sentences(judged: &OwnJudged) -> Vec<String> {
    let mut said: Vec<String> = judged.volume.iter().map(of_volume).collect();
    if !judged.again.is_empty() {
        let names: Vec<&str> = judged.again.iter().map(|item| item.name()).collect();
        said.push(format!("You would do again: {}.", names.join(", ")));
    }
    let phases =
        |phases: &[_]| phases.iter().copied().map(phase_name).collect::<Vec<&str>>().join(", ");
    if !judged.known.is_empty() {
        let known = phases(&judged.known);
        said.push(format!("Rules were broken in phases that you named: {known}."));
    }
    if !judged.unknown.is_empty() {
        let unknown = phases(&judged.unknown);
        said.push(format!("Rules were broken in phases that you did not name: {unknown}."));
    }
    if !judged.needless.is_empty() {
        let names: Vec<&str> = judged.needless.iter().map(|item| item.name()).collect();
        said.push(format!(
            "No rule was broken in: {}. Doing that again changes no mark.",
            names.join(", ")
        ));
    }
    said
}

/// What was said of the volume, and what came of it.
fn of_volume(claim: &ClaimJudged) -> String {
    let (off, sure) = (claim.off.words(), claim.sure_pct.percent());
    let said = format!("You said that your volume is {off}, and were {sure} % sure.");
    match (claim.error_pct, claim.came_true) {
        (Some(error), Some(true)) => {
            format!("{said} It is off by {} %: you were right.", signed_percent(error))
        }
        (Some(error), _) => {
            format!("{said} It is off by {} %: you were not right.", signed_percent(error))
        }
        (None, _) => {
            format!("{said} There is no line from which a volume follows, so this is not judged.")
        }
    }
}
