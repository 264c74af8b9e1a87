//! Everything in the scene that can be looked at or handled.

use sim_core::rig::parts::{Leg, Nut, Trip};

/// A thing in the scene.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Spot {
    /// The sky.
    Sky,
    /// The edge of the roof, and the ladder.
    RoofEdge,
    /// The work order on its nail.
    WorkOrder,
    /// The certificates beside the case.
    Certificates,
    /// The thermometer in its screen.
    Thermometer,
    /// The barometer.
    Barometer,
    /// The sampler's cord and the mains outlet.
    Cord,
    /// The timer's switch.
    Timer,
    /// The timer's dial, where a run is ordered.
    Dial,
    /// A tripper on the dial.
    Tripper(Trip),
    /// The shelter's lid.
    Lid,
    /// One of the four nuts with its washer.
    Nut(Nut),
    /// The hold-down frame.
    Frame,
    /// The filter.
    Filter,
    /// The filter holder with its gasket.
    Holder,
    /// The carrying case.
    Case,
    /// The roof beside the stand.
    Ground,
    /// The adapter plate.
    Adapter,
    /// The orifice calibrator's body.
    Calibrator,
    /// The calibrator's knob.
    Knob,
    /// The holes under the knob.
    Openings,
    /// The display of an electronic manometer.
    Display,
    /// The plates of a calibrator with fixed plates: their box, and the one in the calibrator.
    Plates,
    /// The whole manometer on its hook.
    Manometer,
    /// A valve of the manometer.
    Valve(Leg),
    /// A leg of the manometer, for reading.
    Leg(Leg),
    /// The sliding scale.
    Scale,
    /// The tube and its free end.
    Tube,
    /// The blower's plug.
    BlowerPlug,
    /// The line outlet with its switch.
    LineOutlet,
    /// The flow controller with its trim screw.
    Controller,
    /// The blower in the cut-away.
    Blower,
    /// The recorder's case.
    Recorder,
    /// The recorder's door.
    Door,
    /// The pen.
    Pen,
    /// The pen's cap, on the pen or in its corner of the case.
    Cap,
    /// The chart and its hub.
    Chart,
    /// The pen's zero screw.
    ZeroScrew,
    /// The chart of a run, once it is off the recorder.
    KeptChart,
    /// The station's logger with the sheet on which it prints the weather.
    WeatherSheet,
}

impl Spot {
    /// Everything, in the order of the work: this is also the order of the Tab key.
    pub fn all() -> Vec<Self> {
        let mut all = vec![
            Self::Sky,
            Self::RoofEdge,
            Self::WorkOrder,
            Self::Certificates,
            Self::Thermometer,
            Self::Barometer,
            Self::Timer,
            Self::Cord,
            Self::Lid,
        ];
        all.extend(Nut::ALL.map(Self::Nut));
        all.extend([
            Self::Frame,
            Self::Filter,
            Self::Holder,
            Self::Case,
            Self::Ground,
            Self::Adapter,
            Self::Calibrator,
            Self::Knob,
            Self::Openings,
            Self::Manometer,
            Self::Valve(Leg::Left),
            Self::Valve(Leg::Right),
            Self::Scale,
            Self::Leg(Leg::Left),
            Self::Leg(Leg::Right),
            Self::Tube,
            Self::BlowerPlug,
            Self::LineOutlet,
            Self::Controller,
            Self::Blower,
            Self::Door,
            Self::Recorder,
            Self::Pen,
            Self::Cap,
            Self::Chart,
            Self::ZeroScrew,
            Self::Dial,
            Self::Tripper(Trip::On),
            Self::Tripper(Trip::Off),
            Self::KeptChart,
            Self::WeatherSheet,
            Self::Plates,
            Self::Display,
        ]);
        all
    }

    /// Its name, as shown and spoken.
    pub fn name(self) -> String {
        let name = match self {
            Self::Sky => "sky",
            Self::RoofEdge => "roof edge and ladder",
            Self::WorkOrder => "work order",
            Self::Certificates => "certificates",
            Self::Thermometer => "thermometer",
            Self::Barometer => "barometer",
            Self::Cord => "sampler's cord",
            Self::Timer => "timer",
            Self::Lid => "lid of the shelter",
            Self::Nut(nut) => return format!("nut {}", nut.number()),
            Self::Frame => "hold-down frame",
            Self::Filter => "filter",
            Self::Holder => "filter holder",
            Self::Case => "carrying case",
            Self::Ground => "roof beside the stand",
            Self::Adapter => "adapter plate",
            Self::Calibrator => "calibrator",
            Self::Knob => "calibrator's knob",
            Self::Openings => "calibrator's openings",
            Self::Plates => "calibrator's plates",
            Self::Display => "manometer's display",
            Self::Manometer => "manometer",
            Self::Valve(Leg::Left) => "left valve",
            Self::Valve(Leg::Right) => "right valve",
            Self::Leg(Leg::Left) => "left leg of the manometer",
            Self::Leg(Leg::Right) => "right leg of the manometer",
            Self::Scale => "manometer's scale",
            Self::Tube => "tube",
            Self::BlowerPlug => "blower's plug",
            Self::LineOutlet => "switched mains outlet",
            Self::Controller => "flow controller",
            Self::Blower => "blower",
            Self::Recorder => "flow recorder",
            Self::Door => "recorder's door",
            Self::Pen => "pen",
            Self::Cap => "pen's cap",
            Self::Chart => "chart",
            Self::ZeroScrew => "pen's zero screw",
            Self::Dial => "timer's dial",
            Self::Tripper(Trip::On) => "on tripper",
            Self::Tripper(Trip::Off) => "off tripper",
            Self::KeptChart => "chart of the run",
            Self::WeatherSheet => "weather sheet",
        };
        name.to_owned()
    }
}
