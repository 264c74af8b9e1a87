//! What is said, and that it is never finer than a sharp eye.

use content::sample;
use sim_core::rig::parts::{BlowerPlug, PartPlace, RigPart};
use sim_core::session::action::{Action, OnOff, Sight, WasherSeat};
use sim_core::session::view::{Hiss, NutFeel};

use super::scale::{inches_from_zero, tenths, twentieth, whole};
use super::{listen, look, notice, refused, say_actions};
use crate::help::help;
use crate::topic::Topic;

fn seen(at: Sight) -> String {
    look(&sample::view(), at, &sample::Box::new().papers())
}

#[test]
fn scales_are_said_to_half_a_division() {
    for (value, said) in [
        (0.0, "at zero"),
        (0.02, "at zero"),
        (-0.02, "at zero"),
        (0.04, "at 0.05 above zero"),
        (3.12, "at 3.1 above zero"),
        (3.1417, "at 3.15 above zero"),
        (3.98, "at 4.0 above zero"),
        (-3.0189, "at 3.0 below zero"),
        (12.34, "at 12.35 above zero"),
    ] {
        assert_eq!(inches_from_zero(value), said, "{value}");
    }
    for (value, said) in [
        (46.6123, "46 and a half"),
        (46.8, "47"),
        (0.3, "a half"),
        (-0.3, "minus a half"),
        (-3.7311, "minus 3 and a half"),
        (0.1, "0"),
        (-0.1, "0"),
    ] {
        assert_eq!(whole(value), said, "{value}");
    }
    assert_eq!(tenths(-0.7), "0.7");
    assert_eq!(twentieth(0.62), "60 % open");
    assert_eq!(twentieth(0.04), "5 % open");
    assert_eq!(twentieth(0.99), "fully open");
    assert_eq!(twentieth(0.01), "fully closed");
}

#[test]
fn numbers_that_are_none_are_said_too() {
    for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300, -1e300] {
        assert!(!inches_from_zero(value).is_empty());
        assert!(!whole(value).is_empty());
        assert!(!twentieth(value).is_empty());
        let mut view = sample::view();
        view.manometer.left.meniscus_in = value;
        view.manometer.tilt_deg = value;
        view.recorder.chart_hour = value;
        view.recorder.pen = Some(value);
        view.power.trim_turns = value;
        view.seconds_left = Some(value);
        let bench = sample::Box::new();
        for at in [Sight::LeftLeg, Sight::Manometer, Sight::Recorder, Sight::Pen, Sight::Controller]
        {
            assert!(!look(&view, at, &bench.papers()).is_empty());
        }
        let _ = notice(&sample::view(), &view);
        let _ = look(&view, Sight::Watch, &bench.papers());
    }
}

#[test]
fn readings_are_said_as_they_are_read() {
    assert_eq!(
        seen(Sight::LeftLeg),
        "Left leg: the bottom of the meniscus is at 3.15 above zero, its upper rim at 3.2 above zero. \
         Read the bottom of the meniscus. Your eye is level with it. The water is at rest."
    );
    assert_eq!(seen(Sight::Pen), "The pen reads 46 and a half. The pen is still.");
    assert_eq!(seen(Sight::Barometer), "The barometer reads 754 and a half mmHg.");
    assert_eq!(
        seen(Sight::Thermometer),
        "The thermometer is in its shaded screen. Its column reads minus 3 and a half degrees Celsius \
         and is at rest."
    );
    assert_eq!(
        seen(Sight::Manometer),
        "The manometer hangs on its hook, plumb. The left valve is shut; the right valve is open \
         by a quarter turn. The scale has not been moved. The water is higher in the left leg by \
         about 6 inches, and is at rest. The tube runs from the left leg to the calibrator's pressure \
         tap."
    );
}

#[test]
fn no_sight_says_more_digits_than_an_eye_has() {
    for at in every_sight() {
        let text = seen(at);
        assert!(!text.is_empty(), "{at:?}");
        assert!(text.is_ascii(), "{at:?}: {text}");
        if matches!(at, Sight::Certificate(_) | Sight::WorkOrder) {
            continue;
        }
        for figure in text.split(|c: char| !c.is_ascii_digit() && c != '.') {
            let decimals = figure.trim_end_matches('.').split_once('.').map_or(0, |(_, d)| d.len());
            assert!(decimals <= 2, "{at:?}: {figure} in {text}");
        }
    }
}

fn every_sight() -> [Sight; 23] {
    [
        Sight::Station,
        Sight::WorkOrder,
        Sight::Certificate(0),
        Sight::Certificate(9),
        Sight::Sky,
        Sight::RoofEdge,
        Sight::Barometer,
        Sight::Thermometer,
        Sight::Holder,
        Sight::Filter,
        Sight::Calibrator,
        Sight::Tube,
        Sight::Manometer,
        Sight::LeftLeg,
        Sight::RightLeg,
        Sight::Recorder,
        Sight::Pen,
        Sight::Controller,
        Sight::Timer,
        Sight::Plugs,
        Sight::Blower,
        Sight::Watch,
        Sight::WeatherSheet,
    ]
}

#[test]
fn certificates_are_printed_in_their_order() {
    assert_eq!(
        seen(Sight::Certificate(0)),
        "CERTIFICATE\n\
         Orifice calibrator, serial number C-402\n\
         Date of calibration 2026-03-17\n\
         \n\
         Standard conditions (298 K, 760 mmHg), flow Qstd in m3/min:\n\
         \x20 sqrt(dH P/760 298/T) = slope x Qstd + intercept\n\
         \x20 slope        1.51234\n\
         \x20 intercept   -0.01235\n\
         \n\
         Actual conditions, flow Qa in m3/min:\n\
         \x20 sqrt(dH T/P) = slope x Qa + intercept\n\
         \x20 slope        0.94700\n\
         \x20 intercept   -0.00773\n\
         \n\
         Correlation coefficient 0.99991\n\
         dH inches of water, P mmHg, T kelvin\n\
         \n\
         Certificate 1 of 2 in the box."
    );
    let copy = seen(Sight::Certificate(1));
    assert!(copy.starts_with("COPY OF CERTIFICATE\n"), "{copy}");
    let (actual, standard) = (copy.find("Actual"), copy.find("Standard"));
    assert!(actual < standard, "{copy}");
    assert_eq!(seen(Sight::Certificate(2)), "There are 2 certificates in the box, and no others.");
}

#[test]
fn what_lies_in_its_case_cannot_be_read() {
    let mut view = sample::view();
    view.mounting.places[RigPart::Manometer as usize] = PartPlace::Case;
    let said = look(&view, Sight::LeftLeg, &sample::Box::new().papers());
    assert_eq!(said, "The manometer is in its case; hang it on its hook to read it.");
    view.recorder.pen = None;
    let said = look(&view, Sight::Pen, &sample::Box::new().papers());
    assert_eq!(said, "The pen's cap is on, so its tip cannot be read.");
}

#[test]
fn nothing_is_noticed_when_nothing_changed() {
    let mut after = sample::view();
    assert!(notice(&sample::view(), &after).is_empty());
    after.manometer.left.meniscus_in += 0.01;
    after.recorder.pen = Some(46.62);
    after.barometer.pointer_mmhg += 3.0;
    assert!(notice(&sample::view(), &after).is_empty());
}

#[test]
fn changes_are_noticed_roughly() {
    let before = sample::view();
    let mut after = before.clone();
    after.blower.loudness = 0.9;
    after.blower.hiss = Some(Hiss::AtNut(2));
    after.mounting.nuts[1].feel = NutFeel::Hard;
    after.mounting.nuts[1].quarter_turns = 11;
    after.power.blower_plug = BlowerPlug::Controller;
    after.manometer.left.meniscus_in += 1.43;
    after.manometer.moving = true;
    after.recorder.pen = Some(50.4);
    after.recorder.moving = true;
    after.seconds_left = Some(299.0);
    assert_eq!(
        notice(&before, &after),
        [
            "The blower runs up to speed.",
            "Nut 2 is very tight, 2 and three quarter turns on, with its washer above the plate.",
            "The blower is plugged into the flow controller.",
            "The water in the left leg has risen about 1 and a half inches and is still swinging.",
            "The pen goes up about 4 divisions and is still moving.",
            "Five minutes are left.",
        ]
    );
    let mut rest = after.clone();
    rest.manometer.moving = false;
    rest.recorder.moving = false;
    rest.blower.loudness = 0.0;
    rest.blower.hiss = None;
    assert_eq!(
        notice(&after, &rest),
        ["The blower stops.", "The water has come to rest.", "The pen has come to rest.",]
    );
}

#[test]
fn a_hiss_is_heard_by_who_listens_and_by_nobody_else() {
    let mut view = sample::view();
    assert_eq!(listen(&view), "Nothing is running: it is quiet.");
    view.blower.loudness = 0.8;
    assert_eq!(listen(&view), "The blower whines; you hear no hiss.");
    view.blower.hiss = Some(Hiss::AtNut(2));
    assert_eq!(listen(&view), "The blower whines; air hisses in at nut 2.");
    let seen = look(&view, Sight::Blower, &sample::Box::new().papers());
    assert!(!seen.contains("hiss"), "{seen}");
    let mut quiet = view.clone();
    quiet.blower.hiss = None;
    assert!(notice(&quiet, &view).is_empty());
}

#[test]
fn the_flange_is_seen_out_of_the_case() {
    let mut view = sample::view();
    let said = |view: &_| look(view, Sight::Holder, &sample::Box::new().papers());
    assert!(!said(&view).contains("out of sight"));
    view.mounting.places[RigPart::Calibrator as usize] = PartPlace::Case;
    assert!(said(&view).contains("out of sight in its case"));
}

#[test]
fn help_gives_no_fault_of_a_scenario_away() {
    let all = help(Some(Topic::All));
    for word in ["leaks", "gust move", "too old", "division high", "intercept moved"] {
        assert!(!all.contains(word), "{word}");
    }
    for answer in ["repaired", "corrected", "rejected", "noted"] {
        assert!(help(Some(Topic::Reporting)).contains(&format!("  {answer}  ")), "{answer}");
    }
}

#[test]
fn help_fits_eighty_columns_and_shows_every_sentence() {
    let all = help(Some(Topic::All));
    for line in all.lines().chain(help(None).lines()) {
        assert!(line.chars().count() <= 80, "{line}");
    }
    for sentence in ["open left valve", "wait 5 min", "write point 3.1 3.0 47", "sign"] {
        assert!(all.lines().any(|line| line.trim_start().starts_with(sentence)), "{sentence}");
    }
    assert!(help(None).lines().count() < 60, "the overview is too long");
    for topic in Topic::WORK {
        assert!(all.contains(&help(Some(topic))), "{topic:?}");
    }
}

#[test]
fn a_refusal_is_a_sentence() {
    assert_eq!(
        refused(&"the nuts hold the frame"),
        "That cannot be done: the nuts hold the frame."
    );
}

#[test]
fn several_actions_are_said_as_the_sentence_that_does_them() {
    use crate::moves;
    use crate::parse::parse;
    use crate::request::Request;
    use sim_core::field_book::FieldBook;

    let mut view = sample::view();
    for nut in &mut view.mounting.nuts {
        (nut.feel, nut.quarter_turns) = (NutFeel::Free, 2);
    }
    let taps = vec![Action::Tap; 3];
    let carried = moves::carry(&view, RigPart::Frame, PartPlace::Ground);
    let line = Action::SwitchLine { to: OnOff::Off };
    for (actions, said) in [
        (moves::loosen_all(&view), vec!["loosen the nuts"]),
        (moves::tighten_all(&view), vec!["tighten the nuts"]),
        (moves::all_washers(WasherSeat::Above), vec!["put the washers above the plate"]),
        (moves::open_both(&view), vec!["open both valves"]),
        (moves::shut_both(&view), vec!["shut both valves"]),
        (moves::read_both_legs(), vec!["read both legs"]),
        (taps, vec!["tap 3 times"]),
        (carried, vec!["carry the hold-down frame to the ground"]),
        (moves::carry(&view, RigPart::Manometer, PartPlace::Hook), vec!["hang the manometer"]),
        (vec![moves::set_dial_to_watch(&view)], vec!["set the dial to the watch"]),
        (
            vec![line, Action::UnplugSampler, Action::Listen],
            vec!["switch the mains outlet off", "unplug the sampler", "listen"],
        ),
        (vec![Action::BlockOpenings, Action::Tap], vec!["cover the openings", "tap"]),
    ] {
        let sentences = say_actions(&view, &actions);
        assert_eq!(sentences, said);
        let asked: Vec<Action> = sentences
            .iter()
            .flat_map(|sentence| match parse(sentence, &view, &FieldBook::default()) {
                Ok(Request::Do(actions)) => actions,
                other => panic!("{sentence}: {other:?}"),
            })
            .collect();
        assert_eq!(asked, actions, "{sentences:?}");
    }
}

#[test]
fn a_chart_clock_that_loses_time_can_be_noticed() {
    let bench = sample::Box::new();
    let at = |minutes: f64| {
        let mut view = sample::view();
        view.recorder.chart_hour = 9.0 + minutes / 60.0;
        look(&view, Sight::Recorder, &bench.papers())
    };
    assert!(at(45.0).contains("near 09:44") || at(45.0).contains("near 09:46"), "{}", at(45.0));
    assert!(at(44.0).contains("The pen stands near 09:44 on the chart."), "{}", at(44.0));
    // Seven percent of forty minutes.
    assert_ne!(at(40.0), at(40.0 - 2.8));
    // An eye tells no single minute.
    assert_eq!(at(40.0), at(40.5));
    assert!(at(-1.0).contains("near 08:58") || at(-1.0).contains("near 09:00"));
}
