//! What one thing of the window's tree comes to in pixels: where it lies, what decides how it looks,
//! and what it hides.

use std::hash::{BuildHasher, BuildHasherDefault, DefaultHasher, Hash, Hasher};

use bevy::image::Image;
use bevy::math::{Affine2, Rect, Vec2};
use bevy::prelude::AssetId;
use bevy::ui_render::{ExtractedGlyph, ExtractedUiItem, ExtractedUiNode, NodeType};

use super::damage::Drawn;

/// Room for smoothed edges, px.
const EDGE_PX: f32 = 1.0;

/// Where something lies and how it looks. `picture` counts what has become of its image.
pub fn drawn(node: &ExtractedUiNode, glyphs: &[ExtractedGlyph], picture: u32) -> Drawn {
    let bounds =
        node.clip.map_or_else(|| bounds(node, glyphs), |clip| bounds(node, glyphs).intersect(clip));
    Drawn { bounds, looks: looks(node, glyphs, picture) }
}

/// Whether its sides are level and plumb: only then can it be cut.
pub fn is_straight(node: &ExtractedUiNode) -> bool {
    node.transform.matrix2.x_axis.y.abs() < 1e-6 && node.transform.matrix2.y_axis.x.abs() < 1e-6
}

fn bounds(node: &ExtractedUiNode, glyphs: &[ExtractedGlyph]) -> Rect {
    match &node.item {
        ExtractedUiItem::Node { rect, .. } => placed(node.transform, Vec2::ZERO, rect.size()),
        ExtractedUiItem::Glyphs { range } => glyphs
            .get(range.clone())
            .unwrap_or_default()
            .iter()
            .map(|glyph| placed(node.transform, glyph.translation, glyph.rect.size()))
            .reduce(|all, one| all.union(one))
            .unwrap_or_default(),
    }
}

fn placed(transform: Affine2, middle: Vec2, size: Vec2) -> Rect {
    let half = transform.matrix2.x_axis.abs() * (0.5 * size.x)
        + transform.matrix2.y_axis.abs() * (0.5 * size.y);
    Rect::from_center_half_size(transform.transform_point2(middle), half + EDGE_PX)
}

/// The part of it behind which nothing can be seen, if there is one.
pub fn hides(node: &ExtractedUiNode) -> Option<Rect> {
    let ExtractedUiItem::Node { color, node_type: NodeType::Rect, .. } = &node.item else {
        return None;
    };
    if color.alpha < 1.0 || node.image != AssetId::<Image>::default() || !is_straight(node) {
        return None;
    }
    let inner = inner(node)?;
    Some(node.clip.map_or(inner, |clip| inner.intersect(clip)))
}

/// Whether nothing of it is seen in a part of the window: it is the line about that part.
pub fn goes_round(node: &ExtractedUiNode, part: Rect) -> bool {
    matches!(node.item, ExtractedUiItem::Node { node_type: NodeType::Border(_), .. })
        && is_straight(node)
        && inner(node).is_some_and(|inner| inner.union(part) == inner)
}

/// Its rectangle without its line and its round corners.
fn inner(node: &ExtractedUiNode) -> Option<Rect> {
    let ExtractedUiItem::Node { rect, border, border_radius: round, .. } = &node.item else {
        return None;
    };
    let round = round.top_left.max(round.top_right).max(round.bottom_left).max(round.bottom_right);
    let line = border.min_inset.max(border.max_inset).max_element();
    let whole = placed(node.transform, Vec2::ZERO, rect.size());
    let inner = whole.inflate(-(2.0 * EDGE_PX + line + round));
    (!inner.is_empty()).then_some(inner)
}

fn looks(node: &ExtractedUiNode, glyphs: &[ExtractedGlyph], picture: u32) -> u64 {
    let mut hasher = BuildHasherDefault::<DefaultHasher>::default().build_hasher();
    node.image.hash(&mut hasher);
    picture.hash(&mut hasher);
    node.main_entity.hash(&mut hasher);
    if let Some(clip) = node.clip {
        points(&[clip.min, clip.max], &mut hasher);
    }
    let Affine2 { matrix2, translation } = node.transform;
    points(&[matrix2.x_axis, matrix2.y_axis, translation], &mut hasher);
    match &node.item {
        ExtractedUiItem::Node {
            color,
            rect,
            atlas_scaling,
            flip_x,
            flip_y,
            border_radius: round,
            border,
            node_type,
        } => {
            (flip_x, flip_y).hash(&mut hasher);
            numbers(&[color.red, color.green, color.blue, color.alpha], &mut hasher);
            points(&[rect.min, rect.max, atlas_scaling.unwrap_or_default()], &mut hasher);
            points(&[border.min_inset, border.max_inset], &mut hasher);
            let round = [round.top_left, round.top_right, round.bottom_right, round.bottom_left];
            numbers(&round, &mut hasher);
            match node_type {
                NodeType::Rect => 0_u32,
                NodeType::Inverted => 1,
                NodeType::Border(sides) => sides.saturating_add(2),
            }
            .hash(&mut hasher);
        }
        ExtractedUiItem::Glyphs { range } => {
            for ExtractedGlyph { color, translation, rect } in
                glyphs.get(range.clone()).unwrap_or_default()
            {
                numbers(&[color.red, color.green, color.blue, color.alpha], &mut hasher);
                points(&[*translation, rect.min, rect.max], &mut hasher);
            }
        }
    }
    hasher.finish()
}

fn points(points: &[Vec2], hasher: &mut impl Hasher) {
    for point in points {
        numbers(&[point.x, point.y], hasher);
    }
}

fn numbers(numbers: &[f32], hasher: &mut impl Hasher) {
    for number in numbers {
        number.to_bits().hash(hasher);
    }
}
