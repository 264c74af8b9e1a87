//! The pictures of a drill's question: what the loupe or the scene would show, by the same layers.

use resvg::tiny_skia::Pixmap;
use sim_core::drill::{DrillKind, DrillLook, Question};

use super::loupe::{self, Gaze, KeptChart, Lens};
use super::still;

/// A picture of a question.
#[derive(Debug, Clone)]
pub struct DrillPicture {
    /// What it shows, as part of a file's name.
    pub name: String,
    /// The picture.
    pub pixels: Pixmap,
}

/// Phase of what runs in a still picture of the station.
const PHASE: f32 = 0.3;
/// Pixels of the station's picture to a scene unit, for a loupe of 620 pixels a side.
const STATION_SCALE: f32 = 1.0 / 620.0;

/// Every picture of a question, `side_px` pixels a side where the loupe is round: look by look, the
/// chart of a run whole and hour by hour, or the station. Empty where numbers on paper are all there is.
pub fn pictures(question: &Question, side_px: u32) -> Vec<DrillPicture> {
    match (question.kind(), question.looks()) {
        (DrillKind::Station, [look, ..]) => {
            let scale = (side_px as f32 * STATION_SCALE).clamp(0.1, 4.0);
            let pixels = still::whole(&look.view, scale, PHASE);
            vec![DrillPicture { name: "station".to_owned(), pixels }]
        }
        (DrillKind::ChartMean, [look, ..]) => {
            let whole = (KeptChart::Whole, "chart".to_owned());
            let hours = (0..24_u32)
                .map(|hour| (KeptChart::Hour(f64::from(hour) + 0.5), format!("hour-{hour:02}-30")));
            std::iter::once(whole)
                .chain(hours)
                .map(|(held, name)| DrillPicture {
                    name,
                    pixels: chart(question, look, held, side_px),
                })
                .collect()
        }
        (_, looks) => looks
            .iter()
            .enumerate()
            .map(|(at, look)| DrillPicture {
                name: format!("look-{}", at + 1),
                pixels: look_at(question, look, side_px),
            })
            .collect(),
    }
}

/// One look through the loupe.
pub fn look_at(question: &Question, look: &DrillLook, side_px: u32) -> Pixmap {
    // Of looks that follow each other all are held where the first one was: so it is seen to move.
    let held = question.looks().first().map_or(look, |first| first);
    let gaze = match question.kind() {
        DrillKind::WaterAtRest | DrillKind::PenAtRest => {
            Gaze::on(&held.view).followed(&look.view, look.at_s)
        }
        _ => Gaze::on(&look.view),
    };
    let lens = Lens { size_px: side_px, text_scale: 1.0, zoom: 1.0 };
    loupe::paint_through(lens, gaze, &look.view, &question.papers())
}

/// The chart of a run, held whole or at an hour.
pub fn chart(question: &Question, look: &DrillLook, held: KeptChart, side_px: u32) -> Pixmap {
    let gaze = Gaze::on(&look.view).holding(Some(held));
    loupe::paint_from(gaze, &look.view, &question.papers(), side_px, 1.0)
}
