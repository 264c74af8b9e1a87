//! What you can do for a 24-hour run: the filter and how it is held, the timer's dial and trippers,
//! the chart that is kept, and the weather sheet.

use sim_core::rig::parts::{FilterSide, Grip, PartPlace, RigPart};
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;
use sim_core::session::view::run::{RunStanding, RunView};

use crate::grain::Grain;
use crate::offer::Offers;
use crate::run_state::tripper;
use crate::spot::Spot;

/// Hours by which a usual and a small step turn the dial.
const DIAL_H: (f64, f64) = (0.25, 1.0 / 60.0);
/// The same for a tripper: an hour, and one mark of the dial.
const TRIPPER_H: (f64, f64) = (1.0, 1.0 / 12.0);

/// Whether the chart of a run that has ended is still on the recorder.
pub(super) fn chart_is_to_be_kept(view: &View) -> bool {
    let is = |run: &RunView| run.standing == RunStanding::Back && run.kept_chart.is_none();
    view.run.as_deref().is_some_and(is)
}

/// Dial, trippers, kept chart and weather sheet.
pub(super) fn offers(view: &View, spot: Spot, list: &mut Offers) {
    match spot {
        Spot::Dial => {
            let (weekday, hours) = (view.date.weekday(), view.time.hours());
            list.act("set the dial to the time on your watch", Action::SetDial { weekday, hours });
            moves(view, spot, list, ["turn it forward by a day", "turn it back by a day"], 24.0);
            let quarters =
                ["turn it forward by a quarter of an hour", "turn it back by a quarter of an hour"];
            moves(view, spot, list, quarters, DIAL_H.0);
            list.look("look at it closely", Sight::Timer);
        }
        Spot::Tripper(trip) => {
            moves(view, spot, list, ["move it forward by a day", "move it back by a day"], 24.0);
            moves(
                view,
                spot,
                list,
                ["move it forward by an hour", "move it back by an hour"],
                TRIPPER_H.0,
            );
            let fives = ["move it forward by five minutes", "move it back by five minutes"];
            moves(view, spot, list, fives, TRIPPER_H.1);
            list.act("tighten its screw", Action::FastenTripper { trip });
            list.look("look at it closely", Sight::Timer);
        }
        Spot::KeptChart => list.look("look at the whole chart", Sight::Recorder),
        _ => list.look("read the weather sheet", Sight::WeatherSheet),
    }
}

/// A step forward and a step back.
fn moves(view: &View, spot: Spot, list: &mut Offers, words: [&str; 2], by_h: f64) {
    for (words, by_h) in words.into_iter().zip([by_h, -by_h]) {
        if let Some(action) = moved(view, spot, by_h) {
            list.act(words, action);
        }
    }
}

/// Turning dial or tripper by steps.
pub(super) fn turn(view: &View, spot: Spot, steps: f64, grain: Grain) -> Option<Action> {
    let (coarse, fine) = if spot == Spot::Dial { DIAL_H } else { TRIPPER_H };
    let step_h = match grain {
        Grain::Coarse => coarse,
        Grain::Fine => fine,
    };
    moved(view, spot, steps * step_h)
}

/// Dial or tripper moved by some hours from its present position.
fn moved(view: &View, spot: Spot, by_h: f64) -> Option<Action> {
    let dial = &view.run.as_ref()?.timer;
    match spot {
        Spot::Dial => {
            let (weekday, hours) = later(dial.weekday, dial.hours, by_h, DIAL_H.1);
            Some(Action::SetDial { weekday, hours })
        }
        Spot::Tripper(trip) => {
            let stands = tripper(view.run.as_ref()?, trip);
            // One that acts every day is set to a day as soon as it is moved.
            let from = stands.weekday.unwrap_or(dial.weekday);
            let (weekday, hours) = later(from, stands.hours, by_h, TRIPPER_H.1);
            Some(Action::SetTripper { trip, weekday, hours })
        }
        _ => None,
    }
}

/// Day and hour of the week some hours later, on the nearest mark of `mark_h`.
fn later(weekday: u8, hours: f64, by_h: f64, mark_h: f64) -> (u8, f64) {
    let marks = ((24.0 * f64::from(weekday) + hours + by_h) / mark_h).round();
    let per_day = (24.0 / mark_h).round();
    let of_week = marks.rem_euclid(7.0 * per_day);
    let day = (of_week / per_day).floor();
    ((day as u8).min(6), (of_week - day * per_day) * 24.0 / per_day)
}

/// Picking the filter up, the right way first.
pub(super) fn take_filter(view: &View, list: &mut Offers) {
    let fresh = view.run.as_ref().is_some_and(|run| run.takes_fresh);
    let words = if fresh {
        ["take a fresh filter by its edges", "take a fresh filter with your whole hand"]
    } else {
        ["take the filter by its edges", "take the filter with your whole hand"]
    };
    for (words, grip) in words.into_iter().zip([Grip::Edges, Grip::Face]) {
        list.act(words, Action::TakeFilter { grip });
    }
}

/// What is done to the filter itself: in the hand, or on the holder.
pub(super) fn handle_filter(view: &View, list: &mut Offers) {
    let Some(run) = &view.run else { return };
    match view.mounting.place(RigPart::Filter) {
        PartPlace::Hand if run.filter.folded_out.is_none() => {
            list.act("hold it up to the light", Action::HoldToLight);
            list.act("turn it over", Action::TurnFilter);
            for (words, out) in [
                ("fold it with the smooth side out", FilterSide::Smooth),
                ("fold it with the rough side out", FilterSide::Rough),
            ] {
                list.act(words, Action::FoldFilter { out });
            }
        }
        PartPlace::Holder if view.mounting.lid_open => {
            list.act("shift it until its margins are even", Action::CentreFilter);
            if view.mounting.place(RigPart::Frame) != PartPlace::Holder && view.hand.is_none() {
                list.act("lay another clean filter on it", Action::AddFilter);
                if run.added_filters > 0 {
                    list.act("take the added filter off", Action::RemoveAddedFilter);
                }
            }
        }
        _ => {}
    }
    list.look("look at it closely", Sight::Filter);
}

#[cfg(test)]
mod tests {
    use super::{TRIPPER_H, later};

    #[test]
    fn a_tripper_goes_round_the_week_and_keeps_to_its_marks() {
        assert_eq!(later(6, 23.5, 1.0, TRIPPER_H.1), (0, 0.5));
        assert_eq!(later(0, 0.0, -24.0, TRIPPER_H.1), (6, 0.0));
        let (day, hours) =
            (0..12).fold((2, 7.0), |(day, hours), _| later(day, hours, TRIPPER_H.1, TRIPPER_H.1));
        assert_eq!((day, hours.to_bits()), (2, 8.0_f64.to_bits()));
    }
}
