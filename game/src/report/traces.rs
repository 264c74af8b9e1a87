//! What manometer and pen showed all through a session, for the plots: the session is had again from
//! its own actions, and looked at from time to time. Looking changes nothing.

use sim_core::rig::parts::Leg;
use sim_core::session::Session;
use sim_core::session::action::Action;
use sim_core::session::journal::NoInk;
use sim_core::session::signed::Signed;
use sim_core::time::{TICKS_PER_SECOND, Tick};

/// Time between two looks, ticks: short against the settling of water and pen.
const EVERY: u64 = 2 * TICKS_PER_SECOND;

/// Manometer and pen over a session, as they were seen.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Traces {
    /// Every look, in the order of time.
    pub looks: Vec<Look>,
}

/// What was to be seen at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    /// When.
    pub tick: Tick,
    /// The meniscus of the leg with the tube and of the other, inches from the scale's zero.
    pub legs_in: [f64; 2],
    /// The pen, chart divisions; `None` while it is capped.
    pub pen: Option<f64>,
}

impl Traces {
    /// The traces of a session. Empty where it cannot be had again; then only the plots go without.
    pub fn of(signed: &Signed) -> Self {
        let source = &signed.source;
        let Ok(mut session) = Session::begin(&source.text, source.seed, Box::new(NoInk)) else {
            return Self::default();
        };
        let mut looks = Vec::new();
        let mut away = false;
        let ends = signed.moments.iter().map(|moment| (moment.tick, Some(&moment.action)));
        for (tick, action) in ends.chain([(signed.end_tick, None)]) {
            while session.now() < tick {
                let ahead = tick.0 - session.now().0;
                // Nobody looks while nobody is there.
                if session.advance(if away { ahead } else { ahead.min(EVERY) }).is_err() {
                    return Self { looks };
                }
                if session.now() < tick && session.ended().is_some() {
                    break;
                }
                looks.push(look(&session));
            }
            if let Some(action) = action {
                if session.act(action.clone()).is_err() {
                    break;
                }
                away = *action == Action::LeaveSite;
            }
        }
        Self { looks }
    }
}

fn look(session: &Session) -> Look {
    let view = session.view();
    Look {
        tick: session.now(),
        legs_in: [Leg::Left, Leg::Right].map(|leg| view.manometer.leg(leg).meniscus_in),
        pen: view.recorder.pen,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sim_core::operator;

    #[test]
    fn the_traces_are_those_of_the_session_to_its_last_tick() {
        let text = include_str!("../../../scenarios/01_first_calibration.ron");
        let mut session = Session::begin(text, 2, Box::new(NoInk)).unwrap();
        let mut hands = operator::by_name("careful", 2).unwrap();
        operator::rehearse(&mut session, hands.as_mut()).unwrap();
        let (last, end) = (look(&session), session.now());
        let traces = Traces::of(&session.open().unwrap());
        assert_eq!(traces.looks.last(), Some(&Look { tick: end, ..last }));
        assert!(traces.looks.windows(2).all(|pair| pair[0].tick < pair[1].tick));
        let highest = traces.looks.iter().filter_map(|look| look.pen).fold(0.0, f64::max);
        assert!((50.0..62.0).contains(&highest), "{highest}");
    }
}
