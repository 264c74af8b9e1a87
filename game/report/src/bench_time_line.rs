//! The timeline of a session as reports lay it out: minutes on the bench, without those away.

use sim_core::marking::Marks;
use sim_core::marking::time_line::{self, Span, WaitKind};
use sim_core::procedure::{Severity, WorkPhase};
use sim_core::session::ended_session::EndedSession;
use sim_core::time::Tick;

use super::grouped_findings::{GroupedFinding, grouped};

/// A session laid out in time.
#[derive(Debug, Clone, PartialEq)]
pub struct BenchTimeLine {
    /// The phases of the work, one after the other; together they cover the session.
    pub spans: Vec<Span>,
    /// Times at the station without any action.
    pub waits: Vec<(Tick, Tick)>,
    /// When a reading was written.
    pub readings: Vec<Tick>,
    /// When a finding was made, in the order and with the numbers of the findings.
    pub findings: Vec<(Tick, Severity)>,
    /// When the site was left for the run, if it was, and when the trainee was back.
    pub away: Option<(Tick, Tick)>,
    /// When the session ended.
    pub end: Tick,
}

/// What was done in one phase.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PhaseTime {
    /// The phase.
    pub phase: WorkPhase,
    /// When it was first started.
    pub first: Tick,
    /// Time spent in it, s.
    pub spent_s: f64,
    /// Of that, time spent waiting, s.
    pub waited_s: f64,
    /// Readings written in it.
    pub readings: usize,
    /// Findings made in it.
    pub findings: usize,
}

impl BenchTimeLine {
    /// The timeline of a session.
    pub fn of(session: &EndedSession, marks: &Marks) -> Self {
        let line = time_line::TimeLine::of(&session.evidence(), marks);
        let waits = |kind| line.waits.iter().filter(move |wait| wait.kind == kind);
        let mark = |one: &GroupedFinding<'_>| (one.finding.tick, one.finding.severity);
        Self {
            waits: waits(WaitKind::AtStation).map(|wait| (wait.from, wait.to)).collect(),
            readings: marks.readings.iter().map(|reading| reading.tick).collect(),
            findings: grouped(&marks.findings).iter().map(mark).collect(),
            away: waits(WaitKind::Away).map(|wait| (wait.from, wait.to)).next(),
            end: line.end,
            spans: line.phases,
        }
    }

    /// Each phase that there was, in the order of the work, with what happened in it.
    pub fn phases(&self) -> Vec<PhaseTime> {
        let mut phases: Vec<WorkPhase> = self.spans.iter().map(|span| span.phase).collect();
        phases.sort_unstable();
        phases.dedup();
        phases.into_iter().filter_map(|phase| self.phase(phase)).collect()
    }

    fn phase(&self, phase: WorkPhase) -> Option<PhaseTime> {
        let spans: Vec<&Span> = self.spans.iter().filter(|span| span.phase == phase).collect();
        let within = |from: Tick, to: Tick| -> f64 {
            let shared = |span: &&Span| span.to.min(to).seconds_since(span.from.max(from));
            spans.iter().map(shared).sum()
        };
        let holds = |tick: Tick| {
            // What is done at the very end belongs to the last span.
            spans.iter().any(|span| {
                (span.from..span.to).contains(&tick) || tick == span.to && tick == self.end
            })
        };
        let away_s = self.away.map_or(0.0, |(from, to)| within(from, to));
        Some(PhaseTime {
            phase,
            first: spans.first()?.from,
            spent_s: within(Tick(0), self.end) - away_s,
            waited_s: self.waits.iter().map(|&(from, to)| within(from, to)).sum(),
            readings: self.readings.iter().filter(|&&tick| holds(tick)).count(),
            findings: self.findings.iter().filter(|&&(tick, _)| holds(tick)).count(),
        })
    }

    /// Minutes on the bench at a tick: the time away is not counted.
    pub fn minutes_at(&self, tick: Tick) -> f64 {
        let away_s = self.away.map_or(0.0, |(from, to)| tick.min(to).seconds_since(from));
        (tick.seconds() - away_s) / 60.0
    }

    /// Minutes on the bench in all.
    pub fn minutes(&self) -> f64 {
        self.minutes_at(self.end)
    }
}
