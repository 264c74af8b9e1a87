//! What the pointer is over lights up in its own shape, and what the keys act on is outlined in it.

use std::sync::Arc;

use bevy::asset::RenderAssetUsages;
use bevy::input_focus::InputFocus;
use bevy::picking::hover::Hovered;
use bevy::prelude::*;
use bevy::render::render_resource::{Extent3d, TextureDimension, TextureFormat};
use hands::Spot;
use paint::shapes::Mask;

use crate::desk::Seen;
use crate::scene::pictures;
use crate::scene::places::Area;
use crate::scene::spot_reader::SpotControl;
use crate::scene::spots::{Grasp, lay};
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::tone::{Theme, Tone};

/// The light on what is pointed at, or the line about what has the focus.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
enum Light {
    Pointed,
    Focused,
}

/// What a light shows.
#[derive(Component, Default)]
struct Shows(Option<(Spot, Arc<Mask>, Theme)>);

/// How wide the line about a thing is, scene units.
const LINE: i32 = 3;

pub struct LitPlugin;

impl Plugin for LitPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(
            Update,
            show.in_set(Frame::Show)
                .run_if(in_state(Screen::Bench).and_then(resource_exists::<Seen>)),
        );
    }
}

/// Puts both lights over the pictures.
pub fn spawn(panel: &mut ChildSpawnerCommands) {
    for light in [Light::Pointed, Light::Focused] {
        panel.spawn((
            light,
            Shows::default(),
            pictures::unmeasured(),
            Node { position_type: PositionType::Absolute, display: Display::None, ..default() },
            ZIndex(45),
            Pickable::IGNORE,
        ));
    }
}

fn show(
    grasp: Res<Grasp>,
    (focus, theme): (Res<InputFocus>, Res<Theme>),
    controls: Query<(Entity, &SpotControl, &Hovered)>,
    changed: Query<(), Changed<Hovered>>,
    mut lights: Query<(&Light, &mut Shows, &mut ImageNode, &mut Node)>,
    mut images: ResMut<Assets<Image>>,
) {
    if changed.is_empty() && !focus.is_changed() && !grasp.is_changed() && !theme.is_changed() {
        return;
    }
    for (light, mut shows, mut image, mut node) in &mut lights {
        let spot = controls.iter().find_map(|(entity, spot, hovered)| {
            let lit = match light {
                Light::Pointed => hovered.get(),
                Light::Focused => focus.get() == Some(entity),
            };
            lit.then_some(spot.0)
        });
        let wanted = spot.and_then(|spot| Some((spot, grasp.reach().shape(spot)?, *theme)));
        let same = match (&shows.0, &wanted) {
            (Some((spot, mask, theme)), Some((other, shape, colors))) => {
                spot == other && Arc::ptr_eq(mask, shape) && theme == colors
            }
            (None, None) => true,
            _ => false,
        };
        if same {
            continue;
        }
        let mut laid = node.clone();
        laid.display = Display::None;
        if let Some((spot, mask, _)) = &wanted {
            let (spot, mask) = (*spot, Arc::clone(mask));
            let (picture, area) = picture(spot, &mask, *light, theme.color(Tone::Copper));
            lay(&mut laid, area);
            laid.display = Display::Flex;
            pictures::put(&mut image, &mut images, picture);
        }
        shows.0 = wanted;
        node.set_if_neq(laid);
    }
}

/// The light as a picture of a unit to a pixel, and where it lies.
fn picture(spot: Spot, mask: &Mask, light: Light, color: Color) -> (Image, Area) {
    let (x, y) = (mask.x - LINE - 1, mask.y - LINE - 1);
    let (w, h) = (mask.w + 2 * LINE + 2, mask.h + 2 * LINE + 2);
    // A line about the whole sky would run about everything that stands before it.
    let wide = matches!(spot, Spot::Sky | Spot::Ground);
    let (inside, edge) = match (light, wide) {
        (Light::Pointed, false) => (46, 150),
        (Light::Pointed, true) => (14, 14),
        (Light::Focused, false) => (0, 255),
        (Light::Focused, true) => (26, 26),
    };
    let rgb = color.to_srgba();
    let byte = |share: f32| (share * 255.0).round() as u8;
    let mut data = Vec::with_capacity((w * h * 4) as usize);
    for at in 0..w * h {
        let (x, y) = (x + at % w, y + at / w);
        let alpha = if mask.holds(x, y) {
            inside
        } else if beside(mask, x, y) {
            edge
        } else {
            0
        };
        data.extend([byte(rgb.red), byte(rgb.green), byte(rgb.blue), alpha]);
    }
    let image = Image::new(
        Extent3d { width: w as u32, height: h as u32, depth_or_array_layers: 1 },
        TextureDimension::D2,
        data,
        TextureFormat::Rgba8UnormSrgb,
        RenderAssetUsages::RENDER_WORLD,
    );
    (image, Area { x: x as f32, y: y as f32, w: w as f32, h: h as f32 })
}

/// Whether a cell lies in the line about a shape.
fn beside(mask: &Mask, x: i32, y: i32) -> bool {
    let ways = [(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)];
    (1..=LINE).any(|far| {
        ways.iter().any(|&(dx, dy)| {
            let aslant = dx != 0 && dy != 0;
            // Two steps aslant are nearly three straight ones.
            !(aslant && far == LINE) && mask.holds(x + far * dx, y + far * dy)
        })
    })
}
