//! Everything that a person can do. Front ends, scripted operators and journals speak in these.

use serde::{Deserialize, Serialize};

use crate::field_book::Field;
use crate::rig::parts::{
    BlowerPlug, FilterSide, Gasket, Grip, Leg, Nut, PartPlace, RigPart, TimerSwitch, Trip,
};

pub use crate::fault::{FaultPlace, Response};
pub use crate::rig::parts::{BarometerReference, Exposure, OnOff, WasherSeat};

/// One thing done by a person.
///
/// Written in lines as JSON or RON, for example `{"turn_nut":{"nut":1,"quarter_turns":-8}}`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Action {
    /// Bring something before the eyes, with the eye `eye_mm` above the level of what is read
    /// (-150 to 150 mm). Off level, a meniscus and a scale mark no longer lie on one line.
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
    /// Put a nut's washer above or below the frame or plate, while the nut is off.
    SetWasher {
        /// Whose washer.
        nut: Nut,
        /// Where it goes.
        seat: WasherSeat,
    },
    /// Take a part into the hand. The hand holds one part. Lifting the calibrator or the manometer
    /// with the tube on the tap pulls the tube off.
    Take {
        /// What is taken.
        part: RigPart,
    },
    /// Put what is in the hand somewhere.
    Put {
        /// Where it goes.
        place: PartPlace,
    },
    /// Fit a spare gasket from the case where one is missing.
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
    /// Push the tube's free end onto the calibrator's tap.
    ConnectTube,
    /// Pull the tube off the tap.
    DisconnectTube,
    /// Smooth out a kink in the tube.
    StraightenTube,
    /// Shake water out of the tube, while it is off the tap.
    DrainTube,
    /// Blow gently into the tube's free end and watch the water.
    BlowThrough,

    /// Put the sampler's cord into the mains outlet.
    PlugSampler,
    /// Pull the sampler's cord out of the mains outlet.
    UnplugSampler,
    /// Put the blower's plug somewhere, or leave it loose.
    PlugBlower {
        /// Into what.
        into: BlowerPlug,
    },
    /// Set the switch of the line outlet.
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
    /// Uncover them.
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
    /// Fit a fresh chart with its present hour under the pen.
    FitChart,
    /// Turn the chart's hub by some minutes of the chart, positive forwards (-720 to 720).
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
    /// Set the barometer's pointer to read what the dial is asked to show.
    SetBarometer {
        /// Station pressure, or pressure reduced to sea level.
        to: BarometerReference,
    },

    /// Write a value into the field book, as typed. An entry written again is struck out, not lost.
    Write {
        /// Where it is written.
        field: Field,
        /// What is written.
        text: String,
    },
    /// Report something found wrong: where, what, and what was done about it.
    Report(Remark),
    /// Ask for help.
    AskHelp {
        /// What for.
        topic: HelpTopic,
    },
    /// Take the filter into the hand, by its edges or with a thumb on its face. From the folder it is
    /// the next fresh one where a run is ordered. [`Action::Take`] takes it as any other part: with a
    /// thumb on its face.
    TakeFilter {
        /// How it is held.
        grip: Grip,
    },
    /// Hold the filter in the hand against the light.
    HoldToLight,
    /// Turn the filter in the hand over.
    TurnFilter,
    /// Shift the filter on the holder until its margins are even, while no frame lies on it.
    CentreFilter,
    /// Fold the filter in the hand in half, one side out.
    FoldFilter {
        /// Which side is out.
        out: FilterSide,
    },
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
    /// Leave the site; the sampler runs by its timer, and the trainee comes back as ordered.
    LeaveSite,
    /// Let time pass. Time passes without it too: it marks a wait in the journal.
    Wait {
        /// For how long, s (0 to 7200).
        seconds: f64,
    },
    /// Leave the roof, because of the weather or because the work cannot go on.
    LeaveRoof,
    /// Sign the field book. The session ends.
    Sign,
}

/// Something that can be looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sight {
    /// The whole station.
    Station,
    /// The work order.
    WorkOrder,
    /// The first certificate in the box, then the others.
    Certificate(u8),
    /// The sky.
    Sky,
    /// The edge of the roof and the ladder.
    RoofEdge,
    /// The barometer.
    Barometer,
    /// The thermometer.
    Thermometer,
    /// The holder with its nuts, washers and gasket.
    Holder,
    /// The filter.
    Filter,
    /// The calibrator: its plate with the serial number, knob, holes and tap.
    Calibrator,
    /// The tube.
    Tube,
    /// The whole manometer: hook, plumb, valves, scale.
    Manometer,
    /// The left leg, for reading.
    LeftLeg,
    /// The right leg, for reading.
    RightLeg,
    /// The recorder as a whole.
    Recorder,
    /// The pen's tip on the chart, for reading.
    Pen,
    /// The flow controller.
    Controller,
    /// The timer.
    Timer,
    /// Cords and plugs.
    Plugs,
    /// The blower in the cut-away.
    Blower,
    /// The watch.
    Watch,
    /// The sheet on which the station's logger prints the weather, hour by hour.
    WeatherSheet,
}

/// What help is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HelpTopic {
    /// What to do now.
    WhatNow,
    /// Why it is done.
    Why,
    /// The next step, shown.
    ShowMe,
    /// The sums done for the trainee.
    Sums,
    /// A plot of the trainee's own points.
    Plot,
}

/// A remark on something found wrong.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub struct Remark {
    /// Where it sits.
    pub place: FaultPlace,
    /// What it is, in the trainee's words.
    pub what: String,
    /// What was done about it.
    pub response: Response,
}
