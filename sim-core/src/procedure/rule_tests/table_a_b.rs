//! Cases for arrival and preparation.

use super::Case;
use crate::field_book::Field;
use crate::procedure::test_bench::{ACTUAL, PRESSURE, STANDARD, TestSession, certificate, writes};
use crate::rig::parts::{BlowerPlug, Nut, PartPlace, RigPart};
use crate::scenario::setup::{CertificateHeading, CertificatePair};
use crate::session::action::{Action, Sight};
use crate::time::Date;

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "thunder",
        breaks: |session| {
            let from = 600.0;
            for moment in &mut session.events {
                let since = moment.tick.seconds() - from;
                if since >= 0.0 {
                    moment.before.thunder_since_s = Some(since);
                }
            }
        },
        keeps: |session| session.always(|facts| facts.thunder_since_s = Some(1900.0)),
        also: &[],
    },
    Case {
        rule: "roof-edge",
        breaks: |session| {
            session.without(|action| matches!(action, Action::Look { at: Sight::RoofEdge, .. }));
        },
        keeps: |session| {
            session.without(|action| matches!(action, Action::Look { at: Sight::Sky, .. }));
        },
        also: &[],
    },
    Case {
        rule: "certificate-serial",
        breaks: |session| {
            let mut other = certificate();
            other.serial = "OC-1985".to_owned();
            session.setup.certificates.insert(0, other);
            session.rewrite(Field::CertificateSerial, "OC-1985");
        },
        keeps: |session| session.rewrite(Field::CertificateSerial, " oc-2207"),
        also: &[],
    },
    Case {
        rule: "certificate-current",
        breaks: |session| date_certificate(session, Date::new(2025, 10, 31).unwrap()),
        keeps: |session| date_certificate(session, Date::new(2025, 11, 1).unwrap()),
        also: &[],
    },
    Case {
        rule: "certificate-named",
        breaks: |session| session.rewrite(Field::CertificateDate, "2026-03-18"),
        keeps: |session| session.rewrite(Field::CertificateDate, " 2026-03-17 "),
        also: &[],
    },
    Case {
        rule: "certificate-copied",
        breaks: |session| {
            // The copy on top has two digits transposed; the original is behind it.
            let mut copy = certificate();
            copy.heading = CertificateHeading::Copy;
            copy.standard = CertificatePair { slope: 1.5213, ..STANDARD };
            session.setup.certificates.insert(0, copy);
            session.rewrite(Field::CertificateSlope, "1.5213");
            session.redo_sums();
        },
        keeps: |session| session.rewrite(Field::CertificateIntercept, "-0.02405"),
        also: &[],
    },
    Case {
        rule: "standard-pair",
        breaks: |session| {
            session.rewrite(Field::CertificateSlope, &ACTUAL.slope.to_string());
            session.rewrite(Field::CertificateIntercept, &ACTUAL.intercept.to_string());
            session.redo_sums();
        },
        keeps: |session| session.setup.certificates[0].actual_first = true,
        // This line is so wrong that accepting it is a finding of its own.
        also: &["last-line", "decision-sound"],
    },
    Case {
        rule: "station-pressure",
        breaks: |session| {
            let written = |action: &Action| writes(action, Field::Pressure);
            let at_sea = |facts: &mut crate::session::ground_truth::GroundTruth| {
                facts.barometer_at_station = false;
                facts.barometer_mmhg = 760.0;
            };
            session.at(written, at_sea);
            session.rewrite(Field::Pressure, "760");
            session.redo_sums();
        },
        keeps: |session| session.always(|facts| facts.barometer_at_station = false),
        also: &[],
    },
    Case {
        rule: "thermometer-shaded",
        breaks: |session| session.always(|facts| facts.thermometer_shaded = false),
        keeps: |session| {
            session.at(
                |action| !writes(action, Field::Temperature),
                |facts| {
                    facts.thermometer_shaded = false;
                },
            );
        },
        also: &[],
    },
    Case {
        rule: "conditions-as-read",
        breaks: |session| {
            session.rewrite(Field::Pressure, "755");
            session.redo_sums();
        },
        keeps: |session| {
            session.always(|facts| facts.barometer_mmhg = PRESSURE + 4.0);
            session.rewrite(Field::Pressure, "751");
            session.redo_sums();
        },
        also: &[],
    },
    Case {
        rule: "conditions-written",
        breaks: |session| session.rewrite(Field::Temperature, "mild"),
        keeps: |session| session.rewrite(Field::Temperature, "21,0"),
        // Nothing that the temperature enters can be judged.
        also: &["record-judgeable"],
    },
    Case {
        rule: "dead-before-hands",
        breaks: |session| {
            let lifts = |action: &Action| matches!(action, Action::Take { part: RigPart::Frame });
            session.at(lifts, |facts| facts.speed_ratio = 0.4);
        },
        keeps: |session| {
            // Opening the lid and tightening a nut reach nothing that turns.
            let outside = |action: &Action| {
                matches!(action, Action::OpenLid | Action::TurnNut { quarter_turns: 8, .. })
            };
            session.at(outside, |facts| (facts.powered, facts.speed_ratio) = (true, 1.0));
        },
        also: &[],
    },
    Case {
        rule: "isolated",
        breaks: |session| {
            session.without(|action| matches!(action, Action::UnplugSampler));
            session.always(|facts| facts.sampler_cord_in = true);
        },
        keeps: |session| {
            // The blower's plug may stay in a mains outlet that is switched off.
            session.at(loosens, |facts| {
                facts.blower_plug = BlowerPlug::LineOutlet;
                facts.line_on = false;
            });
        },
        also: &[],
    },
    Case {
        rule: "gaskets-seated",
        breaks: |session| session.always(|facts| facts.calibrator_gasket = false),
        keeps: |session| {
            session.apart_from_readings(|facts| facts.calibrator_gasket = false);
        },
        also: &[],
    },
    Case {
        rule: "washers-above",
        breaks: |session| session.always(|facts| facts.washer_above[2] = false),
        keeps: |session| {
            session.apart_from_readings(|facts| facts.washer_above[2] = false);
        },
        also: &[],
    },
    Case {
        rule: "nuts-snug",
        breaks: |session| session.at_readings(|facts| facts.nut_turns = [8, 8, 8, 5]),
        keeps: |session| session.at_readings(|facts| facts.nut_turns = [8, 6, 7, 8]),
        also: &[],
    },
    Case {
        rule: "opposite-corners",
        breaks: |session| relabel_nuts(session, [1, 2, 3, 4]),
        keeps: |session| relabel_nuts(session, [4, 2, 1, 3]),
        also: &[],
    },
    Case {
        rule: "filter-out",
        breaks: filter_stays,
        keeps: |session| {
            filter_stays(session);
            session.setup.work_order.filter_in_place = true;
        },
        also: &[],
    },
];

/// Changes the date of the only certificate, on the paper and in the field book.
fn date_certificate(session: &mut TestSession, date: Date) {
    session.setup.certificates[0].date = date;
    session.rewrite(Field::CertificateDate, &date.to_string());
}

/// Leaves the filter on the holder until the end.
fn filter_stays(session: &mut TestSession) {
    session.always(|facts| facts.places[RigPart::Filter as usize] = PartPlace::Holder);
}

/// Tightens the nuts in an order other than 1, 3, 2, 4.
fn relabel_nuts(session: &mut TestSession, order: [u8; 4]) {
    let renamed = |old: Nut| {
        let place = [1, 3, 2, 4].iter().position(|&number| number == old.number()).unwrap();
        Nut::try_from(order[place]).unwrap()
    };
    let tightened: Vec<usize> = (0..session.events.len())
        .filter(|&index| {
            matches!(session.events[index].action, Action::TurnNut { quarter_turns: 8, .. })
        })
        .take(4)
        .collect();
    let mut turns = [0_u8; 4];
    for index in tightened {
        let moment = &mut session.events[index];
        if let Action::TurnNut { nut, .. } = &mut moment.action {
            *nut = renamed(*nut);
            moment.before.nut_turns = turns;
            turns[nut.index()] = 8;
            moment.after.nut_turns = turns;
        }
    }
}

/// Whether an action loosens a nut.
const fn loosens(action: &Action) -> bool {
    matches!(action, Action::TurnNut { quarter_turns, .. } if *quarter_turns < 0)
}
