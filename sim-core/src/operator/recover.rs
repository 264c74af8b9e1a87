//! Phase K: elapsed-time meter, chart and end reading; the filter is folded into its envelope.

use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::running::stands_still;
use super::strip::take_nuts_off;
use super::tapping::Tapping;
use super::warm::WARM_UP_S;
use super::{Observation, Practice};
use crate::field_book::Field;
use crate::rig::parts::{FilterSide, Grip, PartPlace, RigPart, TimerSwitch};
use crate::session::action::{Action, FaultKind, Response, Sight};
use crate::session::view::run::{Holes, RunStanding, RunView};

/// A timer dial that differs from the watch by more than this is wrong, h.
const DIAL_OFF_H: f64 = 0.1;
/// A meter that counted less than this did not count, min.
const COUNTS_MIN: f64 = 1.0;
/// A trace of this length shows that the sampler ran, min.
const DRAWN_MIN: f64 = 30.0;
/// Two points of one stroke are no further apart than this, h.
const LONGEST_STROKE_H: f64 = 0.1;
/// A pen below this records no run, chart divisions.
pub(super) const DRAWS: f64 = 15.0;

/// How far the phase has come.
#[derive(Debug, Default)]
pub(super) enum RecoverPhase {
    /// The operator is about to look at the timer.
    #[default]
    Come,
    /// The timer is in focus.
    Timer,
    /// The recorder is in focus.
    Chart,
    /// The blower runs for the end reading.
    EndReading(Tapping),
    /// Power is off; the hands are about to go in.
    Dead,
    /// The filter is in sight.
    Filter,
    /// The filter is in its envelope.
    Stored,
    /// Done.
    Over,
}

impl OperatorPhase for RecoverPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        let Some(run) = observed.view.run.as_deref() else { return PhaseProgress::Finished };
        if run.standing != RunStanding::Back {
            return PhaseProgress::Finished;
        }
        let stage = std::mem::take(self);
        *self = match stage {
            Self::Come => {
                memory.looks(Sight::Timer);
                Self::Timer
            }
            Self::Timer => {
                memory.writes(Field::MeterAfter, format!("{:.1}", run.timer.meter_min));
                dial(run, observed, memory);
                meter(run, observed, memory);
                memory.looks(Sight::Recorder);
                Self::Chart
            }
            Self::Chart => {
                memory.does(Action::OpenDoor);
                memory.does(Action::LiftPen);
                memory.does(Action::TakeChart);
                memory.does(Action::LowerPen);
                memory.does(Action::SwitchTimer { to: TimerSwitch::On });
                memory.waits(if memory.habits.warm_up == Practice::Kept {
                    WARM_UP_S
                } else {
                    30.0
                });
                memory.looks_to_read(Sight::Pen);
                Self::EndReading(Tapping::default())
            }
            Self::EndReading(mut tapping) => {
                if tapping.rests(observed, memory) {
                    end_reading(observed, memory);
                    Self::Dead
                } else {
                    Self::EndReading(tapping)
                }
            }
            Self::Dead if !stands_still(observed) => {
                memory.waits(5.0);
                Self::Dead
            }
            Self::Dead => {
                memory.does(Action::OpenLid);
                take_nuts_off(observed, memory);
                memory.moves(RigPart::Frame, PartPlace::Ground);
                memory.looks(Sight::Filter);
                Self::Filter
            }
            Self::Filter => {
                filter(run, memory);
                Self::Stored
            }
            Self::Stored => {
                let number = observed.book.text(Field::FilterNumber).unwrap_or("the filter");
                let (date, time) = (observed.view.date, observed.view.time);
                let custody =
                    format!("{number} taken in {date} {time}, to the laboratory by the sampler");
                memory.writes(Field::Custody, custody);
                Self::Over
            }
            Self::Over => {
                *self = Self::Over;
                return PhaseProgress::Finished;
            }
        };
        PhaseProgress::More
    }
}

/// Writes the reading at the end of the run, and cuts the power.
fn end_reading(observed: &Observation<'_>, memory: &mut Memory) {
    let pen = memory.reads_chart(observed.view.recorder.pen.unwrap_or_default());
    memory.thinks(format!(
        "At the end of the run the warm, tapped pen stands at {pen:.1} divisions."
    ));
    memory.writes(Field::EndChart, format!("{pen:.1}"));
    memory.stops_blower(observed);
}

/// Compares the dial with the watch: a dial that gains is ahead; one that lost power is behind.
fn dial(run: &RunView, observed: &Observation<'_>, memory: &mut Memory) {
    let today = f64::from(observed.view.date.weekday());
    let ahead = f64::from(run.timer.weekday) * 24.0 + run.timer.hours
        - today * 24.0
        - observed.view.time.hours();
    let ahead = (ahead + 84.0).rem_euclid(168.0) - 84.0;
    memory.thinks(format!(
        "The timer's dial is {:+.1} min from the watch; {:.0} min either way are its usual error.",
        60.0 * ahead,
        60.0 * DIAL_OFF_H
    ));
    if ahead > DIAL_OFF_H {
        memory.reports(
            FaultKind::TimerGains,
            Response::Noted,
            "the timer gains: its dial is ahead of the watch",
        );
    } else if ahead < -DIAL_OFF_H {
        memory.reports(
            FaultKind::PowerCut,
            Response::Noted,
            "the power failed: the timer's dial is behind the watch",
        );
    }
}

/// The meter of a sampler that has run must have counted: one that did not is dead.
fn meter(run: &RunView, observed: &Observation<'_>, memory: &mut Memory) {
    let before = observed.book.number(Field::MeterBefore).unwrap_or_default();
    let (counted, drawn) = (run.timer.meter_min - before, drawn_min(&observed.view.recorder.trace));
    if memory.habits.comparing == Practice::Kept && counted < COUNTS_MIN && drawn > DRAWN_MIN {
        memory.thinks(format!(
            "The trace shows a run of {drawn:.0} min, and the meter counted {counted:.1} min: it is dead."
        ));
        memory.reports(
            FaultKind::MeterDead,
            Response::Corrected,
            "the elapsed-time meter is dead; the minutes are taken from the set times and the trace",
        );
    }
}

/// Minutes for which a trace shows that the sampler ran.
pub(super) fn drawn_min(trace: &[(f64, f64)]) -> f64 {
    let pairs = trace.iter().zip(trace.iter().skip(1));
    let running = pairs.filter(|((_, one), (_, other))| *one > DRAWS && *other > DRAWS);
    let hours = running.map(|((from, _), (to, _))| (to - from).rem_euclid(24.0));
    // Where the pen was lifted, the next stroke begins elsewhere: that is no time of the run.
    60.0 * hours.filter(|hours| *hours < LONGEST_STROKE_H).sum::<f64>()
}

/// Takes the filter out by its edges, folds it dirty side in and puts it into its envelope.
fn filter(run: &RunView, memory: &mut Memory) {
    let torn = run.filter.holes == Some(Holes::Tear);
    memory.thinks(if torn {
        "The filter of the run is torn: dust went past it, and what it holds is not the sample."
    } else {
        "The filter of the run is whole: it is folded with its dirty side in."
    });
    if torn {
        // The entry on validity follows the report, so that the two agree.
        memory.filter_torn |=
            memory.reports(FaultKind::FilterTorn, Response::Rejected, "the filter is torn");
    }
    let out = match run.filter.up {
        FilterSide::Rough => FilterSide::Smooth,
        FilterSide::Smooth => FilterSide::Rough,
    };
    memory.does(Action::TakeFilter { grip: Grip::Edges });
    memory.does(Action::FoldFilter { out });
    memory.does(Action::Put { place: PartPlace::Case });
}
