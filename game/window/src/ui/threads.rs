//! One thread for all systems: each of them is small, and to wake other threads for them takes more
//! of the processor than they do. What is large, the drawing itself, has threads of its own.

use bevy::ecs::schedule::{Schedules, SingleThreadedExecutor};
use bevy::prelude::*;
use bevy::render::RenderApp;

pub struct ThreadsPlugin;

impl Plugin for ThreadsPlugin {
    fn build(&self, _: &mut App) {}

    /// Once every plugin has brought its schedules along.
    fn finish(&self, app: &mut App) {
        on_one_thread(app.world_mut());
        if let Some(render) = app.get_sub_app_mut(RenderApp) {
            on_one_thread(render.world_mut());
        }
    }
}

fn on_one_thread(world: &mut World) {
    let Some(mut schedules) = world.get_resource_mut::<Schedules>() else { return };
    for (_, schedule) in schedules.iter_mut() {
        schedule.set_executor(SingleThreadedExecutor::new());
    }
}
