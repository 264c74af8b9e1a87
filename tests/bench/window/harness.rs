//! A bench in a window that no screen shows, worked by keys and a pointer.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use bevy::a11y::AccessibilityNode;
use bevy::app::TerminalCtrlCHandlerPlugin;
use bevy::input::keyboard::{Key, KeyCode};
use bevy::input_focus::InputFocus;
use bevy::log::LogPlugin;
use bevy::prelude::*;
use bevy::render::RenderPlugin;
use bevy::render::settings::WgpuSettings;
use bevy::time::TimeUpdateStrategy;
use bevy::ui::{CalculatedClip, UiGlobalTransform};
use bevy::window::{PrimaryWindow, WindowResolution};
use bevy::winit::WinitPlugin;
use hands::Spot;
use report::PlainReports;
use sessions::{LocalStorage, Storage};
use sim_core::rig::parts::{Nut, PartPlace, RigPart};
use sim_core::session::action::Action;
use sim_core::session::journal::{JournalLine, read};
use sim_core::session::view::View;
use window::app::BenchPlugin;
use window::desk::{Book, Said, Seen};
use window::panels::field_book::SIGN;
use window::panels::loupe::ChartHour;
use window::scene::panel::ScenePanel;
use window::scene::places::{Area, WIDTH};
use window::scene::spot_reader::SpotControl;
use window::ui::background::Background;
use window::ui::settings::Settings;
use words::PlainSentences;

/// The longest that anything beside the frames may take.
const PATIENCE: Duration = Duration::from_secs(120);

/// A bench without a screen.
pub struct Bench {
    /// The program.
    pub app: App,
    window: Entity,
    /// Holds the bench's data and settings, and takes them away at the end.
    pub folder: tempfile::TempDir,
}

/// The scenarios that come with the program.
pub fn scenarios() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios")
}

/// The only journal below a folder of data and settings.
pub fn journal_in(folder: &Path) -> String {
    let files = std::fs::read_dir(folder.join("data")).expect("data");
    let files: Vec<PathBuf> = files.map(|entry| entry.expect("a file").path()).collect();
    assert_eq!(files.len(), 1, "{files:?}");
    std::fs::read_to_string(&files[0]).expect("a journal")
}

impl Bench {
    /// The list of scenarios in a window of a size, with a size of text in percent.
    pub fn at_start(size: (u32, u32), text_percent: u16) -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        Self::opened(folder, scenarios(), size, text_percent)
    }

    /// The list of a folder's scenarios, with data and settings in another folder.
    pub fn opened(
        folder: tempfile::TempDir,
        scenarios: PathBuf,
        size: (u32, u32),
        text_percent: u16,
    ) -> Self {
        let storage = LocalStorage {
            first: None,
            scenarios: Some(scenarios),
            data: Some(folder.path().join("data")),
            config: Some(folder.path().join("config")),
        };
        let mut bench = Self::built(folder, Arc::new(storage), size, text_percent);
        bench.rest(4);
        bench
    }

    /// A bench on a storage, before its first frame.
    pub fn built(
        folder: tempfile::TempDir,
        storage: Arc<dyn Storage>,
        size: (u32, u32),
        text_percent: u16,
    ) -> Self {
        let window = Window { resolution: WindowResolution::new(size.0, size.1), ..default() };
        let settings = WgpuSettings { backends: None, ..default() };
        let mut app = App::new();
        app.add_plugins(
            DefaultPlugins
                .build()
                .disable::<WinitPlugin>()
                .disable::<LogPlugin>()
                .disable::<TerminalCtrlCHandlerPlugin>()
                .set(RenderPlugin { render_creation: settings.into(), ..default() })
                .set(WindowPlugin { primary_window: Some(window), ..default() }),
        )
        .insert_resource(TimeUpdateStrategy::FixedTimesteps(1))
        .add_plugins(BenchPlugin {
            storage,
            speech: Arc::new(PlainSentences),
            reports: Arc::new(PlainReports),
        });
        app.insert_resource(Settings { text_percent, ..Settings::default() });
        app.finish();
        app.cleanup();
        let window = app
            .world_mut()
            .query_filtered::<Entity, With<PrimaryWindow>>()
            .single(app.world())
            .expect("a window");
        Self { app, window, folder }
    }

    /// The first scenario on the bench.
    pub fn at_work(size: (u32, u32), text_percent: u16) -> Self {
        let mut bench = Self::at_start(size, text_percent);
        bench.press(Key::Enter, KeyCode::Enter);
        bench.rest(6);
        assert!(bench.app.world().contains_resource::<Seen>(), "the session did not begin");
        bench
    }

    /// The scenario with a 24-hour run on the bench.
    pub fn at_run(size: (u32, u32), text_percent: u16) -> Self {
        Self::at("27_from_set_point_to_volume.ron", size, text_percent)
    }

    /// A scenario on the bench, by the name of its file.
    pub fn at(name: &str, size: (u32, u32), text_percent: u16) -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        let alone = folder.path().join("scenarios");
        std::fs::create_dir(&alone).expect("a folder");
        std::fs::copy(scenarios().join(name), alone.join(name)).expect("the scenario");
        let mut bench = Self::opened(folder, alone, size, text_percent);
        bench.press(Key::Enter, KeyCode::Enter);
        bench.rest(6);
        assert!(bench.app.world().contains_resource::<Seen>(), "the session did not begin");
        bench
    }

    /// Signs the book as it stands, and goes to the debrief.
    pub fn sign(&mut self) {
        self.tab_to_label("remarks");
        self.press(Key::Enter, KeyCode::Enter);
        self.tab_to_label(SIGN);
        for _ in 0..2 {
            self.press(Key::Enter, KeyCode::Enter);
        }
        self.rest(8);
        assert!(self.on_screen().contains("Debrief"), "{}", self.on_screen());
    }

    /// Closes the window as a person does, and gives the folder of data and settings back.
    pub fn close(self) -> tempfile::TempDir {
        let Self { mut app, folder, .. } = self;
        app.world_mut().write_message(AppExit::Success);
        app.update();
        drop(app);
        folder
    }

    /// The folder of data and settings.
    pub fn folder(&self) -> &Path {
        self.folder.path()
    }

    /// The only journal in the data folder.
    pub fn journal(&self) -> String {
        journal_in(self.folder())
    }

    /// Lets frames pass, a tick each. What goes on beside the frames is waited for.
    pub fn rest(&mut self, frames: usize) {
        for _ in 0..frames {
            self.app.update();
            let begun = Instant::now();
            while self.app.world().resource::<Background>().is_busy() {
                assert!(begun.elapsed() < PATIENCE, "what goes on beside the frames never ends");
                std::thread::sleep(Duration::from_millis(1));
                self.app.update();
            }
        }
    }

    /// What is seen.
    pub fn view(&self) -> View {
        self.app.world().resource::<Seen>().0.clone()
    }

    /// What was written.
    pub fn written(&self, field: sim_core::field_book::Field) -> Option<String> {
        self.app.world().resource::<Book>().0.text(field).map(str::to_owned)
    }

    /// What the bench last said.
    pub fn said(&self) -> String {
        self.app.world().resource::<Said>().words()
    }

    /// What the bench last said, as a value.
    pub fn saying(&self) -> Said {
        self.app.world().resource::<Said>().clone()
    }

    /// Everything that was done, as it stands in the journal.
    pub fn done(&self) -> Vec<Action> {
        let journal = read(&self.journal()).expect("the journal holds");
        let acts = journal.lines.into_iter().filter_map(|(_, line)| match line {
            JournalLine::Act { action, .. } => Some(action),
            _ => None,
        });
        acts.collect()
    }

    /// Every text on the screen, a line each.
    pub fn on_screen(&mut self) -> String {
        let mut texts = self.app.world_mut().query::<&Text>();
        let texts = texts.iter(self.app.world()).map(|text| text.0.clone());
        texts.collect::<Vec<_>>().join("\n")
    }

    /// The thing that has the focus.
    pub fn at_hand(&self) -> Option<Spot> {
        let focus = self.app.world().resource::<InputFocus>().get()?;
        self.app.world().get::<SpotControl>(focus).map(|control| control.0)
    }

    /// The spoken label of what has the focus.
    pub fn label_of_focus(&self) -> Option<String> {
        let focus = self.app.world().resource::<InputFocus>().get()?;
        let node = self.app.world().get::<AccessibilityNode>(focus)?;
        node.label().map(str::to_owned)
    }

    /// What a reader is told of the first thing with a label.
    pub fn node_of(&mut self, label: &str) -> Option<(Entity, AccessibilityNode)> {
        let mut nodes = self.app.world_mut().query::<(Entity, &AccessibilityNode)>();
        nodes
            .iter(self.app.world())
            .find(|(_, node)| !node.is_hidden() && node.label() == Some(label))
            .map(|(entity, node)| (entity, node.clone()))
    }

    /// The value that a reader hears of what has a label.
    pub fn value_of(&mut self, label: &str) -> Option<String> {
        let node = self.node_of(label)?.1;
        node.value().map(str::to_owned)
    }

    /// Whether anything has this spoken label.
    pub fn is_there(&mut self, label: &str) -> bool {
        let mut nodes = self.app.world_mut().query::<(&AccessibilityNode, &ComputedNode)>();
        nodes
            .iter(self.app.world())
            .filter(|(node, _)| !node.is_hidden())
            .any(|(node, size)| node.label() == Some(label) && size.size().x > 0.0)
    }

    /// The whole label of the first button whose label begins with some words.
    pub fn first_that_begins(&mut self, words: &str) -> String {
        let mut nodes = self.app.world_mut().query::<&AccessibilityNode>();
        let is = |label: &&str| label.starts_with(words);
        let buttons = nodes.iter(self.app.world()).filter(|node| !node.is_hidden());
        let buttons = buttons.filter(|node| node.role() == accesskit::Role::Button);
        let label = buttons.filter_map(|node| node.label()).find(is);
        label.map(str::to_owned).unwrap_or_else(|| panic!("no button begins with `{words}`"))
    }

    /// Middle of a control by its spoken label, logical pixels.
    pub fn place_of(&mut self, label: &str) -> Vec2 {
        self.place_and_clip_of(label).0
    }

    /// Middle of a control by its spoken label, and what cuts it: the page that it scrolls with.
    pub fn place_and_clip_of(&mut self, label: &str) -> (Vec2, Option<Rect>) {
        let mut nodes = self.app.world_mut().query::<(
            &AccessibilityNode,
            &ComputedNode,
            &UiGlobalTransform,
            Option<&CalculatedClip>,
        )>();
        nodes
            .iter(self.app.world())
            .filter(|(node, ..)| !node.is_hidden())
            .find(|(node, size, ..)| node.label() == Some(label) && size.size().x > 0.0)
            .map(|(_, size, place, clip)| {
                let scale = size.inverse_scale_factor();
                let logical = |clip: Rect| Rect::from_corners(clip.min * scale, clip.max * scale);
                (place.translation * scale, clip.map(|clip| logical(clip.clip)))
            })
            .unwrap_or_else(|| panic!("nothing is called `{label}`"))
    }

    /// The window.
    pub const fn window(&self) -> Entity {
        self.window
    }

    /// The hour of the kept chart that is under the loupe.
    pub fn chart_hour(&self) -> Option<f64> {
        self.app.world().resource::<ChartHour>().0
    }

    /// Puts the calibrator on the sampler, by keys.
    pub fn mount_calibrator(&mut self) {
        let enter = |bench: &mut Self, spot| {
            bench.tab_to(spot);
            bench.press(Key::Enter, KeyCode::Enter);
        };
        enter(self, Spot::Lid);
        for nut in Nut::ALL {
            enter(self, Spot::Nut(nut));
        }
        for (part, place) in [
            (Spot::Frame, Spot::Ground),
            (Spot::Filter, Spot::Case),
            (Spot::Adapter, Spot::Holder),
            (Spot::Calibrator, Spot::Adapter),
        ] {
            enter(self, part);
            enter(self, place);
        }
        assert_eq!(
            self.view().mounting.place(RigPart::Calibrator),
            PartPlace::Adapter,
            "{}",
            self.said()
        );
    }

    /// Middle of an area of the scene, logical pixels.
    pub fn in_scene(&mut self, area: Area) -> Vec2 {
        let world = self.app.world_mut();
        let mut panels =
            world.query_filtered::<(&ComputedNode, &UiGlobalTransform), With<ScenePanel>>();
        let (panel, place) = panels.single(world).expect("the scene");
        let to_logical = panel.inverse_scale_factor();
        let size = panel.size() * to_logical;
        let corner = place.translation * to_logical - size / 2.0;
        let middle = Vec2::new(area.x + area.w / 2.0, area.y + area.h / 2.0);
        corner + middle * size.x / WIDTH
    }
}
