//! A keyboard, and nothing else.

use std::cell::RefCell;

use hands::Spot;
use window::panels::help::COPY;
use window::scene::quick_keys::initial;
use window::ui::told::Told;

use super::hands::{CALCULATE, Carry, Hands, lines, offered, seen, wait_for_act};
use super::screen::{Screen, pause, said};
use super::tally::Tally;

/// Most presses of Tab that any thing is away.
const FARTHEST: usize = 130;

/// The keyboard.
pub struct Keyboard {
    pub screen: Screen,
    /// How many keys were pressed, and for what.
    pub tally: RefCell<Tally>,
}

impl Keyboard {
    pub fn new(screen: Screen) -> Self {
        Self { screen, tally: RefCell::new(Tally::begun("to begin")) }
    }

    fn key(&self, key: &str) {
        self.tally.borrow_mut().add(1);
        self.screen.tool(&["key", key]);
        pause(45);
    }

    /// Goes on with a session that was broken off, by its title.
    pub fn resume(&mut self, title: &str) {
        let is = |one: &Told| one.label.starts_with(title) && one.label.ends_with("min in");
        let told = self.screen.wait_for(title, |told| told.iter().any(is));
        let label = told.into_iter().find(is).expect("it is offered").label;
        self.go_to(&label);
        self.key("Return");
        self.screen.wait_for("the bench", |told| told.iter().any(|one| one.label == "watch"));
        pause(1000);
    }

    fn type_out(&self, text: &str) {
        let signs = u32::try_from(text.chars().count()).unwrap_or(u32::MAX);
        self.tally.borrow_mut().add(signs);
        self.screen.tool(&["type", "--delay", "40", "--", text]);
        pause(120);
    }

    fn focused(&self) -> String {
        focused(&self.screen.told()).map_or_else(String::new, |one| one.label.clone())
    }

    /// Presses a key that moves the focus, and waits until it has.
    fn move_on(&mut self, key: &str) {
        let at = |told: &[Told]| focused(told).map(|one| one.label.clone());
        let before = at(&self.screen.told());
        // A key that is held is held until it has shown: a frame may take longer than a finger.
        let (held, key) = key.split_once('+').map_or((None, key), |(held, key)| (Some(held), key));
        if let Some(held) = held {
            self.screen.tool(&["keydown", held]);
            pause(40);
        }
        self.key(key);
        self.screen.wait_for("the focus to move", |told| at(told) != before);
        if let Some(held) = held {
            self.screen.tool(&["keyup", held]);
        }
    }

    /// Goes to a thing of the scene from another one by its letter, pressed until it is come to.
    fn jump_to(&mut self, label: &str) -> bool {
        let spot = |label: &str| Spot::all().into_iter().find(|spot| spot.name() == label);
        let Some(to) = spot(label) else { return false };
        if focused(&self.screen.told()).is_some_and(|one| one.role == "TextInput") {
            self.key("Escape");
            self.screen.wait_for("the scene", |told| {
                focused(told).is_some_and(|one| spot(&one.label).is_some())
            });
        }
        let letter = initial(to).to_string();
        for _ in 0..6 {
            if self.focused() == label {
                return true;
            }
            let before = self.focused();
            self.key(&letter);
            for _ in 0..40 {
                if self.focused() != before {
                    break;
                }
                pause(30);
            }
        }
        self.focused() == label
    }

    /// Goes on with F6 and Tab, the shorter way round, until something has the focus.
    pub fn go_to(&mut self, label: &str) {
        self.tally.borrow_mut().turn_to(label);
        let told = self.screen.wait_for(label, |told| told.iter().any(|one| one.label == label));
        let target = told.iter().find(|one| one.label == label && one.tab).expect("by Tab");
        let wanted = region(&told, target);
        if self.jump_to(label) {
            return;
        }
        for _ in 0..2 {
            let told = self.screen.told();
            if wanted.is_some() && focused(&told).is_some_and(|one| region(&told, one) != wanted) {
                self.move_on("F6");
            }
        }
        for _ in 0..FARTHEST {
            // In which direction it lies is what a practised hand knows.
            let told = self.screen.told();
            let order: Vec<_> = told.iter().filter(|one| one.tab).collect();
            let from = order.iter().position(|one| one.focus);
            let to = order.iter().position(|one| one.label == label);
            let back = match (from, to) {
                (Some(from), Some(to)) if from == to => return,
                (Some(from), Some(to)) => {
                    (from + order.len() - to) % order.len() <= order.len() / 2
                }
                _ => false,
            };
            self.move_on(if back { "shift+Tab" } else { "Tab" });
        }
        self.screen.keep_picture(label);
        panic!("Tab never comes to `{label}`, but to `{}`", self.focused());
    }
}

/// What has the focus.
fn focused(told: &[Told]) -> Option<&Told> {
    told.iter().find(|one| one.focus)
}

/// The part of the window that something lies in: 0 scene, 1 book, 2 watch and hand card; `None`
/// when there are no such parts, or when it is scrolled out of sight.
fn region(told: &[Told], one: &Told) -> Option<u8> {
    let (x, y) = middle_of(one)?;
    let [left, ..] = seen(told, "field book")?.seen?;
    let [_, _, _, foot] = seen(told, "the station")?.seen?;
    Some(if x >= left {
        1
    } else if y < foot {
        0
    } else {
        2
    })
}

fn middle_of(one: &Told) -> Option<(f32, f32)> {
    one.seen.map(|[left, top, right, foot]| ((left + right) / 2.0, (top + foot) / 2.0))
}

impl Hands for Keyboard {
    fn screen(&mut self) -> &mut Screen {
        &mut self.screen
    }

    fn begin(&mut self, title: &str) {
        let is = |one: &Told| one.label.starts_with(title);
        let told = self.screen.wait_for(title, |told| told.iter().any(is));
        let label = told.into_iter().find(is).expect("a card").label;
        self.go_to(&label);
        self.key("Return");
        self.screen.wait_for("the bench", |told| told.iter().any(|one| one.label == "watch"));
        pause(1500);
    }

    fn act(&mut self, thing: &str, words: &str) {
        self.go_to(thing);
        // The card may still be that of the thing before. In a small window it may lie out of sight.
        let card = |one: &Told| one.label == "hand card" && one.value == thing;
        let told = self
            .screen
            .wait_for(words, |told| told.iter().any(card) && offered(told, words).is_some());
        let label = offered(&told, words).expect("it is offered");
        let before = lines(&self.screen);
        self.key(&label[..1]);
        wait_for_act(&mut self.screen, before, words);
    }

    fn confirm(&mut self, thing: &str, words: &str) {
        self.go_to(thing);
        let told = self.screen.wait_for(words, |told| offered(told, words).is_some());
        let label = offered(&told, words).expect("it is offered");
        let before = lines(&self.screen);
        self.key(&label[..1]);
        self.screen.wait_for("the bench to ask again", |told| !said(told).is_empty());
        self.key(&label[..1]);
        wait_for_act(&mut self.screen, before, words);
    }

    fn carry(&mut self, carry: &Carry) {
        self.act(carry.part, carry.take);
        self.act(carry.place, carry.put);
    }

    fn turn(&mut self, thing: &str, steps: i32) {
        self.go_to(thing);
        for _ in 0..steps.abs() {
            self.key(if steps > 0 { "Up" } else { "Down" });
            pause(80);
        }
    }

    fn press(&mut self, label: &str) {
        self.tally.borrow_mut().turn_to(label);
        let quick = match label {
            "10 s" => Some("period"),
            "1 min" => Some("comma"),
            "5 min" => Some("asterisk"),
            _ => None,
        };
        // A page is opened by the keys that go to a blank on it, and the decision by a key of its own.
        if matches!(label, "certificate" | "air" | "points" | "line" | "set point") {
            return;
        }
        if label == "remarks" {
            let open = |told: &[Told]| told.iter().any(|one| one.label == "page: remarks");
            if !open(&self.screen.told()) {
                self.key("F7");
                pause(400);
            }
            // Where another decision is asked for, that is where F7 goes.
            if !open(&self.screen.told()) {
                self.go_to(label);
                self.key("Return");
                self.screen.wait_for("the page", open);
            }
            return;
        }
        // From a thing of the scene time is let pass by a key.
        if let Some(key) = quick
            && Spot::all().iter().any(|spot| spot.name() == self.focused())
        {
            self.key(key);
            return;
        }
        self.go_to(label);
        self.key("Return");
        pause(120);
    }

    fn write_row(
        &mut self,
        thing: &str,
        fields: &[String],
        value: &mut dyn FnMut(&mut dyn Hands, usize) -> String,
    ) {
        self.go_to(thing);
        self.tally.borrow_mut().turn_to(&format!("reading {thing} and its row"));
        self.key("equal");
        for (place, field) in fields.iter().enumerate() {
            let there = |told: &[Told]| focused(told).is_some_and(|one| one.label == *field);
            self.screen.wait_for(field, there);
            let text = value(self, place);
            self.type_out(&text);
            self.key("Return");
        }
        let back = |told: &[Told]| focused(told).is_some_and(|one| one.role != "TextInput");
        self.screen.wait_for("the thing that was read", back);
    }

    fn calculate(&mut self) {
        self.key("F1");
        let there = |told: &[Told]| seen(told, CALCULATE).is_some();
        self.screen.wait_for("the help", there);
        self.go_to(CALCULATE);
        self.key("Return");
        self.screen.wait_for("the calculations", |told| seen(told, COPY).is_some());
        self.go_to(COPY);
        self.key("Return");
        pause(300);
        self.key("Escape");
        self.screen.wait_for("the bench", |told| seen(told, CALCULATE).is_none());
    }

    fn write(&mut self, field: &str, text: &str) {
        self.tally.borrow_mut().turn_to(field);
        let at = |told: &[Told]| focused(told).is_some_and(|one| one.label == field);
        if !at(&self.screen.told()) {
            self.key("F8");
            pause(400);
        }
        if !at(&self.screen.told()) {
            self.go_to(field);
        }
        self.type_out(text);
        self.key("Return");
        pause(250);
    }
}
