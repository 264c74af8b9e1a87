//! The time line of a session: the phases of the work as they happened, waits, readings, reports
//! and findings, each at its time.
//!
//! A phase is recognised by what was done, when in the work it was done, and which field was
//! written. Actions that may occur in any phase (a look, a report, a wait) belong to the current
//! one.

mod line;
mod phase;
mod scale;

#[cfg(test)]
mod tests;

use super::Marks;
use crate::field_book::Field;
use crate::procedure::{Evidence, WorkPhase};
use crate::session::action::Action;
use crate::session::ground_truth::EventRecord;
use crate::time::Tick;

pub use line::{Note, NoteKind, Span, TimeLine, Wait, WaitKind};
pub use scale::TimeScale;

use phase::WAIT_FROM_S;

/// A step into another phase and back that is shorter than this is ignored, s (CHOSEN).
const ASIDE_S: f64 = 45.0;

impl TimeLine {
    /// The time line of a session with these marks.
    pub fn of(evidence: &Evidence<'_>, marks: &Marks) -> Self {
        Self {
            end: evidence.end_tick,
            phases: without_asides(spans(evidence)),
            waits: waits(evidence),
            notes: notes(evidence, marks),
        }
    }
}

/// The phases as they follow from the actions.
fn spans(evidence: &Evidence<'_>) -> Vec<Span> {
    let mut told = phase::PhaseTracker::of(evidence);
    let end = evidence.end_tick;
    let mut spans = vec![Span { phase: WorkPhase::Arrive, from: Tick(0), to: end }];
    for at in evidence.indexed_events() {
        let Some(phase) = told.next(at) else { continue };
        join(&mut spans, Span { phase, from: at.tick(), to: end });
    }
    spans.retain(|span| span.from < span.to || end == Tick(0));
    spans
}

/// Adds a phase after the others, or extends the last one.
fn join(spans: &mut Vec<Span>, span: Span) {
    match spans.last_mut() {
        Some(last) if last.phase == span.phase => last.to = span.to,
        Some(last) => {
            last.to = span.from;
            spans.push(span);
        }
        None => spans.push(span),
    }
}

/// The same phases without short steps aside.
fn without_asides(spans: Vec<Span>) -> Vec<Span> {
    let mut kept: Vec<Span> = Vec::with_capacity(spans.len());
    for (index, span) in spans.iter().enumerate() {
        let before = kept.last().map(|last| last.phase);
        let after = spans.get(index + 1).map(|next| next.phase);
        let aside = before.is_some() && before == after;
        if !(aside && span.to.seconds_since(span.from) < ASIDE_S) {
            join(&mut kept, *span);
        }
    }
    kept
}

/// Every time when nothing was done for long. The journal line of a wait is not an action: the wait
/// goes on.
fn waits(evidence: &Evidence<'_>) -> Vec<Wait> {
    let is_wait = |moment: &&EventRecord| matches!(moment.action, Action::Wait { .. });
    let deeds = evidence.events.iter().filter(|moment| !is_wait(moment));
    let mut waits = Vec::new();
    let (mut from, mut kind) = (Tick(0), WaitKind::AtStation);
    let ends = deeds.map(|moment| (moment.tick, kind_after(&moment.action)));
    for (to, next) in ends.chain([(evidence.end_tick, WaitKind::AtStation)]) {
        if to.seconds_since(from) >= WAIT_FROM_S {
            waits.push(Wait { from, to, kind });
        }
        (from, kind) = (to, next);
    }
    waits
}

/// The kind of a wait after this action.
const fn kind_after(action: &Action) -> WaitKind {
    match action {
        Action::LeaveSite => WaitKind::Away,
        _ => WaitKind::AtStation,
    }
}

/// What was read, found, reported and decided.
fn notes(evidence: &Evidence<'_>, marks: &Marks) -> Vec<Note> {
    let readings = marks.readings.iter().enumerate();
    let readings = readings.map(|(n, it)| Note { tick: it.tick, what: NoteKind::Reading(n) });
    let findings = marks.findings.iter().enumerate();
    let findings = findings.map(|(n, it)| Note { tick: it.tick, what: NoteKind::Finding(n) });
    let remarks = evidence.remarks();
    let remarks =
        remarks.map(|(at, remark)| Note { tick: at.tick(), what: NoteKind::Remark(remark.place) });
    let decision = evidence.written(Field::Decision);
    let decision = decision.map(|at| Note { tick: at.tick(), what: NoteKind::Decision });
    let mut notes: Vec<Note> = readings.chain(findings).chain(remarks).chain(decision).collect();
    notes.sort_by_key(|note| note.tick);
    notes
}
