//! A window of the engine with one sprite in it and nothing else, as large as the bench and drawn as
//! often as a bench on which something moves: what the cost of the bench is held against. Its
//! argument is the file in which the count of its frames is kept.

use std::path::PathBuf;
use std::time::Duration;

use bevy::prelude::*;
use bevy::window::WindowResolution;
use bevy::winit::{UpdateMode, WinitSettings};
use window::ui::frames::FramesPlugin;

fn main() -> AppExit {
    let mode = UpdateMode::reactive(Duration::from_millis(40));
    let window = Window {
        title: "Empty".to_owned(),
        resolution: WindowResolution::new(1280, 800),
        ..default()
    };
    let mut app = App::new();
    app.add_plugins(DefaultPlugins.set(WindowPlugin { primary_window: Some(window), ..default() }))
        .insert_resource(ClearColor(Color::srgb_u8(0xf5, 0xf0, 0xe3)))
        .insert_resource(WinitSettings { focused_mode: mode, unfocused_mode: mode })
        .add_systems(Startup, |mut commands: Commands| {
            commands.spawn((Camera2d, Msaa::Off));
            commands.spawn(Sprite::from_color(Color::BLACK, Vec2::splat(200.0)));
        });
    if let Some(file) = std::env::args_os().nth(1).map(PathBuf::from) {
        app.add_plugins(FramesPlugin { file });
    }
    app.run()
}
