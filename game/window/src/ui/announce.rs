//! What is announced to those who hear the bench. Of something live, Windows announces the name when it
//! changes, and macOS the value: only a text has both in one. So there is one place for what is to be
//! said, and whatever tells its state as a value while it is live has that said there.

use accesskit::{Live, Node as AccessNode, Role};
use bevy::a11y::{AccessibilityNode, AccessibilitySystems};
use bevy::prelude::*;

/// How soon something is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Urgency {
    /// When the reader has finished what it is saying.
    Polite,
    /// At once.
    Assertive,
}

/// Asks for something to be said.
#[derive(Message, Debug, Clone, PartialEq, Eq)]
pub struct Announce {
    /// In whole sentences.
    pub words: String,
    /// How soon.
    pub urgency: Urgency,
}

impl Announce {
    /// Something to be said when the reader has finished.
    pub fn polite(words: impl Into<String>) -> Self {
        Self { words: words.into(), urgency: Urgency::Polite }
    }

    /// Something to be said at once.
    pub fn assertive(words: impl Into<String>) -> Self {
        Self { words: words.into(), urgency: Urgency::Assertive }
    }
}

/// The place of what is said. Nothing hides it: a sheet that is laid over the window may say something.
/// There are two for each urgency, so that the same words said twice are a change all the same.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
pub struct Announcer(Urgency);

/// Whatever tells its state as a value and is live.
#[derive(Component)]
struct Region {
    urgency: Urgency,
    last: String,
}

/// When announcements are put where readers hear them; they are written before.
#[derive(SystemSet, Debug, Clone, PartialEq, Eq, Hash)]
pub struct TellingReaders;

pub struct AnnouncePlugin;

impl Plugin for AnnouncePlugin {
    fn build(&self, app: &mut App) {
        app.add_message::<Announce>().add_systems(Startup, spawn).add_systems(
            PostUpdate,
            (take_over, hear_regions, say)
                .chain()
                .in_set(TellingReaders)
                .before(AccessibilitySystems::Update),
        );
    }
}

fn spawn(mut commands: Commands) {
    for (urgency, live) in [(Urgency::Polite, Live::Polite), (Urgency::Assertive, Live::Assertive)]
    {
        for _ in 0..2 {
            let mut node = AccessNode::new(Role::Label);
            node.set_live(live);
            node.set_hidden();
            let place = Node {
                position_type: PositionType::Absolute,
                width: px(0),
                height: px(0),
                ..default()
            };
            commands.spawn((Announcer(urgency), AccessibilityNode(node), place, Pickable::IGNORE));
        }
    }
}

/// What was made live elsewhere is heard here instead: its name is only what it is called.
fn take_over(
    mut added: Query<
        (Entity, &mut AccessibilityNode),
        (Added<AccessibilityNode>, Without<Announcer>),
    >,
    mut commands: Commands,
) {
    for (entity, mut node) in &mut added {
        let urgency = match node.live() {
            Some(Live::Assertive) => Urgency::Assertive,
            Some(Live::Polite) => Urgency::Polite,
            _ => continue,
        };
        node.clear_live();
        commands.entity(entity).try_insert(Region { urgency, last: String::new() });
    }
}

fn hear_regions(
    mut regions: Query<(&AccessibilityNode, &mut Region), Changed<AccessibilityNode>>,
    mut announce: MessageWriter<Announce>,
) {
    for (node, mut region) in &mut regions {
        let value = node.value().unwrap_or_default();
        if region.last == value {
            continue;
        }
        value.clone_into(&mut region.last);
        if !value.trim().is_empty() && !node.is_hidden() {
            let alert = node.role() == Role::Alert;
            let urgency = if alert { Urgency::Assertive } else { region.urgency };
            announce.write(Announce { words: value.to_owned(), urgency });
        }
    }
}

/// Says what was asked for in this frame, and each thing once.
fn say(
    mut requests: MessageReader<Announce>,
    mut places: Query<(&Announcer, &mut AccessibilityNode)>,
) {
    let asked: Vec<&Announce> = requests.read().collect();
    for urgency in [Urgency::Polite, Urgency::Assertive] {
        let mut words: Vec<&str> = Vec::new();
        for one in asked.iter().filter(|one| one.urgency == urgency) {
            if !words.contains(&one.words.as_str()) {
                words.push(&one.words);
            }
        }
        if words.is_empty() {
            continue;
        }
        // Into the place that said nothing last; the other falls silent.
        let mut said = false;
        for (_, mut node) in places.iter_mut().filter(|(place, _)| place.0 == urgency) {
            if node.value().is_none() && !said {
                node.set_value(words.join("\n"));
                node.clear_hidden();
                said = true;
            } else {
                node.clear_value();
                node.set_hidden();
            }
        }
    }
}
