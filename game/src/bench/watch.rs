//! The watch: the time of day, how long it has been, how long is left, and letting time pass.

use accesskit::Role;
use bevy::a11y::AccessibilityNode;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::prelude::*;
use bevy::text::EditableText;
use sim_core::time::TimeOfDay;

use super::Screen;
use super::access::spoken;
use super::controls::{Ask, button};
use super::desk::{Desk, Said, Seen};
use super::theme::{self, Theme};

/// Longest wait at once, s.
const LONGEST_S: f64 = 7200.0;

#[derive(Component)]
struct TimeText;
#[derive(Component)]
struct LeftText;
#[derive(Component)]
struct UntilField;

pub struct WatchPlugin;

impl Plugin for WatchPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(
            Update,
            (obey, show).run_if(in_state(Screen::Bench).and_then(resource_exists::<Seen>)),
        );
    }
}

/// Puts the watch into the foot of the window.
pub fn spawn(foot: &mut ChildSpawnerCommands, theme: &Theme) {
    let watch = Node {
        flex_direction: FlexDirection::Column,
        flex_shrink: 0.0,
        max_width: percent(45),
        padding: UiRect::axes(px(10), px(6)),
        row_gap: px(4),
        overflow: Overflow::scroll_y(),
        ..default()
    };
    foot.spawn((theme::sheet(theme, watch), spoken(Role::Group, "watch", ""))).with_children(
        |watch| {
            watch
                .spawn(Node {
                    column_gap: px(10),
                    align_items: AlignItems::Baseline,
                    flex_wrap: FlexWrap::Wrap,
                    ..default()
                })
                .with_children(|row| {
                    let role = spoken(Role::Timer, "time of day", "");
                    row.spawn((TimeText, role, theme::bold("", theme::LARGE, theme.ink)));
                    row.spawn((LeftText, theme::text("", theme::SMALL, theme.ink_soft)));
                });
            watch.spawn(theme::italic("let time pass", theme::SMALL, theme.ink_soft));
            watch
                .spawn(Node {
                    column_gap: px(5),
                    row_gap: px(4),
                    flex_wrap: FlexWrap::Wrap,
                    ..default()
                })
                .with_children(|row| {
                    row.spawn(button(theme, "10 s", Ask::Pass(10.0)));
                    row.spawn(button(theme, "1 min", Ask::Pass(60.0)));
                    row.spawn(button(theme, "5 min", Ask::Pass(300.0)));
                    row.spawn((
                        UntilField,
                        EditableText {
                            max_characters: Some(8),
                            visible_width: Some(7.0),
                            ..default()
                        },
                        spoken(Role::TextInput, "let time pass until, such as 09:40", ""),
                        TabIndex(0),
                        theme::handwriting(theme),
                        Node {
                            padding: UiRect::axes(px(5), px(4)),
                            border: UiRect::all(px(1.5)),
                            ..default()
                        },
                        BorderColor::all(theme.ink_soft),
                        BackgroundColor(theme.page),
                        theme::ring(),
                    ));
                    row.spawn(button(theme, "until", Ask::PassUntil));
                });
        },
    );
}

/// Lets time pass, or stops.
fn obey(
    mut asks: MessageReader<Ask>,
    mut desk: ResMut<Desk>,
    mut said: ResMut<Said>,
    seen: Res<Seen>,
    fields: Query<&EditableText, With<UntilField>>,
) {
    for ask in asks.read() {
        match ask {
            Ask::Pass(seconds) => desk.pass(*seconds),
            Ask::PassUntil => {
                let typed = fields.single().map(|field| field.value().to_string());
                match seconds_until(seen.0.time, typed.unwrap_or_default().trim()) {
                    Ok(seconds) => desk.pass(seconds),
                    Err(why) => said.0 = why,
                }
            }
            Ask::Stop => desk.stop(),
            _ => {}
        }
    }
}

/// Seconds from now until a typed time of day.
fn seconds_until(now: TimeOfDay, typed: &str) -> Result<f64, String> {
    let then = TimeOfDay::try_from(typed.to_owned()).map_err(|error| format!("{error}."))?;
    let seconds = ((then.hours() - now.hours()) * 3600.0).round();
    if seconds <= 0.0 {
        Err(format!("{then} has passed: write a later time of day."))
    } else if seconds > LONGEST_S {
        Err("that is more than two hours ahead: let less time pass at once.".to_owned())
    } else {
        Ok(seconds)
    }
}

/// Shows the time and what is left of it.
fn show(
    seen: Res<Seen>,
    desk: Res<Desk>,
    mut time: Query<(&mut Text, &mut AccessibilityNode), (With<TimeText>, Without<LeftText>)>,
    mut left: Query<&mut Text, (With<LeftText>, Without<TimeText>)>,
) {
    let now = seen.0.time.to_string();
    if let Ok((mut text, mut access)) = time.single_mut()
        && text.0 != now
    {
        access.set_value(now.clone());
        text.0 = now;
    }
    let minutes = |seconds: f64| {
        let whole = seconds.max(0.0) as u64;
        format!("{}:{:02}", whole / 60, whole % 60)
    };
    let mut words = match seen.0.seconds_left {
        Some(seconds) => format!("{} left", minutes(seconds)),
        None => format!("{} gone", minutes(seen.0.tick.seconds())),
    };
    if desk.passing().is_some() {
        words.push_str(", time passes: Esc stops");
    }
    if let Ok(mut text) = left.single_mut()
        && text.0 != words
    {
        text.0 = words;
    }
}

#[cfg(test)]
mod tests {
    use super::seconds_until;
    use sim_core::time::TimeOfDay;

    #[test]
    fn a_typed_time_is_a_wait_or_a_reason() {
        let now = TimeOfDay::new(9, 5, 0).expect("a time");
        assert_eq!(seconds_until(now, "09:06"), Ok(60.0));
        assert!(seconds_until(now, "09:05").is_err_and(|why| why.contains("later")));
        assert!(seconds_until(now, "13:00").is_err_and(|why| why.contains("two hours")));
        assert!(seconds_until(now, "soon").is_err_and(|why| why.contains("08:30")));
    }
}
