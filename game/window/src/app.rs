//! The program in a window: the one place that knows every feature.

use std::sync::Arc;

use bevy::gizmos::GizmoPlugin;
use bevy::gizmos_render::GizmoRenderPlugin;
use bevy::input_focus::tab_navigation::TabNavigationPlugin;
use bevy::prelude::*;
use bevy::window::WindowResolution;
use content::{ReportService, SpeechService};
use sessions::{Publisher, Storage};

use crate::desk::DeskPlugin;
use crate::desk::pace::PacePlugin;
use crate::pages::{bench, debrief, jump_keys, regions, start};
use crate::panels::{
    field_book, hand_card, heard, help, lapse, loupe, loupe_reader, plot, showing, watch,
};
use crate::scene::{
    carry, lit, panel, pictures, quick_keys, redraw, spot_keys, spot_reader, spots, take_up, word,
    write_reading,
};
use crate::ui::background::Background;
use crate::ui::frames::FramesPlugin;
use crate::ui::marks_known::MarksKnown;
use crate::ui::screen::Screen;
use crate::ui::services::{Reporting, Speech};
use crate::ui::store::Store;
use crate::ui::threads::ThreadsPlugin;
use crate::ui::told::ToldPlugin;
use crate::ui::{
    access, announce, bars, controls, growing, in_units, keys, order, overlay, page_keys, pan,
    room, settings, settings_sheet, text_size, theme,
};

/// Everything of the bench that needs no real window: for the program and for tests.
pub struct BenchPlugin {
    /// Where scenarios are found, and what people make is kept.
    pub storage: Arc<dyn Storage>,
    /// Says what can be seen, heard, read and done.
    pub speech: Arc<dyn SpeechService>,
    /// Lays out the reports of sessions that have ended.
    pub reports: Arc<dyn ReportService>,
}

impl Plugin for BenchPlugin {
    fn build(&self, app: &mut App) {
        let (settings, kept) = settings::read(&*self.storage);
        app.insert_resource(settings)
            .insert_resource(kept)
            .insert_resource(Store(Arc::clone(&self.storage)))
            .insert_resource(Speech(Arc::clone(&self.speech)))
            .insert_resource(Reporting(Arc::clone(&self.reports)))
            .init_resource::<Background>()
            .init_resource::<MarksKnown>();
        // The default plugins bring the widgets and the focus along.
        app.add_plugins(TabNavigationPlugin);
        app.init_state::<Screen>();
        // What every feature stands on.
        app.add_plugins((
            order::OrderPlugin,
            theme::ThemePlugin,
            text_size::TextSizePlugin,
            in_units::InUnitsPlugin,
            controls::ControlsPlugin,
            access::AccessPlugin,
            announce::AnnouncePlugin,
            keys::KeysPlugin,
            overlay::OverlayPlugin,
            page_keys::PageKeysPlugin,
            settings_sheet::SettingsSheetPlugin,
            (pan::PanPlugin, bars::BarsPlugin, room::RoomPlugin, growing::GrowingPlugin),
            DeskPlugin,
        ));
        // The station, and hands on it.
        app.add_plugins((
            panel::ScenePlugin,
            pictures::PicturesPlugin,
            spots::SpotsPlugin,
            lit::LitPlugin,
            word::WordPlugin,
            spot_keys::SpotKeysPlugin,
            (quick_keys::QuickKeysPlugin, write_reading::WriteReadingPlugin),
            spot_reader::SpotReaderPlugin,
            take_up::TakeUpPlugin,
            carry::CarryPlugin,
            redraw::RedrawPlugin,
        ));
        // What lies about it.
        app.add_plugins((
            hand_card::HandCardPlugin,
            loupe::LoupePlugin,
            loupe_reader::LoupeReaderPlugin,
            heard::HeardPlugin,
            lapse::LapsePlugin,
            watch::WatchPlugin,
            showing::ShowingPlugin,
            help::HelpPlugin,
            field_book::FieldBookPlugin,
            plot::PlotPlugin,
        ));
        app.add_plugins((
            start::StartPlugin,
            bench::BenchPagePlugin,
            regions::RegionsPlugin,
            jump_keys::JumpKeysPlugin,
            debrief::DebriefPlugin,
        ));
        app.add_systems(Startup, |mut commands: Commands| {
            // Pictures and type are smooth already: several samples a pixel would only cost time.
            commands.spawn((Camera2d, IsDefaultUiCamera, Msaa::Off));
        });
    }
}

/// Shows other programs what goes on in the window.
#[derive(Debug, Clone)]
pub struct Describe {
    /// What a screen reader is told.
    pub told: Arc<dyn Publisher>,
    /// How many frames were drawn.
    pub frames: Arc<dyn Publisher>,
}

/// Runs the bench in a window of its own until it is closed.
pub fn run(bench: BenchPlugin, describe: Option<Describe>) -> AppExit {
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
    #[cfg(any(feature = "sound", windows, target_os = "macos"))]
    app.add_plugins(crate::sound::loudspeaker::LoudspeakerPlugin);
    if let Some(Describe { told, frames }) = describe {
        app.add_plugins((FramesPlugin { to: frames }, ToldPlugin { to: told }));
    }
    app.run()
}
