//! The controller tested with added filters: a second clean filter on the first, and a third, the pen
//! read with each, and both off again.

use sim_core::field_book::Field;
use sim_core::rig::parts::{PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::Action;
use sim_core::session::view::run::RunView;

use super::goal::Goal;
use super::next::{Advice, Blank, act, acts, enter, first_blank};
use super::scene::Scene;
use super::{mount, screw};
use crate::moves::{carry, tighten_all};

/// The rule behind most of it.
const TESTED: &str = "added-filters-made";

/// The next step of the test; none before the start reading, after the test, or where none is ordered.
pub(super) fn next_step(scene: &Scene<'_>, run: &RunView) -> Option<Advice> {
    let order = scene.papers.work_order.added_filters()?;
    if !scene.has(Field::StartChart) {
        return None;
    }
    let charts = [Field::SecondFilterChart, Field::ThirdFilterChart];
    let unread = (1..=order.sheets).zip(charts).find(|(_, chart)| !scene.has(*chart));
    match unread {
        Some((sheets, chart)) => stacked(scene, run, sheets).or_else(|| reading(scene, chart)),
        None => stacked(scene, run, 0).or_else(|| worked_out(scene, order.sheets)),
    }
}

/// So many clean filters on the first, under a tight frame.
fn stacked(scene: &Scene<'_>, run: &RunView, sheets: u8) -> Option<Advice> {
    let mounting = &scene.view.mounting;
    let framed = mounting.place(RigPart::Frame) == PartPlace::Holder;
    let tight = mounting.nuts.iter().all(|nut| nut.quarter_turns >= 6);
    let rule = if sheets == 0 { "added-filters-off" } else { TESTED };
    if run.added_filters == sheets && framed && tight {
        return match mounting.lid_open {
            true => act("doors-shut", Goal::AsDone, Action::CloseLid),
            false => None,
        };
    }
    if let Some(step) = mount::dead(scene) {
        return Some(step);
    }
    if !mounting.lid_open {
        return act("dead-before-hands", Goal::AsDone, Action::OpenLid);
    }
    match (run.added_filters == sheets, framed) {
        (true, true) => acts("frame-tight", Goal::NutsTight, tighten_all(&scene.view)),
        (true, false) => {
            let on = carry(&scene.view, RigPart::Frame, PartPlace::Holder);
            acts(rule, Goal::FrameOnFilter, on)
        }
        (false, true) => acts(rule, Goal::FrameOff, mount::frame_off(scene)),
        (false, false) if run.added_filters < sheets => {
            act(rule, Goal::FilterAdded, Action::AddFilter)
        }
        (false, false) => act(rule, Goal::AddedFilterOff, Action::RemoveAddedFilter),
    }
}

/// The pen read on a warm blower.
fn reading(scene: &Scene<'_>, chart: Field) -> Option<Advice> {
    let power = &scene.view.power;
    if !power.sampler_cord_in {
        return act(TESTED, Goal::AsDone, Action::PlugSampler);
    }
    if power.timer_switch != TimerSwitch::On {
        let on = Action::SwitchTimer { to: TimerSwitch::On };
        return act("added-filters-as-it-runs", Goal::WarmOnController, on);
    }
    screw::warm(scene).or_else(|| screw::tapped(scene)).or_else(|| enter(TESTED, chart))
}

/// The changes, and with how many filters the flow is held.
fn worked_out(scene: &Scene<'_>, sheets: u8) -> Option<Advice> {
    let rule = |field: Field| -> Blank {
        match field {
            Field::FiltersHeld => (field, "added-filters-judged"),
            _ => (field, "added-filters-sums"),
        }
    };
    first_blank(scene, Field::of_added_filters(sheets).map(rule))
}
