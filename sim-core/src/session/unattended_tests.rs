//! A run from loading to coming back, done by hand.

use super::*;
use crate::rig::parts::{FilterSide, Grip, Nut, PartPlace, RigPart, TimerSwitch, Trip};
use crate::session::action::{Action, Sight};
use crate::session::journal::NullSink;

const SCENARIO: &str = include_str!("../../../scenarios/27_from_set_point_to_volume.ron");

/// The scenario with changes.
pub(super) fn text(changes: &[(&str, &str)]) -> String {
    changes.iter().fold(SCENARIO.to_owned(), |text, (from, to)| {
        assert!(text.contains(from), "{from}");
        text.replace(from, to)
    })
}

/// A fault of the run, written into the scenario.
fn with_fault(fault: &str) -> String {
    text(&[("    certificates: [", &format!("    faults: [{fault}],\n    certificates: ["))])
}

pub(super) fn begun(text: &str, seed: u64) -> Session {
    Session::begin(text, seed, Box::new(NullSink)).unwrap()
}

pub(super) fn does(session: &mut Session, actions: impl IntoIterator<Item = Action>) {
    for action in actions {
        session.act(action.clone()).unwrap_or_else(|error| panic!("{action:?}: {error}"));
    }
}

/// Fits a fresh filter.
fn loaded(session: &mut Session) {
    let nuts = |quarter_turns| Nut::ALL.map(|nut| Action::TurnNut { nut, quarter_turns });
    does(session, [Action::OpenLid]);
    does(session, nuts(-12));
    does(
        session,
        [Action::Take { part: RigPart::Frame }, Action::Put { place: PartPlace::Ground }],
    );
    does(session, [Action::Take { part: RigPart::Filter }, Action::Put { place: PartPlace::Case }]);
    does(session, [Action::TakeFilter { grip: Grip::Edges }, Action::HoldToLight]);
    does(session, [Action::Put { place: PartPlace::Holder }]);
    does(
        session,
        [Action::Take { part: RigPart::Frame }, Action::Put { place: PartPlace::Holder }],
    );
    does(session, nuts(8));
    does(session, [Action::CloseLid]);
}

/// Puts recorder and timer in order.
fn armed(session: &mut Session) {
    does(session, [Action::OpenDoor, Action::FitChart, Action::UncapPen, Action::LowerPen]);
    does(session, [Action::CloseDoor]);
    let view = session.view().run.unwrap();
    let today = view.timer.weekday;
    let tripper = |trip, day| Action::SetTripper { trip, weekday: (today + day) % 7, hours: 0.0 };
    does(session, [tripper(Trip::On, 1), tripper(Trip::Off, 2)]);
}

/// Fits a fresh filter, and puts recorder and timer in order.
pub(super) fn prepared(session: &mut Session) {
    loaded(session);
    armed(session);
}

pub(super) fn run(text: &str, seed: u64, pace: Pace) -> Session {
    let mut session = begun(text, seed);
    session.set_pace(pace);
    prepared(&mut session);
    session.leave_site().unwrap();
    session
}

pub(super) fn truth(session: &Session) -> ground_truth::SampleTruth {
    session.state.ground_truth().run.unwrap().truth.unwrap()
}

#[test]
fn a_day_is_drawn_at_the_set_flow_and_leaves_its_trace() {
    let session = run(SCENARIO, 1, Pace::Coarse);
    let facts = session.state.ground_truth().run.unwrap();
    let truth = truth(&session);
    assert!((truth.powered_min - 1440.0).abs() < 0.1, "{truth:?}");
    assert_eq!(truth.starts, 1);
    // The controller holds mass flow; moist air is a little lighter than dry.
    assert!((truth.mean_flow_std_m3_min / facts.set_std_m3_min - 1.0).abs() < 0.01, "{truth:?}");
    assert!(facts.deposit_kg_m2 > 1e-3);
    let view = session.view();
    let seen = view.run.unwrap();
    assert_eq!(seen.standing, view::RunStanding::Back);
    // The logger prints every hour from the minute at which the site was left.
    assert_eq!(seen.weather.len(), 24, "{:?}", seen.weather);
    assert_eq!(
        (view.date.to_string(), view.time.to_string()),
        ("2026-05-14".into(), "08:00:00".into())
    );
    let high = view.recorder.trace.iter().filter(|(_, pen)| *pen > 30.0).count();
    assert!(high > 1400, "{high}");
}

#[test]
fn the_volume_is_the_integral_of_the_flow() {
    let mut session = begun(SCENARIO, 2);
    loaded(&mut session);
    armed(&mut session);
    does(&mut session, [Action::LeaveSite]);
    let (mut volume, mut lost, mut before) = (0.0_f64, 0.0_f64, 0.0);
    let back = session.state.run.unwrap().back;
    while let Some(boundary) = session.state.boundary_until(back) {
        let dt_s = boundary.seconds_since(session.state.tick);
        // What the step itself begins with.
        before = if before > 0.0 { before } else { session.state.rig.flow().flow_std_m3_min() };
        session.state.step_to(boundary);
        let after = session.state.rig.flow().flow_std_m3_min();
        // Kahan summation: the reference must be better than the value that is compared with it.
        let add = 0.5 * (before + after) * dt_s / 60.0 - lost;
        let sum = volume + add;
        lost = (sum - volume) - add;
        volume = sum;
        before = after;
    }
    let truth = truth(&session);
    assert!(volume > 1000.0);
    assert!((truth.volume_std_m3 / volume - 1.0).abs() < 1e-9, "{truth:?} {volume}");
}

/// Three hours with a strongly loading filter, on a mains voltage that cannot hold the flow for
/// long, with changes.
pub(super) fn three_hours(changes: &[(&str, &str)]) -> String {
    let mut all = vec![
        ("off: (day: 2, at: \"00:00\")", "off: (day: 1, at: \"03:00\")"),
        ("back: (day: 2, at: \"08:00\")", "back: (day: 1, at: \"04:00\")"),
        ("    run: (\n", "    run: (\n        weather: (dust_ug_m3: Fixed(1900)),\n"),
    ];
    all.extend(changes);
    text(&all)
}

/// Three hours at a high set point.
pub(super) fn drawn_in_three_hours(text: &str, pace: Pace) -> ground_truth::SampleTruth {
    let mut session = begun(text, 3);
    // What is drawn at random is drawn by the minute or by the second: it is not the same.
    session.state.station.silence();
    session.set_pace(pace);
    loaded(&mut session);
    armed(&mut session);
    let today = session.view().run.unwrap().timer.weekday;
    let off = Action::SetTripper { trip: Trip::Off, weekday: (today + 1) % 7, hours: 3.0 };
    // At the highest setting of the screw, the controller saturates at once.
    does(&mut session, [off, Action::TurnTrim { turns: 5.0 }, Action::TurnTrim { turns: 5.0 }]);
    session.leave_site().unwrap();
    truth(&session)
}

#[test]
fn a_minute_at_a_time_draws_what_ticks_draw() {
    let [coarse, fine] =
        [Pace::Coarse, Pace::Fine].map(|pace| drawn_in_three_hours(&three_hours(&[]), pace));
    assert!(fine.lowest_std_m3_min < 0.99 * fine.highest_std_m3_min, "{fine:?}");
    let off = coarse.volume_std_m3 / fine.volume_std_m3 - 1.0;
    assert!(off.abs() < 1e-4, "{off}: {coarse:?} {fine:?}");
    assert!((coarse.powered_min - fine.powered_min).abs() < 0.01);
}

#[test]
fn faults_that_creep_or_come_and_go_draw_the_same_at_either_pace() {
    let sound = drawn_in_three_hours(&three_hours(&[]), Pace::Coarse);
    for fault in [
        "(fault: ControllerDrifts(k_h: 1))",
        "(fault: ControllerSaturates(lost_v: 30))",
        "(fault: LowVoltage(by_v: 25), onset: Intermittent(on_min: 20, off_min: 30))",
    ] {
        let faults = format!("    faults: [{fault}],\n    certificates: [");
        let faulty = three_hours(&[("    certificates: [", &faults)]);
        let [coarse, fine] =
            [Pace::Coarse, Pace::Fine].map(|pace| drawn_in_three_hours(&faulty, pace));
        let off = coarse.volume_std_m3 / fine.volume_std_m3 - 1.0;
        assert!(off.abs() < 2e-4, "{fault}: {off}: {coarse:?} {fine:?}");
        let moved = coarse.volume_std_m3 / sound.volume_std_m3 - 1.0;
        assert!(moved < -0.01, "{fault}: {moved}");
    }
}

#[test]
fn power_cuts_and_timers_show_in_the_minutes() {
    let cut = truth(&run(
        &with_fault("(fault: PowerCut(minutes: 90), onset: AfterRunHours(5))"),
        4,
        Pace::Coarse,
    ));
    // The dial stopped with the power, so the timer ends its day later.
    assert!((cut.powered_min - 1440.0).abs() < 0.2, "{cut:?}");
    assert_eq!(cut.starts, 2);
    let slid = truth(&run(&with_fault("(fault: TripperLoose(by_h: -3))"), 4, Pace::Coarse));
    assert!((slid.powered_min - 1260.0).abs() < 0.2, "{slid:?}");
    let gains = truth(&run(&with_fault("(fault: TimerGains(pct: 5))"), 4, Pace::Coarse));
    assert!((gains.powered_min - 1440.0 / 1.05).abs() < 0.2, "{gains:?}");
    let mut wrong_day = begun(&with_fault("(fault: TimerWrongDay)"), 4);
    loaded(&mut wrong_day);
    armed(&mut wrong_day);
    let (day, hours) = (wrong_day.state.station.surroundings().week.weekday, 8.0);
    does(&mut wrong_day, [Action::SetDial { weekday: day, hours }]);
    let run = wrong_day.state.ground_truth().run.unwrap();
    assert!(run.dial_ahead_min.abs() < 5.0, "{run:?}");
}

#[test]
fn a_torn_filter_lets_air_by_and_a_storm_of_dust_ends_the_hold() {
    let sound = truth(&run(SCENARIO, 5, Pace::Coarse));
    assert!((sound.filtered_std_m3 / sound.volume_std_m3 - 1.0).abs() < 1e-9);
    let torn = truth(&run(&with_fault("(fault: FilterTorn(area_mm2: 100))"), 5, Pace::Coarse));
    assert!(torn.filtered_std_m3 < 0.85 * torn.volume_std_m3, "{torn:?}");
    let storm = "(fault: FilterClogs(factor: 250), onset: AfterRunHours(6))";
    let mut clogged = begun(&with_fault(storm), 5);
    loaded(&mut clogged);
    armed(&mut clogged);
    // Set high, so that little is left to hold it.
    does(&mut clogged, [Action::TurnTrim { turns: 5.0 }, Action::TurnTrim { turns: 2.0 }]);
    clogged.leave_site().unwrap();
    let clogged = truth(&clogged);
    assert!(clogged.lowest_std_m3_min < 0.97 * clogged.highest_std_m3_min, "{clogged:?}");
}

#[test]
fn what_hands_cannot_do_is_refused() {
    let mut session = begun(SCENARIO, 6);
    let mut refused = |action: Action| session.act(action).unwrap_err().to_string();
    assert!(refused(Action::HoldToLight).contains("not in your hand"));
    assert!(refused(Action::CentreFilter).contains("lid is closed"));
    assert!(refused(Action::TakeChart).contains("no chart"));
    assert!(refused(Action::SetDial { weekday: 7, hours: 0.0 }).contains("day of the dial"));
    loaded(&mut session);
    armed(&mut session);
    does(&mut session, [Action::LeaveSite]);
    session.advance(200_000).unwrap();
    assert!(session.act(Action::OpenLid).unwrap_err().to_string().contains("not at the site"));
    does(&mut session, [Action::Look { at: Sight::WorkOrder, eye_mm: 0.0 }]);
    session.come_back().unwrap();
    does(&mut session, [Action::Look { at: Sight::WeatherSheet, eye_mm: 0.0 }, Action::OpenLid]);
    assert!(session.act(Action::LeaveSite).is_err());
}

#[test]
fn a_filter_in_its_envelope_is_weighed() {
    let mut session = run(SCENARIO, 7, Pace::Coarse);
    assert_eq!(session.view().run.unwrap().masses, None);
    does(&mut session, [Action::SwitchTimer { to: TimerSwitch::Off }, Action::OpenLid]);
    does(&mut session, Nut::ALL.map(|nut| Action::TurnNut { nut, quarter_turns: -12 }));
    does(
        &mut session,
        [Action::Take { part: RigPart::Frame }, Action::Put { place: PartPlace::Ground }],
    );
    does(&mut session, [Action::TakeFilter { grip: Grip::Edges }]);
    does(&mut session, [Action::FoldFilter { out: FilterSide::Smooth }]);
    assert!(session.act(Action::Put { place: PartPlace::Holder }).is_err());
    does(&mut session, [Action::Put { place: PartPlace::Case }]);
    let (masses, truth) = (session.view().run.unwrap().masses.unwrap(), truth(&session));
    let dust_ug_m3 = (masses.after_g - masses.before_g) * 1e6 / truth.filtered_std_m3;
    assert!((25.0..60.0).contains(&dust_ug_m3), "{dust_ug_m3}");
}

#[test]
fn a_journal_of_a_run_gives_the_same_bits_again_wherever_it_is_asked_about() {
    let mut session = begun(SCENARIO, 8);
    loaded(&mut session);
    armed(&mut session);
    does(&mut session, [Action::LeaveSite]);
    let mut watched = begun(SCENARIO, 8);
    loaded(&mut watched);
    armed(&mut watched);
    does(&mut watched, [Action::LeaveSite]);
    session.come_back().unwrap();
    while watched.state.is_away() {
        watched.advance(777 * 20 + 7).unwrap();
        watched.view();
    }
    session.advance(watched.now().0 - session.now().0).unwrap();
    assert_eq!(session.digest(), watched.digest());
}
