//! The bench on which a question is set up: a session of a scenario that is written for it, so that
//! every instrument, paper and view is the bench's own.

use super::draw::Draw;
use super::error::DrawError;
use crate::air::atmosphere;
use crate::rig::parts::{BlowerPlug, Leg, Nut, PartPlace, RigPart, TimerSwitch};
use crate::session::Session;
use crate::session::action::{Action, OnOff};
use crate::text::printable;
use crate::time::Date;
use crate::units::PA_PER_MMHG;

/// Invented stations.
const STATIONS: [&str; 12] = [
    "Alder Weir",
    "Brickfield Yard",
    "Cooper's Landing Roof",
    "Dyer's Lock",
    "Ferry Stairs",
    "Glasshouse Bank",
    "Hopfield Terrace",
    "Linseed Wharf",
    "Mill Race",
    "Orchard Gate",
    "Ropewalk End",
    "Saltpan Steps",
];
/// Highest station, m: about as high as any that the scenarios have.
const HIGHEST_M: f64 = 2300.0;
/// How far the day's pressure is from that of the standard atmosphere, mmHg.
const WEATHER_MMHG: f64 = 12.0;

/// What is written into the scenario beside what is always there.
#[derive(Debug, Clone, Default)]
pub(super) struct Written {
    /// Air temperature, degrees Celsius; drawn if left out.
    pub(super) temperature_c: Option<f64>,
    /// Faults, as a scenario lists them.
    pub(super) faults: String,
    /// Entries of the scenario, such as a run, each with its comma.
    pub(super) entries: String,
}

/// The site of a question.
#[derive(Debug, Clone)]
pub(super) struct Site {
    /// Height above sea level, m.
    pub(super) elevation_m: f64,
    /// Station pressure, mmHg.
    pub(super) pressure_mmhg: f64,
    /// Air temperature, degrees Celsius.
    pub(super) temperature_c: f64,
    /// Today.
    pub(super) date: Date,
    /// Serial number of the calibrator.
    pub(super) serial: String,
}

/// Draws a site and begins a session there.
pub(super) fn begin(draw: &mut Draw, written: &Written) -> Result<(Session, Site), DrawError> {
    let elevation_m = draw.written(2.0, HIGHEST_M, 0);
    let usual_mmhg = atmosphere::pressure_pa(elevation_m) / PA_PER_MMHG;
    let site = Site {
        elevation_m,
        pressure_mmhg: usual_mmhg + draw.between(-WEATHER_MMHG, WEATHER_MMHG),
        temperature_c: draw.between(4.0, 34.0),
        date: first_day()?.later(draw.below(900) as i64),
        serial: format!("OC-{}", 100 + draw.below(900)),
    };
    let site = Site { temperature_c: written.temperature_c.unwrap_or(site.temperature_c), ..site };
    let text = scenario(draw, &site, written);
    let session = Session::begin_unrecorded(&text, draw.seed());
    let session = session.map_err(|error| DrawError::new(printable(&format!("{error:?}"))))?;
    Ok((session, site))
}

/// The earliest day of a question.
fn first_day() -> Result<Date, DrawError> {
    Date::new(2025, 1, 6).map_err(DrawError::new)
}

/// The scenario of a question.
fn scenario(draw: &mut Draw, site: &Site, written: &Written) -> String {
    let Site { elevation_m, pressure_mmhg, temperature_c, date, serial } = site;
    let name = draw.one_of(STATIONS);
    let (hour, minute) = (7 + draw.below(9), draw.below(60));
    let sampler = 1000 + draw.below(9000);
    let order = draw.below(10_000);
    let certified = date.earlier(20 + draw.below(300) as i64);
    let humidity = draw.between(30.0, 85.0);
    let sun = if draw.happens(0.6) { draw.between(3.0, 7.0) } else { 0.0 };
    let (run_mmhg, run_c) = (pressure_mmhg.round(), temperature_c.round());
    let Written { faults, entries, .. } = written;
    // Water would freeze, and nobody reads the manometer in such a question.
    let fluid = match *temperature_c < 0.0 {
        true => "instruments: (manometer_fluid: gauge_oil),",
        false => "",
    };
    format!(
        r#"(
    format: 1, title: "Drill", lesson: "One skill at a time.",
    station: (name: "{name}", elevation_m: {elevation_m:?}, date: "{date}",
        start: "{hour:02}:{minute:02}", sampler_serial: "S-{sampler}"),
    work_order: (number: "D-{order:04}", text: "One skill at a time.", calibrator_serial: "{serial}",
        target_flow_std_m3_min: 1.13, run_pressure_mmhg: {run_mmhg:?}, run_temperature_c: {run_c:?},
        points: 7),
    weather: (pressure_mmhg: Fixed({pressure_mmhg:?}), temperature_c: Fixed({temperature_c:?}),
        humidity_pct: Fixed({humidity:?}), sun_k: Fixed({sun:?})),
    {fluid} {entries}
    certificates: [(serial: "{serial}", date: "{certified}")],
    faults: [{faults}],
)"#
    )
}

/// Does what has to be done on the bench; what is already so is refused, and needs no doing.
pub(super) fn act_all(session: &mut Session, actions: impl IntoIterator<Item = Action>) {
    for action in actions {
        let _ = session.act(action);
    }
}

/// What mounts the calibrator and hangs the manometer.
pub(super) fn mounting() -> Vec<Action> {
    let mut acts = vec![Action::OpenLid];
    acts.extend(Nut::ALL.map(|nut| Action::TurnNut { nut, quarter_turns: -12 }));
    for (part, place) in [
        (RigPart::Frame, PartPlace::Ground),
        (RigPart::Filter, PartPlace::Case),
        (RigPart::Adapter, PartPlace::Holder),
        (RigPart::Calibrator, PartPlace::Adapter),
        (RigPart::Manometer, PartPlace::Hook),
    ] {
        acts.extend([Action::Take { part }, Action::Put { place }]);
    }
    acts.extend(Nut::ALL.map(|nut| Action::TurnNut { nut, quarter_turns: 8 }));
    acts.extend([Leg::Left, Leg::Right].map(|leg| Action::TurnValve { leg, quarter_turns: 4 }));
    acts
}

/// What sets the recorder going, connects the tube and starts the blower.
pub(super) fn starting() -> Vec<Action> {
    vec![
        Action::OpenDoor,
        Action::UncapPen,
        Action::FitChart,
        Action::LowerPen,
        Action::ConnectTube,
        Action::PlugSampler,
        Action::PlugBlower { into: BlowerPlug::LineOutlet },
        Action::SwitchLine { to: OnOff::On },
        Action::SwitchTimer { to: TimerSwitch::On },
    ]
}
