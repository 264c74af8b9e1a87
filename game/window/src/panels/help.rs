//! Help for those who ask: the keys, what to do now, why, the step shown on a copy, and the sums where
//! the scenario allows them. Each asking is in the journal.

use accesskit::{Live, Role};
use bevy::input::keyboard::Key;
use bevy::prelude::*;
use content::own_sums::OwnSums;
use content::units::{FlowUnit, Units};
use hands::{Step, step_by_hand};
use sim_core::session::action::{Action, HelpTopic};

use crate::desk::{Book, Desk, GoTo, LeaveRequest, Papers, Seen};
use crate::ui::access::spoken;
use crate::ui::caution::caution;
use crate::ui::controls::{AddRequest as _, button};
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;
use crate::ui::overlay::{self, Overlay, Sheet, SheetRequest};
use crate::ui::screen::Screen;
use crate::ui::services::Speech;
use crate::ui::settings::Settings;
use crate::ui::theme;
use crate::ui::tone::Tone;

const KEYS: &str = "Tab and Shift+Tab go from thing to thing, in the order of the work. Enter does \
    the first action on the hand card, and the keys 1 to 9 do the action with that number. The arrow keys turn and slide, with \
    Shift in fine steps. L looks at what has the focus; any other letter goes to the next thing with that initial \
    (V to the valves, G to the glass of the manometer's legs, X to the zero screw, Y to the lid, U to the roof). The key = reads the thing that \
    has the focus and goes to the blank for its value; Enter there writes it and goes on to the next reading of the row, and \
    Esc brings you back; the keys . , and * let 10 s, 1 min and 5 min pass. In the scene, Page Up and Page Down raise and lower the eye; \
    elsewhere they turn over the page that has the focus. F6 goes from the scene to the field of the book \
    that you were in last, and on to the watch. F2 opens the settings. Esc ends a \
    wait and closes this sheet. You are asked twice before you leave the site and before you sign.";
const POINTER: &str = "With the pointer, click a thing to look at it: a click only looks. To act, press a numbered \
    button on the hand card, or drag. The wheel turns and slides in steps, and a drag moves things as far as \
    the hand goes, with Shift a fifth of it. Drag parts, plugs, the pen's cap and the end of the tube to where \
    they go: the places are outlined. A short drag to the side swings the hung manometer, and a long \
    one takes it down. Drag in the loupe to raise or lower the eye.";
const BOOK: &str = "In the field book, Enter writes what you typed and goes on to the next blank of the page. To strike out an entry, clear its field and \
    press Enter. To take a point again, strike it out with the button \u{d7} at the end of its row, read the \
    instruments again and write the new readings in the same row. What was struck out stays legible.";

const JUMPS: &str = "From the field book and from elsewhere a letter goes to a thing as well, wherever nothing is typed. \
    F6 goes back to where you were in the field book, or into the page that was just opened; so does Enter on the \
    tab of an open page. F7 goes to the decision, and F8 to the next blank of the field book on whatever page it is. Esc in a field \
    brings you back to the thing at hand.";

const LOUPE: &str = "The loupe shows what you look at. Z opens it over the scene and puts it back, and so does its \
    button; the plus and minus keys, its buttons and the wheel over it hold it nearer and farther away. A number at its \
    rim with a wedge is the next one on the scale, which the rim hides.";

/// What becomes of the clock while a sheet lies over the bench, in practice and in a sitting.
const STANDS: &str = "The clock of the bench stands while this sheet or the settings are open.";
const GOES_ON: &str = "This session has a time limit: the clock goes on while this sheet is open.";

/// The sheet with the help.
pub const HELP: Sheet = Sheet("help");

/// Asks for help on something.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct HelpRequest(pub HelpTopic);

/// On the button below what was calculated.
pub const COPY: &str = "write them into the blanks";

/// Asks for what was calculated to be written where nothing stands yet.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct CopySums;

/// Where the answer stands.
#[derive(Component)]
struct Answer;

pub struct HelpPlugin;

impl Plugin for HelpPlugin {
    fn build(&self, app: &mut App) {
        app.add_request::<HelpRequest>()
            .add_request::<CopySums>()
            .add_observer(on_key)
            .add_systems(
                Update,
                (
                    answer
                        .in_set(Frame::Obey)
                        .run_if(resource_exists::<Desk>.and_then(resource_exists::<Seen>)),
                    open.in_set(Frame::Lay).run_if(resource_changed::<Overlay>),
                ),
            );
    }
}

fn on_key(press: On<KeyPress>, mut requests: MessageWriter<SheetRequest>) {
    if press.key == Key::F1 {
        requests.write(SheetRequest(HELP));
    }
}

/// What may be asked for, with the words on its button.
fn topics(papers: &Papers) -> Vec<(&'static str, HelpTopic)> {
    let mut topics = Vec::new();
    if papers.terms.help {
        topics.extend([
            ("what now", HelpTopic::WhatNow),
            ("why", HelpTopic::Why),
            ("show me", HelpTopic::ShowMe),
        ]);
    }
    if papers.terms.sums {
        topics.push(("do the calculations", HelpTopic::Sums));
    }
    topics
}

fn open(
    overlay: Res<Overlay>,
    screen: Res<State<Screen>>,
    desk: Option<Res<Desk>>,
    mut commands: Commands,
) {
    if !overlay.is(HELP) {
        return;
    }
    let papers = desk.filter(|_| *screen.get() == Screen::Bench).map(|desk| desk.papers.clone());
    let on_bench = papers.is_some();
    overlay::lay(&mut commands, "Help", |sheet| {
        if let Some(papers) = papers {
            let clock = if papers.is_sitting() { GOES_ON } else { STANDS };
            sheet.spawn(theme::italic(clock, theme::BODY, Tone::InkSoft));
            ask_for(sheet, &papers);
        }
        sheet.spawn(theme::text(KEYS, theme::BODY, Tone::Ink));
        sheet.spawn(theme::text(JUMPS, theme::BODY, Tone::Ink));
        sheet.spawn(theme::text(POINTER, theme::BODY, Tone::Ink));
        sheet.spawn(theme::text(LOUPE, theme::BODY, Tone::Ink));
        sheet.spawn(theme::text(BOOK, theme::BODY, Tone::Ink));
        sheet.spawn(overlay::choices()).with_children(|row| {
            row.spawn(button("close", SheetRequest(HELP)));
            if on_bench {
                row.spawn(button("leave the bench and keep the session", LeaveRequest));
            }
        });
    });
}

/// The buttons that ask, and the place of the answer.
fn ask_for(sheet: &mut ChildSpawnerCommands, papers: &Papers) {
    let topics = topics(papers);
    if !papers.terms.help {
        let note = if topics.is_empty() {
            "This scenario is done without help. These are the keys:"
        } else {
            "This scenario is done without help on the work. The calculations are done on request."
        };
        sheet.spawn(theme::italic(note, theme::BODY, Tone::InkSoft));
    }
    if topics.is_empty() {
        return;
    }
    sheet.spawn(overlay::choices()).with_children(|row| {
        for (words, topic) in topics {
            row.spawn(button(words, HelpRequest(topic)));
        }
    });
    let mut live = spoken(Role::Status, "answer", "");
    live.set_live(Live::Polite);
    sheet.spawn((
        Answer,
        live,
        Node {
            flex_direction: FlexDirection::Column,
            row_gap: px(6),
            flex_shrink: 0.0,
            ..default()
        },
    ));
    let note = "Each request for help is written into the journal. A step is shown on a copy of the session.";
    sheet.spawn(theme::italic(note, theme::SMALL, Tone::InkSoft));
}

/// An answer as it stands on the sheet.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Said {
    lines: Vec<String>,
    table: Vec<[String; 3]>,
    caution: Option<&'static str>,
}

impl Said {
    /// All of it, for a screen reader.
    fn spoken(&self) -> String {
        let caution = self.caution.map(|words| format!("Caution: {words}"));
        let rows = self.table.iter().map(|row| row.join(", "));
        self.lines.iter().cloned().chain(rows).chain(caution).collect::<Vec<_>>().join("\n")
    }
}

fn answer(
    mut requests: MessageReader<HelpRequest>,
    (book, settings, speech): (Res<Book>, Res<Settings>, Res<Speech>),
    mut desk: ResMut<Desk>,
    (mut overlay, mut before): (ResMut<Overlay>, ResMut<overlay::Before>),
    mut answers: Query<(Entity, &mut bevy::a11y::AccessibilityNode), With<Answer>>,
    mut go: ResMut<GoTo>,
    mut commands: Commands,
) {
    for HelpRequest(topic) in requests.read() {
        // Asked while something is shown: the present state is asked about.
        desk.stop();
        desk.ask(Action::AskHelp { topic: *topic });
        let terms = &desk.papers.terms;
        let allowed = match topic {
            HelpTopic::WhatNow | HelpTopic::Why | HelpTopic::ShowMe => terms.help,
            HelpTopic::Sums => terms.sums,
            HelpTopic::Plot => false,
        };
        if !allowed {
            continue;
        }
        let Some(session) = desk.session() else { continue };
        let step = || {
            let (view, papers) = (session.view(), desk.papers.as_words());
            let advised = speech.next_step(&view, &book.0, &papers, &mut session.done());
            step_by_hand(&view, advised, &**speech)
        };
        let units = settings.units;
        let said = match topic {
            HelpTopic::WhatNow => now(&step(), units),
            HelpTopic::Why => plain(units.beside(&step().why)),
            HelpTopic::ShowMe => {
                let step = step();
                desk.show(&step, &**speech);
                *go = GoTo::of(&step);
                // The focus goes to what is shown, not back to where it was.
                before.0 = None;
                *overlay = Overlay(None);
                continue;
            }
            HelpTopic::Sums => {
                let averages = desk.papers.work_order.averages;
                sums(speech.own_sums(&book.0, averages), units)
            }
            HelpTopic::Plot => continue,
        };
        if let Ok((entity, mut access)) = answers.single_mut() {
            access.set_value(said.spoken());
            commands
                .entity(entity)
                .despawn_children()
                .with_children(|sheet| lay_answer(sheet, &said));
        }
    }
}

fn plain(words: String) -> Said {
    Said { lines: vec![words], table: Vec::new(), caution: None }
}

/// What to do now, with the caution that belongs beside it.
fn now(step: &Step, units: Units) -> Said {
    Said { caution: step.caution, ..plain(units.beside(&step.now)) }
}

/// The sums of the book's own readings; the book itself wants flows in m3/min.
pub(super) fn sums(own: Result<OwnSums, String>, units: Units) -> Said {
    let sums = match own {
        Ok(sums) => sums,
        Err(why) => return plain(why),
    };
    let OwnSums { points, slope, intercept, correlation } = sums;
    let head = ["point", "flow", "corrected chart reading"].map(str::to_owned);
    let rows = points.into_iter().map(|(number, flow, term)| {
        let flow = match units.flow {
            FlowUnit::M3Min => units.flow(flow, 3),
            FlowUnit::Ft3Min => units.beside(&format!("{flow:.3} m\u{b3}/min")),
        };
        [number.to_string(), flow, format!("{term:.2}")]
    });
    let line = format!(
        "Calibration line: slope {slope:.2}, intercept {intercept:.2}, correlation {correlation:.4}."
    );
    let from = "From your readings, for a square-root scale:".to_owned();
    Said {
        lines: vec![from, line],
        table: std::iter::once(head).chain(rows).collect(),
        caution: None,
    }
}

pub(super) fn lay_answer(sheet: &mut ChildSpawnerCommands, said: &Said) {
    let mut lines = said.lines.iter();
    if let Some(first) = lines.next() {
        sheet.spawn(theme::bold(first.clone(), theme::BODY, Tone::HandInk));
    }
    for cells in &said.table {
        sheet.spawn(Node { width: percent(100), flex_shrink: 0.0, ..default() }).with_children(
            |row| {
                for (cell, width) in cells.iter().zip([16.0, 50.0, 34.0]) {
                    row.spawn(Node { width: percent(width), flex_shrink: 0.0, ..default() })
                        .with_children(|column| {
                            column.spawn(theme::text(cell.clone(), theme::BODY, Tone::HandInk));
                        });
                }
            },
        );
    }
    for line in lines {
        sheet.spawn(theme::bold(line.clone(), theme::BODY, Tone::HandInk));
    }
    if !said.table.is_empty() {
        sheet.spawn(overlay::choices()).with_children(|row| {
            row.spawn(button(COPY, CopySums));
        });
    }
    if let Some(words) = said.caution {
        caution(sheet, &format!("Caution: {words}"));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use content::units::{PressureUnit, TemperatureUnit};

    #[test]
    fn sums_are_in_the_book_s_units_with_the_others_beside_them() {
        let own = OwnSums {
            points: vec![(1, 1.0, 30.0), (2, 1.25, 37.5), (3, 1.5, 45.0)],
            slope: 30.0,
            intercept: 0.0,
            correlation: 1.0,
        };
        let usual = sums(Ok(own.clone()), Units::default()).spoken();
        assert!(usual.contains("2, 1.250 m\u{b3}/min, 37.50"), "{usual}");
        assert!(usual.contains("slope 30.00"), "{usual}");
        let other = Units {
            flow: FlowUnit::Ft3Min,
            temperature: TemperatureUnit::Celsius,
            pressure: PressureUnit::MmHg,
        };
        let said = sums(Ok(own), other).spoken();
        assert!(said.contains("1.250 m\u{b3}/min (44.14 ft\u{b3}/min)"), "{said}");
        let why = "The calculations need the station pressure in the field book first.";
        assert_eq!(sums(Err(why.to_owned()), other).spoken(), why);
    }
}
