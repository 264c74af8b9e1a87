//! The station as it stood, and what the eyes were on.

use accesskit::Role;
use bevy::a11y::AccessibilityNode;
use bevy::prelude::*;
use paint::loupe::{Gaze, paint_from};
use sim_core::session::SitePapers;
use sim_core::session::ended_session::EndedSession;

use super::super::outcome::Outcome;
use super::cursor::Scrubbed;
use crate::scene::panel::ScenePanel;
use crate::scene::pictures::{self, Source as _};
use crate::scene::places::{HEIGHT, LOUPE, WIDTH};
use crate::scene::spots::lay;
use crate::ui::access::spoken;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::services::Speech;
use crate::ui::settings::Settings;
use crate::ui::tone::{Surface, Tone};

/// What the eyes were on.
#[derive(Component)]
struct Glass;
#[derive(Component)]
struct GlassPicture;

pub struct ScenePlugin;

impl Plugin for ScenePlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(
            Update,
            (fit, magnify, tell)
                .in_set(Frame::Show)
                .run_if(in_state(Screen::Debrief).and_then(resource_exists::<Scrubbed>)),
        );
    }
}

/// Puts the station into a row.
pub fn spawn(row: &mut ChildSpawnerCommands) {
    row.spawn((
        ScenePanel,
        spoken(Role::Image, "the station at this moment", ""),
        Node {
            flex_grow: 2.0,
            flex_basis: px(480),
            max_width: percent(62),
            min_width: px(300),
            flex_shrink: 0.0,
            align_self: AlignSelf::Start,
            overflow: Overflow::clip(),
            ..default()
        },
        Surface(Tone::Sky),
    ))
    .with_children(|panel| {
        pictures::spawn(panel);
        let mut node = Node {
            position_type: PositionType::Absolute,
            border_radius: BorderRadius::MAX,
            ..default()
        };
        lay(&mut node, LOUPE);
        panel
            .spawn((Glass, spoken(Role::Image, "what you were looking at", ""), node))
            .with_children(|glass| {
                let whole = Node { width: percent(100), height: percent(100), ..default() };
                glass.spawn((GlassPicture, ImageNode::default(), whole, Pickable::IGNORE));
            });
    });
}

/// The panel keeps the drawing's shape.
fn fit(mut panels: Query<(&ComputedNode, &mut Node), With<ScenePanel>>) {
    let Ok((size, mut node)) = panels.single_mut() else { return };
    let width = size.size().x * size.inverse_scale_factor();
    let height = px((width * HEIGHT / WIDTH).floor());
    if width > 1.0 && node.height != height {
        node.height = height;
    }
}

fn papers(signed: &EndedSession) -> SitePapers<'_> {
    let setup = &signed.setup;
    SitePapers {
        station: &setup.station,
        work_order: &setup.work_order,
        certificates: setup.certificates.as_slice(),
        terms: &setup.terms,
    }
}

/// Paints what the eyes were on, from the height at which they were.
fn magnify(
    scrubbed: Res<Scrubbed>,
    outcome: Res<Outcome>,
    settings: Res<Settings>,
    glass: Query<&ComputedNode, With<Glass>>,
    mut pictures_of: Query<(Ref<GlassPicture>, &mut ImageNode, &mut Node)>,
    mut images: ResMut<Assets<Image>>,
    mut last: Local<u32>,
) {
    let (Ok(node), Ok((picture, mut image, mut place)), Ok(told)) =
        (glass.single(), pictures_of.single_mut(), &outcome.0)
    else {
        return;
    };
    let size = node.size().min_element().round() as u32;
    let same =
        *last == size && !scrubbed.is_changed() && !settings.is_changed() && !picture.is_added();
    if size < 16 || same {
        return;
    }
    *last = size;
    let view = scrubbed.view();
    let painted =
        paint_from(Gaze::on(view), view, &papers(&told.ended.session), size, settings.text_scale());
    let side = px(size as f32 * node.inverse_scale_factor());
    (place.width, place.height) = (side, side);
    image.image = images.add(pictures::image_in(&painted, settings.contrast));
}

/// What is seen is said too.
fn tell(
    scrubbed: Res<Scrubbed>,
    (outcome, speech): (Res<Outcome>, Res<Speech>),
    mut panels: Query<&mut AccessibilityNode, (With<ScenePanel>, Without<Glass>)>,
    mut glass: Query<&mut AccessibilityNode, With<Glass>>,
    added: Query<(), Added<Glass>>,
) {
    if !scrubbed.is_changed() && added.is_empty() {
        return;
    }
    if let Ok(mut panel) = panels.single_mut() {
        panel.set_value(scrubbed.scrub().words());
    }
    if let (Ok(mut glass), Ok(told)) = (glass.single_mut(), &outcome.0) {
        let view = scrubbed.view();
        let at_eye = view.at_eye_resolution();
        glass.set_value(speech.look(&at_eye, view.focus, &papers(&told.ended.session)));
    }
}
