//! The watch: the time of day, how long it has been, how long is left, and letting time pass.

use accesskit::{Live, Role};
use bevy::a11y::AccessibilityNode;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use bevy::text::EditableText;
use bevy::ui_widgets::ScrollArea;
use hands::day;
use sim_core::time::TimeOfDay;

use crate::desk::pace::Why;
use crate::desk::{Desk, GoTo, Said, Seen};
use crate::ui::access::spoken;
use crate::ui::controls::{AddRequest as _, Request, button};
use crate::ui::order::Frame;
use crate::ui::room::{ByRoom, Columns};
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, TextTone, Tone};

/// Longest wait at once, s.
const LONGEST_S: f64 = 7200.0;

/// What is asked of the watch.
#[derive(Message, Debug, Clone, Copy, PartialEq)]
pub enum WatchRequest {
    /// Let so many seconds pass.
    Pass(f64),
    /// Let time pass until what is typed in its field.
    PassUntil,
}

#[derive(Component)]
struct TimeText;
/// The day, where the work goes on over several.
#[derive(Component)]
struct DayText;
#[derive(Component)]
struct LeftText;
/// What is said when little time is left.
#[derive(Component)]
struct LeftNotice;
#[derive(Component)]
struct UntilField;

pub struct WatchPlugin;

impl Plugin for WatchPlugin {
    fn build(&self, app: &mut App) {
        app.add_request::<WatchRequest>().add_systems(
            Update,
            (obey.in_set(Frame::Obey), (show, show_day, go_to).in_set(Frame::Show))
                .run_if(in_state(Screen::Bench).and_then(resource_exists::<Seen>)),
        );
    }
}

/// Puts the watch into the foot of the window.
pub fn spawn(foot: &mut ChildSpawnerCommands) {
    let watch = Node {
        flex_direction: FlexDirection::Column,
        flex_shrink: 0.0,
        padding: UiRect::axes(px(10), px(6)),
        row_gap: px(4),
        overflow: Overflow::scroll_y(),
        ..default()
    };
    let size = ByRoom::new(|node, room| {
        let one = room.columns() == Columns::One && room.scale > 1.4;
        node.max_width = percent(if one { 100 } else { 45 });
    });
    let node = (theme::sheet(watch), size, ScrollArea, spoken(Role::Group, "watch", ""));
    foot.spawn(node).with_children(|watch| {
        watch
            .spawn(Node {
                column_gap: px(10),
                align_items: AlignItems::Baseline,
                flex_wrap: FlexWrap::Wrap,
                ..default()
            })
            .with_children(|row| {
                let role = spoken(Role::Timer, "time of day", "");
                row.spawn((TimeText, role, theme::bold("", theme::LARGE, Tone::Ink)));
                let role = spoken(Role::Timer, "day", "");
                let hidden = Node { display: Display::None, ..default() };
                row.spawn((DayText, role, theme::bold("", theme::BODY, Tone::Ink), hidden));
                let role = spoken(Role::Timer, "time on the bench", "");
                row.spawn((LeftText, role, theme::bold("", theme::BODY, Tone::InkSoft)));
            });
        // Said once at each mark, so that a reader does not count every second.
        let mut live = spoken(Role::Status, "time left", "");
        live.set_live(Live::Assertive);
        watch.spawn((LeftNotice, live, theme::bold("", theme::BODY, Tone::Caution)));
        watch.spawn(theme::italic("let time pass", theme::SMALL, Tone::InkSoft));
        watch
            .spawn(Node {
                column_gap: px(5),
                row_gap: px(4),
                flex_wrap: FlexWrap::Wrap,
                ..default()
            })
            .with_children(|row| {
                row.spawn(button("10 s", WatchRequest::Pass(10.0)));
                row.spawn(button("1 min", WatchRequest::Pass(60.0)));
                row.spawn(button("5 min", WatchRequest::Pass(300.0)));
                // The field and its button stay together where large text leaves less room.
                row.spawn(Node { column_gap: px(5), ..default() }).with_children(|until| {
                    until.spawn((
                        UntilField,
                        EditableText {
                            max_characters: Some(8),
                            visible_width: Some(7.0),
                            ..default()
                        },
                        spoken(Role::TextInput, "let time pass until, such as 09:40", ""),
                        TabIndex(0),
                        theme::handwriting(),
                        Node {
                            padding: UiRect::axes(px(5), px(4)),
                            border: UiRect::all(px(1.5)),
                            ..default()
                        },
                        Border(Tone::InkSoft),
                        Surface(Tone::Page),
                        theme::ring(),
                    ));
                    until.spawn(button("until", WatchRequest::PassUntil));
                });
            });
    });
}

/// Lets time pass.
fn obey(
    mut requests: MessageReader<WatchRequest>,
    mut desk: ResMut<Desk>,
    mut said: ResMut<Said>,
    seen: Res<Seen>,
    fields: Query<&EditableText, With<UntilField>>,
) {
    for request in requests.read() {
        match request {
            WatchRequest::Pass(seconds) => desk.pass(*seconds),
            WatchRequest::PassUntil => {
                let typed = fields.single().map(|field| field.value().to_string());
                match seconds_until(seen.0.time, typed.unwrap_or_default().trim()) {
                    Ok(seconds) => desk.pass(seconds),
                    Err(why) => *said = Said::Notice(why),
                }
            }
        }
    }
}

/// Where a step is shown that is a wait, the focus goes to the longest one that is not longer.
fn go_to(
    mut go: ResMut<GoTo>,
    controls: Query<(Entity, &Request<WatchRequest>)>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
) {
    let GoTo::Watch(seconds) = *go else { return };
    let found = controls
        .iter()
        .filter_map(|(entity, Request(request))| match request {
            WatchRequest::Pass(by) if *by <= f64::from(seconds) => Some((entity, *by)),
            _ => None,
        })
        .max_by(|(_, a), (_, b)| a.total_cmp(b));
    if let Some((entity, _)) = found {
        focus.set(entity, FocusCause::Navigated);
        visible.0 = true;
        *go = GoTo::Nowhere;
    }
}

/// Seconds from now until a typed time of day.
fn seconds_until(now: TimeOfDay, typed: &str) -> Result<f64, String> {
    let then = TimeOfDay::try_from(typed.to_owned()).map_err(|error| format!("{error}."))?;
    let seconds = ((then.hours() - now.hours()) * 3600.0).round();
    if seconds <= 0.0 {
        Err(format!("{then} has passed. Enter a later time of day."))
    } else if seconds > LONGEST_S {
        Err("That is more than two hours ahead. Enter an earlier time of day.".to_owned())
    } else {
        Ok(seconds)
    }
}

/// Shows the day where a run is ordered: the timer is set by it.
fn show_day(
    seen: Res<Seen>,
    mut days: Query<(&mut Text, &mut Node, &mut AccessibilityNode), With<DayText>>,
) {
    let Ok((mut text, mut node, mut access)) = days.single_mut() else { return };
    let today = if seen.0.run.is_some() { day(&seen.0) } else { String::new() };
    if text.0 != today {
        node.display = if today.is_empty() { Display::None } else { Display::Flex };
        access.set_value(today.clone());
        text.0 = today;
    }
}

/// Marks at which it is said how much is left, s.
const MARKS_S: [f64; 7] = [1800.0, 900.0, 600.0, 300.0, 120.0, 60.0, 30.0];

/// The least mark that is not yet passed, when it is one of the last.
fn last_mark(left_s: f64) -> Option<f64> {
    MARKS_S.into_iter().rev().find(|mark| left_s <= *mark)
}

/// A mark in words.
fn mark_words(mark_s: f64) -> String {
    match mark_s {
        60.0 => "the last minute: the field book is signed as it stands when it is over".to_owned(),
        mark if mark < 60.0 => format!("less than {mark:.0} seconds are left"),
        mark => format!("less than {:.0} minutes are left", mark / 60.0),
    }
}

/// A length of time, short: minutes and seconds, and from an hour on hours and minutes.
fn short_time(seconds: f64) -> String {
    let whole = seconds.max(0.0) as u64;
    match whole / 3600 {
        0 => format!("{}:{:02}", whole / 60, whole % 60),
        hours => format!("{hours} h {} min", whole / 60 % 60),
    }
}

/// The same as a person says it.
fn spoken_time(seconds: f64) -> String {
    let whole = seconds.max(0.0) as u64;
    let counted = |count: u64, unit: &str| match count {
        1 => format!("1 {unit}"),
        _ => format!("{count} {unit}s"),
    };
    let (hours, minutes) = (counted(whole / 3600, "hour"), counted(whole / 60 % 60, "minute"));
    match whole / 3600 {
        0 => format!("{minutes} {}", counted(whole % 60, "second")),
        _ => format!("{hours} {minutes}"),
    }
}

/// How often the watch is looked at on a bench at rest, s.
const LOOKED_AT_S: u64 = 10;

/// Shows the time and what is left of it.
fn show(
    (seen, desk): (Res<Seen>, Res<Desk>),
    why: Option<Res<Why>>,
    mut looked_at: Local<u64>,
    mut time: Query<(&mut Text, &mut AccessibilityNode), (With<TimeText>, Without<LeftText>)>,
    mut left: Query<
        (&mut Text, &mut TextTone, &mut AccessibilityNode),
        (With<LeftText>, Without<TimeText>),
    >,
    mut notice: Query<
        (&mut Text, &mut AccessibilityNode),
        (With<LeftNotice>, Without<TimeText>, Without<LeftText>),
    >,
) {
    // The copy's time is not the session's.
    if desk.showing().is_some() {
        return;
    }
    let look = seen.0.tick.whole_seconds() / LOOKED_AT_S;
    if std::mem::replace(&mut *looked_at, look) == look && why.is_some_and(|why| why.rests) {
        return;
    }
    let now = seen.0.time.to_string();
    if let Ok((mut text, mut access)) = time.single_mut()
        && text.0 != now
    {
        access.set_value(now.clone());
        text.0 = now;
    }
    let (mut words, aloud) = match seen.0.seconds_left {
        Some(left) => (format!("{} left", short_time(left)), format!("{} left", spoken_time(left))),
        None => {
            let gone = seen.0.tick.seconds();
            (format!("{} elapsed", short_time(gone)), format!("{} elapsed", spoken_time(gone)))
        }
    };
    if desk.passing().is_some() {
        words.push_str(", time is passing: Esc stops it");
    }
    if let Ok((mut text, mut tone, mut access)) = left.single_mut()
        && text.0 != words
    {
        text.0 = words;
        access.set_value(aloud);
        let timed = seen.0.seconds_left.is_some();
        tone.set_if_neq(TextTone(if timed { Tone::Ink } else { Tone::InkSoft }));
    }
    let mark = seen.0.seconds_left.and_then(last_mark);
    let said = mark.map(mark_words).unwrap_or_default();
    if let Ok((mut text, mut access)) = notice.single_mut()
        && text.0 != said
    {
        access.set_value(said.clone());
        text.0 = said;
    }
}

#[cfg(test)]
mod tests {
    use sim_core::time::TimeOfDay;

    use super::{last_mark, mark_words, seconds_until, short_time, spoken_time};

    #[test]
    fn what_is_left_is_said_at_marks() {
        assert_eq!(last_mark(3000.0), None);
        assert_eq!(last_mark(1799.0), Some(1800.0));
        assert_eq!(last_mark(61.0), Some(120.0));
        assert_eq!(last_mark(3.0), Some(30.0));
        assert_eq!(mark_words(300.0), "less than 5 minutes are left");
        assert!(mark_words(60.0).contains("signed"));
    }

    #[test]
    fn a_length_of_time_is_said_as_a_person_says_it() {
        let said = [0.0, 61.0, 3599.9, 3600.0, 16134.0, 173_400.0];
        assert_eq!(
            said.map(short_time),
            ["0:00", "1:01", "59:59", "1 h 0 min", "4 h 28 min", "48 h 10 min"]
        );
        assert_eq!(
            said.map(spoken_time),
            [
                "0 minutes 0 seconds",
                "1 minute 1 second",
                "59 minutes 59 seconds",
                "1 hour 0 minutes",
                "4 hours 28 minutes",
                "48 hours 10 minutes"
            ]
        );
    }

    #[test]
    fn a_typed_time_is_a_wait_or_a_reason() {
        let now = TimeOfDay::new(9, 5, 0).expect("a time");
        assert_eq!(seconds_until(now, "09:06"), Ok(60.0));
        assert!(seconds_until(now, "09:05").is_err_and(|why| why.contains("later")));
        assert!(seconds_until(now, "13:00").is_err_and(|why| why.contains("two hours")));
        assert!(seconds_until(now, "soon").is_err_and(|why| why.contains("08:30")));
    }
}
