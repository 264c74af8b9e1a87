//! The program in a window: its plugins, and how the bench's screen is put together.

use std::path::PathBuf;
use std::time::Duration;

use bevy::input_focus::tab_navigation::{TabGroup, TabNavigationPlugin};
use bevy::prelude::*;
use bevy::window::WindowResolution;
use bevy::winit::{UpdateMode, WinitSettings};

use super::desk::{Desk, Seen};
use super::frames::FramesPlugin;
use super::keys::Region;
use super::overlay::clear;
use super::settings::{self, Motion, Settings};
use super::start::Library;
use super::theme::Theme;
use super::threads::ThreadsPlugin;
use super::told::ToldPlugin;
use super::{
    Screen, access, carry, controls, debrief, desk, hand_card, help, keys, lapse, loupe, overlay,
    pan, pictures, redraw, scene, settings_sheet, showing, spots, start, theme, watch,
};
use crate::field_book;

/// How often an idle bench is drawn: the watch's seconds.
const IDLE: Duration = Duration::from_millis(1000);
/// How often a bench is drawn on which something moves.
const MOVING: Duration = Duration::from_millis(40);
/// How often it is drawn while only the air goes on.
const AIR: Duration = Duration::from_millis(125);

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
    app.add_plugins(DefaultPlugins.set(WindowPlugin { primary_window: Some(window), ..default() }))
        .set_error_handler(bevy::ecs::error::warn)
        .insert_resource(paced(IDLE))
        .add_plugins((bench, ThreadsPlugin))
        .add_systems(Last, pace);
    if let Some(file) = describe {
        app.add_plugins(FramesPlugin { file: file.with_extension("frames") })
            .add_plugins(ToldPlugin { file });
    }
    app.run()
}

fn paced(wait: Duration) -> WinitSettings {
    let mode = UpdateMode::reactive(wait);
    WinitSettings { focused_mode: mode, unfocused_mode: mode }
}

/// Draws often while something moves, and once a second while nothing does.
fn pace(
    desk: Option<Res<Desk>>,
    seen: Option<Res<Seen>>,
    choice: Res<Settings>,
    mut settings: ResMut<WinitSettings>,
    mut last: Local<Option<(f64, f64)>>,
) {
    let airs = seen.as_ref().is_some_and(|seen| seen.0.blower.loudness >= 0.02);
    let moves = seen.is_some_and(|seen| {
        let view = &seen.0;
        // A blower that runs up or down is heard and seen before water or pen move.
        let now = (view.blower.pitch_hz, view.thermometer.column_c);
        let runs_up = last.is_some_and(|last| (last.0 - now.0).abs() > 0.5);
        *last = Some(now);
        view.manometer.moving || view.recorder.moving || runs_up
    });
    let busy = desk.is_some_and(|desk| desk.is_busy());
    let wait = if moves || busy {
        MOVING
    } else if airs && choice.motion == Motion::Full {
        AIR
    } else {
        IDLE
    };
    if settings.focused_mode != UpdateMode::reactive(wait) {
        *settings = paced(wait);
    }
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
