//! What was got in the sessions of each scenario. Every journal is replayed for it, beside the frames, so
//! it stands on the cards a little later than the rest.

use std::collections::BTreeMap;

use bevy::a11y::AccessibilityNode;
use bevy::prelude::*;
use sessions::{KeptState, MarksGot};

use super::library::Library;
use crate::ui::background::{Background, Job};
use crate::ui::marks_known::MarksKnown;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::store::Store;

/// So many of the latest sessions are looked at.
const MOST: usize = 60;

/// What was got, by the titles of the scenarios.
#[derive(Resource, Debug, Default)]
struct AllGot {
    by_title: BTreeMap<String, Vec<MarksGot>>,
    reading: Option<Job<BTreeMap<String, Vec<MarksGot>>>>,
}

/// Where it stands.
#[derive(Component, Debug)]
pub(super) struct Got {
    title: String,
    /// What the card is called without it.
    card: String,
}

impl Got {
    /// The place for what was got in the sessions of a scenario.
    pub fn of(title: &str, card: String) -> Self {
        Self { title: title.to_owned(), card }
    }
}

pub(super) struct GotPlugin;

impl Plugin for GotPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<AllGot>().add_systems(
            Update,
            (read.in_set(Frame::Obey), show.in_set(Frame::Show))
                .chain()
                .run_if(in_state(Screen::Start)),
        );
    }
}

/// Begins to read once the list of sessions is there, and takes over what was read.
fn read(
    library: Res<Library>,
    mut got: ResMut<AllGot>,
    (store, background, known): (Res<Store>, Res<Background>, Res<MarksKnown>),
) {
    if library.is_changed() && !library.is_reading() {
        let ended = library.kept.iter().filter(|kept| kept.state == KeptState::Ended);
        let wanted: Vec<_> =
            ended.take(MOST).map(|kept| (kept.title.clone(), kept.id.clone())).collect();
        let (store, known) = (store.clone(), known.clone());
        got.bypass_change_detection().reading = Some(background.begin(move || {
            let mut by_title: BTreeMap<String, Vec<MarksGot>> = BTreeMap::new();
            for (title, id) in wanted {
                by_title.entry(title).or_default().extend(known.of(&*store, &id));
            }
            by_title
        }));
    }
    let done = got.bypass_change_detection().reading.as_mut().and_then(Job::result);
    if let Some(done) = done {
        got.reading = None;
        got.by_title = done;
    }
}

/// What was got, in words; none without a session.
fn words(marks: &[MarksGot]) -> Option<String> {
    let best = marks
        .iter()
        .max_by(|a, b| a.passed.cmp(&b.passed).then(a.percent.total_cmp(&b.percent)))?;
    let verdict = if best.passed { "passed" } else { "not passed" };
    let times = match marks.len() {
        1 => "done once".to_owned(),
        count => format!("done {count} times"),
    };
    Some(format!("{times}, best {verdict} with {:.0} of 100", best.percent))
}

/// Writes it onto the cards, and into what the cards are called.
fn show(
    got: Res<AllGot>,
    mut places: Query<(Entity, Ref<Got>, &mut Text, &mut Node)>,
    parents: Query<&ChildOf>,
    mut cards: Query<&mut AccessibilityNode, With<Button>>,
) {
    for (entity, place, mut text, mut node) in &mut places {
        if !got.is_changed() && !place.is_added() {
            continue;
        }
        let words = got.by_title.get(&place.title).and_then(|marks| words(marks));
        node.display = if words.is_some() { Display::Flex } else { Display::None };
        let words = words.unwrap_or_default();
        let card = parents.iter_ancestors(entity).find(|above| cards.contains(*above));
        if let Some(mut card) = card.and_then(|card| cards.get_mut(card).ok()) {
            let name = if words.is_empty() {
                place.card.clone()
            } else {
                format!("{}; {words}", place.card)
            };
            card.set_label(name);
        }
        text.set_if_neq(Text::new(words));
    }
}

#[cfg(test)]
mod tests {
    use super::{MarksGot, words};

    #[test]
    fn the_best_is_told_and_how_often() {
        let got = |percent, passed| MarksGot { head: String::new(), percent, passed };
        assert_eq!(words(&[]), None);
        let once = words(&[got(71.6, false)]);
        assert_eq!(once.as_deref(), Some("done once, best not passed with 72 of 100"));
        // A session that was passed counts more than one with more marks.
        let both = words(&[got(92.0, false), got(88.4, true)]);
        assert_eq!(both.as_deref(), Some("done 2 times, best passed with 88 of 100"));
    }
}
