//! What is drawn: site, season, weather, instruments, papers, order and faults.

use super::dice::Dice;
use super::level::Level;
use super::names;
use super::order::OrderKind;
use super::pairs::PAIRS;
use super::troubles::{TROUBLES, Trouble, trouble};
use crate::air::atmosphere;
use crate::fault::{Fault, FaultKind, Onset};
use crate::math;
use crate::rig::recorder::RecorderKind;
use crate::time::Date;
use crate::units::PA_PER_MMHG;

/// A job as drawn, before it is written as a scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawnJob {
    /// How hard it is.
    pub level: Level,
    /// The seed.
    pub seed: u64,
    /// What is ordered.
    pub order: OrderKind,
    /// What is wrong, none to two.
    pub faults: Vec<(Fault, Onset)>,
    /// The habits that overlook it, one for each fault.
    pub about: Vec<&'static str>,
    pub(super) station: String,
    pub(super) elevation_m: f64,
    pub(super) date: Date,
    pub(super) start: String,
    pub(super) sampler: String,
    pub(super) calibrator: String,
    pub(super) other_calibrator: String,
    pub(super) order_number: String,
    pub(super) pressure_mmhg: f64,
    pub(super) temperature_c: f64,
    pub(super) humidity_pct: f64,
    pub(super) warming_k_h: f64,
    pub(super) gust_pa: f64,
    pub(super) sun_k: f64,
    pub(super) run_pressure_mmhg: f64,
    pub(super) run_temperature_c: f64,
    pub(super) target_std_m3_min: f64,
    pub(super) points: u32,
    pub(super) recorder: RecorderKind,
    pub(super) last_line: Date,
    pub(super) certified: Date,
    pub(super) older_paper: Option<Date>,
    pub(super) filter_number: u32,
}

impl DrawnJob {
    /// Draws a job.
    pub fn draw(level: Level, seed: u64) -> Self {
        let dice = Dice::new(level, seed);
        let order = dice.one_of("order", OrderKind::at(level)).unwrap_or(OrderKind::Calibration);
        let kinds = kinds(dice, level, order);
        Self::with(level, seed, order, &kinds)
    }

    /// A job with this order and these faults; everything else is drawn.
    pub fn with(level: Level, seed: u64, order: OrderKind, kinds: &[FaultKind]) -> Self {
        let dice = Dice::new(level, seed);
        let troubles: Vec<&Trouble> = kinds.iter().filter_map(|kind| trouble(*kind)).collect();
        let has = |kind: FaultKind| kinds.contains(&kind);
        let elevation_m = elevation(dice, level, has(FaultKind::BarometerAtSeaLevel));
        let date = date(dice);
        let mild = order == OrderKind::Display
            || has(FaultKind::ThermometerInSun)
            || has(FaultKind::ManometerWrongFluid);
        let temperature_c = temperature(dice, level, mild, date, elevation_m);
        let usual_mmhg = atmosphere::pressure_pa(elevation_m) / PA_PER_MMHG;
        // A barometer that reads too high is told from the weather where the pressure is high already.
        let weather_mmhg = match has(FaultKind::BarometerOff) {
            true => dice.between("weather", 11.0, 13.0),
            false => dice.between("weather", -6.0, 6.0),
        };
        let pressure_mmhg = (usual_mmhg + weather_mmhg).round();
        let run_temperature_c = (temperature_c + dice.between("run air", -1.0, 4.0)).round();
        let run_pressure_mmhg = (pressure_mmhg + dice.between("run pressure", -4.0, 4.0)).round();
        let target_std_m3_min = target(dice, run_pressure_mmhg, run_temperature_c, order);
        let certified = date.earlier(i64::from(dice.whole("certified", 25, 320)));
        let older = level >= Level::Two && dice.unit("older paper") < 0.5;
        let older_days = i64::from(dice.whole("older by", 330, 400));
        Self {
            level,
            seed,
            order,
            faults: troubles.iter().map(|one| ((one.size)(dice), one.onset)).collect(),
            about: troubles.iter().map(|one| one.habit).collect(),
            station: names::station(dice, elevation_m),
            elevation_m,
            date,
            start: format!(
                "{:02}:{:02}",
                dice.whole("hour", 8, 11),
                5 * dice.whole("minute", 0, 11)
            ),
            sampler: format!("S-{:04}", dice.whole("sampler", 1000, 9899)),
            calibrator: format!("C-{:03}", dice.whole("calibrator", 100, 549)),
            other_calibrator: format!("C-{:03}", dice.whole("other calibrator", 550, 989)),
            order_number: format!(
                "WO-{:02}-{:04}",
                date.parts().0 % 100,
                dice.whole("number", 1, 9899)
            ),
            pressure_mmhg,
            temperature_c,
            humidity_pct: dice.between("humidity", 35.0, 70.0).round(),
            warming_k_h: tenths(dice.between("warming", 0.2, 1.2)),
            gust_pa: tenths(dice.between("gusts", 0.6, 1.6)),
            sun_k: match has(FaultKind::ThermometerInSun) {
                true => dice.between("bright", 9.0, 12.0).round(),
                false => dice.between("bright", 0.0, 7.0).round(),
            },
            run_pressure_mmhg,
            run_temperature_c,
            target_std_m3_min,
            points: match order {
                OrderKind::Plates | OrderKind::FlowCheck => 5,
                _ => dice.whole("points", 6, 7),
            },
            recorder: recorder(dice, level, order, &has),
            last_line: date.earlier(i64::from(dice.whole("last line", 80, 110))),
            certified,
            older_paper: older.then(|| certified.earlier(older_days)),
            filter_number: dice.whole("filter", 100, 980),
        }
    }

    /// Whether a fault of a kind was drawn.
    pub(super) fn has(&self, kind: FaultKind) -> bool {
        self.faults.iter().any(|(fault, _)| fault.kind() == kind)
    }
}

/// What is wrong: how many faults by the level, and which by what fits the order.
fn kinds(dice: Dice, level: Level, order: OrderKind) -> Vec<FaultKind> {
    let fits = |trouble: &&Trouble| trouble.level <= level && trouble.orders.contains(&order);
    let singles: Vec<FaultKind> =
        TROUBLES.iter().filter(fits).map(|trouble| trouble.kind).collect();
    let on_order =
        |kind: FaultKind| trouble(kind).is_some_and(|trouble| trouble.orders.contains(&order));
    let pairs: Vec<(FaultKind, FaultKind)> = match order {
        OrderKind::Calibration => PAIRS
            .iter()
            .copied()
            .filter(|(one, other)| on_order(*one) && on_order(*other))
            .collect(),
        _ => Vec::new(),
    };
    let chance = dice.unit("how many");
    let (none, one) = match level {
        Level::One => (0.35, 1.0),
        Level::Two => (0.25, 1.0),
        Level::Three => (0.15, 0.5),
    };
    if chance < none {
        return Vec::new();
    }
    if chance >= one
        && let Some((one, other)) = dice.one_of("pair", &pairs)
    {
        return vec![one, other];
    }
    dice.one_of("fault", &singles).into_iter().collect()
}

/// Elevation of the station, m.
fn elevation(dice: Dice, level: Level, high: bool) -> f64 {
    let is_high = high || level > Level::One && dice.unit("high") < 0.35;
    match is_high {
        true => dice.between("elevation", 950.0, 1500.0).round(),
        false if level == Level::One => dice.between("elevation", 2.0, 120.0).round(),
        false => dice.between("elevation", 2.0, 500.0).round(),
    }
}

/// The year in which every drawn session takes place.
const YEAR: i32 = 2026;

/// Day of the session.
fn date(dice: Dice) -> Date {
    Date::first_of(YEAR).later(i64::from(dice.whole("day", 4, 354)))
}

/// Mean temperature at the start, degrees Celsius: by month and elevation, and not in frost where a fault
/// is to be told from the cold.
fn temperature(dice: Dice, level: Level, mild: bool, date: Date, elevation_m: f64) -> f64 {
    let month = f64::from(date.parts().1);
    let season = 11.0 - 9.0 * math::cos(math::TAU * (month - 1.0) / 12.0);
    let lapse = 0.0055 * elevation_m;
    let usual = season - lapse + dice.between("temperature", -3.0, 3.0);
    let low = match level {
        _ if mild => 12.0,
        Level::One => 7.0,
        Level::Two => 6.0,
        Level::Three => -4.0,
    };
    usual.clamp(low, 27.0).round()
}

/// The ordered flow: one of the usual ones that the method allows in the air of the run.
fn target(dice: Dice, mmhg: f64, celsius: f64, order: OrderKind) -> f64 {
    let to_actual = 760.0 / mmhg * (celsius + 273.15) / 298.0;
    let usual = [1.05, 1.1, 1.13, 1.17, 1.2, 1.25, 1.3];
    let most = if matches!(order, OrderKind::WithRun | OrderKind::FlowCheck) { 1.42 } else { 1.5 };
    let possible: Vec<f64> =
        usual.into_iter().filter(|flow| (1.14..most).contains(&(flow * to_actual))).collect();
    dice.one_of("target", &possible).unwrap_or(1.13)
}

/// What the chart is graduated in.
fn recorder(
    dice: Dice,
    level: Level,
    order: OrderKind,
    has: &impl Fn(FaultKind) -> bool,
) -> RecorderKind {
    let usual = has(FaultKind::PenSticks)
        || has(FaultKind::PenZeroOff)
        || has(FaultKind::ExitOrificeBlocked)
        || order != OrderKind::Calibration;
    if level < Level::Three || usual || dice.unit("recorder") < 0.7 {
        RecorderKind::SquareRoot
    } else {
        RecorderKind::Linear
    }
}

/// A number with one decimal.
fn tenths(value: f64) -> f64 {
    (10.0 * value).round() / 10.0
}
