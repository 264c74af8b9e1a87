//! Phase A: papers, weather, roof edge, certificate, barometer, thermometer.

use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::{Leads, Observation, PairTaken, Practice, arithmetic, suspect, warm};
use crate::air::atmosphere;
use crate::calibration::TransferStandard;
use crate::field_book::Field;
use crate::scenario::setup::{Certificate, CertificatePair, LONGEST_AGE_DAYS};
use crate::session::action::{Action, BarometerReference, Exposure, FaultKind, Response, Sight};
use crate::time::Date;
use crate::units::Pressure;

/// How far a barometer at the station may read from the standard atmosphere, mmHg: more than any
/// weather can cause (common practice).
const WEATHER_MMHG: f64 = 25.0;
/// Half of the last digit that a certificate prints: values further apart are different numbers.
const SAME_PRINT: f64 = 0.5e-5;
/// Square root of the column at which two certifications are compared: 4 inches of water.
const COMPARED_ROOT: f64 = 2.0;
/// Compares the certificate in use with the others of the same calibrator.
fn against_others(chosen: &Certificate, observed: &Observation<'_>, memory: &mut Memory) {
    let same =
        |c: &&Certificate| c.serial == chosen.serial && !c.is_copy() && c.date != chosen.date;
    let others = observed.papers.certificates.iter().filter(same);
    let Some(apart) = others.map(|other| apart(chosen, other)).reduce(f64::max) else { return };
    memory.thinks(format!(
        "The flows of the certificate in use and of another one of this calibrator are {:.1} % apart (at most {:.1} %).",
        100.0 * apart,
        100.0 * SAME_FLOW
    ));
    if apart > SAME_FLOW {
        memory.rejects(
            FaultKind::CertificateFarFromLast,
            "the certificate is far from the other one of this calibrator: one of both is wrong",
        );
    }
}

/// By what part the flows of two certifications may differ: of a transfer standard less than 2 percent is
/// asked.
const SAME_FLOW: f64 = 0.015;

/// How far the phase has come.
#[derive(Debug, Default)]
pub(super) enum ArrivePhase {
    /// At the foot of the ladder.
    #[default]
    Papers,
    /// At the calibrator, with its plate in sight.
    Plate,
    /// At the barometer.
    Barometer,
    /// At the barometer, with its index set.
    Pressure,
    /// At the thermometer.
    Thermometer,
    /// Done.
    Ready,
}

impl OperatorPhase for ArrivePhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        *self = match self {
            Self::Papers => {
                for at in [Sight::WorkOrder, Sight::Sky, Sight::RoofEdge] {
                    memory.glances(at);
                }
                let count = match memory.habits.certificate {
                    Leads::Compared => observed.papers.certificates.len(),
                    Leads::OnTop => 1,
                };
                (0..count).filter_map(|i| u8::try_from(i).ok()).for_each(|i| {
                    memory.glances(Sight::Certificate(i));
                });
                memory.looks(Sight::Calibrator);
                Self::Plate
            }
            Self::Plate => {
                memory.waits(2.0);
                order(observed, memory);
                calibrator(observed, memory);
                memory.looks(Sight::Barometer);
                Self::Barometer
            }
            Self::Barometer => {
                memory.waits(2.0);
                let at_sea_level =
                    observed.view.barometer.set_to == Some(BarometerReference::SeaLevel);
                if memory.habits.barometer_check == Practice::Kept {
                    memory.thinks(if at_sea_level {
                        "The barometer's index is set to sea level: the method needs the pressure at the station."
                    } else {
                        "The barometer's index is set to the station: its reading can be used as it is."
                    });
                }
                if memory.habits.barometer_check == Practice::Kept && at_sea_level {
                    memory.does(Action::SetBarometer { to: BarometerReference::Station });
                    memory.reports(
                        FaultKind::BarometerAtSeaLevel,
                        Response::Repaired,
                        "the barometer was set to sea level; set to the station",
                    );
                }
                overdue(
                    FaultKind::BarometerOutOfCertification,
                    observed.view.barometer.certified,
                    observed,
                    memory,
                );
                Self::Pressure
            }
            Self::Pressure => {
                if memory.habits.barometer_check == Practice::Kept {
                    pressure(observed, memory);
                }
                memory.looks(Sight::Thermometer);
                Self::Thermometer
            }
            Self::Thermometer => {
                memory.waits(2.0);
                let seen = &observed.view.thermometer;
                if seen.exposure == Exposure::Sun && memory.habits.shade == Practice::Kept {
                    warm::into_the_shade(memory);
                } else if !seen.moving {
                    memory.thinks(format!(
                        "The thermometer is at rest at {:.1} °C: that is the air on arrival.",
                        seen.column_c
                    ));
                    memory.arrival_c = Some(seen.column_c);
                }
                overdue(FaultKind::ThermometerOutOfCertification, seen.certified, observed, memory);
                Self::Ready
            }
            Self::Ready => return PhaseProgress::Finished,
        };
        PhaseProgress::More
    }
}

/// Reports an instrument whose sticker is more than a year old.
fn overdue(
    kind: FaultKind,
    certified: Option<Date>,
    observed: &Observation<'_>,
    memory: &mut Memory,
) {
    let Some(age) = certified.map(|date| observed.view.date.days_since(date)) else { return };
    if memory.habits.certificate == Leads::OnTop || age <= LONGEST_AGE_DAYS {
        return;
    }
    memory.thinks(format!(
        "Its sticker is {age} days old (at most {LONGEST_AGE_DAYS}): how right it is, nobody can say."
    ));
    memory.reports(
        kind,
        Response::Noted,
        "its certification is out of date; to be compared with a certified one before the data are used",
    );
}

/// What the order asks for, and whether the sky lets the work begin.
fn order(observed: &Observation<'_>, memory: &mut Memory) {
    let order = observed.papers.work_order;
    let work = if order.is_check_alone() {
        "a flow check and no calibration".to_owned()
    } else {
        format!("a calibration with {} points", order.points)
    };
    let sky = match observed.view.sky.thunder_since_s {
        Some(_) => "Thunder is heard.",
        None => "No thunder is heard: the work can begin.",
    };
    memory.thinks(format!(
        "The order asks for {work}, with calibrator {}. {sky}",
        order.calibrator_serial
    ));
}

/// The plate, the edge of the orifice, and the certificate that belongs to them.
fn calibrator(observed: &Observation<'_>, memory: &mut Memory) {
    let plate = observed.view.calibrator.serial.clone().unwrap_or_default();
    memory.writes(Field::CalibratorSerial, plate.as_str());
    let certificates = observed.papers.certificates;
    let chosen = match memory.habits.certificate {
        Leads::OnTop => certificates.first(),
        Leads::Compared => compared(observed, memory, &plate),
    };
    if let Some(certificate) = chosen {
        let first_is_actual = certificate.actual_first;
        let pair = match memory.habits.pair {
            PairTaken::First if first_is_actual => certificate.actual,
            PairTaken::First | PairTaken::Standard => certificate.standard,
        };
        // Four decimals are printed, and the copied values are used in the calculations.
        let pair = CertificatePair {
            slope: arithmetic::rounded(pair.slope, 4),
            intercept: arithmetic::rounded(pair.intercept, 4),
        };
        memory.thinks(format!(
            "The {} of {} for {} is used, with the {} pair: slope {:.4}, intercept {:.4}.",
            certificate.heading.printed(),
            certificate.date,
            certificate.serial,
            if pair == certificate.actual { "actual-conditions" } else { "standard-conditions" },
            pair.slope,
            pair.intercept
        ));
        memory.standard = TransferStandard::new(pair.slope, pair.intercept).ok();
        memory.writes(Field::CertificateSerial, certificate.serial.as_str());
        memory.writes(Field::CertificateDate, certificate.date.to_string());
        memory.writes(Field::CertificateSlope, format!("{:.4}", pair.slope));
        memory.writes(Field::CertificateIntercept, format!("{:.4}", pair.intercept));
        if first_is_actual && memory.habits.pair == PairTaken::Standard {
            memory.reports(
                FaultKind::CertificateActualFirst,
                Response::Corrected,
                "the certificate prints the actual-conditions pair first; the standard one is used",
            );
        }
    } else {
        memory.gives_up("no certificate within a year belongs to this calibrator");
    }
    suspect::edge(observed, memory);
}

/// The certificate that matches the plate and the work order and is not too old, if there is one.
/// An original is preferred to a copy.
fn compared<'a>(
    observed: &Observation<'a>,
    memory: &mut Memory,
    plate: &str,
) -> Option<&'a Certificate> {
    let certificates = observed.papers.certificates;
    let today = observed.view.date;
    let wanted = &observed.papers.work_order.calibrator_serial;
    memory.thinks(format!("The calibrator's plate reads {plate}; the order names {wanted}."));
    if plate != *wanted {
        memory.gives_up("the calibrator in the case is not the one that the work order names");
        return None;
    }
    let good = |c: &&Certificate| c.serial == plate && c.is_current(today);
    let valid: Vec<&Certificate> = certificates.iter().filter(good).collect();
    let newest = |copy: bool| valid.iter().filter(|c| c.is_copy() == copy).max_by_key(|c| c.date);
    let chosen = match memory.habits.originals {
        Practice::Kept => newest(false).or_else(|| newest(true)).copied(),
        // The first valid one in the box, whether it is a copy or not.
        Practice::Skipped => valid.first().copied(),
    };
    let top = certificates.first()?;
    memory.thinks(format!(
        "The certificate on top is the {} of {} for {}, {} days old (at most {LONGEST_AGE_DAYS}); {} of {} in the \
         box are for this calibrator and current.",
        top.heading.printed(),
        top.date,
        top.serial,
        today.days_since(top.date),
        valid.len(),
        certificates.len()
    ));
    let why = if top.serial != plate {
        let why = "the certificate on top is for another calibrator";
        Some((FaultKind::CertificateOfAnother, why))
    } else if !good(&top) {
        let why = "the certificate on top is more than a year old";
        Some((FaultKind::CertificateExpired, why))
    } else if let Some(original) = chosen.filter(|c| differ(c, top)) {
        memory.thinks(format!(
            "The original prints slope {:.4} and intercept {:.4}, the paper on top {:.4} and {:.4}.",
            original.standard.slope,
            original.standard.intercept,
            top.standard.slope,
            top.standard.intercept
        ));
        let why = "the copy on top does not agree with the original behind it";
        Some((FaultKind::CertificateDigitsExchanged, why))
    } else {
        None
    };
    if let Some((what, why)) = why {
        memory.reports(what, Response::Rejected, why);
    }
    if let Some(chosen) = chosen {
        against_others(chosen, observed, memory);
    }
    chosen
}

/// By what part the flows of two certifications differ at the same column.
fn apart(one: &Certificate, other: &Certificate) -> f64 {
    let flow = |c: &Certificate| (COMPARED_ROOT - c.standard.intercept) / c.standard.slope;
    (flow(one) / flow(other) - 1.0).abs()
}

/// Whether two prints of one certification do not agree.
fn differ(original: &Certificate, copy: &Certificate) -> bool {
    let slopes = original.standard.slope - copy.standard.slope;
    let intercepts = original.standard.intercept - copy.standard.intercept;
    original.date == copy.date && slopes.abs().max(intercepts.abs()) > SAME_PRINT
}

/// Compares the barometer with the standard atmosphere at the station's height.
fn pressure(observed: &Observation<'_>, memory: &mut Memory) {
    let usual =
        Pressure::from_pa(atmosphere::pressure_pa(observed.papers.station.elevation_m)).mmhg();
    let pointer = observed.view.barometer.pointer_mmhg;
    memory.thinks(format!(
        "The barometer stands at {pointer:.1} mmHg; at {:.0} m the standard atmosphere has {usual:.1} mmHg, and weather \
         explains up to {WEATHER_MMHG:.0} mmHg.",
        observed.papers.station.elevation_m
    ));
    if (pointer - usual).abs() > WEATHER_MMHG {
        memory.reports(
            FaultKind::BarometerOff,
            Response::Noted,
            "the barometer is far from any pressure at this height",
        );
    }
}
