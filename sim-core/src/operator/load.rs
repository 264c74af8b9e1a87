//! Phase I: a fresh filter, the controller trimmed on a warm blower, the timer set, a fresh chart,
//! and away.

use super::mind::{Mind, Phase, Progress, stands_still};
use super::mount::TIGHT_QUARTERS;
use super::tapping::Tapping;
use super::warm::WARM_UP_S;
use super::{Practice, Scene, check_run};
use crate::field_book::Field;
use crate::rig::parts::{BlowerPlug, FilterSide, Grip, Part, Place, Seat, TimerSwitch, Trip};
use crate::scenario::run::Moment;
use crate::scenario::setup::FlowOfRun;
use crate::session::action::{Action, FaultPlace, Response, Sight};
use crate::session::view::run::{Holes, RunStanding, RunView};

/// The pen is brought this near to its set point, chart divisions.
const NEAR: f64 = 0.2;
/// Chart divisions that one turn of the screw moves the pen, about (common practice is to find it by
/// trying; this is the bench's own design).
const DIVISIONS_A_TURN: f64 = 1.7;
/// So often the screw is turned at most.
const MOST_TURNS: u8 = 10;
/// Time between two readings of the pen, s.
const BETWEEN_S: f64 = 5.0;
/// Time that the loop takes to settle after the screw was turned, s.
const TRIMMED_S: f64 = 25.0;

/// Where the phase stands.
#[derive(Debug, Default)]
pub(super) enum Load {
    /// Before the folder with fresh filters.
    #[default]
    Folder,
    /// A fresh filter is in the hand, before the light.
    InHand,
    /// It lies on the holder; the frame is laid on it.
    Framed,
    /// The filter's margins are in sight.
    Margins,
    /// Power comes.
    Power,
    /// The blower runs.
    Warming,
    /// The pen is brought to its set point.
    Trim(u8, Tapping),
    /// The pen is read, as often as the standard was at a check.
    Start(Vec<f64>),
    /// The timer is in focus.
    Timer,
    /// The timer was set.
    Set,
    /// All is ready.
    Ready,
    /// The site was left.
    Left,
}

impl Phase for Load {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        if !ordered(scene, mind) {
            return Progress::Finished;
        }
        let stage = std::mem::take(self);
        *self = match stage {
            Self::Folder => folder(scene, mind),
            Self::InHand => match in_hand(scene, mind) {
                Ready::Put => {
                    let number = scene.view.run.as_ref().and_then(|run| run.filter.number.clone());
                    mind.writes(Field::FilterNumber, number.unwrap_or_default());
                    Self::Framed
                }
                Ready::Another => Self::Folder,
            },
            Self::Framed => {
                mind.moves(Part::Frame, Place::Holder);
                mind.looks(Sight::Filter);
                Self::Margins
            }
            Self::Margins => margins(scene, mind),
            Self::Power => {
                power(scene, mind);
                Self::Warming
            }
            Self::Warming => {
                if mind.habits.warm_up == Practice::Kept {
                    mind.waits(WARM_UP_S);
                } else {
                    mind.waits(TRIMMED_S);
                }
                mind.looks_to_read(Sight::Pen);
                Self::Trim(0, Tapping::default())
            }
            Self::Trim(turned, tapping) => trim(turned, tapping, scene, mind),
            Self::Start(read) => start(read, scene, mind),
            Self::Timer => timer(scene, mind),
            Self::Set => {
                let run = scene.view.run.as_deref();
                let meter = run.map_or(0.0, |run| run.timer.meter_min);
                mind.writes(Field::MeterBefore, format!("{meter:.1}"));
                mind.does(Action::SwitchTimer { to: TimerSwitch::Auto });
                mind.does(Action::LiftPen);
                mind.does(Action::FitChart);
                mind.does(Action::LowerPen);
                mind.does(Action::CloseDoor);
                Self::Ready
            }
            Self::Ready => {
                mind.at_once(Action::LeaveSite);
                Self::Left
            }
            Self::Left => {
                *self = Self::Left;
                return Progress::Finished;
            }
        };
        Progress::More
    }
}

/// Whether a run is ordered, lies ahead, and has a set point.
pub(super) fn ordered(scene: &Scene<'_>, mind: &Mind) -> bool {
    let before = scene.view.run.as_ref().is_some_and(|run| run.standing == RunStanding::Before);
    before && mind.refusal.is_none() && mind.set_point.is_some()
}

/// The next fresh filter into the hand and against the light.
fn folder(scene: &Scene<'_>, mind: &mut Mind) -> Load {
    if !stands_still(scene) {
        mind.waits(5.0);
        return Load::Folder;
    }
    if scene.view.run.as_ref().is_none_or(|run| run.fresh_filters == 0) {
        mind.gives_up("the folder holds no filter that can be used");
        return Load::Folder;
    }
    if !scene.view.mounting.lid_open {
        mind.does(Action::OpenLid);
    }
    if scene.view.mounting.place(Part::Filter) == Place::Holder {
        // The one over which the flow was checked.
        mind.does(Action::TakeFilter { grip: Grip::Edges });
        mind.does(Action::Put { place: Place::Case });
    }
    takes_fresh_filter(mind);
    Load::InHand
}

/// The next filter from the folder into the hand, before the light.
pub(super) fn takes_fresh_filter(mind: &mut Mind) {
    mind.does(Action::TakeFilter { grip: Grip::Edges });
    mind.does(Action::HoldToLight);
    mind.looks(Sight::Filter);
}

/// What becomes of a filter in the hand.
pub(super) enum Ready {
    /// It is laid on the holder.
    Put,
    /// It went back, and another is wanted.
    Another,
}

/// A filter that cannot be used goes back; the other one is laid down with its rough side up.
pub(super) fn in_hand(scene: &Scene<'_>, mind: &mut Mind) -> Ready {
    let Some(run) = scene.view.run.as_deref() else { return Ready::Another };
    let seen = &run.filter;
    let why = match seen.holes {
        Some(Holes::Tear) => Some("the first filter was torn; another is used"),
        Some(Holes::Pinholes) => Some("the first filter had pinholes; another is used"),
        _ if seen.damp => Some("the first filter was damp; another is used"),
        _ => None,
    };
    if let Some(why) = why {
        mind.reports(FaultPlace::Filter, Response::Rejected, why);
        mind.does(Action::Put { place: Place::Case });
        return Ready::Another;
    }
    if seen.up == FilterSide::Smooth {
        mind.does(Action::TurnFilter);
        mind.reports(
            FaultPlace::Filter,
            Response::Repaired,
            "the filter came out of its envelope smooth side up; turned over",
        );
    }
    mind.does(Action::Put { place: Place::Holder });
    Ready::Put
}

/// The margins even, the nuts tight, the lid closed.
fn margins(scene: &Scene<'_>, mind: &mut Mind) -> Load {
    let seat = scene.view.run.as_ref().and_then(|run| run.filter.seat);
    if seat == Some(Seat::Shifted) {
        mind.moves(Part::Frame, Place::Ground);
        mind.does(Action::CentreFilter);
        mind.reports(
            FaultPlace::Filter,
            Response::Repaired,
            "the frame had pushed the filter aside; centred",
        );
        return Load::Framed;
    }
    let half = (TIGHT_QUARTERS / 2) as i8;
    mind.turns_nuts(half);
    mind.turns_nuts(half);
    mind.does(Action::CloseLid);
    Load::Power
}

/// Pen on the paper, the blower on its controller, running.
pub(super) fn power(scene: &Scene<'_>, mind: &mut Mind) {
    let (power, recorder) = (&scene.view.power, &scene.view.recorder);
    if !recorder.door_open {
        mind.does(Action::OpenDoor);
    }
    if recorder.capped {
        mind.does(Action::UncapPen);
    }
    if !recorder.on_paper {
        mind.does(Action::LowerPen);
    }
    if power.blower_plug != BlowerPlug::Controller {
        mind.does(Action::PlugBlower { into: BlowerPlug::Controller });
    }
    if !power.sampler_cord_in {
        mind.does(Action::PlugSampler);
    }
    mind.does(Action::SwitchTimer { to: TimerSwitch::On });
    mind.does(Action::Listen);
}

/// Turns the screw until the tapped pen stands at the set point, and writes where it stands.
fn trim(turned: u8, mut tapping: Tapping, scene: &Scene<'_>, mind: &mut Mind) -> Load {
    if !tapping.rests(scene, mind) {
        return Load::Trim(turned, tapping);
    }
    // The screw at which the standard told the flow is left alone.
    if flow_of_run(scene) == FlowOfRun::Check && mind.checked.is_some() {
        mind.looks_to_read(Sight::Pen);
        return Load::Start(Vec::new());
    }
    let Some(pen) = turns_screw(turned, scene, mind) else {
        return Load::Trim(turned + 1, Tapping::default());
    };
    check_run::while_trimming(scene, mind);
    mind.writes(Field::StartChart, format!("{pen:.1}"));
    to_the_timer(mind)
}

/// From what the flow of the run is to be taken.
pub(super) fn flow_of_run(scene: &Scene<'_>) -> FlowOfRun {
    let check = scene.papers.work_order.check_of_own_line();
    check.map_or(FlowOfRun::Line, |check| check.flow_of_run)
}

/// Reads the pen as often as the standard was read, and writes the mean.
fn start(mut read: Vec<f64>, scene: &Scene<'_>, mind: &mut Mind) -> Load {
    read.push(mind.compares_chart(scene.view.recorder.pen.unwrap_or_default()));
    let wanted = scene.papers.work_order.flow_check.map_or(1, |check| check.readings);
    if read.len() < usize::from(wanted) {
        mind.waits(BETWEEN_S);
        return Load::Start(read);
    }
    check_run::while_trimming(scene, mind);
    let mean = read.iter().sum::<f64>() / read.len() as f64;
    mind.writes(Field::StartChart, format!("{mean:.2}"));
    to_the_timer(mind)
}

fn to_the_timer(mind: &mut Mind) -> Load {
    mind.does(Action::SwitchTimer { to: TimerSwitch::Off });
    mind.looks(Sight::Timer);
    Load::Timer
}

/// Turns the screw towards the set point; the pen as it was compared with it once it is near.
pub(super) fn turns_screw(turned: u8, scene: &Scene<'_>, mind: &mut Mind) -> Option<f64> {
    let wanted = mind.set_point.unwrap_or_default();
    let pen = mind.compares_chart(scene.view.recorder.pen.unwrap_or_default());
    let off = wanted - pen;
    if off.abs() > NEAR && turned < MOST_TURNS {
        mind.does(Action::TurnTrim { turns: (off / DIVISIONS_A_TURN).clamp(-5.0, 5.0) });
        mind.waits(TRIMMED_S);
        return None;
    }
    Some(pen)
}

fn timer(scene: &Scene<'_>, mind: &mut Mind) -> Load {
    let Some(run) = scene.view.run.as_deref() else { return Load::Ready };
    let Some(order) = &scene.papers.work_order.run else { return Load::Ready };
    if run.timer.weekday != scene.view.date.weekday() {
        mind.reports(
            FaultPlace::Timer,
            Response::Repaired,
            "the timer's dial stood at another day; set",
        );
    }
    let first_day = scene.view.date.weekday();
    sets_timer([order.on, order.off], first_day, run, scene, mind);
    mind.looks(Sight::Timer);
    Load::Set
}

/// The dial on the watch's hour and day, the trippers on the ordered hours, their screws tight.
/// `first_day` is the weekday from which the days of the order are counted.
pub(super) fn sets_timer(
    [on, off]: [Moment; 2],
    first_day: u8,
    run: &RunView,
    scene: &Scene<'_>,
    mind: &mut Mind,
) {
    let (weekday, hours) = (scene.view.date.weekday(), scene.view.time.hours());
    mind.does(Action::SetDial { weekday, hours });
    for (trip, at, seen) in [(Trip::On, on, run.timer.on), (Trip::Off, off, run.timer.off)] {
        let weekday = (first_day + at.day) % 7;
        mind.does(Action::SetTripper { trip, weekday, hours: at.at.hours() });
        if seen.loose == Some(true) {
            mind.does(Action::FastenTripper { trip });
            mind.reports(
                FaultPlace::Timer,
                Response::Repaired,
                "the off tripper was loose; its screw tightened",
            );
        }
    }
}
