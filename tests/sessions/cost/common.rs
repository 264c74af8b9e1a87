//! Sessions made again with other deeds, and sums done by hand.

use std::fmt::Write as _;

use sim_core::field_book::{Field, PointNumber};
use sim_core::marking::cost::{Cost, Costs, costs};
use sim_core::marking::mark;
use sim_core::operator::{by_name, rehearse};
use sim_core::scenario::instruments::Instruments;
use sim_core::scenario::setup::CertificatePair;
use sim_core::session::Session;
use sim_core::session::action::Action;
use sim_core::session::ended_session::EndedSession;
use sim_core::session::journal::NullSink;
use sim_core::session::view::View;
use sim_core::time::Tick;

/// Largest difference from the sums done by hand, percent of the volume.
pub const HAND_PCT: f64 = 0.1;
/// Length of the run, min.
pub const RUN_MIN: f64 = 1440.0;

/// A shipped scenario on calm mains: sessions that are compared read their points at other times.
pub fn scenario(name: &str) -> String {
    let path = bench_tests::repository().join("scenarios").join(format!("{name}.ron"));
    let text = std::fs::read_to_string(path).unwrap();
    if text.contains("mains_sd_v") {
        return text;
    }
    text.replacen("\n    weather: (\n", "\n    weather: (\n        mains_sd_v: Fixed(0.05),\n", 1)
}

pub fn session_of(text: &str, operator: &str, seed: u64) -> EndedSession {
    let mut session = Session::begin(text, seed, Box::new(NullSink)).unwrap();
    rehearse(&mut session, by_name(operator, seed).unwrap().as_mut()).unwrap();
    session.open().unwrap()
}

pub fn costs_of(signed: &EndedSession) -> Costs {
    costs(signed, &mark(&signed.evidence()))
}

/// The same deeds at the same ticks, each turned into what `change` makes of it and of what can be
/// seen then.
pub fn redone(
    signed: &EndedSession,
    change: impl Fn(&Action, &View) -> Vec<Action>,
) -> EndedSession {
    redone_on(&signed.source.text, signed, change)
}

/// The same on the bench of another scenario.
pub fn redone_on(
    text: &str,
    signed: &EndedSession,
    change: impl Fn(&Action, &View) -> Vec<Action>,
) -> EndedSession {
    let mut session = Session::begin(text, signed.source.seed, Box::new(NullSink)).unwrap();
    for moment in &signed.events {
        let Tick(now) = session.now();
        // A deed that was added keeps the hands busy: the next one then comes a little later.
        session.advance(moment.tick.0.saturating_sub(now)).unwrap();
        for action in change(&moment.action, &session.view()) {
            // A deed that has become needless, such as sliding a scale by nothing, may be refused.
            let _refused = session.act(action);
        }
    }
    session.open().unwrap()
}

/// The hand of a perfect reader: zeroes exactly, and writes what is seen with all its digits.
pub fn exactly(action: &Action, view: &View) -> Action {
    let Action::Write { field, .. } = action else {
        return match action {
            Action::SlideScale { .. } => {
                let [left, right] = [view.manometer.left, view.manometer.right];
                Action::SlideScale { by_in: 0.5 * (left.meniscus_in + right.meniscus_in) }
            }
            _ => action.clone(),
        };
    };
    let seen = match field {
        Field::Up(_) => view.manometer.left.meniscus_in,
        Field::Down(_) => -view.manometer.right.meniscus_in,
        Field::DeltaH(_) => view.manometer.left.meniscus_in - view.manometer.right.meniscus_in,
        Field::Chart(_) => view.recorder.pen.unwrap(),
        Field::Temperature => view.thermometer.column_c,
        Field::Pressure => view.barometer.pointer_mmhg,
        _ => return action.clone(),
    };
    Action::Write { field: *field, text: format!("{seen:.9}") }
}

/// A scenario's text with every instrument exactly as the bench was designed, and certificates without
/// a bias.
pub fn as_designed(text: &str) -> String {
    let mut instruments = String::new();
    let mut open = "";
    for parameter in Instruments::parameters() {
        let (section, field) = parameter.name.split_once('.').unwrap();
        if section != open {
            let end = if open.is_empty() { "" } else { "), " };
            write!(instruments, "{end}{section}: (").unwrap();
            open = section;
        }
        write!(instruments, "{field}: Fixed({:e}), ", parameter.usual.centre()).unwrap();
    }
    // Certificates stand on one line each.
    let text = text.replace("\", date: ", "\", laboratory_bias_pct: Fixed(0), date: ");
    text.replace(
        "    certificates: [",
        &format!("    instruments: ({instruments})),\n    certificates: ["),
    )
}

pub fn row<'a>(costs: &'a Costs, id: &str) -> &'a Cost {
    costs.each.iter().find(|cost| cost.id == id).unwrap_or_else(|| panic!("{id}: {costs:#?}"))
}

/// Asserts that a volume is what the hand says, within a tenth of a percent of it.
#[track_caller]
pub fn assert_volume(found_m3: f64, by_hand_m3: f64) {
    let off = 100.0 * (found_m3 / by_hand_m3 - 1.0);
    assert!(off.abs() < HAND_PCT, "{found_m3} m3, by hand {by_hand_m3} m3: {off:+.4} %");
}

/// Least squares by the textbook: slope and intercept.
pub fn line(points: &[(f64, f64)]) -> (f64, f64) {
    let n = points.len() as f64;
    let sum = |f: &dyn Fn(&(f64, f64)) -> f64| points.iter().map(f).sum::<f64>();
    let (x, y) = (sum(&|p| p.0), sum(&|p| p.1));
    let (xx, xy) = (sum(&|p| p.0 * p.0), sum(&|p| p.0 * p.1));
    let slope = (n * xy - x * y) / (n * xx - x * x);
    (slope, (y - slope * x) / n)
}

/// sqrt(P/760 298/T).
pub fn root(pressure_mmhg: f64, temperature_c: f64) -> f64 {
    (pressure_mmhg / 760.0 * 298.0 / (temperature_c + 273.15)).sqrt()
}

/// What stands in the book about the points and what they are worked out with.
pub struct Book<'a>(pub &'a EndedSession);

impl Book<'_> {
    pub fn number(&self, field: Field) -> f64 {
        self.0.book.number(field).unwrap()
    }

    pub fn points(&self) -> Vec<PointNumber> {
        self.0.book.points()
    }

    pub fn pair(&self) -> CertificatePair {
        CertificatePair {
            slope: self.number(Field::CertificateSlope),
            intercept: self.number(Field::CertificateIntercept),
        }
    }

    pub fn root(&self) -> f64 {
        root(self.number(Field::Pressure), self.number(Field::Temperature))
    }

    /// The volume by hand from pressure differences (in), chart readings, pair and root.
    pub fn volume(
        &self,
        costs: &Costs,
        points: &[(f64, f64)],
        pair: CertificatePair,
        root_term: f64,
    ) -> f64 {
        let points: Vec<(f64, f64)> = points
            .iter()
            .map(|&(delta_h, chart)| {
                ((delta_h.sqrt() * root_term - pair.intercept) / pair.slope, chart * root_term)
            })
            .collect();
        let (slope, intercept) = line(&points);
        let run = costs.run.unwrap();
        let term = run.chart * root(run.pressure_mmhg, run.temperature_c);
        (term - intercept) / slope * RUN_MIN
    }

    pub fn charts(&self) -> Vec<f64> {
        self.points().into_iter().map(|point| self.number(Field::Chart(point))).collect()
    }
}

/// A value written.
pub fn writes(field: Field, text: impl ToString) -> Vec<Action> {
    vec![Action::Write { field, text: text.to_string() }]
}
