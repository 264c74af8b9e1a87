//! What you can do to the recorder, its pen and its chart.

use sim_core::rig::parts::LineCare;
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;

use super::offer::Offers;
use super::run;
use super::spot::Spot;

pub(super) fn offers(view: &View, spot: Spot, list: &mut Offers) {
    let seen = &view.recorder;
    match spot {
        Spot::Recorder => {
            list.act("tap the case", Action::Tap);
            list.look("look at the recorder", Sight::Recorder);
            for (number, (so, words, how)) in (3..).zip([
                (seen.line_off, "push its tubing onto the fitting", LineCare::PushOn),
                (seen.line_kinked, "straighten its tubing", LineCare::Straighten),
                (seen.line_drops, "shake the water out of its tubing", LineCare::Drain),
                (true, "fit new tubing from the van", LineCare::Renew),
            ]) {
                if so {
                    list.act_as(number, words, Action::TendRecorderLine { how });
                }
            }
        }
        Spot::Door if seen.door_open => list.act_as(2, "close the door", Action::CloseDoor),
        Spot::Door => list.act("open the door", Action::OpenDoor),
        Spot::Pen => {
            list.look("read the pen", Sight::Pen);
            if seen.capped {
                list.act_as(2, "take the cap off the pen", Action::UncapPen);
            } else {
                list.act_as(3, "put the cap on the pen", Action::CapPen);
            }
            if seen.on_paper {
                list.act_as(5, "lift the pen off the paper", Action::LiftPen);
            } else {
                list.act_as(4, "lower the pen onto the paper", Action::LowerPen);
            }
            list.act_as(6, "mark the chart beside the trace", mark(view));
        }
        Spot::Cap => {
            if seen.capped {
                list.act("take it off the pen", Action::UncapPen);
            } else {
                list.act_as(2, "put it on the pen", Action::CapPen);
            }
            list.look_as(3, "look at the pen", Sight::Pen);
        }
        Spot::Chart => {
            if run::chart_is_to_be_kept(view) {
                list.act_as(6, "take the chart of the run off and keep it", Action::TakeChart);
            }
            list.act_as(1, "mark the chart beside the trace", mark(view));
            list.act_as(2, "fit a fresh chart set to the present time", Action::FitChart);
            list.act_as(
                3,
                "turn the chart forward by ten minutes",
                Action::TurnChart { minutes: 10.0 },
            );
            list.act_as(
                4,
                "turn the chart back by ten minutes",
                Action::TurnChart { minutes: -10.0 },
            );
            list.look_as(5, "look at the chart", Sight::Recorder);
        }
        _ => {
            list.act("move the pen up by half a division", Action::SetPenZero { by: 0.5 });
            list.act("move the pen down by half a division", Action::SetPenZero { by: -0.5 });
            list.look("read the pen", Sight::Pen);
        }
    }
}

/// The next mark's number: points are marked in the order in which they are taken.
fn mark(view: &View) -> Action {
    Action::MarkChart { label: (view.recorder.marks.len() + 1).to_string() }
}
