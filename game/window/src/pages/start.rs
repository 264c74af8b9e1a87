//! The first sheet: the caution, the scenarios, and the sessions that can be gone on with or looked at
//! again.

use std::path::PathBuf;

use accesskit::Role;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::prelude::*;
use bevy::text::{EditableText, EditableTextFilter};
use bevy::ui_widgets::SelectAllOnFocus;

use crate::desk::lay_on_desk;
use crate::panels::help::HELP;
use crate::store::{self, Card, Shelved, Stands};
use crate::ui::access::spoken;
use crate::ui::caution::caution;
use crate::ui::controls::{AddRequest as _, button, face};
use crate::ui::order::Frame;
use crate::ui::overlay::{self, SheetRequest};
use crate::ui::screen::{Screen, clear};
use crate::ui::settings::{Kept, Settings};
use crate::ui::settings_sheet::SETTINGS;
use crate::ui::theme::{self, Theme};

/// The caution that stands at the start of every session.
pub const CAUTION: &str = "A training aid, not a procedure. The site's own rules, the instrument's \
    own instructions, local codes and licensed practice come first.";

/// What is asked of the list, by numbers in it.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub enum StartRequest {
    /// Begin a session of the scenario with this number.
    Begin(usize),
    /// Go on with the session with this number.
    Resume(usize),
    /// Open the debrief of the session with this number among those that have ended.
    Debrief(usize),
}

/// What can be begun and gone on with.
#[derive(Resource, Debug, Default)]
pub struct Library {
    /// The scenarios.
    pub cards: Vec<Card>,
    /// Sessions broken off.
    pub unfinished: Vec<Shelved>,
    /// Sessions that have ended.
    pub ended: Vec<Shelved>,
    /// Where journals are kept.
    pub data: Option<PathBuf>,
    /// What went wrong at the last try to begin.
    pub trouble: Option<String>,
}

impl Library {
    /// Looks through the folders.
    pub fn look(scenarios: Option<PathBuf>, data: Option<PathBuf>) -> Self {
        let cards = scenarios.as_deref().map(store::cards).unwrap_or_default();
        let mut library = Self { cards, data, ..Self::default() };
        library.look_at_journals();
        library
    }

    /// Looks through the journals.
    fn look_at_journals(&mut self) {
        let list = |stands| {
            let data = self.data.as_deref();
            data.map(|data| store::shelved(data, stands)).unwrap_or_default()
        };
        (self.unfinished, self.ended) = (list(Stands::Unfinished), list(Stands::Ended));
    }

    /// The number of a rig on which none of the sessions that are kept was had: the next one.
    fn fresh_rig(&self) -> u64 {
        let had = self.unfinished.iter().chain(&self.ended).map(|session| session.seed).max();
        had.map_or(1, |last| last.saturating_add(1) % 1_000_000_000)
    }

    /// Adds a scenario that was named when the program was called, first of all.
    pub fn put_first(&mut self, path: PathBuf) {
        self.cards.insert(0, store::card(&path));
    }
}

/// The screen's root.
#[derive(Component)]
struct StartRoot;
#[derive(Component)]
struct SeedField;

pub struct StartPlugin;

impl Plugin for StartPlugin {
    fn build(&self, app: &mut App) {
        app.add_request::<StartRequest>()
            .add_systems(OnEnter(Screen::Start), (look_again, spawn).chain())
            .add_systems(OnExit(Screen::Start), clear::<StartRoot>)
            .add_systems(Update, begin.in_set(Frame::Obey).run_if(in_state(Screen::Start)))
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
fn look_again(library: Option<ResMut<Library>>) {
    if let Some(mut library) = library {
        library.bypass_change_detection().look_at_journals();
    }
}

fn spawn(settings: Res<Settings>, library: Res<Library>, kept: Res<Kept>, mut commands: Commands) {
    let theme = Theme::of(settings.contrast);
    commands.spawn((StartRoot, overlay::page(&theme, px(14)))).with_children(|root| {
        root.spawn(theme::bold("Steady Draw", 2.2, theme.ink));
        let what = "Practice in calibrating high-volume air samplers.";
        root.spawn(theme::text(what, theme::BODY, theme.ink_soft));
        caution(root, &theme, CAUTION);
        for trouble in [&library.trouble, &kept.trouble].into_iter().flatten() {
            root.spawn(theme::bold(trouble.clone(), theme::BODY, theme.caution));
        }
        shelf(root, &theme, "Go on with", &library.unfinished);
        shelf(root, &theme, "Look again at", &library.ended);
        scenarios(root, &theme, &library);
        root.spawn(Node { column_gap: px(8), flex_shrink: 0.0, ..default() }).with_children(
            |row| {
                row.spawn(button(&theme, "F1 help", SheetRequest(HELP)));
                row.spawn(button(&theme, "F2 settings", SheetRequest(SETTINGS)));
            },
        );
    });
}

/// Sessions of one kind, a button for each.
fn shelf(root: &mut ChildSpawnerCommands, theme: &Theme, heading: &str, list: &[Shelved]) {
    if list.is_empty() {
        return;
    }
    root.spawn(theme::bold(heading, theme::HEAD, theme.ink));
    root.spawn(Node {
        column_gap: px(10),
        row_gap: px(8),
        flex_wrap: FlexWrap::Wrap,
        flex_shrink: 0.0,
        ..default()
    })
    .with_children(|row| {
        for (number, Shelved { title, seed, minutes, stands, .. }) in list.iter().enumerate() {
            let (words, request) = match stands {
                Stands::Unfinished => {
                    (format!("{title}, {minutes} min in"), StartRequest::Resume(number))
                }
                Stands::Ended => {
                    let place = number + 1;
                    (
                        format!("{place}. {title}, rig {seed}, {minutes} min"),
                        StartRequest::Debrief(number),
                    )
                }
            };
            row.spawn(button(theme, &words, request));
        }
    });
}

fn scenarios(root: &mut ChildSpawnerCommands, theme: &Theme, library: &Library) {
    let (cards, fresh) = (&library.cards, library.fresh_rig().to_string());
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
        row.spawn((
            SeedField,
            EditableText {
                max_characters: Some(9),
                visible_width: Some(9.0),
                ..EditableText::new(&fresh)
            },
            EditableTextFilter::new(|c| c.is_ascii_digit()),
            SelectAllOnFocus,
            spoken(Role::TextInput, "rig number: another number is another rig", &fresh),
            // After the cards: most people take the rig that comes, and it is another one each time.
            TabIndex(1),
            theme::handwriting(theme),
            Node { padding: UiRect::axes(px(6), px(3)), border: UiRect::all(px(1.5)), ..default() },
            BorderColor::all(theme.ink_soft),
            BackgroundColor(theme.page),
            theme::ring(),
        ));
    });
    if cards.is_empty() {
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
        for (number, card) in cards.iter().enumerate() {
            scenario_card(row, theme, number, card);
        }
    });
}

fn scenario_card(row: &mut ChildSpawnerCommands, theme: &Theme, number: usize, card: &Card) {
    let limit = match card.limit_min {
        Some(minutes) => format!("{minutes:.0} minutes"),
        None => "no time limit".to_owned(),
    };
    let label = format!("{}. {} {limit}", card.title, card.lesson);
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
                None => column.spawn(theme::text(card.lesson.clone(), theme::BODY, theme.ink)),
                Some(why) => column.spawn(theme::bold(why.clone(), theme::SMALL, theme.caution)),
            };
            column.spawn(theme::italic(limit, theme::SMALL, theme.ink_soft));
        });
}

/// Begins a session, goes on with one, or looks again at one that has ended.
fn begin(
    mut requests: MessageReader<StartRequest>,
    mut library: ResMut<Library>,
    seeds: Query<&EditableText, With<SeedField>>,
    mut next: ResMut<NextState<Screen>>,
    mut commands: Commands,
) {
    for request in requests.read() {
        let opened = match request {
            StartRequest::Begin(number) => {
                let Some(card) = library.cards.get(*number) else { continue };
                if let Some(trouble) = card.trouble.clone() {
                    library.trouble = Some(trouble);
                    continue;
                }
                let typed = seeds.single().map(|field| field.value().to_string());
                let seed =
                    typed.unwrap_or_default().parse().unwrap_or_else(|_| library.fresh_rig());
                store::begin(&card.path, seed, library.data.as_deref())
            }
            StartRequest::Resume(number) => {
                let Some(journal) = library.unfinished.get(*number) else { continue };
                store::resume(&journal.path).map(|session| (session, None))
            }
            StartRequest::Debrief(number) => {
                let Some(journal) = library.ended.get(*number) else { continue };
                store::ended(&journal.path).map(|session| (session, None))
            }
        };
        match opened {
            Ok((session, said)) => {
                lay_on_desk(&mut commands, session, said);
                let looked_at = matches!(request, StartRequest::Debrief(_));
                next.set(if looked_at { Screen::Debrief } else { Screen::Bench });
                return;
            }
            Err(error) => library.trouble = Some(error.to_string()),
        }
    }
}
