//! Cases for arriving, stripping, manometer, and power.

use super::Case;
use crate::fault::Fault;
use crate::field_book::Field;
use crate::procedure::test_bench::{
    ACTUAL, PRESSURE, STANDARD, TestSession, certificate, is_reading, writes,
};
use crate::rig::parts::{BlowerPlug, Leg, Nut, Part, Place, TimerSwitch};
use crate::scenario::setup::Pair;
use crate::session::action::{Action, FaultPlace, OnOff, Response, Sight};
use crate::time::Date;

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "thunder",
        breaks: |session| {
            let from = 600.0;
            for moment in &mut session.moments {
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
            // The copy on top has two digits exchanged; the original hangs behind it.
            let mut copy = certificate();
            copy.heading = "copy of certificate".to_owned();
            copy.standard = Pair { slope: 1.5213, ..STANDARD };
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
        // Such a line is so wrong that accepting it is a finding of its own.
        also: &["last-line", "decision-sound"],
    },
    Case {
        rule: "station-pressure",
        breaks: |session| {
            let written = |action: &Action| writes(action, Field::Pressure);
            let at_sea = |facts: &mut crate::session::facts::Facts| {
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
        also: &[],
    },
    Case {
        rule: "dead-before-hands",
        breaks: |session| {
            session.at(|action| matches!(action, Action::OpenLid), |facts| facts.speed_ratio = 0.4);
        },
        keeps: |session| {
            session
                .at(|action| matches!(action, Action::OpenLid), |facts| facts.speed_ratio = 0.01);
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
            // The blower's plug may stay in a line outlet that is switched off.
            session.at(
                |action| matches!(action, Action::OpenLid),
                |facts| {
                    facts.blower_plug = BlowerPlug::LineOutlet;
                    facts.line_on = false;
                },
            );
        },
        also: &[],
    },
    Case {
        rule: "gaskets-seated",
        breaks: |session| session.always(|facts| facts.calibrator_gasket = false),
        keeps: |session| {
            session.at(|action| !is_reading(action), |facts| facts.calibrator_gasket = false);
        },
        also: &[],
    },
    Case {
        rule: "washers-above",
        breaks: |session| session.always(|facts| facts.washer_above[2] = false),
        keeps: |session| {
            session.at(|action| !is_reading(action), |facts| facts.washer_above[2] = false);
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
            session.setup.work_order.text = "Calibrate with the filter in place.".to_owned();
        },
        also: &[],
    },
    Case {
        rule: "manometer-plumb",
        breaks: |session| session.at_readings(|facts| facts.tilt_deg = -1.1),
        keeps: |session| session.at_readings(|facts| facts.tilt_deg = 1.0),
        also: &[],
    },
    Case {
        rule: "valves-open",
        breaks: |session| session.at_readings(|facts| facts.valve_quarters = [4, 3]),
        keeps: |session| {
            let chart = |action: &Action| {
                matches!(action, Action::Write { field: Field::Chart(_) | Field::DeltaH(_), .. })
            };
            session.at(chart, |facts| facts.valve_quarters = [4, 3]);
        },
        also: &[],
    },
    Case {
        rule: "manometer-zeroed",
        breaks: |session| session.at_readings(|facts| facts.zero_in = [0.06, 0.06]),
        keeps: |session| {
            // A bubble parts the legs: no slide of the scale cures it, a remark answers it.
            session.always(|facts| {
                facts.zero_in = [0.08, -0.08];
                facts.faults = vec![Fault::ManometerBubble { length_mm: 4.0 }];
            });
            session.report(FaultPlace::Manometer, Response::Corrected);
        },
        also: &[],
    },
    Case {
        rule: "zero-seen",
        breaks: |session| {
            session.at(
                |action| {
                    matches!(
                        action,
                        Action::SlideScale { .. }
                            | Action::Look { at: Sight::LeftLeg | Sight::RightLeg, .. }
                    )
                },
                |facts| facts.powered = true,
            );
        },
        keeps: |session| {
            session.without(|action| matches!(action, Action::SlideScale { .. }));
        },
        also: &[],
    },
    Case {
        rule: "blow-through",
        breaks: |session| session.always(|facts| facts.blown_through = false),
        keeps: |session| {
            session.at(|action| !is_reading(action), |facts| facts.blown_through = false);
        },
        also: &[],
    },
    Case {
        rule: "tube-clear",
        breaks: |session| session.always(|facts| facts.faults = vec![Fault::TubeKinked]),
        keeps: |session| {
            session.always(|facts| facts.faults = vec![Fault::TubeKinked]);
            session.insert_after(
                |action| matches!(action, Action::TurnValve { leg: Leg::Right, .. }),
                Action::StraightenTube,
            );
        },
        also: &[],
    },
    Case {
        rule: "motor-on-line",
        breaks: |session| {
            session.at_readings(|facts| facts.blower_plug = BlowerPlug::Controller);
        },
        keeps: |session| {
            session.insert_after(
                |action| matches!(action, Action::SwitchLine { to: OnOff::On }),
                Action::SwitchTimer { to: TimerSwitch::Off },
            );
        },
        also: &[],
    },
    Case {
        rule: "pen-on-paper",
        breaks: |session| session.at_readings(|facts| facts.on_paper = false),
        keeps: |session| session.at(|action| !is_reading(action), |facts| facts.on_paper = false),
        also: &[],
    },
    Case {
        rule: "warm-up",
        breaks: |session| session.always(|facts| facts.running_s = facts.running_s.min(299.0)),
        keeps: |session| {
            // A short stop after a full warm-up.
            session.at_readings(|facts| facts.running_s = 150.0);
        },
        also: &[],
    },
    Case {
        rule: "leak-check",
        breaks: |session| session.without(|action| matches!(action, Action::Listen)),
        keeps: |session| {
            let blocked = |action: &Action| matches!(action, Action::BlockOpenings);
            session.insert_after(blocked, Action::Look { at: Sight::Pen, eye_mm: 0.0 });
            session.without(|action| matches!(action, Action::Listen));
        },
        also: &[],
    },
    Case {
        rule: "blocked-shortly",
        breaks: |session| session.always(|facts| facts.longest_blocked_s = 31.0),
        keeps: |session| session.always(|facts| facts.longest_blocked_s = 30.0),
        also: &[],
    },
];

/// Gives the only certificate another date, on the paper and in the book.
fn date_certificate(session: &mut TestSession, date: Date) {
    session.setup.certificates[0].date = date;
    session.rewrite(Field::CertificateDate, &date.to_string());
}

/// Leaves the filter on the holder until the end.
fn filter_stays(session: &mut TestSession) {
    session.always(|facts| facts.places[Part::Filter as usize] = Place::Holder);
}

/// Draws the nuts up in another order than 1, 3, 2, 4.
fn relabel_nuts(session: &mut TestSession, order: [u8; 4]) {
    let renamed = |old: Nut| {
        let place = [1, 3, 2, 4].iter().position(|&number| number == old.number()).unwrap();
        Nut::try_from(order[place]).unwrap()
    };
    let tightened: Vec<usize> = (0..session.moments.len())
        .filter(|&index| {
            matches!(session.moments[index].action, Action::TurnNut { quarter_turns: 8, .. })
        })
        .take(4)
        .collect();
    let mut turns = [0_u8; 4];
    for index in tightened {
        let moment = &mut session.moments[index];
        if let Action::TurnNut { nut, .. } = &mut moment.action {
            *nut = renamed(*nut);
            moment.before.nut_turns = turns;
            turns[nut.index()] = 8;
            moment.after.nut_turns = turns;
        }
    }
}
