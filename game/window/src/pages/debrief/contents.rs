//! What is on the page: a button for each heading, which brings it to the top.

use accesskit::Role;
use bevy::prelude::*;
use bevy::ui::UiGlobalTransform;
use content::document::Block;

use super::section::{DebriefRoot, Section};
use crate::ui::access::spoken;
use crate::ui::controls::{AddRequest as _, button};
use crate::ui::order::Frame;
use crate::ui::overlay;
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// Room above a heading that was gone to, logical pixels.
const ABOVE_PX: f32 = 12.0;

/// Asks for a heading of the page to be brought to its top.
#[derive(Message, Debug, Clone, PartialEq, Eq)]
pub struct ContentsRequest(String);

pub struct ContentsPlugin;

impl Plugin for ContentsPlugin {
    fn build(&self, app: &mut App) {
        app.add_request::<ContentsRequest>()
            .add_systems(Update, go.in_set(Frame::Obey).run_if(in_state(Screen::Debrief)));
    }
}

/// The headings of a document.
pub fn headings(blocks: &[Block]) -> impl Iterator<Item = &str> {
    blocks.iter().filter_map(|block| match block {
        Block::Heading(words) => Some(words.as_str()),
        _ => None,
    })
}

/// A row with a button for each heading.
pub fn spawn<'a>(root: &mut ChildSpawnerCommands, headings: impl Iterator<Item = &'a str>) {
    root.spawn((
        Node { align_items: AlignItems::Center, ..overlay::choices() },
        spoken(Role::Navigation, "contents", ""),
    ))
    .with_children(|row| {
        row.spawn(theme::italic("On this page:", theme::SMALL, Tone::InkSoft));
        for words in headings {
            row.spawn(button(words, ContentsRequest(words.to_owned())));
        }
    });
}

fn go(
    mut requests: MessageReader<ContentsRequest>,
    sections: Query<(&Section, &ComputedNode, &UiGlobalTransform)>,
    mut roots: Query<(&mut ScrollPosition, &ComputedNode, &UiGlobalTransform), With<DebriefRoot>>,
) {
    for ContentsRequest(words) in requests.read() {
        let Ok((mut scroll, page, place)) = roots.single_mut() else { return };
        let Some((_, node, at)) = sections.iter().find(|(section, ..)| section.0 == *words) else {
            continue;
        };
        let scale = page.inverse_scale_factor();
        let top = |node: &ComputedNode, at: &UiGlobalTransform| {
            (at.translation.y - 0.5 * node.size().y) * scale
        };
        let most = ((page.content_size().y - page.size().y) * scale).max(0.0);
        let to = scroll.y + top(node, at) - top(page, place) - ABOVE_PX;
        scroll.y = to.clamp(0.0, most);
    }
}
