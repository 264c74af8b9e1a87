//! Screen readers: roles and labels of our own controls, and what a reader asks for.

use accesskit::{Action as Asked, ActionData, Node as AccessNode, Role};
use bevy::a11y::{AccessibilityNode, AccessibilitySystems, ActionRequest};
use bevy::input_focus::tab_navigation::TabGroup;
use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use bevy::text::{EditableText, TextEdit};
use bevy::ui::UiSystems;
use bevy::ui_widgets::Activate;

use crate::ui::announce::{Announcer, TellingReaders};
use crate::ui::order::Frame;

pub struct AccessPlugin;

impl Plugin for AccessPlugin {
    fn build(&self, app: &mut App) {
        // Whatever is laid out has its place in the tree, so that everything lies in what it is shown in and
        // comes in the order in which it is shown. What has no role of its own is passed over by readers.
        app.register_required_components_with::<Node, AccessibilityNode>(plain);
        // Without a real window nobody else brings these requests along.
        app.add_message::<ActionRequest>()
            .add_systems(PreUpdate, answer_requests)
            .add_systems(Update, say_typed.in_set(Frame::Show))
            // Texts that were set in this frame are told in this frame.
            .add_systems(
                PostUpdate,
                (say_texts, hide)
                    .chain()
                    // The engine gives pictures their role there.
                    .after(UiSystems::PostLayout)
                    .before(TellingReaders)
                    .before(AccessibilitySystems::Update),
            );
    }
}

/// On a text that readers are told as the name of what stands beside it.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unspoken;

/// The node of what only holds other things together.
fn plain() -> AccessibilityNode {
    AccessibilityNode(AccessNode::new(Role::GenericContainer))
}

/// Whether something of this role is pressed.
pub const fn is_pressed(role: Role) -> bool {
    matches!(role, Role::Button | Role::Tab | Role::RadioButton | Role::CheckBox)
}

/// Whether something of this role is worked: pressed, typed into or turned.
pub const fn is_worked(role: Role) -> bool {
    is_pressed(role) || matches!(role, Role::TextInput | Role::Slider | Role::SpinButton)
}

/// A node of the accessible tree with its role, label and value.
pub fn spoken(role: Role, label: impl Into<String>, value: impl Into<String>) -> AccessibilityNode {
    let mut node = AccessNode::new(role);
    let label: String = label.into();
    if !label.is_empty() {
        node.set_label(label);
    }
    let value: String = value.into();
    if !value.is_empty() {
        node.set_value(value);
    }
    if is_worked(role) {
        node.add_action(Asked::Focus);
    }
    if is_pressed(role) {
        node.add_action(Asked::Click);
    }
    if role == Role::TextInput {
        node.add_action(Asked::SetValue);
    }
    if role == Role::Dialog {
        node.set_modal();
    }
    AccessibilityNode(node)
}

/// A heading, to readers of this level: 1 is the title of the screen.
pub fn heading(words: impl Into<String>, level: usize) -> AccessibilityNode {
    let mut node = spoken(Role::Heading, words, "");
    node.set_level(level);
    node
}

/// A reader's press becomes an activation, its focus the focus, and what it sets is typed.
fn answer_requests(
    mut requests: MessageReader<ActionRequest>,
    nodes: Query<&AccessibilityNode>,
    mut fields: Query<&mut EditableText>,
    mut focus: ResMut<InputFocus>,
    mut visible: ResMut<InputFocusVisible>,
    mut commands: Commands,
) {
    for request in requests.read() {
        let Some(entity) = Entity::try_from_bits(request.target_node.0) else { continue };
        // What a reader is not told of, it cannot ask for: a tree that it keeps may be older.
        if nodes.get(entity).map_or(true, |node| node.is_hidden()) {
            continue;
        }
        match request.action {
            Asked::Focus => {
                focus.set(entity, FocusCause::Navigated);
                visible.0 = true;
            }
            Asked::Click => commands.trigger(Activate { entity }),
            Asked::SetValue => {
                if let (Ok(mut field), Some(ActionData::Value(text))) =
                    (fields.get_mut(entity), &request.data)
                {
                    // It is written when the field is left, or at Enter, like anything typed.
                    focus.set(entity, FocusCause::Navigated);
                    field.queue_edit(TextEdit::SelectAll);
                    field.queue_edit(TextEdit::Insert((&**text).into()));
                }
            }
            _ => {}
        }
    }
}

/// What stands in a field is its value for a reader.
fn say_typed(mut fields: Query<(&EditableText, &mut AccessibilityNode), Changed<EditableText>>) {
    for (field, mut node) in &mut fields {
        let typed = field.value().to_string();
        if node.value() != Some(typed.as_str()) {
            node.set_value(typed);
        }
    }
}

/// A text is read out too, unless a role was given to it, it is what stands on something pressed, or it
/// is the name of what stands beside it.
fn say_texts(
    mut texts: Query<(Entity, &Text, &mut AccessibilityNode), (Changed<Text>, Without<Unspoken>)>,
    controls: Query<&AccessibilityNode, Without<Text>>,
    parents: Query<&ChildOf>,
) {
    for (entity, text, mut node) in &mut texts {
        match node.role() {
            Role::Label if node.value() != Some(text.0.as_str()) => node.set_value(text.0.clone()),
            Role::Heading if node.label() != Some(text.0.as_str()) => {
                node.set_label(text.0.clone())
            }
            Role::GenericContainer if !text.0.is_empty() => {
                let is_pressed =
                    |above: Entity| controls.get(above).is_ok_and(|node| is_pressed(node.role()));
                if !parents.iter_ancestors(entity).any(is_pressed) {
                    node.set_role(Role::Label);
                    node.set_value(text.0.clone());
                }
            }
            _ => {}
        }
    }
}

type Relaid = Or<(Changed<Node>, Changed<Text>, Changed<ChildOf>, Added<AccessibilityNode>)>;

/// Hides from readers what nobody sees: what is not shown, what lies under a sheet, and pictures and texts
/// with nothing to tell. The engine hands every node to the reader, whether it is shown or not.
fn hide(
    mut told: ParamSet<(Query<(), Relaid>, Query<&mut AccessibilityNode>)>,
    mut taken_away: RemovedComponents<TabGroup>,
    roots: Query<Entity, (With<Node>, Without<ChildOf>)>,
    groups: Query<(Entity, &TabGroup)>,
    nodes: Query<(&Node, Option<&Children>), Without<Announcer>>,
    parents: Query<&ChildOf>,
) {
    if taken_away.read().count() == 0 && told.p0().is_empty() {
        return;
    }
    let mut told = told.p1();
    let sheet = groups.iter().find(|(_, group)| group.modal).map(|(entity, _)| entity);
    let about: Vec<Entity> =
        sheet.into_iter().flat_map(|sheet| parents.iter_ancestors(sheet)).collect();
    let mut waiting: Vec<(Entity, bool)> =
        roots.iter().map(|root| (root, sheet.is_some())).collect();
    while let Some((entity, mut hidden)) = waiting.pop() {
        let Ok((node, children)) = nodes.get(entity) else { continue };
        if sheet == Some(entity) {
            hidden = false;
        }
        hidden |= node.display == Display::None;
        if let Ok(mut node) = told.get_mut(entity) {
            // What holds the sheet is hidden from nobody: readers pass over hidden things with all that is in them.
            let hidden = (hidden && !about.contains(&entity)) || tells_nothing(&node);
            if hidden && !node.is_hidden() {
                node.set_hidden();
            } else if !hidden && node.is_hidden() {
                node.clear_hidden();
            }
        }
        waiting.extend(children.into_iter().flatten().map(|&child| (child, hidden)));
    }
}

/// Whether there is nothing in a node that could be read out.
fn tells_nothing(node: &AccessNode) -> bool {
    let empty = |words: Option<&str>| words.is_none_or(|words| words.trim().is_empty());
    let words = matches!(node.role(), Role::Image | Role::Label | Role::Heading);
    words && empty(node.label()) && empty(node.value())
}
