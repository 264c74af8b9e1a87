//! One careful session, and every way of spoiling it in one place.

use sim_core::control_chart::ChartReading;
use sim_core::field_book::{Decision, Field};
use sim_core::session::action::{Action, FaultPlace, FaultReport, Response, Sight, SuspectedCause};
use sim_core::time::Tick;

/// What is done, and when.
pub type Step = (Tick, Action);

/// How a session is spoilt.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Twist {
    /// A deed is left out; an entry stays blank.
    Omitted,
    /// A deed is done twice.
    Repeated,
    /// An entry is written before what it depends on.
    Earlier,
    /// Something is reported that nothing has shown.
    Reported,
    /// A report names a cause that makes no sense.
    Nonsense,
    /// A decision is turned into its opposite.
    Contradicted,
}

/// A spoilt session.
#[derive(Debug, Clone)]
pub struct Variant {
    /// How it was spoilt.
    pub twist: Twist,
    /// The place of the deed that was changed, or of the one that was added, counted from 1.
    pub place: usize,
    /// The deed that was changed, or the one that was added.
    pub deed: Action,
    /// Everything that is done.
    pub steps: Vec<Step>,
}

/// The places at which something can be reported.
const PLACES: [FaultPlace; 13] = [
    FaultPlace::Manometer,
    FaultPlace::Tube,
    FaultPlace::Calibrator,
    FaultPlace::Certificate,
    FaultPlace::Mounting,
    FaultPlace::Blower,
    FaultPlace::FlowController,
    FaultPlace::Recorder,
    FaultPlace::Barometer,
    FaultPlace::Thermometer,
    FaultPlace::Weather,
    FaultPlace::Filter,
    FaultPlace::Timer,
];

/// Every variant of a careful session.
pub fn variants(steps: &[Step]) -> Vec<Variant> {
    let mut all = Vec::new();
    for (place, (tick, deed)) in steps.iter().enumerate() {
        let mut changed = |twist: Twist, steps: Vec<Step>| {
            all.push(Variant { twist, place: place + 1, deed: deed.clone(), steps });
        };
        let with = |action: Action| {
            let mut steps = steps.to_vec();
            steps[place].1 = action;
            steps
        };
        let mut fewer = steps.to_vec();
        fewer.remove(place);
        changed(Twist::Omitted, fewer);
        let mut more = steps.to_vec();
        more.insert(place + 1, (*tick, deed.clone()));
        changed(Twist::Repeated, more);
        if let Some(before) = needed(steps, place) {
            let mut moved = steps.to_vec();
            moved.remove(place);
            moved.insert(before, (steps[before].0, deed.clone()));
            changed(Twist::Earlier, moved);
        }
        match deed {
            Action::Report(report) => {
                let cause = SuspectedCause::SomethingElse("the moon".to_owned());
                let report = FaultReport { cause, seen: "it is full".to_owned(), ..report.clone() };
                changed(Twist::Nonsense, with(Action::Report(report)));
            }
            Action::Decide { decision, reason } => {
                let decision = opposite(*decision);
                let against = Action::Decide { decision, reason: reason.clone() };
                changed(Twist::Contradicted, with(against));
            }
            _ => {}
        }
    }
    let end = steps.len() - 1;
    for place in PLACES {
        let deed = Action::Report(FaultReport {
            place,
            cause: SuspectedCause::NotKnownYet,
            seen: "it looks odd".to_owned(),
            shown_by: Vec::new(),
            response: Response::Noted,
        });
        let mut more = steps.to_vec();
        more.insert(end, (steps[end].0, deed.clone()));
        all.push(Variant { twist: Twist::Reported, place: end + 1, deed, steps: more });
    }
    all
}

/// The opposite of a decision.
const fn opposite(decision: Decision) -> Decision {
    match decision {
        Decision::CalibrationAccepted { .. } => Decision::CalibrationRefused,
        Decision::CalibrationRefused => Decision::CalibrationAccepted { line_moved: false },
        Decision::CheckPassed => {
            Decision::CheckFailed { calibrate_again: true, not_valid_since: None }
        }
        Decision::CheckFailed { .. } => Decision::CheckPassed,
        Decision::SampleValid => Decision::SampleNotValid,
        Decision::SampleNotValid => Decision::SampleValid,
        Decision::HistoryRead { shows: ChartReading::InControl, .. } => Decision::HistoryRead {
            shows: ChartReading::Drift,
            calibrate_again: true,
            in_doubt_since: None,
        },
        Decision::HistoryRead { .. } => Decision::HistoryRead {
            shows: ChartReading::InControl,
            calibrate_again: false,
            in_doubt_since: None,
        },
    }
}

/// The place of what an entry depends on: the last look at its instrument, or the last entry that it
/// is worked out from.
fn needed(steps: &[Step], place: usize) -> Option<usize> {
    let field = match &steps[place].1 {
        Action::Write { field, .. } => *field,
        Action::Decide { decision, .. } => decision.field(),
        _ => return None,
    };
    let last = |wanted: &dyn Fn(&Action) -> bool| {
        steps[..place].iter().rposition(|(_, action)| wanted(action))
    };
    let looked =
        |sight: Sight| last(&|action| matches!(action, Action::Look { at, .. } if *at == sight));
    let wrote =
        |of: Field| last(&|action| matches!(action, Action::Write { field, .. } if *field == of));
    let read_for = |sight: Sight, of: Field| {
        let wrote = wrote(of)?;
        steps[..wrote]
            .iter()
            .rposition(|(_, action)| matches!(action, Action::Look { at, .. } if *at == sight))
    };
    match field {
        Field::Up(_) | Field::CheckUp(_) => looked(Sight::LeftLeg),
        Field::Down(_) | Field::CheckDown(_) => looked(Sight::RightLeg),
        Field::Chart(_)
        | Field::CheckChart(_)
        | Field::StartChart
        | Field::SecondFilterChart
        | Field::ThirdFilterChart
        | Field::EndChart => looked(Sight::Pen),
        Field::SecondFilterChange => read_for(Sight::Pen, Field::SecondFilterChart),
        Field::ThirdFilterChange | Field::FiltersHeld => {
            read_for(Sight::Pen, Field::ThirdFilterChart)
        }
        Field::Temperature | Field::CheckTemperature => looked(Sight::Thermometer),
        Field::Pressure | Field::CheckPressure => looked(Sight::Barometer),
        Field::MeterBefore | Field::MeterAfter => looked(Sight::Timer),
        Field::DeltaH(point) | Field::PointFlow(point) => {
            read_for(Sight::RightLeg, Field::Down(point))
        }
        Field::ChartTerm(point) => read_for(Sight::Pen, Field::Chart(point)),
        Field::Slope | Field::Intercept | Field::Correlation => {
            last(&|action| matches!(action, Action::Write { field: Field::Chart(_), .. }))
        }
        Field::SetPoint => wrote(Field::Intercept),
        Field::Decision => {
            last(&|action| matches!(action, Action::Write { field: Field::Chart(_), .. }))
        }
        Field::CheckFlow | Field::CheckLineFlow | Field::CheckDifference | Field::HistoryPoint => {
            last(&|action| matches!(action, Action::Write { field: Field::CheckChart(_), .. }))
        }
        Field::MeanChart | Field::RunMinutes => last(&|action| *action == Action::LeaveSite),
        Field::Volume => wrote(Field::MeanChart),
        Field::Concentration => wrote(Field::Volume),
        Field::Validity => last(&|action| *action == Action::LeaveSite),
        _ => None,
    }
}
