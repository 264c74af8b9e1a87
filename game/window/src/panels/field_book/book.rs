//! The book itself: its tabs, and the page that is open.

use accesskit::Role;
use bevy::a11y::AccessibilityNode;
use bevy::input_focus::tab_navigation::{TabGroup, TabIndex};
use bevy::prelude::*;
use bevy::ui_widgets::{ControlOrientation, ScrollArea};
use sim_core::session::action::{Action, Sight};

use super::entry::Leaf;
use super::page::{Page, PageTurn};
use super::points::ReadOn;
use super::remarks::{self, ReportDraft};
use super::width::PADDING_PX;
use super::{
    decision, entry, history, next_blank, overview, pad, pad_slide, papers, plain, plot, points,
    sums, volume,
};
use crate::desk::{Book, Desk, GoTo, Seen};
use crate::panels::help::HELP;
use crate::ui::access::{heading, spoken};
use crate::ui::bars;
use crate::ui::controls::{AddRequest as _, Choice, Chosen, Request, button, choice_as};
use crate::ui::order::Frame;
use crate::ui::overlay::SheetRequest;
use crate::ui::page_keys::Turns;
use crate::ui::screen::Screen;
use crate::ui::services::Speech;
use crate::ui::settings_sheet::SETTINGS;
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, Tone};

/// The page that is open.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct OpenPage(pub Page);

/// The tabs.
#[derive(Component)]
struct Tabs;

pub struct FieldBookPlugin;

impl Plugin for FieldBookPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<OpenPage>()
            .add_request::<PageTurn>()
            .add_plugins((
                entry::EntryPlugin,
                (pad::PadPlugin, pad_slide::PadSlidePlugin),
                decision::DecisionPlugin,
                remarks::RemarksPlugin,
                plot::OwnPlotPlugin,
                (
                    overview::OverviewPlugin,
                    next_blank::NextBlankPlugin,
                    sums::SumsPlugin,
                    papers::PapersPlugin,
                ),
                history::HistoryPlugin,
            ))
            .add_systems(OnEnter(Screen::Bench), |mut open: ResMut<OpenPage>| {
                // Left open in a session before this one.
                *open = OpenPage::default();
            })
            .add_systems(
                Update,
                (
                    turn.in_set(Frame::Obey),
                    (lay_tabs, go_to, lay_open).chain().in_set(Frame::Lay),
                    show_tabs.in_set(Frame::Show).run_if(resource_changed::<OpenPage>),
                )
                    .run_if(in_state(Screen::Bench).and_then(resource_exists::<Desk>))
                    .run_if(resource_exists::<Seen>),
            );
    }
}

/// Puts the book beside the scene; how wide it is, the caller says.
pub fn spawn(root: &mut ChildSpawnerCommands) -> Entity {
    let book = Node {
        flex_direction: FlexDirection::Column,
        flex_shrink: 0.0,
        min_height: px(0),
        ..default()
    };
    let mut book =
        root.spawn((theme::sheet(book), TabGroup::new(1), spoken(Role::Group, "field book", "")));
    book.with_children(|book| {
        book.spawn((
            Node {
                padding: UiRect::axes(px(12), px(6)),
                border: UiRect::bottom(px(2)),
                column_gap: px(6),
                row_gap: px(4),
                align_items: AlignItems::Center,
                flex_wrap: FlexWrap::Wrap,
                flex_shrink: 0.0,
                ..default()
            },
            Surface(Tone::PaperShade),
            Border(Tone::Ink),
        ))
        .with_children(|head| {
            head.spawn((
                Node { flex_grow: 1.0, ..default() },
                children![(
                    theme::bold("Field book", theme::HEAD, Tone::Ink),
                    heading("Field book", 2),
                )],
            ));
            // Large text moves both below the title, and not one alone.
            let both = Node { column_gap: px(6), flex_shrink: 0.0, ..default() };
            head.spawn(both).with_children(|head| {
                // After the pages: both have a key of their own.
                head.spawn(button("F1 help", SheetRequest(HELP))).insert(TabIndex(1));
                head.spawn(button("F2 settings", SheetRequest(SETTINGS))).insert(TabIndex(1));
            });
        });
        book.spawn((
            Tabs,
            spoken(Role::TabList, "pages of the field book", ""),
            Node {
                column_gap: px(4),
                row_gap: px(4),
                padding: UiRect::axes(px(8), px(6)),
                flex_wrap: FlexWrap::Wrap,
                flex_shrink: 0.0,
                ..default()
            },
        ));
        open_leaf(book);
        pad::spawn(book);
    });
    book.insert(Turns).id()
}

/// The open page, with a bar at its side where it is longer than the book is high.
fn open_leaf(book: &mut ChildSpawnerCommands) {
    let around = Node {
        flex_direction: FlexDirection::Column,
        flex_grow: 1.0,
        flex_basis: px(0),
        min_height: px(0),
        ..default()
    };
    book.spawn(around).with_children(|around| {
        let page = Node {
            flex_direction: FlexDirection::Column,
            flex_grow: 1.0,
            flex_basis: px(0),
            min_height: px(0),
            padding: UiRect::axes(px(PADDING_PX), px(8)),
            row_gap: px(8),
            overflow: Overflow::scroll_y(),
            ..default()
        };
        let leaf = around.spawn((Leaf, spoken(Role::TabPanel, "", ""), ScrollArea, page)).id();
        bars::spawn(around, leaf, ControlOrientation::Vertical);
    });
}

/// Turns to a page. Papers are looked at when they are turned to.
fn turn(mut turns: MessageReader<PageTurn>, mut open: ResMut<OpenPage>, mut desk: ResMut<Desk>) {
    for PageTurn(page) in turns.read() {
        open.set_if_neq(OpenPage(*page));
        let at = match page {
            Page::Order => Some(Sight::WorkOrder),
            Page::Certificate => Some(Sight::Certificate(0)),
            _ => None,
        };
        if let Some(at) = at {
            desk.ask(Action::Look { at, eye_mm: 0.0 });
        }
    }
}

/// Opens the page that a step is written on.
fn go_to(go: Res<GoTo>, mut open: ResMut<OpenPage>) {
    if !go.is_changed() {
        return;
    }
    let page = match *go {
        GoTo::Field(field) => Page::of(field),
        GoTo::Signature => Page::Remarks,
        GoTo::Watch(_) | GoTo::Nowhere => return,
    };
    open.set_if_neq(OpenPage(page));
}

/// Puts the tabs of those pages that the work order asks for onto the book.
fn lay_tabs(
    (open, desk): (Res<OpenPage>, Res<Desk>),
    tabs: Query<Entity, Added<Tabs>>,
    mut commands: Commands,
) {
    let Ok(tabs) = tabs.single() else { return };
    commands.entity(tabs).with_children(|row| {
        let there = |page: &Page| page.is_there(&desk.papers.work_order);
        for page in Page::ALL.into_iter().filter(there) {
            let chosen = Chosen::when(page, open.0);
            row.spawn(choice_as(Role::Tab, page.name(), theme::BODY, PageTurn(page), chosen));
        }
    });
}

/// Shows which page is open.
fn show_tabs(
    open: Res<OpenPage>,
    mut tabs: Query<(&Request<PageTurn>, &mut Choice)>,
    mut leaves: Query<&mut AccessibilityNode, With<Leaf>>,
) {
    for mut leaf in &mut leaves {
        leaf.set_label(format!("page: {}", open.0.name()));
    }
    for (turn, mut choice) in &mut tabs {
        Choice::set(&mut choice, Chosen::when(turn.0.0, open.0));
    }
}

fn lay_open(
    open: Res<OpenPage>,
    (desk, book, speech): (Res<Desk>, Res<Book>, Res<Speech>),
    added: Query<(), Added<Leaf>>,
    leaves: Query<Entity, With<Leaf>>,
    (report, decisions, seen): (Res<ReportDraft>, Res<decision::Drafts>, Res<Seen>),
    mut last: Local<Option<(bool, bool)>>,
    mut commands: Commands,
) {
    // What is printed on the volume's page comes with the return and with the envelope.
    let run = seen.0.run.as_deref();
    let printed = run.map(|run| (run.weather.is_empty(), run.masses.is_none()));
    let reprinted = open.0 == Page::Volume && *last != printed;
    *last = printed;
    if !open.is_changed() && added.is_empty() && !reprinted {
        return;
    }
    let Ok(leaf) = leaves.single() else { return };
    commands.entity(leaf).insert(ScrollPosition::default()).despawn_children().with_children(
        |leaf| match open.0 {
            Page::Order => {
                papers::order(leaf, &desk.papers, &**speech);
                overview::spawn(leaf, &desk.papers);
            }
            Page::Certificate => papers::certificates(leaf, (&desk.papers, &book), &**speech),
            Page::Points => points::spawn(leaf, &desk.papers, &book, ReadOn::of(&seen.0)),
            Page::Remarks => remarks::spawn(leaf, (&desk.papers, &book), &report, &decisions),
            Page::Check => plain::check(leaf, &book, (&desk.papers, &decisions)),
            Page::History => history::spawn(leaf, &book, (&desk.papers, &decisions)),
            Page::Volume => {
                if let Some(run) = run {
                    volume::spawn(leaf, (run, &book), (&desk.papers, &decisions));
                }
            }
            Page::Air | Page::Line | Page::SetPoint | Page::Run => {
                plain::spawn(leaf, open.0, &book, &desk.papers);
            }
        },
    );
}
