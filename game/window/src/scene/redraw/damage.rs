//! What has to be drawn anew between one frame and the next: the difference of two lists of what is
//! drawn, as a few rectangles.

use std::collections::HashMap;

use bevy::math::Rect;

/// Most rectangles that are drawn apart; more of them are drawn as one.
const MOST_PARTS: usize = 6;
/// Share of the window from which on it is drawn whole.
const WHOLE_SHARE: f32 = 0.6;

/// Something that is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drawn {
    /// Where, pixels of the window.
    pub bounds: Rect,
    /// A digest of all that decides its pixels, its place included.
    pub looks: u64,
}

/// What has to be drawn anew.
#[derive(Debug, Clone, PartialEq)]
pub enum Damage {
    /// Everything.
    Whole,
    /// What lies in these rectangles, whole pixels each; none when nothing has changed.
    Parts(Vec<Rect>),
}

/// The difference of two frames, each given from back to front, in a window of a size.
pub fn damage(before: &[Drawn], now: &[Drawn], window: Rect) -> Damage {
    let mut there: HashMap<u64, usize> = HashMap::with_capacity(before.len());
    for drawn in before {
        *there.entry(drawn.looks).or_default() += 1;
    }
    let mut rects = Vec::new();
    let mut kept_now = Vec::with_capacity(now.len());
    for drawn in now {
        match there.get_mut(&drawn.looks).filter(|count| **count > 0) {
            Some(count) => {
                *count -= 1;
                kept_now.push(drawn.looks);
            }
            None => rects.push(drawn.bounds),
        }
    }
    let mut kept_before = Vec::with_capacity(before.len());
    for drawn in before {
        match there.get_mut(&drawn.looks).filter(|count| **count > 0) {
            Some(count) => {
                *count -= 1;
                rects.push(drawn.bounds);
            }
            None => kept_before.push(drawn.looks),
        }
    }
    // What stays may still have changed places with what lies over it.
    if kept_before != kept_now {
        return Damage::Whole;
    }
    let parts = merged(rects, window);
    let area: f32 = parts.iter().map(area).sum();
    if area > WHOLE_SHARE * self::area(&window) { Damage::Whole } else { Damage::Parts(parts) }
}

/// The rectangles in whole pixels within the window, joined until none lies on another.
fn merged(rects: Vec<Rect>, window: Rect) -> Vec<Rect> {
    let mut parts: Vec<Rect> = Vec::new();
    for rect in rects {
        let rect = Rect { min: rect.min.floor(), max: rect.max.ceil() }.intersect(window);
        if !rect.is_empty() {
            put(&mut parts, rect);
        }
    }
    while parts.len() > MOST_PARTS {
        let (Some(a), Some(b)) = (parts.pop(), parts.pop()) else { break };
        put(&mut parts, a.union(b));
    }
    parts
}

/// Puts a rectangle among others, joined with each that it lies on.
fn put(parts: &mut Vec<Rect>, mut rect: Rect) {
    while let Some(at) = parts.iter().position(|part| !part.intersect(rect).is_empty()) {
        rect = rect.union(parts.swap_remove(at));
    }
    parts.push(rect);
}

fn area(rect: &Rect) -> f32 {
    rect.width() * rect.height()
}

#[cfg(test)]
mod tests {
    use super::{Damage, Drawn, MOST_PARTS, damage};
    use bevy::math::Rect;

    const WINDOW: Rect = Rect { min: bevy::math::Vec2::ZERO, max: bevy::math::Vec2::splat(1000.0) };

    fn drawn(x: f32, y: f32, looks: u64) -> Drawn {
        Drawn { bounds: Rect::new(x, y, x + 10.0, y + 10.0), looks }
    }

    #[test]
    fn nothing_is_drawn_anew_where_nothing_has_changed() {
        let frame = [drawn(0.0, 0.0, 1), drawn(5.0, 5.0, 2), drawn(5.0, 5.0, 2)];
        assert_eq!(damage(&frame, &frame, WINDOW), Damage::Parts(Vec::new()));
    }

    #[test]
    fn what_moved_is_drawn_where_it_was_and_where_it_is() {
        let before = [drawn(0.0, 0.0, 1), drawn(100.5, 40.0, 2)];
        let now = [drawn(0.0, 0.0, 1), drawn(300.0, 40.0, 3)];
        let Damage::Parts(mut parts) = damage(&before, &now, WINDOW) else { panic!("whole") };
        parts.sort_by(|a, b| a.min.x.total_cmp(&b.min.x));
        let (was, is) = (Rect::new(100.0, 40.0, 111.0, 50.0), Rect::new(300.0, 40.0, 310.0, 50.0));
        assert_eq!(parts, [was, is], "in whole pixels");
    }

    #[test]
    fn what_changed_its_place_among_others_has_everything_drawn_anew() {
        let (a, b) = (drawn(0.0, 0.0, 1), drawn(5.0, 5.0, 2));
        assert_eq!(damage(&[a, b], &[b, a], WINDOW), Damage::Whole);
    }

    #[test]
    fn parts_are_few_and_lie_apart() {
        let now: Vec<Drawn> = (0..40)
            .map(|n| drawn((n * 37 % 400) as f32, (n * 53 % 300) as f32, 100 + n as u64))
            .collect();
        let Damage::Parts(parts) = damage(&[], &now, WINDOW) else { panic!("whole") };
        assert!(parts.len() <= MOST_PARTS);
        for (at, part) in parts.iter().enumerate() {
            for other in &parts[at + 1..] {
                assert!(part.intersect(*other).is_empty(), "{part:?} on {other:?}");
            }
        }
        for one in now {
            assert!(
                parts.iter().any(|part| part.union(one.bounds) == *part),
                "{one:?} is left out"
            );
        }
    }

    #[test]
    fn most_of_the_window_is_the_whole_of_it() {
        let large = Drawn { bounds: Rect::new(0.0, 0.0, 900.0, 900.0), looks: 9 };
        assert_eq!(damage(&[], &[large], WINDOW), Damage::Whole);
        let beside = Drawn { bounds: Rect::new(-50.0, 0.0, -10.0, 900.0), looks: 9 };
        assert_eq!(damage(&[], &[beside], WINDOW), Damage::Parts(Vec::new()));
    }
}
