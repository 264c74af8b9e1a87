//! Phase K: meter, chart and end reading, the filter folded into its envelope.

use super::mind::{Mind, Phase, Progress, stands_still};
use super::strip::take_nuts_off;
use super::tapping::Tapping;
use super::warm::WARM_UP_S;
use super::{Practice, Scene};
use crate::field_book::Field;
use crate::rig::parts::{FilterSide, Grip, Part, Place, TimerSwitch};
use crate::session::action::{Action, FaultPlace, Response, Sight};
use crate::session::view::run::{Holes, RunStanding, RunView};

/// A dial that is farther from the watch than this has gone wrong, h.
const DIAL_OFF_H: f64 = 0.1;
/// A pen below this draws no run, chart divisions.
pub(super) const DRAWS: f64 = 10.0;

/// Where the phase stands.
#[derive(Debug, Default)]
pub(super) enum Recover {
    /// The timer is to be looked at.
    #[default]
    Come,
    /// The timer is in focus.
    Timer,
    /// The recorder is in focus.
    Chart,
    /// The blower runs for the end reading.
    EndReading(Tapping),
    /// Power is off; hands will go in.
    Dead,
    /// The filter is in sight.
    Filter,
    /// It is in its envelope.
    Stored,
    /// Done.
    Over,
}

impl Phase for Recover {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        let Some(run) = scene.view.run.as_deref() else { return Progress::Finished };
        if run.standing != RunStanding::Back {
            return Progress::Finished;
        }
        let stage = std::mem::take(self);
        *self = match stage {
            Self::Come => {
                mind.looks(Sight::Timer);
                Self::Timer
            }
            Self::Timer => {
                mind.writes(Field::MeterAfter, format!("{:.1}", run.timer.meter_min));
                dial(run, scene, mind);
                mind.looks(Sight::Recorder);
                Self::Chart
            }
            Self::Chart => {
                mind.does(Action::OpenDoor);
                mind.does(Action::LiftPen);
                mind.does(Action::TakeChart);
                mind.does(Action::LowerPen);
                mind.does(Action::SwitchTimer { to: TimerSwitch::On });
                mind.waits(if mind.habits.warm_up == Practice::Kept { WARM_UP_S } else { 30.0 });
                mind.looks_to_read(Sight::Pen);
                Self::EndReading(Tapping::default())
            }
            Self::EndReading(mut tapping) => {
                if tapping.rests(scene, mind) {
                    let pen = mind.reads_chart(scene.view.recorder.pen.unwrap_or_default());
                    mind.writes(Field::EndChart, format!("{pen:.1}"));
                    mind.stops_blower(scene);
                    Self::Dead
                } else {
                    Self::EndReading(tapping)
                }
            }
            Self::Dead if !stands_still(scene) => {
                mind.waits(5.0);
                Self::Dead
            }
            Self::Dead => {
                mind.does(Action::OpenLid);
                take_nuts_off(scene, mind);
                mind.moves(Part::Frame, Place::Ground);
                mind.looks(Sight::Filter);
                Self::Filter
            }
            Self::Filter => {
                filter(run, mind);
                Self::Stored
            }
            Self::Stored => {
                let number = scene.book.text(Field::FilterNumber).unwrap_or("the filter");
                let (date, time) = (scene.view.date, scene.view.time);
                let custody =
                    format!("{number} taken in {date} {time}, to the laboratory by the sampler");
                mind.writes(Field::Custody, custody);
                Self::Over
            }
            Self::Over => {
                *self = Self::Over;
                return Progress::Finished;
            }
        };
        Progress::More
    }
}

/// Compares the dial with the watch: one that gains is ahead, one that stood without power behind.
fn dial(run: &RunView, scene: &Scene<'_>, mind: &mut Mind) {
    let today = f64::from(scene.view.date.weekday());
    let ahead = f64::from(run.timer.weekday) * 24.0 + run.timer.hours
        - today * 24.0
        - scene.view.time.hours();
    let ahead = (ahead + 84.0).rem_euclid(168.0) - 84.0;
    if ahead > DIAL_OFF_H {
        mind.reports(
            FaultPlace::Timer,
            Response::Noted,
            "the timer gains: its dial is ahead of the watch",
        );
    } else if ahead < -DIAL_OFF_H {
        mind.reports(
            FaultPlace::Blower,
            Response::Noted,
            "the power failed: the timer's dial is behind the watch",
        );
    }
}

/// The filter out by its edges, folded dirty side in, into its envelope.
fn filter(run: &RunView, mind: &mut Mind) {
    if run.filter.holes == Some(Holes::Tear) {
        mind.reports(FaultPlace::Filter, Response::Rejected, "the filter is torn");
    }
    let out = match run.filter.up {
        FilterSide::Rough => FilterSide::Smooth,
        FilterSide::Smooth => FilterSide::Rough,
    };
    mind.does(Action::TakeFilter { grip: Grip::Edges });
    mind.does(Action::FoldFilter { out });
    mind.does(Action::Put { place: Place::Case });
}
