//! Each kind of question, drawn.

mod air;
mod certificate;
mod legs;
mod line;
mod misread;
mod pen;
mod point;
mod rest;
mod run;
mod station;

use super::draw::Draw;
use super::drawn::Drawn;
use super::error::DrawError;
use super::kind::DrillKind;

pub(super) use legs::{looked_at, slips as leg_slips};
pub use station::{NOTHING, StationPart};

/// Draws a question.
pub(super) fn draw(kind: DrillKind, seed: u64, number: u32) -> Result<Drawn, DrawError> {
    let mut draw = Draw::of(kind, seed, number);
    match kind {
        DrillKind::Leg => legs::one(&mut draw),
        DrillKind::Difference => legs::both(&mut draw),
        DrillKind::Pen => pen::draw(&mut draw),
        DrillKind::Barometer => air::barometer(&mut draw),
        DrillKind::Thermometer => air::thermometer(&mut draw),
        DrillKind::ChartMean => run::chart_mean(&mut draw),
        DrillKind::ElapsedTime => run::elapsed_time(&mut draw, seed, number),
        DrillKind::WaterAtRest => rest::water(&mut draw),
        DrillKind::PenAtRest => rest::pen(&mut draw),
        DrillKind::Certificate => certificate::draw(&mut draw),
        DrillKind::Station => station::draw(&mut draw),
        DrillKind::PointSums => point::draw(&mut draw),
        DrillKind::Line => line::draw(&mut draw),
    }
}
