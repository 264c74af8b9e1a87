//! Plots as the report has them, drawn from their SVG at the screen's own scale.

use accesskit::Role;
use bevy::prelude::*;
use content::plot::{ScalablePlot, SharedPlot};
use paint::text::options;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::Tree;

use crate::scene::pictures;
use crate::ui::access::spoken;
use crate::ui::order::Frame;
use crate::ui::settings::Settings;

/// Narrowest plot, in units of a page in which text has 13.
const NARROWEST: f32 = 340.0;
/// Widest plot, in the same units: wider ones would only be emptier.
const WIDEST: f32 = 1000.0;
/// Size of running text at 100 %, logical pixels, over that of the page's units.
const TEXT: f32 = 15.0 / 13.0;

/// A plot and how it was drawn last.
#[derive(Component)]
pub struct Drawn {
    plot: SharedPlot,
    shown: String,
}

pub struct PlotPlugin;

impl Plugin for PlotPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(Update, draw.in_set(Frame::Show));
    }
}

/// Puts a plot onto a sheet. `told` says what is to be seen on it.
pub fn spawn(sheet: &mut ChildSpawnerCommands, plot: &SharedPlot, told: &str) {
    sheet
        .spawn((
            spoken(Role::Image, told, ""),
            Drawn { plot: plot.clone(), shown: String::new() },
            Node { width: percent(100), height: px(300), flex_shrink: 0.0, ..default() },
        ))
        .with_child((
            ImageNode::default(),
            Node { position_type: PositionType::Absolute, ..default() },
            Pickable::IGNORE,
        ));
}

/// Draws those whose room has changed.
fn draw(
    settings: Res<Settings>,
    mut plots: Query<(&mut Drawn, &ComputedNode, &mut Node, &Children)>,
    mut pictures_of: Query<(&mut ImageNode, &mut Node), Without<Drawn>>,
    mut images: ResMut<Assets<Image>>,
) {
    for (mut drawn, node, mut place, children) in &mut plots {
        let to_logical = node.inverse_scale_factor();
        let width = node.size().x * to_logical;
        if width < 100.0 {
            continue;
        }
        // Larger type makes the plot larger against its paper.
        let unit = (TEXT * settings.text_scale()).min(width / NARROWEST);
        let units = (width / unit).min(WIDEST).floor() as u32;
        let contrast = settings.contrast;
        let shows = format!("{units} {unit} {to_logical} {contrast:?}");
        let height = px(drawn.plot.height_at(units) as f32 * unit);
        if place.height != height {
            place.height = height;
        }
        if drawn.shown == shows {
            continue;
        }
        drawn.shown = shows;
        let Some(picture) = picture(drawn.plot.as_ref(), units, unit / to_logical) else {
            continue;
        };
        for child in children {
            if let Ok((mut image, mut lies)) = pictures_of.get_mut(*child) {
                lies.width = px(picture.width() as f32 * to_logical);
                lies.height = px(picture.height() as f32 * to_logical);
                image.image = images.add(pictures::image_in(&picture, contrast));
            }
        }
    }
}

/// The plot as pixels, so many units wide and `scale` pixels to a unit.
fn picture(plot: &dyn ScalablePlot, width: u32, scale: f32) -> Option<Pixmap> {
    let svg = plot.svg_at(width).ok()?;
    let tree = Tree::from_str(&svg, options()).ok()?;
    let size = tree.size();
    let (width, height) = ((size.width() * scale).round(), (size.height() * scale).round());
    let mut pixmap = Pixmap::new(width as u32, height as u32)?;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixmap.as_mut());
    Some(pixmap)
}
