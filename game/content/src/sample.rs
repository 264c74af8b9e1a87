//! A bench as seen, and its papers, for the tests of this package and of those above.

use sim_core::field_book::{Field, FieldBook, PointNumber};
use sim_core::rig::manometer::IceLook;
use sim_core::rig::parts::{BlowerPlug, FilterSide, GaugeFluid, PartPlace, TimerSwitch};
use sim_core::scenario::setup::{
    Certificate, CertificateHeading, CertificatePair, LastLine, SessionTerms, StationCard,
    WorkOrder,
};
use sim_core::session::SitePapers;
use sim_core::session::action::{Exposure, OnOff, Sight, WasherSeat};
use sim_core::session::view::run::{DialView, FilterView, RunStanding, RunView, TripperView};
use sim_core::session::view::{
    BarometerView, BlowerView, CalibratorView, LegView, ManometerView, MountingView, NutFeel,
    NutView, PowerView, RecorderView, SkyView, ThermometerView, TubeView, View,
};
use sim_core::time::{Date, Tick, TimeOfDay};

/// A bench with the calibrator on and the blower off, every reading between divisions.
pub fn view() -> View {
    let nut = NutView { feel: NutFeel::Snug, washer: WasherSeat::Above, quarter_turns: 8 };
    View {
        tick: Tick(0),
        date: Date::new(2026, 11, 24).expect("a day"),
        time: TimeOfDay::new(9, 5, 0).expect("a time"),
        seconds_left: Some(1500.0),
        focus: Sight::LeftLeg,
        eye_mm: 0.0,
        hand: None,
        sky: SkyView { sunny: true, thunder_since_s: None, wind: 0.2 },
        mounting: MountingView {
            lid_open: true,
            nuts: [nut; 4],
            places: [
                PartPlace::Ground,
                PartPlace::Case,
                PartPlace::Holder,
                PartPlace::Adapter,
                PartPlace::Hook,
            ],
            holder_gasket: None,
            calibrator_gasket: None,
            flat_gasket: None,
            inlet: None,
            exhaust: None,
        },
        power: PowerView {
            sampler_cord_in: true,
            blower_plug: BlowerPlug::LineOutlet,
            line_switch: OnOff::Off,
            timer_switch: TimerSwitch::Off,
            controller_lamp: false,
            trim_turns: 2.26,
            outlet_tripped: false,
            cord_damaged: false,
        },
        blower: BlowerView {
            rush: 0.0,
            loudness: 0.0,
            turning: None,
            pitch_hz: 0.0,
            wavering: false,
            hiss: None,
            hot_smell: false,
        },
        calibrator: CalibratorView {
            serial: None,
            knob: 0.62,
            blocked: false,
            edge: None,
            plates: None,
        },
        tube: TubeView {
            on_tap: true,
            kinked: false,
            drops: false,
            crack: None,
            loose: None,
            ice: false,
        },
        manometer: ManometerView {
            tilt_deg: 0.04,
            left: LegView { valve_quarters: 0, meniscus_in: 3.1417, rim_in: 3.2243 },
            right: LegView { valve_quarters: 1, meniscus_in: -3.0189, rim_in: -2.9391 },
            scale_in: 0.0,
            moving: false,
            bubble: false,
            fluid: GaugeFluid::Water,
            below_mark_mm: 0.0,
            ice: IceLook::None,
            dirty: false,
            display: None,
        },
        recorder: RecorderView {
            door_open: true,
            capped: false,
            on_paper: true,
            leaves_ink: Some(true),
            pen: Some(46.6123),
            moving: false,
            chart_hour: 9.083,
            printed_to: 100.0,
            scale: sim_core::rig::recorder::RecorderKind::SquareRoot,
            line_off: false,
            line_kinked: false,
            line_drops: false,
            arm_bent: false,
            marks: Vec::new(),
            trace: Vec::new(),
        },
        barometer: BarometerView { pointer_mmhg: 754.3712, set_to: None, certified: None },
        thermometer: ThermometerView {
            column_c: -3.7311,
            exposure: Exposure::Shade,
            moving: false,
            certified: None,
        },
        run: None,
    }
}

/// The same bench with a run ordered, the site not yet left to it.
pub fn with_a_run() -> View {
    let tripper = TripperView { weekday: Some(2), hours: 0.0, loose: None };
    let run = RunView {
        standing: RunStanding::Before,
        back: (Date::new(2026, 11, 26).expect("a day"), TimeOfDay::new(8, 0, 0).expect("a time")),
        timer: DialView {
            weekday: 1,
            hours: 9.083,
            on: tripper,
            off: TripperView { weekday: Some(3), ..tripper },
            meter_min: 12_345.61,
        },
        filter: FilterView {
            number: None,
            up: FilterSide::Rough,
            holes: None,
            seat: None,
            grip: None,
            grey: 0.0,
            damp: false,
            folded_out: None,
            in_envelope: true,
        },
        fresh_filters: 2,
        added_filters: 0,
        takes_fresh: false,
        weather: Vec::new(),
        kept_chart: None,
        masses: None,
        sample: None,
    };
    View { run: Some(std::boxed::Box::new(run)), ..view() }
}

/// What the papers of the sample bench are made of.
pub struct Box {
    station: StationCard,
    work_order: WorkOrder,
    certificates: Vec<Certificate>,
    terms: SessionTerms,
}

impl Default for Box {
    fn default() -> Self {
        Self::new()
    }
}

impl Box {
    /// Two certificates, the second with the pair at actual conditions on top.
    pub fn new() -> Self {
        let date = Date::new(2026, 3, 17).expect("a day");
        let first = Certificate {
            heading: CertificateHeading::Original,
            serial: "C-402".to_owned(),
            date,
            standard: CertificatePair { slope: 1.512341234, intercept: -0.012345678 },
            actual: CertificatePair { slope: 0.947002508, intercept: -0.007734567 },
            correlation: 0.999912345,
            actual_first: false,
        };
        let second =
            Certificate { heading: CertificateHeading::Copy, actual_first: true, ..first.clone() };
        Self {
            station: StationCard {
                name: "Mill Lane".to_owned(),
                elevation_m: 120.0,
                date,
                start: TimeOfDay::new(9, 0, 0).expect("a time"),
                sampler_serial: "S-21".to_owned(),
            },
            work_order: WorkOrder {
                number: "W 17".to_owned(),
                text: "Calibrate the sampler.".to_owned(),
                calibrator_serial: "C-402".to_owned(),
                target_flow_std_m3_min: 1.13,
                target_flow_actual_m3_min: None,
                flow_check: None,
                history: None,
                run_pressure_mmhg: 750.0,
                run_temperature_c: 12.0,
                points: 5,
                filter_in_place: false,
                averages: None,
                last_line: Some(LastLine { date, slope: 32.1, intercept: 1.3 }),
                run: None,
                calibrator: Default::default(),
                manometer: Default::default(),
            },
            certificates: vec![first, second],
            terms: SessionTerms::default(),
        }
    }

    /// As they lie there.
    pub fn papers(&self) -> SitePapers<'_> {
        SitePapers {
            station: &self.station,
            work_order: &self.work_order,
            certificates: &self.certificates,
            terms: &self.terms,
        }
    }
}

/// A field book with three points whose sums come out even.
pub fn book() -> FieldBook {
    let mut book = FieldBook::default();
    let mut write = |field, text: &str| book.write(Tick(0), field, text);
    write(Field::Pressure, "760");
    write(Field::Temperature, "24.85");
    write(Field::CertificateSlope, "2");
    write(Field::CertificateIntercept, "0");
    // dH = 4, 6.25 and 9 are roots of 2, 2.5 and 3: flows of 1, 1.25 and 1.5.
    for (number, leg, chart) in [(1, "2", "30"), (2, "3.125", "37.5"), (3, "4.5", "45")] {
        let point = PointNumber::try_from(number).expect("it is so");
        write(Field::Up(point), leg);
        write(Field::Down(point), leg);
        write(Field::Chart(point), chart);
    }
    book
}
