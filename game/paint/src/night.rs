//! How dark it is at an hour of the day.

/// The sun is down until this hour, and it is light an hour and a half later (CHOSEN: a mean day of
/// the year).
const DAWN_H: f64 = 5.25;
/// It begins to grow dark at this hour (CHOSEN).
const DUSK_H: f64 = 18.75;
/// How long dawn and dusk take, hours (CHOSEN).
const TWILIGHT_H: f64 = 1.5;
/// The most of the drawing that the night covers: everything is still seen (CHOSEN).
const DARKEST: f64 = 0.38;

/// How much of the drawing the dark covers, from 0 by day, at an hour of the day (0 to 24).
pub fn dark(hours: f64) -> f32 {
    let light = ((hours - DAWN_H) / TWILIGHT_H).min((DUSK_H + TWILIGHT_H - hours) / TWILIGHT_H);
    (DARKEST * (1.0 - light.clamp(0.0, 1.0))) as f32
}

#[cfg(test)]
mod tests {
    use super::{DARKEST, dark};

    #[test]
    fn nights_are_dark_and_days_are_light() {
        assert!(dark(12.0) <= 0.0 && dark(8.0) <= 0.0);
        assert!((f64::from(dark(0.0)) - DARKEST).abs() < 1e-6);
        assert!((f64::from(dark(23.9)) - DARKEST).abs() < 1e-6);
        assert!(dark(6.0) > 0.0 && dark(6.0) < dark(5.0));
    }
}
