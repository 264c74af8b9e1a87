//! What each action is like: whether hands reach near the rotor, whether it makes the sampler safe,
//! which place it shows or touches, and how long hands and eyes are busy with it.
//!
//! There is one list of all actions, and it has no arm for "all others": a new action does not
//! compile until somebody has said what it is like. Rules, the clock of a session and the judging of
//! reports all ask here.
//!
//! The times are CHOSEN: the pace of somebody who knows the work and does not hurry.
//!
//! | what | s |
//! |---|---|
//! | to carry the calibrator from one place to another | 20 |
//! | to carry the manometer | 16 |
//! | to carry the adapter plate, the hold-down frame or the filter | 8 |
//! | to turn a nut or a valve | ½ for a quarter turn |
//! | to turn a knob, a screw or the dial | ½ to 1 for a turn |
//! | to take a plate out of the calibrator, or to put one in | 10 |
//! | to press a key of the electronic manometer | 1 to 2 |
//! | to change its battery | 30 |
//! | to read a leg, the pen or a dial | 4 |
//! | the same again, when only the eye moves | ½ |
//! | to read a paper | 10 |
//! | to listen | 3 |
//! | to write an entry or a mark | 3 |
//! | to plug in or unplug | 3 |
//! | to tap | 1 |
//! | to fill the manometer anew in the van | 300 |
//! | to ask for help, to sign, to leave | 0 |
//! | to clear a nest or snow out of an opening | 60 |
//! | to push on, straighten or drain the recorder's tubing | 10 |
//! | to fit new tubing to the recorder | 120 |
//! | to press the outlet's button | 2 |
//! | to fetch another cord from the van and lay it | 300 |
//! | to change the motor's brushes | 600 |
//! | to have read out what the eyes are on | 1 |
//! | to tick an item of the checklist | 1 |
//! | to wait | as long as it is waited |

use super::action::{Action, FaultPlace, Sight};
use crate::rig::parts::{BlowerPlug, LineCare, OnOff, PartPlace, RigPart, TimerSwitch};
use crate::time::TICKS_PER_SECOND;

/// What an action is like.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ActionTraits {
    /// Where the hands are.
    pub reach: Reach,
    /// What it means for safety.
    pub effect: ActionEffect,
    /// What it shows or touches.
    pub shows: &'static [FaultPlace],
    /// How long hands and eyes are busy with it.
    pub time: HandTime,
}

/// Where the hands are during an action.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// Nowhere near the rotor: on the instruments, the cords, the lid, or on nothing.
    Outside,
    /// On the holder, above the rotor.
    Inside,
    /// On the holder if this part lies there.
    From(RigPart),
    /// On the holder if the part in the hand goes there.
    Onto(PartPlace),
}

/// What an action means for safety.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ActionEffect {
    /// Eyes, ears or the pen only: nothing is handled.
    Observes,
    /// It leaves the sampler safer: power off, a plug pulled, a lid or a door closed, the pen lifted.
    MakesSafe,
    /// Something is handled.
    Handles,
}

/// How long hands and eyes are busy with an action.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HandTime {
    /// So many seconds.
    Seconds(f64),
    /// As long as it takes to look at this; less where the eyes are on it already.
    Looking(Sight),
    /// Half of what it takes to carry what is in the hand.
    Carrying,
}

/// Seconds for a look when only the eye moves.
const EYE_MOVES_S: f64 = 0.5;
/// Shortest time for a turn of anything, s.
const SHORTEST_TURN_S: f64 = 0.5;

impl HandTime {
    /// Ticks for which hands and eyes are busy, with this in the hand and the eyes on `focus`
    /// before the action.
    pub fn ticks(self, hand: Option<RigPart>, focus: Sight) -> u64 {
        let seconds = match self {
            Self::Seconds(seconds) => seconds,
            Self::Looking(at) if at == focus => EYE_MOVES_S,
            Self::Looking(at) => looking_s(at),
            Self::Carrying => hand.map_or(0.0, lifting_s),
        };
        // A refused action may hold any number; `as` takes what is not one for zero.
        (seconds.max(0.0) * TICKS_PER_SECOND as f64).round() as u64
    }
}

/// Seconds to look at something for the first time.
const fn looking_s(at: Sight) -> f64 {
    match at {
        Sight::WorkOrder | Sight::Certificate(_) | Sight::WeatherSheet => 10.0,
        Sight::LeftLeg
        | Sight::RightLeg
        | Sight::Display
        | Sight::Pen
        | Sight::Barometer
        | Sight::Thermometer
        | Sight::Timer => 4.0,
        Sight::Station
        | Sight::Sky
        | Sight::RoofEdge
        | Sight::Holder
        | Sight::Filter
        | Sight::Calibrator
        | Sight::Tube
        | Sight::Manometer
        | Sight::Recorder
        | Sight::Controller
        | Sight::Plugs
        | Sight::Blower => 2.0,
        Sight::Watch => 1.0,
    }
}

/// Seconds to pick a part up, and again to put it down.
const fn lifting_s(part: RigPart) -> f64 {
    match part {
        RigPart::Calibrator => 10.0,
        RigPart::Manometer => 8.0,
        RigPart::Adapter | RigPart::Frame | RigPart::Filter => 4.0,
    }
}

/// Seconds for so many turns of a knob or screw, at this many seconds a turn.
fn turning(turns: f64, seconds_a_turn: f64) -> HandTime {
    HandTime::Seconds((turns.abs() * seconds_a_turn).max(SHORTEST_TURN_S))
}

/// An action of the eyes, the ears or the pen.
const fn observes(seconds: f64, shows: &'static [FaultPlace]) -> ActionTraits {
    let time = HandTime::Seconds(seconds);
    ActionTraits { reach: Reach::Outside, effect: ActionEffect::Observes, shows, time }
}

/// An action of the hands, away from the rotor.
const fn handles(seconds: f64, shows: &'static [FaultPlace]) -> ActionTraits {
    handled(HandTime::Seconds(seconds), shows)
}

/// An action of the hands, away from the rotor, that takes this time.
const fn handled(time: HandTime, shows: &'static [FaultPlace]) -> ActionTraits {
    ActionTraits { reach: Reach::Outside, effect: ActionEffect::Handles, shows, time }
}

impl ActionTraits {
    /// The same with the hands there.
    const fn reaching(self, reach: Reach) -> Self {
        Self { reach, ..self }
    }

    /// The same as an action that makes the sampler safer.
    const fn safer(self) -> Self {
        Self { effect: ActionEffect::MakesSafe, ..self }
    }

    /// The same, safer only if this is so.
    const fn safer_if(self, safe: bool) -> Self {
        if safe { self.safer() } else { self }
    }
}

impl Action {
    /// What this action is like.
    pub fn traits(&self) -> ActionTraits {
        use FaultPlace as At;
        match *self {
            Self::Look { at, .. } => {
                ActionTraits { time: HandTime::Looking(at), ..observes(0.0, at.shows()) }
            }
            Self::Listen => observes(3.0, &[]),
            Self::ReadInWords | Self::MarkChecklist { .. } => observes(1.0, &[]),
            Self::Write { .. } | Self::Strike { .. } => observes(3.0, &[]),
            Self::Decide { .. } | Self::Report(_) => observes(3.0, &[]),
            Self::AskHelp { .. } | Self::Sign | Self::LeaveSite | Self::LeaveRoof => {
                observes(0.0, &[])
            }
            Self::Wait { seconds } => observes(seconds, &[]),

            // The lid swings beside the holder: a hand on it is not near the rotor.
            Self::OpenLid => handles(3.0, &[]),
            Self::CloseLid => handles(3.0, &[]).safer(),
            Self::TurnNut { quarter_turns, .. } => {
                let nut = handled(turning(f64::from(quarter_turns), 0.5), &[At::Mounting]);
                // A nut is tightened from above the plate; loosened, it frees what covers the rotor.
                nut.reaching(if quarter_turns < 0 { Reach::Inside } else { Reach::Outside })
            }
            Self::SetWasher { .. } => handles(3.0, &[At::Mounting]).reaching(Reach::Inside),
            Self::FitGasket { .. } => handles(10.0, &[At::Mounting]).reaching(Reach::Inside),
            Self::Take { part } => {
                handles(lifting_s(part), part.shows()).reaching(Reach::From(part))
            }
            Self::Put { place } => handled(HandTime::Carrying, &[]).reaching(Reach::Onto(place)),

            Self::TurnValve { quarter_turns, .. } => {
                handled(turning(f64::from(quarter_turns), 0.5), &[At::Manometer])
            }
            Self::SlideScale { .. } | Self::SwingManometer { .. } => handles(2.0, &[At::Manometer]),
            Self::ConnectTube | Self::StraightenTube => handles(4.0, &[At::Tube]),
            Self::DisconnectTube => handles(3.0, &[At::Tube]),
            Self::DrainTube => handles(5.0, &[At::Tube]),
            Self::BlowThrough => handles(2.0, &[At::Manometer, At::Tube]),
            Self::AddFluid { .. } => handles(5.0, &[At::Manometer]),
            Self::ChangeFluid { .. } => handles(300.0, &[At::Manometer, At::Tube]),

            Self::PlugSampler => handles(3.0, &[]),
            Self::UnplugSampler => handles(3.0, &[]).safer(),
            Self::PlugBlower { into } => {
                handles(3.0, &[]).safer_if(matches!(into, BlowerPlug::Loose))
            }
            Self::SwitchLine { to } => handles(1.0, &[]).safer_if(matches!(to, OnOff::Off)),
            Self::SwitchTimer { to } => {
                handles(1.0, &[At::Timer]).safer_if(matches!(to, TimerSwitch::Off))
            }
            Self::TurnTrim { turns } => handled(turning(turns, 1.0), &[At::FlowController]),

            Self::TurnKnob { .. } => handles(1.0, &[]),
            Self::BlockOpenings | Self::FreeOpenings => handles(1.0, &[]),

            Self::OpenDoor => handles(1.0, &[At::Recorder]),
            Self::CloseDoor | Self::LiftPen => handles(1.0, &[At::Recorder]).safer(),
            Self::LowerPen | Self::Tap => handles(1.0, &[At::Recorder]),
            Self::UncapPen => handles(2.0, &[At::Recorder]),
            Self::CapPen => handles(2.0, &[At::Recorder]).safer(),
            Self::FitChart => handles(15.0, &[At::Recorder]),
            Self::TakeChart => handles(5.0, &[At::Recorder]),
            Self::TurnChart { .. } => handles(2.0, &[At::Recorder]),
            Self::SetPenZero { by } => handled(turning(by, 1.0), &[At::Recorder]),
            Self::MarkChart { .. } => handles(3.0, &[At::Recorder]),

            Self::PlaceThermometer { .. } => handles(5.0, &[At::Thermometer]),
            Self::SetBarometer { .. } => handles(3.0, &[At::Barometer]),

            Self::TakeFilter { .. } => handles(lifting_s(RigPart::Filter), &[At::Filter])
                .reaching(Reach::From(RigPart::Filter)),
            Self::HoldToLight | Self::FoldFilter { .. } => handles(3.0, &[At::Filter]),
            Self::TurnFilter => handles(2.0, &[At::Filter]),
            Self::CentreFilter => handles(3.0, &[At::Filter]).reaching(Reach::Inside),
            // Out of the envelope and onto the holder, or back.
            Self::AddFilter | Self::RemoveAddedFilter => {
                handles(2.0 * lifting_s(RigPart::Filter), &[At::Filter]).reaching(Reach::Inside)
            }
            Self::SetTripper { .. } | Self::SetDial { .. } => handles(3.0, &[At::Timer]),
            Self::FastenTripper { .. } => handles(2.0, &[At::Timer]),

            Self::SwitchManometer { .. } => handles(1.0, &[At::Manometer]),
            Self::ZeroManometer => handles(2.0, &[At::Manometer]),
            Self::ChangeBattery => handles(30.0, &[At::Manometer]),

            // Without its plate, the calibrator is open down to the fan.
            Self::TakeOutPlate | Self::PutInPlate { .. } => {
                handles(10.0, &[At::Calibrator]).reaching(Reach::From(RigPart::Calibrator))
            }
            // Both openings are outside of the holder: under the eaves and behind the grill.
            Self::ClearOpening { .. } => handles(60.0, &[At::Blower]),
            Self::TendRecorderLine { how } => {
                let seconds = if how == LineCare::Renew { 120.0 } else { 10.0 };
                handles(seconds, &[At::Recorder])
            }
            Self::ResetOutlet => handles(2.0, &[At::Blower]),
            Self::ChangeCord => handles(300.0, &[At::Blower]),
            Self::ChangeBrushes => handles(600.0, &[At::Blower]).reaching(Reach::Inside),
        }
    }
}

impl RigPart {
    /// The place that is handled with this part.
    const fn shows(self) -> &'static [FaultPlace] {
        match self {
            Self::Frame | Self::Adapter => &[FaultPlace::Mounting],
            Self::Filter => &[FaultPlace::Filter],
            Self::Calibrator => &[FaultPlace::Calibrator],
            Self::Manometer => &[FaultPlace::Manometer],
        }
    }
}

impl Sight {
    /// The places about which a look at this reveals something.
    ///
    /// A weak or unsteady blower also shows on column and pen; gusts are visible where they move
    /// the water, a front on thermometer and barometer.
    pub const fn shows(self) -> &'static [FaultPlace] {
        use FaultPlace as At;
        match self {
            Self::Station => &[At::Weather, At::Blower],
            Self::Sky | Self::RoofEdge => &[At::Weather],
            Self::WorkOrder | Self::Watch | Self::WeatherSheet => &[],
            Self::Certificate(_) => &[At::Certificate],
            Self::Barometer => &[At::Barometer, At::Weather],
            Self::Thermometer => &[At::Thermometer, At::Weather],
            // The gap under the lid is seen with the holder.
            Self::Holder => &[At::Mounting, At::Filter, At::Blower],
            Self::Filter => &[At::Filter],
            Self::Calibrator => &[At::Calibrator, At::Mounting],
            Self::Tube => &[At::Tube],
            Self::Manometer => &[At::Manometer, At::Tube],
            Self::LeftLeg => &[At::Manometer, At::Blower, At::Weather],
            Self::RightLeg => &[At::Manometer, At::Weather],
            Self::Display => &[At::Manometer, At::Blower, At::Weather],
            Self::Recorder => &[At::Recorder],
            Self::Pen => &[At::Recorder, At::Blower],
            Self::Controller => &[At::FlowController],
            Self::Timer => &[At::Timer],
            Self::Plugs => &[At::Blower, At::FlowController, At::Timer],
            Self::Blower => &[At::Mounting, At::Blower],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::parts::{Leg, Nut};

    fn seconds(action: &Action, hand: Option<RigPart>, focus: Sight) -> f64 {
        action.traits().time.ticks(hand, focus) as f64 / TICKS_PER_SECOND as f64
    }

    fn takes(action: &Action) -> f64 {
        seconds(action, None, Sight::Station)
    }

    #[test]
    fn times_follow_the_table() {
        let [nut, ..] = Nut::ALL;
        let look = |at| Action::Look { at, eye_mm: 0.0 };
        assert!((takes(&Action::TurnNut { nut, quarter_turns: 8 }) - 4.0).abs() < 1e-9);
        assert!((takes(&Action::TurnNut { nut, quarter_turns: -1 }) - 0.5).abs() < 1e-9);
        assert!((takes(&look(Sight::LeftLeg)) - 4.0).abs() < 1e-9);
        assert!((seconds(&look(Sight::LeftLeg), None, Sight::LeftLeg) - 0.5).abs() < 1e-9);
        assert!((takes(&look(Sight::Certificate(1))) - 10.0).abs() < 1e-9);
        let take = Action::Take { part: RigPart::Calibrator };
        let put = Action::Put { place: PartPlace::Adapter };
        let carried = takes(&take) + seconds(&put, Some(RigPart::Calibrator), Sight::Station);
        assert!((carried - 20.0).abs() < 1e-9);
        assert!((takes(&Action::Wait { seconds: 90.0 }) - 90.0).abs() < 1e-9);
        assert!(
            (takes(&Action::TurnValve { leg: Leg::Left, quarter_turns: -4 }) - 2.0).abs() < 1e-9
        );
        for never in [f64::NAN, f64::NEG_INFINITY, -5.0] {
            assert_eq!(Action::Wait { seconds: never }.traits().time.ticks(None, Sight::Sky), 0);
        }
    }

    #[test]
    fn hands_are_near_the_rotor_only_where_it_can_be_reached() {
        let [nut, ..] = Nut::ALL;
        let reach = |action: Action| action.traits().reach;
        assert_eq!(reach(Action::OpenLid), Reach::Outside);
        assert_eq!(reach(Action::TurnNut { nut, quarter_turns: 2 }), Reach::Outside);
        assert_eq!(reach(Action::TurnNut { nut, quarter_turns: -2 }), Reach::Inside);
        assert_eq!(reach(Action::CentreFilter), Reach::Inside);
        assert_eq!(
            reach(Action::TakeFilter { grip: crate::rig::parts::Grip::Edges }),
            Reach::From(RigPart::Filter)
        );
    }
}
