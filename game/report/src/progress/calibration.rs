//! How well a person judges their own work: what was said of the volume before any truth was shown,
//! against what came of it, over all sessions.

use serde::Serialize;
use sim_core::trial::statistics::brier::{BrierScore, Stated};

use super::session::SessionSummary;

/// Where the measure comes from.
pub const SOURCE: &str = "Brier score (G. W. Brier, Monthly Weather Review 78, 1950), in the parts of A. H. Murphy \
    (Journal of Applied Meteorology 12, 1973). 0 is perfect; who always says 50 % gets 0.25.";

/// So many judgements are needed before anything is said about them (CHOSEN).
const ENOUGH: usize = 5;
/// Beyond this, somebody is too sure or too unsure, as a share (CHOSEN).
const NOTABLE: f64 = 0.1;

/// How well a person judges their own work.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct JudgementCalibration {
    /// The score and its parts.
    pub brier: BrierScore,
    /// Judgements of a volume that does not exist, because there was no line; they are not scored.
    pub not_scored: usize,
    /// What it comes to, in a sentence.
    pub said: String,
}

impl JudgementCalibration {
    /// The figures over sessions; `None` where nothing was judged that can be scored.
    pub fn of(sessions: &[SessionSummary]) -> Option<Self> {
        let claims = || sessions.iter().filter_map(|one| one.judgement.as_ref()?.volume);
        let stated: Vec<Stated> = claims()
            .filter_map(|claim| {
                let came = claim.came_true?.into();
                Some(Stated { probability: claim.sure_pct.probability(), came })
            })
            .collect();
        let brier = BrierScore::of(&stated)?;
        let said = said(&brier);
        Some(Self { not_scored: claims().count() - stated.len(), said, brier })
    }
}

/// What the figures come to.
fn said(brier: &BrierScore) -> String {
    let came: usize = brier.groups.iter().map(|group| group.came_true).sum();
    let stated = 100.0
        * brier.groups.iter().map(|group| group.probability * group.count as f64).sum::<f64>()
        / brier.count as f64;
    let came_pct = 100.0 * came as f64 / brier.count as f64;
    let facts = format!(
        "Of {} judgements of your volume, {came} were right ({came_pct:.0} %); you were {stated:.0} % sure on average.",
        brier.count
    );
    let verdict = if brier.count < ENOUGH {
        "That is too few to say how well you know your own work."
    } else if brier.overconfidence > NOTABLE {
        "You are surer than your work allows."
    } else if brier.overconfidence < -NOTABLE {
        "Your work is better than you think."
    } else {
        "You know how good your work is."
    };
    format!("{facts} {verdict}")
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use sim_core::marking::own_judgement::{ClaimJudged, OwnJudged};
    use sim_core::session::own_judgement::{Sureness, VolumeOff};

    use super::super::session::tests::summary;
    use super::*;

    fn judged(sure: u8, came_true: Option<bool>) -> SessionSummary {
        let sure_pct = Sureness::try_from(sure).unwrap();
        let volume =
            ClaimJudged { off: VolumeOff::Within5, sure_pct, error_pct: Some(1.0), came_true };
        let own = OwnJudged {
            volume: Some(volume),
            again: Vec::new(),
            known: Vec::new(),
            unknown: Vec::new(),
            needless: Vec::new(),
        };
        SessionSummary { judgement: Some(own), ..summary("a", &[]) }
    }

    fn calibration(of: &[(u8, Option<bool>)]) -> Option<JudgementCalibration> {
        let sessions: Vec<_> = of.iter().map(|&(sure, came)| judged(sure, came)).collect();
        JudgementCalibration::of(&sessions)
    }

    #[test]
    fn who_is_too_sure_is_told_so() {
        let sure = calibration(&[
            (100, Some(false)),
            (100, Some(true)),
            (90, Some(false)),
            (90, Some(true)),
            (90, None),
            (80, Some(false)),
        ])
        .unwrap();
        assert_eq!((sure.brier.count, sure.not_scored), (5, 1));
        assert!(sure.said.contains("2 were right (40 %); you were 92 % sure"), "{}", sure.said);
        assert!(sure.said.ends_with("surer than your work allows."), "{}", sure.said);
        let unsure = calibration(&[(60, Some(true)); 5]).unwrap();
        assert!(unsure.said.ends_with("better than you think."), "{}", unsure.said);
        let knows = calibration(&[(100, Some(true)); 6]).unwrap();
        assert!(knows.said.ends_with("You know how good your work is."), "{}", knows.said);
        assert!(knows.brier.score.abs() < 1e-12);
    }

    #[test]
    fn without_a_judgement_nothing_is_said_and_with_few_not_much() {
        assert_eq!(JudgementCalibration::of(&[summary("a", &[])]), None);
        assert_eq!(calibration(&[(80, None)]), None);
        assert!(calibration(&[(80, Some(true))]).unwrap().said.ends_with("know your own work."));
    }
}
