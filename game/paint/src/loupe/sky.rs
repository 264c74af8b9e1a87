//! The sky over the roof: sun or clouds, wind, and thunder.

use super::field_of_view::{CENTRE, RADIUS, SHEET, Subject, caption};
use crate::canvas::{Canvas, LineWeight, circle_path};
use crate::palette;
use crate::scene::{drawing, piece};

/// The part of the scene that is sky: its middle, and how far it reaches.
const MIDDLE: (f32, f32) = (830.0, 190.0);
const REACH: f32 = 300.0;

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject) {
    let sky = subject.view.sky;
    canvas.wash(palette::SKY.color());
    let thunder = sky.thunder_since_s.is_some();
    for (name, wanted) in [("backdrop", true), ("sun", sky.sunny), ("storm", thunder)] {
        let drawn = piece(name).and_then(|piece| Some((piece, drawing(piece)?)));
        if let (Some((piece, tree)), true) = (drawn, wanted) {
            let scale = RADIUS / REACH;
            let corner =
                (CENTRE.0 + scale * (piece.x - MIDDLE.0), CENTRE.1 + scale * (piece.y - MIDDLE.1));
            let by = canvas.transform().pre_translate(corner.0, corner.1).pre_scale(scale, scale);
            resvg::render(&tree, by, &mut canvas.pixmap_mut().as_mut());
        }
    }
    if !sky.sunny {
        let clouds = [(170.0, 54.0, 1.25), (222.0, 100.0, 0.8), (66.0, 76.0, 1.0)];
        // The last one would be in front of the thundercloud.
        let count = if thunder { 2 } else { 3 };
        for (x, y, size) in clouds.into_iter().take(count) {
            cloud(canvas, x, y, size);
        }
    }
    wind(canvas, sky.wind);
    let words = match (thunder, sky.sunny) {
        (true, _) => "thunder",
        (false, true) => "sunny",
        (false, false) => "cloudy",
    };
    caption(canvas, subject, words);
}

fn cloud(canvas: &mut Canvas, x: f32, y: f32, size: f32) {
    let lumps = [(-26.0, 4.0, 13.0), (-10.0, -7.0, 17.0), (10.0, -4.0, 15.0), (26.0, 5.0, 12.0)];
    let at = |(dx, dy, r): (f32, f32, f32)| ((x + dx * size, y + dy * size), r * size);
    for lump in lumps {
        let (centre, radius) = at(lump);
        canvas.ring(centre, radius, palette::INK_SOFT.color(), LineWeight::MEDIUM);
    }
    for lump in lumps {
        let (centre, radius) = at(lump);
        canvas.disc(centre, radius - 0.8, palette::STEEL.color(), None);
    }
    if let Some(shade) = circle_path((x + 8.0 * size, y + 2.0 * size), 9.0 * size) {
        canvas.hatch(&shade, 45.0, 4.0, palette::INK_FAINT.color(), LineWeight::FINE);
    }
}

/// Streaks of the wind: more of them and longer, the stronger it is felt.
fn wind(canvas: &mut Canvas, felt: f64) {
    let count = (felt.clamp(0.0, 1.0) * 6.0).round() as u8;
    for streak in 0..count {
        let y = 120.0 + 17.0 * f32::from(streak);
        let x = 46.0 + 34.0 * f32::from(streak % 3);
        let length = (40.0 + 70.0 * felt.clamp(0.0, 1.0)) as f32;
        let points: Vec<(f32, f32)> = (0..=16_u8)
            .map(|step| {
                let share = f32::from(step) / 16.0;
                (x + share * length, y + 4.0 * (share * 6.0).sin())
            })
            .filter(|point| point.0 < SHEET)
            .collect();
        canvas.polyline(&points, palette::AIR.color(), LineWeight::THIN);
    }
}
