//! The program killed without warning: whatever had shown its effect is there when it is gone on
//! with.

use window::ui::told::Told;

use super::hands::{Hands, offered, seen};
use super::keyboard::Keyboard;
use super::screen::{Screen, pause};

/// Things that can be done at any time, to and fro: the thing, and what is done to it one way and
/// the other.
const TO_AND_FRO: [(&str, [&str; 2]); 5] = [
    ("lid of the shelter", ["open the lid", "close the lid"]),
    ("timer", ["switch the timer off", "set the timer to auto"]),
    ("thermometer", ["move it into the open", "put it into the shaded screen"]),
    ("recorder's door", ["open the door", "close the door"]),
    ("blower's plug", ["unplug it and leave it loose", "plug it into the flow controller"]),
];

/// Numbers that look drawn by lot, the same each time.
struct Lot(u64);

impl Lot {
    fn below(&mut self, limit: u64) -> u64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % limit
    }
}

/// What the things to and fro are said to be.
fn states(told: &[Told]) -> Vec<(String, String)> {
    TO_AND_FRO
        .iter()
        .filter_map(|(thing, _)| seen(told, thing))
        .map(|one| (one.label.clone(), one.value.clone()))
        .collect()
}

#[test]
fn killed_at_ten_moments_it_goes_on_with_all_that_had_shown() {
    let mut screen = Screen::new((1280, 800), 1);
    screen.start();
    let mut hands = Keyboard::new(screen);
    hands.begin("First calibration");
    let mut lot = Lot(20_261_126);
    for moment in 0..10 {
        for _ in 0..=lot.below(2) {
            let thing = TO_AND_FRO[lot.below(5) as usize];
            let before = states(&hands.screen.told());
            let words = offer(&mut hands, thing);
            hands.act(thing.0, words);
            hands.screen.wait_for("the effect", |told| states(told) != before);
        }
        // One more is begun, and nobody knows how far it comes.
        let thing = TO_AND_FRO[lot.below(5) as usize];
        let words = offer(&mut hands, thing);
        let label = offered(&hands.screen.told(), words).expect("it is offered");
        hands.screen.tool(&["key", &label[..1]]);
        pause(lot.below(120));
        hands.screen.kill();
        let shown = states(&hands.screen.told());

        hands.screen.start();
        let told = hands.screen.wait_for("going on", |told| told.iter().any(goes_on));
        let offers: Vec<_> = told.iter().filter(|one| goes_on(one)).collect();
        assert_eq!(offers.len(), 1, "moment {moment}: one session was broken off");
        let label = offers[0].label.clone();
        hands.press(&label);
        let told = hands.screen.wait_for("the bench", |told| !states(told).is_empty());
        let there = states(&told);
        assert_eq!(there.len(), shown.len());
        for (was, is) in shown.iter().zip(&there) {
            assert!(was == is || was.0 == thing.0, "moment {moment}: {was:?} is now {is:?}");
        }
    }
}

/// Whether pressing it goes on with a session.
fn goes_on(one: &Told) -> bool {
    one.label.starts_with("First calibration, ") && one.label.ends_with("min in")
}

/// What can be done to a thing now, to or fro.
fn offer(hands: &mut Keyboard, thing: (&str, [&'static str; 2])) -> &'static str {
    hands.go_to(thing.0);
    let of = |told: &[Told]| thing.1.into_iter().find(|words| offered(told, words).is_some());
    let told = hands.screen.wait_for(thing.0, |told| of(told).is_some());
    of(&told).expect("it is offered")
}
