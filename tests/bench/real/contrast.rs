//! Contrast by measurement on the screen: of every text against what it stands on, and of the marks
//! of every scale against theirs, as WCAG 2.2 defines it. Everything is drawn twice as large, so that
//! strokes are wider than the smoothing at their edges.
#![allow(clippy::print_stdout, reason = "what was measured is there to be looked at")]

use std::collections::HashMap;

use window::ui::told::Told;

use super::glass;
use super::hands::Hands;
use super::keyboard::Keyboard;
use super::resumed;
use super::screen::{Screen, pause};
use crate::bench::paint::picture::Picture;

const SIZE: (u32, u32) = (2560, 1600);
const SCALE: u32 = 2;
/// Least contrast of text.
const TEXT: f64 = 4.5;
/// Least contrast of marks on a scale.
const MARK: f64 = 3.0;
/// The same in high contrast.
const MARK_HIGH: f64 = 4.5;
/// In high contrast the ground of the drawing is as light as this at least, and its ink as dark as this
/// at most.
const WHITE_AND_BLACK: (f64, f64) = (0.9, 0.01);
/// Most looks at what does not stand there yet: a machine under load draws late.
const LOOKS: u32 = 25;
/// From which contrast on something is a mark and no texture.
const SEEN: f64 = 1.6;

/// A copy of the screen.
struct Shot {
    width: usize,
    pixels: Vec<u8>,
}

impl Shot {
    fn of(screen: &Screen) -> Self {
        let (width, height) = screen.size;
        Self { width: width as usize, pixels: screen.pixels(0, 0, width, height) }
    }

    fn at(&self, x: usize, y: usize) -> [u8; 3] {
        let at = (y * self.width + x) * 4;
        [self.pixels[at], self.pixels[at + 1], self.pixels[at + 2]]
    }

    /// Contrast of the strongest ink in a rectangle with its commonest colour.
    fn contrast(&self, [left, top, right, foot]: [f32; 4]) -> f64 {
        let mut counts: HashMap<[u8; 3], usize> = HashMap::new();
        for y in top.ceil() as usize..foot.floor() as usize {
            for x in left.ceil() as usize..right.floor() as usize {
                *counts.entry(self.at(x, y)).or_default() += 1;
            }
        }
        let ground = counts.iter().max_by_key(|(_, count)| **count).map(|(colour, _)| *colour);
        let Some(ground) = ground.map(luminance) else { return 1.0 };
        counts.keys().map(|ink| ratio(luminance(*ink), ground)).fold(1.0, f64::max)
    }
}

fn luminance(colour: [u8; 3]) -> f64 {
    let [red, green, blue] = colour.map(|channel| {
        let share = f64::from(channel) / 255.0;
        if share <= 0.040_45 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
    });
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

fn ratio(a: f64, b: f64) -> f64 {
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// Where texts are seen: those that stand by themselves, those on buttons without the line about
/// them, and the numbers of the keys on the hand card, which are set in a colour of their own.
fn texts(told: &[Told]) -> Vec<(String, [f32; 4])> {
    let scene = told.iter().find(|one| one.label == "the station").and_then(|one| one.seen);
    let in_scene = |[left, top, right, foot]: [f32; 4]| {
        scene.is_some_and(|[l, t, r, f]| left >= l && top >= t && right <= r && foot <= f)
    };
    let mut texts = Vec::new();
    for one in told {
        let Some(seen) = one.seen.filter(|[l, t, r, f]| r - l > 16.0 && f - t > 24.0) else {
            continue;
        };
        let [left, top, right, foot] = seen;
        let inner = [left + 8.0, top + 8.0, right - 8.0, foot - 8.0];
        match one.role.as_str() {
            "Label" if !one.value.trim().is_empty() => texts.push((one.value.clone(), seen)),
            "Heading" => texts.push((one.label.clone(), seen)),
            "Button" | "Tab" | "RadioButton" | "CheckBox" if !in_scene(seen) => {
                if one.label.chars().nth(1) == Some(':') {
                    let number = [left + 10.0, top + 8.0, left + 38.0, foot - 8.0];
                    texts.push((format!("number of {}", one.label), number));
                }
                texts.push((one.label.clone(), inner));
            }
            "TextInput" if !one.value.is_empty() => texts.push((one.label.clone(), inner)),
            _ => {}
        }
    }
    texts
}

/// Measures every text that is seen, again when a busy machine has not drawn it yet.
fn texts_hold(hands: &Keyboard, what: &str) {
    for _ in 0..LOOKS {
        pause(800);
        if weakest_text(hands).1.0 >= TEXT {
            break;
        }
    }
    let (count, weakest) = weakest_text(hands);
    println!("{what}: {count} texts, the weakest {weakest:.2?}");
    assert!(count >= 5, "{what}: only {count} texts are seen");
    if weakest.0 < TEXT {
        hands.screen.keep_picture(what);
    }
    assert!(weakest.0 >= TEXT, "{what}: `{}` has a contrast of {:.2}", weakest.1, weakest.0);
}

/// The marks of the loupe, looked at again when a busy machine still draws what was seen before.
fn marks_seen(
    hands: &Keyboard,
    (from, to): ((f64, f64), (f64, f64)),
    least: usize,
    mark: f64,
) -> (usize, f64) {
    let mut seen = (0, 0.0);
    for _ in 0..LOOKS {
        pause(500);
        seen = marks(&glass::picture(&hands.screen), from, to);
        if seen.0 >= least && seen.1 >= mark {
            break;
        }
    }
    seen
}

/// How many texts are seen, and the weakest of them.
fn weakest_text(hands: &Keyboard) -> (usize, (f64, String)) {
    let (told, shot) = (hands.screen.told(), Shot::of(&hands.screen));
    let texts = texts(&told);
    let mut weakest = (f64::INFINITY, String::new());
    for (words, seen) in &texts {
        let contrast = shot.contrast(*seen);
        if contrast < weakest.0 {
            weakest = (contrast, words.clone());
        }
    }
    (texts.len(), weakest)
}

/// The weakest of the marks that a walk over a picture crosses, and how many it crosses.
fn marks(picture: &Picture, from: (f64, f64), to: (f64, f64)) -> (usize, f64) {
    let side = picture.side();
    let steps = (side * 2.0) as usize;
    let walk: Vec<f64> = (0..=steps)
        .map(|step| {
            let share = step as f64 / steps as f64;
            let at = |a: f64, b: f64| (a + (b - a) * share) * side;
            luminance(picture.at(at(from.0, to.0), at(from.1, to.1)).map(|part| part.round() as u8))
        })
        .collect();
    let mut sorted = walk.clone();
    sorted.sort_by(f64::total_cmp);
    // Most of a scale is bare.
    let ground = sorted[sorted.len() * 3 / 4];
    let (mut count, mut weakest, mut strongest) = (0, f64::INFINITY, 0.0_f64);
    // A mark on which the walk begins or ends is seen only in part, and tells nothing.
    let walk = walk.into_iter().map(|here| ratio(here, ground)).skip_while(|here| *here >= SEEN);
    for here in walk {
        if here >= SEEN {
            strongest = strongest.max(here);
        } else if strongest > 0.0 {
            (count, weakest) = (count + 1, weakest.min(strongest));
            strongest = 0.0;
        }
    }
    (count, weakest)
}

/// The station is drawn in black on white.
fn drawing_is_black_on_white(hands: &Keyboard) {
    let told = hands.screen.told();
    let station = told.iter().find(|one| one.label == "the station").and_then(|one| one.seen);
    let [left, top, right, foot] = station.expect("the station is seen").map(|edge| edge as usize);
    let shot = Shot::of(&hands.screen);
    let mut counts: HashMap<[u8; 3], usize> = HashMap::new();
    for y in top..foot {
        for x in left..right {
            *counts.entry(shot.at(x, y)).or_default() += 1;
        }
    }
    let ground = counts.iter().max_by_key(|(_, count)| **count).map(|(colour, _)| *colour);
    let ground = luminance(ground.expect("something is drawn"));
    let inks = counts.keys().map(|colour| luminance(*colour));
    let ink = inks.fold(1.0, f64::min);
    println!("the drawing: ground {ground:.3}, ink {ink:.3}");
    let (white, black) = WHITE_AND_BLACK;
    assert!(ground >= white, "the ground of the drawing has a luminance of {ground:.3}");
    assert!(ink <= black, "the ink of the drawing has a luminance of {ink:.3}");
}

fn contrast_holds(settings: &str) {
    let high = settings.contains("High");
    let mark = if high { MARK_HIGH } else { MARK };
    let screen = Screen::new(SIZE, SCALE);
    let folder = screen.home.path().join(".config/steady-draw");
    std::fs::create_dir_all(&folder).expect("a folder");
    std::fs::write(folder.join("settings.ron"), settings).expect("a file");
    let mut hands = resumed::at_work(screen);
    for page in ["order", "certificate", "air", "points", "line", "set point", "remarks"] {
        hands.press(page);
        texts_hold(&hands, page);
    }
    for (key, sheet) in [("F1", "help"), ("F2", "settings")] {
        hands.screen.tool(&["key", key]);
        texts_hold(&hands, sheet);
        hands.screen.keep_picture(&format!("{settings} {sheet}"));
        hands.screen.tool(&["key", key]);
    }
    // Where a walk crosses the marks of each scale, in shares of the loupe's side.
    for (thing, words, from, to, least) in [
        ("left leg of the manometer", "read it at eye level", (0.515, 0.1), (0.515, 0.9), 8),
        ("barometer", "read the barometer", (0.15, 0.375), (0.85, 0.375), 8),
        ("thermometer", "read the thermometer", (0.507, 0.1), (0.507, 0.9), 5),
        ("pen", "read the pen", (0.3, 0.25), (0.45, 0.65), 5),
    ] {
        hands.act(thing, words);
        let (count, weakest) = marks_seen(&hands, (from, to), least, mark);
        println!("{thing}: {count} marks, the weakest with a contrast of {weakest:.2}");
        hands.screen.keep_picture(&format!("{settings} {thing}"));
        assert!(count >= least, "{thing}: only {count} marks");
        assert!(weakest >= mark, "{thing}: a mark has a contrast of {weakest:.2}");
    }
    if high {
        drawing_is_black_on_white(&hands);
    }
}

#[test]
fn contrast_holds_in_ink_on_paper() {
    contrast_holds("(contrast: Normal)");
}

#[test]
fn contrast_holds_in_black_on_white() {
    contrast_holds("(contrast: High)");
}
