//! To which phase of the work an action belongs.

use crate::field_book::Field;
use crate::procedure::WorkPhase;
use crate::procedure::evidence::{At, Evidence};
use crate::rig::parts::{PartPlace, RigPart};
use crate::session::action::{Action, Sight};
use crate::session::ground_truth::GroundTruth;

/// Idle time counts as a wait from this length on, s (CHOSEN: longer than hands take from one thing
/// to the next).
pub(super) const WAIT_FROM_S: f64 = 30.0;

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
pub(super) struct PhaseTracker {
    first: usize,
    last: usize,
    left: usize,
    run_ordered: bool,
    /// Index of the last entry of a flow check, if there is one.
    checked: Option<usize>,
    /// Whether only a flow check is ordered, whose readings take the place of points.
    check_alone: bool,
    phase: WorkPhase,
}

impl PhaseTracker {
    pub fn of(evidence: &Evidence<'_>) -> Self {
        let points = evidence.points();
        let check_alone = evidence.setup.work_order.is_check_alone();
        let checks = || evidence.indexed_events().filter(|at| is_check(&at.event.action));
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
            phase: WorkPhase::Arrive,
        }
    }

    /// The phase of the next action; `None` if it belongs to the current one.
    pub fn next(&mut self, at: At<'_>) -> Option<WorkPhase> {
        let stretch = self.stretch(at.index);
        let phase = match &at.event.action {
            Action::Write { field, .. } => Some(of_field(*field, stretch)),
            Action::Look { at: sight, .. } => self.of_sight(*sight, stretch, at.facts()),
            // Warming up belongs to the work with the blower, whatever the hands did last.
            Action::Wait { seconds } if *seconds >= WAIT_FROM_S => {
                (stretch == Stretch::Before && at.facts().powered).then_some(WorkPhase::Power)
            }
            action => of_hand(action, at.facts()).map(|hand| {
                let checking = self.checked.is_some_and(|checked| at.index < checked);
                match stretch {
                    Stretch::After if checking => WorkPhase::Check,
                    _ => self.of_work(hand, stretch),
                }
            }),
        }?;
        let points = self.check_alone && phase == WorkPhase::Check;
        self.phase = if points { WorkPhase::Points } else { phase };
        let check = self.check_alone && phase == WorkPhase::Points;
        Some(if check { WorkPhase::Check } else { phase })
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
    fn of_sight(&self, sight: Sight, stretch: Stretch, facts: &GroundTruth) -> Option<WorkPhase> {
        let arriving = self.phase == WorkPhase::Arrive;
        match sight {
            Sight::WorkOrder
            | Sight::Certificate(_)
            | Sight::Sky
            | Sight::RoofEdge
            | Sight::Barometer
            | Sight::Thermometer => arriving.then_some(WorkPhase::Arrive),
            Sight::LeftLeg | Sight::RightLeg | Sight::Display | Sight::Pen => {
                let reading = facts.powered && facts.tube_on_tap && !facts.blocked;
                let points = matches!(stretch, Stretch::Points)
                    || stretch == Stretch::Before && self.phase == WorkPhase::Points;
                (reading && points).then_some(WorkPhase::Points)
            }
            _ => None,
        }
    }

    fn of_work(&self, hand: Hand, stretch: Stretch) -> WorkPhase {
        match (stretch, hand) {
            (Stretch::Back, _) => WorkPhase::Recover,
            (Stretch::After, Hand::Leaving | Hand::Run) if self.run_ordered => WorkPhase::Load,
            // Putting the hold-down frame on the fresh filter and closing the lid.
            (Stretch::After, _) if self.phase == WorkPhase::Load => WorkPhase::Load,
            (Stretch::After, _) => WorkPhase::Restore,
            (_, Hand::Air) => WorkPhase::Arrive,
            (_, Hand::Mounting | Hand::Power(Mounted::Not)) => WorkPhase::Strip,
            (_, Hand::Manometer) => WorkPhase::Manometer,
            (_, Hand::Power(Mounted::Calibrator)) => WorkPhase::Power,
            (Stretch::Before, Hand::Recorder) => WorkPhase::Power,
            (_, Hand::Knob | Hand::Recorder) => WorkPhase::Points,
            (_, Hand::Run | Hand::Leaving) => WorkPhase::Load,
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
fn of_hand(action: &Action, facts: &GroundTruth) -> Option<Hand> {
    let is_at = |part: RigPart, place: PartPlace| facts.places.get(part as usize) == Some(&place);
    let on_plate = is_at(RigPart::Calibrator, PartPlace::Adapter);
    let mounted = if on_plate { Mounted::Calibrator } else { Mounted::Not };
    let manometer_in_hand = is_at(RigPart::Manometer, PartPlace::Hand);
    Some(match action {
        Action::PlaceThermometer { .. } | Action::SetBarometer { .. } => Hand::Air,
        Action::Take { part: RigPart::Manometer } => Hand::Manometer,
        Action::Put { .. } if manometer_in_hand => Hand::Manometer,
        Action::OpenLid
        | Action::CloseLid
        | Action::TurnNut { .. }
        | Action::SetWasher { .. }
        | Action::Take { .. }
        | Action::Put { .. }
        | Action::FitGasket { .. }
        | Action::ClearOpening { .. }
        | Action::ChangeBrushes => Hand::Mounting,
        Action::TurnValve { .. }
        | Action::SlideScale { .. }
        | Action::SwingManometer { .. }
        | Action::ConnectTube
        | Action::DisconnectTube
        | Action::StraightenTube
        | Action::DrainTube
        | Action::BlowThrough
        | Action::AddFluid { .. }
        | Action::ChangeFluid { .. }
        | Action::SwitchManometer { .. }
        | Action::ZeroManometer
        | Action::ChangeBattery => Hand::Manometer,
        Action::PlugSampler
        | Action::UnplugSampler
        | Action::PlugBlower { .. }
        | Action::SwitchLine { .. }
        | Action::SwitchTimer { .. }
        | Action::BlockOpenings
        | Action::FreeOpenings
        | Action::ResetOutlet
        | Action::ChangeCord => Hand::Power(mounted),
        Action::OpenDoor
        | Action::CloseDoor
        | Action::UncapPen
        | Action::CapPen
        | Action::LowerPen
        | Action::LiftPen
        | Action::FitChart
        | Action::TurnChart { .. }
        | Action::SetPenZero { .. }
        | Action::TendRecorderLine { .. } => Hand::Recorder,
        Action::TurnKnob { .. } | Action::Tap | Action::MarkChart { .. } if facts.powered => {
            Hand::Knob
        }
        Action::TakeOutPlate | Action::PutInPlate { .. } if mounted == Mounted::Calibrator => {
            Hand::Knob
        }
        Action::TakeOutPlate | Action::PutInPlate { .. } => Hand::Mounting,
        Action::TurnTrim { .. }
        | Action::TakeFilter { .. }
        | Action::HoldToLight
        | Action::TurnFilter
        | Action::CentreFilter
        | Action::FoldFilter { .. }
        | Action::AddFilter
        | Action::RemoveAddedFilter
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
        if of_field(*field, Stretch::After) == WorkPhase::Check)
}

/// The phase in which a field is written.
fn of_field(field: Field, stretch: Stretch) -> WorkPhase {
    match field {
        Field::CalibratorSerial
        | Field::CertificateSerial
        | Field::CertificateDate
        | Field::CertificateSlope
        | Field::CertificateIntercept
        | Field::Temperature
        | Field::Pressure => WorkPhase::Arrive,
        Field::Up(_) | Field::Down(_) | Field::Chart(_) => WorkPhase::Points,
        // The sum of both legs is often written right after them.
        Field::DeltaH(_) if stretch == Stretch::Points => WorkPhase::Points,
        Field::DeltaH(_)
        | Field::PointFlow(_)
        | Field::ChartTerm(_)
        | Field::Expression
        | Field::Slope
        | Field::Intercept
        | Field::Correlation
        | Field::Decision => WorkPhase::Sums,
        Field::TargetFlow | Field::SetPoint => WorkPhase::SetPoint,
        Field::CheckTemperature
        | Field::CheckPressure
        | Field::CheckUp(_)
        | Field::CheckDown(_)
        | Field::CheckChart(_)
        | Field::CheckFlow
        | Field::CheckLineFlow
        | Field::CheckDifference
        | Field::CheckOutcome
        | Field::HistoryPoint
        | Field::HistoryReading => WorkPhase::Check,
        Field::FilterNumber
        | Field::MeterBefore
        | Field::StartChart
        | Field::SecondFilterChart
        | Field::ThirdFilterChart
        | Field::SecondFilterChange
        | Field::ThirdFilterChange
        | Field::FiltersHeld => WorkPhase::Load,
        Field::EndChart | Field::MeterAfter | Field::Custody | Field::NextFilterNumber => {
            WorkPhase::Recover
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
        | Field::Validity => WorkPhase::Volume,
        Field::Remarks => match stretch {
            Stretch::Before => WorkPhase::Arrive,
            Stretch::Points => WorkPhase::Points,
            Stretch::After => WorkPhase::Sums,
            Stretch::Back => WorkPhase::Volume,
        },
    }
}
