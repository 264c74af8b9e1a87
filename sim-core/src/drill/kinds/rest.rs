//! Whether water and pen are at rest, by looks that follow each other.

use super::super::bench::{self, Written};
use super::super::draw::Draw;
use super::super::drawn::{Drawn, Truth};
use super::super::error::DrawError;
use super::super::seen::{Asked, DrillLook};
use super::super::slip::DrillSlip;
use crate::rig::parts::Leg;
use crate::session::Session;
use crate::session::action::{Action, Sight};
use crate::session::view::View;

/// How many looks are shown.
const LOOKS: usize = 6;
/// Looks that are tried.
const TRIED: usize = 44;
/// Looks before the knob is turned: so what begins to move is seen as well.
const BEFORE: usize = 3;
/// How often another turn of the knob is tried, until the looks show clearly what is asked.
const TURNS: usize = 12;
/// The last looks, by which rest is told.
const LAST: usize = 3;

/// What is looked at, and what counts as clear.
struct Watched {
    sight: Sight,
    /// From look to look, ticks.
    every_ticks: u64,
    /// What is read.
    reads: fn(&View) -> f64,
    moves: fn(&View) -> bool,
    /// At rest the last looks differ by no more than this.
    still: f64,
    /// Moving, they differ by at least this: a division of the scale.
    moved: f64,
}

/// The water of a leg.
pub(super) fn water(draw: &mut Draw) -> Result<Drawn, DrawError> {
    let leg = draw.one_of([Leg::Left, Leg::Right]);
    let (sight, reads): (Sight, fn(&View) -> f64) = match leg {
        Leg::Left => (Sight::LeftLeg, |view| view.manometer.left.meniscus_in),
        Leg::Right => (Sight::RightLeg, |view| view.manometer.right.meniscus_in),
    };
    let moves = |view: &View| view.manometer.moving;
    let watched = Watched { sight, every_ticks: 14, reads, moves, still: 0.03, moved: 0.1 };
    question(draw, Asked::WaterAtRest(leg), &watched)
}

/// The pen.
pub(super) fn pen(draw: &mut Draw) -> Result<Drawn, DrawError> {
    let watched = Watched {
        sight: Sight::Pen,
        every_ticks: 8,
        reads: |view| view.recorder.pen.unwrap_or_default(),
        moves: |view| view.recorder.moving,
        still: 0.2,
        moved: 1.0,
    };
    question(draw, Asked::PenAtRest, &watched)
}

fn question(draw: &mut Draw, asked: Asked, watched: &Watched) -> Result<Drawn, DrawError> {
    let at_rest = draw.happens(0.5);
    let mut session = running(draw)?;
    let mut opening = session.view().calibrator.knob;
    for _ in 0..TURNS {
        opening = other_opening(draw, opening);
        let looks = watch(&mut session, watched, opening);
        let fitting: Vec<usize> = (0..=TRIED - LOOKS)
            .filter(|&from| {
                looks.get(from..from + LOOKS).is_some_and(|shown| {
                    if at_rest { rests(shown, watched) } else { moves(shown, watched) }
                })
            })
            .collect();
        if fitting.is_empty() {
            continue;
        }
        let from = fitting[draw.below(fitting.len() as u64) as usize];
        let mut shown: Vec<DrillLook> = looks.into_iter().skip(from).take(LOOKS).collect();
        let first_s = shown.first().map_or(0.0, |look| look.at_s);
        for look in &mut shown {
            look.at_s -= first_s;
        }
        let choices = vec![
            ("at-rest".to_owned(), DrillSlip::TooSoon),
            ("moving".to_owned(), DrillSlip::TooLate),
        ];
        let truth = Truth::Choice { right: usize::from(!at_rest), choices };
        return Ok(Drawn::of(session, asked, shown, truth));
    }
    Err(DrawError::new("no turn of the knob shows clearly what is asked"))
}

/// A bench with the blower running, the pen down and the water in the legs.
fn running(draw: &mut Draw) -> Result<Session, DrawError> {
    let (mut session, _) = bench::begin(draw, &Written::default())?;
    bench::act_all(&mut session, bench::mounting());
    bench::act_all(&mut session, bench::starting());
    bench::act_all(&mut session, [Action::Wait { seconds: 20.0 }]);
    session.wait(20.0).map_err(DrawError::new)?;
    Ok(session)
}

/// An opening that differs enough for water and pen to go a clear way.
fn other_opening(draw: &mut Draw, from: f64) -> f64 {
    if from > 0.6 { draw.between(0.25, 0.45) } else { draw.between(0.8, 1.0) }
}

/// Looks, one after another: some before the knob is turned, and the others after that.
fn watch(session: &mut Session, watched: &Watched, opening: f64) -> Vec<DrillLook> {
    bench::act_all(session, [Action::Look { at: watched.sight, eye_mm: 0.0 }]);
    // Nothing can fail that writes no journal.
    let _ = session.finish_hands();
    let mut looks = Vec::with_capacity(TRIED);
    for number in 0..TRIED {
        if number == BEFORE {
            bench::act_all(session, [Action::TurnKnob { opening }]);
        }
        let _ = session.advance(watched.every_ticks);
        let view = session.view();
        looks.push(DrillLook { at_s: view.tick.seconds(), view });
    }
    looks
}

/// By how much the last looks differ.
fn last_differ(shown: &[DrillLook], watched: &Watched) -> f64 {
    let last = shown.iter().rev().take(LAST).map(|look| (watched.reads)(&look.view));
    let (low, high) =
        last.fold((f64::MAX, f64::MIN), |(low, high), one| (low.min(one), high.max(one)));
    high - low
}

fn rests(shown: &[DrillLook], watched: &Watched) -> bool {
    let last = shown.iter().rev().take(LAST);
    last.clone().all(|look| !(watched.moves)(&look.view))
        && last_differ(shown, watched) <= watched.still
}

fn moves(shown: &[DrillLook], watched: &Watched) -> bool {
    shown.last().is_some_and(|look| (watched.moves)(&look.view))
        && last_differ(shown, watched) >= watched.moved
}
