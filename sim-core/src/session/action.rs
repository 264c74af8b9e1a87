//! Everything that a person can do. Front ends, scripted operators and journals all use these
//! actions.

use serde::{Deserialize, Serialize};

use crate::field_book::Field;
use crate::rig::flow::plates::Plate;
use crate::rig::parts::{
    AirOpening, BlowerPlug, FilterSide, Gasket, GaugeFluid, Grip, Leg, LineCare, Nut, PartPlace,
    RigPart, TimerSwitch, Trip,
};

pub use super::checklist_item::{ChecklistItem, TickMark};
pub use super::fault_report::{FaultReport, SuspectedCause};
pub use super::sight::Sight;
pub use crate::fault::{FaultKind, FaultPlace, Response};
pub use crate::field_book::{Decision, Struck};
pub use crate::rig::parts::{BarometerReference, Exposure, OnOff, WasherSeat};

/// One thing done by a person.
///
/// Written as one line of JSON or RON, for example `{"turn_nut":{"nut":1,"quarter_turns":-8}}`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Action {
    /// Look at something, with the eye `eye_mm` above the level of what is read (-150 to 150 mm).
    /// Off level, parallax shifts a meniscus against the scale behind it.
    Look {
        /// What is looked at.
        at: Sight,
        /// Height of the eye above the level of what is read, mm.
        #[serde(default)]
        eye_mm: f64,
    },
    /// Listen to the blower and around the holder.
    Listen,

    /// Open the shelter's lid.
    OpenLid,
    /// Close the shelter's lid.
    CloseLid,
    /// Turn a nut by quarter turns; positive tightens (-12 to 12).
    TurnNut {
        /// Which nut.
        nut: Nut,
        /// Quarter turns, clockwise positive.
        quarter_turns: i8,
    },
    /// Put a nut's washer above or below the hold-down frame or the adapter plate, while the nut is
    /// off.
    SetWasher {
        /// Whose washer.
        nut: Nut,
        /// Where it goes.
        seat: WasherSeat,
    },
    /// Pick up a part. The hand holds one part. Lifting the calibrator or the manometer with the
    /// tube on the pressure tap pulls the tube off.
    Take {
        /// What is taken.
        part: RigPart,
    },
    /// Put what is in the hand somewhere.
    Put {
        /// Where it goes.
        place: PartPlace,
    },
    /// Fit a spare gasket from the case where one is missing, or flat and hard.
    FitGasket {
        /// Which gasket.
        gasket: Gasket,
    },

    /// Turn a valve of the manometer by quarter turns; positive opens (-4 to 4). Four quarters are
    /// fully open.
    TurnValve {
        /// On which leg.
        leg: Leg,
        /// Quarter turns, positive opens.
        quarter_turns: i8,
    },
    /// Slide the manometer's scale, inches, positive up (-2 to 2).
    SlideScale {
        /// By how much, in.
        by_in: f64,
    },
    /// Swing the hung manometer in its plane by some degrees, to bring it plumb (-20 to 20).
    SwingManometer {
        /// By how much, degrees.
        by_deg: f64,
    },
    /// Push the tube's free end onto the calibrator's pressure tap.
    ConnectTube,
    /// Pull the tube off the pressure tap.
    DisconnectTube,
    /// Smooth out a kink in the tube.
    StraightenTube,
    /// Shake water out of the tube, while it is off the pressure tap.
    DrainTube,
    /// Blow gently into the tube's free end and watch the water.
    BlowThrough,
    /// Add fluid to the hanging manometer from the bottle in its case, mm of level; negative takes some
    /// out with the dropper (-20 to 20). The zero has to be set again.
    AddFluid {
        /// By how much the level rises, mm.
        by_mm: f64,
    },
    /// Empty the manometer in the van, where it thaws, and fill it anew to about its mark. Its tubing is
    /// dried as well.
    ChangeFluid {
        /// What it is filled with.
        to: GaugeFluid,
    },

    /// Plug the sampler's cord into the mains outlet.
    PlugSampler,
    /// Unplug the sampler's cord from the mains outlet.
    UnplugSampler,
    /// Plug the blower in somewhere, or leave its plug loose.
    PlugBlower {
        /// Into what.
        into: BlowerPlug,
    },
    /// Set the switch of the switched mains outlet.
    SwitchLine {
        /// To on or off.
        to: OnOff,
    },
    /// Set the timer's switch.
    SwitchTimer {
        /// To on, off or auto.
        to: TimerSwitch,
    },
    /// Turn the flow controller's trim screw by turns; clockwise raises the flow (-5 to 5).
    TurnTrim {
        /// Turns, clockwise positive.
        turns: f64,
    },

    /// Turn the calibrator's knob to an opening: 1 is fully open, 0 fully closed.
    TurnKnob {
        /// Opening of the holes, 0 to 1.
        opening: f64,
    },
    /// Cover the calibrator's openings with the hand or tape, for the leak check.
    BlockOpenings,
    /// Uncover the calibrator's openings.
    FreeOpenings,

    /// Open the recorder's door.
    OpenDoor,
    /// Close the recorder's door.
    CloseDoor,
    /// Take the cap off the pen.
    UncapPen,
    /// Put the cap on the pen.
    CapPen,
    /// Lower the pen onto the paper.
    LowerPen,
    /// Lift the pen off the paper.
    LiftPen,
    /// Fit a fresh chart with the current hour under the pen.
    FitChart,
    /// Turn the chart's hub by a number of chart minutes, positive forwards (-720 to 720).
    TurnChart {
        /// By how many minutes.
        minutes: f64,
    },
    /// Turn the pen's zero screw: chart divisions, positive up (-5 to 5).
    SetPenZero {
        /// By how many chart divisions.
        by: f64,
    },
    /// Tap the recorder's case.
    Tap,
    /// Make a mark on the chart beside the trace.
    MarkChart {
        /// What is written beside it.
        label: String,
    },

    /// Put the thermometer somewhere.
    PlaceThermometer {
        /// In the shaded screen or in the sun.
        at: Exposure,
    },
    /// Set what the barometer's pointer shows.
    SetBarometer {
        /// Station pressure, or pressure reduced to sea level.
        to: BarometerReference,
    },

    /// Write a value into the field book, as typed. Writing an entry again strikes out the old one,
    /// which stays legible. Decisions are not written this way: see [`Action::Decide`].
    Write {
        /// Where it is written.
        field: Field,
        /// What is written.
        text: String,
    },
    /// Strike out an entry, or all entries of a point. What was written stays legible; whatever is
    /// written there afterwards is a new reading.
    Strike {
        /// What is struck out.
        what: Struck,
    },
    /// Decide about the calibration, the flow check or the sample, and write it into the field book.
    Decide {
        /// What is decided.
        decision: Decision,
        /// The reason, in words.
        #[serde(default)]
        reason: String,
    },
    /// Report something wrong: where it is, what is suspected, what was seen, and what was done
    /// about it.
    Report(FaultReport),
    /// Ask for help.
    AskHelp {
        /// The kind of help.
        topic: HelpTopic,
    },
    /// Pick up the filter, by its edges or with a thumb on its face. Where a run is ordered, the
    /// folder gives the next fresh one. [`Action::Take`] picks it up like any other part, with a
    /// thumb on its face.
    TakeFilter {
        /// How it is held.
        grip: Grip,
    },
    /// Hold the filter that is in the hand up to the light.
    HoldToLight,
    /// Turn the filter in the hand over.
    TurnFilter,
    /// Shift the filter on the holder until its margins are even, while no hold-down frame lies on
    /// it.
    CentreFilter,
    /// Fold the filter that is in the hand in half, with one side outwards.
    FoldFilter {
        /// Which side is out.
        out: FilterSide,
    },
    /// Lay another clean filter on the one on the holder, while the hold-down frame is off, to see
    /// whether the controller holds the flow.
    AddFilter,
    /// Take the topmost of the added filters off again and put it back into its envelope.
    RemoveAddedFilter,
    /// Move a tripper of the timer to a day and hour of its dial.
    SetTripper {
        /// Which.
        trip: Trip,
        /// Day of the week, 0 (Monday) to 6.
        weekday: u8,
        /// Hours since midnight, 0 to 24.
        hours: f64,
    },
    /// Tighten the screw of a tripper.
    FastenTripper {
        /// Which.
        trip: Trip,
    },
    /// Turn the timer's dial to a day and hour.
    SetDial {
        /// Day of the week, 0 (Monday) to 6.
        weekday: u8,
        /// Hours since midnight, 0 to 24.
        hours: f64,
    },
    /// Take the chart of the run off the recorder, to keep it.
    TakeChart,
    /// Leave the site; the sampler runs by its timer, and the trainee returns at the ordered time.
    LeaveSite,
    /// Let time pass. Time also passes without this action; it records a wait in the journal.
    Wait {
        /// For how long, s (0 to 7200).
        seconds: f64,
    },
    /// Take the plate out of a calibrator with fixed plates, and lay it in its slot of the case.
    TakeOutPlate,
    /// Put a plate from the case into a calibrator with fixed plates.
    PutInPlate {
        /// Which, by its number of holes: 18, 13, 10, 7 or 5.
        plate: Plate,
    },
    /// Switch an electronic manometer on or off.
    SwitchManometer {
        /// To on or off.
        to: OnOff,
    },
    /// Press the zero key of an electronic manometer: what it shows becomes zero, whatever its port is
    /// under.
    ZeroManometer,
    /// Put a fresh battery from the case into an electronic manometer.
    ChangeBattery,
    /// Leave the roof, because of the weather or because the work cannot go on.
    LeaveRoof,
    /// Sign the field book. The session ends.
    Sign,
    /// Take a nest or snow out of an opening of the shelter.
    ClearOpening {
        /// Which opening.
        opening: AirOpening,
    },
    /// Put the recorder's tubing in order, or fit a new piece.
    TendRecorderLine {
        /// What is done to it.
        how: LineCare,
    },
    /// Press the reset button of the outlet's ground-fault protection.
    ResetOutlet,
    /// Lay another extension cord, from the van.
    ChangeCord,
    /// Change the motor's brushes for new ones from the case.
    ChangeBrushes,
    /// Have what the eyes are on read out in words, where the scenario allows it.
    ReadInWords,
    /// Tick an item of the checklist, or strike out its tick, where the scenario allows a checklist.
    MarkChecklist {
        /// Which item.
        item: ChecklistItem,
        /// What it is marked as.
        to: TickMark,
    },
}

/// The kind of help that the trainee asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HelpTopic {
    /// What to do now.
    WhatNow,
    /// Why the next step is needed.
    Why,
    /// A demonstration of the next step.
    ShowMe,
    /// The calculations, done for the trainee.
    Sums,
    /// A plot of the trainee's points.
    Plot,
}
