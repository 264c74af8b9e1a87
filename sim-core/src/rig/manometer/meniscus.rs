//! Where the meniscus of water in a glass tube is, and where it appears to the eye.

/// Length of an inch, mm (exact).
const MM_PER_IN: f64 = 25.4;

/// Capillary rise of the lowest edge of water in a clean glass tube, mm, from its bore in mm.
///
/// h = 2 s cos(q) / (rho g r) - (0.325 mm + 0.145 r): Jurin's law (MEMORY) with s 0.0728 N/m, q 20
/// degrees, rho 998.2 kg/m3, r the radius, minus a correction for the flattened meniscus fitted to
/// the Young-Laplace equation (computed: 3.90 mm at 6.0 mm bore, 3.16 at 7.0, 2.59 at 8.0). Range 5
/// to 10 mm. It cancels between equal legs.
pub fn capillary_rise_mm(bore_mm: f64) -> f64 {
    /// 2 s cos(20 degrees) / (rho g), mm2.
    const JURIN_MM2: f64 = 13.977;
    let radius_mm = 0.5 * bore_mm;
    JURIN_MM2 / radius_mm - (0.325 + 0.145 * radius_mm)
}

/// Height of the upper rim of the meniscus above its lowest edge, mm, from the bore in mm.
///
/// 1.8 mm at 6 mm bore to 2.3 mm at 8 mm, linear in between and beyond (computed from the
/// Young-Laplace equation), kept within 0.5 and 3 mm.
pub fn meniscus_depth_mm(bore_mm: f64) -> f64 {
    (1.8 + 0.25 * (bore_mm - 6.0)).clamp(0.5, 3.0)
}

/// Apparent shift of a meniscus on the scale, inches, with the eye `eye_mm` above it.
///
/// -eye gap / distance: the scale is 6 mm behind the axis of the column, the eye 350 mm in front of
/// it (both CHOSEN), so an eye above the level sees the water too low.
pub fn parallax_in(eye_mm: f64) -> f64 {
    /// From the column's axis back to the scale, mm (CHOSEN).
    const GAP_MM: f64 = 6.0;
    /// From the eye to the column's axis, mm (CHOSEN).
    const DISTANCE_MM: f64 = 350.0;
    -eye_mm * GAP_MM / DISTANCE_MM / MM_PER_IN
}

#[cfg(test)]
mod tests {
    use super::{capillary_rise_mm, meniscus_depth_mm, parallax_in};

    #[test]
    fn the_rise_is_that_of_young_and_laplace() {
        for (bore_mm, rise_mm) in [(6.0, 3.90), (7.0, 3.16), (8.0, 2.59)] {
            assert!((capillary_rise_mm(bore_mm) - rise_mm).abs() < 0.01);
        }
    }

    #[test]
    fn rim_and_eye_shift_by_their_amounts() {
        assert!((meniscus_depth_mm(8.0) - 2.3).abs() < 1e-12);
        assert!((parallax_in(150.0) + 150.0 * 6.0 / 350.0 / 25.4).abs() < 1e-12);
    }
}
