//! A pointer with one button and a wheel, and nothing else.

use std::cell::RefCell;

use super::hands::{
    CALCULATE, Carry, Hands, act_comes, lines, middle, offered, seen, wait_for_act,
};
use super::screen::{Screen, pause};
use super::tally::Tally;
use window::panels::field_book::STRIP;
use window::panels::hand_card::TO_WRITE;
use window::panels::help::COPY;
use window::ui::told::Told;

/// Scene units by which a hand that has hold of the knob's middle turns it by a step: 12 degrees of a grip
/// that is 24 units from its axis.
const STEP_UNITS: f32 = 24.0 * 0.209_44;

/// The pointer.
pub struct Pointer {
    pub screen: Screen,
    at_hand: String,
    /// How often its button was pressed, and on what.
    pub tally: RefCell<Tally>,
}

impl Pointer {
    pub fn new(screen: Screen) -> Self {
        Self { screen, at_hand: String::new(), tally: RefCell::new(Tally::begun("to begin")) }
    }

    fn point(&self, at: (i32, i32)) {
        self.screen.tool(&["mousemove", &at.0.to_string(), &at.1.to_string()]);
        pause(50);
    }

    fn button(&self) {
        self.tally.borrow_mut().add(1);
        self.screen.tool(&["mousedown", "1"]);
        pause(60);
        self.screen.tool(&["mouseup", "1"]);
        pause(90);
    }

    /// Clicks what has a label, brought into sight by the wheel if need be.
    fn click(&mut self, label: &str) {
        self.bring_into_sight(label);
        self.tally.borrow_mut().turn_to(label);
        let told = self.screen.wait_for(label, |told| seen(told, label).is_some());
        self.point_at(seen(&told, label).expect("it is seen"));
        self.button();
    }

    /// Points at something and waits until it is felt.
    fn point_at(&mut self, one: &Told) {
        let at = middle(one);
        self.point(at);
        if one.pointed.is_some() {
            let felt = |told: &Told| told.label == one.label && told.pointed == Some(true);
            self.screen.wait_for("the pointer to be felt", |told| told.iter().any(felt));
        } else {
            pause(200);
        }
    }

    /// Turns the wheel over the book or the hand card until a thing is whole in sight.
    fn bring_into_sight(&mut self, label: &str) {
        let told = self.screen.wait_for(label, |told| told.iter().any(|one| one.label == label));
        let whole = |one: &Told| one.seen.is_some_and(|[_, top, _, foot]| foot - top > 8.0);
        if told.iter().any(|one| one.label == label && whole(one)) {
            return;
        }
        if self.screen.size.0 < 900 {
            self.draw_bar_down_to(label);
            if self.screen.told().iter().any(|one| one.label == label && whole(one)) {
                return;
            }
        }
        let over =
            if offered(&told, label.split_once(": ").map_or("", |(_, words)| words)).is_some() {
                "hand card"
            } else if seen(&told, "field book").is_some() {
                "field book"
            } else {
                label
            };
        for wheel in
            ["5", "5", "5", "5", "5", "5", "5", "5", "4", "4", "4", "4", "4", "4", "4", "4"]
        {
            if let Some(area) = seen(&self.screen.told(), over) {
                self.point(middle(area));
            }
            self.screen.tool(&["click", wheel]);
            pause(150);
            if self.screen.told().iter().any(|one| one.label == label && whole(one)) {
                return;
            }
        }
        self.screen.keep_picture(label);
        panic!("the wheel does not bring `{label}` into sight");
    }

    /// Draws the bar at the right side of a small window down until something is whole in sight. The bar is
    /// felt for from the top: where it stands depends on what was gone to last.
    pub fn draw_bar_down_to(&mut self, label: &str) {
        let (width, height) = self.screen.size;
        let x = i32::try_from(width).unwrap_or(0) - 4;
        let foot = i32::try_from(height).unwrap_or(0) - 10;
        let whole = |told: &Told| told.seen.is_some_and(|[_, top, _, foot]| foot - top > 8.0);
        let there = |told: &[Told]| told.iter().any(|one| one.label == label && whole(one));
        for from in (40..foot).step_by(40) {
            if there(&self.screen.told()) {
                return;
            }
            self.point((x, from));
            pause(200);
            self.screen.tool(&["mousedown", "1"]);
            for y in (from..foot).step_by(20) {
                self.point((x, y));
                pause(120);
                if there(&self.screen.told()) {
                    break;
                }
            }
            self.screen.tool(&["mouseup", "1"]);
            pause(400);
        }
    }

    /// Slides to a number along the strip of the pad: first near it, then, off the strip, finely.
    fn slide_to(&mut self, text: &str) {
        self.tally.borrow_mut().turn_to(STRIP);
        let told = self.screen.wait_for("the strip", |told| seen(told, STRIP).is_some());
        let [left, top, right, foot] = seen(&told, STRIP).and_then(|strip| strip.seen).expect("it");
        let wanted: f64 = text.parse().expect("a number");
        let middle = ((top + foot) / 2.0) as i32;
        // Two looks tell what a pixel of the strip is worth.
        let (near, far) = (left + 0.25 * (right - left), left + 0.75 * (right - left));
        self.point((near as i32, middle));
        self.tally.borrow_mut().add(1);
        self.screen.tool(&["mousedown", "1"]);
        let low = self.slid("a first number", |_| true);
        self.point((far as i32, middle));
        let high = self.slid("another number", |now| (now - low).abs() > 1e-6);
        let per_px = (high - low) / f64::from(far as i32 - near as i32);
        let mut x = near as i32 + ((wanted - low) / per_px).round() as i32;
        self.point((x, middle));
        pause(250);
        // Up and off the strip: there the number moves a tenth as far.
        let off = top as i32 - 40;
        self.point((x, off));
        for _ in 0..40 {
            pause(150);
            let left_over = wanted - self.slid("a number", |_| true);
            if left_over.abs() < 1e-6 {
                break;
            }
            let by = (left_over / (per_px / 10.0)).round() as i32;
            x += if by == 0 { left_over.signum() as i32 } else { by };
            self.point((x, off));
        }
        self.screen.tool(&["mouseup", "1"]);
        self.slid(text, |now| (now - wanted).abs() < 1e-6);
    }

    /// The number that is slid to, once it is as wanted.
    fn slid(&mut self, what: &str, wanted: impl Fn(f64) -> bool) -> f64 {
        let value = |told: &[Told]| seen(told, STRIP).and_then(|strip| strip.value.parse().ok());
        let told = self.screen.wait_for(what, |told| value(told).is_some_and(&wanted));
        value(&told).expect("a number")
    }

    /// Where a point of the scene lies on the screen.
    fn in_scene(&self, at: (f32, f32)) -> (i32, i32) {
        let told = self.screen.told();
        let [left, top, right, _] = seen(&told, "the station").expect("the scene").seen.unwrap();
        let scale = (right - left) / 1120.0;
        ((left + at.0 * scale) as i32, (top + at.1 * scale) as i32)
    }
}

impl Hands for Pointer {
    fn screen(&mut self) -> &mut Screen {
        &mut self.screen
    }

    fn begin(&mut self, title: &str) {
        self.click("F2 settings");
        self.click("Hints: keyboard");
        self.click("close");
        let label = |told: &[Told]| {
            told.iter().find(|one| one.label.starts_with(title)).map(|one| one.label.clone())
        };
        let told = self.screen.wait_for(title, |told| label(told).is_some());
        self.click(&label(&told).expect("a card"));
        self.screen.wait_for("the bench", |told| seen(told, "the station").is_some());
        pause(1500);
    }

    fn act(&mut self, thing: &str, words: &str) {
        if self.at_hand != thing {
            self.click(thing);
        }
        thing.clone_into(&mut self.at_hand);
        let before = lines(&self.screen);
        // A button that moves as it is pressed is missed, and pressed again.
        for _ in 0..3 {
            let told = self.screen.wait_for(words, |told| offered(told, words).is_some());
            self.click(&offered(&told, words).expect("it is offered"));
            if act_comes(&self.screen, before) {
                break;
            }
        }
        wait_for_act(&mut self.screen, before, words);
    }

    fn confirm(&mut self, thing: &str, words: &str) {
        self.click(thing);
        let before = lines(&self.screen);
        for _ in 0..2 {
            let told = self.screen.wait_for(words, |told| offered(told, words).is_some());
            self.click(&offered(&told, words).expect("it is offered"));
            pause(400);
        }
        wait_for_act(&mut self.screen, before, words);
    }

    fn carry(&mut self, carry: &Carry) {
        self.tally.borrow_mut().turn_to(carry.part);
        let told = self.screen.wait_for(carry.part, |told| seen(told, carry.part).is_some());
        let part = seen(&told, carry.part).expect("it is seen");
        let (from, to) = (middle(part), self.in_scene(carry.at));
        let before = lines(&self.screen);
        self.point_at(part);
        self.tally.borrow_mut().add(1);
        self.screen.tool(&["mousedown", "1"]);
        // What is pressed has the focus; only then is it known to be what is dragged.
        let pressed = |told: &Told| told.label == carry.part && told.focus;
        self.screen.wait_for("the press to be felt", |told| told.iter().any(pressed));
        for share in 1..=8 {
            let along = |a: i32, b: i32| a + (b - a) * share / 8;
            self.point((along(from.0, to.0), along(from.1, to.1)));
        }
        wait_for_act(&mut self.screen, before, carry.take);
        pause(300);
        self.screen.tool(&["mouseup", "1"]);
        wait_for_act(&mut self.screen, before + 1, carry.put);
        carry.part.clone_into(&mut self.at_hand);
        pause(400);
    }

    /// By a drag to the side: of a wheel without a device behind it the window hears press and release,
    /// two notches for one.
    fn turn(&mut self, thing: &str, steps: i32) {
        self.tally.borrow_mut().turn_to(thing);
        let told = self.screen.wait_for(thing, |told| seen(told, thing).is_some());
        let one = seen(&told, thing).expect("it is seen").clone();
        let from = middle(&one);
        let [left, _, right, _] =
            seen(&told, "the station").and_then(|scene| scene.seen).expect("the scene");
        let step_px = STEP_UNITS * (right - left) / 1120.0;
        self.point_at(&one);
        self.tally.borrow_mut().add(1);
        self.screen.tool(&["mousedown", "1"]);
        let pressed = |told: &Told| told.label == thing && told.focus;
        self.screen.wait_for("the press to be felt", |told| told.iter().any(pressed));
        for step in 1..=steps.abs() {
            // Open is against the clock: to the left.
            let gone = (-steps.signum() * step) as f32 * step_px;
            self.point((from.0 + gone.round() as i32, from.1));
            pause(120);
        }
        self.screen.tool(&["mouseup", "1"]);
        pause(200);
    }

    fn press(&mut self, label: &str) {
        self.click(label);
    }

    fn write_row(
        &mut self,
        thing: &str,
        fields: &[String],
        value: &mut dyn FnMut(&mut dyn Hands, usize) -> String,
    ) {
        if self.at_hand != thing {
            self.click(thing);
        }
        thing.clone_into(&mut self.at_hand);
        self.click(TO_WRITE);
        for (place, field) in fields.iter().enumerate() {
            let there = |told: &Told| told.label == *field && told.focus;
            self.screen.wait_for(field, |told| told.iter().any(there));
            let text = value(self, place);
            self.slide_to(&text);
            self.click("key: next field");
        }
        self.at_hand.clear();
    }

    fn calculate(&mut self) {
        self.click("line");
        self.click(CALCULATE);
        self.screen.wait_for("the calculations", |told| seen(told, COPY).is_some());
        self.click(COPY);
        pause(300);
    }

    fn write(&mut self, field: &str, text: &str) {
        self.click(field);
        self.screen.wait_for("the keys to point at", |told| seen(told, "key 1").is_some());
        let letters = text.chars().any(|sign| sign.is_ascii_alphabetic() || " ,".contains(sign));
        if letters {
            self.click("key: letters");
        }
        let mut capitals = false;
        for sign in text.chars() {
            if sign.is_ascii_alphabetic() && sign.is_ascii_uppercase() != capitals {
                self.click("key: A/a");
                capitals = !capitals;
            }
            match sign {
                ' ' => self.click("key: space"),
                sign => self.click(&format!("key {}", sign.to_ascii_lowercase())),
            }
        }
        if capitals {
            self.click("key: A/a");
        }
        if letters {
            self.click("key: letters");
        }
        self.click("key: done");
    }
}
