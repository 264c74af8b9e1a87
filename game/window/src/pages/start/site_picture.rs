//! The pictures of the sites on the cards. They are painted once, beside the frames; until then their
//! places are empty.

use std::collections::BTreeMap;

use bevy::prelude::*;
use bevy::ui::widget::NodeImageMode;
use paint::situation;
use sim_core::scenario::site_look::SiteLook;

use crate::scene::pictures;
use crate::ui::background::{Background, Job};
use crate::ui::order::Frame;
use crate::ui::screen::Screen;

/// Pixels to a unit of a picture.
const SHARP: f32 = 1.5;

/// Where a site's picture belongs.
#[derive(Component, Debug, Clone)]
pub(super) struct SitePicture {
    look: SiteLook,
    title: String,
}

/// The pictures that were painted, by the titles of their scenarios.
#[derive(Resource, Debug, Default)]
struct Painted {
    by_title: BTreeMap<String, Handle<Image>>,
    painting: Option<Job<Vec<(String, Image)>>>,
}

pub(super) struct SitePicturePlugin;

impl Plugin for SitePicturePlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Painted>()
            .add_systems(Update, show.in_set(Frame::Show).run_if(in_state(Screen::Start)));
    }
}

/// The place of a site's picture. The words beside it say what is seen on it, so it has no name of its own.
pub(super) fn place(look: &SiteLook, title: &str) -> impl Bundle {
    (
        SitePicture { look: *look, title: title.to_owned() },
        ImageNode { image_mode: NodeImageMode::Stretch, ..default() },
        Node {
            width: percent(100),
            aspect_ratio: Some(situation::SIZE.0 / situation::SIZE.1),
            flex_shrink: 0.0,
            ..default()
        },
        Pickable::IGNORE,
    )
}

/// Puts the pictures into their places, and has those painted that are not there yet.
fn show(
    mut painted: ResMut<Painted>,
    mut places: Query<(&SitePicture, &mut ImageNode)>,
    mut images: ResMut<Assets<Image>>,
    background: Res<Background>,
) {
    let painted = painted.bypass_change_detection();
    if let Some(done) = painted.painting.as_mut().and_then(Job::result) {
        painted.painting = None;
        for (title, image) in done {
            painted.by_title.insert(title, images.add(image));
        }
    }
    let mut missing = Vec::new();
    for (site, mut node) in &mut places {
        match painted.by_title.get(&site.title) {
            Some(image) if node.image != *image => node.image = image.clone(),
            Some(_) => {}
            None => missing.push(site.clone()),
        }
    }
    if painted.painting.is_none() && !missing.is_empty() {
        painted.painting = Some(background.begin(move || {
            let paint = |site: SitePicture| {
                let picture = situation::paint(&site.look, variety(&site.title), SHARP);
                (site.title, pictures::image(&picture))
            };
            missing.into_iter().map(paint).collect()
        }));
    }
}

/// A number of a title: two sites do not look alike, and each looks the same every time.
fn variety(title: &str) -> u64 {
    let mix = |sum: u64, byte: u8| (sum ^ u64::from(byte)).wrapping_mul(1_099_511_628_211);
    title.bytes().fold(1_469_598_103_934_665_603, mix)
}
