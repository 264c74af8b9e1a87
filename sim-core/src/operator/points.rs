//! Phase E: the points, from the highest flow to the lowest.

use super::display::ZeroCheck;
use super::leak::{self, LeakCheckPhase};
use super::memory::{Memory, OperatorPhase, PhaseProgress, ReadPoint};
use super::plates::PlateChange;
use super::tapping::Tapping;
use super::warm::WARM_UP_S;
use super::{Legs, Observation, Practice, openings, suspect, tube_check};
use crate::field_book::{Field, PointNumber};
use crate::rig::flow::plates::Plate;
use crate::rig::manometer::electronic::Shown;
use crate::session::action::{Action, FaultKind, Response, Sight, Struck};

/// How many points are taken, unless the work order asks for more.
const POINTS: u8 = 7;
/// Time at each flow before it is read, s (two minutes READ, 40 CFR 50 App. B 9.3.6).
const SETTLE_S: f64 = 123.0;
/// Time for which a hurried operator waits, s.
const HURRIED_S: f64 = 4.0;
/// Time that the water takes to come to rest after the tubing was handled, s.
const MENDED_S: f64 = 15.0;
/// Time that is kept for restoring the station, s.
const RESTORE_S: f64 = 480.0;
/// A knob that is off by more than this has slipped: a reading error is smaller, part of the
/// opening.
const SLIPPED: f64 = 0.008;
/// Difference of rise and fall above which the legs are unequal, in.
const UNEQUAL_IN: f64 = 0.25;

/// The points.
#[derive(Debug, Default)]
pub(super) struct PointsPhase {
    stage: Stage,
    number: u8,
    up_in: f64,
    down_in: f64,
    chart: f64,
    /// Where the knob was set; fully open before the first point.
    knob_set: Option<f64>,
    /// The heights of the left leg that were seen while it did not come to rest.
    creeping_in: Vec<f64>,
}

#[derive(Debug, Default)]
enum Stage {
    /// The knob is turned.
    #[default]
    Knob,
    /// The flow has settled; the tubing is in focus.
    Tube,
    /// The calibrator is in focus.
    Edge,
    /// Before the plate is changed, somebody listens for a leak.
    BeforePlate(Plate),
    /// The plate is changed.
    Plate(PlateChange),
    /// The zero of an electronic manometer is looked at.
    Zero(ZeroCheck),
    /// Everything that this operator inspects has been inspected.
    Settled,
    /// A hiss is located and repaired.
    Leak(Box<LeakCheckPhase>),
    /// The recorder is tapped.
    Tapping(Tapping, u8),
    /// The left leg is in focus.
    Left(u8),
    /// The right leg is in focus.
    Right(u8),
    /// The display of an electronic manometer is in focus.
    Display(u8),
    /// The point has been read.
    Read,
}

impl OperatorPhase for PointsPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        if memory.refusal.is_some() || observed.papers.work_order.is_check_alone() {
            return PhaseProgress::Finished;
        }
        let stage = std::mem::take(&mut self.stage);
        self.stage = match stage {
            Stage::Knob => match self.knob(observed, memory) {
                Some(stage) => stage,
                None => return PhaseProgress::Finished,
            },
            Stage::BeforePlate(_) if leak::heard(observed, memory) => {
                self.takes_back_the_last(memory);
                Stage::Leak(Box::new(LeakCheckPhase::after_a_hiss()))
            }
            Stage::BeforePlate(plate) => Stage::Plate(PlateChange::to(plate)),
            Stage::Plate(mut change) => match change.go_on(observed, memory) {
                PhaseProgress::More => Stage::Plate(change),
                PhaseProgress::Finished => Stage::Knob,
            },
            Stage::Tube => {
                if tube_check::look_over(observed, memory) == tube_check::TubeCondition::Mended {
                    memory.waits(MENDED_S);
                }
                memory.waits(1.0);
                memory.looks(Sight::Calibrator);
                Stage::Edge
            }
            Stage::Edge => {
                suspect::edge(observed, memory);
                self.knob_slipped(observed, memory);
                if observed.view.manometer.bubble {
                    memory.thinks(
                        "Air in the bend shortens the column: the manometer cannot be read.",
                    );
                    memory.rejects(
                        FaultKind::ManometerBubble,
                        "a bubble sits in the manometer's bend",
                    );
                }
                suspect::air_and_sound(observed, memory);
                if leak::listens(memory) {
                    memory.does(Action::Listen);
                }
                Stage::Settled
            }
            Stage::Settled if leak::heard(observed, memory) => {
                self.takes_back_the_last(memory);
                Stage::Leak(Box::new(LeakCheckPhase::after_a_hiss()))
            }
            Stage::Settled => {
                memory.looks_to_read(Sight::Pen);
                Stage::Tapping(Tapping::default(), 0)
            }
            Stage::Leak(mut check) => match check.go_on(observed, memory) {
                PhaseProgress::More => Stage::Leak(check),
                PhaseProgress::Finished => Stage::Knob,
            },
            Stage::Tapping(mut tapping, looks) => {
                if tapping.rests(observed, memory) {
                    self.chart(looks, observed, memory)
                } else {
                    Stage::Tapping(tapping, looks)
                }
            }
            Stage::Left(looks) => self.left(looks, observed, memory),
            Stage::Right(looks) => self.right(looks, observed, memory),
            Stage::Zero(mut check) => match check.go_on(observed, memory) {
                PhaseProgress::More => Stage::Zero(check),
                PhaseProgress::Finished => {
                    memory.looks(Sight::Tube);
                    Stage::Tube
                }
            },
            Stage::Display(looks) => self.display(looks, observed, memory),
            Stage::Read => {
                let delta_h_in = match memory.habits.legs {
                    Legs::Both => self.up_in + self.down_in,
                    Legs::Left => self.up_in,
                    Legs::LeftDoubled => 2.0 * self.up_in,
                };
                self.sum(delta_h_in * memory.density, memory);
                Stage::Knob
            }
        };
        PhaseProgress::More
    }
}

impl PointsPhase {
    /// Turns the knob for the next point. `None` if there are enough points.
    fn knob(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> Option<Stage> {
        let plates = observed.view.calibrator.plates;
        let wanted = match plates {
            Some(_) => Plate::ALL.len() as u8,
            None => observed.papers.work_order.points.clamp(POINTS, PointNumber::MAX),
        };
        let taken = memory.points.len() as u8;
        let late = observed.view.seconds_left.is_some_and(|left| left < RESTORE_S);
        if late && taken >= 5 && taken < wanted {
            memory.thinks(format!(
                "{:.0} s are left, and restoring the station takes {RESTORE_S:.0} s: {taken} points must do.",
                observed.view.seconds_left.unwrap_or_default()
            ));
        }
        if taken >= wanted || (late && taken >= 5) {
            return None;
        }
        self.number = taken + 1;
        self.creeping_in.clear();
        if let Some(plates) = plates {
            return self.plate(taken, plates.inserted, observed, memory);
        }
        self.knob_slipped(observed, memory);
        let target = observed.papers.work_order.target_flow_std_m3_min;
        let opening = openings::of_point((taken, wanted), target, self.knob_set, memory);
        let opening = memory.sets_knob(opening);
        self.knob_set = Some(opening);
        memory.thinks(format!(
            "Point {} of {wanted}: the knob is set to {:.0} %.",
            self.number,
            100.0 * opening
        ));
        if (observed.view.calibrator.knob - opening).abs() > 0.001 {
            memory.does(Action::TurnKnob { opening });
            memory.flow_changed = Some(observed.view.tick);
        }
        Some(settled(observed, memory))
    }

    /// Sees to it that the plate for the next point is in.
    fn plate(
        &self,
        taken: u8,
        inserted: Option<Plate>,
        observed: &Observation<'_>,
        memory: &mut Memory,
    ) -> Option<Stage> {
        let plate = Plate::ALL.get(usize::from(taken)).copied()?;
        memory.thinks(format!("Point {}: the plate with {} holes.", self.number, plate.holes()));
        if inserted == Some(plate) {
            return Some(settled(observed, memory));
        }
        if taken > 0 && leak::listens(memory) {
            memory.does(Action::Listen);
            return Some(Stage::BeforePlate(plate));
        }
        Some(Stage::Plate(PlateChange::to(plate)))
    }

    /// Strikes out the last point: nobody listened between its readings and a hiss that is heard now, so
    /// that air may have come in while it was read.
    fn takes_back_the_last(&mut self, memory: &mut Memory) {
        if memory.points.pop().is_none() {
            return;
        }
        if let Ok(point) = PointNumber::try_from(self.number.saturating_sub(1)) {
            memory.thinks(format!(
                "Nobody listened after point {}: air may have leaked in while it was read, and it is taken again.",
                self.number.saturating_sub(1)
            ));
            memory.does(Action::Strike { what: Struck::Point(point) });
        }
    }

    /// Reports a knob that is no longer where it was set.
    fn knob_slipped(&self, observed: &Observation<'_>, memory: &mut Memory) {
        let set = self.knob_set.unwrap_or(1.0);
        let watched = memory.habits.settling == Practice::Kept;
        if watched && (observed.view.calibrator.knob - set).abs() > SLIPPED {
            memory.thinks(format!(
                "The knob was set to {:.1} % and stands at {:.1} %; a misreading explains {:.1} %.",
                100.0 * set,
                100.0 * observed.view.calibrator.knob,
                100.0 * SLIPPED
            ));
            memory.looks(Sight::Calibrator);
            memory.reports(
                FaultKind::KnobSlips,
                Response::Noted,
                "the knob slips; pen and column are read within seconds of each other",
            );
        }
    }

    /// Reads the pen, writes the reading and marks the chart.
    fn chart(&mut self, looks: u8, observed: &Observation<'_>, memory: &mut Memory) -> Stage {
        if observed.view.recorder.moving && waits_for_rest(looks, memory) {
            return Stage::Tapping(Tapping::default(), looks + 1);
        }
        self.chart = memory.reads_chart(observed.view.recorder.pen.unwrap_or_default());
        self.write(Field::Chart, format!("{:.1}", self.chart), memory);
        memory.does(Action::MarkChart { label: format!("{}", self.number) });
        if observed.view.manometer.display.is_some() {
            memory.looks(Sight::Display);
            return Stage::Display(0);
        }
        memory.looks_to_read(Sight::LeftLeg);
        Stage::Left(0)
    }

    /// Reads the leg that rose.
    fn left(&mut self, looks: u8, observed: &Observation<'_>, memory: &mut Memory) -> Stage {
        if observed.view.manometer.moving {
            self.creeping_in.push(observed.view.manometer.left.meniscus_in);
            if waits_for_rest(looks, memory) {
                return Stage::Left(looks + 1);
            }
            if memory.habits.settling == Practice::Kept {
                suspect::unrest(&self.creeping_in, memory);
            }
        }
        self.up_in = memory.reads_in(observed.view.manometer.left.meniscus_in);
        self.write(Field::Up, format!("{:.2}", self.up_in), memory);
        if memory.habits.legs != Legs::Both {
            return Stage::Read;
        }
        memory.looks_to_read(Sight::RightLeg);
        Stage::Right(0)
    }

    /// Reads the leg that fell.
    fn right(&mut self, looks: u8, observed: &Observation<'_>, memory: &mut Memory) -> Stage {
        if observed.view.manometer.moving && waits_for_rest(looks, memory) {
            return Stage::Right(looks + 1);
        }
        self.down_in = -memory.reads_in(observed.view.manometer.right.meniscus_in);
        self.write(Field::Down, format!("{:.2}", self.down_in), memory);
        let apart_in = (self.up_in - self.down_in).abs();
        // A scale off zero or an eye off level shifts both legs alike, which is not a fault of the
        // manometer.
        let fair = memory.habits.zeroing == Practice::Kept
            && memory.habits.eye_mm.abs() < 1.0
            && !memory.has_reported(FaultKind::ManometerScaleStuck);
        memory.thinks(format!(
            "One leg rose by {:.2} in, the other fell by {:.2} in; equal bores differ by less than {UNEQUAL_IN:.2} in.",
            self.up_in, self.down_in
        ));
        if self.number == 1 && apart_in > UNEQUAL_IN && fair {
            memory.reports(
                FaultKind::ManometerUnequalBores,
                Response::Corrected,
                "one leg moves further than the other; both are read and added",
            );
        }
        Stage::Read
    }

    /// Reads the display of an electronic manometer.
    fn display(&mut self, looks: u8, observed: &Observation<'_>, memory: &mut Memory) -> Stage {
        if observed.view.manometer.moving && waits_for_rest(looks, memory) {
            return Stage::Display(looks + 1);
        }
        let shows = observed.view.manometer.display.map_or(Shown::Nothing, |seen| seen.shows);
        let Shown::Reading(reading_in) = shows else {
            memory.gives_up("the display of the manometer shows no reading");
            return Stage::Settled;
        };
        self.sum(reading_in, memory);
        Stage::Knob
    }

    /// Records the point with its pressure difference.
    fn sum(&mut self, delta_h_in: f64, memory: &mut Memory) {
        memory.thinks(format!(
            "Point {}: {delta_h_in:.2} in at {:.1} divisions.",
            self.number, self.chart
        ));
        self.write(Field::DeltaH, format!("{delta_h_in:.2}"), memory);
        if let Some(last) =
            memory.points.last().filter(|_| memory.habits.settling == Practice::Kept)
        {
            suspect::follows(*last, ReadPoint { delta_h_in, chart: self.chart }, memory);
        }
        memory.points.push(ReadPoint { delta_h_in, chart: self.chart });
    }

    fn write(&self, field: fn(PointNumber) -> Field, text: String, memory: &mut Memory) {
        if let Ok(point) = PointNumber::try_from(self.number) {
            memory.writes(field(point), text);
        }
    }
}

/// Lets whatever moves come to rest, if that is the operator's habit.
fn waits_for_rest(looks: u8, memory: &mut Memory) -> bool {
    let waits = looks < 5 && memory.habits.settling == Practice::Kept;
    if waits {
        memory.waits(2.0);
    }
    waits
}

/// Waits for the flow to settle, and turns to what is inspected first.
fn settled(observed: &Observation<'_>, memory: &mut Memory) -> Stage {
    settle(observed, memory);
    if memory.habits.settling == Practice::Skipped {
        return Stage::Settled;
    }
    if let Some(check) = ZeroCheck::begin(observed, memory) {
        return Stage::Zero(check);
    }
    memory.looks(Sight::Tube);
    Stage::Tube
}

/// Waits for the flow to settle.
fn settle(observed: &Observation<'_>, memory: &mut Memory) {
    let seconds = match memory.habits.settling {
        Practice::Kept => SETTLE_S,
        Practice::Skipped => HURRIED_S,
    };
    let settling = Memory::left_of(seconds, memory.flow_changed, observed);
    // A blower that was stopped for the repair of a leak must warm up again.
    let warming = match memory.habits.warm_up {
        Practice::Kept => Memory::left_of(WARM_UP_S, memory.started, observed),
        Practice::Skipped => 0.0,
    };
    memory.waits(settling.max(warming));
}
