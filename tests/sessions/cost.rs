//! What slips cost, against sums done by hand.

use std::cell::Cell;
use std::fmt::Write as _;

use sim_core::field_book::{Field, PointNumber};
use sim_core::marking::cost::{Cost, CostOf, Costs, costs};
use sim_core::marking::mark;
use sim_core::operator::{NAMES, by_name, rehearse};
use sim_core::rig::parts::{Leg, Nut, Part};
use sim_core::scenario::instruments::Instruments;
use sim_core::scenario::setup::Pair;
use sim_core::session::Session;
use sim_core::session::action::{Action, Exposure, Sight};
use sim_core::session::journal::NoInk;
use sim_core::session::signed::Signed;
use sim_core::session::view::View;
use sim_core::time::Tick;

use crate::reference::{number, table};

const SCENARIOS: [&str; 6] = [
    "01_first_calibration",
    "02_leaking_valve",
    "03_missing_gasket",
    "04_two_certificates",
    "05_sea_level_barometer",
    "06_neglected_recorder",
];
/// Largest difference from the sums done by hand, percent of the volume.
const HAND_PCT: f64 = 0.1;
/// Length of the run, min.
const RUN_MIN: f64 = 1440.0;

fn scenario(name: &str) -> String {
    let path = bench_tests::repository().join("scenarios").join(format!("{name}.ron"));
    std::fs::read_to_string(path).unwrap()
}

fn session_of(text: &str, operator: &str, seed: u64) -> Signed {
    let mut session = Session::begin(text, seed, Box::new(NoInk)).unwrap();
    rehearse(&mut session, by_name(operator, seed).unwrap().as_mut()).unwrap();
    session.open().unwrap()
}

fn costs_of(signed: &Signed) -> Costs {
    costs(signed, &mark(&signed.evidence()))
}

/// The same deeds at the same ticks, each turned into what `change` makes of it and of what can be
/// seen then.
fn redone(signed: &Signed, change: impl Fn(&Action, &View) -> Vec<Action>) -> Signed {
    redone_on(&signed.source.text, signed, change)
}

/// The same on the bench of another scenario.
fn redone_on(
    text: &str,
    signed: &Signed,
    change: impl Fn(&Action, &View) -> Vec<Action>,
) -> Signed {
    let mut session = Session::begin(text, signed.source.seed, Box::new(NoInk)).unwrap();
    for moment in &signed.moments {
        let Tick(now) = session.now();
        session.advance(moment.tick.0 - now).unwrap();
        for action in change(&moment.action, &session.view()) {
            // A deed that has become needless, such as sliding a scale by nothing, may be refused.
            let _refused = session.act(action);
        }
    }
    session.open().unwrap()
}

/// The hand of a perfect reader: zeroes exactly, and writes what is seen with all its digits.
fn exactly(action: &Action, view: &View) -> Action {
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

fn row<'a>(costs: &'a Costs, id: &str) -> &'a Cost {
    costs.each.iter().find(|cost| cost.id == id).unwrap_or_else(|| panic!("{id}: {costs:#?}"))
}

/// Asserts that a volume is what the hand says, within a tenth of a percent of it.
#[track_caller]
fn assert_volume(found_m3: f64, by_hand_m3: f64) {
    let off = 100.0 * (found_m3 / by_hand_m3 - 1.0);
    assert!(off.abs() < HAND_PCT, "{found_m3} m3, by hand {by_hand_m3} m3: {off:+.4} %");
}

/// Least squares by the textbook: slope and intercept.
fn line(points: &[(f64, f64)]) -> (f64, f64) {
    let n = points.len() as f64;
    let sum = |f: &dyn Fn(&(f64, f64)) -> f64| points.iter().map(f).sum::<f64>();
    let (x, y) = (sum(&|p| p.0), sum(&|p| p.1));
    let (xx, xy) = (sum(&|p| p.0 * p.0), sum(&|p| p.0 * p.1));
    let slope = (n * xy - x * y) / (n * xx - x * x);
    (slope, (y - slope * x) / n)
}

/// sqrt(P/760 298/T).
fn root(pressure_mmhg: f64, temperature_c: f64) -> f64 {
    (pressure_mmhg / 760.0 * 298.0 / (temperature_c + 273.15)).sqrt()
}

/// What stands in the book about the points and what they are worked out with.
struct Book<'a>(&'a Signed);

impl Book<'_> {
    fn number(&self, field: Field) -> f64 {
        self.0.book.number(field).unwrap()
    }

    fn points(&self) -> Vec<PointNumber> {
        self.0.book.points()
    }

    fn pair(&self) -> Pair {
        Pair {
            slope: self.number(Field::CertificateSlope),
            intercept: self.number(Field::CertificateIntercept),
        }
    }

    fn root(&self) -> f64 {
        root(self.number(Field::Pressure), self.number(Field::Temperature))
    }

    /// The volume by hand from pressure differences (in), chart readings, pair and root.
    fn volume(&self, costs: &Costs, points: &[(f64, f64)], pair: Pair, root_term: f64) -> f64 {
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

    fn charts(&self) -> Vec<f64> {
        self.points().into_iter().map(|point| self.number(Field::Chart(point))).collect()
    }
}

#[test]
fn one_leg_costs_the_root_of_a_half() {
    let signed = session_of(&scenario("01_first_calibration"), "one-leg", 1);
    let signed = redone(&signed, |action, view| match action {
        // The sum is what this operator takes for it: the one leg, at the moment of reading.
        Action::Write { field: field @ Field::DeltaH(_), .. } => vec![Action::Write {
            field: *field,
            text: format!("{:.9}", view.manometer.left.meniscus_in),
        }],
        _ => vec![exactly(action, view)],
    });
    let costs = costs_of(&signed);
    let book = Book(&signed);
    let legs = row(&costs, "both-legs");
    // Q' = (sqrt(1/2) (m Q + b) - b)/m: the root term is short by 29.3 percent, the flow by that and
    // by the intercept's share.
    let half = 0.5_f64.sqrt();
    assert!((100.0 * (half - 1.0) + 29.3).abs() < 0.05);
    let pair = book.pair();
    let undone = legs.volume_m3.unwrap();
    let by_hand = half * undone - (1.0 - half) * pair.intercept / pair.slope * RUN_MIN;
    assert_volume(costs.sums_redone_m3.unwrap(), by_hand);
    let cost = 100.0 * (by_hand / undone - 1.0);
    assert!((legs.cost_pct.unwrap() - cost).abs() < HAND_PCT, "{legs:?}, by hand {cost}");
}

#[test]
fn sea_level_pressure_at_1000_m_costs_what_the_two_intercepts_leave_of_it() {
    let text = scenario("05_sea_level_barometer")
        .replace("elevation_m: 1290", "elevation_m: 1000")
        .replace("Normal(652, 2.5)", "Fixed(674.115)")
        .replace("sun_k: Uniform(8, 12)", "sun_k: Fixed(0), pressure_mmhg_h: Fixed(0)")
        .replace("run_pressure_mmhg: 652", "run_pressure_mmhg: 674.115");
    let signed = session_of(&text, "trusts-barometer", 2);
    let signed = redone(&signed, |action, view| vec![exactly(action, view)]);
    let costs = costs_of(&signed);
    let book = Book(&signed);
    let ratio = (book.number(Field::Pressure) / signed.end.pressure_mmhg).sqrt();
    assert!((ratio - 1.0618).abs() < 0.0001, "{ratio}");
    // Flow and chart term both grow by the ratio of the roots; the line M Q' + B' through them reads
    // Q' = Q + (r - 1)(b/m - B/M) at the same term of the run.
    let pair = book.pair();
    let points: Vec<(f64, f64)> = book
        .points()
        .iter()
        .map(|&point| {
            (
                book.number(Field::Up(point)) + book.number(Field::Down(point)),
                book.number(Field::Chart(point)),
            )
        })
        .collect();
    let factor = root(signed.end.pressure_mmhg, book.number(Field::Temperature));
    let right: Vec<(f64, f64)> = points
        .iter()
        .map(|(delta_h, chart)| {
            ((delta_h.sqrt() * factor - pair.intercept) / pair.slope, chart * factor)
        })
        .collect();
    let (slope, intercept) = line(&right);
    let undone = row(&costs, "station-pressure").volume_m3.unwrap();
    assert_volume(undone, book.volume(&costs, &points, pair, factor));
    let change = (ratio - 1.0) * (pair.intercept / pair.slope - intercept / slope) * RUN_MIN;
    assert!(change.abs() > 3.0, "{change} m3: too little to prove anything");
    assert_volume(costs.sums_redone_m3.unwrap(), undone + change);
    let fault = row(&costs, "BarometerAtSeaLevel");
    assert_eq!((fault.of, fault.counted_with), (CostOf::Fault, Some("station-pressure")));
    assert!((fault.volume_m3.unwrap() - undone).abs() < 1e-9);
}

/// A scale that stands 0.35 in off its zero, and nobody slides it.
fn unzeroed(operator: &str) -> Signed {
    let text = scenario("01_first_calibration").replace(
        "    certificates: [",
        "    instruments: (manometer: (initial_scale_in: Fixed(0.35))),\n    certificates: [",
    );
    let signed = session_of(&text, operator, 1);
    redone(&signed, |action, view| match action {
        Action::SlideScale { .. } => Vec::new(),
        Action::Write { field: field @ Field::DeltaH(_), .. } if operator == "one-leg" => {
            let seen = view.manometer.left.meniscus_in;
            vec![Action::Write { field: *field, text: format!("{seen:.9}") }]
        }
        Action::Write { field: Field::DeltaH(_), .. } => Vec::new(),
        _ => vec![exactly(action, view)],
    })
}

#[test]
fn an_unzeroed_scale_costs_nothing_where_both_legs_are_read() {
    let costs = costs_of(&unzeroed("careful"));
    let zero = row(&costs, "manometer-zeroed");
    assert!(zero.cost_pct.unwrap().abs() < 1e-6, "{zero:?}");
}

#[test]
fn an_unzeroed_scale_costs_its_share_of_the_one_leg_read() {
    let signed = unzeroed("one-leg");
    let costs = costs_of(&signed);
    let book = Book(&signed);
    let charts = book.charts();
    let with = |off: f64| -> Vec<(f64, f64)> {
        let legs = book.points().into_iter().map(|point| book.number(Field::Up(point)) + off);
        legs.zip(charts.iter().copied()).collect()
    };
    let zero = row(&costs, "manometer-zeroed");
    assert_volume(
        costs.sums_redone_m3.unwrap(),
        book.volume(&costs, &with(0.0), book.pair(), book.root()),
    );
    assert_volume(
        zero.volume_m3.unwrap(),
        book.volume(&costs, &with(0.35), book.pair(), book.root()),
    );
    assert!(zero.cost_pct.unwrap() < -2.0, "{zero:?}");
}

#[test]
fn an_actual_conditions_pair_costs_the_difference_of_the_pairs() {
    let text = scenario("01_first_calibration").replace(
        r#"(serial: "OC-318", date: "2025-11-04")"#,
        r#"(serial: "OC-318", date: "2025-11-04", print: ActualFirst)"#,
    );
    let text =
        text.replace("    terms:", "    faults: [(fault: CertificateActualFirst)],\n    terms:");
    let signed = session_of(&text, "trusts-certificates", 1);
    let signed = redone(&signed, |action, view| vec![exactly(action, view)]);
    let costs = costs_of(&signed);
    let wrong = Book(&signed).pair();
    let printed = &signed.setup.certificates[0];
    assert_eq!(wrong, printed.actual);
    let pair = row(&costs, "standard-pair");
    // Q' = (m Q + b - b')/m' at every point, and so on the whole line.
    let right = printed.standard;
    let undone = pair.volume_m3.unwrap() / RUN_MIN;
    let by_hand = (right.slope * undone + right.intercept - wrong.intercept) / wrong.slope;
    assert_volume(costs.sums_redone_m3.unwrap(), by_hand * RUN_MIN);
    assert!(pair.cost_pct.unwrap() > 30.0, "{pair:?}");
    assert_eq!(row(&costs, "CertificateActualFirst").counted_with, Some("standard-pair"));
}

/// Openings of the points, each in the table.
const OPENINGS: [f64; 7] = [1.0, 0.7, 0.5, 0.4, 0.35, 0.3, 0.27778];

/// Pressure difference and chart reading of the table at those openings, sea level, 20 degrees.
fn tabulated(case: &str) -> Vec<(f64, f64)> {
    let rows = table("operating_points.csv");
    let row = |opening: f64| {
        let mut rows = rows.iter();
        rows.find(|row| {
            row["site"] == "sea_level_20C"
                && row["case"] == case
                && (number(row, "f") - opening).abs() < 1e-9
        })
        .unwrap()
    };
    OPENINGS.iter().map(|&f| (number(row(f), "dH_inH2O"), number(row(f), "chart_I"))).collect()
}

/// A scenario's text with every instrument exactly as the bench was designed.
fn as_designed(text: &str) -> String {
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
    text.replace(
        "    certificates: [",
        &format!("    instruments: ({instruments})),\n    certificates: ["),
    )
}

#[test]
fn a_leak_under_the_calibrator_costs_what_the_table_says() {
    let text = as_designed(&scenario("03_missing_gasket"))
        .replace("Normal(753, 3)", "Fixed(760)")
        .replace("Normal(11, 2)", "Fixed(20)")
        .replace("Uniform(70, 90)", "Fixed(0)")
        .replace("Normal(1.5, 0.3)", "Fixed(0)");
    let signed = session_of(&text, "skips-leak-check", 1);
    let turned = Cell::new(0);
    let signed = redone(&signed, |action, view| match action {
        Action::TurnKnob { .. } if turned.get() + 1 < OPENINGS.len() => {
            turned.set(turned.get() + 1);
            vec![Action::TurnKnob { opening: OPENINGS[turned.get()] }]
        }
        // The table's pen has no friction at all.
        Action::Tap => vec![Action::Tap; 4],
        _ => vec![exactly(action, view)],
    });
    let costs = costs_of(&signed);
    let book = Book(&signed);
    let by_table = |case| book.volume(&costs, &tabulated(case), book.pair(), book.root());
    let (leaking, clean) = (by_table("leak2e-5"), by_table("clean"));
    assert_volume(costs.sums_redone_m3.unwrap(), leaking);
    for id in ["gaskets-seated", "leak-check", "CalibratorGasketMissing"] {
        assert_volume(row(&costs, id).volume_m3.unwrap(), clean);
    }
    let cost = row(&costs, "gaskets-seated").cost_pct.unwrap();
    assert!((cost - 100.0 * (leaking / clean - 1.0)).abs() < HAND_PCT, "{cost}");
    assert!(cost < -5.0, "{cost}");
}

/// Turns a deed into deeds.
type Change = fn(&Action, &View) -> Vec<Action>;

fn writes(field: Field, text: impl ToString) -> Vec<Action> {
    vec![Action::Write { field, text: text.to_string() }]
}

/// A rule, and how a session that kept it is made to break it.
const SLIPS: [(&str, Change); 14] = [
    ("manometer-plumb", |action, view| match action {
        Action::ConnectTube => vec![Action::SwingManometer { by_deg: 9.0 }, Action::ConnectTube],
        _ => vec![exactly(action, view)],
    }),
    ("valves-open", |action, view| match action {
        Action::ConnectTube => {
            let shuts = Action::TurnValve { leg: Leg::Right, quarter_turns: -4 };
            vec![Action::ConnectTube, shuts]
        }
        _ => vec![exactly(action, view)],
    }),
    ("filter-out", |action, view| match action {
        Action::Take { part: Part::Filter } => Vec::new(),
        _ => vec![exactly(action, view)],
    }),
    ("nuts-snug", |action, view| match action {
        Action::ConnectTube => {
            let loosens = |nut| Action::TurnNut { nut, quarter_turns: -5 };
            Nut::ALL.into_iter().map(loosens).chain([Action::ConnectTube]).collect()
        }
        _ => vec![exactly(action, view)],
    }),
    ("tube-clear", |action, view| match action {
        // Between the looks and the first chart reading the tube comes off.
        Action::Look { at: Sight::Pen, .. } => vec![Action::DisconnectTube, action.clone()],
        _ => vec![exactly(action, view)],
    }),
    ("thermometer-shaded", |action, view| match action {
        Action::ConnectTube => {
            vec![Action::ConnectTube, Action::PlaceThermometer { at: Exposure::Sun }]
        }
        Action::PlaceThermometer { .. } => Vec::new(),
        _ => vec![exactly(action, view)],
    }),
    ("conditions-as-read", |action, view| match action {
        Action::Write { field: Field::Pressure, .. } => writes(Field::Pressure, 700),
        _ => vec![exactly(action, view)],
    }),
    ("certificate-copied", |action, view| match action {
        Action::Write { field: Field::CertificateSlope, text } => {
            let slope: f64 = text.parse().unwrap();
            writes(Field::CertificateSlope, format!("{:.4}", 1.03 * slope))
        }
        _ => vec![exactly(action, view)],
    }),
    ("values-as-seen", |action, view| match action {
        Action::Write { field: field @ Field::Chart(point), .. } if point.number() > 4 => {
            writes(*field, view.recorder.pen.unwrap() + 5.0)
        }
        _ => vec![exactly(action, view)],
    }),
    ("pen-on-paper", |action, view| match action {
        Action::UncapPen => Vec::new(),
        // From memory, and not a good one.
        Action::Write { field: field @ Field::Chart(point), .. } => {
            writes(*field, 56 - 2 * i32::from(point.number()))
        }
        _ => vec![exactly(action, view)],
    }),
    ("legs-added", |action, view| match action {
        Action::Write { field: field @ Field::DeltaH(_), .. } => {
            writes(*field, format!("{:.9}", view.manometer.left.meniscus_in))
        }
        _ => vec![exactly(action, view)],
    }),
    ("both-legs", |action, view| match action {
        Action::Write { field: Field::Down(point), .. } if point.number() > 5 => Vec::new(),
        Action::Write { field: field @ Field::DeltaH(point), .. } if point.number() > 5 => {
            writes(*field, format!("{:.9}", view.manometer.left.meniscus_in))
        }
        _ => vec![exactly(action, view)],
    }),
    ("eye-level", |action, view| match action {
        Action::Look { at: Sight::LeftLeg, .. } => {
            vec![Action::Look { at: Sight::LeftLeg, eye_mm: 60.0 }]
        }
        _ => vec![exactly(action, view)],
    }),
    ("points-enough", |action, view| match action {
        Action::Write {
            field: Field::Up(p) | Field::Down(p) | Field::DeltaH(p) | Field::Chart(p),
            ..
        } if p.number() < 4 => Vec::new(),
        _ => vec![exactly(action, view)],
    }),
];

#[test]
fn a_slip_undone_gives_the_volume_of_a_session_without_it() {
    let signed = session_of(&scenario("01_first_calibration"), "careful", 3);
    let kept = costs_of(&redone(&signed, |action, view| vec![exactly(action, view)]));
    let without = kept.sums_redone_m3.unwrap();
    for (id, slip) in SLIPS {
        let spoiled = costs_of(&redone(&signed, slip));
        let cost = row(&spoiled, id);
        assert_eq!(spoiled.run, kept.run, "{id}");
        let off = 100.0 * (cost.volume_m3.unwrap() / without - 1.0);
        assert!(off.abs() < 0.05, "{id}: {off:+.4} % left of {:?} %", cost.cost_pct);
        assert!(cost.cost_pct.unwrap().abs() > 0.005, "{id} costs nothing: it proves nothing");
    }
}

/// Faults that nobody noticed, and the least that each costs, percent.
const FAULTS: [(&str, f64); 24] = [
    ("ManometerValveLeaks(leg: left, ratio: 0.3)", 3.0),
    ("ManometerBubble(length_mm: 6)", 2.0),
    ("ManometerOutOfPlumb(tilt_deg: 9)", 1.0),
    ("ManometerWrongFluid(relative_density: 0.83)", 3.0),
    ("ManometerScaleStuck", 0.0),
    ("ManometerUnequalBores(wider_mm: 1)", 0.2),
    ("TubeCracked(ratio: 0.3)", 1.0),
    ("TubeWet(height_in: 0.5)", 1.0),
    ("OrificeNicked(area_pct: 5)", 1.0),
    ("OrificeFouled(area_pct: 5)", 1.0),
    ("CalibratorGasketMissing(leak_mm2: 20)", 5.0),
    ("HolderGasketMissing(leak_mm2: 20)", 5.0),
    ("PlateWarped(leak_mm2: 10)", 2.0),
    ("WornBrushes(added_ohm: 1)", 0.0),
    ("LowVoltage(by_v: 10)", 0.0),
    ("BearingDrag(factor: 2)", 0.0),
    ("PenSticks(play_inh2o: 0.4)", 0.05),
    ("PenZeroOff(divisions: 2)", 0.0),
    ("RecorderLineLeaks(ratio: 0.4)", 0.0),
    ("ExitOrificeBlocked(area_pct: 10)", 0.0),
    ("ChartClockSlow(pct: 5)", 0.0),
    ("BarometerAtSeaLevel", 0.0),
    ("BarometerOff(mmhg: 15)", 0.0),
    ("ThermometerInSun(by_k: 12)", 0.0),
];

#[test]
fn a_fault_left_out_gives_the_volume_of_a_bench_without_it() {
    // High enough that a barometer set to sea level can be told.
    let clean = scenario("01_first_calibration").replace("elevation_m: 6", "elevation_m: 120");
    let signed = session_of(&clean, "careful", 3);
    // Nobody looks out for anything: what would put a fault right is not done.
    let blind = |action: &Action, view: &View| match action {
        Action::SetPenZero { .. }
        | Action::SetBarometer { .. }
        | Action::PlaceThermometer { .. }
        | Action::StraightenTube
        | Action::DrainTube => Vec::new(),
        _ => vec![exactly(action, view)],
    };
    let share_of_truth = |costs: &Costs, volume_m3: f64| volume_m3 / costs.true_volume_m3.unwrap();
    let kept = costs_of(&redone(&signed, blind));
    let without = share_of_truth(&kept, kept.sums_redone_m3.unwrap());
    for (fault, least_pct) in FAULTS {
        let text =
            clean.replace("    terms:", &format!("    faults: [(fault: {fault})],\n    terms:"));
        let costs = costs_of(&redone_on(&text, &signed, blind));
        let name = fault.split('(').next().unwrap();
        let cost = row(&costs, name);
        let undone = cost.volume_m3.unwrap_or_else(|| panic!("{costs:#?}"));
        let off = 100.0 * (share_of_truth(&costs, undone) / without - 1.0);
        assert!(off.abs() < 0.01, "{fault}: {off:+.4} % left of {:?} %", cost.cost_pct);
        let told = cost.cost_pct.unwrap().abs();
        assert!(told >= least_pct, "{fault} costs {told} %, no less than {least_pct} % expected");
    }
}

#[test]
fn a_slip_of_the_sums_is_a_cost_of_its_own() {
    let signed = session_of(&scenario("01_first_calibration"), "hurried", 2);
    let spoiled = redone(&signed, |action, _| match action {
        Action::Write { field: Field::Slope, text } => {
            let slope: f64 = text.parse().unwrap();
            writes(Field::Slope, format!("{:.2}", 0.94 * slope))
        }
        _ => vec![action.clone()],
    });
    let (right, wrong) = (costs_of(&signed), costs_of(&spoiled));
    let sums = row(&wrong, "line");
    assert_eq!(sums.volume_m3, wrong.sums_redone_m3);
    // V = (term - B)/M t: a slope that is 6 percent small makes the volume larger by 1/0.94.
    let by_hand =
        100.0 * (right.own_volume_m3.unwrap() / 0.94 / right.sums_redone_m3.unwrap() - 1.0);
    assert!((sums.cost_pct.unwrap() - by_hand).abs() < HAND_PCT, "{sums:?}, by hand {by_hand}");
    for id in ["two-minutes", "pen-tapped"] {
        assert_eq!(row(&right, id), row(&wrong, id), "the slip leaks into another cost");
    }
}

#[test]
fn a_wrong_chart_term_costs_what_its_line_reads() {
    let signed = session_of(&scenario("05_sea_level_barometer"), "careful", 1);
    let signed = redone(&signed, |action, view| match action {
        Action::Write { field: field @ Field::ChartTerm(_), .. } => {
            writes(*field, format!("{:.9}", view.recorder.pen.unwrap_or(0.0)))
        }
        _ => vec![exactly(action, view)],
    });
    // The terms are the chart readings themselves.
    let charts = Book(&signed).charts();
    let numbered: Vec<PointNumber> = signed.book.points();
    let signed = redone(&signed, |action, _| match action {
        Action::Write { field: field @ Field::ChartTerm(point), .. } => {
            let at = numbered.iter().position(|number| number == point).unwrap();
            writes(*field, charts[at])
        }
        _ => vec![action.clone()],
    });
    let costs = costs_of(&signed);
    let book = Book(&signed);
    let (pair, factor) = (book.pair(), book.root());
    let flows = book.points().into_iter().map(|point| {
        let delta_h = book.number(Field::Up(point)) + book.number(Field::Down(point));
        (delta_h.sqrt() * factor - pair.intercept) / pair.slope
    });
    let points: Vec<(f64, f64)> = flows.zip(charts.iter().copied()).collect();
    let (slope, intercept) = line(&points);
    let expression = row(&costs, "chart-expression");
    let chart = costs.run.unwrap().chart;
    assert_volume(costs.sums_redone_m3.unwrap(), (chart - intercept) / slope * RUN_MIN);
    let step = costs.waterfall.iter().find(|step| step.id == "expression").unwrap();
    assert_eq!(Some(step.to_m3), expression.volume_m3);
    assert!(expression.cost_pct.unwrap().abs() > 0.5, "{expression:?}");
}

#[test]
fn a_set_point_that_does_not_follow_stands_by_itself() {
    let signed = session_of(&scenario("01_first_calibration"), "careful", 1);
    let set = |by: f64| {
        redone(&signed, |action, _| match action {
            Action::Write { field: Field::SetPoint, text } => {
                let chart: f64 = text.parse().unwrap();
                writes(Field::SetPoint, format!("{:.1}", chart + by))
            }
            _ => vec![action.clone()],
        })
    };
    let (right, wrong) = (costs_of(&set(0.0)), costs_of(&set(2.0)));
    let cost = row(&wrong, "set-point");
    let by_hand = wrong.true_volume_m3.unwrap() / right.true_volume_m3.unwrap() - 1.0;
    assert!((cost.cost_pct.unwrap() - 100.0 * by_hand).abs() < 0.2, "{cost:?}, by hand {by_hand}");
    assert!(cost.cost_pct.unwrap() > 4.0, "{cost:?}");
    assert!(wrong.interaction_pct.unwrap().abs() < 1e-9);
    assert!(wrong.waterfall.iter().all(|step| step.id != "set-point"));
}

/// Largest error that the own readings of any operator leave, percent of the true volume.
const READING_PCT: f64 = 2.0;

#[test]
fn everything_repaired_leaves_the_own_reading_errors() {
    let mut worst: f64 = 0.0;
    for name in SCENARIOS {
        let text = scenario(name);
        for (operator, _) in NAMES {
            for seed in 11..=12 {
                let costs = costs_of(&session_of(&text, operator, seed));
                let case = format!("{name}, {operator}, seed {seed}");
                assert_waterfall_adds_up(&costs, &case);
                if let Some(left) = costs.remaining_pct {
                    worst = worst.max(left.abs());
                    assert!(left.abs() < READING_PCT, "{case}: {left} % left, {costs:#?}");
                }
            }
        }
    }
    assert!(worst > 0.1, "readings without any error: {worst} %");
}

fn assert_waterfall_adds_up(costs: &Costs, case: &str) {
    let (Some(first), Some(last)) = (costs.waterfall.first(), costs.waterfall.last()) else {
        assert!(costs.own_volume_m3.is_none() || costs.true_volume_m3.is_none(), "{case}");
        return;
    };
    assert_eq!(Some(first.from_m3), costs.own_volume_m3, "{case}");
    assert_eq!(Some(last.to_m3), costs.true_volume_m3, "{case}");
    assert_eq!((last.id, Some(last.from_m3)), ("remainder", costs.all_repaired_m3), "{case}");
    for pair in costs.waterfall.windows(2) {
        assert_eq!(pair[0].to_m3.to_bits(), pair[1].from_m3.to_bits(), "{case}");
    }
}

#[test]
fn costs_are_the_same_to_the_last_bit() {
    let signed = session_of(&scenario("06_neglected_recorder"), "hurried+one-leg+skips-warm-up", 5);
    let marks = mark(&signed.evidence());
    let text = |costs: &Costs| serde_json::to_string(costs).unwrap();
    let once = costs(&signed, &marks);
    assert_eq!(text(&once), text(&costs(&signed, &marks)));
    assert!(once.each.len() > 3 && once.interaction_pct.unwrap().abs() > 1e-6);
}

#[test]
fn a_session_without_points_has_no_costs_and_says_why() {
    let mut session =
        Session::begin(&scenario("01_first_calibration"), 1, Box::new(NoInk)).unwrap();
    session.act(Action::Sign).unwrap();
    let costs = costs_of(&session.open().unwrap());
    assert_eq!((costs.own_volume_m3, costs.all_repaired_m3), (None, None));
    assert!(costs.true_volume_m3.is_some() && costs.waterfall.is_empty());
    assert!(costs.notes.iter().any(|note| note.contains("no own line")), "{:?}", costs.notes);
}
