//! What hands do to manometer, tube, recorder, barometer and thermometer.

use super::super::action::Action;
use super::super::state::SessionState;
use super::electronic;
use super::refusal::{Refusal, check_text, leg_name, refuse, within};
use crate::rig::parts::{Leg, PartPlace, RigPart};

const NOT_HANGING: &str = "the manometer is not hanging: put it on its hook first";

/// Applies an action to one of the gauges.
pub(super) fn apply(state: &mut SessionState, action: &Action) -> Result<(), Refusal> {
    match action {
        Action::SwitchManometer { .. } | Action::ZeroManometer | Action::ChangeBattery => {
            electronic::apply(state, action)
        }
        Action::TurnValve { .. }
        | Action::SlideScale { .. }
        | Action::SwingManometer { .. }
        | Action::BlowThrough
            if state.rig.is_electronic() =>
        {
            electronic::has_no(action)
        }
        Action::TurnValve { leg, quarter_turns } => turn_valve(state, *leg, *quarter_turns),
        Action::SlideScale { by_in } => slide_scale(state, *by_in),
        Action::SwingManometer { by_deg } => swing(state, *by_deg),
        Action::AddFluid { by_mm } => super::filling::add(state, *by_mm),
        Action::ChangeFluid { to } => super::filling::change(state, *to),
        Action::ConnectTube
        | Action::DisconnectTube
        | Action::StraightenTube
        | Action::DrainTube
        | Action::BlowThrough => tube(state, action),
        Action::PlaceThermometer { at } => {
            state.rig.thermometer.place(*at);
            Ok(())
        }
        Action::SetBarometer { to } => {
            state.rig.barometer.set(*to);
            Ok(())
        }
        Action::Tap => {
            state.rig.tap();
            Ok(())
        }
        _ => recorder(state, action),
    }
}

fn turn_valve(state: &mut SessionState, leg: Leg, quarter_turns: i8) -> Result<(), Refusal> {
    within("the turn of a valve", f64::from(quarter_turns), -4.0, 4.0, "quarter turns")?;
    if state.rig.mounting.place(RigPart::Manometer) == PartPlace::Case {
        return refuse("the manometer is in its case: take it out first");
    }
    let before = state.rig.manometer.valve_quarters(leg);
    state.rig.manometer.turn_valve(leg, quarter_turns);
    if state.rig.manometer.valve_quarters(leg) == before && quarter_turns != 0 {
        let stop = if quarter_turns > 0 { "fully open" } else { "shut" };
        return refuse(format!("the {} valve is already {stop}", leg_name(leg)));
    }
    Ok(())
}

fn hung(state: &SessionState) -> Result<(), Refusal> {
    if state.rig.manometer_hangs() { Ok(()) } else { refuse(NOT_HANGING) }
}

fn slide_scale(state: &mut SessionState, by_in: f64) -> Result<(), Refusal> {
    within("the movement of the scale", by_in, -2.0, 2.0, "in")?;
    hung(state)?;
    state.rig.manometer.slide_scale(by_in);
    Ok(())
}

fn swing(state: &mut SessionState, by_deg: f64) -> Result<(), Refusal> {
    within("the swing of the manometer", by_deg, -20.0, 20.0, "degrees")?;
    hung(state)?;
    state.rig.manometer.swing(by_deg);
    Ok(())
}

fn tube(state: &mut SessionState, action: &Action) -> Result<(), Refusal> {
    let hangs = state.rig.manometer_hangs();
    let mounted = state.rig.mounting.place(RigPart::Calibrator) == PartPlace::Adapter;
    let tube = &mut state.rig.tube;
    match action {
        Action::ConnectTube if tube.is_on_tap() => {
            refuse("the tube is already on the pressure tap")
        }
        Action::ConnectTube if !mounted => refuse(
            "the calibrator is not on the adapter plate, and the tube does not reach its pressure \
             tap: mount the calibrator first",
        ),
        Action::ConnectTube if !hangs => refuse(
            "the manometer is not hanging, and its tube does not reach: put it on its hook first",
        ),
        Action::ConnectTube => {
            tube.connect();
            Ok(())
        }
        Action::DisconnectTube if !tube.is_on_tap() => {
            refuse("the tube is already off the pressure tap")
        }
        Action::DisconnectTube => {
            tube.disconnect();
            Ok(())
        }
        Action::StraightenTube => {
            tube.straighten();
            Ok(())
        }
        Action::DrainTube | Action::BlowThrough if tube.is_on_tap() => {
            refuse("the tube is on the pressure tap: pull it off first")
        }
        Action::DrainTube if tube.is_frozen() => refuse(
            "the water in the tube is frozen and does not come out: fill the manometer anew in the \
             van, where its tube thaws as well",
        ),
        Action::DrainTube => {
            tube.drain();
            Ok(())
        }
        _ if !hangs => refuse(NOT_HANGING),
        _ => {
            state.rig.blow_through();
            Ok(())
        }
    }
}

fn recorder(state: &mut SessionState, action: &Action) -> Result<(), Refusal> {
    let hour = state.rig.hour_of_day();
    let recorder = &mut state.rig.recorder;
    let open = recorder.is_door_open();
    match action {
        Action::OpenDoor if open => return refuse("the recorder's door is already open"),
        Action::OpenDoor => recorder.open_door(),
        Action::CloseDoor if !open => return refuse("the recorder's door is already closed"),
        Action::CloseDoor => recorder.close_door(),
        _ if !open => return refuse("the recorder's door is closed: open it first"),
        Action::UncapPen if !recorder.is_capped() => {
            return refuse("the pen's cap is already off");
        }
        Action::UncapPen => recorder.uncap(),
        Action::CapPen if recorder.is_capped() => return refuse("the pen's cap is already on"),
        Action::CapPen => recorder.cap(),
        Action::LowerPen if recorder.is_on_paper() => {
            return refuse("the pen is already on the paper");
        }
        Action::LowerPen => recorder.lower_pen(),
        Action::LiftPen if !recorder.is_on_paper() => {
            return refuse("the pen is already off the paper");
        }
        Action::LiftPen => recorder.lift_pen(),
        Action::FitChart if recorder.is_on_paper() => {
            return refuse("the pen is on the paper: lift it first");
        }
        Action::FitChart => {
            super::run::keep_chart(state);
            state.rig.chart.fit(hour);
        }
        Action::TurnChart { minutes } => {
            within("the turn of the chart", *minutes, -720.0, 720.0, "min")?;
            state.rig.chart.turn(*minutes);
        }
        Action::SetPenZero { by } => {
            within("the turn of the zero screw", *by, -5.0, 5.0, "chart divisions")?;
            recorder.turn_zero(*by);
        }
        Action::MarkChart { label } => {
            check_text(label)?;
            state.rig.chart.mark(&state.rig.recorder, label);
        }
        _ => return refuse("this cannot be done here"),
    }
    Ok(())
}
