//! Draws anew only what has changed. Where the processor does the drawing, a watch that goes on by a
//! second must not cost a whole window, nor must water that swings.
//!
//! What was drawn stays in the window's texture. Each frame's list of things to draw is held against
//! the last one; where they differ, and only there, it is drawn over. The window is drawn whole when
//! it comes up or changes its size, and whenever it is not sure that the last frame was drawn.
//!
//! A frame in which nothing differs is not even handed to the screen, where it is known why it came:
//! for a hand that stirred, or because its time had come.

mod damage;
mod drawn;

use std::collections::HashMap;

use bevy::camera::{CameraOutputMode, ClearColorConfig};
use bevy::math::FloatOrd;
use bevy::prelude::*;
use bevy::render::camera::{ExtractedCamera, sort_cameras};
use bevy::render::render_asset::RenderAssets;
use bevy::render::render_resource::PipelineCache;
use bevy::render::sync_world::TemporaryRenderEntity;
use bevy::render::texture::GpuImage;
use bevy::render::view::ViewTarget;
use bevy::render::{Extract, ExtractSchedule, GpuResourceAppExt, Render, RenderApp, RenderSystems};
use bevy::sprite_render::SpriteAssetEvents;
use bevy::ui_render::{ExtractedUiItem, ExtractedUiNode, ExtractedUiNodes};

use crate::desk::pace::{ComesUp, Why};
use damage::{Damage, Drawn, damage};

/// Frames that are drawn whole when a window comes up.
const FIRST_FRAMES: u32 = 6;

/// Most frames that are held back until all that draws is ready: to draw without it would only take
/// from making it ready.
const MOST_HELD_BACK: u32 = 100;

/// What the window shows.
#[derive(Resource, Default)]
struct Shown {
    /// From back to front.
    drawn: Vec<Drawn>,
    /// Size of the window, px.
    size: UVec2,
    /// Frames drawn, as far as the first ones count.
    frames: u32,
    /// Frames that were held back while the window came up.
    held_back: u32,
    /// How often the pixels of an image were changed in place.
    changes: HashMap<AssetId<Image>, u32>,
}

impl Shown {
    /// Has the next frame drawn whole.
    fn forget(&mut self) {
        self.size = UVec2::ZERO;
    }
}

pub struct RedrawPlugin;

impl Plugin for RedrawPlugin {
    fn build(&self, app: &mut App) {
        let comes_up = ComesUp::default();
        comes_up.set(true);
        let Some(render) = app.get_sub_app_mut(RenderApp) else { return };
        render
            .insert_resource(comes_up.clone())
            .init_gpu_resource::<Shown>()
            .add_systems(ExtractSchedule, extract_why)
            .add_systems(Render, narrow.in_set(RenderSystems::CreateViews).before(sort_cameras))
            .add_systems(Render, verify.in_set(RenderSystems::Cleanup));
        app.insert_resource(comes_up);
    }
}

/// Takes over why the frame is drawn; where nobody says so, it is shown.
fn extract_why(why: Extract<Option<Res<Why>>>, mut commands: Commands) {
    commands.insert_resource(why.as_deref().copied().unwrap_or_default());
}

/// Leaves on the list of things to draw only what lies where something has changed.
fn narrow(
    mut shown: ResMut<Shown>,
    mut nodes: ResMut<ExtractedUiNodes>,
    mut cameras: Query<&mut ExtractedCamera>,
    (images, why): (Res<RenderAssets<GpuImage>>, Res<Why>),
    events: Res<SpriteAssetEvents>,
    pipelines: Res<PipelineCache>,
    mut commands: Commands,
) {
    for event in &events.images {
        if let AssetEvent::Modified { id } | AssetEvent::Removed { id } = event {
            *shown.changes.entry(*id).or_default() += 1;
        }
    }
    let Ok(mut camera) = cameras.single_mut() else { return shown.forget() };
    let Some(size) = camera.physical_target_size else { return shown.forget() };
    let waits = pipelines.waiting_pipelines().next().is_some();
    if waits && (1..FIRST_FRAMES).contains(&shown.frames) && shown.held_back < MOST_HELD_BACK {
        shown.held_back += 1;
        (camera.clear_color, camera.output_mode) = (ClearColorConfig::None, CameraOutputMode::Skip);
        nodes.uinodes.clear();
        return shown.forget();
    }
    nodes.uinodes.sort_by_key(|node| FloatOrd(node.z_order));
    // An image that has not arrived is not drawn yet, and will look different when it is.
    let picture = |id: &AssetId<Image>| {
        images.get(*id).map_or(0, |_| shown.changes.get(id).map_or(1, |changes| changes + 1))
    };
    let now: Vec<Drawn> = nodes
        .uinodes
        .iter()
        .map(|node| drawn::drawn(node, &nodes.glyphs, picture(&node.image)))
        .collect();
    let window = Rect { min: Vec2::ZERO, max: size.as_vec2() };
    let known = shown.size == size && shown.frames >= FIRST_FRAMES;
    let found = if known { damage(&shown.drawn, &now, window) } else { Damage::Whole };
    if let Damage::Parts(parts) = found
        && nodes.uinodes.iter().all(drawn::is_straight)
        && let Some(floors) = floors(&nodes.uinodes, &parts)
    {
        camera.clear_color = ClearColorConfig::None;
        // Any other frame is shown: the screen may have asked for it, as the window came out from
        // under another one.
        if parts.is_empty() && (why.due || why.by_hand) {
            camera.output_mode = CameraOutputMode::Skip;
        }
        cut(&mut nodes, &now, &parts, &floors, &mut commands);
    }
    shown.frames = shown.frames.saturating_add(1).min(FIRST_FRAMES);
    shown.size = size;
    shown.drawn = now;
}

/// For each part the frontmost thing that fills it, by number: what lies behind is not seen. `None`
/// when a part is not filled, and would keep what was drawn there before.
fn floors(nodes: &[ExtractedUiNode], parts: &[Rect]) -> Option<Vec<usize>> {
    let fills = |node: &ExtractedUiNode, part: Rect| {
        drawn::hides(node).is_some_and(|hidden| hidden.union(part) == hidden)
    };
    parts.iter().map(|part| nodes.iter().rposition(|node| fills(node, *part))).collect()
}

/// Cuts what is drawn to the parts.
fn cut(
    nodes: &mut ExtractedUiNodes,
    drawn: &[Drawn],
    parts: &[Rect],
    floors: &[usize],
    commands: &mut Commands,
) {
    let all = std::mem::take(&mut nodes.uinodes);
    for (number, (node, drawn)) in all.into_iter().zip(drawn).enumerate() {
        let mut pieces = parts
            .iter()
            .zip(floors)
            .filter(|(part, floor)| {
                number >= **floor
                    && !drawn.bounds.intersect(**part).is_empty()
                    && !drawn::goes_round(&node, **part)
            })
            .map(|(part, _)| node.clip.map_or(*part, |clip| clip.intersect(*part)));
        let Some(first) = pieces.next() else { continue };
        for clip in pieces {
            let entity = commands.spawn(TemporaryRenderEntity).id();
            nodes.uinodes.push(piece(&node, entity, clip));
        }
        let own = node.render_entity;
        nodes.uinodes.push(piece(&node, own, first));
    }
}

/// A piece of something that is drawn.
fn piece(node: &ExtractedUiNode, render_entity: Entity, clip: Rect) -> ExtractedUiNode {
    let item = match &node.item {
        ExtractedUiItem::Glyphs { range } => ExtractedUiItem::Glyphs { range: range.clone() },
        ExtractedUiItem::Node {
            color,
            rect,
            atlas_scaling,
            flip_x,
            flip_y,
            border_radius,
            border,
            node_type,
        } => ExtractedUiItem::Node {
            color: *color,
            rect: *rect,
            atlas_scaling: *atlas_scaling,
            flip_x: *flip_x,
            flip_y: *flip_y,
            border_radius: *border_radius,
            border: *border,
            node_type: *node_type,
        },
    };
    ExtractedUiNode { item, clip: Some(clip), render_entity, ..*node }
}

/// Whether what was to be drawn was drawn: all programs for it ready, and somewhere to draw it.
fn verify(
    mut shown: ResMut<Shown>,
    targets: Query<(), (With<ExtractedCamera>, With<ViewTarget>)>,
    pipelines: Res<PipelineCache>,
    comes_up: Res<ComesUp>,
) {
    let waits = pipelines.waiting_pipelines().next().is_some();
    if targets.is_empty() || waits {
        shown.forget();
    }
    comes_up.set(waits || shown.frames < FIRST_FRAMES);
}
