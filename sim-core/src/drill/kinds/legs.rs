//! The legs of the water manometer.

use super::super::bench::{self, Written};
use super::super::draw::Draw;
use super::super::drawn::{Counted, Drawn, Gauge, Truth};
use super::super::error::DrawError;
use super::super::seen::{Asked, DrillLook};
use super::super::slip::DrillSlip;
use super::misread::misread;
use crate::rig::manometer::{Manometer, ManometerInputs, ManometerParameters};
use crate::rig::parts::{Leg, PartPlace, RigPart};
use crate::session::action::Sight;
use crate::session::view::{LegView, View};
use crate::units::PA_PER_MMHG;

/// Marks of the scale, in.
const MARK_IN: f64 = 0.1;
/// Numbers of the scale, in.
const NUMBER_IN: f64 = 1.0;
/// Pressures that calibrations meet, Pa: about a quarter of an inch of water to thirteen, more than any
/// point of the scenarios.
const SUCTION_PA: (f64, f64) = (60.0, 3200.0);
/// The eye is off level by at least this, mm, if it is off: less shifts a reading by less than half a
/// division.
const OFF_LEVEL_MM: (f64, f64) = (85.0, 150.0);
/// In so many questions the eye is not level at first.
const OFF_LEVEL: f64 = 0.5;

/// One leg.
pub(super) fn one(draw: &mut Draw) -> Result<Drawn, DrawError> {
    let leg = draw.one_of([Leg::Left, Leg::Right]);
    let manometer = at_rest(draw);
    let eye = (leg, eye_mm(draw));
    let value = manometer.seen(leg, 0.0).meniscus_in;
    question(draw, Asked::Leg(leg), value, manometer, vec![eye])
}

/// Both legs.
pub(super) fn both(draw: &mut Draw) -> Result<Drawn, DrawError> {
    let manometer = at_rest(draw);
    let eyes = [Leg::Left, Leg::Right].map(|leg| (leg, eye_mm(draw))).to_vec();
    let [left, right] = manometer.levels_in();
    question(draw, Asked::Difference, left - right, manometer, eyes)
}

fn question(
    draw: &mut Draw,
    asked: Asked,
    value: f64,
    manometer: Manometer,
    eyes: Vec<(Leg, f64)>,
) -> Result<Drawn, DrawError> {
    let (bench, _) = bench::begin(draw, &Written::default())?;
    let mut view = bench.view();
    view.mounting.places[RigPart::Manometer as usize] = PartPlace::Hook;
    let looks = eyes.iter().map(|&eye| looked_at(&view, &manometer, eye)).collect();
    let truth = Truth::Number { value, counted: Counted::Plainly, slips: Vec::new() };
    let mut drawn = Drawn::of(bench, asked, looks, truth);
    drawn.gauge = Gauge::Legs(Box::new(manometer), eyes);
    Ok(drawn)
}

/// A manometer whose water rests under a pressure, its scale as somebody left it.
fn at_rest(draw: &mut Draw) -> Manometer {
    let parameters = ManometerParameters {
        left_bore_mm: draw.between(6.3, 6.7),
        right_bore_mm: draw.between(6.3, 6.7),
        // Not zeroed: so both legs are never alike, and one leg doubled is wrong.
        initial_scale_in: draw.side() * draw.between(0.12, 0.45),
        initial_valve_quarters: [4, 4],
        ..ManometerParameters::default()
    };
    let ambient_pa = 760.0 * PA_PER_MMHG;
    let mut manometer = Manometer::new(parameters, ambient_pa);
    manometer.hang(0.0);
    let suction_pa = draw.between(SUCTION_PA.0, SUCTION_PA.1);
    let inputs = ManometerInputs { suction_pa, ..ManometerInputs::still(ambient_pa) };
    for _ in 0..10 {
        manometer.step(60.0, inputs);
    }
    manometer
}

/// The height of an eye: level, or clearly not.
fn eye_mm(draw: &mut Draw) -> f64 {
    let (side, off) = (draw.side(), draw.between(OFF_LEVEL_MM.0, OFF_LEVEL_MM.1));
    if draw.happens(OFF_LEVEL) { (side * off).round() } else { 0.0 }
}

/// What is seen of a leg from a height.
pub(in super::super) fn looked_at(
    view: &View,
    manometer: &Manometer,
    (leg, eye_mm): (Leg, f64),
) -> DrillLook {
    let seen = |leg| {
        let seen = manometer.seen(leg, eye_mm);
        LegView {
            valve_quarters: manometer.valve_quarters(leg),
            meniscus_in: seen.meniscus_in,
            rim_in: seen.rim_in,
        }
    };
    let mut view = view.clone();
    view.focus = match leg {
        Leg::Left => Sight::LeftLeg,
        Leg::Right => Sight::RightLeg,
    };
    view.eye_mm = eye_mm;
    view.manometer.left = seen(Leg::Left);
    view.manometer.right = seen(Leg::Right);
    view.manometer.scale_in = manometer.scale_in();
    view.manometer.tilt_deg = manometer.tilt_deg();
    view.manometer.moving = manometer.is_moving();
    DrillLook { at_s: 0.0, view }
}

/// The slips that lead to other answers, as the legs are looked at now.
pub(in super::super) fn slips(
    asked: &Asked,
    manometer: &Manometer,
    eyes: &[(Leg, f64)],
) -> Vec<(DrillSlip, f64)> {
    let seen = |leg: Leg| {
        let eye_mm = eyes.iter().find(|(of, _)| *of == leg).map_or(0.0, |&(_, eye)| eye);
        manometer.seen(leg, eye_mm)
    };
    match asked {
        Asked::Leg(leg) => {
            let (value, now) = (manometer.seen(*leg, 0.0), seen(*leg));
            let mut slips = vec![
                (DrillSlip::EyeHeight, now.meniscus_in),
                (DrillSlip::UpperRim, now.rim_in),
                (DrillSlip::UpperRim, value.rim_in),
                (DrillSlip::Sign, -value.meniscus_in),
                (DrillSlip::Sign, -now.meniscus_in),
            ];
            slips.extend(misread(value.meniscus_in, MARK_IN, NUMBER_IN));
            slips
        }
        _ => {
            let [left, right] = manometer.levels_in();
            let (left_now, right_now) = (seen(Leg::Left), seen(Leg::Right));
            let sum = left - right;
            let mut slips = vec![
                (DrillSlip::EyeHeight, left_now.meniscus_in - right_now.meniscus_in),
                (DrillSlip::UpperRim, left_now.rim_in - right_now.meniscus_in),
                (DrillSlip::UpperRim, left_now.meniscus_in - right_now.rim_in),
                (DrillSlip::Sign, -sum),
            ];
            for leg in [left, right, left_now.meniscus_in, right_now.meniscus_in] {
                slips.push((DrillSlip::OneLeg, leg.abs()));
                slips.push((DrillSlip::OneLegDoubled, 2.0 * leg.abs()));
            }
            slips.push((DrillSlip::LegsSubtracted, (left.abs() - right.abs()).abs()));
            slips.extend(misread(sum, MARK_IN, NUMBER_IN));
            slips
        }
    }
}
