//! Hands reach everything, and every way of saying so is whole.

use std::collections::{BTreeMap, BTreeSet};

use content::sample;
use sim_core::rig::flow::plates::Plate;
use sim_core::rig::manometer::electronic::Shown;
use sim_core::rig::parts::{
    BlowerPlug, Gasket, Grip, Leg, PartPlace, RigPart, Stopper, TimerSwitch, Trip,
};
use sim_core::session::Session;
use sim_core::session::action::{Action, BarometerReference, Exposure, OnOff, WasherSeat};
use sim_core::session::journal::NullSink;
use sim_core::session::view::run::{RunStanding, RunView};
use sim_core::session::view::{DisplayView, NutFeel, PlatesView, View};

use crate::carried::{allowed, spot_of_place};
use crate::grain::Grain;
use crate::offers::offers;
use crate::sight::sight_of;
use crate::spot::Spot;
use crate::state::state_of;
use crate::turning::turn;

const WITH_A_RUN: &str = include_str!("../../../scenarios/27_from_set_point_to_volume.ron");

/// The bench as it can stand: every place of every part, every switch both ways.
fn states() -> Vec<View> {
    let mut states = vec![sample::view()];
    let changes: [fn(&mut View); 15] = [
        |view| view.mounting.lid_open = false,
        |view| {
            view.mounting.nuts.iter_mut().for_each(|nut| {
                nut.feel = NutFeel::Off;
                nut.quarter_turns = 0;
                nut.washer = WasherSeat::Below;
            })
        },
        |view| {
            view.mounting.nuts.iter_mut().for_each(|nut| {
                nut.feel = NutFeel::Off;
                nut.quarter_turns = 0;
                nut.washer = WasherSeat::Above;
            })
        },
        |view| view.power.sampler_cord_in = false,
        |view| view.power.blower_plug = BlowerPlug::Controller,
        |view| view.power.blower_plug = BlowerPlug::Loose,
        |view| view.power.line_switch = OnOff::On,
        |view| view.power.timer_switch = TimerSwitch::Auto,
        |view| {
            view.tube.on_tap = false;
            view.calibrator.blocked = true;
            view.thermometer.exposure = Exposure::Sun;
        },
        |view| {
            view.recorder.capped = true;
            view.recorder.on_paper = false;
        },
        |view| view.recorder.door_open = false,
        |view| {
            view.mounting.holder_gasket = Some(false);
            view.mounting.calibrator_gasket = Some(false);
            view.barometer.set_to = Some(BarometerReference::SeaLevel);
        },
        |view| view.manometer.left.valve_quarters = 4,
        |view| {
            view.mounting.inlet = Some(Stopper::Nest);
            view.mounting.exhaust = Some(Stopper::Snow);
            view.mounting.flat_gasket = Some(Gasket::Holder);
            view.power.outlet_tripped = true;
            view.power.cord_damaged = true;
        },
        |view| {
            view.mounting.flat_gasket = Some(Gasket::Calibrator);
            view.recorder.line_off = true;
            view.recorder.line_kinked = true;
            view.recorder.line_drops = true;
        },
    ];
    for change in changes {
        let mut view = sample::view();
        change(&mut view);
        states.push(view);
    }
    for part in RigPart::ALL {
        let mut view = sample::view();
        view.mounting.places = [PartPlace::Case; 5];
        if part == RigPart::Calibrator
            && let Some(place) = view.mounting.places.get_mut(RigPart::Adapter as usize)
        {
            *place = PartPlace::Holder;
        }
        if let Some(place) = view.mounting.places.get_mut(part as usize) {
            *place = PartPlace::Hand;
        }
        view.hand = Some(part);
        states.push(view);
    }
    for inserted in [None, Some(Plate::WIDEST)] {
        let mut view = sample::view();
        view.calibrator.plates = Some(PlatesView { inserted });
        states.push(view);
    }
    for shows in [Shown::Nothing, Shown::Reading(4.07), Shown::OverRange] {
        let mut view = sample::view();
        let display = DisplayView { shows, battery_low: true, calibrated: None };
        view.manometer.display = Some(display);
        states.push(view);
    }
    states.extend(run_states());
    states
}

/// The bench with a run ordered: its filter everywhere it can be, before and after the run.
fn run_states() -> Vec<View> {
    let mut states = Vec::new();
    for standing in [RunStanding::Before, RunStanding::Back] {
        for place in [PartPlace::Case, PartPlace::Hand, PartPlace::Holder, PartPlace::Ground] {
            let mut view = sample::with_a_run();
            if let Some(at) = view.mounting.places.get_mut(RigPart::Filter as usize) {
                *at = place;
            }
            view.hand = (place == PartPlace::Hand).then_some(RigPart::Filter);
            if let Some(run) = &mut view.run {
                run.standing = standing;
                run.filter.grip = (place == PartPlace::Hand).then_some(Grip::Face);
                run.added_filters = u8::from(place == PartPlace::Holder);
            }
            states.push(view);
        }
    }
    states
}

/// The name of an action's kind.
fn kind(action: &Action) -> String {
    let text = format!("{action:?}");
    text.chars().take_while(|c| c.is_alphanumeric()).collect()
}

#[test]
fn hands_reach_every_action_of_the_work_on_the_roof() {
    let reached: BTreeSet<String> = states()
        .iter()
        .flat_map(|view| Spot::all().into_iter().flat_map(move |spot| offers(view, spot)))
        .map(|offer| kind(&offer.action))
        .collect();
    let wanted = [
        "Look",
        "Listen",
        "OpenLid",
        "CloseLid",
        "TurnNut",
        "SetWasher",
        "Take",
        "Put",
        "FitGasket",
        "TurnValve",
        "SlideScale",
        "SwingManometer",
        "ConnectTube",
        "DisconnectTube",
        "StraightenTube",
        "DrainTube",
        "BlowThrough",
        "AddFluid",
        "ChangeFluid",
        "PlugSampler",
        "UnplugSampler",
        "PlugBlower",
        "SwitchLine",
        "SwitchTimer",
        "TurnTrim",
        "TurnKnob",
        "TakeOutPlate",
        "SwitchManometer",
        "ZeroManometer",
        "ChangeBattery",
        "PutInPlate",
        "BlockOpenings",
        "FreeOpenings",
        "OpenDoor",
        "CloseDoor",
        "UncapPen",
        "CapPen",
        "LowerPen",
        "LiftPen",
        "FitChart",
        "TurnChart",
        "SetPenZero",
        "Tap",
        "MarkChart",
        "PlaceThermometer",
        "SetBarometer",
        "LeaveRoof",
        "TakeFilter",
        "HoldToLight",
        "TurnFilter",
        "FoldFilter",
        "CentreFilter",
        "AddFilter",
        "RemoveAddedFilter",
        "SetDial",
        "SetTripper",
        "FastenTripper",
        "TakeChart",
        "LeaveSite",
        "ClearOpening",
        "TendRecorderLine",
        "ResetOutlet",
        "ChangeCord",
        "ChangeBrushes",
    ];
    let missing: Vec<&str> = wanted.into_iter().filter(|&kind| !reached.contains(kind)).collect();
    assert!(missing.is_empty(), "no hand reaches {missing:?}");
}

#[test]
fn every_part_can_be_taken_and_put_everywhere_it_goes() {
    let reached: Vec<Action> = states()
        .iter()
        .flat_map(|view| Spot::all().into_iter().flat_map(move |spot| offers(view, spot)))
        .map(|offer| offer.action)
        .collect();
    for part in RigPart::ALL {
        assert!(reached.contains(&Action::Take { part }), "{part:?} cannot be taken");
    }
    for place in
        [PartPlace::Case, PartPlace::Ground, PartPlace::Holder, PartPlace::Adapter, PartPlace::Hook]
    {
        assert!(reached.contains(&Action::Put { place }), "nothing can be put to {place:?}");
    }
}

#[test]
fn offers_have_words_and_keys_that_stay_and_never_repeat_themselves() {
    // A deed has the same key in every state in which its thing comes by it in the same way.
    let steady = [
        Spot::Lid,
        Spot::Door,
        Spot::Cord,
        Spot::BlowerPlug,
        Spot::LineOutlet,
        Spot::Timer,
        Spot::Pen,
        Spot::Cap,
        Spot::Tube,
        Spot::Knob,
        Spot::Thermometer,
        Spot::Barometer,
    ];
    let mut keys: BTreeMap<(Spot, char), BTreeSet<String>> = BTreeMap::new();
    for view in states() {
        for spot in Spot::all() {
            let offers = offers(&view, spot);
            assert!(!offers.is_empty(), "nothing can be done to {}", spot.name());
            assert!(offers.len() <= 9, "{} offers more than nine things", spot.name());
            let own: BTreeSet<char> = offers.iter().map(|offer| offer.key).collect();
            assert_eq!(own.len(), offers.len(), "{} has a key twice", spot.name());
            for offer in &offers {
                assert!(('1'..='9').contains(&offer.key) && !offer.words.is_empty());
                if steady.contains(&spot) && view.calibrator.plates.is_none() {
                    let deeds = keys.entry((spot, offer.key)).or_default();
                    deeds.insert(kind(&offer.action));
                    assert_eq!(deeds.len(), 1, "{}: {deeds:?}", spot.name());
                }
            }
            let words: BTreeSet<&str> = offers.iter().map(|offer| offer.words.as_str()).collect();
            assert_eq!(words.len(), offers.len(), "{} says something twice", spot.name());
        }
    }
}

#[test]
fn whatever_is_in_the_hand_can_be_put_where_a_spot_stands_for_the_place() {
    for view in states().into_iter().filter(|view| view.hand.is_some()) {
        for place in allowed(&view) {
            let spot = spot_of_place(place).expect("a spot for the place");
            assert!(
                offers(&view, spot).iter().any(|offer| offer.action == Action::Put { place }),
                "{place:?} is allowed but {} does not offer it",
                spot.name()
            );
        }
    }
}

#[test]
fn states_are_said_and_no_reading_is_given_away() {
    let scales = [
        Spot::Leg(Leg::Left),
        Spot::Leg(Leg::Right),
        Spot::Scale,
        Spot::Pen,
        Spot::Barometer,
        Spot::Thermometer,
        Spot::Knob,
        Spot::Display,
        Spot::Dial,
        Spot::Tripper(Trip::On),
        Spot::KeptChart,
        Spot::WeatherSheet,
    ];
    for view in states() {
        for spot in Spot::all() {
            assert!(!state_of(&view, spot).is_empty(), "{} says nothing", spot.name());
        }
        for spot in scales {
            let said = state_of(&view, spot);
            assert!(!said.chars().any(|c| c.is_ascii_digit()), "{}: {said}", spot.name());
        }
    }
}

#[test]
fn a_fine_turn_is_smaller_than_a_coarse_one_and_turns_back() {
    let view = sample::view();
    let knob = |steps, grain| match turn(&view, Spot::Knob, steps, grain) {
        Some(Action::TurnKnob { opening }) => opening,
        other => panic!("the knob turns: {other:?}"),
    };
    assert!((knob(1, Grain::Coarse) - 0.67).abs() < 1e-12);
    assert!((knob(-1, Grain::Fine) - 0.61).abs() < 1e-12);
    assert!((knob(100, Grain::Coarse) - 1.0).abs() < 1e-12, "it stops when fully open");
    assert_eq!(turn(&view, Spot::Sky, 1, Grain::Coarse), None);
    let nut = sim_core::rig::parts::Nut::ALL[0];
    assert_eq!(
        turn(&view, Spot::Nut(nut), -1, Grain::Fine),
        Some(Action::TurnNut { nut, quarter_turns: -1 })
    );
}

#[test]
fn names_and_sights_are_there_for_everything() {
    let names: BTreeSet<String> = Spot::all().into_iter().map(Spot::name).collect();
    assert_eq!(names.len(), Spot::all().len(), "two spots have the same name");
    for spot in Spot::all() {
        let _ = sight_of(spot);
    }
}

#[test]
fn what_is_offered_of_timer_and_filter_can_be_done() {
    let mut session = Session::begin(WITH_A_RUN, 1, Box::new(NullSink)).expect("a session");
    let view = session.view();
    for spot in [Spot::Dial, Spot::Tripper(Trip::On), Spot::Tripper(Trip::Off)] {
        let list = offers(&view, spot);
        assert!((6..=9).contains(&list.len()), "{spot:?}: {list:?}");
        for offer in list {
            let mut copy = session.preview();
            copy.act(offer.action.clone()).unwrap_or_else(|why| panic!("{offer:?}: {why}"));
        }
    }
    let wednesday = offers(&view, Spot::Tripper(Trip::On));
    session.act(wednesday[0].action.clone()).expect("a day on");
    let (before, after) = (view.run.expect("a run"), session.view().run.expect("a run"));
    let day = |run: &RunView| run.timer.on.weekday.expect("a day");
    assert_eq!(day(&after), (day(&before) + 1) % 7);
    assert_eq!(before.timer.off, after.timer.off);
}
