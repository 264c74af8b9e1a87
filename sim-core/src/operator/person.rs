//! A person at work: abilities, and the random streams that decide how they turn out in one session.

use super::{Abilities, Habits};
use crate::field_book::Field;
use crate::noise::Stream;
use crate::session::action::{Action, Sight};

/// A person in one session.
#[derive(Debug)]
pub(super) struct Person {
    abilities: Abilities,
    lapses: Vec<Stream>,
    eyes: Stream,
    hands: Stream,
    deeds: Stream,
    pen: Stream,
}

impl Person {
    /// A person in the session of this seed.
    pub fn new(abilities: Abilities, seed: u64) -> Self {
        let stream = |name: &str| Stream::new(seed, &format!("person {name}"));
        let lapse = |name: &str| stream(&format!("leaves out {name}"));
        Self {
            lapses: abilities.lapses.iter().map(|lapse_of| lapse(lapse_of.practice)).collect(),
            eyes: stream("eyes"),
            hands: stream("hands"),
            deeds: stream("deeds"),
            pen: stream("pen"),
            abilities,
        }
    }

    /// The habits on a new occasion.
    pub fn habits(&mut self) -> Habits {
        let mut habits = self.abilities.habits;
        for (lapse, stream) in self.abilities.lapses.iter().zip(&mut self.lapses) {
            if stream.unit() < lapse.chance {
                (lapse.leave_out)(&mut habits);
            }
        }
        habits
    }

    /// Scatter of readings, divided by that of a scripted operator.
    pub const fn scatter(&self) -> f64 {
        self.abilities.scatter
    }

    /// How far the eye is above the level at which it is meant to be, mm.
    pub fn eye_off_mm(&mut self) -> f64 {
        let off_mm = self.abilities.eye_mm + self.abilities.eye_sd_mm * self.eyes.normal();
        off_mm.clamp(-80.0, 80.0)
    }

    /// The knob's opening when this one is meant. Fully open is a stop.
    pub fn sets_knob(&mut self, opening: f64) -> f64 {
        if opening >= 1.0 {
            return opening;
        }
        (opening + self.abilities.knob_sd * self.hands.normal()).clamp(0.05, 1.0)
    }

    /// The action as this person does it; `None` if it is forgotten.
    pub fn does(&mut self, action: Action) -> Option<Action> {
        if can_be_forgotten(&action) && self.deeds.unit() < self.abilities.forgets {
            return None;
        }
        Some(match action {
            Action::Write { field, text } => {
                let text = self.writes(field, text);
                Action::Write { field, text }
            }
            Action::TurnValve { leg, quarter_turns } if quarter_turns > 1 => {
                let short = self.hands.unit() < self.abilities.short_valve;
                Action::TurnValve { leg, quarter_turns: quarter_turns - i8::from(short) }
            }
            Action::SlideScale { by_in } => {
                let by_in = by_in + self.abilities.scale_sd_in * self.hands.normal();
                Action::SlideScale { by_in: by_in.clamp(-2.0, 2.0) }
            }
            other => other,
        })
    }

    /// A text as this person writes it.
    fn writes(&mut self, field: Field, text: String) -> String {
        let chance =
            if was_read(field) { self.abilities.copy_slip } else { self.abilities.sum_slip };
        // All three are drawn each time, so that one slip shifts no later one.
        let (slips, swaps, place) = (self.pen.unit(), self.pen.unit(), self.pen.unit());
        if slips >= chance || text.parse::<f64>().is_err() {
            return text;
        }
        slip_of_the_pen(&text, swaps < 0.5, place)
    }
}

/// Whether a deed is one that people forget (CHOSEN): nothing that follows would stop them.
///
/// The readings of the elapsed-time meter are left out, because nobody can go on without them.
const fn can_be_forgotten(action: &Action) -> bool {
    match action {
        Action::MarkChart { .. }
        | Action::UncapPen
        | Action::HoldToLight
        | Action::FastenTripper { .. } => true,
        Action::Look { at, .. } => matches!(at, Sight::WorkOrder | Sight::Sky | Sight::RoofEdge),
        Action::Write { field, .. } => !matches!(field, Field::MeterBefore | Field::MeterAfter),
        _ => false,
    }
}

/// Whether a number in this field is read or copied, and not calculated.
const fn was_read(field: Field) -> bool {
    matches!(
        field,
        Field::CertificateSlope
            | Field::CertificateIntercept
            | Field::Temperature
            | Field::Pressure
            | Field::Up(_)
            | Field::Down(_)
            | Field::Chart(_)
            | Field::CheckTemperature
            | Field::CheckPressure
            | Field::CheckUp(_)
            | Field::CheckDown(_)
            | Field::CheckChart(_)
            | Field::MeterBefore
            | Field::MeterAfter
            | Field::StartChart
            | Field::SecondFilterChart
            | Field::ThirdFilterChart
            | Field::EndChart
    )
}

/// A number with two neighbouring digits exchanged, or with one digit off by one (both CHOSEN, the
/// commonest slips of the pen). The first digit stays: that slip would be noticed at once.
fn slip_of_the_pen(text: &str, exchange: bool, place: f64) -> String {
    let mut signs: Vec<char> = text.chars().collect();
    let digits: Vec<usize> = signs
        .iter()
        .enumerate()
        .filter(|(_, sign)| sign.is_ascii_digit())
        .map(|(index, _)| index)
        .skip(1)
        .collect();
    let chosen = (place * digits.len() as f64) as usize;
    let (Some(&here), next) = (digits.get(chosen), digits.get(chosen + 1).copied()) else {
        return text.to_owned();
    };
    match next {
        Some(next) if exchange && signs.get(here) != signs.get(next) => signs.swap(here, next),
        _ => {
            if let Some(sign) = signs.get_mut(here) {
                *sign = if *sign == '9' { '8' } else { char::from(*sign as u8 + 1) };
            }
        }
    }
    signs.into_iter().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::operator::{Lapse, Practice};
    use crate::rig::parts::Leg;

    #[test]
    fn a_slip_changes_a_digit_and_keeps_a_number() {
        assert_eq!(slip_of_the_pen("33.308", true, 0.4), "33.038");
        assert_eq!(slip_of_the_pen("33.308", false, 0.9), "33.309");
        assert_eq!(slip_of_the_pen("39.9", false, 0.0), "38.9");
        assert_eq!(slip_of_the_pen("3.3", true, 0.5), "3.4");
        assert_eq!(slip_of_the_pen("7", false, 0.0), "7");
        assert_eq!(slip_of_the_pen("-0.12", true, 0.0), "-0.21");
    }

    #[test]
    fn the_careful_person_does_what_is_planned() {
        let mut person = Person::new(Abilities::default(), 3);
        let actions = [
            Action::Write { field: Field::Slope, text: "33.308".to_owned() },
            Action::TurnValve { leg: Leg::Left, quarter_turns: 4 },
            Action::SlideScale { by_in: 0.15 },
            Action::UncapPen,
        ];
        for action in actions {
            assert_eq!(person.does(action.clone()), Some(action));
        }
        assert_eq!(person.habits(), Habits::default());
        assert!((person.sets_knob(0.4) - 0.4).abs() < 1e-15);
        assert!(person.eye_off_mm().abs() < 1e-15);
    }

    #[test]
    fn what_is_certain_to_go_wrong_does() {
        let lapse = Lapse {
            practice: "tapping",
            chance: 1.0,
            leave_out: |habits| habits.tapping = Practice::Skipped,
        };
        let abilities = Abilities {
            lapses: vec![lapse],
            short_valve: 1.0,
            forgets: 1.0,
            ..Abilities::default()
        };
        let mut person = Person::new(abilities, 3);
        assert_eq!(person.habits().tapping, Practice::Skipped);
        assert_eq!(person.does(Action::UncapPen), None);
        let opened = Action::TurnValve { leg: Leg::Left, quarter_turns: 4 };
        let short = Action::TurnValve { leg: Leg::Left, quarter_turns: 3 };
        assert_eq!(person.does(opened), Some(short));
        let meter = Action::Write { field: Field::MeterAfter, text: "1440.0".to_owned() };
        assert_eq!(person.does(meter.clone()), Some(meter));
    }

    #[test]
    fn slips_come_as_often_as_stated() {
        let abilities = Abilities { copy_slip: 0.2, ..Abilities::default() };
        let mut person = Person::new(abilities, 11);
        let wrong = (0..2000)
            .filter(|_| person.writes(Field::Pressure, "748.5".to_owned()) != "748.5")
            .count();
        // 400 expected, standard deviation 18.
        assert!((330..470).contains(&wrong), "{wrong}");
        assert_eq!(person.writes(Field::Slope, "33.308".to_owned()), "33.308");
    }
}
