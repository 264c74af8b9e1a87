//! The recorder, its pen and its chart.

use sim_core::rig::recorder::{CHART_DIVISIONS, RecorderKind};
use sim_core::session::view::View;

use super::scale::{steps, whole as divisions};
use crate::printable::printable;
use crate::prose::sentences;

/// The recorder as a whole; the pen is read by looking at the pen.
pub(super) fn whole(view: &View) -> String {
    let seen = &view.recorder;
    let mut said = vec![
        door(seen.door_open).to_owned(),
        format!("the pen is {} and {}", cap(seen.capped), paper(seen.on_paper)),
        format!("the pen stands near {} on the chart", hour(seen.chart_hour)),
        format!(
            "the chart is printed to {} divisions, and the recorder's plate calls for {}",
            steps(seen.printed_to, 1.0),
            steps(CHART_DIVISIONS, 1.0)
        ),
    ];
    said.extend(dry(view));
    for (so, what) in [
        (seen.line_off, "its tubing is off its fitting and hangs free"),
        (seen.line_kinked, "its tubing is kinked"),
        (seen.line_drops, "there are drops of water in its tubing"),
        (seen.arm_bent, "the arm of the pen is bent"),
    ] {
        if so {
            said.push(what.to_owned());
        }
    }
    match seen.scale {
        RecorderKind::SquareRoot => {}
        RecorderKind::Linear => {
            said.push("its plate says: graduated linearly in pressure".to_owned())
        }
        RecorderKind::MassFlow => said.push("its plate says: graduated in mass flow".to_owned()),
    }
    if seen.moving {
        said.push("the pen is moving".to_owned());
    }
    for (at, label) in &seen.marks {
        said.push(format!("\"{}\" is marked near {}", printable(label), hour(*at)));
    }
    let said = sentences(&said);
    match view.run.as_deref().map(super::run::trace) {
        Some(trace) if !trace.is_empty() => format!("{said}\n{trace}"),
        _ => said,
    }
}

/// The pen's tip, for reading.
pub(super) fn pen(view: &View) -> String {
    let seen = &view.recorder;
    let Some(at) = seen.pen else {
        return "The pen's cap is on, so its tip cannot be read.".to_owned();
    };
    let motion = if seen.moving {
        "the pen is moving, and this is where it is at the moment"
    } else {
        "the pen is still"
    };
    let mut said = vec![format!("the pen reads {}", divisions(at)), motion.to_owned()];
    if !seen.on_paper {
        said.push("it is off the paper".to_owned());
    }
    said.extend(dry(view));
    sentences(&said)
}

/// What is seen of a pen that should write and does not.
fn dry(view: &View) -> Option<String> {
    (view.recorder.leaves_ink == Some(false))
        .then(|| "the pen is on the paper, but its tip leaves no ink there".to_owned())
}

/// How the door stands.
pub(super) const fn door(open: bool) -> &'static str {
    if open { "the recorder's door is open" } else { "the recorder's door is closed" }
}

/// Whether the cap is on.
pub(super) const fn cap(capped: bool) -> &'static str {
    if capped { "capped" } else { "uncapped" }
}

/// Whether the pen touches.
pub(super) const fn paper(on_paper: bool) -> &'static str {
    if on_paper { "on the paper" } else { "off the paper" }
}

/// An hour of the chart as an eye can tell it between the printed lines, which are a quarter of an hour
/// apart: to two minutes, `09:14`.
fn hour(hour: f64) -> String {
    const A_DAY: i64 = 24 * 30;
    let pairs = steps(hour, 1.0 / 30.0).rem_euclid(A_DAY);
    format!("{:02}:{:02}", pairs / 30, pairs % 30 * 2)
}
