//! Cases for the other kinds of instruments: fixed plates, and an electronic manometer.

use super::{Case, TestSession, point, writes};
use crate::field_book::Field;
use crate::rig::flow::plates::Plate;
use crate::rig::manometer::electronic::Shown;
use crate::session::action::{Action, Sight};
use crate::session::ground_truth::DisplayTruth;

/// The session with an electronic manometer in place of the one with water.
fn electronic(session: &mut TestSession) {
    session.always(|facts| {
        facts.display = Some(DisplayTruth {
            shows: Shown::Reading(0.0),
            battery_low: false,
            unsettled_in: 0.0,
            label_days: 100.0,
        });
    });
    session.without(|action| {
        matches!(
            action,
            Action::Write { field: Field::Up(_) | Field::Down(_), .. }
                | Action::Look { at: Sight::RightLeg, .. }
                | Action::SlideScale { .. }
                | Action::TurnValve { .. }
                | Action::BlowThrough
        )
    });
    for moment in &mut session.events {
        if let Action::Look { at, .. } = &mut moment.action
            && *at == Sight::LeftLeg
        {
            *at = Sight::Display;
        }
    }
}

/// Changes what is true of the display.
fn display(
    change: impl Fn(&mut DisplayTruth),
) -> impl Fn(&mut crate::session::ground_truth::GroundTruth) {
    move |facts| {
        if let Some(display) = &mut facts.display {
            change(display);
        }
    }
}

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "display-current",
        breaks: |session| {
            electronic(session);
            session.always(display(|display| display.label_days = 367.0));
        },
        keeps: |session| {
            electronic(session);
            session.always(display(|display| display.label_days = 366.0));
        },
        also: &[],
    },
    Case {
        rule: "display-zeroed",
        breaks: |session| {
            electronic(session);
            session.at_readings(|facts| facts.zero_in = [0.03, -0.03]);
        },
        keeps: |session| {
            electronic(session);
            session.apart_from_readings(|facts| facts.zero_in = [0.1, -0.1]);
            session.at_readings(|facts| facts.zero_in = [0.024, -0.024]);
        },
        also: &[],
    },
    Case {
        rule: "display-battery",
        breaks: |session| {
            electronic(session);
            session.at_readings(display(|display| display.battery_low = true));
        },
        keeps: |session| {
            electronic(session);
            session.apart_from_readings(display(|display| display.battery_low = true));
        },
        also: &[],
    },
    Case {
        rule: "plate-leak-check",
        breaks: |session| {
            let [_, plate, ..] = Plate::ALL;
            session.insert_after(
                |action| writes(action, Field::Chart(point(2))),
                Action::PutInPlate { plate },
            );
        },
        keeps: |session| {
            // Before the calibrator is mounted, the first leak check is for the plate as well.
            let plate = Plate::WIDEST;
            session.insert_after(
                |action| matches!(action, Action::OpenLid),
                Action::PutInPlate { plate },
            );
        },
        // In this session nobody cuts the power for the plate.
        also: &["dead-before-hands"],
    },
];
