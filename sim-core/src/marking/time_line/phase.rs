//! To which phase of the work an action belongs.

use crate::field_book::Field;
use crate::procedure::Phase;
use crate::procedure::evidence::{At, Evidence};
use crate::rig::parts::{Part, Place};
use crate::session::action::{Action, Sight};
use crate::session::facts::Facts;

/// When in the work an action takes place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stretch {
    /// Before the first reading.
    Before,
    /// From the first reading to the last.
    Points,
    /// After the last reading.
    After,
    /// After the site was left for the run.
    Back,
}

/// Finds the phases of the actions of a session, one after another.
pub(super) struct Told {
    first: usize,
    last: usize,
    left: usize,
    run_ordered: bool,
    /// Index of the last entry of a flow check, if there is one.
    checked: Option<usize>,
    /// Whether only a flow check is ordered, whose readings take the place of points.
    check_alone: bool,
    phase: Phase,
}

impl Told {
    pub fn of(evidence: &Evidence<'_>) -> Self {
        let points = evidence.points();
        let check_alone = evidence.setup.work_order.is_check_alone();
        let checks = || evidence.timeline().filter(|at| is_check(&at.moment.action));
        let first = match check_alone {
            true => checks().map(|at| at.index).next(),
            false => points.iter().map(|point| point.first.index).min(),
        };
        let checked = checks().map(|at| at.index).next_back();
        let last = match check_alone {
            true => checked,
            false => points.iter().map(|point| point.last.index).max(),
        };
        Self {
            first: first.unwrap_or(usize::MAX),
            last: last.unwrap_or(usize::MAX),
            left: evidence.leaving().map_or(usize::MAX, |at| at.index),
            run_ordered: evidence.end.run.is_some(),
            checked,
            check_alone,
            phase: Phase::Arrive,
        }
    }

    /// The phase of the next action; `None` if it belongs to the current one.
    pub fn next(&mut self, at: At<'_>) -> Option<Phase> {
        let stretch = self.stretch(at.index);
        let phase = match &at.moment.action {
            Action::Write { field, .. } => Some(of_field(*field, stretch)),
            Action::Look { at: sight, .. } => self.of_sight(*sight, stretch, at.facts()),
            // Warming up belongs to the work with the blower, whatever the hands did last.
            Action::Wait { seconds } if *seconds >= super::WAIT_FROM_S => {
                (stretch == Stretch::Before && at.facts().powered).then_some(Phase::Power)
            }
            action => of_hand(action, at.facts()).map(|hand| {
                let checking = self.checked.is_some_and(|checked| at.index < checked);
                match stretch {
                    Stretch::After if checking => Phase::Check,
                    _ => self.of_work(hand, stretch),
                }
            }),
        }?;
        let points = self.check_alone && phase == Phase::Check;
        self.phase = if points { Phase::Points } else { phase };
        let check = self.check_alone && phase == Phase::Points;
        Some(if check { Phase::Check } else { phase })
    }

    fn stretch(&self, index: usize) -> Stretch {
        match index {
            index if index > self.left => Stretch::Back,
            index if index < self.first => Stretch::Before,
            index if index <= self.last => Stretch::Points,
            _ => Stretch::After,
        }
    }

    /// A look begins a phase only if looking is the work of that phase.
    fn of_sight(&self, sight: Sight, stretch: Stretch, facts: &Facts) -> Option<Phase> {
        let arriving = self.phase == Phase::Arrive;
        match sight {
            Sight::WorkOrder
            | Sight::Certificate(_)
            | Sight::Sky
            | Sight::RoofEdge
            | Sight::Barometer
            | Sight::Thermometer => arriving.then_some(Phase::Arrive),
            Sight::LeftLeg | Sight::RightLeg | Sight::Pen => {
                let reading = facts.powered && facts.tube_on_tap && !facts.blocked;
                let points = matches!(stretch, Stretch::Points)
                    || stretch == Stretch::Before && self.phase == Phase::Points;
                (reading && points).then_some(Phase::Points)
            }
            _ => None,
        }
    }

    fn of_work(&self, hand: Hand, stretch: Stretch) -> Phase {
        match (stretch, hand) {
            (Stretch::Back, _) => Phase::Recover,
            (Stretch::After, Hand::Leaving | Hand::Run) if self.run_ordered => Phase::Load,
            // Putting the hold-down frame on the fresh filter and closing the lid.
            (Stretch::After, _) if self.phase == Phase::Load => Phase::Load,
            (Stretch::After, _) => Phase::Restore,
            (_, Hand::Air) => Phase::Arrive,
            (_, Hand::Mounting | Hand::Power(Mounted::Not)) => Phase::Strip,
            (_, Hand::Manometer) => Phase::Manometer,
            (_, Hand::Power(Mounted::Calibrator)) => Phase::Power,
            (Stretch::Before, Hand::Recorder) => Phase::Power,
            (_, Hand::Knob | Hand::Recorder) => Phase::Points,
            (_, Hand::Run | Hand::Leaving) => Phase::Load,
        }
    }
}

/// Whether the calibrator is on the adapter plate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Mounted {
    Calibrator,
    Not,
}

/// What the hands are working on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Hand {
    Air,
    Mounting,
    Manometer,
    Power(Mounted),
    Recorder,
    Knob,
    Run,
    Leaving,
}

/// What the hands are working on; `None` if the action does not point to a phase.
fn of_hand(action: &Action, facts: &Facts) -> Option<Hand> {
    let is_at = |part: Part, place: Place| facts.places.get(part as usize) == Some(&place);
    let on_plate = is_at(Part::Calibrator, Place::Adapter);
    let mounted = if on_plate { Mounted::Calibrator } else { Mounted::Not };
    let manometer_in_hand = is_at(Part::Manometer, Place::Hand);
    Some(match action {
        Action::PlaceThermometer { .. } | Action::SetBarometer { .. } => Hand::Air,
        Action::Take { part: Part::Manometer } => Hand::Manometer,
        Action::Put { .. } if manometer_in_hand => Hand::Manometer,
        Action::OpenLid
        | Action::CloseLid
        | Action::TurnNut { .. }
        | Action::SetWasher { .. }
        | Action::Take { .. }
        | Action::Put { .. }
        | Action::FitGasket { .. } => Hand::Mounting,
        Action::TurnValve { .. }
        | Action::SlideScale { .. }
        | Action::SwingManometer { .. }
        | Action::ConnectTube
        | Action::DisconnectTube
        | Action::StraightenTube
        | Action::DrainTube
        | Action::BlowThrough => Hand::Manometer,
        Action::PlugSampler
        | Action::UnplugSampler
        | Action::PlugBlower { .. }
        | Action::SwitchLine { .. }
        | Action::SwitchTimer { .. }
        | Action::BlockOpenings
        | Action::FreeOpenings => Hand::Power(mounted),
        Action::OpenDoor
        | Action::CloseDoor
        | Action::UncapPen
        | Action::CapPen
        | Action::LowerPen
        | Action::LiftPen
        | Action::FitChart
        | Action::TurnChart { .. }
        | Action::SetPenZero { .. } => Hand::Recorder,
        Action::TurnKnob { .. } | Action::Tap | Action::MarkChart { .. } if facts.powered => {
            Hand::Knob
        }
        Action::TurnTrim { .. }
        | Action::TakeFilter { .. }
        | Action::HoldToLight
        | Action::TurnFilter
        | Action::CentreFilter
        | Action::FoldFilter { .. }
        | Action::SetTripper { .. }
        | Action::FastenTripper { .. }
        | Action::SetDial { .. }
        | Action::TakeChart => Hand::Run,
        Action::LeaveSite => Hand::Leaving,
        _ => return None,
    })
}

/// Whether an action writes an entry of a flow check.
fn is_check(action: &Action) -> bool {
    matches!(action, Action::Write { field, .. }
        if of_field(*field, Stretch::After) == Phase::Check)
}

/// The phase in which a field is written.
fn of_field(field: Field, stretch: Stretch) -> Phase {
    match field {
        Field::CalibratorSerial
        | Field::CertificateSerial
        | Field::CertificateDate
        | Field::CertificateSlope
        | Field::CertificateIntercept
        | Field::Temperature
        | Field::Pressure => Phase::Arrive,
        Field::Up(_) | Field::Down(_) | Field::Chart(_) => Phase::Points,
        // The sum of both legs is often written right after them.
        Field::DeltaH(_) if stretch == Stretch::Points => Phase::Points,
        Field::DeltaH(_)
        | Field::PointFlow(_)
        | Field::ChartTerm(_)
        | Field::Expression
        | Field::Slope
        | Field::Intercept
        | Field::Correlation
        | Field::Decision => Phase::Sums,
        Field::TargetFlow | Field::SetPoint => Phase::SetPoint,
        Field::CheckTemperature
        | Field::CheckPressure
        | Field::CheckUp(_)
        | Field::CheckDown(_)
        | Field::CheckChart(_)
        | Field::CheckFlow
        | Field::CheckLineFlow
        | Field::CheckDifference
        | Field::CheckOutcome => Phase::Check,
        Field::FilterNumber | Field::MeterBefore | Field::StartChart => Phase::Load,
        Field::EndChart | Field::MeterAfter | Field::Custody | Field::NextFilterNumber => {
            Phase::Recover
        }
        Field::RunMinutes
        | Field::MeanChart
        | Field::PartChart(_)
        | Field::PartMinutes(_)
        | Field::RunPressure
        | Field::RunTemperature
        | Field::RunFlow
        | Field::Volume
        | Field::Concentration
        | Field::Validity => Phase::Volume,
        Field::Remarks => match stretch {
            Stretch::Before => Phase::Arrive,
            Stretch::Points => Phase::Points,
            Stretch::After => Phase::Sums,
            Stretch::Back => Phase::Volume,
        },
    }
}
