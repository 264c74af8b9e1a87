//! The program in a window: the one place that knows every feature.

use std::path::PathBuf;

use bevy::gizmos::GizmoPlugin;
use bevy::gizmos_render::GizmoRenderPlugin;
use bevy::input_focus::tab_navigation::TabNavigationPlugin;
use bevy::prelude::*;
use bevy::window::WindowResolution;

use crate::desk::DeskPlugin;
use crate::desk::pace::PacePlugin;
use crate::pages::start::Library;
use crate::pages::{bench, debrief, regions, start};
use crate::panels::{field_book, hand_card, help, lapse, loupe, showing, watch};
use crate::scene::{carry, panel, pictures, redraw, spot_keys, spots};
use crate::ui::frames::FramesPlugin;
use crate::ui::screen::Screen;
use crate::ui::threads::ThreadsPlugin;
use crate::ui::told::ToldPlugin;
use crate::ui::{access, keys, order, overlay, pan, settings, settings_sheet, theme};

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
        // What every feature stands on.
        app.add_plugins((
            order::OrderPlugin,
            theme::ThemePlugin,
            access::AccessPlugin,
            keys::KeysPlugin,
            overlay::OverlayPlugin,
            settings_sheet::SettingsSheetPlugin,
            pan::PanPlugin,
            DeskPlugin,
        ));
        // The station, and hands on it.
        app.add_plugins((
            panel::ScenePlugin,
            pictures::PicturesPlugin,
            spots::SpotsPlugin,
            spot_keys::SpotKeysPlugin,
            carry::CarryPlugin,
            redraw::RedrawPlugin,
        ));
        // What lies about it.
        app.add_plugins((
            hand_card::HandCardPlugin,
            loupe::LoupePlugin,
            lapse::LapsePlugin,
            watch::WatchPlugin,
            showing::ShowingPlugin,
            help::HelpPlugin,
            field_book::FieldBookPlugin,
        ));
        app.add_plugins((
            start::StartPlugin,
            bench::BenchPagePlugin,
            regions::RegionsPlugin,
            debrief::DebriefPlugin,
        ));
        app.add_systems(Startup, |mut commands: Commands| {
            // Pictures and type are smooth already: several samples a pixel would only cost time.
            commands.spawn((Camera2d, IsDefaultUiCamera, Msaa::Off));
        });
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
    app.add_plugins(crate::sound::loudspeaker::LoudspeakerPlugin);
    if let Some(file) = describe {
        app.add_plugins(FramesPlugin { file: file.with_extension("frames") })
            .add_plugins(ToldPlugin { file });
    }
    app.run()
}
