//! What hands do to filter, timer and chart of a run.

use super::super::action::Action;
use super::super::state::SessionState;
use super::super::unattended_run::RunStage;
use super::refusal::{Refusal, refuse, within};
use super::{added_filters, carry};
use crate::rig::Rig;
use crate::rig::flow::filter::{Filter, FilterSheet};
use crate::rig::parts::{FilterSide, Grip, PartPlace, RigPart, Seat};
use crate::rig::power::timer::{Tripper, WeekTime};
use crate::scenario::setup::Setup;

/// Applies one of the actions of a run.
pub(super) fn apply(
    state: &mut SessionState,
    setup: &Setup,
    action: &Action,
) -> Result<(), Refusal> {
    match *action {
        Action::TakeFilter { grip } => {
            carry::take(state, RigPart::Filter)?;
            taken(state, setup, RigPart::Filter, grip)
        }
        Action::HoldToLight | Action::TurnFilter | Action::FoldFilter { .. } => {
            in_hand(state, action)
        }
        Action::CentreFilter => centre(state),
        Action::AddFilter => added_filters::lay_on(state, setup),
        Action::RemoveAddedFilter => added_filters::lift_off(state),
        Action::SetTripper { .. } | Action::FastenTripper { .. } | Action::SetDial { .. } => {
            timer(state, action)
        }
        Action::TakeChart => take_chart(state),
        _ => refuse("this cannot be done here"),
    }
}

/// Takes note of a part that was picked up: a filter from the folder is a fresh one.
pub(super) fn taken(
    state: &mut SessionState,
    setup: &Setup,
    part: RigPart,
    grip: Grip,
) -> Result<(), Refusal> {
    if part != RigPart::Filter {
        return Ok(());
    }
    let fresh = takes_fresh(state, setup);
    let Some(run) = &mut state.run else { return Ok(()) };
    let rig = &mut state.rig;
    if fresh {
        let folder = setup.work_order.run.as_ref().map_or(0, |order| order.filters.len());
        if usize::from(run.taken) >= folder {
            return refuse("there is no other filter in the folder");
        }
        run.taken += 1;
        if run.stage == RunStage::Back {
            // The facts of the run concern the filter that it was made with.
            rig.kept_filter.get_or_insert(rig.filter);
        }
        rig.filter = Filter { deposit_kg_m2: 0.0, sheet: rig.next_sheet };
        rig.next_sheet = FilterSheet::fresh(run.taken + 1);
    }
    state.filter_in_case = false;
    rig.filter.sheet.held(grip);
    Ok(())
}

/// Whether the filter that is picked up next is a fresh one from the folder: before the run, and
/// after it where a next run is ordered, once the exposed filter has been recovered.
pub(in crate::session) fn takes_fresh(state: &SessionState, setup: &Setup) -> bool {
    let Some(run) = &state.run else { return false };
    let rig = &state.rig;
    // Fresh filters come from the folder, not from what was put into the case.
    let put_away = rig.filter.sheet.in_envelope || rig.filter.sheet.number == 0;
    let more = match run.stage {
        RunStage::Before => true,
        RunStage::Away(_) => false,
        RunStage::Back => setup.work_order.next_run().is_some() && is_taken_in(rig),
    };
    state.filter_in_case && put_away && more
}

/// Whether the filter of the run was put away for good: folded, or not from the folder at all.
fn is_taken_in(rig: &Rig) -> bool {
    let sheet = &rig.run_filter().sheet;
    sheet.folded_out.is_some() || sheet.number == 0
}

/// Refuses to lay a folded filter on the holder.
pub(super) fn may_put(state: &SessionState, place: PartPlace) -> Result<(), Refusal> {
    let folded = state.rig.filter.sheet.folded_out.is_some();
    if place == PartPlace::Holder && folded && state.rig.mounting.hand() == Some(RigPart::Filter) {
        return refuse("the filter is folded: it cannot go onto the holder any more");
    }
    Ok(())
}

/// Takes note of where a part was put.
pub(super) fn was_put(state: &mut SessionState, place: PartPlace) {
    let rig = &mut state.rig;
    let lies = |part| rig.mounting.place(part) == place;
    if place == PartPlace::Holder
        && lies(RigPart::Frame)
        && lies(RigPart::Filter)
        && rig.frame_shifts
    {
        rig.frame_shifts = false;
        rig.filter.sheet.seat = Seat::Shifted;
        rig.flow_was_changed();
    }
    if state.run.is_some()
        && place == PartPlace::Case
        && rig.mounting.place(RigPart::Filter) == place
    {
        state.filter_in_case = true;
        rig.filter.sheet.in_envelope = true;
    }
}

fn in_hand(state: &mut SessionState, action: &Action) -> Result<(), Refusal> {
    if state.rig.mounting.hand() != Some(RigPart::Filter) {
        return refuse("the filter is not in your hand: pick it up first");
    }
    let sheet = &mut state.rig.filter.sheet;
    if sheet.folded_out.is_some() {
        return refuse("the filter is already folded");
    }
    match *action {
        Action::HoldToLight => sheet.seen_through = true,
        Action::TurnFilter => {
            sheet.up = match sheet.up {
                FilterSide::Rough => FilterSide::Smooth,
                FilterSide::Smooth => FilterSide::Rough,
            };
        }
        Action::FoldFilter { out } => sheet.folded_out = Some(out),
        _ => {}
    }
    Ok(())
}

fn centre(state: &mut SessionState) -> Result<(), Refusal> {
    let mounting = &state.rig.mounting;
    let on = |part| mounting.place(part) == PartPlace::Holder;
    if !mounting.lid_open {
        return refuse("the lid is closed: open it first");
    }
    if !on(RigPart::Filter) {
        return refuse("there is no filter on the holder: put one there first");
    }
    if on(RigPart::Frame) || on(RigPart::Adapter) {
        return refuse("the filter is covered: first take off what lies on it");
    }
    if state.rig.added.cover() {
        return refuse("an added filter lies on it: take that off first");
    }
    state.rig.filter.sheet.seat = Seat::Centred;
    state.rig.flow_was_changed();
    Ok(())
}

fn timer(state: &mut SessionState, action: &Action) -> Result<(), Refusal> {
    if state.rig.timer.clock.is_none() {
        return refuse("no run is ordered: leave the timer's dial as it is");
    }
    let now = state.station.surroundings().week;
    let timer = &mut state.rig.timer;
    let moment = |weekday: u8, hours: f64| {
        within("the day of the dial", f64::from(weekday), 0.0, 6.0, "(0 is Monday)")?;
        within("the hour of the dial", hours, 0.0, 24.0, "h")
    };
    match *action {
        Action::SetTripper { trip, weekday, hours } => {
            moment(weekday, hours)?;
            timer.set_tripper(trip, Tripper { weekday: Some(weekday), hours });
        }
        Action::FastenTripper { trip } => timer.fasten(trip),
        Action::SetDial { weekday, hours } => {
            moment(weekday, hours)?;
            timer.set_dial(now, WeekTime { weekday, hours });
        }
        _ => {}
    }
    state.rig.flow_was_changed();
    Ok(())
}

fn take_chart(state: &mut SessionState) -> Result<(), Refusal> {
    if !state.run.is_some_and(|run| run.stage == RunStage::Back) {
        return refuse("there is no chart of a run to keep yet: the run is still to come");
    }
    if !state.rig.recorder.is_door_open() {
        return refuse("the recorder's door is closed: open it first");
    }
    if state.rig.recorder.is_on_paper() {
        return refuse("the pen is on the paper: lift it first");
    }
    if state.rig.kept_chart.is_some() {
        return refuse("the chart of the run has already been taken off");
    }
    keep_chart(state);
    let hour = state.rig.hour_of_day();
    state.rig.chart.fit(hour);
    Ok(())
}

/// Keeps the chart of a run that is over, once.
pub(super) fn keep_chart(state: &mut SessionState) {
    let back = state.run.is_some_and(|run| run.stage == RunStage::Back);
    if back && state.rig.kept_chart.is_none() {
        state.rig.kept_chart = Some(state.rig.chart.clone());
    }
}
