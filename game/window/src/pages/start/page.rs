//! The first sheet: the caution, the scenarios, and the sessions that can be gone on with or looked at
//! again.

use bevy::input_focus::tab_navigation::TabIndex;
use bevy::prelude::*;
use bevy::ui_widgets::ScrollArea;
use sessions::{KeptSession, KeptState, ScenarioCard};

use super::library::{Library, Shelf};
use super::note::{self, StartNote};
use super::opening::OpeningPlugin;
use super::requests::StartRequest;
use super::seed;
use crate::panels::help::HELP;
use crate::ui::background::Background;
use crate::ui::caution::caution;
use crate::ui::controls::{button, face};
use crate::ui::order::Frame;
use crate::ui::overlay::{self, SheetRequest};
use crate::ui::screen::{Screen, clear};
use crate::ui::settings::{Kept, Settings};
use crate::ui::settings_sheet::SETTINGS;
use crate::ui::store::Store;
use crate::ui::theme::{self, Theme};

/// The caution that stands at the start of every session.
pub const CAUTION: &str = "A training aid, not a procedure. The site's own rules, the instrument's \
    own instructions, local codes and licensed practice come first.";

/// What the card of a scenario without help says.
const SITTING: &str = "A sitting: the work is done without help, and marked. What it was about is \
    told after the signature.";

/// Most room for the sessions of one kind, at usual text, logical pixels: more of them are scrolled.
const SHELF_PX: f32 = 170.0;

/// The screen's root.
#[derive(Component)]
struct StartRoot;

pub struct StartPlugin;

impl Plugin for StartPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Library>()
            .init_resource::<StartNote>()
            .add_plugins(OpeningPlugin)
            .add_systems(OnEnter(Screen::Start), (read, spawn).chain())
            .add_systems(OnExit(Screen::Start), clear::<StartRoot>)
            .add_systems(
                Update,
                (take_over.in_set(Frame::Obey), note::say.in_set(Frame::Show))
                    .run_if(in_state(Screen::Start)),
            )
            .add_systems(
                PreUpdate,
                (clear::<StartRoot>, spawn)
                    .chain()
                    .run_if(in_state(Screen::Start))
                    .run_if(something_new),
            );
    }
}

fn something_new(settings: Res<Settings>, library: Res<Library>) -> bool {
    settings.is_changed() || library.is_changed()
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

fn spawn(
    (settings, library): (Res<Settings>, Res<Library>),
    (kept, note): (Res<Kept>, Res<StartNote>),
    mut commands: Commands,
) {
    let theme = Theme::of(settings.contrast);
    commands.spawn((StartRoot, overlay::page(&theme, px(14)))).with_children(|root| {
        head(root, &theme);
        let what = "Practice in calibrating high-volume air samplers.";
        root.spawn(theme::text(what, theme::BODY, theme.ink_soft));
        caution(root, &theme, CAUTION);
        note::spawn(root, &theme, &note);
        if let Some(trouble) = &kept.trouble {
            root.spawn(theme::bold(trouble.clone(), theme::BODY, theme.caution));
        }
        if library.is_reading() {
            let words = "The scenarios and the sessions that are kept are being read.";
            root.spawn(theme::text(words, theme::BODY, theme.ink));
        } else {
            let most = px(SHELF_PX * settings.text_scale());
            shelf(root, &theme, most, &library, Shelf::Unfinished);
            shelf(root, &theme, most, &library, Shelf::Ended);
            scenarios(root, &theme, &library);
            // No control in it: what is scrolled apart from the page could not be reached by keys.
            shelf(root, &theme, Val::Auto, &library, Shelf::Closed);
        }
    });
}

/// The title, and beside it what is asked for from any page: however long the list below it grows,
/// both are in sight at once.
fn head(root: &mut ChildSpawnerCommands, theme: &Theme) {
    root.spawn(overlay::title_row()).with_children(|row| {
        row.spawn(theme::bold("Steady Draw", 2.2, theme.ink));
        row.spawn(overlay::choices()).with_children(|row| {
            // After the list: both have a key of their own.
            row.spawn(button(theme, "F1 help", SheetRequest(HELP))).insert(TabIndex(2));
            row.spawn(button(theme, "F2 settings", SheetRequest(SETTINGS))).insert(TabIndex(2));
        });
    });
}

/// Sessions of one kind.
fn shelf(
    root: &mut ChildSpawnerCommands,
    theme: &Theme,
    most: Val,
    library: &Library,
    shelf: Shelf,
) {
    let mut list = library.shelf(shelf).peekable();
    if list.peek().is_none() {
        return;
    }
    let heading = match shelf {
        Shelf::Unfinished => "Go on with",
        Shelf::Ended => "Look again at",
        Shelf::Closed => "Sessions that this version cannot open",
    };
    root.spawn(theme::bold(heading, theme::HEAD, theme.ink));
    root.spawn((
        ScrollArea,
        Node {
            column_gap: px(10),
            row_gap: px(8),
            flex_wrap: FlexWrap::Wrap,
            flex_shrink: 0.0,
            max_height: most,
            overflow: Overflow::scroll_y(),
            ..default()
        },
    ))
    .with_children(|row| {
        for (place, (number, kept)) in (1_usize..).zip(list) {
            kept_session(row, theme, place, number, kept);
        }
    });
}

/// A session: a button that opens it, or why there is none.
fn kept_session(
    row: &mut ChildSpawnerCommands,
    theme: &Theme,
    place: usize,
    number: usize,
    kept: &KeptSession,
) {
    let (title, minutes) = (&kept.title, kept.minutes.unwrap_or_default());
    match &kept.state {
        KeptState::Unfinished => {
            let words = format!("{title}, {minutes} min in");
            row.spawn(button(theme, &words, StartRequest::Resume(number)));
        }
        KeptState::Ended => {
            let rig = kept.seed.unwrap_or_default();
            let words = format!("{place}. {title}, rig {rig}, {minutes} min");
            row.spawn(button(theme, &words, StartRequest::Debrief(number)));
        }
        KeptState::OtherVersion(version) => {
            let words = format!("{title}: open it with version {version} of this program.");
            row.spawn(theme::text(words, theme::BODY, theme.ink));
        }
        KeptState::Unreadable(why) => {
            let words = format!("{title}: its journal cannot be read ({why}).");
            row.spawn(theme::text(words, theme::BODY, theme.ink));
        }
    }
}

fn scenarios(root: &mut ChildSpawnerCommands, theme: &Theme, library: &Library) {
    root.spawn(Node {
        column_gap: px(12),
        align_items: AlignItems::Center,
        flex_wrap: FlexWrap::Wrap,
        row_gap: px(6),
        flex_shrink: 0.0,
        ..default()
    })
    .with_children(|row| {
        row.spawn(theme::bold("Scenarios", theme::HEAD, theme.ink));
        row.spawn(theme::italic("rig number", theme::SMALL, theme.ink_soft));
        seed::spawn(row, theme, library.fresh_rig());
    });
    if library.cards.is_empty() {
        let none = "No scenarios were found: start the program in its own folder, or name one.";
        root.spawn(theme::text(none, theme::BODY, theme.ink));
    }
    root.spawn(Node {
        column_gap: px(14),
        row_gap: px(14),
        flex_wrap: FlexWrap::Wrap,
        flex_shrink: 0.0,
        ..default()
    })
    .with_children(|row| {
        for (number, card) in library.cards.iter().enumerate() {
            scenario_card(row, theme, number, card);
        }
    });
}

fn scenario_card(
    row: &mut ChildSpawnerCommands,
    theme: &Theme,
    number: usize,
    card: &ScenarioCard,
) {
    let limit = match card.limit_min {
        Some(minutes) => format!("{minutes:.0} minutes"),
        None => "no time limit".to_owned(),
    };
    let lesson = card.lesson.as_deref().unwrap_or(SITTING);
    let label = format!("{}. {lesson} {limit}", card.title);
    row.spawn(face(theme, &label, StartRequest::Begin(number), theme.page))
        .insert(Node {
            flex_direction: FlexDirection::Column,
            align_items: AlignItems::Start,
            width: percent(31),
            min_width: px(280),
            flex_grow: 1.0,
            padding: UiRect::all(px(14)),
            border: UiRect::all(px(2)),
            border_radius: BorderRadius::all(px(5)),
            row_gap: px(6),
            ..default()
        })
        .with_children(|column| {
            column.spawn(theme::bold(card.title.clone(), theme::HEAD, theme.ink));
            match &card.trouble {
                None => column.spawn(theme::text(lesson.to_owned(), theme::BODY, theme.ink)),
                Some(why) => column.spawn(theme::bold(why.clone(), theme::SMALL, theme.caution)),
            };
            column.spawn(theme::italic(limit, theme::SMALL, theme.ink_soft));
        });
}
