//! Edge, papers, conditions.

use content::advice::Deed;
use sim_core::field_book::Field;
use sim_core::session::action::{Action, BarometerReference, Exposure, Sight};

use super::goal::Goal;
use super::next::{Advice, act, acts, next, wait};
use super::scene::Scene;
use crate::moves::look_at;

/// The next step on arriving; none when all papers and conditions stand in the book.
pub(super) fn next_step(scene: &Scene<'_>) -> Option<Advice> {
    site_and_papers(scene).or_else(|| conditions(scene))
}

/// The next step until the site is known and the papers stand in the book.
pub(super) fn site_and_papers(scene: &Scene<'_>) -> Option<Advice> {
    if scene.view.focus == Sight::Station && scene.book.entries().is_empty() {
        let looks = [Sight::RoofEdge, Sight::Sky, Sight::WorkOrder].map(look_at);
        return acts("roof-edge", Goal::KnowTheSite, looks.to_vec());
    }
    papers(scene)
}

fn papers(scene: &Scene<'_>) -> Option<Advice> {
    if !scene.has(Field::CalibratorSerial) {
        let deeds = scene.look_and_write(Sight::Calibrator, Field::CalibratorSerial);
        return next("certificate-serial", Goal::CalibratorSerial, deeds);
    }
    let count = scene.papers.certificates.len();
    let copy = |rule, goal, field| next(rule, goal, from_certificate(scene, count, field));
    if !scene.has(Field::CertificateSerial) {
        let goal = Goal::RightCertificate(count);
        return copy("certificate-serial", goal, Field::CertificateSerial);
    }
    if !scene.has(Field::CertificateDate) {
        let goal = Goal::RightCertificate(count);
        return copy("certificate-current", goal, Field::CertificateDate);
    }
    let blank = [Field::CertificateSlope, Field::CertificateIntercept]
        .into_iter()
        .find(|&field| !scene.has(field))?;
    copy("standard-pair", Goal::CertificateCopied, blank)
}

/// A look at every certificate in the box, unless one is before the eyes, and what is copied from the
/// right one.
fn from_certificate(scene: &Scene<'_>, count: usize, field: Field) -> Vec<Deed> {
    let at_one = matches!(scene.view.focus, Sight::Certificate(_));
    let count = u8::try_from(count).unwrap_or(u8::MAX);
    let looks = (0..if at_one { 0 } else { count }).map(Sight::Certificate);
    looks.map(|at| Deed::Do(look_at(at))).chain([Deed::Write(field)]).collect()
}

/// The next step until temperature and pressure stand in the book.
pub(super) fn conditions(scene: &Scene<'_>) -> Option<Advice> {
    let view = &scene.view;
    if !scene.has(Field::Temperature) {
        let rule = "thermometer-shaded";
        if view.thermometer.exposure == Exposure::Sun {
            let shade = Action::PlaceThermometer { at: Exposure::Shade };
            return act(rule, Goal::ThermometerShaded, shade);
        }
        if view.thermometer.moving {
            return wait(rule, Goal::ThermometerAtRest, 120.0);
        }
        let deeds = scene.look_and_write(Sight::Thermometer, Field::Temperature);
        return next(rule, Goal::Enter(Field::Temperature), deeds);
    }
    if !scene.has(Field::Pressure) {
        // What the index is set to shows only when the eyes are on it.
        let deeds = match (view.focus, view.barometer.set_to) {
            (Sight::Barometer, Some(BarometerReference::SeaLevel)) => {
                vec![Deed::Do(Action::SetBarometer { to: BarometerReference::Station })]
            }
            (Sight::Barometer, _) => vec![Deed::Write(Field::Pressure)],
            _ => scene.look(Sight::Barometer),
        };
        return next("station-pressure", Goal::StationPressure, deeds);
    }
    None
}
