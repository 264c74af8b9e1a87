//! An advice as a value: what is to be done, what does it, and the rule that asks for it.

use content::advice::Deed;
use sim_core::field_book::Field;
use sim_core::procedure::{self, rule::ProcedureRule};
use sim_core::session::action::Action;

use super::goal::Goal;
use super::scene::Scene;

/// What to do next.
#[derive(Debug, Clone, PartialEq)]
pub struct Advice {
    /// What is to be reached.
    pub goal: Goal,
    /// What reaches it, in this order; never empty.
    pub deeds: Vec<Deed>,
    /// The name of the rule that asks for it.
    pub rule: &'static str,
}

impl Advice {
    /// The rule that asks for it.
    pub fn reason(&self) -> Option<&'static ProcedureRule> {
        procedure::rule(self.rule)
    }
}

/// An advice that is the next step, by rule, goal and deeds; none where there is nothing to do.
pub(super) fn next(
    rule: &'static str,
    goal: Goal,
    deeds: impl IntoIterator<Item = Deed>,
) -> Option<Advice> {
    let deeds: Vec<Deed> = deeds.into_iter().collect();
    (!deeds.is_empty()).then_some(Advice { goal, deeds, rule })
}

/// One action as an advice.
pub(super) fn act(rule: &'static str, goal: Goal, action: Action) -> Option<Advice> {
    next(rule, goal, [Deed::Do(action)])
}

/// Several actions as an advice.
pub(super) fn acts(rule: &'static str, goal: Goal, actions: Vec<Action>) -> Option<Advice> {
    next(rule, goal, actions.into_iter().map(Deed::Do))
}

/// A wait as an advice.
pub(super) fn wait(rule: &'static str, goal: Goal, seconds: f64) -> Option<Advice> {
    next(rule, goal, [Deed::Wait(seconds)])
}

/// An advice to write a value of the line or of the run, in the form in which the order asks for it on
/// this day: with averages of the season built into the line, or without.
pub(super) fn by_season(scene: &Scene<'_>, advice: Advice) -> Advice {
    let Goal::Enter(field) = advice.goal else { return advice };
    let run = [Field::RunPressure, Field::RunTemperature];
    let goal = match (scene.averages_built_in(), field) {
        (None, _) => Goal::Enter(field),
        (Some(true), Field::RunFlow) if scene.averages_hold(run) != Some(true) => {
            Goal::WithoutAverages(field)
        }
        (Some(true), _) => Goal::WithAverages(field),
        (Some(false), _) => Goal::WithoutAverages(field),
    };
    Advice { goal, ..advice }
}

/// A value that goes into a field, as an advice.
pub(super) fn enter(rule: &'static str, field: Field) -> Option<Advice> {
    next(rule, Goal::Enter(field), [Deed::Write(field)])
}

/// A field and the rule that asks for it.
pub(super) type Blank = (Field, &'static str);

/// The advice to fill the first of these fields that is blank.
pub(super) fn first_blank(
    scene: &Scene<'_>,
    fields: impl IntoIterator<Item = Blank>,
) -> Option<Advice> {
    let (field, rule) = fields.into_iter().find(|(field, _)| !scene.has(*field))?;
    enter(rule, field)
}
