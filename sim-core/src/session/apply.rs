//! What each action does, and when it cannot be done. A wrong step is allowed wherever reality
//! allows it: only what hands cannot do is refused.

use super::action::{Action, HelpTopic, OnOff, Sight};
use super::action_traits::ActionEffect;
use super::state::{Eyes, SessionState};
use super::unattended_run::RunStage;
use crate::rig::parts::{BlowerPlug, Gasket, Grip, Nut, PartPlace, RigPart};
use crate::scenario::setup::Setup;
use crate::time::Tick;

mod added_filters;
mod carry;
mod checklist;
mod electronic;
mod filling;
mod gauges;
mod plates;
mod record;
pub(super) mod refusal;
mod repairs;
pub(super) mod run;

pub use refusal::{LONGEST_TEXT, Refusal};
use refusal::{refuse, within};

impl SessionState {
    /// Does one action at the state's own tick. A refused action may leave the state half changed.
    pub(super) fn perform(&mut self, setup: &Setup, action: &Action) -> Result<(), Refusal> {
        if self.is_away() {
            Self::allowed_away(action)?;
        }
        let traits = action.traits();
        let hands = traits.time.ticks(self.rig.mounting.hand(), self.eyes.focus);
        let hands = match traits.effect {
            ActionEffect::Observes => hands,
            ActionEffect::Handles | ActionEffect::MakesSafe => slowed(hands, self.air_c()),
        };
        apply(self, setup, self.tick, action)?;
        self.busy_until = self.tick.later(hands);
        self.begin_faults_at(action);
        Ok(())
    }
}

/// By how much hands are slower for each kelvin below freezing, and at most (CHOSEN: gloves and cold
/// fingers cost a tenth at -5 degrees Celsius and a half at -25).
const SLOWER_A_KELVIN: f64 = 0.02;
const SLOWEST: f64 = 0.5;

/// Ticks that hands are busy in air of this temperature, degrees Celsius.
fn slowed(ticks: u64, air_c: f64) -> u64 {
    let slower = (-air_c * SLOWER_A_KELVIN).clamp(0.0, SLOWEST);
    ticks + (ticks as f64 * slower).round() as u64
}

/// Applies an action to the state.
fn apply(
    state: &mut SessionState,
    setup: &Setup,
    now: Tick,
    action: &Action,
) -> Result<(), Refusal> {
    match action {
        Action::Look { at, eye_mm } => look(state, setup, *at, *eye_mm),
        Action::OpenLid | Action::CloseLid => lid(state, *action == Action::OpenLid),
        Action::TurnNut { nut, quarter_turns } => turn_nut(state, *nut, *quarter_turns),
        Action::SetWasher { nut, seat } => set_washer(state, *nut, *seat),
        Action::Take { part } => {
            carry::take(state, *part)?;
            run::taken(state, setup, *part, Grip::Face)
        }
        Action::Put { place } => {
            run::may_put(state, *place)?;
            carry::put(state, *place)?;
            run::was_put(state, *place);
            Ok(())
        }
        Action::FitGasket { gasket } => fit_gasket(state, *gasket),
        Action::PlugSampler
        | Action::UnplugSampler
        | Action::PlugBlower { .. }
        | Action::SwitchLine { .. }
        | Action::SwitchTimer { .. }
        | Action::TurnTrim { .. } => electric(state, action),
        Action::TurnKnob { opening } => turn_knob(state, *opening),
        Action::TakeOutPlate => plates::take_out(state),
        Action::PutInPlate { plate } => plates::put_in(state, *plate),
        Action::BlockOpenings | Action::FreeOpenings => {
            block(state, *action == Action::BlockOpenings)
        }
        Action::Write { .. }
        | Action::Strike { .. }
        | Action::Decide { .. }
        | Action::Report(_) => record::apply(state, now, action),
        Action::AskHelp { topic } => ask_help(setup, *topic),
        Action::ReadInWords => read_in_words(setup),
        Action::MarkChecklist { item, .. } => checklist::may_mark(setup, *item),
        Action::Wait { seconds } => within("the wait", *seconds, 0.0, 7200.0, "s"),
        Action::Listen | Action::LeaveRoof | Action::Sign => Ok(()),
        Action::LeaveSite => state.leave(setup, now),
        Action::TakeFilter { .. }
        | Action::HoldToLight
        | Action::TurnFilter
        | Action::CentreFilter
        | Action::FoldFilter { .. }
        | Action::AddFilter
        | Action::RemoveAddedFilter
        | Action::SetTripper { .. }
        | Action::FastenTripper { .. }
        | Action::SetDial { .. }
        | Action::TakeChart => run::apply(state, setup, action),
        Action::ClearOpening { .. }
        | Action::TendRecorderLine { .. }
        | Action::ResetOutlet
        | Action::ChangeCord
        | Action::ChangeBrushes => repairs::apply(state, action),
        _ => gauges::apply(state, action),
    }
}

fn look(state: &mut SessionState, setup: &Setup, at: Sight, eye_mm: f64) -> Result<(), Refusal> {
    within("the height of the eye", eye_mm, -150.0, 150.0, "mm")?;
    if at == Sight::WeatherSheet && !state.run.is_some_and(|run| run.stage == RunStage::Back) {
        return refuse(
            "the weather sheet has not been printed yet: it will be there when the run is over",
        );
    }
    if let Sight::Certificate(number) = at {
        let count = setup.certificates.len();
        if usize::from(number) >= count {
            return refuse(format!("there is no such certificate: the box holds {count}"));
        }
    }
    state.eyes = Eyes { focus: at, eye_mm };
    Ok(())
}

fn lid(state: &mut SessionState, open: bool) -> Result<(), Refusal> {
    let mounting = &mut state.rig.mounting;
    if mounting.lid_open == open {
        return refuse(if open { "the lid is already open" } else { "the lid is already closed" });
    }
    if !open && mounting.place(RigPart::Calibrator) == PartPlace::Adapter {
        return refuse("the lid cannot close over the calibrator: take the calibrator off first");
    }
    mounting.lid_open = open;
    Ok(())
}

fn turn_nut(state: &mut SessionState, nut: Nut, quarter_turns: i8) -> Result<(), Refusal> {
    within("the turn of a nut", f64::from(quarter_turns), -12.0, 12.0, "quarter turns")?;
    let mounting = &mut state.rig.mounting;
    if !mounting.lid_open {
        return refuse("the lid is closed: open it first");
    }
    if !mounting.clamped() {
        return refuse(
            "there is nothing under the nuts: put the hold-down frame or the adapter plate on first",
        );
    }
    let hard = crate::rig::flow::mounting::HARD_QUARTERS;
    let turned = i16::from(mounting.nut(nut)) + i16::from(quarter_turns);
    if let Some(turns) = mounting.nuts.get_mut(nut.index()) {
        *turns = turned.clamp(0, i16::from(hard)) as u8;
    }
    if mounting.working_loose.is_some_and(|(which, _)| which == nut) {
        mounting.working_loose = None;
    }
    state.rig.flow_was_changed();
    Ok(())
}

fn set_washer(
    state: &mut SessionState,
    nut: Nut,
    seat: super::action::WasherSeat,
) -> Result<(), Refusal> {
    let mounting = &mut state.rig.mounting;
    if mounting.nut(nut) != 0 {
        return refuse(format!("nut {} is still on: take it off first", nut.number()));
    }
    if let Some(washer) = mounting.washers.get_mut(nut.index()) {
        *washer = seat;
    }
    Ok(())
}

fn fit_gasket(state: &mut SessionState, gasket: Gasket) -> Result<(), Refusal> {
    let mounting = &mut state.rig.mounting;
    if !mounting.gasket_in_sight(gasket) {
        return refuse(match gasket {
            Gasket::Holder => "the holder is covered: first take off what lies on it",
            Gasket::Calibrator => {
                "the calibrator's flange is out of sight: pick up the calibrator first"
            }
        });
    }
    let there = match gasket {
        Gasket::Holder => &mut mounting.holder_gasket,
        Gasket::Calibrator => &mut mounting.calibrator_gasket,
    };
    let flat = mounting.flattened.is_some_and(|(which, _)| which == gasket);
    if *there && !flat {
        return refuse("the gasket is already in place");
    }
    *there = true;
    if flat {
        mounting.flattened = None;
    }
    state.rig.flow_was_changed();
    Ok(())
}

fn electric(state: &mut SessionState, action: &Action) -> Result<(), Refusal> {
    let rig = &mut state.rig;
    match *action {
        Action::PlugSampler | Action::UnplugSampler => {
            let into = *action == Action::PlugSampler;
            if rig.power.sampler_cord_in == into {
                return refuse(if into {
                    "the sampler's cord is already in the mains outlet"
                } else {
                    "the sampler's cord is already unplugged"
                });
            }
            rig.power.sampler_cord_in = into;
        }
        Action::PlugBlower { into } => {
            if rig.power.blower_plug == into {
                return refuse(match into {
                    BlowerPlug::Controller => {
                        "the blower is already plugged into the flow controller"
                    }
                    BlowerPlug::LineOutlet => {
                        "the blower is already plugged into the switched mains outlet"
                    }
                    BlowerPlug::Loose => "the blower is already unplugged",
                });
            }
            rig.power.blower_plug = into;
        }
        Action::SwitchLine { to } => {
            if rig.power.line_switch == to {
                return refuse(match to {
                    OnOff::On => "the switched mains outlet is already on",
                    OnOff::Off => "the switched mains outlet is already off",
                });
            }
            rig.power.line_switch = to;
        }
        Action::SwitchTimer { to } => rig.timer.switch = to,
        Action::TurnTrim { turns } => {
            within("the turn of the trim screw", turns, -5.0, 5.0, "turns")?;
            rig.flow_controller.turn(&rig.parameters.flow_controller, turns);
        }
        _ => return refuse("this cannot be done with cords and switches"),
    }
    rig.flow_was_changed();
    Ok(())
}

fn turn_knob(state: &mut SessionState, opening: f64) -> Result<(), Refusal> {
    within("the opening of the knob", opening, 0.0, 1.0, "(1 is fully open)")?;
    plates::has_knob(state)?;
    if state.rig.mounting.place(RigPart::Calibrator) == PartPlace::Case {
        return refuse("the calibrator is in its case: take it out first");
    }
    state.rig.calibrator.opening = opening;
    state.rig.flow_was_changed();
    Ok(())
}

fn block(state: &mut SessionState, covered: bool) -> Result<(), Refusal> {
    if state.rig.mounting.place(RigPart::Calibrator) != PartPlace::Adapter {
        return refuse("the calibrator is not on the adapter plate: mount it first");
    }
    if state.rig.calibrator.blocked == covered {
        return refuse(if covered {
            "the openings are already covered"
        } else {
            "the openings are already uncovered"
        });
    }
    state.rig.calibrator.blocked = covered;
    state.rig.flow_was_changed();
    Ok(())
}

fn read_in_words(setup: &Setup) -> Result<(), Refusal> {
    if setup.terms.allows_readings_in_words() {
        Ok(())
    } else {
        refuse("this scenario does not allow readings in words")
    }
}

fn ask_help(setup: &Setup, topic: HelpTopic) -> Result<(), Refusal> {
    let allowed = match topic {
        HelpTopic::WhatNow | HelpTopic::Why | HelpTopic::ShowMe => setup.terms.help,
        HelpTopic::Sums => setup.terms.sums,
        HelpTopic::Plot => setup.terms.plot,
    };
    if allowed { Ok(()) } else { refuse("this scenario does not allow that kind of help") }
}
