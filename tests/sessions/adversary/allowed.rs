//! Variants that are rightly judged like the careful session, and why.
//!
//! A variant that is neither noticed nor listed here is a hole in the rules; an entry that no variant
//! needs is out of date.

use sim_core::field_book::{Decision, Field};
use sim_core::rig::parts::{PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::{Action, FaultPlace, OnOff, Sight};

use super::variants::{Twist, Variant};

/// Why a kind of variant may go unnoticed.
pub struct Allowed {
    /// How the session was spoilt.
    pub twist: Twist,
    /// Which deeds.
    pub deeds: fn(&Action) -> bool,
    /// In which scenarios, by the beginning of their names; everywhere if there is none.
    pub scenarios: &'static [&'static str],
    /// Why it is right.
    pub why: &'static str,
}

impl Allowed {
    /// Whether it covers a variant of a scenario.
    pub fn covers(&self, scenario: &str, variant: &Variant) -> bool {
        let here = self.scenarios.iter().any(|name| scenario.starts_with(name));
        self.twist == variant.twist
            && (self.deeds)(&variant.deed)
            && (here || self.scenarios.is_empty())
    }
}

/// A report about a place.
macro_rules! at {
    ($place:pat) => {
        |action| matches!(action, Action::Report(report) if matches!(report.place, $place))
    };
}

/// Work that is rightly stopped before the line: what would have come later is not judged.
const STOPPED: &[&str] = &["02_", "09_", "11_", "12_", "16_"];

/// Work that ends with a run and its volume.
const RUNS: &[&str] = &["27_", "31_", "38_", "40_"];

/// The list.
pub const ALLOWED: &[Allowed] = &[
    Allowed {
        twist: Twist::Repeated,
        deeds: |action| {
            !matches!(action, Action::SlideScale { .. } | Action::SwingManometer { .. })
        },
        scenarios: &[],
        why: "done twice, it changes nothing, or the bench refuses it; only a movement adds up",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| matches!(action, Action::Tap | Action::Listen),
        scenarios: &[],
        why: "one of several: the pen rests after the others, and others listen for the same leak",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| match action {
            Action::Look { at, .. } => {
                !matches!(at, Sight::RoofEdge | Sight::RightLeg | Sight::Certificate(_))
            }
            _ => false,
        },
        scenarios: &[],
        why: "a look leaves nothing behind: what was there is judged by what is written or done, and \
              what is read belongs to another look that showed the same",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| matches!(action, Action::Look { at: Sight::RightLeg, .. }),
        scenarios: &["15_", "26_"],
        why: "the point is struck out and taken again",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| matches!(action, Action::Look { at: Sight::RoofEdge, .. }),
        scenarios: &["12_"],
        why: "without the right certificate nothing is handled on the roof",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| matches!(action, Action::Write { field: Field::Remarks, .. }),
        scenarios: &[],
        why: "remarks are free",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| *action == Action::Sign,
        scenarios: &[],
        why: "the session is signed when the list of deeds is at its end",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| matches!(action, Action::TurnValve { .. }),
        scenarios: &[],
        why: "shutting one valve on a standing column is a check of the manometer: it finds a leaking \
              valve, and whoever leaves it out misses that fault, which is judged as missed",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| {
            matches!(
                action,
                Action::OpenDoor
                    | Action::CloseDoor
                    | Action::UncapPen
                    | Action::CapPen
                    | Action::LiftPen
                    | Action::LowerPen
                    | Action::FitChart
            )
        },
        scenarios: &[],
        why: "one of several of its kind: what counts is how pen, chart and door are left",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| matches!(action, Action::SwitchTimer { to: TimerSwitch::Off }),
        scenarios: &[],
        why: "a cord that is unplugged makes the sampler dead whatever the timer does",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| {
            matches!(action, Action::SwitchTimer { to: TimerSwitch::Auto | TimerSwitch::On })
        },
        scenarios: &[],
        why: "where no run is ordered nothing depends on the timer; the last trial of the blower is \
              not asked for",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| {
            matches!(
                action,
                Action::Take { part: RigPart::Calibrator }
                    | Action::Put { place: PartPlace::Ground }
            )
        },
        scenarios: &[],
        why: "setting a part down on the way: it can also be carried straight to its place",
    },
    Allowed {
        twist: Twist::Earlier,
        deeds: |action| match action {
            Action::Write { field, .. } => matches!(
                field,
                Field::Temperature
                    | Field::Pressure
                    | Field::CheckTemperature
                    | Field::CheckPressure
                    | Field::Up(_)
                    | Field::CheckUp(_)
            ),
            _ => false,
        },
        scenarios: &[],
        why: "the instrument was looked at before, at the same flow, and showed the same",
    },
    Allowed {
        twist: Twist::Earlier,
        deeds: |action| matches!(action, Action::Write { field: Field::SetPoint, .. }),
        scenarios: &[],
        why: "the line was worked out by then: its intercept was only written after the set point",
    },
    Allowed {
        twist: Twist::Earlier,
        deeds: |action| match action {
            Action::Write { field, .. } => {
                matches!(
                    field,
                    Field::CheckFlow
                        | Field::CheckLineFlow
                        | Field::CheckDifference
                        | Field::HistoryPoint
                )
            }
            _ => false,
        },
        scenarios: &[],
        why: "every instrument of the check had been looked at by then",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| {
            matches!(
                action,
                Action::Write { .. }
                    | Action::Take { .. }
                    | Action::Put { .. }
                    | Action::TurnNut { .. }
                    | Action::BlowThrough
                    | Action::SlideScale { .. }
                    | Action::SetPenZero { .. }
                    | Action::ConnectTube
                    | Action::BlockOpenings
                    | Action::TurnKnob { .. }
                    | Action::MarkChart { .. }
            )
        },
        scenarios: STOPPED,
        why: "the work is rightly stopped before anything depends on it",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| {
            matches!(action, Action::Decide { .. } | Action::SwitchLine { to: OnOff::Off })
        },
        scenarios: &["11_"],
        why: "who hears thunder goes at once; nothing is worth staying for",
    },
    Allowed {
        twist: Twist::Earlier,
        deeds: |action| {
            matches!(action, Action::Decide { decision: Decision::CalibrationRefused, .. })
        },
        scenarios: &[],
        why: "what is refused needs no more points than those that showed why",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| matches!(action, Action::MarkChart { .. }),
        scenarios: &["18_", "24_"],
        why: "the last point of a calibration that is rightly refused",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| {
            matches!(
                action,
                Action::Write { .. }
                    | Action::Strike { .. }
                    | Action::TurnKnob { .. }
                    | Action::MarkChart { .. }
                    | Action::BlockOpenings
                    | Action::SwitchLine { to: OnOff::Off }
            )
        },
        scenarios: &["15_", "26_"],
        why: "a point that is struck out and taken again stands in its last taking; a nut may be \
              tightened while the blower runs, and the second leak check repeats the first",
    },
    Allowed {
        twist: Twist::Earlier,
        deeds: |action| match action {
            Action::Write { field, .. } => matches!(
                field,
                Field::Down(_)
                    | Field::Chart(_)
                    | Field::DeltaH(_)
                    | Field::PointFlow(_)
                    | Field::ChartTerm(_)
            ),
            _ => false,
        },
        scenarios: &["15_", "26_"],
        why: "the point had been read once before it was struck out and taken again",
    },
    Allowed {
        twist: Twist::Reported,
        deeds: at!(FaultPlace::Weather),
        scenarios: &["11_"],
        why: "thunder is a matter of the weather",
    },
    Allowed {
        twist: Twist::Reported,
        deeds: at!(FaultPlace::Manometer),
        scenarios: &["12_"],
        why: "it still lies in its case, off its zero: something is to be done about it",
    },
    Allowed {
        twist: Twist::Repeated,
        deeds: |action| matches!(action, Action::SlideScale { .. }),
        scenarios: STOPPED,
        why: "the work is rightly stopped before anything is read by the scale",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| matches!(action, Action::Look { at: Sight::Certificate(1), .. }),
        scenarios: &["29_"],
        why: "the certificate of the other standard, which is not used for this audit",
    },
    Allowed {
        twist: Twist::Reported,
        deeds: at!(FaultPlace::Certificate),
        scenarios: &["29_"],
        why: "the box holds the certificates of two standards, and a report without a cause may mean \
              that",
    },
    Allowed {
        twist: Twist::Reported,
        deeds: at!(FaultPlace::Recorder),
        scenarios: &["29_"],
        why: "it is the recorder that tells another flow than the standard",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| *action == Action::HoldToLight,
        scenarios: &["27_", "31_"],
        why: "the sheet of the run was held against the light before the flow check as well",
    },
    Allowed {
        twist: Twist::Earlier,
        deeds: |action| match action {
            Action::Write { field, .. } => {
                matches!(field, Field::StartChart | Field::MeterBefore | Field::MeterAfter)
            }
            _ => false,
        },
        scenarios: RUNS,
        why: "the instrument was looked at before and showed the same",
    },
    Allowed {
        twist: Twist::Earlier,
        deeds: |action| match action {
            Action::Write { field, .. } => matches!(field, Field::Volume | Field::Concentration),
            _ => false,
        },
        scenarios: RUNS,
        why: "at the desk results may be written in any order",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| matches!(action, Action::TurnNut { .. } | Action::PlugSampler),
        scenarios: &["27_", "38_", "40_"],
        why: "after the run the holder is empty, and no next run is ordered",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| *action == Action::TakeChart,
        scenarios: &["31_"],
        why: "fitting a fresh chart takes the old one off, and it is kept",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| matches!(action, Action::SetDial { .. }),
        scenarios: &["38_"],
        why: "the dial lost less than the half hour that it may be off while the cord was out",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| *action == Action::CloseLid,
        scenarios: &["40_"],
        why: "the lid is opened again for the next filter of the test, and shut before the run",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| {
            matches!(action, Action::BlockOpenings | Action::SwitchLine { to: OnOff::Off })
        },
        scenarios: &["34_"],
        why: "the second leak check of a plate repeats the first, and a nut may be tightened while the \
              blower runs",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| {
            matches!(
                action,
                Action::ConnectTube
                    | Action::DisconnectTube
                    | Action::SwitchManometer { to: OnOff::Off }
            )
        },
        scenarios: &["35_"],
        why: "the tube comes off for a look at the zero before each point, which one look fewer leaves \
              as it was; the leak check needs no tube, and an electronic manometer goes off by itself",
    },
    Allowed {
        twist: Twist::Omitted,
        deeds: |action| matches!(action, Action::Look { at: Sight::RightLeg, .. }),
        scenarios: &["41_"],
        why: "the standard was read once more while the controller was trimmed, at the same flow",
    },
    Allowed {
        twist: Twist::Earlier,
        deeds: |action| matches!(action, Action::Write { field: Field::CheckDown(_), .. }),
        scenarios: &["41_"],
        why: "the standard was read once more while the controller was trimmed, at the same flow",
    },
];
