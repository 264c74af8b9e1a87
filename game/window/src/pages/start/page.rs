//! The first sheet: the caution, the scenarios, and the sessions that can be gone on with or looked at
//! again.

use bevy::input_focus::InputFocus;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::prelude::*;
use bevy::ui_widgets::ScrollArea;
use sessions::{KeptSession, KeptState};

use super::cards;
use super::got::GotPlugin;
use super::library::{Library, Shelf};
use super::note::{self, StartNote};
use super::opening::OpeningPlugin;
use super::requests::StartRequest;
use super::seed;
use super::site_picture::SitePicturePlugin;
use crate::panels::help::HELP;
use crate::ui::access;
use crate::ui::background::Background;
use crate::ui::caution::caution;
use crate::ui::controls::{Request, button};
use crate::ui::order::Frame;
use crate::ui::overlay::{self, FocusFirst, SheetRequest};
use crate::ui::screen::{Screen, clear};
use crate::ui::settings::Kept;
use crate::ui::settings_sheet::SETTINGS;
use crate::ui::store::Store;
use crate::ui::text_size::ByTextSize;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// The caution that stands at the start of every session.
pub const CAUTION: &str = "This is a training aid, not a procedure. The site's own rules, the instrument's \
    instructions, local codes and licensed practice come first.";

/// Most room for the sessions of one kind, at usual text, logical pixels: more of them are scrolled.
const SHELF_PX: f32 = 170.0;

/// Room between the parts of the page.
const ROW_GAP: Val = Val::Px(14.0);

/// The screen's root.
#[derive(Component)]
struct StartRoot;
/// What can be begun, resumed and looked at again.
#[derive(Component)]
struct List;
/// What went wrong with keeping the settings.
#[derive(Component)]
struct Trouble;

pub struct StartPlugin;

impl Plugin for StartPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Library>()
            .init_resource::<StartNote>()
            .add_plugins((OpeningPlugin, GotPlugin, SitePicturePlugin))
            .add_systems(OnEnter(Screen::Start), (read, spawn).chain())
            .add_systems(OnExit(Screen::Start), clear::<StartRoot>)
            .add_systems(
                Update,
                (
                    take_over.in_set(Frame::Obey),
                    fill.in_set(Frame::Lay),
                    (note::say, say_trouble).in_set(Frame::Show),
                )
                    .run_if(in_state(Screen::Start)),
            );
    }
}

/// A session may have been broken off or signed since.
fn read(
    mut library: ResMut<Library>,
    mut note: ResMut<StartNote>,
    (store, background): (Res<Store>, Res<Background>),
) {
    library.bypass_change_detection().read(&store, &background);
    note.set_if_neq(StartNote::Nothing);
}

fn take_over(mut library: ResMut<Library>) {
    if library.bypass_change_detection().take_over() {
        library.set_changed();
    }
}

/// The page, with room for the list.
fn spawn(note: Res<StartNote>, mut commands: Commands) {
    commands.spawn((StartRoot, overlay::page(ROW_GAP))).with_children(|root| {
        head(root);
        let what = "Practice in calibrating high-volume air samplers.";
        root.spawn(theme::text(what, theme::BODY, Tone::InkSoft));
        caution(root, CAUTION);
        note::spawn(root, &note);
        root.spawn((Trouble, theme::bold("", theme::BODY, Tone::Caution)));
        root.spawn((List, overlay::column(ROW_GAP)));
    });
}

/// Lays the list as it was read, once for each reading. Who has not gone anywhere meanwhile gets the
/// first thing on it.
fn fill(
    library: Res<Library>,
    lists: Query<(Entity, Ref<List>)>,
    roots: Query<Entity, With<StartRoot>>,
    (focus, heads): (Res<InputFocus>, Query<&Request<SheetRequest>>),
    mut commands: Commands,
) {
    let Ok((list, added)) = lists.single() else { return };
    if !library.is_changed() && !added.is_added() {
        return;
    }
    commands.entity(list).despawn_children().with_children(|list| lay(list, &library));
    let stayed = focus
        .get()
        .is_none_or(|at| heads.get(at).is_ok_and(|request| request.0 == SheetRequest(HELP)));
    if let (true, Ok(root)) = (stayed && !library.is_reading(), roots.single()) {
        commands.entity(root).remove::<FocusFirst>().insert(FocusFirst);
    }
}

fn lay(list: &mut ChildSpawnerCommands, library: &Library) {
    if library.is_reading() {
        let words = "The list of scenarios and sessions is being read.";
        list.spawn(theme::text(words, theme::BODY, Tone::Ink));
        return;
    }
    let scrolled = || ByTextSize::new(|node, scale| node.max_height = px(SHELF_PX * scale));
    shelf(list, library, Shelf::Unfinished, scrolled());
    shelf(list, library, Shelf::Ended, scrolled());
    scenarios(list, library);
    // No control in it: what is scrolled apart from the page could not be reached by keys.
    shelf(list, library, Shelf::Closed, ByTextSize::new(|_, _| {}));
}

/// Says what went wrong with keeping the settings; while nothing did it takes no room.
fn say_trouble(kept: Res<Kept>, mut texts: Query<(&mut Text, &mut Node), With<Trouble>>) {
    for (mut text, mut node) in &mut texts {
        let words = kept.trouble.clone().unwrap_or_default();
        let display = if words.is_empty() { Display::None } else { Display::Flex };
        text.set_if_neq(Text::new(words));
        if node.display != display {
            node.display = display;
        }
    }
}

/// The title, and beside it what is asked for from any page: however long the list below it grows,
/// both are in sight at once.
fn head(root: &mut ChildSpawnerCommands) {
    root.spawn(overlay::title_row()).with_children(|row| {
        let title = "Steady Draw";
        row.spawn((theme::bold(title, theme::TITLE, Tone::Ink), access::heading(title, 1)));
        row.spawn(overlay::choices()).with_children(|row| {
            // After the list: both have a key of their own.
            row.spawn(button("F1 help", SheetRequest(HELP))).insert(TabIndex(2));
            row.spawn(button("F2 settings", SheetRequest(SETTINGS))).insert(TabIndex(2));
        });
    });
}

/// Sessions of one kind.
fn shelf(root: &mut ChildSpawnerCommands, library: &Library, shelf: Shelf, height: ByTextSize) {
    let mut list = library.shelf(shelf).peekable();
    if list.peek().is_none() {
        return;
    }
    let heading = match shelf {
        Shelf::Unfinished => "Continue",
        Shelf::Ended => "Past sessions",
        Shelf::Closed => "Sessions that this version cannot open",
    };
    root.spawn((theme::bold(heading, theme::HEAD, Tone::Ink), access::heading(heading, 2)));
    root.spawn((
        ScrollArea,
        Node {
            column_gap: px(10),
            row_gap: px(8),
            flex_wrap: FlexWrap::Wrap,
            flex_shrink: 0.0,
            overflow: Overflow::scroll_y(),
            // Room for the ring around what has the focus.
            padding: UiRect::all(px(4)),
            ..default()
        },
        height,
    ))
    .with_children(|row| {
        for (place, (number, kept)) in (1_usize..).zip(list) {
            kept_session(row, place, number, kept);
        }
    });
}

/// A session: a button that opens it, or why there is none.
fn kept_session(row: &mut ChildSpawnerCommands, place: usize, number: usize, kept: &KeptSession) {
    let (title, minutes) = (&kept.title, kept.minutes.unwrap_or_default());
    match &kept.state {
        KeptState::Unfinished => {
            let words = format!("{title}, {minutes} min in");
            row.spawn(button(&words, StartRequest::Resume(number)));
        }
        KeptState::Ended => {
            let rig = kept.seed.unwrap_or_default();
            let words = format!("{place}. {title}, rig {rig}, {minutes} min");
            row.spawn(button(&words, StartRequest::Debrief(number)));
        }
        KeptState::OtherVersion(version) => {
            let words = format!("{title}: open it with version {version} of this program.");
            row.spawn(theme::text(words, theme::BODY, Tone::Ink));
        }
        KeptState::Unreadable(why) => {
            let words = format!("{title}: its journal cannot be read ({why}).");
            row.spawn(theme::text(words, theme::BODY, Tone::Ink));
        }
    }
}

fn scenarios(root: &mut ChildSpawnerCommands, library: &Library) {
    root.spawn(Node {
        column_gap: px(12),
        align_items: AlignItems::Center,
        flex_wrap: FlexWrap::Wrap,
        row_gap: px(6),
        flex_shrink: 0.0,
        ..default()
    })
    .with_children(|row| {
        let role = access::heading("Scenarios", 2);
        row.spawn((theme::bold("Scenarios", theme::HEAD, Tone::Ink), role));
        row.spawn(theme::italic("rig number", theme::SMALL, Tone::InkSoft));
        seed::spawn(row, library.fresh_rig());
    });
    cards::spawn(root, &library.cards);
}
