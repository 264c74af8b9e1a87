//! A slip undone gives back the session without it.

use sim_core::field_book::Field;
use sim_core::rig::parts::{Leg, Nut, RigPart};
use sim_core::session::action::{Action, Exposure, Sight};
use sim_core::session::view::View;

use super::common::{costs_of, exactly, redone, row, scenario, session_of, writes};

/// Turns a deed into deeds.
type Change = fn(&Action, &View) -> Vec<Action>;

/// A rule, and how a session that kept it is made to break it.
const SLIPS: [(&str, Change); 14] = [
    ("manometer-plumb", |action, view| match action {
        Action::ConnectTube => vec![Action::SwingManometer { by_deg: 9.0 }, Action::ConnectTube],
        _ => vec![exactly(action, view)],
    }),
    ("valves-open", |action, view| match action {
        // It stays shut after the leak check.
        Action::TurnValve { leg: Leg::Right, quarter_turns: 1.. } if view.tube.on_tap => Vec::new(),
        _ => vec![exactly(action, view)],
    }),
    ("filter-out", |action, view| match action {
        Action::Take { part: RigPart::Filter } => Vec::new(),
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
        // The eye is level again by then: what stands for the sum is that of the legs as read.
        Action::Write { field: Field::DeltaH(_), .. } => Vec::new(),
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
        let volume = cost.volume_m3.unwrap_or_else(|| panic!("{id}: no volume, {:?}", cost.note));
        let off = 100.0 * (volume / without - 1.0);
        assert!(off.abs() < 0.1, "{id}: {off:+.4} % left of {:?} %", cost.cost_pct);
        let Some(pct) = cost.cost_pct else {
            // Legs read without pressure make no line: the volume stands, a percentage cannot.
            assert!(spoiled.sums_redone_m3.is_none(), "{id}: no cost");
            continue;
        };
        assert!(pct.abs() > 0.005, "{id} costs nothing: it proves nothing");
    }
}
