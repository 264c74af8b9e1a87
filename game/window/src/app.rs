//! The program in a window: its plugins, and how the bench's screen is put together.

use std::path::PathBuf;

use bevy::gizmos::GizmoPlugin;
use bevy::gizmos_render::GizmoRenderPlugin;
use bevy::input_focus::tab_navigation::{TabGroup, TabNavigationPlugin};
use bevy::prelude::*;
use bevy::window::WindowResolution;

use super::frames::FramesPlugin;
use super::keys::Region;
use super::overlay::clear;
use super::pace::PacePlugin;
use super::settings::{self, Settings};
use super::start::Library;
use super::theme::Theme;
use super::threads::ThreadsPlugin;
use super::told::ToldPlugin;
use super::{
    Screen, access, carry, controls, debrief, desk, hand_card, help, keys, lapse, loupe, overlay,
    pan, pictures, redraw, scene, settings_sheet, showing, spots, start, theme, watch,
};
use crate::field_book;

/// The part of the window under which the bench lies.
#[derive(Component)]
struct BenchRoot;

/// Everything of the bench that needs no real window: for the program and for tests.
pub struct BenchPlugin {
    /// A scenario named when the program was called.
    pub scenario: Option<PathBuf>,
    /// The folder of scenarios.
    pub scenarios: Option<PathBuf>,
    /// Where journals are kept.
    pub data: Option<PathBuf>,
    /// Where settings are kept.
    pub config: Option<PathBuf>,
}

impl Plugin for BenchPlugin {
    fn build(&self, app: &mut App) {
        let (settings, kept) = settings::read(self.config.as_deref());
        let mut library = Library::look(self.scenarios.clone(), self.data.clone());
        if let Some(path) = &self.scenario {
            library.put_first(path.clone());
        }
        app.insert_resource(settings).insert_resource(kept).insert_resource(library);
        // The default plugins bring the widgets and the focus along.
        app.add_plugins(TabNavigationPlugin);
        app.init_state::<Screen>();
        app.add_plugins((
            theme::ThemePlugin,
            access::AccessPlugin,
            controls::ControlsPlugin,
            desk::DeskPlugin,
            start::StartPlugin,
            overlay::OverlayPlugin,
            help::HelpPlugin,
            settings_sheet::SettingsSheetPlugin,
            debrief::DebriefPlugin,
        ));
        app.add_plugins((
            pan::PanPlugin,
            redraw::RedrawPlugin,
            scene::ScenePlugin,
            pictures::PicturesPlugin,
            spots::SpotsPlugin,
            showing::ShowingPlugin,
            carry::CarryPlugin,
            keys::KeysPlugin,
            hand_card::HandCardPlugin,
            loupe::LoupePlugin,
            lapse::LapsePlugin,
            watch::WatchPlugin,
            field_book::FieldBookPlugin,
        ));
        app.add_systems(Startup, |mut commands: Commands| {
            // Pictures and type are smooth already: several samples a pixel would only cost time.
            commands.spawn((Camera2d, IsDefaultUiCamera, Msaa::Off));
        })
        .add_systems(OnEnter(Screen::Bench), spawn)
        .add_systems(OnExit(Screen::Bench), clear::<BenchRoot>)
        .add_systems(
            PreUpdate,
            // Two conditions, so that the second is asked even while the first is not met, and a
            // change made before the screen was entered does not count.
            (clear::<BenchRoot>, spawn)
                .chain()
                .run_if(in_state(Screen::Bench))
                .run_if(resource_changed::<Settings>),
        );
    }
}

/// Runs the bench in a window of its own until it is closed.
pub fn run(bench: BenchPlugin, describe: Option<PathBuf>) -> AppExit {
    let window = Window {
        title: "Steady Draw".to_owned(),
        resolution: WindowResolution::new(1280, 800),
        ..default()
    };
    let mut app = App::new();
    let plugins = DefaultPlugins
        .set(WindowPlugin { primary_window: Some(window), ..default() })
        // Nothing is drawn with them, and the window is there sooner without.
        .disable::<GizmoPlugin>()
        .disable::<GizmoRenderPlugin>();
    app.add_plugins(plugins).set_error_handler(bevy::ecs::error::warn).add_plugins((
        bench,
        ThreadsPlugin,
        PacePlugin,
    ));
    #[cfg(feature = "sound")]
    app.add_plugins(super::loudspeaker::LoudspeakerPlugin);
    if let Some(file) = describe {
        app.add_plugins(FramesPlugin { file: file.with_extension("frames") })
            .add_plugins(ToldPlugin { file });
    }
    app.run()
}

/// Puts the bench's screen together. Larger text takes more of the window for what is written.
fn spawn(settings: Res<Settings>, mut commands: Commands) {
    let theme = Theme::of(settings.contrast);
    let larger = settings.text_scale() - 1.0;
    commands
        .spawn((
            BenchRoot,
            Node { width: percent(100), height: percent(100), ..default() },
            BackgroundColor(theme.paper),
        ))
        .with_children(|root| {
            pan::spawn(root, &theme, larger, |bench| fill(bench, &theme, larger))
        });
}

/// Scene, watch and hand card on the left, field book on the right.
fn fill(bench: &mut ChildSpawnerCommands, theme: &Theme, larger: f32) {
    bench
        .spawn((
            Region::Scene,
            Node {
                flex_direction: FlexDirection::Column,
                flex_grow: 1.0,
                flex_basis: px(0),
                min_width: px(0),
                min_height: px(0),
                row_gap: px(8),
                ..default()
            },
        ))
        .with_children(|column| {
            scene::spawn(column, theme);
            column
                .spawn((
                    Region::Watch,
                    TabGroup::new(2),
                    Node {
                        column_gap: px(8),
                        height: percent(21.0 + 17.0 * larger),
                        flex_shrink: 0.0,
                        ..default()
                    },
                ))
                .with_children(|foot| {
                    watch::spawn(foot, theme);
                    hand_card::spawn(foot, theme);
                });
        });
    field_book::spawn(bench, theme, 31.0 + 9.0 * larger);
}
