//! Any moment of a session that has ended is restored exactly, at a bounded cost.

use super::gauge_samples::GaugeSamples;
use super::*;
use crate::operator::{Observation, Operator, OperatorStep, by_name, rehearse};
use crate::session::Session;
use crate::session::journal::NullSink;
use crate::time::TICKS_PER_SECOND;

const LEAK: &str = include_str!("../../../../scenarios/03_a_new_blower.ron");
const RUN: &str = include_str!("../../../../scenarios/27_from_set_point_to_volume.ron");
const RESTLESS: &str = include_str!("../../../../scenarios/25_wind_permitting.ron");

/// An operator that stores what it saw, and how much had been done before.
struct Witness {
    operator: Box<dyn Operator>,
    saw: Vec<(usize, View)>,
    done: usize,
}

impl Operator for Witness {
    fn next(&mut self, scene: &Observation<'_>) -> OperatorStep {
        self.saw.push((self.done, scene.view.clone()));
        let step = self.operator.next(scene);
        // Short waits leave no action, longer ones do.
        let acts = matches!(&step, OperatorStep::Do(_))
            || matches!(&step, OperatorStep::Wait(s) if *s >= 4.5);
        self.done += usize::from(acts);
        step
    }

    fn refused(&mut self, action: &Action, reason: &str) {
        self.done -= 1;
        self.operator.refused(action, reason);
    }
}

fn witnessed(scenario: &str, operator: &str, seed: u64) -> (EndedSession, Vec<(usize, View)>) {
    let mut session = Session::begin(scenario, seed, Box::new(NullSink)).unwrap();
    let operator = by_name(operator, seed).unwrap();
    let mut witness = Witness { operator, saw: Vec::new(), done: 0 };
    rehearse(&mut session, &mut witness).unwrap();
    (session.open().unwrap(), witness.saw)
}

#[test]
fn every_view_is_the_one_that_the_trainee_had() {
    for (scenario, operator) in [(LEAK, "careful"), (RUN, "careful"), (RESTLESS, "hurried")] {
        let (signed, saw) = witnessed(scenario, operator, 5);
        let track = History::of(&signed);
        let mut last = 0;
        for (done, view) in saw {
            let until = Until { tick: view.tick, action: done };
            assert_eq!(track.snapshot(until).view, view, "after {done} actions");
            last = last.max(done);
        }
        assert!(last + 1 >= signed.events.len(), "{last} of {}", signed.events.len());
    }
}

#[test]
fn what_was_true_after_each_action_is_true_again() {
    let (signed, _) = witnessed(RUN, "careful", 2);
    let track = History::of(&signed);
    for (index, moment) in signed.events.iter().enumerate().rev() {
        assert_eq!(track.just_after(index).truth, moment.after, "{index}");
    }
    assert_eq!(track.at(Tick(u64::MAX)).truth, signed.end);
    assert_eq!(track.just_after(usize::MAX).truth, signed.end);
}

#[test]
fn random_ticks_equal_a_straight_replay() {
    let (signed, _) = witnessed(RESTLESS, "careful", 9);
    let track = History::of(&signed);
    let mut ticks: Vec<Tick> = (0..300_u64)
        .map(|n| Tick(n.wrapping_mul(0x9e37_79b9_7f4a_7c15) % (signed.end_tick.0 + 1)))
        .collect();
    // Moments out of order, compared with a session that runs straight through.
    let seen: Vec<(Tick, Snapshot)> = ticks.iter().map(|&tick| (tick, track.at(tick))).collect();
    ticks.sort_unstable();
    let silent = Writer::new(Default::default(), Box::new(NullSink));
    let mut straight = Session::on_bench(signed.setup.clone(), signed.source.clone(), silent);
    let mut actions = signed.events.iter().peekable();
    for tick in ticks {
        while let Some(moment) = actions.next_if(|moment| moment.tick <= tick) {
            straight.advance(moment.tick.0 - straight.now.0).unwrap();
            straight.act(moment.action.clone()).unwrap();
        }
        straight.advance(tick.0 - straight.now.0).unwrap();
        let (_, snapshot) = seen.iter().find(|(at, _)| *at == tick).unwrap();
        assert_eq!(snapshot.view, straight.view(), "{tick:?}");
        assert_eq!(snapshot.truth, straight.state.at(tick).ground_truth(), "{tick:?}");
    }
}

#[test]
fn no_moment_costs_more_than_the_steps_between_two_kept_states() {
    for (scenario, operator) in [(LEAK, "careful"), (RUN, "careful")] {
        let (signed, _) = witnessed(scenario, operator, 3);
        let track = History::of(&signed);
        assert!(!track.kept.cursors.is_empty() && track.kept.cursors.len() < MOST_KEPT);
        for n in 0..500 {
            let until = Until { tick: Tick(n * track.end.0 / 499), action: track.actions.len() };
            let (mut cursor, mut steps) = (track.nearest(until).clone(), 0);
            cursor.go(&track.setup, &track.actions, until, |_| steps += 1);
            assert!(steps < track.kept.apart, "{steps} steps to {until:?}");
        }
    }
}

#[test]
fn a_long_session_keeps_no_more_states_and_stays_within_its_bound() {
    let session = Session::begin(LEAK, 1, Box::new(NullSink)).unwrap();
    let mut cursor = Cursor { state: session.state.clone(), next: 0 };
    // So close together that a day has more of them than are kept.
    let mut kept = Kept::new(2);
    let mut steps = Vec::new();
    let until = Until { tick: Tick::from_seconds(3_000), action: 0 };
    cursor.go(&session.setup, &[], until, |cursor| {
        kept.step(cursor);
        steps.push(cursor.state.tick);
    });
    assert!(kept.apart > 2 && kept.cursors.len() < MOST_KEPT);
    let mut last = 0;
    for cursor in &kept.cursors {
        let step = steps.iter().position(|&tick| tick == cursor.state.tick).unwrap() + 1;
        assert_eq!(step - last, kept.apart);
        last = step;
    }
    assert!(steps.len() - last < kept.apart);
}

#[test]
fn the_trace_is_what_the_gauges_showed_second_by_second() {
    let (signed, _) = witnessed(LEAK, "careful", 4);
    let track = History::of(&signed);
    let samples = track.samples();
    assert_eq!(samples.first().unwrap().tick, Tick(0));
    assert_eq!(samples.last().unwrap().tick, track.end());
    for pair in samples.windows(2) {
        let apart = pair[1].tick.0 - pair[0].tick.0;
        assert!((1..=2 * TICKS_PER_SECOND).contains(&apart), "{apart}");
    }
    for sample in samples.iter().step_by(97) {
        let Snapshot { view, truth } = track.at(sample.tick);
        assert_eq!(sample.seen.pen, view.recorder.pen);
        assert_eq!(sample.truth.flow_std_m3_min.to_bits(), truth.flow_std_m3_min.to_bits());
        if let Some([left, right]) = sample.seen.legs_in {
            assert_eq!(left.to_bits(), view.manometer.left.meniscus_in.to_bits());
            assert_eq!(sample.seen.delta_h_in(), Some(left - right));
        }
    }
    assert!(samples.iter().any(|sample| sample.seen.legs_in.is_none()));
    assert!(samples.iter().any(|sample| sample.truth.leak_mm2 > 5.0), "the gasket is missing");
}

#[test]
fn the_trace_of_a_long_session_is_thinned_evenly() {
    let session = Session::begin(LEAK, 1, Box::new(NullSink)).unwrap();
    let mut state = session.state.clone();
    let mut samples = GaugeSamples::begin(&state);
    for second in 1..=40_000 {
        state.tick = Tick::from_seconds(second);
        samples.look(&state);
    }
    let kept = samples.kept();
    assert!((8_000..16_384).contains(&kept.len()), "{}", kept.len());
    let apart = kept[1].tick.0 - kept[0].tick.0;
    assert!(kept.windows(2).all(|pair| pair[1].tick.0 - pair[0].tick.0 == apart));
    assert_eq!(samples.faults().len(), 1);
}
