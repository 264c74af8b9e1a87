//! Random hands: every action, with sense, at its limits, and with no sense at all.

use sim_core::field_book::{Decision, Field, PointNumber, Struck};
use sim_core::noise::Stream;
use sim_core::rig::flow::plates::Plate;
use sim_core::rig::parts::{
    AirOpening, BlowerPlug, FilterSide, Gasket, GaugeFluid, Grip, Leg, LineCare, Nut, PartPlace,
    RigPart, TimerSwitch, Trip,
};
use sim_core::session::action::{
    Action, BarometerReference, ChecklistItem, Exposure, FaultKind, FaultPlace, FaultReport,
    HelpTopic, OnOff, Response, Sight, SuspectedCause, TickMark, WasherSeat,
};
use sim_core::time::Date;

/// Numbers that no dial shows.
const WILD: [f64; 14] = [
    f64::NAN,
    f64::INFINITY,
    f64::NEG_INFINITY,
    f64::MAX,
    f64::MIN,
    f64::MIN_POSITIVE,
    5e-324,
    -5e-324,
    0.0,
    -0.0,
    1e-300,
    -1e9,
    1e18,
    0.1 + 0.2,
];

const SIGHTS: [Sight; 23] = [
    Sight::Station,
    Sight::WorkOrder,
    Sight::Certificate(0),
    Sight::Certificate(255),
    Sight::Sky,
    Sight::RoofEdge,
    Sight::Barometer,
    Sight::Thermometer,
    Sight::Holder,
    Sight::Filter,
    Sight::Calibrator,
    Sight::Tube,
    Sight::Manometer,
    Sight::LeftLeg,
    Sight::RightLeg,
    Sight::Recorder,
    Sight::Pen,
    Sight::Controller,
    Sight::Timer,
    Sight::Plugs,
    Sight::Blower,
    Sight::Watch,
    Sight::WeatherSheet,
];

const PLACES: [PartPlace; 6] = [
    PartPlace::Case,
    PartPlace::Ground,
    PartPlace::Hand,
    PartPlace::Holder,
    PartPlace::Adapter,
    PartPlace::Hook,
];

/// Random hands.
#[derive(Debug)]
pub struct Hands(Stream);

impl Hands {
    /// The hands of this seed.
    pub fn new(seed: u64) -> Self {
        Self(Stream::new(seed, "random hands"))
    }

    /// A whole number below `count`.
    pub fn below(&mut self, count: usize) -> usize {
        (self.0.unit() * count as f64) as usize
    }

    /// One of these.
    pub fn one<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.below(of.len())]
    }

    /// True so often out of a hundred.
    pub fn percent(&mut self, often: usize) -> bool {
        self.below(100) < often
    }

    /// A number between two others, mostly.
    pub fn number(&mut self, low: f64, high: f64) -> f64 {
        match self.below(20) {
            0 => self.one(&WILD),
            1 => self.one(&[low, high, -low, -high, low * 1.001, high * 1.001]),
            _ => low + (high - low) * self.0.unit(),
        }
    }

    /// Quarter turns, within a wrist's reach, mostly.
    fn quarters(&mut self, most: i8) -> i8 {
        if self.percent(5) {
            self.one(&[i8::MIN, i8::MAX, most + 1, -most - 1, 0])
        } else {
            let reach = usize::from(most.unsigned_abs());
            self.below(2 * reach + 1) as i8 - most
        }
    }

    /// What somebody writes.
    fn text(&mut self) -> String {
        match self.below(12) {
            0 => String::new(),
            1 => "x".repeat(2001),
            2 => "µ".repeat(self.below(2001)),
            3 => "bell \u{7}".to_owned(),
            4 => "two\nlines \"quoted\" \\ 📈".to_owned(),
            5 => {
                self.one(&["NaN", "inf", "-inf", "1e999", "-1e308", "5e-324", "0", "-0"]).to_owned()
            }
            6 => self.one(&["accepted", "refused: no", "OC-318", "2026-04-14", "1,5"]).to_owned(),
            7 => format!("{}", self.number(-1e3, 1e3)),
            _ => format!("{:.2}", 60.0 * self.0.unit()),
        }
    }

    fn field(&mut self) -> Field {
        let number = 1 + self.below(usize::from(PointNumber::MAX)) as u8;
        let point = PointNumber::try_from(number).unwrap();
        let fields = [
            Field::CalibratorSerial,
            Field::CertificateSerial,
            Field::CertificateDate,
            Field::CertificateSlope,
            Field::CertificateIntercept,
            Field::Temperature,
            Field::Pressure,
            Field::Up(point),
            Field::Down(point),
            Field::DeltaH(point),
            Field::Chart(point),
            Field::PointFlow(point),
            Field::ChartTerm(point),
            Field::Expression,
            Field::Slope,
            Field::Intercept,
            Field::Correlation,
            Field::Decision,
            Field::TargetFlow,
            Field::SetPoint,
            Field::Remarks,
            Field::PartChart(point),
            Field::PartMinutes(point),
            Field::CheckUp(point),
            Field::CheckDown(point),
            Field::CheckChart(point),
            self.one(&Field::CHECK),
            self.one(&Field::RUN),
            Field::NextFilterNumber,
        ];
        self.one(&fields)
    }

    fn struck(&mut self) -> Struck {
        let number = 1 + self.below(usize::from(PointNumber::MAX)) as u8;
        let point = PointNumber::try_from(number).unwrap();
        if self.percent(50) { Struck::Point(point) } else { Struck::Field(self.field()) }
    }

    fn decision(&mut self) -> Decision {
        let not_valid_since = Date::new(2026, 3, 2).ok();
        self.one(&[
            Decision::CalibrationAccepted { line_moved: false },
            Decision::CalibrationAccepted { line_moved: true },
            Decision::CalibrationRefused,
            Decision::CheckPassed,
            Decision::CheckFailed { calibrate_again: true, not_valid_since },
            Decision::SampleValid,
            Decision::SampleNotValid,
        ])
    }

    fn report(&mut self) -> FaultReport {
        let kind = self.one(FaultKind::ALL);
        let (place, cause) = match self.below(4) {
            0 => (self.one(&FaultPlace::ALL), SuspectedCause::NotKnownYet),
            1 => (self.one(&FaultPlace::ALL), SuspectedCause::SomethingElse(self.text())),
            // Now and then a cause is named at a place where it cannot be.
            2 => (self.one(&FaultPlace::ALL), SuspectedCause::Known(kind)),
            _ => (kind.place(), SuspectedCause::Known(kind)),
        };
        let responses =
            [Response::Repaired, Response::Corrected, Response::Rejected, Response::Noted];
        let (seen, response) = (self.text(), self.one(&responses));
        FaultReport { place, cause, seen, shown_by: Vec::new(), response }
    }

    /// The next action. The two that end a session come once in some thousands.
    pub fn action(&mut self) -> Action {
        if self.below(4000) == 0 {
            return if self.percent(50) { Action::Sign } else { Action::LeaveRoof };
        }
        match self.below(17) {
            0..4 => self.mounting(),
            4..8 => self.gauges(),
            8..12 => self.flow(),
            12..16 => self.book_and_eyes(),
            _ => self.run(),
        }
    }

    fn mounting(&mut self) -> Action {
        let nut = self.one(&Nut::ALL);
        let gasket = self.one(&[Gasket::Holder, Gasket::Calibrator]);
        match self.below(12) {
            10 => {
                let opening = self.one(&[AirOpening::Inlet, AirOpening::Exhaust]);
                Action::ClearOpening { opening }
            }
            11 => self.upkeep(),
            0 => Action::OpenLid,
            1 => Action::CloseLid,
            2 => {
                let seat = self.one(&[WasherSeat::Above, WasherSeat::Below]);
                Action::SetWasher { nut, seat }
            }
            3 => Action::FitGasket { gasket },
            4 | 5 => Action::Take { part: self.one(&RigPart::ALL) },
            6 | 7 => Action::Put { place: self.one(&PLACES) },
            _ => Action::TurnNut { nut, quarter_turns: self.quarters(12) },
        }
    }

    fn upkeep(&mut self) -> Action {
        let cares = [LineCare::PushOn, LineCare::Straighten, LineCare::Drain, LineCare::Renew];
        match self.below(14) {
            0 => Action::ResetOutlet,
            1 => Action::ChangeCord,
            2 => Action::ChangeBrushes,
            3 => Action::SwitchManometer { to: self.one(&[OnOff::On, OnOff::Off]) },
            4 => Action::ZeroManometer,
            5 => Action::ChangeBattery,
            6 => Action::TakeOutPlate,
            7 => Action::PutInPlate { plate: self.one(&Plate::ALL) },
            8 => Action::AddFilter,
            9 => Action::RemoveAddedFilter,
            _ => Action::TendRecorderLine { how: self.one(&cares) },
        }
    }

    fn gauges(&mut self) -> Action {
        match self.below(18) {
            0 | 1 => {
                let leg = self.one(&[Leg::Left, Leg::Right]);
                Action::TurnValve { leg, quarter_turns: self.quarters(4) }
            }
            2 => Action::SlideScale { by_in: self.number(-2.0, 2.0) },
            3 => Action::SwingManometer { by_deg: self.number(-20.0, 20.0) },
            4 => Action::ConnectTube,
            5 => Action::DisconnectTube,
            6 => Action::StraightenTube,
            7 => Action::DrainTube,
            8 => Action::BlowThrough,
            9 => Action::PlaceThermometer { at: self.one(&[Exposure::Shade, Exposure::Sun]) },
            10 => {
                let to = self.one(&[BarometerReference::Station, BarometerReference::SeaLevel]);
                Action::SetBarometer { to }
            }
            11 => Action::AddFluid { by_mm: self.number(-20.0, 20.0) },
            12 => Action::ChangeFluid { to: self.one(&GaugeFluid::ALL) },
            _ => self.recorder(),
        }
    }

    fn recorder(&mut self) -> Action {
        match self.below(12) {
            0 | 1 => Action::OpenDoor,
            2 => Action::CloseDoor,
            3 => Action::UncapPen,
            4 => Action::CapPen,
            5 => Action::LowerPen,
            6 => Action::LiftPen,
            7 => Action::FitChart,
            8 => Action::TurnChart { minutes: self.number(-720.0, 720.0) },
            9 => Action::SetPenZero { by: self.number(-5.0, 5.0) },
            10 => Action::MarkChart { label: self.text() },
            _ => Action::Tap,
        }
    }

    fn flow(&mut self) -> Action {
        match self.below(10) {
            0 => Action::PlugSampler,
            1 => Action::UnplugSampler,
            2 => {
                let into = [BlowerPlug::Controller, BlowerPlug::LineOutlet, BlowerPlug::Loose];
                Action::PlugBlower { into: self.one(&into) }
            }
            3 => Action::SwitchLine { to: self.one(&[OnOff::On, OnOff::Off]) },
            4 => {
                let to = self.one(&[TimerSwitch::On, TimerSwitch::Off, TimerSwitch::Auto]);
                Action::SwitchTimer { to }
            }
            5 => Action::TurnTrim { turns: self.number(-5.0, 5.0) },
            6 => Action::BlockOpenings,
            7 => Action::FreeOpenings,
            _ => Action::TurnKnob { opening: self.number(0.0, 1.0) },
        }
    }

    fn run(&mut self) -> Action {
        let side = self.one(&[FilterSide::Rough, FilterSide::Smooth]);
        let trip = self.one(&[Trip::On, Trip::Off]);
        let days = if self.percent(5) { 256 } else { 7 };
        let weekday = self.below(days) as u8;
        match self.below(12) {
            0..3 => Action::TakeFilter { grip: self.one(&[Grip::Edges, Grip::Face]) },
            3 => Action::HoldToLight,
            4 => Action::TurnFilter,
            5 => Action::CentreFilter,
            6 => Action::FoldFilter { out: side },
            7 => Action::SetTripper { trip, weekday, hours: self.number(0.0, 24.0) },
            8 => Action::FastenTripper { trip },
            9 => Action::SetDial { weekday, hours: self.number(0.0, 24.0) },
            10 => Action::TakeChart,
            _ => Action::LeaveSite,
        }
    }

    fn book_and_eyes(&mut self) -> Action {
        match self.below(10) {
            8 => Action::Strike { what: self.struck() },
            9 => Action::Decide { decision: self.decision(), reason: self.text() },
            0 => Action::Listen,
            1 => Action::Report(self.report()),
            2 => {
                let topics = [
                    HelpTopic::WhatNow,
                    HelpTopic::Why,
                    HelpTopic::ShowMe,
                    HelpTopic::Sums,
                    HelpTopic::Plot,
                ];
                Action::AskHelp { topic: self.one(&topics) }
            }
            3 => Action::Wait { seconds: self.number(0.0, 7200.0) },
            6 => match self.below(2) {
                0 => Action::ReadInWords,
                _ => Action::MarkChecklist {
                    item: self.one(&ChecklistItem::ALL),
                    to: self.one(&[TickMark::Ticked, TickMark::Open]),
                },
            },
            4 | 5 => Action::Write { field: self.field(), text: self.text() },
            _ => Action::Look { at: self.one(&SIGHTS), eye_mm: self.number(-150.0, 150.0) },
        }
    }
}
