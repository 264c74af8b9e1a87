//! Moves that one sentence asks for and that take several actions, or depend on how things stand.
//! The parser makes them, the advice gives them, and they are said as one.

use sim_core::rig::parts::{BlowerPlug, Leg, Nut, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::{Action, OnOff, Sight, WasherSeat};
use sim_core::session::view::{NutFeel, View};

use crate::request::Settling;
use crate::say::power::HEARD;

/// Opposite corners one after the other, as places in [`Nut::ALL`].
const CROSSWISE: [usize; 4] = [0, 2, 1, 3];
/// How far all four nuts are taken, quarter turns, unless they feel tight before.
const TIGHT: i8 = 8;
/// As far as one action turns a nut back, quarter turns.
const FARTHEST_BACK: i8 = -12;
/// Quarter turns of a valve from shut to fully open.
pub(crate) const FULLY_OPEN: u8 = 4;

/// Most that is added to the manometer at once, mm of level.
const AT_ONCE_MM: f64 = 20.0;

/// Adds fluid until the manometer's level is at its fill mark, to the millimetre; empty when it is.
pub(crate) fn top_up(view: &View) -> Vec<Action> {
    let mut left_mm = view.manometer.below_mark_mm.round();
    let mut actions = Vec::new();
    while left_mm >= 1.0 {
        let by_mm = left_mm.min(AT_ONCE_MM);
        actions.push(Action::AddFluid { by_mm });
        left_mm -= by_mm;
    }
    actions
}

/// Takes a part, unless the hand holds it, and puts it somewhere.
pub(crate) fn carry(view: &View, part: RigPart, place: PartPlace) -> Vec<Action> {
    let put = Action::Put { place };
    if view.hand == Some(part) { vec![put] } else { vec![Action::Take { part }, put] }
}

/// How far a nut must be turned to be off, as its height shows; no farther than one action turns it.
pub(crate) fn off(view: &View, nut: Nut) -> i8 {
    let seen = view.mounting.nuts.get(nut.index()).map_or(0, |nut| nut.quarter_turns);
    i8::try_from(seen).unwrap_or(i8::MAX).saturating_neg().max(FARTHEST_BACK)
}

/// Takes all four nuts right off; empty when they are.
pub(crate) fn loosen_all(view: &View) -> Vec<Action> {
    CROSSWISE
        .into_iter()
        .filter_map(|at| Nut::ALL.get(at).copied())
        .map(|nut| Action::TurnNut { nut, quarter_turns: off(view, nut) })
        .filter(|action| !matches!(action, Action::TurnNut { quarter_turns: 0, .. }))
        .collect()
}

/// Tightens all four nuts by hand in two rounds. Nuts that feel tight are left alone; empty when all do.
pub(crate) fn tighten_all(view: &View) -> Vec<Action> {
    let needs = CROSSWISE.map(|at| {
        let nut = view.mounting.nuts.get(at)?;
        let tight = matches!(nut.feel, NutFeel::Snug | NutFeel::Hard);
        let there = i8::try_from(nut.quarter_turns).unwrap_or(i8::MAX);
        let missing = TIGHT.saturating_sub(there).max(1);
        (!tight).then_some((*Nut::ALL.get(at)?, missing))
    });
    let needs: Vec<(Nut, i8)> = needs.into_iter().flatten().collect();
    let first = needs.iter().map(|&(nut, all)| (nut, all - all / 2));
    let second = needs.iter().map(|&(nut, all)| (nut, all / 2));
    first
        .chain(second)
        .filter(|&(_, quarter_turns)| quarter_turns != 0)
        .map(|(nut, quarter_turns)| Action::TurnNut { nut, quarter_turns })
        .collect()
}

/// Puts all four washers on one side of the plate.
pub(crate) fn all_washers(seat: WasherSeat) -> Vec<Action> {
    Nut::ALL.map(|nut| Action::SetWasher { nut, seat }).to_vec()
}

/// Quarter turns missing until a valve is fully open.
pub(crate) fn to_open(view: &View, leg: Leg) -> i8 {
    let missing = FULLY_OPEN.saturating_sub(view.manometer.leg(leg).valve_quarters);
    i8::try_from(missing).unwrap_or(i8::MAX)
}

/// Quarter turns until a valve is shut.
pub(crate) fn to_shut(view: &View, leg: Leg) -> i8 {
    let open = view.manometer.leg(leg).valve_quarters.min(FULLY_OPEN);
    i8::try_from(open).unwrap_or(i8::MAX).saturating_neg()
}

/// Opens both valves fully; empty when they are.
pub(crate) fn open_both(view: &View) -> Vec<Action> {
    both(view, to_open)
}

/// Shuts both valves; empty when they are.
pub(crate) fn shut_both(view: &View) -> Vec<Action> {
    both(view, to_shut)
}

/// The turns of both valves; none where the manometer is electronic and has no valves.
fn both(view: &View, turns: fn(&View, Leg) -> i8) -> Vec<Action> {
    if view.manometer.display.is_some() {
        return Vec::new();
    }
    [Leg::Left, Leg::Right]
        .into_iter()
        .map(|leg| (leg, turns(view, leg)))
        .filter(|&(_, quarter_turns)| quarter_turns != 0)
        .map(|(leg, quarter_turns)| Action::TurnValve { leg, quarter_turns })
        .collect()
}

/// Looks at something with the eye at its level.
pub(crate) const fn look_at(at: Sight) -> Action {
    Action::Look { at, eye_mm: 0.0 }
}

/// Looks at the left leg, then at the right one.
pub(crate) fn read_both_legs() -> Vec<Action> {
    [Sight::LeftLeg, Sight::RightLeg].map(look_at).to_vec()
}

/// Sets the switch that the blower hangs on: that of the switched mains outlet, or that of the timer through the
/// flow controller. `None` while the blower is not plugged in.
pub(crate) const fn switch_blower(view: &View, to: OnOff) -> Option<Action> {
    Some(match (view.power.blower_plug, to) {
        (BlowerPlug::LineOutlet, to) => Action::SwitchLine { to },
        (BlowerPlug::Controller, OnOff::On) => Action::SwitchTimer { to: TimerSwitch::On },
        (BlowerPlug::Controller, OnOff::Off) => Action::SwitchTimer { to: TimerSwitch::Off },
        (BlowerPlug::Loose, _) => return None,
    })
}

/// Whether what is waited for is seen or heard to be at rest.
pub(crate) fn at_rest(view: &View, settling: Settling) -> bool {
    match settling {
        Settling::Pen => !view.recorder.moving,
        Settling::Water => !view.manometer.moving,
        Settling::Blower => view.blower.loudness < HEARD,
        Settling::Everything => !view.recorder.moving && !view.manometer.moving,
    }
}

/// Sets the timer's dial to the day and hour of the watch.
pub(crate) fn set_dial_to_watch(view: &View) -> Action {
    Action::SetDial { weekday: view.date.weekday(), hours: view.time.hours() }
}
