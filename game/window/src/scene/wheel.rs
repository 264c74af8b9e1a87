//! The wheel over a thing of the scene, and a finger's drag over a trackpad, which sends parts of a notch.

use bevy::input::mouse::MouseScrollUnit;
use bevy::picking::events::Scroll;
use bevy::prelude::*;

/// Pixels that a trackpad sends for a notch of a wheel.
const NOTCH_PX: f32 = 40.0;

/// By how many notches a wheel was turned; to the side it turns nothing.
pub fn notches(scroll: &Scroll) -> f32 {
    match scroll.unit {
        MouseScrollUnit::Line => scroll.y,
        MouseScrollUnit::Pixel => scroll.y / NOTCH_PX,
    }
}

/// What was turned of the next notch, over one thing.
#[derive(Debug, Default)]
pub struct Turned {
    over: Option<Entity>,
    rest: f32,
}

impl Turned {
    /// Turns on over a thing, and returns the whole notches: one that is turned half is kept until the
    /// other half comes, and is forgotten over another thing or when the hand turns back.
    pub fn on(&mut self, over: Entity, by: f32) -> i32 {
        if self.over.replace(over) != Some(over) || self.rest * by < 0.0 {
            self.rest = 0.0;
        }
        self.rest += by;
        let whole = self.rest.trunc();
        self.rest -= whole;
        whole as i32
    }
}

#[cfg(test)]
mod tests {
    use bevy::prelude::Entity;

    use super::Turned;

    #[test]
    fn parts_of_a_notch_make_a_whole_one_and_nothing_makes_nothing() {
        let (knob, valve) = (Entity::from_bits(1), Entity::from_bits(2));
        let mut turned = Turned::default();
        let steps: Vec<i32> = [0.25; 8].map(|by| turned.on(knob, by)).to_vec();
        assert_eq!(steps, [0, 0, 0, 1, 0, 0, 0, 1]);
        assert_eq!(turned.on(knob, 0.0), 0);
        assert_eq!(turned.on(knob, -3.0), -3);
        turned.on(knob, 0.75);
        assert_eq!(turned.on(valve, 0.5), 0, "what was turned over another thing does not count");
        assert_eq!(turned.on(valve, -0.75), 0, "a hand that turns back begins anew");
    }
}
