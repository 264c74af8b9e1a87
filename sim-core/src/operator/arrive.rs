//! Phase A: papers, weather, roof, certificate, barometer, thermometer.

use super::mind::{Mind, Phase, Progress};
use super::{Leads, PairTaken, Practice, Scene, reckon, suspect, warm};
use crate::air::atmosphere;
use crate::calibration::TransferStandard;
use crate::field_book::Field;
use crate::scenario::setup::{Certificate, Pair};
use crate::session::action::{Action, BarometerReference, Exposure, FaultPlace, Response, Sight};
use crate::units::Pressure;

/// How far a barometer at the station may be from the standard atmosphere, mmHg: more than any
/// weather does (common practice).
const WEATHER_MMHG: f64 = 25.0;
/// Half of the last digit that a certificate prints: what is further apart is another number.
const SAME_PRINT: f64 = 0.5e-5;
/// Root of the column at which two certifications are compared: 4 inches of water.
const COMPARED_ROOT: f64 = 2.0;
/// How far the flows of two certifications may be apart: a year of dust and wear takes less.
const SAME_FLOW: f64 = 0.055;

/// Where the phase stands.
#[derive(Debug, Default)]
pub(super) enum Arrive {
    /// At the foot of the ladder.
    #[default]
    Papers,
    /// Before the calibrator, its plate in sight.
    Plate,
    /// Before the barometer.
    Barometer,
    /// Before the barometer, its index set.
    Pressure,
    /// Before the thermometer.
    Thermometer,
    /// Done.
    Ready,
}

impl Phase for Arrive {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        *self = match self {
            Self::Papers => {
                for at in [Sight::WorkOrder, Sight::Sky, Sight::RoofEdge] {
                    mind.glances(at);
                }
                let count = match mind.habits.certificate {
                    Leads::Compared => scene.papers.certificates.len(),
                    Leads::OnTop => 1,
                };
                (0..count).filter_map(|i| u8::try_from(i).ok()).for_each(|i| {
                    mind.glances(Sight::Certificate(i));
                });
                mind.looks(Sight::Calibrator);
                Self::Plate
            }
            Self::Plate => {
                mind.waits(2.0);
                calibrator(scene, mind);
                mind.looks(Sight::Barometer);
                Self::Barometer
            }
            Self::Barometer => {
                mind.waits(2.0);
                let at_sea_level =
                    scene.view.barometer.set_to == Some(BarometerReference::SeaLevel);
                if mind.habits.barometer_check == Practice::Kept && at_sea_level {
                    mind.does(Action::SetBarometer { to: BarometerReference::Station });
                    mind.reports(
                        FaultPlace::Barometer,
                        Response::Repaired,
                        "the barometer was set to sea level; set to the station",
                    );
                }
                Self::Pressure
            }
            Self::Pressure => {
                if mind.habits.barometer_check == Practice::Kept {
                    pressure(scene, mind);
                }
                mind.looks(Sight::Thermometer);
                Self::Thermometer
            }
            Self::Thermometer => {
                mind.waits(2.0);
                let seen = &scene.view.thermometer;
                if seen.exposure == Exposure::Sun && mind.habits.shade == Practice::Kept {
                    warm::into_the_shade(mind);
                } else if !seen.moving {
                    mind.arrival_c = Some(seen.column_c);
                }
                Self::Ready
            }
            Self::Ready => return Progress::Finished,
        };
        Progress::More
    }
}

/// The plate, the edge of the orifice, and the certificate that belongs to them.
fn calibrator(scene: &Scene<'_>, mind: &mut Mind) {
    let plate = scene.view.calibrator.serial.clone().unwrap_or_default();
    mind.writes(Field::CalibratorSerial, plate.as_str());
    let certificates = scene.papers.certificates;
    let chosen = match mind.habits.certificate {
        Leads::OnTop => certificates.first(),
        Leads::Compared => compared(scene, mind, &plate),
    };
    if let Some(certificate) = chosen {
        let first_is_actual = certificate.actual_first;
        let pair = match mind.habits.pair {
            PairTaken::First if first_is_actual => certificate.actual,
            PairTaken::First | PairTaken::Standard => certificate.standard,
        };
        // Four decimals are printed, and what is copied is what is reckoned with.
        let pair = Pair {
            slope: reckon::rounded(pair.slope, 4),
            intercept: reckon::rounded(pair.intercept, 4),
        };
        mind.standard = TransferStandard::new(pair.slope, pair.intercept).ok();
        mind.writes(Field::CertificateSerial, certificate.serial.as_str());
        mind.writes(Field::CertificateDate, certificate.date.to_string());
        mind.writes(Field::CertificateSlope, format!("{:.4}", pair.slope));
        mind.writes(Field::CertificateIntercept, format!("{:.4}", pair.intercept));
        if first_is_actual && mind.habits.pair == PairTaken::Standard {
            mind.reports(
                FaultPlace::Certificate,
                Response::Corrected,
                "the certificate prints the actual-conditions pair first; the standard one is used",
            );
        }
    } else {
        mind.gives_up("no certificate within a year belongs to this calibrator");
    }
    suspect::edge(scene, mind);
}

/// The certificate that belongs to the plate and the work order and is not too old, if there is
/// one. An original goes before a copy.
fn compared<'a>(scene: &Scene<'a>, mind: &mut Mind, plate: &str) -> Option<&'a Certificate> {
    let certificates = scene.papers.certificates;
    let today = scene.view.date;
    if plate != scene.papers.work_order.calibrator_serial {
        mind.gives_up("the calibrator in the case is not the one that the work order names");
        return None;
    }
    let good = |c: &&Certificate| c.serial == plate && c.is_current(today);
    let valid: Vec<&Certificate> = certificates.iter().filter(good).collect();
    let newest = |copy: bool| valid.iter().filter(|c| c.is_copy() == copy).max_by_key(|c| c.date);
    let chosen = match mind.habits.originals {
        Practice::Kept => newest(false).or_else(|| newest(true)).copied(),
        // The first of them in the box, whether it is a copy or not.
        Practice::Skipped => valid.first().copied(),
    };
    let top = certificates.first()?;
    let why = if top.serial != plate {
        Some("the certificate on top is for another calibrator")
    } else if !good(&top) {
        Some("the certificate on top is more than a year old")
    } else if chosen.is_some_and(|c| differ(c, top)) {
        Some("the copy on top does not agree with the original behind it")
    } else {
        None
    };
    if let Some(why) = why {
        mind.reports(FaultPlace::Certificate, Response::Rejected, why);
    }
    let mut others = certificates.iter().filter(|c| c.serial == plate && !c.is_copy());
    if chosen.is_some_and(|chosen| others.any(|other| far_apart(chosen, other))) {
        mind.rejects(
            FaultPlace::Certificate,
            "the certificate is far from the other one of this calibrator: one of both is wrong",
        );
    }
    chosen
}

/// Whether two certifications of one calibrator tell different flows at the same column.
fn far_apart(one: &Certificate, other: &Certificate) -> bool {
    let flow = |c: &Certificate| (COMPARED_ROOT - c.standard.intercept) / c.standard.slope;
    one.date != other.date && (flow(one) / flow(other) - 1.0).abs() > SAME_FLOW
}

/// Whether two prints of one certification do not agree.
fn differ(original: &Certificate, copy: &Certificate) -> bool {
    let slopes = original.standard.slope - copy.standard.slope;
    let intercepts = original.standard.intercept - copy.standard.intercept;
    original.date == copy.date && slopes.abs().max(intercepts.abs()) > SAME_PRINT
}

/// Compares the barometer with the standard atmosphere at the station's height.
fn pressure(scene: &Scene<'_>, mind: &mut Mind) {
    let usual = Pressure::from_pa(atmosphere::pressure_pa(scene.papers.station.elevation_m)).mmhg();
    if (scene.view.barometer.pointer_mmhg - usual).abs() > WEATHER_MMHG {
        mind.reports(
            FaultPlace::Barometer,
            Response::Noted,
            "the barometer is far from any pressure at this height",
        );
    }
}
