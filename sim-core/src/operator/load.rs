//! Phase I: a fresh filter, the controller trimmed on a warm blower, the timer set, a fresh chart;
//! then the operator leaves the site.

use super::added_filters::AddedFilters;
use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::mount::TIGHT_QUARTERS;
use super::running::stands_still;
use super::tapping::Tapping;
use super::warm::WARM_UP_S;
use super::{Observation, Practice, check_run};
use crate::field_book::Field;
use crate::rig::parts::{FilterSide, Grip, PartPlace, RigPart, Seat, TimerSwitch, Trip};
use crate::scenario::run::ScheduledTime;
use crate::scenario::setup::FlowOfRun;
use crate::session::action::{Action, FaultKind, Response, Sight};
use crate::session::view::run::{Holes, RunStanding, RunView};

pub(super) use super::on_controller::power;

/// The pen is brought this near to its set point, chart divisions.
const NEAR: f64 = 0.2;
/// By how many chart divisions one turn of the screw moves the pen, roughly (common practice is to
/// find this by trial; the value belongs to the bench's own design).
const DIVISIONS_A_TURN: f64 = 2.5;
/// How often the screw is turned at most.
const MOST_TURNS: u8 = 10;
/// Time between two readings of the pen, s.
const BETWEEN_S: f64 = 5.0;
/// Time in which the flow settles after the screw was turned, s.
const TRIMMED_S: f64 = 25.0;

/// How far the phase has come.
#[derive(Debug, Default)]
pub(super) enum LoadPhase {
    /// At the folder of fresh filters.
    #[default]
    Folder,
    /// A fresh filter is in hand and held against the light.
    InHand,
    /// The filter is on the holder, with the hold-down frame on it.
    Framed,
    /// The filter's margins are in sight.
    Margins,
    /// Power is about to be connected.
    Power,
    /// The blower runs.
    Warming,
    /// The pen is being brought to its set point.
    Trim(u8, Tapping),
    /// The pen is read as often as the standard was read at a flow check.
    Start(Vec<f64>),
    /// The controller is tested with added filters.
    Added(AddedFilters),
    /// The timer is in focus.
    Timer,
    /// The timer is set.
    Set,
    /// Everything is ready.
    Ready,
    /// The operator has left the site.
    Left,
}

impl OperatorPhase for LoadPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        if !ordered(observed, memory) {
            return PhaseProgress::Finished;
        }
        let stage = std::mem::take(self);
        *self = match stage {
            Self::Folder => folder(observed, memory),
            Self::InHand => match in_hand(observed, memory) {
                Ready::Put => {
                    let number =
                        observed.view.run.as_ref().and_then(|run| run.filter.number.clone());
                    memory.writes(Field::FilterNumber, number.unwrap_or_default());
                    Self::Framed
                }
                Ready::Another => Self::Folder,
            },
            Self::Framed => {
                memory.moves(RigPart::Frame, PartPlace::Holder);
                memory.looks(Sight::Filter);
                Self::Margins
            }
            Self::Margins => margins(observed, memory),
            Self::Power => {
                power(observed, memory);
                Self::Warming
            }
            Self::Warming => {
                if memory.habits.warm_up == Practice::Kept {
                    memory.waits(WARM_UP_S);
                } else {
                    memory.waits(TRIMMED_S);
                }
                memory.looks_to_read(Sight::Pen);
                Self::Trim(0, Tapping::default())
            }
            Self::Trim(turned, tapping) => trim(turned, tapping, observed, memory),
            Self::Start(read) => start(read, observed, memory),
            Self::Added(mut added) => {
                let order = observed.papers.work_order.added_filters();
                match order.is_none_or(|order| added.is_over(order, observed, memory)) {
                    true => to_the_timer(memory),
                    false => Self::Added(added),
                }
            }
            Self::Timer => timer(observed, memory),
            Self::Set => {
                let run = observed.view.run.as_deref();
                let meter = run.map_or(0.0, |run| run.timer.meter_min);
                memory.writes(Field::MeterBefore, format!("{meter:.1}"));
                memory.does(Action::SwitchTimer { to: TimerSwitch::Auto });
                memory.does(Action::LiftPen);
                memory.does(Action::FitChart);
                memory.does(Action::LowerPen);
                memory.does(Action::CloseDoor);
                Self::Ready
            }
            Self::Ready => {
                memory.at_once(Action::LeaveSite);
                Self::Left
            }
            Self::Left => {
                *self = Self::Left;
                return PhaseProgress::Finished;
            }
        };
        PhaseProgress::More
    }
}

/// Whether a run is ordered, still lies ahead, and has a set point.
pub(super) fn ordered(observed: &Observation<'_>, memory: &Memory) -> bool {
    let before = observed.view.run.as_ref().is_some_and(|run| run.standing == RunStanding::Before);
    before && memory.refusal.is_none() && memory.set_point.is_some()
}

/// Takes the next fresh filter and holds it against the light.
fn folder(observed: &Observation<'_>, memory: &mut Memory) -> LoadPhase {
    if !stands_still(observed) {
        memory.waits(5.0);
        return LoadPhase::Folder;
    }
    if observed.view.run.as_ref().is_none_or(|run| run.fresh_filters == 0) {
        memory.thinks("No fresh filter is left in the folder.");
        memory.gives_up("the folder holds no filter that can be used");
        return LoadPhase::Folder;
    }
    if !observed.view.mounting.lid_open {
        memory.does(Action::OpenLid);
    }
    if observed.view.mounting.place(RigPart::Filter) == PartPlace::Holder {
        // The filter with which the flow was checked.
        memory.does(Action::TakeFilter { grip: Grip::Edges });
        memory.does(Action::Put { place: PartPlace::Case });
    }
    takes_fresh_filter(memory);
    LoadPhase::InHand
}

/// Takes the next filter from the folder and holds it against the light.
pub(super) fn takes_fresh_filter(memory: &mut Memory) {
    memory.does(Action::TakeFilter { grip: Grip::Edges });
    memory.does(Action::HoldToLight);
    memory.looks(Sight::Filter);
}

/// What happens to the filter in hand.
pub(super) enum Ready {
    /// It is laid on the holder.
    Put,
    /// It went back, and another one is needed.
    Another,
}

/// Puts back a filter that cannot be used, or lays a usable one down with its rough side up.
pub(super) fn in_hand(observed: &Observation<'_>, memory: &mut Memory) -> Ready {
    let Some(run) = observed.view.run.as_deref() else { return Ready::Another };
    let seen = &run.filter;
    let holes = match seen.holes {
        Some(Holes::Tear) => {
            Some((FaultKind::FilterTorn, "the first filter was torn; another is used"))
        }
        Some(Holes::Pinholes) => {
            Some((FaultKind::FilterPinholes, "the first filter had pinholes; another is used"))
        }
        Some(Holes::Sound) | None => None,
    };
    let damp = (FaultKind::FilterWet, "the first filter was damp; another is used");
    let wrong: Vec<_> = holes.into_iter().chain(seen.damp.then_some(damp)).collect();
    memory.thinks(match (wrong.is_empty(), seen.up) {
        (false, _) => "Against the light the sheet is not sound: it cannot hold a sample.",
        (true, FilterSide::Smooth) => "The sheet is sound and dry, but its smooth side is up.",
        (true, FilterSide::Rough) => "The sheet is sound and dry, with its rough side up.",
    });
    if !wrong.is_empty() {
        for (what, why) in wrong {
            memory.reports(what, Response::Rejected, why);
        }
        memory.does(Action::Put { place: PartPlace::Case });
        return Ready::Another;
    }
    if seen.up == FilterSide::Smooth {
        memory.does(Action::TurnFilter);
        memory.reports(
            FaultKind::FilterUpsideDown,
            Response::Repaired,
            "the filter came out of its envelope smooth side up; turned over",
        );
    }
    memory.does(Action::Put { place: PartPlace::Holder });
    Ready::Put
}

/// Makes the margins even, tightens the nuts and closes the lid.
fn margins(observed: &Observation<'_>, memory: &mut Memory) -> LoadPhase {
    let seat = observed.view.run.as_ref().and_then(|run| run.filter.seat);
    if seat == Some(Seat::Shifted) {
        memory.moves(RigPart::Frame, PartPlace::Ground);
        memory.thinks("The filter's margins are uneven under the frame: air would pass beside it.");
        memory.does(Action::CentreFilter);
        memory.reports(
            FaultKind::FilterOffCentre,
            Response::Repaired,
            "the frame had pushed the filter aside; centred",
        );
        return LoadPhase::Framed;
    }
    let half = (TIGHT_QUARTERS / 2) as i8;
    memory.turns_nuts(half);
    memory.turns_nuts(half);
    memory.does(Action::CloseLid);
    LoadPhase::Power
}

/// Turns the screw until the tapped pen is at the set point, and writes the reading.
fn trim(
    turned: u8,
    mut tapping: Tapping,
    observed: &Observation<'_>,
    memory: &mut Memory,
) -> LoadPhase {
    if !tapping.rests(observed, memory) {
        return LoadPhase::Trim(turned, tapping);
    }
    // The screw keeps the setting at which the standard measured the flow.
    if flow_of_run(observed) == FlowOfRun::Check && memory.checked.is_some() {
        memory.looks_to_read(Sight::Pen);
        return LoadPhase::Start(Vec::new());
    }
    let Some(pen) = turns_screw(turned, observed, memory) else {
        return LoadPhase::Trim(turned + 1, Tapping::default());
    };
    check_run::while_trimming(observed, memory);
    memory.writes(Field::StartChart, format!("{pen:.1}"));
    after_start(pen, observed, memory)
}

/// From what the flow of the run is taken.
pub(super) fn flow_of_run(observed: &Observation<'_>) -> FlowOfRun {
    let check = observed.papers.work_order.check_of_own_line();
    check.map_or(FlowOfRun::Line, |check| check.flow_of_run)
}

/// Reads the pen as often as the standard was read, and writes the mean of the readings.
fn start(mut read: Vec<f64>, observed: &Observation<'_>, memory: &mut Memory) -> LoadPhase {
    read.push(memory.compares_chart(observed.view.recorder.pen.unwrap_or_default()));
    let wanted = observed.papers.work_order.flow_check.map_or(1, |check| check.readings);
    if read.len() < usize::from(wanted) {
        memory.waits(BETWEEN_S);
        return LoadPhase::Start(read);
    }
    check_run::while_trimming(observed, memory);
    let mean = read.iter().sum::<f64>() / read.len() as f64;
    memory.thinks(format!(
        "The pen's {} readings at the setting of the check have a mean of {mean:.2}.",
        read.len()
    ));
    memory.writes(Field::StartChart, format!("{mean:.2}"));
    after_start(mean, observed, memory)
}

/// Once the start reading is written, the controller is tested with added filters, if that is ordered.
fn after_start(pen: f64, observed: &Observation<'_>, memory: &mut Memory) -> LoadPhase {
    match observed.papers.work_order.added_filters() {
        Some(_) => LoadPhase::Added(AddedFilters::after(pen)),
        None => to_the_timer(memory),
    }
}

fn to_the_timer(memory: &mut Memory) -> LoadPhase {
    memory.does(Action::SwitchTimer { to: TimerSwitch::Off });
    memory.looks(Sight::Timer);
    LoadPhase::Timer
}

/// Turns the screw towards the set point. Returns the pen as compared with the set point once it is
/// near.
pub(super) fn turns_screw(
    turned: u8,
    observed: &Observation<'_>,
    memory: &mut Memory,
) -> Option<f64> {
    let wanted = memory.set_point.unwrap_or_default();
    let pen = memory.compares_chart(observed.view.recorder.pen.unwrap_or_default());
    let off = wanted - pen;
    memory.thinks(format!(
        "The pen stands at {pen:.1} divisions, the set point is {wanted:.1}: {off:+.1} to go (at most {NEAR:.1})."
    ));
    if off.abs() > NEAR && turned < MOST_TURNS {
        memory.does(Action::TurnTrim { turns: (off / DIVISIONS_A_TURN).clamp(-5.0, 5.0) });
        memory.waits(TRIMMED_S);
        // The flow is another: what was seen of the pen before belongs to the old one.
        memory.looks_to_read(Sight::Pen);
        return None;
    }
    Some(pen)
}

/// A day of the timer's dial in words.
fn weekday(number: u8) -> &'static str {
    const DAYS: [&str; 7] =
        ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];
    DAYS.get(usize::from(number)).copied().unwrap_or("no day")
}

fn timer(observed: &Observation<'_>, memory: &mut Memory) -> LoadPhase {
    let Some(run) = observed.view.run.as_deref() else { return LoadPhase::Ready };
    let Some(order) = &observed.papers.work_order.run else { return LoadPhase::Ready };
    let (dial, watch) = (run.timer.weekday, observed.view.date.weekday());
    memory.thinks(format!(
        "The timer's dial stands at {}, the calendar at {}.",
        weekday(dial),
        weekday(watch)
    ));
    if dial != watch {
        memory.reports(
            FaultKind::TimerWrongDay,
            Response::Repaired,
            "the timer's dial stood at another day; set",
        );
    }
    let first_day = observed.view.date.weekday();
    sets_timer([order.on, order.off], first_day, run, observed, memory);
    memory.looks(Sight::Timer);
    LoadPhase::Set
}

/// Sets the dial to the hour and day of the watch and the trippers to the ordered hours, and
/// tightens their screws. `first_day` is the weekday from which the days of the order are counted.
pub(super) fn sets_timer(
    [on, off]: [ScheduledTime; 2],
    first_day: u8,
    run: &RunView,
    observed: &Observation<'_>,
    memory: &mut Memory,
) {
    let (weekday, hours) = (observed.view.date.weekday(), observed.view.time.hours());
    memory.does(Action::SetDial { weekday, hours });
    for (trip, at, seen) in [(Trip::On, on, run.timer.on), (Trip::Off, off, run.timer.off)] {
        let weekday = (first_day + at.day) % 7;
        memory.does(Action::SetTripper { trip, weekday, hours: at.at.hours() });
        if seen.loose == Some(true) {
            memory.thinks(
                "A tripper gives way under the finger: the dial would carry it away from its hour.",
            );
            memory.does(Action::FastenTripper { trip });
            memory.reports(
                FaultKind::TripperLoose,
                Response::Repaired,
                "the off tripper was loose; its screw tightened",
            );
        }
    }
}
