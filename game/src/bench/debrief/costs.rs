//! What each slip and fault cost, and the way from the own volume to the true one.

use bevy::prelude::*;
use sim_core::marking::cost::{Costs, WaterfallStep};

use super::table::{self, Set, column, line, row};
use crate::bench::theme::{self, Theme};
use crate::report::cost_words as words;
use crate::words::units::Units;

/// Columns of the volumes, percent.
const VOLUMES: [f32; 2] = [52.0, 30.0];
/// Columns of the costs, percent.
const EACH: [f32; 3] = [16.0, 42.0, 42.0];
/// Columns of the way to the true volume, percent; the rest is the bar's.
const STEPS: [f32; 3] = [34.0, 14.0, 18.0];
/// Room on each side of the bars, as a share of what they span.
const ROOM: f64 = 0.06;

/// The part of the debrief that tells costs.
pub fn spawn(root: &mut ChildSpawnerCommands, theme: &Theme, units: Units, costs: &Costs) {
    table::part(root, theme, "What each slip cost", |sheet| {
        if let Some(run) = &costs.run {
            sheet.spawn(theme::text(words::of_run_in(run, units), theme::BODY, theme.ink));
        }
        row(sheet, theme, &VOLUMES, &["the day's volume", "at 298 K, 760 mmHg"], Set::Head);
        for (name, volume) in words::volumes(costs) {
            let volume = words::cubic_metres(volume);
            row(sheet, theme, &VOLUMES, &[name, &volume], Set::Plain);
        }
        if !costs.each.is_empty() {
            row(sheet, theme, &EACH, &["cost", "of what", ""], Set::Head);
        }
        for cost in &costs.each {
            let (percent, title) = (words::percent(cost.cost_pct), words::title(cost));
            let percent = format!("{percent} %");
            let note = units.beside(&cost.note);
            row(sheet, theme, &EACH, &[&percent, &title, &note], Set::Plain);
        }
        for sentence in words::sentences(costs) {
            sheet.spawn(theme::text(units.beside(&sentence), theme::BODY, theme.ink));
        }
        waterfall(sheet, theme, costs);
    });
}

/// The way from the own volume to the true one, a bar for each step.
fn waterfall(sheet: &mut ChildSpawnerCommands, theme: &Theme, costs: &Costs) {
    let Some(span) = Span::of(&costs.waterfall) else { return };
    let title = "From the own volume to the true one, each slip undone after those above it";
    sheet.spawn(theme::bold(title, theme::BODY, theme.ink));
    row(sheet, theme, &STEPS, &["undone", "of the true volume", "leads to"], Set::Head);
    if let Some(own) = costs.own_volume_m3 {
        let words = ["by the own line", "", &words::cubic_metres(Some(own))];
        step(sheet, theme, words, span.bar(own, own));
    }
    for one in &costs.waterfall {
        let change = format!("{} %", words::signed(one.change_pct));
        let to = words::cubic_metres(Some(one.to_m3));
        step(sheet, theme, [&one.title, &change, &to], span.bar(one.from_m3, one.to_m3));
    }
    if let Some(truth) = costs.true_volume_m3 {
        let words = ["truly drawn", "", &words::cubic_metres(Some(truth))];
        step(sheet, theme, words, span.bar(truth, truth));
    }
}

/// A step in words and as a bar.
fn step(sheet: &mut ChildSpawnerCommands, theme: &Theme, words: [&str; 3], bar: Bar) {
    sheet.spawn(line()).with_children(|row| {
        for (width, words) in STEPS.iter().zip(words) {
            row.spawn(column(*width)).with_children(|cell| {
                cell.spawn(theme::text(words, theme::BODY, theme.ink));
            });
        }
        row.spawn((
            Node {
                flex_grow: 1.0,
                flex_basis: px(0),
                height: px(14),
                border: UiRect::left(px(1)),
                ..default()
            },
            BorderColor::all(theme.line),
        ))
        .with_children(|track| {
            track.spawn((
                Node {
                    position_type: PositionType::Absolute,
                    left: percent(bar.left_pct),
                    width: percent(bar.width_pct),
                    // A step of nothing is a stroke.
                    min_width: px(3),
                    height: percent(100),
                    border: UiRect::all(px(1)),
                    ..default()
                },
                BackgroundColor(theme.copper),
                BorderColor::all(theme.ink),
            ));
        });
    });
}

/// A bar in its track, percent.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Bar {
    left_pct: f32,
    width_pct: f32,
}

/// The volumes that the bars span, m3.
#[derive(Debug, Clone, Copy)]
struct Span {
    least_m3: f64,
    most_m3: f64,
}

impl Span {
    /// With a little room on each side; none without steps.
    fn of(steps: &[WaterfallStep]) -> Option<Self> {
        let ends = || steps.iter().flat_map(|step| [step.from_m3, step.to_m3]);
        let least = ends().reduce(f64::min)?;
        let most = ends().reduce(f64::max)?;
        let room = (ROOM * (most - least)).max(0.5);
        Some(Self { least_m3: least - room, most_m3: most + room })
    }

    fn bar(self, from_m3: f64, to_m3: f64) -> Bar {
        let share = |volume: f64| {
            let share = (volume - self.least_m3) / (self.most_m3 - self.least_m3);
            (100.0 * share.clamp(0.0, 1.0)) as f32
        };
        let (a, b) = (share(from_m3), share(to_m3));
        Bar { left_pct: a.min(b), width_pct: (a - b).abs() }
    }
}

#[cfg(test)]
mod tests {
    use super::{Span, WaterfallStep};

    fn step(from_m3: f64, to_m3: f64) -> WaterfallStep {
        let change_pct = 100.0 * (to_m3 - from_m3) / 2000.0;
        WaterfallStep { id: "x", title: "x".to_owned(), from_m3, to_m3, change_pct }
    }

    #[test]
    fn bars_join_and_stay_in_their_track() {
        let steps = [step(2100.0, 2020.0), step(2020.0, 2040.0), step(2040.0, 2000.0)];
        let span = Span::of(&steps).expect("a span");
        let bars = steps.clone().map(|step| span.bar(step.from_m3, step.to_m3));
        for bar in bars {
            assert!(bar.left_pct > 0.0 && bar.left_pct + bar.width_pct < 100.0, "{bar:?}");
        }
        // The first falls to where the second begins, the second rises.
        assert!((bars[0].left_pct - bars[1].left_pct).abs() < 1e-4);
        assert!((bars[0].width_pct / bars[1].width_pct - 4.0).abs() < 1e-3);
        assert!(Span::of(&[]).is_none());
    }
}
