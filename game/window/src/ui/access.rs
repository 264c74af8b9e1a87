//! Screen readers: roles and labels of our own controls, and what a reader asks for.

use accesskit::{Action as Asked, Node as AccessNode, Role};
use bevy::a11y::{AccessibilityNode, ActionRequest};
use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use bevy::text::EditableText;
use bevy::ui_widgets::Activate;

use crate::ui::order::Frame;

pub struct AccessPlugin;

impl Plugin for AccessPlugin {
    fn build(&self, app: &mut App) {
        // Without a real window nobody else brings these requests along.
        app.add_message::<ActionRequest>()
            .add_systems(PreUpdate, answer_requests)
            .add_systems(Update, say_typed.in_set(Frame::Show))
            // Texts that were set in this frame are told in this frame.
            .add_systems(PostUpdate, say_texts);
    }
}

/// A node of the accessible tree with its role, label and value.
pub fn spoken(role: Role, label: impl Into<String>, value: impl Into<String>) -> AccessibilityNode {
    let mut node = AccessNode::new(role);
    node.set_label(label.into());
    let value: String = value.into();
    if !value.is_empty() {
        node.set_value(value);
    }
    node.add_action(Asked::Focus);
    if role == Role::Button {
        node.add_action(Asked::Click);
    }
    AccessibilityNode(node)
}

/// A reader's press becomes an activation, its focus the focus.
fn answer_requests(
    mut requests: MessageReader<ActionRequest>,
    nodes: Query<(), With<AccessibilityNode>>,
    mut focus: ResMut<InputFocus>,
    mut visible: ResMut<InputFocusVisible>,
    mut commands: Commands,
) {
    for request in requests.read() {
        let Some(entity) = Entity::try_from_bits(request.target_node.0) else { continue };
        if !nodes.contains(entity) {
            continue;
        }
        match request.action {
            Asked::Focus => {
                focus.set(entity, FocusCause::Navigated);
                visible.0 = true;
            }
            Asked::Click => commands.trigger(Activate { entity }),
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

/// A text is read out too, unless a role was given to it or it is what stands on a button.
fn say_texts(
    mut texts: Query<(Entity, &Text, Option<&mut AccessibilityNode>), Changed<Text>>,
    controls: Query<&AccessibilityNode, Without<Text>>,
    parents: Query<&ChildOf>,
    mut commands: Commands,
) {
    for (entity, text, node) in &mut texts {
        if let Some(mut node) = node {
            if node.role() == Role::Label && node.value() != Some(text.0.as_str()) {
                node.set_value(text.0.clone());
            }
            continue;
        }
        let on_button =
            |above: Entity| controls.get(above).is_ok_and(|node| node.role() == Role::Button);
        if text.0.is_empty() || parents.iter_ancestors(entity).any(on_button) {
            continue;
        }
        let mut node = AccessNode::new(Role::Label);
        node.set_value(text.0.clone());
        commands.entity(entity).try_insert(AccessibilityNode(node));
    }
}
