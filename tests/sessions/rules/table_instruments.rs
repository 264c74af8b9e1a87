//! Fixed plates and an electronic manometer, each on a bench of its own.

use sim_core::field_book::Field;
use sim_core::rig::flow::plates::Plate;
use sim_core::rig::parts::OnOff;
use sim_core::session::action::{Action, Sight};

use super::Case;
use super::deeds::{does, looks};
use super::script::point;

/// A battery that is low when the last point is read, and hardly reads short yet.
const LOW_BEFORE_THE_LAST: &str = "DisplayBatteryLow(minutes: 29), onset: AtEvent(PointWritten(6))";

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "display-current",
        breaks: |script| script.with_fault("DisplayCalibrationExpired(span_pct: 1)"),
        keeps: |script| script.on("label_days: Fixed(1.85e2)", "label_days: Fixed(3.66e2)"),
        drags: &[],
    },
    Case {
        rule: "display-zeroed",
        breaks: |script| {
            // Zeroed only after the first point.
            script.without(does(Action::ZeroManometer));
            let first = script.written(Field::DeltaH(point(1)));
            let open = script.from(first, does(Action::DisconnectTube));
            let look = script.from(open, looks(Sight::Display));
            script.insert(look + 1, [Action::ZeroManometer]);
        },
        keeps: |script| {
            // Once more, with the port open.
            let joined = script.first(does(Action::ConnectTube));
            script.insert(joined, [Action::ZeroManometer]);
        },
        drags: &[],
    },
    Case {
        rule: "display-battery",
        breaks: |script| {
            script.with_fault(LOW_BEFORE_THE_LAST);
        },
        keeps: |script| {
            script.with_fault(LOW_BEFORE_THE_LAST);
            let look = script.look_before(Field::DeltaH(point(7)), Sight::Display);
            let on = Action::SwitchManometer { to: OnOff::On };
            script.insert(look, [Action::ChangeBattery, on]);
        },
        drags: &[],
    },
    Case {
        rule: "plate-leak-check",
        breaks: |script| {
            let [_, plate, ..] = Plate::ALL;
            let put = script.first(does(Action::PutInPlate { plate }));
            for wanted in [Action::BlockOpenings, Action::FreeOpenings] {
                let place = script.from(put, does(wanted));
                script.drop_at(place);
            }
        },
        keeps: |script| {
            // The pen is watched all the same.
            let chart = script.written(Field::Chart(point(1)));
            let covered = script.from(chart, does(Action::BlockOpenings));
            let listened = script.from(covered, does(Action::Listen));
            script.drop_at(listened);
        },
        drags: &[],
    },
];
