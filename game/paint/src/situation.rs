//! A small picture of a site as one finds it: the roof with the sampler, what lies behind it, the weather
//! and the season. It shows no more than the card beside it tells.

use resvg::tiny_skia::{Color, Path, PathBuilder, Pixmap};
use sim_core::scenario::site_look::{LOWLAND_M, MOUNTAINS_M, Season, SiteLook};

use super::canvas::{Canvas, LineWeight, polygon_path};
use super::night;
use super::palette::{
    COPPER_WASH, GLASS, INK, INK_FAINT, INK_SOFT, PAGE, PaletteColor, STEEL, STEEL_SHADE, WATER,
    WOOD, WOOD_SHADE,
};

/// Size of the picture, units.
pub const SIZE: (f32, f32) = (300.0, 92.0);
/// Height of the roof on which the sampler stands.
const ROOF: f32 = 78.0;
/// The line where land and sky meet.
const HORIZON: f32 = 62.0;

/// The picture of a site, `scale` pixels to a unit. `variety` chooses between shapes that mean nothing, so
/// that two sites do not look alike.
pub fn paint(look: &SiteLook, variety: u64, scale: f32) -> Pixmap {
    let (width, height) = ((SIZE.0 * scale).ceil() as u32, (SIZE.1 * scale).ceil() as u32);
    let mut canvas = Canvas::new(width.max(1), height.max(1), scale);
    let mut shapes = Variety(variety);
    canvas.wash(sky_of(look));
    sky(&mut canvas, look, &mut shapes);
    land(&mut canvas, look, &mut shapes);
    trees(&mut canvas, look, &mut shapes);
    roof(&mut canvas, look, &mut shapes);
    sampler(&mut canvas);
    if look.freezes && !look.sunny {
        snow(&mut canvas, &mut shapes);
    }
    let dark = night::dark(look.hours);
    if dark > 0.0 {
        canvas.rect((0.0, 0.0), SIZE, INK.faded(dark), None);
    }
    canvas.finish()
}

/// A row of numbers that a number begins: an even spread, the same each time.
struct Variety(u64);

impl Variety {
    /// The next number, 0 to 1.
    fn next(&mut self) -> f32 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 40) as f32 / (1_u32 << 24) as f32
    }

    /// A number of a range.
    fn within(&mut self, low: f32, high: f32) -> f32 {
        low + (high - low) * self.next()
    }
}

fn sky_of(look: &SiteLook) -> Color {
    let clear = if look.sunny { PAGE } else { GLASS };
    let low_sun = look.hours < 8.0 || look.hours > 17.0;
    let tint = if low_sun { COPPER_WASH } else { WATER };
    clear.towards(tint, if low_sun { 0.35 } else { 0.10 }).color()
}

fn sky(canvas: &mut Canvas, look: &SiteLook, shapes: &mut Variety) {
    if look.sunny {
        // It climbs until noon and sinks after it.
        let share = ((look.hours - 6.0) / 12.0).clamp(0.05, 0.95) as f32;
        let at = (SIZE.0 * share, 44.0 - 30.0 * (std::f32::consts::PI * share).sin());
        canvas.disc(at, 9.0, COPPER_WASH.color(), Some((INK.color(), LineWeight::THIN)));
        for ray in 0..12 {
            let from = super::canvas::on_circle(at, 12.0, 30.0 * ray as f32);
            let to = super::canvas::on_circle(at, 16.0, 30.0 * ray as f32);
            canvas.line(from, to, INK_SOFT.color(), LineWeight::FINE);
        }
    }
    let clouds = if look.sunny { 1 } else { 4 };
    for _ in 0..clouds {
        let at = (shapes.within(10.0, SIZE.0 - 60.0), shapes.within(14.0, 34.0));
        cloud(canvas, at, shapes.within(0.7, 1.3), look);
    }
    if look.windy {
        for row in 0..4 {
            let (x, y) = (shapes.within(20.0, 180.0), 16.0 + 9.0 * row as f32);
            let mut path = PathBuilder::new();
            path.move_to(x, y);
            path.cubic_to(x + 26.0, y - 5.0, x + 44.0, y + 5.0, x + 72.0, y - 2.0);
            stroke(canvas, path.finish(), INK_SOFT, LineWeight::FINE);
        }
    }
}

fn cloud(canvas: &mut Canvas, (x, y): (f32, f32), size: f32, look: &SiteLook) {
    let mut path = PathBuilder::new();
    path.move_to(x, y + 12.0 * size);
    path.cubic_to(
        x - 8.0 * size,
        y + 2.0 * size,
        x + 6.0 * size,
        y - 2.0 * size,
        x + 10.0 * size,
        y + 3.0 * size,
    );
    path.cubic_to(
        x + 16.0 * size,
        y - 8.0 * size,
        x + 32.0 * size,
        y - 4.0 * size,
        x + 32.0 * size,
        y + 4.0 * size,
    );
    path.cubic_to(
        x + 44.0 * size,
        y + 2.0 * size,
        x + 46.0 * size,
        y + 12.0 * size,
        x + 40.0 * size,
        y + 12.0 * size,
    );
    path.close();
    let Some(path) = path.finish() else { return };
    let fill = if look.sunny { PAGE } else { STEEL };
    canvas.fill(&path, fill.color());
    canvas.stroke(&path, INK_FAINT.color(), LineWeight::THIN);
}

/// What lies behind the roof: a plain, hills or mountains.
fn land(canvas: &mut Canvas, look: &SiteLook, shapes: &mut Variety) {
    let ground = ground_of(look);
    let outline = Some((INK_FAINT.color(), LineWeight::THIN));
    if look.elevation_m >= MOUNTAINS_M {
        for range in 0..2 {
            let mut points = vec![(0.0, SIZE.1)];
            let mut x = -10.0;
            while x < SIZE.0 + 30.0 {
                let high = shapes.within(14.0, 34.0) - 8.0 * range as f32;
                points.push((x, HORIZON - 4.0));
                points.push((x + 18.0, HORIZON - high));
                // Snow lies above the tree line for most of the year.
                if look.season != Season::Summer && range == 0 {
                    let peak = (x + 18.0, HORIZON - high);
                    let white = [peak, (peak.0 - 6.0, peak.1 + 9.0), (peak.0 + 6.0, peak.1 + 9.0)];
                    canvas.polygon(&white, PAGE.color(), None);
                }
                x += shapes.within(30.0, 46.0);
            }
            points.push((SIZE.0, SIZE.1));
            let tone = if range == 0 { STEEL_SHADE } else { ground };
            canvas.polygon(&points, tone.color(), outline);
        }
    } else if look.elevation_m >= LOWLAND_M {
        let mut path = PathBuilder::new();
        path.move_to(0.0, SIZE.1);
        path.line_to(0.0, HORIZON - shapes.within(4.0, 10.0));
        let (first, second) = (shapes.within(10.0, 22.0), shapes.within(8.0, 20.0));
        path.cubic_to(50.0, HORIZON - first, 90.0, HORIZON - first, 150.0, HORIZON - 3.0);
        path.cubic_to(200.0, HORIZON - second, 250.0, HORIZON - second, SIZE.0, HORIZON - 4.0);
        path.line_to(SIZE.0, SIZE.1);
        path.close();
        if let Some(path) = path.finish() {
            canvas.fill(&path, ground.color());
            canvas.stroke(&path, INK_FAINT.color(), LineWeight::THIN);
        }
    } else {
        canvas.rect((-2.0, HORIZON), (SIZE.0 + 4.0, SIZE.1), ground.color(), outline);
        for _ in 0..5 {
            let x = shapes.within(0.0, SIZE.0);
            let y = shapes.within(HORIZON + 3.0, ROOF - 4.0);
            canvas.line((x, y), (x + 14.0, y), INK_FAINT.color(), LineWeight::FINE);
        }
    }
}

const fn is_green(season: Season) -> bool {
    matches!(season, Season::Spring | Season::Summer)
}

fn ground_of(look: &SiteLook) -> PaletteColor {
    let bare = match look.season {
        Season::Spring => WATER.towards(WOOD, 0.72),
        Season::Summer => WATER.towards(WOOD, 0.60),
        Season::Autumn => WOOD_SHADE.towards(WOOD, 0.5),
        Season::Winter => STEEL.towards(WOOD, 0.3),
    };
    if look.freezes { PAGE.towards(STEEL, 0.4) } else { bare }
}

/// A few trees, in leaf or bare.
fn trees(canvas: &mut Canvas, look: &SiteLook, shapes: &mut Variety) {
    // Above the tree line there is none.
    if look.elevation_m > 2200.0 {
        return;
    }
    let lean = if look.windy { 5.0 } else { 0.0 };
    let count = 2 + (3.0 * shapes.next()) as usize;
    for _ in 0..count {
        let left = shapes.next() < 0.5;
        let x = if left { shapes.within(8.0, 60.0) } else { shapes.within(225.0, 292.0) };
        let top = HORIZON - shapes.within(12.0, 20.0);
        let foot = HORIZON + shapes.within(2.0, 8.0);
        canvas.line((x, foot), (x + 0.6 * lean, top + 6.0), INK.color(), LineWeight::THIN);
        let leaf = match look.season {
            _ if look.freezes => None,
            Season::Winter => None,
            Season::Autumn => Some(COPPER_WASH.towards(WOOD_SHADE, 0.3)),
            _ => Some(WATER.towards(WOOD, 0.45)),
        };
        match leaf {
            Some(leaf) => {
                let crown = (x + lean, top + 4.0);
                canvas.disc(crown, 7.5, leaf.color(), Some((INK.color(), LineWeight::THIN)));
            }
            None => {
                for twig in [-6.0, -2.5, 2.5, 6.0] {
                    let end = (x + lean + twig, top - 2.0 + 0.4 * twig.abs());
                    canvas.line((x + 0.4 * lean, top + 9.0), end, INK.color(), LineWeight::FINE);
                }
            }
        }
    }
    if is_green(look.season) && !look.freezes {
        for _ in 0..6 {
            let (x, y) =
                (shapes.within(4.0, SIZE.0 - 4.0), shapes.within(HORIZON + 6.0, ROOF - 3.0));
            canvas.line((x, y), (x + 1.5, y - 4.0), INK_FAINT.color(), LineWeight::FINE);
            canvas.line((x + 3.0, y), (x + 2.5, y - 3.5), INK_FAINT.color(), LineWeight::FINE);
        }
    }
}

/// The roof's edge, and what else stands on it.
fn roof(canvas: &mut Canvas, look: &SiteLook, shapes: &mut Variety) {
    let outline = Some((INK.color(), LineWeight::MEDIUM));
    let top = if look.freezes { PAGE } else { STEEL };
    canvas.rect((-4.0, ROOF), (SIZE.0 + 8.0, SIZE.1), WOOD.color(), outline);
    canvas.rect((-4.0, ROOF - 4.0), (SIZE.0 + 8.0, 5.0), top.color(), outline);
    if let Some(wall) =
        polygon_path(&[(0.0, ROOF + 3.0), (SIZE.0, ROOF + 3.0), (SIZE.0, SIZE.1), (0.0, SIZE.1)])
    {
        canvas.hatch(&wall, 0.0, 6.0, WOOD_SHADE.color(), LineWeight::FINE);
    }
    let x =
        if shapes.next() < 0.5 { shapes.within(24.0, 90.0) } else { shapes.within(200.0, 262.0) };
    match (4.0 * shapes.next()) as u8 {
        0 => {
            canvas.rect((x, ROOF - 22.0), (14.0, 18.0), WOOD.color(), outline);
            canvas.rect((x - 2.0, ROOF - 25.0), (18.0, 4.0), STEEL_SHADE.color(), outline);
        }
        1 => {
            canvas.line((x, ROOF - 4.0), (x, ROOF - 40.0), INK.color(), LineWeight::THIN);
            for arm in [0.0, 7.0, 14.0] {
                let y = ROOF - 38.0 + arm;
                canvas.line((x - 8.0, y), (x + 8.0, y), INK.color(), LineWeight::FINE);
            }
        }
        2 => {
            canvas.rect((x, ROOF - 14.0), (26.0, 10.0), STEEL_SHADE.color(), outline);
            for slat in 0..4 {
                let at = x + 5.0 + 5.5 * slat as f32;
                canvas.line(
                    (at, ROOF - 12.0),
                    (at, ROOF - 6.0),
                    INK_SOFT.color(),
                    LineWeight::FINE,
                );
            }
        }
        _ => {
            for post in 0..4 {
                let at = x + 12.0 * post as f32;
                canvas.line((at, ROOF - 4.0), (at, ROOF - 16.0), INK.color(), LineWeight::THIN);
            }
            canvas.line((x, ROOF - 15.0), (x + 36.0, ROOF - 15.0), INK.color(), LineWeight::THIN);
            canvas.line((x, ROOF - 10.0), (x + 36.0, ROOF - 10.0), INK.color(), LineWeight::FINE);
        }
    }
}

/// The sampler: a box on legs under a gabled lid.
fn sampler(canvas: &mut Canvas) {
    let (x, foot) = (150.0, ROOF - 4.0);
    let outline = Some((INK.color(), LineWeight::MEDIUM));
    for leg in [-9.0, 9.0] {
        canvas.line((x + leg, foot), (x + leg, foot - 6.0), INK.color(), LineWeight::MEDIUM);
    }
    canvas.rect((x - 12.0, foot - 28.0), (24.0, 22.0), STEEL.color(), outline);
    canvas.polygon(
        &[
            (x - 18.0, foot - 28.0),
            (x + 18.0, foot - 28.0),
            (x + 14.0, foot - 36.0),
            (x, foot - 44.0),
            (x - 14.0, foot - 36.0),
        ],
        STEEL_SHADE.color(),
        outline,
    );
    canvas.disc((x, foot - 17.0), 6.5, PAGE.color(), Some((INK.color(), LineWeight::THIN)));
    canvas.line((x, foot - 17.0), (x + 4.0, foot - 21.0), INK.color(), LineWeight::THIN);
}

fn snow(canvas: &mut Canvas, shapes: &mut Variety) {
    for _ in 0..26 {
        let at = (shapes.within(2.0, SIZE.0 - 2.0), shapes.within(4.0, ROOF - 8.0));
        canvas.disc(at, 1.1, PAGE.color(), Some((INK_FAINT.color(), LineWeight(0.5))));
    }
}

fn stroke(canvas: &mut Canvas, path: Option<Path>, hue: PaletteColor, line: LineWeight) {
    if let Some(path) = path {
        canvas.stroke(&path, hue.color(), line);
    }
}

#[cfg(test)]
mod tests {
    use sim_core::scenario::site_look::{Season, SiteLook};

    use super::{SIZE, paint};

    const LOOK: SiteLook = SiteLook {
        season: Season::Summer,
        hours: 10.0,
        elevation_m: 50.0,
        freezes: false,
        windy: false,
        sunny: true,
    };

    #[test]
    fn each_part_of_a_look_is_seen() {
        let usual = paint(&LOOK, 7, 1.0);
        assert_eq!((usual.width(), usual.height()), (SIZE.0 as u32, SIZE.1 as u32));
        assert!(usual == paint(&LOOK, 7, 1.0), "the same look gives the same picture");
        let others = [
            SiteLook { season: Season::Winter, ..LOOK },
            SiteLook { hours: 4.5, ..LOOK },
            SiteLook { elevation_m: 400.0, ..LOOK },
            SiteLook { elevation_m: 1500.0, ..LOOK },
            SiteLook { freezes: true, ..LOOK },
            SiteLook { windy: true, ..LOOK },
            SiteLook { sunny: false, ..LOOK },
        ];
        for other in others {
            let picture = paint(&other, 7, 1.0);
            let pixels = usual.pixels().iter().zip(picture.pixels());
            let different = pixels.filter(|(one, other)| one != other).count();
            assert!(different > 200, "{other:?}: only {different} pixels differ");
        }
        assert!(usual != paint(&LOOK, 8, 1.0), "two sites do not look alike");
    }
}
