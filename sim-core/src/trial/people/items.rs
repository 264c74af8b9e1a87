//! Each rule as an item of an examination: how hard it is, how well it tells people apart, and at
//! which ability it says most.

use serde::Serialize;

use super::estimate::{Estimate, Share};
use super::outcome::ItemOutcome;
use super::seated::Seated;
use super::sitting::{MarkedSitting, ROUNDING};
use crate::procedure::{ProcedureRule, RULES};
use crate::trial::statistics::correlation::{fisher_interval, point_biserial};
use crate::trial::statistics::moments::{quantile, sorted};
use crate::trial::statistics::two_parameter::{self, LogisticItem, TwoParameterFit};

/// People to whom the logistic model is fitted at most (CHOSEN: more change nothing that matters).
const FITTED: usize = 2000;
/// Abilities at which information is told, -3 to 3 in steps of a quarter.
const STEPS: i32 = 12;
const STEP: f64 = 0.25;

/// A rule as an item.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ItemFigures {
    /// Its id.
    pub rule: &'static str,
    /// Its title.
    pub title: &'static str,
    /// People who reached it and could be judged by it.
    pub reached: u64,
    /// Those whose record lacks what it would take to judge it; they count as not having kept it.
    pub cannot_judge: u64,
    /// Share that kept it, of those who reached it: a low share means a hard rule.
    pub difficulty: Share,
    /// Point-biserial correlation with the marks, without the parts to which the rule contributes.
    pub discrimination: Option<Estimate>,
    /// Slope in the two-parameter logistic model.
    pub slope: Option<f64>,
    /// The ability at which half of the people keep it.
    pub location: Option<f64>,
    /// Its information at the ability that the pass mark asks for.
    pub information: Option<f64>,
}

/// Information of all rules about a person of some ability.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct InformationPoint {
    /// The ability, in standard deviations of the population.
    pub ability: f64,
    /// Information.
    pub information: f64,
    /// Standard error of the ability; none without information.
    pub standard_error: Option<f64>,
}

/// All rules as items.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ItemAnalysis {
    /// People to whom the logistic model was fitted.
    pub fitted_people: u64,
    /// The ability that the pass mark asks for: as many people are below it as have fewer marks.
    pub ability_at_pass_mark: Option<f64>,
    /// Every rule that somebody reached, in the order of the work.
    pub items: Vec<ItemFigures>,
    /// Information by ability.
    pub information: Vec<InformationPoint>,
}

/// Analyses every rule over people's first sittings.
pub fn analyse(people: &[Seated]) -> ItemAnalysis {
    let marked: Vec<&MarkedSitting> = people.iter().filter_map(Seated::marked).collect();
    let fitted = marked.get(..FITTED).unwrap_or(&marked);
    let rows: Vec<Vec<Option<bool>>> =
        fitted.iter().map(|one| one.items.iter().map(|item| item.score()).collect()).collect();
    let rows: Vec<&[Option<bool>]> = rows.iter().map(Vec::as_slice).collect();
    let model = two_parameter::fit(&rows);
    let pass_ability = ability_at_pass_mark(fitted, &model);
    let item = |index: usize, rule: &&'static ProcedureRule| {
        let logistic = model.items.get(index).copied().flatten();
        item_figures(rule, index, &marked, logistic, pass_ability)
    };
    let items = RULES.iter().enumerate().map(|(index, rule)| item(index, rule));
    ItemAnalysis {
        fitted_people: rows.len() as u64,
        ability_at_pass_mark: pass_ability,
        items: items.filter(|item| item.difficulty.of > 0).collect(),
        information: (-STEPS..=STEPS).map(|step| at_ability(&model, f64::from(step))).collect(),
    }
}

fn at_ability(model: &TwoParameterFit, step: f64) -> InformationPoint {
    let ability = step * STEP;
    let information = model.information(ability);
    let standard_error = (information > 1e-9).then(|| 1.0 / information.sqrt());
    InformationPoint { ability, information, standard_error }
}

/// The ability below which as many people are as have fewer marks than the pass mark.
fn ability_at_pass_mark(marked: &[&MarkedSitting], model: &TwoParameterFit) -> Option<f64> {
    let below = marked.iter().filter(|one| one.total < one.pass_mark - ROUNDING).count();
    let share = below as f64 / marked.len().max(1) as f64;
    if model.items.iter().all(Option::is_none) {
        return None;
    }
    quantile(&sorted(&model.abilities), share)
}

fn item_figures(
    rule: &'static ProcedureRule,
    index: usize,
    marked: &[&MarkedSitting],
    logistic: Option<LogisticItem>,
    pass_ability: Option<f64>,
) -> ItemFigures {
    let outcomes = || marked.iter().filter_map(|one| Some((one, *one.items.get(index)?)));
    let scored: Vec<(bool, f64)> = outcomes()
        .filter_map(|(one, outcome)| Some((outcome.score()?, one.rest_pct(rule))))
        .collect();
    let cannot_judge =
        outcomes().filter(|(_, outcome)| *outcome == ItemOutcome::CannotJudge).count() as u64;
    let discrimination = point_biserial(&scored);
    ItemFigures {
        rule: rule.id,
        title: rule.title,
        reached: scored.len() as u64 - cannot_judge,
        cannot_judge,
        difficulty: Share::of(scored.iter().map(|(kept, _)| *kept)),
        discrimination: discrimination.map(|r| Estimate::new(r, fisher_interval(r, scored.len()))),
        slope: logistic.map(|item| item.slope),
        location: logistic.and_then(|item| item.location()),
        information: logistic.zip(pass_ability).map(|(item, at)| item.information(at)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::people::outcome::ItemOutcome::{Broken, CannotJudge, Kept, NotReached};
    use crate::trial::people::seated::made_up;

    #[test]
    fn what_was_not_reached_says_nothing_and_what_cannot_be_judged_counts_as_broken() {
        let outcomes = [[Kept, Kept], [Kept, CannotJudge], [Broken, NotReached], [Broken, Kept]];
        let people: Vec<Seated> = (0..)
            .zip([90.0, 80.0, 60.0, 70.0])
            .zip(&outcomes)
            .map(|((number, total), items)| made_up::person(number, [total; 2], items))
            .collect();
        let found = analyse(&people);
        let [first, second] = found.items.as_slice() else { panic!("{:?}", found.items) };
        assert_eq!((first.reached, first.difficulty.count, first.difficulty.of), (4, 2, 4));
        assert_eq!((second.reached, second.cannot_judge), (2, 1));
        assert_eq!((second.difficulty.count, second.difficulty.of), (2, 3));
        // Kept with 90 and 80, broken with 60 and 70: means 85 and 65, s² = 125, p = 1/2.
        let r = 20.0 / 125.0_f64.sqrt() * 0.5;
        assert!((first.discrimination.unwrap().value - r).abs() < 1e-12);
        // Four people are too few for the logistic model.
        assert_eq!((first.slope, found.ability_at_pass_mark), (None, None));
    }
}
