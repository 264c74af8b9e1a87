//! What depends on the size of text and is not type: widths and heights that grow with it.

use bevy::prelude::*;
use bevy::text::RemSize;

use crate::ui::settings::Settings;

/// Height of running text at 100 %, logical pixels.
pub const BODY_PX: f32 = 15.0;

/// How a node is laid out at a size of text, which is given as a factor of the usual one.
#[derive(Component)]
pub struct ByTextSize(Box<dyn Fn(&mut Node, f32) + Send + Sync>);

impl ByTextSize {
    /// Lays a node out by a size of text, now and whenever another one is set.
    pub fn new(lay: impl Fn(&mut Node, f32) + Send + Sync + 'static) -> Self {
        Self(Box::new(lay))
    }
}

pub struct TextSizePlugin;

impl Plugin for TextSizePlugin {
    fn build(&self, app: &mut App) {
        // Before the engine lays nodes out.
        app.add_systems(
            PostUpdate,
            (set_type.run_if(resource_changed::<Settings>), lay)
                .before(bevy::ui::UiSystems::Prepare),
        );
    }
}

/// Type is measured in heights of running text.
fn set_type(settings: Res<Settings>, mut rem: ResMut<RemSize>) {
    rem.0 = BODY_PX * settings.text_scale();
}

fn lay(settings: Res<Settings>, mut nodes: Query<(Ref<ByTextSize>, &mut Node)>) {
    for (by, mut node) in &mut nodes {
        if settings.is_changed() || by.is_added() {
            let mut wanted = node.clone();
            (by.0)(&mut wanted, settings.text_scale());
            node.set_if_neq(wanted);
        }
    }
}
