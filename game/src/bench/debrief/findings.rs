//! Marks part by part, faults and what became of them, and every finding with its cost.

use bevy::prelude::*;
use sim_core::marking::Marks;
use sim_core::marking::cost::Costs;
use sim_core::procedure::Finding;
use sim_core::time::TimeOfDay;

use super::Moment;
use super::table::{self, Set, row};
use crate::bench::controls::{Ask, face};
use crate::bench::theme::{self, Theme};
use crate::report::cost_words::percent;
use crate::report::words::{self, Together};
use crate::words::units::Units;

/// Columns of the marks, percent.
const PARTS: [f32; 3] = [18.0, 18.0, 64.0];
/// Columns of the faults, percent.
const FAULTS: [f32; 3] = [44.0, 28.0, 28.0];

/// The six parts of the marks.
pub fn parts(root: &mut ChildSpawnerCommands, theme: &Theme, units: Units, marks: &Marks) {
    table::part(root, theme, "Marks", |sheet| {
        for part in &marks.parts {
            let name = words::part_name(part.name);
            let got = format!("{:.1} of {:.0}", part.got, part.weight);
            let why = units.beside(&part.reasons.join("; "));
            row(sheet, theme, &PARTS, &[name, &got, &why], Set::Plain);
        }
        let total = format!("{:.1} of 100", marks.total);
        let needed = format!("{:.0} needed", marks.pass_mark);
        row(sheet, theme, &PARTS, &["total", &total, &needed], Set::Heavy);
    });
}

/// Every fault that was there and every report, and what became of it.
pub fn faults(root: &mut ChildSpawnerCommands, theme: &Theme, marks: &Marks, start: TimeOfDay) {
    table::part(root, theme, "What was wrong on this bench", |sheet| {
        if marks.faults.is_empty() {
            let none = "Nothing was wrong, and nothing was reported.";
            sheet.spawn(theme::text(none, theme::BODY, theme.ink));
            return;
        }
        row(sheet, theme, &FAULTS, &["fault, or report", "what became of it", "when"], Set::Head);
        for fault in &marks.faults {
            let what = format!("{}: {}", fault.place.words(), fault.what);
            let verdict = words::verdict(fault.verdict);
            let when = words::reported(fault.reported, start);
            row(sheet, theme, &FAULTS, &[&what, &verdict, &when], Set::Plain);
        }
    });
}

/// Every finding: those of one rule together, with their points and what they cost.
pub fn findings(
    root: &mut ChildSpawnerCommands,
    theme: &Theme,
    units: Units,
    (marks, costs): (&Marks, &Costs),
    start: TimeOfDay,
) {
    root.spawn(theme::bold("Findings", theme::HEAD, theme.ink));
    if marks.findings.is_empty() {
        root.spawn(theme::text("None.", theme::BODY, theme.ink));
    }
    for group in by_rule(&marks.findings) {
        found(root, theme, units, (&group, costs), start);
    }
}

/// Findings of one rule together, in the order of the work.
fn by_rule(findings: &[Finding]) -> Vec<Vec<Together<'_>>> {
    let mut rules: Vec<Vec<Together<'_>>> = Vec::new();
    for one in words::together(findings) {
        let same = |group: &&mut Vec<Together<'_>>| {
            group.first().is_some_and(|first| first.finding.rule == one.finding.rule)
        };
        match rules.iter_mut().find(same) {
            Some(group) => group.push(one),
            None => rules.push(vec![one]),
        }
    }
    rules
}

/// A rule's title, where it was broken, and what that cost.
fn heading(group: &[Together<'_>], costs: &Costs) -> Option<String> {
    let first = group.first()?.finding;
    let mut points: Vec<u8> = group.iter().flat_map(|one| one.points.iter().copied()).collect();
    points.sort_unstable();
    points.dedup();
    let at = match words::points_words(&points) {
        words if words.is_empty() => words,
        words => format!(", at {words}"),
    };
    let cost = costs.each.iter().find(|cost| cost.id == first.rule);
    let cost = match cost.and_then(|cost| cost.cost_pct) {
        Some(pct) => format!(", cost {} %", percent(Some(pct))),
        None => String::new(),
    };
    Some(format!("{}{at} ({}{cost})", first.title, words::severity(first.severity)))
}

fn found(
    root: &mut ChildSpawnerCommands,
    theme: &Theme,
    units: Units,
    (group, costs): (&[Together<'_>], &Costs),
    start: TimeOfDay,
) {
    let (Some(title), Some(first)) = (heading(group, costs), group.first()) else { return };
    let sheet = Node {
        flex_direction: FlexDirection::Column,
        padding: UiRect::axes(px(14), px(8)),
        row_gap: px(3),
        flex_shrink: 0.0,
        ..default()
    };
    root.spawn(theme::sheet(theme, sheet)).with_children(|sheet| {
        sheet.spawn(theme::bold(title, theme::BODY, theme.ink));
        for one in group {
            let time = start.after(one.finding.tick);
            let at = match words::points_words(&one.points) {
                words if words.is_empty() => words,
                words => format!(", {words}"),
            };
            let line = format!("{at}: {}", units.beside(&one.finding.evidence));
            let line = line.trim_start_matches([',', ':', ' ']).to_owned();
            sheet.spawn(row_of_moment()).with_children(|row| {
                let label = format!("go to {time}, {}", one.finding.title);
                let ask = Ask::Moment(Moment::At(one.finding.tick));
                row.spawn(face(theme, &label, ask, theme.paper_shade)).with_child(theme::text(
                    time.to_string(),
                    theme::BODY,
                    theme.ink,
                ));
                let mut words = row.spawn(theme::text(line, theme::BODY, theme.ink));
                words.insert(Node { flex_shrink: 1.0, min_width: px(0), ..default() });
            });
        }
        let why = units.beside(first.finding.why);
        sheet.spawn(theme::text(why, theme::SMALL, theme.ink_soft));
        let source = words::source(first.finding);
        sheet.spawn(theme::italic(source, theme::SMALL, theme.ink_soft));
    });
}

/// A line that begins with a button for its moment.
fn row_of_moment() -> Node {
    Node { column_gap: px(10), align_items: AlignItems::Center, flex_shrink: 0.0, ..default() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::commands::session_files::end_of;
    use sim_core::operator::{by_name, rehearse};
    use sim_core::session::Session;
    use sim_core::session::journal::NoInk;

    const CLEAN: &str = include_str!("../../../../scenarios/01_first_calibration.ron");

    #[test]
    fn a_rule_broken_at_many_points_stands_once_with_all_of_them() {
        let mut session = Session::begin(CLEAN, 1, Box::new(NoInk)).expect("a session");
        rehearse(&mut session, by_name("hurried", 1).expect("an operator").as_mut())
            .expect("a rehearsal");
        let ended = end_of(session).expect("its end");
        let groups = by_rule(&ended.marks.findings);
        let mut rules: Vec<&str> = groups.iter().map(|group| group[0].finding.rule).collect();
        let count = rules.len();
        rules.sort_unstable();
        rules.dedup();
        assert_eq!(rules.len(), count, "each rule has one heading");
        assert!(count < ended.marks.findings.len(), "some rule was broken more than once");
        let whole: usize = groups.iter().flatten().map(|one| one.points.len()).sum();
        let at_points = ended.marks.findings.iter().filter(|one| one.point.is_some()).count();
        assert_eq!(whole, at_points, "no point is lost");
        let headings: Vec<String> =
            groups.iter().filter_map(|group| heading(group, &ended.costs)).collect();
        assert!(headings.iter().any(|words| words.contains(", at points ")), "{headings:#?}");
        assert!(headings.iter().any(|words| words.contains(", cost ")), "{headings:#?}");
    }
}
