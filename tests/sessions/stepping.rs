//! However time is cut into pieces, and whoever looks in between, a session ends in the same bits.

use sim_core::session::action::Action;
use sim_core::session::{ActError, Session};
use sim_core::time::Tick;

use super::hands::Hands;
use super::recorded::{
    Paper, Recorded, actions, advance_to, recorded, rehearsed, scenario, sealed_at,
};

/// How time passes up to a tick.
type Passing = fn(&mut Session, Tick, &mut Hands);

fn at_once(session: &mut Session, to: Tick, _: &mut Hands) {
    advance_to(session, to);
}

fn tick_by_tick(session: &mut Session, to: Tick, _: &mut Hands) {
    while session.now() < to && session.ended().is_none() {
        session.advance(1).unwrap();
        session.advance(0).unwrap();
    }
}

fn with_looks(session: &mut Session, to: Tick, hands: &mut Hands) {
    while session.now() < to && session.ended().is_none() {
        let seen = session.view();
        let digest = session.digest();
        assert!(seen == session.view() && digest == session.digest(), "a look changed something");
        let most = to.0 - session.now().0;
        session.advance((1 + hands.below(45) as u64).min(most)).unwrap();
        assert_eq!(session.view().tick, session.now());
    }
}

const PASSINGS: [Passing; 3] = [at_once, tick_by_tick, with_looks];

/// Does these actions at their ticks, time passing in one of the ways.
fn done(text: &str, seed: u64, all: &[(Tick, Action)], end: Tick, pass: Passing) -> Recorded {
    let mut hands = Hands::new(seed);
    let paper = Paper::default();
    let mut session = Session::begin(text, seed, Box::new(paper.clone())).unwrap();
    for (tick, action) in all {
        pass(&mut session, *tick, &mut hands);
        session.act(action.clone()).unwrap();
    }
    pass(&mut session, end, &mut hands);
    recorded(session, paper.text())
}

#[test]
fn a_whole_session_does_not_depend_on_how_time_passes() {
    for (name, operator, seed) in [
        ("01_first_calibration.ron", "careful", 1),
        ("03_a_new_blower.ron", "careful", 2),
        ("06_october_at_the_substation.ron", "on-controller+slant-reader", 3),
    ] {
        let text = scenario(name);
        let session = rehearsed(&text, operator, seed);
        let (all, end) = (actions(&session.journal), sealed_at(&session.journal));
        for pass in PASSINGS {
            assert!(done(&text, seed, &all, end, pass) == session, "{name}");
        }
    }
}

#[test]
fn nor_does_a_time_limit_or_a_mess() {
    let limited = scenario("02_two_lines_and_an_audit.ron")
        .replace("terms: (", "terms: (time_limit_min: 60, ");
    for seed in 1..=12 {
        let (all, end) = mess(&limited, seed);
        let [one, two, three] = PASSINGS.map(|pass| done(&limited, seed, &all, end, pass));
        assert!(one == two && two == three, "seed {seed}");
        assert!(one.journal.contains("ending:time_out"));
    }
}

/// What random hands came to do in twenty minutes, and the tick at which time ran out.
fn mess(text: &str, seed: u64) -> (Vec<(Tick, Action)>, Tick) {
    let mut hands = Hands::new(seed);
    let paper = Paper::default();
    let mut session = Session::begin(text, seed, Box::new(paper.clone())).unwrap();
    while session.ended().is_none() {
        let action = hands.action();
        // A long wait would leave no time for anything else.
        let waits_long = matches!(action, Action::Wait { seconds } if seconds > 10.0);
        if !waits_long && !matches!(action, Action::Sign | Action::LeaveRoof) {
            match session.act(action) {
                Ok(()) | Err(ActError::Refused(_) | ActError::Ended) => {}
                Err(error) => panic!("{error}"),
            }
        }
        session.advance(hands.below(60) as u64).unwrap();
    }
    let journal = paper.text();
    let count = actions(&journal).len();
    assert!(count > 200, "{count}");
    (actions(&journal), sealed_at(&journal))
}
