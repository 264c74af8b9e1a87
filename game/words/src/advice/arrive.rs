//! Edge, papers, conditions.

use sim_core::field_book::Field;
use sim_core::session::action::{BarometerReference, Exposure, Sight};

use super::{Next, Scene, next};

/// The next step on arriving; none when all papers and conditions stand in the book.
pub(super) fn next_step(scene: &Scene<'_>) -> Option<Next> {
    let view = &scene.view;
    if view.focus == Sight::Station && scene.book.entries().is_empty() {
        return next(
            "roof-edge",
            "Look where you stand: the roof's edge, the ladder, the sky. Then read the work order.",
            "look at roof edge",
        );
    }
    papers(scene).or_else(|| conditions(scene))
}

fn papers(scene: &Scene<'_>) -> Option<Next> {
    if !scene.has(Field::CalibratorSerial) {
        let step = "Read the serial number on the calibrator's plate and write it down.";
        let sentence = match scene.view.focus {
            Sight::Calibrator => "write serial ...",
            _ => "look at calibrator",
        };
        return next("certificate-serial", step, sentence);
    }
    let count = scene.papers.certificates.len();
    let sentence = |write: &str| match scene.view.focus {
        Sight::Certificate(_) => write.to_owned(),
        _ => "look at certificate 1".to_owned(),
    };
    let choose = format!(
        "Compare serial number, date and heading of every certificate in the box ({count}), and write \
         down the one that belongs to this calibrator, is in date and is no copy."
    );
    if !scene.has(Field::CertificateSerial) {
        return next("certificate-serial", choose, sentence("write certificate serial ..."));
    }
    if !scene.has(Field::CertificateDate) {
        return next("certificate-current", choose, sentence("write certificate date ..."));
    }
    let pair = "Copy slope and intercept for standard conditions, digit by digit.";
    if !scene.has(Field::CertificateSlope) {
        return next("standard-pair", pair, sentence("write certificate slope ..."));
    }
    if !scene.has(Field::CertificateIntercept) {
        return next("standard-pair", pair, sentence("write certificate intercept ..."));
    }
    None
}

fn conditions(scene: &Scene<'_>) -> Option<Next> {
    let view = &scene.view;
    if !scene.has(Field::Temperature) {
        let rule = "thermometer-shaded";
        if view.thermometer.exposure == Exposure::Sun {
            let step = "Put the thermometer into its shaded screen and let it come to rest.";
            return next(rule, step, "put thermometer in shade");
        }
        if view.thermometer.moving {
            return next(rule, "Let the thermometer come to rest.", "wait 2 min");
        }
        let sentence = match view.focus {
            Sight::Thermometer => "write temperature ...",
            _ => "look at thermometer",
        };
        return next(rule, "Read the thermometer in the shade and write it down.", sentence);
    }
    if !scene.has(Field::Pressure) {
        let sentence = match (view.focus, view.barometer.set_to) {
            (Sight::Barometer, Some(BarometerReference::SeaLevel)) => {
                "set barometer to station pressure"
            }
            (Sight::Barometer, _) => "write pressure ...",
            _ => "look at barometer",
        };
        let step = "Read the barometer, see what its index is set to, and write station pressure.";
        return next("station-pressure", step, sentence);
    }
    None
}
