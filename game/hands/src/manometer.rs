//! What you can do to the manometer, its valves, scale, legs and tube.

use sim_core::rig::manometer::electronic::Shown;
use sim_core::rig::parts::{GaugeFluid, Leg, OnOff, PartPlace, RigPart};
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::{DisplayView, View};

use super::carried;
use super::offer::Offers;
use super::spot::Spot;

pub(super) fn offers(view: &View, spot: Spot, list: &mut Offers) {
    match spot {
        Spot::Display => list.look("read the display", Sight::Display),
        // An electronic manometer has neither valves nor legs nor scale.
        Spot::Valve(_) | Spot::Leg(_) | Spot::Scale if view.manometer.display.is_some() => {
            list.look("look at the whole manometer", Sight::Manometer);
        }
        Spot::Manometer => whole(view, list),
        Spot::Valve(leg) => valve(view, leg, list),
        Spot::Leg(leg) => {
            let sight = match leg {
                Leg::Left => Sight::LeftLeg,
                Leg::Right => Sight::RightLeg,
            };
            list.look("read it at eye level", sight);
            list.act("look at it from slightly above", Action::Look { at: sight, eye_mm: 20.0 });
            list.act("look at it from slightly below", Action::Look { at: sight, eye_mm: -20.0 });
        }
        Spot::Scale => {
            list.act("slide the scale up by a tenth of an inch", Action::SlideScale { by_in: 0.1 });
            list.act(
                "slide the scale down by a tenth of an inch",
                Action::SlideScale { by_in: -0.1 },
            );
            list.act("slide it up by a hundredth of an inch", Action::SlideScale { by_in: 0.01 });
            list.act(
                "slide it down by a hundredth of an inch",
                Action::SlideScale { by_in: -0.01 },
            );
            list.look("look along the scale", Sight::Manometer);
        }
        _ => tube(view, list),
    }
}

fn whole(view: &View, list: &mut Offers) {
    carried::put_here(view, Spot::Manometer, list);
    if view.mounting.place(RigPart::Manometer) == PartPlace::Hook {
        list.look("look at the whole manometer", Sight::Manometer);
    }
    if let Some(display) = view.manometer.display {
        keys(view, display, list);
    } else if view.mounting.place(RigPart::Manometer) == PartPlace::Hook {
        list.act("swing it one degree to the right", Action::SwingManometer { by_deg: 1.0 });
        list.act("swing it one degree to the left", Action::SwingManometer { by_deg: -1.0 });
    }
    if view.hand != Some(RigPart::Manometer) {
        carried::part_offers(view, RigPart::Manometer, list);
    } else {
        for place in [PartPlace::Case, PartPlace::Ground] {
            let words = match place {
                PartPlace::Case => "put the manometer into the case",
                _ => "lay the manometer on the roof",
            };
            list.act(words, Action::Put { place });
        }
    }
    filling(view, list);
}

/// Fluid from the bottle in the case while it hangs; all of it anew, in the van, while it does not.
fn filling(view: &View, list: &mut Offers) {
    if view.mounting.place(RigPart::Manometer) == PartPlace::Hook {
        list.act("add 5 mm of fluid from its bottle", Action::AddFluid { by_mm: 5.0 });
        list.act("add 1 mm of fluid", Action::AddFluid { by_mm: 1.0 });
        list.act("take 1 mm of fluid out with the dropper", Action::AddFluid { by_mm: -1.0 });
    } else {
        for to in [GaugeFluid::Water, GaugeFluid::Antifreeze] {
            let words = match to {
                GaugeFluid::Antifreeze => "fill it anew in the van, with antifreeze",
                _ => "fill it anew in the van, with clean water",
            };
            list.act(words, Action::ChangeFluid { to });
        }
    }
}

/// The keys of an electronic manometer, and its battery.
fn keys(view: &View, display: DisplayView, list: &mut Offers) {
    if view.mounting.place(RigPart::Manometer) == PartPlace::Case {
        return;
    }
    if display.shows == Shown::Nothing {
        list.act("switch it on", Action::SwitchManometer { to: OnOff::On });
    } else {
        list.act("press the zero key", Action::ZeroManometer);
        list.act("switch it off", Action::SwitchManometer { to: OnOff::Off });
    }
    list.act("change the battery", Action::ChangeBattery);
}

fn valve(view: &View, leg: Leg, list: &mut Offers) {
    let open = view.manometer.leg(leg).valve_quarters;
    let turn = |quarter_turns| Action::TurnValve { leg, quarter_turns };
    let opened = i8::try_from(open).unwrap_or(4).clamp(0, 4);
    if opened < 4 {
        list.act_as(1, "open the valve fully", turn(4 - opened));
        list.act_as(2, "open it by a quarter turn", turn(1));
    }
    if opened > 0 {
        list.act_as(3, "close the valve", turn(-opened));
        list.act_as(4, "close it by a quarter turn", turn(-1));
    }
    list.look_as(5, "look at the manometer", Sight::Manometer);
}

fn tube(view: &View, list: &mut Offers) {
    if view.tube.on_tap {
        list.act_as(2, "pull the tube off the pressure tap", Action::DisconnectTube);
    } else {
        list.act_as(1, "push the tube onto the pressure tap", Action::ConnectTube);
        if view.manometer.display.is_none() {
            list.act_as(3, "blow gently into it and watch the water", Action::BlowThrough);
        }
        list.act_as(4, "shake the water out of it", Action::DrainTube);
    }
    list.act_as(5, "straighten the tube", Action::StraightenTube);
    list.look_as(6, "look along the tube", Sight::Tube);
}
