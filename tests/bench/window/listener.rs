//! Somebody who works the bench by a screen reader alone. The tree is put together as the engine hands it
//! over and read as platforms read it; what is announced is what platforms announce. Nothing else of the
//! bench can be reached from here, and nothing can be asked for that a reader cannot ask for.

use std::collections::BTreeMap;

use accesskit::{Action as Asked, ActionData, Live, Node as AccessNode, Role, Toggled};
use bevy::a11y::AccessibilityNode;
use bevy::input::keyboard::{Key, KeyCode};
use bevy::prelude::*;

use sim_core::session::action::Action;

use super::harness::Bench;

/// A thing of the tree, as a reader comes to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Heard {
    id: Entity,
    depth: usize,
    /// What it is.
    pub role: Role,
    /// Its name.
    pub name: String,
    /// Its value.
    pub value: String,
    /// Whether it is chosen, where it can be.
    pub chosen: Option<bool>,
    can: Vec<Asked>,
    live: Live,
}

impl Heard {
    /// How deep it lies, counted in what a reader comes to.
    pub const fn depth(&self) -> usize {
        self.depth
    }

    /// Whether a reader may ask this of it.
    pub fn can(&self, asked: Asked) -> bool {
        self.can.contains(&asked)
    }
}

/// Somebody at the bench who hears.
pub struct Listener {
    bench: Bench,
    announced: Vec<String>,
    before: BTreeMap<Entity, String>,
}

/// A node's name, as every platform takes it: that of a text is its value.
fn name_of(node: &AccessNode) -> String {
    let name = if node.role() == Role::Label { node.value() } else { node.label() };
    name.unwrap_or_default().to_owned()
}

/// Whether a node, or the nearest above it that says so, is announced when its name changes.
fn live_of(node: &AccessNode, above: Live) -> Live {
    node.live().unwrap_or(above)
}

impl Listener {
    /// Somebody who hears this bench.
    pub fn at(bench: Bench) -> Self {
        let mut listener = Self { bench, announced: Vec::new(), before: BTreeMap::new() };
        listener.attend();
        listener.announced.clear();
        listener
    }

    /// Everything that a reader comes to, in its order.
    pub fn tree(&mut self) -> Vec<Heard> {
        let world = self.bench.app.world_mut();
        let query = world.query::<(Entity, &AccessibilityNode, Option<&ChildOf>)>();
        let world = &*world;
        let told = |entity| world.get::<AccessibilityNode>(entity).is_some();
        let tops: Vec<Entity> = query
            .iter_manual(world)
            .filter(|(.., above)| above.is_none_or(|above| !told(above.parent())))
            .map(|(entity, ..)| entity)
            .collect();
        let mut heard = Vec::new();
        for top in tops {
            come_to(world, top, 0, Live::Off, &mut heard);
        }
        heard
    }

    /// The tree as text, a line for each thing.
    pub fn text(&mut self) -> String {
        let lines = self.tree().into_iter().map(|one| {
            let mut line = format!("{}{:?}", "  ".repeat(one.depth), one.role);
            if !one.name.is_empty() {
                line.push_str(&format!(" \"{}\"", one.name.replace('\n', " / ")));
            }
            if !one.value.is_empty() && one.role != Role::Label {
                line.push_str(&format!(" = {}", one.value.replace('\n', " / ")));
            }
            if let Some(chosen) = one.chosen {
                line.push_str(if chosen { " [chosen]" } else { " [not chosen]" });
            }
            line
        });
        lines.collect::<Vec<_>>().join("\n")
    }

    /// Lets frames pass, and listens in each.
    pub fn rest(&mut self, frames: usize) {
        for _ in 0..frames {
            self.bench.rest(1);
            self.attend();
        }
    }

    /// Notes what is announced: the new name of whatever is live.
    fn attend(&mut self) {
        let live = self.tree().into_iter().filter(|one| one.live != Live::Off);
        let now: BTreeMap<Entity, String> = live.map(|one| (one.id, one.name)).collect();
        for (id, name) in &now {
            if !name.is_empty() && self.before.get(id) != Some(name) {
                self.announced.push(name.clone());
            }
        }
        self.before = now;
    }

    /// What was announced since this was asked last.
    pub fn announced(&mut self) -> String {
        std::mem::take(&mut self.announced).join("\n")
    }

    /// The first thing for which this holds.
    pub fn find(&mut self, is: impl Fn(&Heard) -> bool) -> Option<Heard> {
        self.tree().into_iter().find(|one| is(one))
    }

    /// The thing with a name that a reader may ask this of.
    fn asked(&mut self, name: &str, asked: Asked) -> Heard {
        let found = self.find(|one| one.name == name && one.can(asked));
        found.unwrap_or_else(|| {
            panic!("nothing called `{name}` can be asked for {asked:?}:\n{}", self.text())
        })
    }

    /// What the journal shows afterwards: for the end of a test alone.
    pub fn done(&self) -> Vec<Action> {
        self.bench.done()
    }

    /// The value of the thing with a name.
    pub fn value(&mut self, name: &str) -> String {
        let found = self.find(|one| one.name == name && one.role != Role::Label);
        found.unwrap_or_else(|| panic!("nothing is called `{name}`:\n{}", self.text())).value
    }

    /// All texts that are read out, one under another.
    pub fn texts(&mut self) -> String {
        let texts = self.tree().into_iter().filter(|one| one.role == Role::Label);
        texts.map(|one| one.name).collect::<Vec<_>>().join("\n")
    }

    fn ask(&mut self, of: Entity, asked: Asked) {
        self.bench.send_request(of, asked, None);
        self.rest(5);
    }

    /// Presses what has a name.
    pub fn click(&mut self, name: &str) {
        let id = self.asked(name, Asked::Click).id;
        self.ask(id, Asked::Click);
    }

    /// Presses the first thing that can be pressed and whose name begins so.
    pub fn click_what_begins(&mut self, words: &str) {
        let found = self.find(|one| one.name.starts_with(words) && one.can(Asked::Click));
        let id = found.unwrap_or_else(|| panic!("nothing begins with `{words}`")).id;
        self.ask(id, Asked::Click);
    }

    /// Brings the focus to what has a name.
    pub fn focus(&mut self, name: &str) {
        let id = self.asked(name, Asked::Focus).id;
        self.ask(id, Asked::Focus);
    }

    /// Sets the text of the field that has a name.
    pub fn set(&mut self, field: &str, text: &str) {
        let id = self.asked(field, Asked::SetValue).id;
        let data = ActionData::Value(text.into());
        self.bench.send_request(id, Asked::SetValue, Some(data));
        self.rest(5);
    }

    /// Increments what has a name so many times, or decrements it.
    pub fn turn(&mut self, name: &str, steps: i32) {
        let asked = if steps > 0 { Asked::Increment } else { Asked::Decrement };
        let id = self.asked(name, asked).id;
        for _ in 0..steps.abs() {
            self.ask(id, asked);
        }
    }

    /// Goes to a thing and does what is offered for it, in the offer's words.
    pub fn act(&mut self, thing: &str, words: &str) {
        self.focus(thing);
        let offer = |one: &Heard| {
            one.can(Asked::Click)
                && one
                    .name
                    .split_once(": ")
                    .is_some_and(|(key, said)| key.len() == 1 && said == words)
        };
        let Some(found) = self.find(offer) else {
            panic!("`{words}` is not offered for `{thing}`:\n{}", self.text())
        };
        self.ask(found.id, Asked::Click);
    }

    /// Types into the field that has a name, and presses Enter.
    pub fn write(&mut self, field: &str, text: &str) {
        self.focus(field);
        self.bench.type_text(text);
        self.bench.press(Key::Enter, KeyCode::Enter);
        self.attend();
        self.rest(2);
        assert_eq!(self.value(field), text, "what stands in `{field}`");
    }

    /// Presses one of the watch's buttons and waits until the time has passed.
    pub fn wait(&mut self, button: &str) {
        let seconds = match button {
            "10 s" => 10,
            "1 min" => 60,
            _ => 300,
        };
        let until = self.seconds() + seconds;
        self.click(button);
        for _ in 0..20_000 {
            if self.seconds() >= until {
                return;
            }
            self.rest(1);
        }
        panic!("the time does not pass");
    }

    /// Seconds of the day on the watch.
    fn seconds(&mut self) -> u32 {
        let time = self.value("time of day");
        time.split(':').fold(0, |sum, part| sum * 60 + part.parse::<u32>().expect("a time of day"))
    }
}

/// Comes to a thing and to what lies in it. What only holds others together is passed over, as platforms
/// do; what is hidden is left out with all that lies in it.
fn come_to(world: &World, id: Entity, depth: usize, above: Live, heard: &mut Vec<Heard>) {
    let Some(node) = world.get::<AccessibilityNode>(id) else { return };
    if node.is_hidden() {
        return;
    }
    let live = live_of(node, above);
    let passed_over = matches!(node.role(), Role::GenericContainer | Role::TextRun);
    if !passed_over {
        let asked =
            [Asked::Click, Asked::Focus, Asked::Increment, Asked::Decrement, Asked::SetValue];
        heard.push(Heard {
            id,
            depth,
            role: node.role(),
            name: name_of(node),
            value: node.value().unwrap_or_default().to_owned(),
            chosen: node.toggled().map(|toggled| toggled == Toggled::True).or(node.is_selected()),
            can: asked.into_iter().filter(|asked| node.supports_action(*asked)).collect(),
            live,
        });
    }
    for &child in world.get::<Children>(id).into_iter().flatten() {
        come_to(world, child, depth + usize::from(!passed_over), live, heard);
    }
}
