//! High contrast: what is dark becomes black, what is light becomes white, and only what is neither
//! keeps a colour. Applied to finished pictures, so that every drawing has it, whoever made it.

use super::palette::PaletteColor;

/// What is as dark as this becomes black.
const BLACK: f32 = 48.0;
/// What is as light as this becomes white.
const WHITE: f32 = 216.0;
/// Darkens what lies between.
const STEEPNESS: f32 = 1.5;

/// A channel of a colour in high contrast.
fn raised_channel(channel: u8) -> u8 {
    let share = ((f32::from(channel) - BLACK) / (WHITE - BLACK)).clamp(0.0, 1.0);
    (share.powf(STEEPNESS) * 255.0).round() as u8
}

/// A colour in high contrast.
pub fn raised(color: PaletteColor) -> PaletteColor {
    PaletteColor {
        red: raised_channel(color.red),
        green: raised_channel(color.green),
        blue: raised_channel(color.blue),
    }
}

/// Raises the contrast of pixels of four bytes each, the last of which is how opaque it is and stays.
pub fn raise(straight: &mut [u8]) {
    let channels: Vec<u8> = (0..=u8::MAX).map(raised_channel).collect();
    for pixel in straight.chunks_exact_mut(4) {
        for channel in pixel.iter_mut().take(3) {
            if let Some(raised) = channels.get(usize::from(*channel)) {
                *channel = *raised;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{raise, raised};
    use crate::palette::{
        ALL, CHART_INK, CHART_PAPER, COPPER, GLASS, INK, INK_SOFT, PAGE, PEN_INK, WATER,
    };

    #[test]
    fn what_is_read_stands_out_by_seven_to_one() {
        for (ink, ground) in [
            (INK, CHART_PAPER),
            (INK_SOFT, PAGE),
            (CHART_INK, CHART_PAPER),
            (PEN_INK, CHART_PAPER),
            (WATER, GLASS),
            (COPPER, PAGE),
        ] {
            let contrast = raised(ink).contrast(raised(ground));
            assert!(contrast >= 7.0, "{ink:?} on {ground:?}: {contrast:.1}");
            assert!(contrast > ink.contrast(ground), "{ink:?} on {ground:?} gains nothing");
        }
    }

    #[test]
    fn pictures_and_palette_have_the_same_colours_and_pixels_stay_as_opaque() {
        for (name, color) in ALL {
            let mut pixel = [color.red, color.green, color.blue, 77];
            raise(&mut pixel);
            let wanted = raised(*color);
            assert_eq!(pixel, [wanted.red, wanted.green, wanted.blue, 77], "{name}");
        }
    }
}
