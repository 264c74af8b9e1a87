//! A million random actions: nothing becomes non-finite, nothing panics, what is refused changes
//! nothing, and every journal replays to the same bits.

use std::collections::HashMap;

use sim_core::fault::{Arises, Fault, FaultPlace};
use sim_core::marking;
use sim_core::operator::{Observation, OperatorStep, by_name};
use sim_core::rig::manometer::electronic::ManometerKind;
use sim_core::scenario::{KnownRules, check};
use sim_core::session::action::Action;
use sim_core::session::ending::Ending;
use sim_core::session::journal::NullSink;
use sim_core::session::view::run::RunStanding;
use sim_core::session::{ActError, Session, replay};

use super::finite::{not_finite, not_finite_truth};
use super::hands::Hands;
use super::recorded::{Paper, scenario};

/// Actions tried in all.
const ACTIONS: usize = 1_000_000;
/// Actions tried in one session, at most.
const IN_ONE_SESSION: usize = 2_000;

/// The scenarios of the repository, and with them faults of every kind and size.
const SCENARIOS: [&str; 10] = [
    "01_first_calibration.ron",
    "02_two_lines_and_an_audit.ron",
    "03_a_new_blower.ron",
    "04_the_firehouse.ron",
    "05_moved_from_the_coast.ron",
    "06_october_at_the_substation.ron",
    "27_from_set_point_to_volume.ron",
    "34_five_plates.ron",
    "35_no_water_in_it.ron",
    "40_the_ranger_station.ron",
];

/// What came of the actions.
#[derive(Default)]
struct Tally {
    /// How often each kind was done, and refused.
    kinds: HashMap<String, (usize, usize)>,
    /// How often something was done, while the blower ran, and while the pen drew besides.
    moments: [usize; 3],
}

#[test]
fn a_million_random_actions_break_nothing() {
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(8);
    let per_thread = ACTIONS.div_ceil(threads);
    let tallies: Vec<Tally> = std::thread::scope(|scope| {
        let one = |thread| move || break_things(per_thread, 1_000_000 * thread as u64);
        let running: Vec<_> = (0..threads).map(|thread| scope.spawn(one(thread))).collect();
        running.into_iter().map(|thread| thread.join().expect("no panic")).collect()
    });
    let mut all: HashMap<String, (usize, usize)> = HashMap::new();
    let mut moments = [0; 3];
    for tally in tallies {
        moments = std::array::from_fn(|at| moments[at] + tally.moments[at]);
        for (kind, (done, refused)) in tally.kinds {
            let entry = all.entry(kind).or_default();
            *entry = (entry.0 + done, entry.1 + refused);
        }
    }
    let tried: usize = all.values().map(|(done, refused)| done + refused).sum();
    let done: usize = all.values().map(|(done, _)| done).sum();
    assert!(tried >= ACTIONS, "{tried}");
    assert!(done * 3 >= tried, "only {done} of {tried} could be done: the hands are too wild");
    // Every kind of action was done; the error of an unknown one counts them.
    let unknown = serde_json::from_str::<Action>("\"fly\"").unwrap_err().to_string();
    assert_eq!(all.len(), unknown.matches('`').count() / 2 - 1, "{unknown}");
    let never: Vec<_> =
        all.iter().filter(|(_, counts)| counts.0 == 0).map(|(kind, _)| kind).collect();
    assert!(never.is_empty(), "never done: {never:?}");
    // The bench was in use: a blower that ran, a pen that drew.
    let [all, running, drawing] = moments;
    assert!(running * 5 > all && drawing * 20 > all, "{moments:?}");
}

/// Session after session until so many actions were tried.
fn break_things(actions: usize, first_seed: u64) -> Tally {
    let mut tally = Tally::default();
    let mut tried = 0;
    let mut seed = first_seed;
    while tried < actions {
        seed += 1;
        tried += one_session(seed, IN_ONE_SESSION.min(actions - tried), &mut tally);
    }
    tally
}

/// One session of random hands; gives how many actions were tried.
fn one_session(seed: u64, most: usize, tally: &mut Tally) -> usize {
    let mut hands = Hands::new(seed);
    let text = loop {
        // Some faults contradict each other, or cannot be noticed at the station.
        let text = with_faults(&mut hands);
        if check(&text, KnownRules::Any).is_ok() {
            break text;
        }
    };
    let paper = Paper::default();
    let mut session = Session::begin(&text, seed, Box::new(paper.clone()))
        .unwrap_or_else(|error| panic!("seed {seed}: {error}\n{text}"));
    let mut tried = 0;
    if hands.percent(60) {
        // The work of a run begins where a calibration ends.
        let most = if session.view().run.is_some() { 700 } else { 300 };
        let rare = hands.percent(30).then(|| hands.below(4));
        let steps = if rare.is_some() { most } else { hands.below(most) };
        if let Some(next) = prepare(&mut session, steps, rare, seed) {
            tried += 1;
            one_action(next, &mut session, &mut hands, seed, tally);
        }
    }
    while tried < most && session.ended().is_none() {
        tried += 1;
        one_action(hands.action(), &mut session, &mut hands, seed, tally);
    }
    if session.ended().is_none() {
        session.act(Action::Sign).unwrap();
    }
    check_end(session, &paper.text(), seed, tally);
    tried
}

fn one_action(
    action: Action,
    session: &mut Session,
    hands: &mut Hands,
    seed: u64,
    tally: &mut Tally,
) {
    let kind = kind_of(&action);
    let before = hands.percent(10).then(|| (session.digest(), session.view()));
    let at = session.now();
    let entry = tally.kinds.entry(kind).or_default();
    match session.act(action.clone()) {
        Ok(()) => entry.0 += 1,
        Err(ActError::Refused(refusal)) => {
            entry.1 += 1;
            assert!(!refusal.to_string().is_empty());
            if let Some(before) = before {
                let after = (session.digest(), session.view());
                assert!(before == after, "seed {seed}, {at:?}: {action:?} changed something");
            }
        }
        Err(error) => panic!("seed {seed}, {at:?}: {action:?}: {error}"),
    }
    let ticks = match hands.below(200) {
        0 => hands.below(2400),
        1..=20 => hands.below(60),
        21..=70 => hands.below(6),
        _ => 0,
    };
    session.advance(ticks as u64).unwrap();
    let view = session.view();
    if let Some(what) = not_finite(&view).or_else(|| not_finite(&view.at_eye_resolution())) {
        panic!("seed {seed}, {:?}, behind {action:?}: {what}", session.now());
    }
    let away = view.run.is_some_and(|run| run.standing == RunStanding::Away);
    if away && hands.percent(10) {
        session.come_back().unwrap();
    }
}

/// The name of an action's kind, as it is written in front of what it is done with.
fn kind_of(action: &Action) -> String {
    let written = format!("{action:?}");
    let name = written.split([' ', '(']).next();
    name.unwrap_or_default().to_owned()
}

/// Looks at all that was true, at the marks, and at the journal.
fn check_end(session: Session, journal: &str, seed: u64, tally: &mut Tally) {
    assert!(!matches!(session.ended(), None | Some(Ending::Broken)), "seed {seed}");
    let digest = session.digest();
    let signed = session.open().unwrap();
    for moment in &signed.events {
        let running = moment.before.speed_ratio > 0.5;
        let drawing = running && moment.before.on_paper && !moment.before.capped;
        tally.moments[0] += 1;
        tally.moments[1] += usize::from(running);
        tally.moments[2] += usize::from(drawing);
        if let Some(what) = not_finite_truth(&moment.before).or(not_finite_truth(&moment.after)) {
            panic!("seed {seed}, {:?}: {:?}: {what} is not finite", moment.tick, moment.action);
        }
    }
    assert_eq!(not_finite_truth(&signed.end), None, "seed {seed}");
    let marks = marking::mark(&signed.evidence());
    assert_eq!(not_finite(&marks), None, "seed {seed}");
    assert!((0.0..=100.0 + 1e-9).contains(&marks.total), "seed {seed}: {} marks", marks.total);
    if seed.is_multiple_of(5) {
        let again = replay::replay(journal, Box::new(NullSink)).unwrap();
        assert_eq!(again.session.digest(), digest, "seed {seed}");
    }
}

/// What is only done with an order or an instrument that few scenarios have, so that random hands hardly
/// ever come to it.
const fn is_rare(action: &Action) -> bool {
    matches!(
        action,
        Action::AddFilter
            | Action::RemoveAddedFilter
            | Action::TakeOutPlate
            | Action::PutInPlate { .. }
            | Action::SwitchManometer { .. }
            | Action::ZeroManometer
            | Action::ChangeBattery
    )
}

/// Lets the careful operator do the first steps, so that the hands find a bench in use, or all steps
/// until something rare comes after so many others. Gives what would be done next.
fn prepare(
    session: &mut Session,
    steps: usize,
    mut rare: Option<usize>,
    seed: u64,
) -> Option<Action> {
    let mut operator = by_name("careful", seed).unwrap();
    for _ in 0..steps {
        let view = session.view();
        let scene = Observation { view: &view, book: session.book(), papers: session.papers() };
        match operator.next(&scene) {
            OperatorStep::Do(Action::Sign | Action::LeaveRoof) | OperatorStep::Done => return None,
            OperatorStep::Do(action) => {
                if is_rare(&action) {
                    match rare {
                        Some(0) => return Some(action),
                        Some(more) => rare = Some(more - 1),
                        None => {}
                    }
                }
                if let Err(error) = session.act(action.clone()) {
                    operator.refused(&action, &error.to_string());
                }
            }
            OperatorStep::FinishHands => session.finish_hands().unwrap(),
            OperatorStep::Wait(seconds) => session.advance((seconds * 20.0) as u64).unwrap(),
        }
        session.come_back().unwrap();
    }
    None
}

/// A scenario with up to three more faults of any kind, at any size in its range.
fn with_faults(hands: &mut Hands) -> String {
    let text = scenario(hands.one(&SCENARIOS));
    let all = faults();
    let mut faults = String::new();
    let mut names = Vec::new();
    for _ in 0..hands.below(4) {
        let fault = hands.one(&all);
        let name = fault.name();
        if text.contains(name) || names.contains(&name) {
            continue;
        }
        names.push(name);
        let onset = match hands.below(3) {
            _ if fault.only_during_run() => format!("AfterRunHours({})", hands.below(30)),
            1 if arises(&fault) => format!("AfterMinutes({})", hands.below(30)),
            2 if arises(&fault) => format!("AfterRunningMinutes({})", hands.below(10)),
            _ => "Start".to_owned(),
        };
        faults += &format!("(fault: {}, onset: {onset}), ", sized(&fault, hands));
    }
    match text.split_once("faults: [") {
        Some((head, tail)) => format!("{head}faults: [{faults}{tail}"),
        None => text.replace("terms: (", &format!("faults: [{faults}],\n    terms: (")),
    }
}

/// Every fault that asks nothing of the certificates, nor of an electronic manometer.
fn faults() -> Vec<Fault> {
    let here = |fault: &Fault| fault.manometer() != Some(ManometerKind::Electronic);
    let asks_nothing = |fault: &Fault| fault.place() != FaultPlace::Certificate;
    Fault::examples().filter(|fault| asks_nothing(fault) && here(fault)).collect()
}

/// A fault as a scenario writes it, with its size set to somewhere in its range, ends included.
fn sized(fault: &Fault, hands: &mut Hands) -> String {
    let written = ron::to_string(fault).unwrap();
    let Some(size) = fault.size() else { return written };
    let part = hands.one(&[0.0, 0.1, 0.3, 0.5, 0.8, 1.0]);
    let value = size.smallest + (size.largest - size.smallest) * part;
    let set = written
        .replace(&format!("{}:{:?}", size.field, size.value), &format!("{}:{value:?}", size.field));
    let read = ron::from_str::<Fault>(&set).unwrap().size().map(|size| size.value);
    assert_eq!(read, Some(value), "{written} has no such size");
    set
}

fn arises(fault: &Fault) -> bool {
    matches!(fault.arises(), Arises::AtAnyTime | Arises::ComesAndGoes | Arises::DuringWork)
}
