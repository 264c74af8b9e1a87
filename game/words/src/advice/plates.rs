//! The plates of a calibrator with fixed plates: one for each point, the widest first.

use sim_core::field_book::PointNumber;
use sim_core::rig::flow::plates::Plate;
use sim_core::session::action::Action;

use super::goal::Goal;
use super::next::{Advice, acts};
use super::scene::Scene;
use super::{mount, points};

/// The next step until the plate for the next point is in; none at a calibrator with a knob, nor while
/// something of the last point is still to be written.
pub(super) fn next_plate(scene: &Scene<'_>) -> Option<Advice> {
    let inserted = scene.view.calibrator.plates?.inserted;
    let last = scene.book.points().last().copied();
    let done = last.map_or(0, PointNumber::number);
    let marked = scene.view.recorder.marks.len() >= usize::from(done);
    if !marked || last.is_some_and(|point| points::left_over(scene, point).is_some()) {
        return None;
    }
    put_in(scene, inserted, *Plate::ALL.get(usize::from(done))?)
}

/// The next step until the widest plate is in, as during a flow check.
pub(super) fn widest(scene: &Scene<'_>) -> Option<Advice> {
    put_in(scene, scene.view.calibrator.plates?.inserted, Plate::WIDEST)
}

/// The next step until a plate is in: nothing turns and nothing can start, then the plate.
fn put_in(scene: &Scene<'_>, inserted: Option<Plate>, plate: Plate) -> Option<Advice> {
    if inserted == Some(plate) {
        return None;
    }
    mount::dead(scene).or_else(|| {
        let out = inserted.map(|_| Action::TakeOutPlate);
        let change = out.into_iter().chain([Action::PutInPlate { plate }]).collect();
        acts("plate-leak-check", Goal::PlateIn(plate), change)
    })
}
